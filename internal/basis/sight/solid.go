package sight

import (
	"math"
	"slices"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/geom"
)

// Solid is a blocker with its owner's number.
type Solid struct {
	Convex geom.Convex
	Owner  int
	Veil   bool // counted after all that are no veils, however near it is: for cloth that glows where nothing else hides it

	centre, half geom.Vec  // of the bounds
	shown        float64   // m²: how large it looks from afar, over all directions; a quarter of its surface (Cauchy)
	length       float64   // metres: the largest of its bounds' length, width and depth
	girth        float64   // and the middle one of them
	planes       []plane   // of the faces
	areas        []float64 // of the faces, m²
	edges        []edge
}

// plane is the points p with n·p = d; n is a unit vector and points out of the solid.
type plane struct {
	n geom.Vec
	d float64
}

// above is the distance of p from the plane in metres, positive outside of the solid.
func (q plane) above(p geom.Vec) float64 { return q.n.Dot(p) - q.d }

// edge runs from corner a to corner b as its face left is walked counterclockwise, seen from outside; right is the
// face on its other side.
type edge struct{ a, b, left, right int }

// NewSolid prepares a convex solid for being looked past.
func NewSolid(c geom.Convex, owner int) Solid {
	lo, hi := c.Bounds()
	s := Solid{Convex: c, Owner: owner, centre: lo.Lerp(hi, 0.5), half: hi.Sub(lo).Mul(0.5)}
	sizes := []float64{2 * s.half.X, 2 * s.half.Y, 2 * s.half.Z}
	slices.Sort(sizes)
	s.girth, s.length = sizes[1], sizes[2]
	for i, f := range c.Faces {
		p := c.Face(i)
		n := p.Normal()
		s.planes = append(s.planes, plane{n, n.Dot(p.Centre())})
		s.areas = append(s.areas, p.Area())
		s.shown += s.areas[i] / 4
		for k, a := range f {
			if b := f[(k+1)%len(f)]; a < b {
				s.edges = append(s.edges, edge{a, b, i, other(c.Faces, i, b, a)})
			}
		}
	}
	return s
}

// NewSolids are those of one owner; what was kept of them, by a sum of what they are, is taken over.
func NewSolids(solids []geom.Convex, owner int, kept *answer.Kept, of answer.Sum) []Solid {
	type prepared answer.Sum
	out := slices.Clone(answer.Of(kept, prepared(of), func() (out []Solid, bytes int) {
		for _, c := range solids {
			s := NewSolid(c, owner)
			out, bytes = append(out, s), bytes+s.Bytes()
		}
		return out, bytes
	}))
	for i := range out {
		out[i].Owner = owner
	}
	return out
}

// Bytes is about how much memory the solid takes.
func (s *Solid) Bytes() int {
	return 250 + geom.Bytes([]geom.Convex{s.Convex}) + 40*len(s.planes) + 32*len(s.edges)
}

// Bounds are the lowest and the highest corner of the box about the solid.
func (s *Solid) Bounds() (lo, hi geom.Vec) { return s.centre.Sub(s.half), s.centre.Add(s.half) }

// other is the face, not being face i, that is walked from corner a to corner b.
func other(faces [][]int, i, a, b int) int {
	for j, f := range faces {
		for k, c := range f {
			if j != i && c == a && f[(k+1)%len(f)] == b {
				return j
			}
		}
	}
	return i // an open solid: no face on the other side, and so no outline there
}

// Reach are the lowest and the highest corner of a box outside of which Look passes the solid over, if Gaze.Least is least.
func (s *Solid) Reach(least float64) (lo, hi geom.Vec) {
	const far = 1e6 // metres
	r := min(far, math.Sqrt(s.shown/(least*math.Pi))*(1+1e-12))
	beside := s.length / 2 * (1 + 1e-12)
	d := geom.Vec{X: max(r, s.half.X+beside), Y: max(r, s.half.Y+beside), Z: max(r, s.half.Z+beside)}
	return s.centre.Sub(d), s.centre.Add(d)
}

// fills is about which share of what a surface sees the solid fills at most, weighted by the cosine. c is where its middle is as seen from
// the surface, and ahead how far it comes out before that, in metres and above 0. From afar that is by the distance of its middle. Within half
// its length of it that says nothing, as before one end of a valance: there a thing w wide and l long, g away, fills w/2g of the view if it is
// endless, and w·l/πg² if it is short; and no more than a wall as high as it comes out does, endless to both sides: half of 1 - g/√(g²+h²)
// (view factors, as any textbook of radiation has them).
func (s *Solid) fills(c geom.Vec, ahead float64) float64 {
	d := c.Dot(c)
	afar := s.shown * min(1, ahead/math.Sqrt(d)) / (math.Pi * d)
	gap := s.gap(c)
	if gap >= s.length/2 {
		return afar
	}
	return max(afar, min((1-gap/math.Hypot(gap, ahead))/2, s.girth/2/gap*s.length/(s.length+float64(math.Pi/2*gap))))
}

// gap is how far the solid's bounds are from a point from which its middle is seen at c, in metres.
func (s *Solid) gap(c geom.Vec) float64 {
	return geom.Vec{X: max(0, math.Abs(c.X)-s.half.X), Y: max(0, math.Abs(c.Y)-s.half.Y), Z: max(0, math.Abs(c.Z)-s.half.Z)}.Len()
}

// Counts reports whether Look from p, over all before a surface with normal n, may not pass the solid over if Gaze.Least is least.
func (s *Solid) Counts(p, n geom.Vec, least float64) bool {
	const more = 1 + 1e-9 // for rounding
	c := s.centre.Sub(p)
	ahead := n.Dot(c) + float64(spread(n, s.half)*more)
	return ahead > 0 && s.fills(c, ahead)*more >= least
}

// Fills is about which share of the view before a surface at p with normal n the solid fills, weighted by the cosine, 0 to 1, if nothing
// hides it; and how far away its bounds are, in metres.
func (s *Solid) Fills(p, n geom.Vec) (share, far float64) {
	c := s.centre.Sub(p)
	far = s.gap(c)
	ahead := n.Dot(c) + spread(n, s.half)
	if ahead <= 0 {
		return 0, far
	}
	return min(1, s.fills(c, ahead)), far
}

// Shift is how far the bounds of two solids are from being the same, in metres.
func (s *Solid) Shift(o *Solid) float64 { return s.centre.Dist(o.centre) + s.half.Dist(o.half) }

// Covers reports whether Look from p takes what solid o hides from it to be hidden by s already, all of it; it may say no
// though it is so.
func (s *Solid) Covers(p geom.Vec, o *Solid) bool {
	if s.Veil || !o.Veil && s.gap(s.centre.Sub(p)) >= o.gap(o.centre.Sub(p)) {
		return false
	}
	for _, c := range o.Convex.Corners {
		if !s.inTheWay(p, c.Sub(p)) {
			return false
		}
	}
	return true
}

// inTheWay reports whether the line from p along d, without end, runs through the solid, and not only along it.
func (s *Solid) inTheWay(p, d geom.Vec) bool { return s.crossed(p, d, math.Inf(1), 1+1e-6) }

// crossed reports whether the line from p, as far as to times d, runs through the solid, and comes out of it at more than least times the
// way to where it came in: it is cut at every plane (Cyrus and Beck, Computers & Graphics 3(1), 1978).
func (s *Solid) crossed(p, d geom.Vec, to, least float64) bool {
	from := 0.0
	for _, q := range s.planes {
		h, k := q.above(p), q.n.Dot(d)
		switch {
		case k > 0:
			to = min(to, -h/k)
		case k < 0:
			from = max(from, -h/k)
		case h >= 0:
			return false
		}
		if to <= from*least {
			return false
		}
	}
	return true
}

// before orders solids that are equally far from the eye, by their shape and then by their owner, so that the order in
// which they are listed never matters.
func (s *Solid) before(o *Solid) bool {
	a, b := s.Convex.Corners, o.Convex.Corners
	for i := range min(len(a), len(b)) {
		switch p, q := a[i], b[i]; {
		case p.X != q.X:
			return p.X < q.X
		case p.Y != q.Y:
			return p.Y < q.Y
		case p.Z != q.Z:
			return p.Z < q.Z
		}
	}
	if len(a) != len(b) {
		return len(a) < len(b)
	}
	return s.Owner < o.Owner
}

// Leave is the shortest way out of the solid from p, with margin to spare, through a face that looks along the direction
// along. A long way counts as short if it leads through a large face: a sheet of cloth is left through its sides, not its
// hems. It reports false for a point that is clear of the solid already.
func (s *Solid) Leave(p, along geom.Vec, margin float64) (geom.Vec, bool) {
	return s.leave(p, margin, func(i int, h float64) float64 {
		if k := along.Dot(s.planes[i].n); k > 0 {
			return h / (k * s.areas[i])
		}
		return math.Inf(1)
	})
}

// Aside is the shortest way out of the solid from p, with margin to spare, that does not lead back against the direction
// ahead; false for a point that is clear of the solid already.
func (s *Solid) Aside(p, ahead geom.Vec, margin float64) (geom.Vec, bool) {
	return s.leave(p, margin, func(i int, h float64) float64 {
		if ahead.Dot(s.planes[i].n) > -0.5 {
			return h
		}
		return math.Inf(1)
	})
}

// leave is the way out through the face for which the cost is least; it is h metres long.
func (s *Solid) leave(p geom.Vec, margin float64, cost func(i int, h float64) float64) (geom.Vec, bool) {
	c := p.Sub(s.centre)
	if math.Abs(c.X) > s.half.X+margin || math.Abs(c.Y) > s.half.Y+margin || math.Abs(c.Z) > s.half.Z+margin {
		return geom.Vec{}, false
	}
	var out geom.Vec
	best := math.Inf(1)
	for i, q := range s.planes {
		h := margin - q.above(p)
		if h <= 0 {
			return geom.Vec{}, false
		}
		if w := cost(i, h); w < best {
			best, out = w, q.n.Mul(h)
		}
	}
	return out, true
}

// Stops reports whether the straight line from a to b runs through the solid.
func (s *Solid) Stops(a, b geom.Vec) bool {
	d := b.Sub(a)
	// The point of the line that is nearest to the middle of the bounds must be within their reach.
	c := s.centre.Sub(a)
	t := max(0, min(1, c.Dot(d)/d.Dot(d)))
	if c = c.Sub(d.Mul(t)); c.Dot(c) > s.half.Dot(s.half) {
		return false
	}
	return s.crossed(a, d, 1, 1)
}
