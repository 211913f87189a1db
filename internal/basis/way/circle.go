package way

import (
	"container/heap"
	"math"
)

// circleSlack is how much larger than the answer of Largest a circle's radius could still be, in metres.
const circleSlack = 0.5e-5

// Circle is a clear circle on the floor, in metres.
type Circle struct {
	Centre   Point
	Diameter float64
	Touches  []int // the obstacles that keep it from being larger, by their places in Floor.Obstacles
}

// Largest is the largest circle that lies inside within and clear of the obstacles; its diameter is exact to 0.01 mm,
// and 0 where there is no room at all.
//
// It halves squares of floor, the most promising first. No circle about a point of a square can be larger than the one
// about its middle by more than half the square's diagonal. In the middle of a passage, where many places are as good as
// each other, that alone would never end; there the mean of the distances to the two sides, which is greatest at a corner
// of the square because distances to convex things are convex, is the bound.
func (f *Floor) Largest(within Shape) Circle {
	s := search{f: f, within: within}
	lo, hi := within.Bounds()
	all := make([]int, len(f.Obstacles)+len(within))
	for i := range all {
		all[i] = i
	}
	s.add(lo.lerp(hi, 0.5), max(hi.X-lo.X, hi.Z-lo.Z)/2, all)
	for len(s.squares) > 0 {
		q := heap.Pop(&s.squares).(square)
		if q.bound <= s.best+circleSlack {
			break
		}
		h := q.half / 2
		for _, d := range [4]Point{{-h, -h}, {h, -h}, {-h, h}, {h, h}} {
			s.add(q.middle.add(d), h, q.near)
		}
	}
	c := Circle{Centre: s.centre, Diameter: 2 * s.best}
	for i, o := range f.Obstacles {
		if _, d := o.Shape.Nearest(s.centre); s.best > 0 && d <= s.best+4*circleSlack {
			c.Touches = append(c.Touches, i)
		}
	}
	return c
}

// square is a part of the floor that may hold the best centre.
type square struct {
	middle Point
	half   float64 // half the length of its side
	bound  float64 // no circle about a point of the square has a larger radius
	near   []int   // what could be nearest to a point of the square: obstacles, then edges of within
}

type search struct {
	f       *Floor
	within  Shape
	squares squares
	best    float64
	centre  Point
}

// room is the distance from p to obstacle i, or to an edge of within; negative in the obstacle or outside of within.
func (s *search) room(i int, p Point) float64 {
	if n := len(s.f.Obstacles); i >= n {
		return beyond(s.within[i-n], s.within[(i-n+1)%len(s.within)], p)
	}
	shape := s.f.Obstacles[i].Shape
	if _, d := shape.Nearest(p); d > 0 || len(shape) < 3 {
		return d
	}
	depth := math.Inf(1)
	for k, a := range shape {
		depth = min(depth, beyond(a, shape[(k+1)%len(shape)], p))
	}
	return -depth
}

// beyond is how far p is on the inner side of a shape's edge.
func beyond(a, b, p Point) float64 { return b.sub(a).cross(p.sub(a)) / a.Dist(b) }

func (s *search) add(middle Point, half float64, near []int) {
	reach := half * math.Sqrt2
	room := make([]float64, len(near))
	least := math.Inf(1)
	for k, i := range near {
		room[k] = s.room(i, middle)
		least = min(least, room[k])
	}
	if least > s.best {
		s.best, s.centre = least, middle
	}
	q := square{middle: middle, half: half, bound: least + reach}
	if q.bound <= s.best+circleSlack {
		return
	}
	for k, i := range near {
		if room[k] <= least+2*reach {
			q.near = append(q.near, i)
		}
	}
	q.bound = min(q.bound, s.between(q))
	if q.bound > s.best+circleSlack {
		heap.Push(&s.squares, q)
	}
}

// between is a bound by pairs: where two things lie on either side, the smaller of their distances is at most the mean.
func (s *search) between(q square) float64 {
	bound := math.Inf(1)
	corners := make([][4]float64, len(q.near))
	for k, i := range q.near {
		for c, d := range [4]Point{{-q.half, -q.half}, {q.half, -q.half}, {-q.half, q.half}, {q.half, q.half}} {
			corners[k][c] = s.room(i, q.middle.add(d))
		}
		for _, o := range corners[:k] {
			worst := math.Inf(-1)
			for c := range o {
				worst = max(worst, (o[c]+corners[k][c])/2)
			}
			bound = min(bound, worst)
		}
	}
	return bound
}

// squares is a heap: the most promising on top, and of those that are as good to within the slack the smallest, so that
// one good circle is found quickly and rules out the rest.
type squares []square

func (s squares) Len() int { return len(s) }
func (s squares) Less(i, j int) bool {
	a, b := math.Floor(s[i].bound/circleSlack), math.Floor(s[j].bound/circleSlack)
	if a != b {
		return a > b
	}
	return s[i].half < s[j].half
}
func (s squares) Swap(i, j int) { s[i], s[j] = s[j], s[i] }
func (s *squares) Push(q any)   { *s = append(*s, q.(square)) }
func (s *squares) Pop() any {
	q := (*s)[len(*s)-1]
	*s = (*s)[:len(*s)-1]
	return q
}
