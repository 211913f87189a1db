package way

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"boothmock/internal/basis/geom"
)

// Obstacle is something that one cannot walk through.
type Obstacle struct {
	Shape Shape
	Owner int // the caller's own number for the thing
}

// Floor is a floor with obstacles on it, made ready for questions; several goroutines may ask.
type Floor struct {
	Obstacles []Obstacle
	middles   []Point
	los, his  []Point      // the obstacles' bounds
	tree      *geom.Tree   // of these
	all       func() []Gap // between every two obstacles; measured when first asked for
	gaps      func() []Gap // the same, narrowest first
	open      func() []Gap // those of them without a third obstacle between
}

// Gap is the narrow place between two obstacles, or between one obstacle and a place where somebody stands.
type Gap struct {
	A, B     int     // the obstacles, by their places in Floor.Obstacles; -1 where there is none
	AtA, AtB Point   // the two points that are nearest to each other
	Width    float64 // metres; +Inf where nothing narrows the way
}

// NewFloor is a floor with the obstacles on it. Their shapes must not be changed afterwards.
func NewFloor(obstacles []Obstacle) *Floor {
	f := &Floor{Obstacles: obstacles}
	for _, o := range obstacles {
		lo, hi := o.Shape.Bounds()
		f.middles, f.los, f.his = append(f.middles, o.Shape.Middle()), append(f.los, lo), append(f.his, hi)
	}
	f.tree = geom.NewTree(len(obstacles), func(i int) (lo, hi geom.Vec) { return f.los[i].flat(), f.his[i].flat() })
	f.all = sync.OnceValue(f.measure)
	f.gaps = sync.OnceValue(func() []Gap { return narrowestFirst(slices.Clone(f.all())) })
	f.open = sync.OnceValue(func() []Gap { return narrowestFirst(f.thin()) })
	return f
}

// measure finds the gap between every two obstacles.
func (f *Floor) measure() []Gap {
	var gaps []Gap
	for i, a := range f.Obstacles {
		for j, b := range f.Obstacles[:i] {
			g := Gap{A: j, B: i}
			g.AtA, g.AtB, g.Width = Closest(b.Shape, a.Shape)
			gaps = append(gaps, g)
		}
	}
	return gaps
}

func narrowestFirst(gaps []Gap) []Gap {
	// Of gaps as wide as each other, to a thousandth of a hair, those on the left come last: then of two ways past a thing
	// it is the left one that Widest gives.
	const fine = 1e9 // parts of a metre
	slices.SortStableFunc(gaps, func(a, b Gap) int {
		return cmp.Or(cmp.Compare(math.Round(a.Width*fine), math.Round(b.Width*fine)), cmp.Compare(math.Round((b.AtA.X+b.AtB.X)*fine), math.Round((a.AtA.X+a.AtB.X)*fine)))
	})
	return gaps
}

// Clearance is the obstacle nearest to p, as a gap from it to p: of several the first.
func (f *Floor) Clearance(p Point) Gap {
	g := Gap{A: -1, B: -1, AtB: p, Width: math.Inf(1)}
	f.tree.Each(func(lo, hi geom.Vec) bool {
		return away(Point{lo.X, lo.Z}, Point{hi.X, hi.Z}, p, p) <= g.Width*g.Width
	}, func(i int) {
		// Too far away to matter: no root needed, and no look at its edges.
		if f.off(i, p, p) > g.Width*g.Width {
			return
		}
		if q, d := f.Obstacles[i].Shape.Nearest(p); d < g.Width || d == g.Width && i < g.A {
			g.A, g.AtA, g.Width = i, q, d
		}
	})
	return g
}

func (p Point) flat() geom.Vec { return geom.Vec{X: p.X, Z: p.Z} }

// off is the square of the distance between an obstacle's bounds and an upright rectangle: no more than that between what is
// in them.
func (f *Floor) off(obstacle int, lo, hi Point) float64 {
	return away(f.los[obstacle], f.his[obstacle], lo, hi)
}

// away is the square of the distance between two upright rectangles.
func away(lo1, hi1, lo2, hi2 Point) float64 {
	d := Point{max(0, lo1.X-hi2.X, lo2.X-hi1.X), max(0, lo1.Z-hi2.Z, lo2.Z-hi1.Z)}
	return d.dot(d)
}

// Widest is the narrowest place of the widest way between two places: a disc of that diameter can be moved from one to
// the other, and no larger one can. Gaps between obstacles that are given as let do not count. If it is one of the two
// places itself that has too little room, Width is twice the distance to the obstacle A and B is -1.
//
// A disc is stopped just when obstacles whose gaps are narrower than it form a closed chain with one of the places
// inside and the other outside. So gaps are closed from the narrowest up, chains are kept as a forest, each with the
// number of times (odd or even) that the line from link to link passes the two places on one side, and the first gap
// that closes a ring which passes them an odd number of times is the answer. (For discs: Cabello and Giannopoulos, "The
// complexity of separating points in the plane", Algorithmica 74, 2016; it holds for convex obstacles because two of
// them, blown up, meet in one piece.)
func (f *Floor) Widest(from, to Point, let ...Gap) Gap {
	best := f.Clearance(from)
	if end := f.Clearance(to); end.Width < best.Width {
		best = end
	}
	best.Width *= 2
	chain := newChains(len(f.Obstacles))
	gaps := f.open
	if len(let) > 0 { // a gap that is let through closes nothing, so one across it may
		gaps = f.gaps
	}
	for _, g := range gaps() {
		if g.Width >= best.Width {
			break
		}
		if slices.ContainsFunc(let, func(l Gap) bool { return l.A == g.A && l.B == g.B }) {
			continue
		}
		line := [4]Point{f.middles[g.A], g.AtA, g.AtB, f.middles[g.B]}
		odd := passes(line, from) != passes(line, to)
		if chain.join(g.A, g.B, odd) {
			return g
		}
	}
	return best
}

// passes reports whether the line crosses the ray from p to the right an odd number of times. Ends count as above or
// not above the ray, so that a corner exactly on the ray is counted once, and rings come out right.
func passes(line [4]Point, p Point) bool {
	odd := false
	for i, a := range line[:3] {
		b := line[i+1]
		if (a.Z > p.Z) != (b.Z > p.Z) && p.X < a.X+float64((p.Z-a.Z)/(b.Z-a.Z)*(b.X-a.X)) {
			odd = !odd
		}
	}
	return odd
}

// chains is a forest of joined obstacles; odd is the parity of the line from an obstacle to its parent.
type chains struct {
	parent []int
	odd    []bool
}

func newChains(n int) chains {
	c := chains{make([]int, n), make([]bool, n)}
	for i := range c.parent {
		c.parent[i] = i
	}
	return c
}

// root is the obstacle at the end of i's chain, and the parity of the line to it.
func (c chains) root(i int) (int, bool) {
	odd := false
	for c.parent[i] != i {
		p := c.parent[i]
		odd = odd != c.odd[i]
		if pp := c.parent[p]; pp != p { // shorten the way for the next time
			c.odd[i] = c.odd[i] != c.odd[p]
			c.parent[i] = pp
			odd = odd != c.odd[p]
			p = pp
		}
		i = p
	}
	return i, odd
}

// join links a and b by a line of the given parity and reports whether that closes an odd ring.
func (c chains) join(a, b int, odd bool) bool {
	ra, oa := c.root(a)
	rb, ob := c.root(b)
	if ra == rb {
		return (oa != ob) != odd
	}
	c.parent[ra] = rb
	c.odd[ra] = (oa != ob) != odd
	return false
}

// Throat is the ground of the gap where it is narrower than limit, and how long that is, measured along it: two boards
// 33 in apart that face each other for 20 in are narrower than 36 in for 20 in. Both g.A and g.B must be obstacles that
// do not touch, and limit must be more than the gap's width.
func (f *Floor) Throat(g Gap, limit float64) (ground Shape, length float64) {
	across := g.AtB.sub(g.AtA).mul(1 / g.Width)
	along := Point{-across.Z, across.X}
	// In (along, across) coordinates, A ends at a height a(u) and B begins at b(u). b-a is convex, made of straight
	// pieces between the corners, and least at u = 0, so it is below the limit from some u0 to some u1.
	turned := func(i int) Shape {
		s := make(Shape, len(f.Obstacles[i].Shape))
		for k, p := range f.Obstacles[i].Shape {
			p = p.sub(g.AtA)
			s[k] = Point{p.dot(along), p.dot(across)}
		}
		return s
	}
	a, b := turned(g.A), turned(g.B)
	at := []float64{0}
	for _, p := range append(slices.Clone(a), b...) {
		at = append(at, p.X)
	}
	slices.Sort(at)
	u0, u1 := 0.0, 0.0
	for i := 1; i < len(at); i++ {
		u, v := at[i-1], at[i]
		wu, wv := width(a, b, u), width(a, b, v)
		if min(wu, wv) >= limit {
			continue
		}
		if wu > limit {
			u = v - (v-u)*(limit-wv)/(wu-wv)
		}
		if wv > limit {
			v = u + (v-u)*(limit-wu)/(wv-wu)
		}
		u0, u1 = min(u0, u), max(u1, v)
	}
	var corners []Point
	for _, u := range [2]float64{u0, u1} {
		_, top := span(a, u)
		bottom, _ := span(b, u)
		corners = append(corners, g.AtA.add(along.mul(u)).add(across.mul(top)), g.AtA.add(along.mul(u)).add(across.mul(bottom)))
	}
	return Hull(append(corners, g.AtA, g.AtB)), u1 - u0
}

// width is how far b begins beyond the end of a at u along: +Inf where they do not face each other.
func width(a, b Shape, u float64) float64 {
	_, top := span(a, u)
	bottom, _ := span(b, u)
	return bottom - top
}

// span is the shape's lowest and highest Z at X = u: +Inf and -Inf where it has none.
func span(s Shape, u float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i, p := range s {
		q := s[(i+1)%len(s)]
		if (p.X < u && q.X < u) || (p.X > u && q.X > u) {
			continue
		}
		z := [2]float64{p.Z, q.Z}
		if p.X != q.X {
			z[0] = p.Z + float64((u-p.X)/(q.X-p.X)*(q.Z-p.Z))
			z[1] = z[0]
		}
		lo, hi = min(lo, z[0], z[1]), max(hi, z[0], z[1])
	}
	return lo, hi
}
