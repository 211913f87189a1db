package geom

import "math"

// Overlap is how far, in metres, two convex solids reach into each other: the shortest way to push them apart, the length
// of their minimum translation vector. It is 0 or less where they only touch or stand apart. Convex solids are apart along
// a face of one of them or along the direction square to an edge of each: the separating axis theorem (Ericson, Real-Time
// Collision Detection, 2005, 5.2.1).
func Overlap(a, b Convex) float64 {
	depth := math.Inf(1)
	axes(a, b, func(axis Vec) bool {
		alo, ahi := reach(a, axis)
		blo, bhi := reach(b, axis)
		depth = min(depth, ahi-blo, bhi-alo)
		return depth > 0
	})
	return depth
}

// Meeting are the distances, in metres, by which a has to be moved along the unit direction d to reach into b, by more than
// give metres along every separating axis: those between from and to. from is not less than to where a passes b without
// meeting it. If give is negative, a must keep that much clear space.
//
// The moved solid meets b as long as the point d·t lies in the Minkowski difference of b and a, whose faces are square to the
// separating axes: so this is a ray cut by half-spaces (Ericson, 5.3.8 and 9.1).
func Meeting(a, b Convex, d Vec, give float64) (from, to float64) {
	from, to = math.Inf(-1), math.Inf(1)
	cut := func(speed, room float64) bool { // they meet while speed·t is less than room
		switch {
		case speed > flush:
			to = min(to, room/speed)
		case speed < -flush:
			from = max(from, room/speed)
		case room <= 0:
			from, to = 0, 0
		}
		return from < to
	}
	axes(a, b, func(axis Vec) bool {
		alo, ahi := reach(a, axis)
		blo, bhi := reach(b, axis)
		speed := axis.Dot(d)
		return cut(speed, bhi-alo-give) && cut(-speed, ahi-blo-give)
	})
	return from, to
}

// flush is the sine of an angle below which a direction counts as lying in a plane.
const flush = 1e-9

// axes visits the unit directions along which two convex solids can be apart, each once, until visit is false.
func axes(a, b Convex, visit func(axis Vec) bool) {
	var room [4][24]Vec // so that most solids need no memory of their own
	na, nb := apart(room[0][:0], a.normals), apart(room[1][:0], b.normals)
	for _, n := range na {
		if !visit(n) {
			return
		}
	}
	for _, n := range nb {
		if !visit(n) {
			return
		}
	}
	ea, eb := apart(room[2][:0], a.edges), apart(room[3][:0], b.edges)
	for _, d := range ea {
		for _, e := range eb {
			axis := d.Cross(e)
			l := axis.Len()
			if l < 1e-9 {
				continue // parallel edges: their faces tell
			}
			if !visit(axis.Mul(1 / l)) {
				return
			}
		}
	}
}

func (c Convex) normals(visit func(Vec)) {
	for i := range c.Faces {
		visit(c.Face(i).Normal())
	}
}

func (c Convex) edges(visit func(Vec)) {
	for _, e := range c.Edges {
		visit(c.Corners[e[1]].Sub(c.Corners[e[0]]).Unit())
	}
}

// apart adds those unit directions to dirs that are parallel to none of the others.
func apart(dirs []Vec, each func(func(Vec))) []Vec {
	each(func(d Vec) {
		if d == (Vec{}) {
			return
		}
		for _, e := range dirs {
			if c := d.Cross(e); c.Dot(c) < 1e-24 {
				return
			}
		}
		dirs = append(dirs, d)
	})
	return dirs
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
