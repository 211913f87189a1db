// Package way is the geometry of getting about on a floor: how wide the widest way between two places is and where it
// is narrowest, the largest circle that fits, the ground that a solid takes up. It is exact: nothing is sampled but the
// line that Route draws.
//
// Everything is seen from above, in metres: X to the visitor's right, Z towards the aisle, as in geom.
package way

import (
	"cmp"
	"math"
	"slices"
)

// Point is a place on the floor.
type Point struct{ X, Z float64 }

func (a Point) sub(b Point) Point             { return Point{a.X - b.X, a.Z - b.Z} }
func (a Point) add(b Point) Point             { return Point{a.X + b.X, a.Z + b.Z} }
func (a Point) mul(s float64) Point           { return Point{float64(a.X * s), float64(a.Z * s)} }
func (a Point) dot(b Point) float64           { return float64(a.X*b.X) + float64(a.Z*b.Z) }
func (a Point) cross(b Point) float64         { return float64(a.X*b.Z) - float64(a.Z*b.X) }
func (a Point) Dist(b Point) float64          { d := a.sub(b); return math.Sqrt(d.dot(d)) }
func (a Point) lerp(b Point, t float64) Point { return a.add(b.sub(a).mul(t)) }

// Shape is a convex polygon on the floor, its corners in the order of Hull. Two corners are a line, one is a spot.
type Shape []Point

// Bounds are the least and the greatest X and Z of the shape; infinite the wrong way round for one without points.
func (s Shape) Bounds() (lo, hi Point) {
	lo, hi = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range s {
		lo = Point{min(lo.X, p.X), min(lo.Z, p.Z)}
		hi = Point{max(hi.X, p.X), max(hi.Z, p.Z)}
	}
	return lo, hi
}

// Hull is the smallest convex shape that holds the points; the given slice is sorted.
func Hull(points []Point) Shape {
	slices.SortFunc(points, func(a, b Point) int {
		if c := cmp.Compare(a.X, b.X); c != 0 {
			return c
		}
		return cmp.Compare(a.Z, b.Z)
	})
	points = slices.Compact(points)
	if len(points) < 3 {
		return slices.Clone(points)
	}
	// Andrew's chains: along the bottom, then back along the top.
	hull := make(Shape, 0, len(points)+1)
	turn := func(p Point, keep int) {
		for len(hull) > keep && hull[len(hull)-1].sub(hull[len(hull)-2]).cross(p.sub(hull[len(hull)-1])) <= 0 {
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, p)
	}
	for _, p := range points {
		turn(p, 1)
	}
	for i, keep := len(points)-2, len(hull); i >= 0; i-- {
		turn(points[i], keep)
	}
	return hull[:len(hull)-1]
}

// Rect is the upright rectangle between two opposite corners.
func Rect(a, b Point) Shape {
	x0, x1, z0, z1 := min(a.X, b.X), max(a.X, b.X), min(a.Z, b.Z), max(a.Z, b.Z)
	return Shape{{x0, z0}, {x1, z0}, {x1, z1}, {x0, z1}}
}

// Middle is a point inside the shape: the mean of its corners.
func (s Shape) Middle() Point {
	var m Point
	for _, p := range s {
		m = m.add(p)
	}
	return m.mul(1 / float64(len(s)))
}

// Holds reports whether p is in the shape or on its edge. A line or a spot holds nothing.
func (s Shape) Holds(p Point) bool {
	a := s[len(s)-1]
	for _, b := range s {
		if b.sub(a).cross(p.sub(a)) < 0 {
			return false
		}
		a = b
	}
	return len(s) > 2
}

// Nearest is the point of the shape nearest to p: p itself inside it. Only sides that p is outside of can have it.
func (s Shape) Nearest(p Point) (Point, float64) {
	near, square, within := s[0], math.Inf(1), len(s) > 2
	a := s[len(s)-1]
	for _, b := range s {
		if len(s) < 3 || b.sub(a).cross(p.sub(a)) < 0 {
			within = false
			q := onLine(p, a, b)
			if d := q.sub(p); d.dot(d) < square {
				near, square = q, d.dot(d)
			}
		}
		a = b
	}
	if within {
		return p, 0
	}
	return near, math.Sqrt(square)
}

// onLine is the point of the line from a to b nearest to p.
func onLine(p, a, b Point) Point {
	d := b.sub(a)
	l := d.dot(d)
	if l == 0 {
		return a
	}
	switch t := p.sub(a).dot(d) / l; {
	case t <= 0:
		return a
	case t >= 1:
		return b
	default:
		return a.lerp(b, t)
	}
}

// Closest are the points of two shapes that are nearest to each other and their distance; where the shapes overlap,
// one point of both and 0.
func Closest(a, b Shape) (pa, pb Point, dist float64) {
	if b.Holds(a[0]) {
		return a[0], a[0], 0
	}
	if a.Holds(b[0]) {
		return b[0], b[0], 0
	}
	dist = math.Inf(1)
	for i, p := range a {
		p2 := a[(i+1)%len(a)]
		for j, q := range b {
			q2 := b[(j+1)%len(b)]
			if x, ok := crossing(p, p2, q, q2); ok {
				return x, x, 0
			}
			if r := onLine(p, q, q2); r.Dist(p) < dist {
				pa, pb, dist = p, r, r.Dist(p)
			}
			if r := onLine(q, p, p2); r.Dist(q) < dist {
				pa, pb, dist = r, q, r.Dist(q)
			}
		}
	}
	return pa, pb, dist
}

// crossing is where the lines from a to b and from c to d cross. Lines that only touch do not count: Closest finds
// those by their ends.
func crossing(a, b, c, d Point) (Point, bool) {
	ab, cd := b.sub(a), d.sub(c)
	sc, sd := ab.cross(c.sub(a)), ab.cross(d.sub(a))
	sa, sb := cd.cross(a.sub(c)), cd.cross(b.sub(c))
	if (sc > 0) == (sd > 0) || (sa > 0) == (sb > 0) || sc == sd {
		return Point{}, false
	}
	return c.lerp(d, sc/(sc-sd)), true
}

// Common is what two shapes have in common, its corners in the order of Hull: nothing where they only touch. A shape is cut
// along each edge of the other (Sutherland and Hodgman, Communications of the ACM 17(1), 1974).
func Common(s, t Shape) Shape {
	out := s
	for i, a := range t {
		b := t[(i+1)%len(t)]
		in, cut := func(p Point) float64 { return b.sub(a).cross(p.sub(a)) }, Shape(nil)
		for k, p := range out {
			q := out[(k+1)%len(out)]
			from, to := in(p), in(q)
			if from > 0 {
				cut = append(cut, p)
			}
			if from > 0 != (to > 0) {
				cut = append(cut, p.lerp(q, from/(from-to)))
			}
		}
		out = cut
	}
	if len(out) < 3 {
		return nil
	}
	return out
}
