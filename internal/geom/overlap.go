package geom

import "math"

// Overlap is how far, in metres, two convex solids reach into each other: the shortest way to push them apart. It is 0
// or less where they only touch or stand apart. Convex solids are apart along a face of one of them or along the
// direction square to an edge of each (the separating axis theorem).
func Overlap(a, b Convex) float64 {
	depth := math.Inf(1)
	try := func(axis Vec) bool {
		l := axis.Len()
		if l < 1e-9 {
			return true // parallel edges: their faces tell
		}
		axis = axis.Mul(1 / l)
		alo, ahi := reach(a, axis)
		blo, bhi := reach(b, axis)
		depth = min(depth, ahi-blo, bhi-alo)
		return depth > 0
	}
	for _, c := range []Convex{a, b} {
		for i := range c.Faces {
			if !try(c.Face(i).areaVec()) {
				return depth
			}
		}
	}
	for _, e := range a.Edges {
		d := a.Corners[e[1]].Sub(a.Corners[e[0]])
		for _, f := range b.Edges {
			if !try(d.Cross(b.Corners[f[1]].Sub(b.Corners[f[0]]))) {
				return depth
			}
		}
	}
	return depth
}

// reach is how far the solid goes along an axis.
func reach(c Convex, axis Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, v := range c.Corners {
		d := v.Dot(axis)
		lo, hi = min(lo, d), max(hi, d)
	}
	return lo, hi
}
