package way

import (
	"container/heap"
	"math"
	"slices"
)

const (
	side   = 0.04 // metres: side of a square of Route's grid
	around = 4.0  // metres round the two places in which a way is sought
	shy    = 0.15 // metres: a way this close to something counts as twice as long, so that lines keep to the middle
)

// Route is a line to draw from one place to another that keeps half of width clear on both sides, to within 4 cm; nil if
// there is none within 4 m of the two places. It is found on a grid and drawn with few corners; what it is for is to be
// looked at. The width to ask for is Widest's.
func (f *Floor) Route(from, to Point, width float64) []Point {
	g := grid{f: f, keep: max(0.001, min(width/2, f.Clearance(from).Width, f.Clearance(to).Width)-side), from: from, to: to}
	g.lo = Point{min(from.X, to.X) - around, min(from.Z, to.Z) - around}
	g.nx = int((math.Abs(from.X-to.X)+2*around)/side) + 1
	g.nz = int((math.Abs(from.Z-to.Z)+2*around)/side) + 1
	line := g.line()
	if line == nil {
		return nil
	}
	// Leave out corners as long as the straight piece keeps its distance too.
	out := []Point{from}
	for i := 0; i < len(line)-1; {
		j := i + 1
		for k := len(line) - 1; k > j; k-- {
			if f.free(line[i], line[k], g.keep) {
				j = k
				break
			}
		}
		out = append(out, line[j])
		i = j
	}
	return out
}

// free reports whether the straight piece from a to b keeps its distance from every obstacle.
func (f *Floor) free(a, b Point, keep float64) bool {
	lo, hi := Shape{a, b}.Bounds()
	for i, o := range f.Obstacles {
		if f.off(i, lo, hi) > keep*keep {
			continue
		}
		if _, _, d := Closest(o.Shape, Shape{a, b}); d < keep {
			return false
		}
	}
	return true
}

// grid is a search for the best way over squares (A*: Hart, Nilsson and Raphael, 1968).
type grid struct {
	f        *Floor
	keep     float64
	from, to Point
	lo       Point
	nx, nz   int
}

func (g *grid) at(k int) Point {
	return g.lo.add(Point{float64(float64(k%g.nx) * side), float64(float64(k/g.nx) * side)})
}

func (g *grid) square(p Point) int {
	p = p.sub(g.lo)
	return int(math.Round(p.Z/side))*g.nx + int(math.Round(p.X/side))
}

// line are the two places with the middles of the squares between them.
func (g *grid) line() []Point {
	n := g.nx * g.nz
	cost, room, before := make([]float64, n), make([]float64, n), make([]int, n)
	for k := range cost {
		cost[k], room[k] = math.Inf(1), -1
	}
	start, goal := g.square(g.from), g.square(g.to)
	cost[start], before[start] = 0, -1
	todo := steps{{start, 0, g.at(start).Dist(g.to)}}
	for len(todo) > 0 {
		s := heap.Pop(&todo).(step)
		if s.cost > cost[s.square] {
			continue
		}
		if s.square == goal {
			line := []Point{g.to}
			for k := before[goal]; k > 0 && k != start; k = before[k] {
				line = append(line, g.at(k))
			}
			line = append(line, g.from)
			slices.Reverse(line)
			return line
		}
		for d := range 9 {
			i, j := s.square%g.nx+d%3-1, s.square/g.nx+d/3-1
			if d == 4 || i < 0 || j < 0 || i >= g.nx || j >= g.nz {
				continue
			}
			k := j*g.nx + i
			p := g.at(k)
			if room[k] < 0 {
				room[k] = g.f.Clearance(p).Width
			}
			if room[k] < g.keep && k != goal {
				continue
			}
			c := s.cost + float64(g.at(s.square).Dist(p)*(1+shy/max(shy/4, room[k])))
			if c < cost[k] {
				cost[k], before[k] = c, s.square
				heap.Push(&todo, step{k, c, c + p.Dist(g.to)})
			}
		}
	}
	return nil
}

// step is a square that has been reached: what it cost, and what the whole way will cost at least.
type step struct {
	square      int
	cost, whole float64
}

type steps []step

func (s steps) Len() int { return len(s) }
func (s steps) Less(i, j int) bool {
	if s[i].whole != s[j].whole {
		return s[i].whole < s[j].whole
	}
	return s[i].square < s[j].square
}
func (s steps) Swap(i, j int) { s[i], s[j] = s[j], s[i] }
func (s *steps) Push(x any)   { *s = append(*s, x.(step)) }
func (s *steps) Pop() any {
	x := (*s)[len(*s)-1]
	*s = (*s)[:len(*s)-1]
	return x
}
