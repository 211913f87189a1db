package figure

import (
	"cmp"
	"math"
	"slices"

	"boothmock/internal/basis/geom"
)

// How far the solids of a body may stand out of its drawn skin where that is hollow, as a share of its height: an adult's by
// 4 mm, so that seen from any side they cover some half per cent too much. And how far a point of the skin may be outside of them,
// in metres.
const (
	standsOut = 0.004 / 1.69
	hullSlack = 0.0008
)

// solids are convex hulls of pieces of the drawn skin, so small that none stands out of it much. Together they hide what the
// body hides: whatever meets the skin meets the hull of a piece of it.
func (b body) solids(f faces) []geom.Convex {
	lo, hi := geom.Bounds(f.points)
	parts := make([]patch, len(b.pieces))
	for i := range f.triangles {
		c, nearest, of := f.middle(i), 0.0, 0
		for k, s := range b.pieces {
			if d := s(c); k == 0 || d < nearest {
				nearest, of = d, k
			}
		}
		parts[of].triangles = append(parts[of].triangles, i)
	}
	var out []geom.Convex
	for _, p := range parts {
		if len(p.triangles) > 0 {
			out = append(out, f.wrapped(f.wrap(p.triangles), standsOut*(hi.Y-lo.Y))...)
		}
	}
	return out
}

// patch is a piece of a skin with its hull, and how far that stands out.
type patch struct {
	triangles []int
	hull      geom.Convex
	out       float64 // metres
	worst     int     // the triangle that is deepest in it
}

// wrapped are the hulls of a piece of skin. Where its hull stands out too far it is cut in two across its longest axis, in
// the middle or where it is hollowest, whichever leaves less standing out. most is in metres.
func (f faces) wrapped(p patch, most float64) []geom.Convex {
	const fewest = 8 // triangles
	if p.out <= most || len(p.triangles) < fewest {
		return []geom.Convex{p.hull}
	}
	along := func(v geom.Vec) float64 { return v.Y }
	lo, hi := p.hull.Bounds()
	if d := hi.Sub(lo); d.X > d.Y && d.X > d.Z {
		along = func(v geom.Vec) float64 { return v.X }
	} else if d.Z > d.Y {
		along = func(v geom.Vec) float64 { return v.Z }
	}
	order := slices.Clone(p.triangles)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(along(f.middle(a)), along(f.middle(b))) })
	var best [2]patch
	least := math.Inf(1)
	for _, cut := range [2]int{len(order) / 2, max(len(order)/6, min(slices.Index(order, p.worst), len(order)*5/6))} {
		two := [2]patch{f.wrap(order[:cut]), f.wrap(order[cut:])}
		if o := two[0].out + two[1].out; o < least {
			least, best = o, two
		}
	}
	return append(f.wrapped(best[0], most), f.wrapped(best[1], most)...)
}

// wrap is the hull of some triangles.
func (f faces) wrap(triangles []int) patch {
	var points []geom.Vec
	known := map[int]bool{}
	for _, i := range triangles {
		for _, k := range f.triangles[i] {
			if !known[k] {
				known[k] = true
				points = append(points, f.points[k])
			}
		}
	}
	c, ok := geom.Hull(points, hullSlack)
	if !ok { // they lie in one plane: a little of what is behind it too
		const deep = 0.001 // metres
		c, _ = geom.Hull(append(points, f.middle(triangles[0]).Sub(f.area(triangles[0]).Unit().Mul(deep))), 0)
	}
	p := patch{triangles: triangles, hull: c}
	var planes []geom.Polygon
	var normals []geom.Vec
	for i := range c.Faces {
		planes = append(planes, c.Face(i))
		normals = append(normals, planes[i].Normal())
	}
	for _, i := range triangles {
		n := f.area(i).Unit()
		for _, k := range f.triangles[i] {
			v, out := f.points[k].Lerp(f.middle(i), 0.5), 1.0 // metres from there straight out of the hull
			for m, q := range normals {
				if s := q.Dot(n); s > 1e-6 {
					out = min(out, planes[m][0].Sub(v).Dot(q)/s)
				}
			}
			if out > p.out {
				p.out, p.worst = out, i
			}
		}
	}
	return p
}

// middle is the middle of triangle i.
func (f faces) middle(i int) geom.Vec {
	t := f.triangles[i]
	return f.points[t[0]].Add(f.points[t[1]]).Add(f.points[t[2]]).Mul(1.0 / 3)
}
