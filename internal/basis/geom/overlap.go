package geom

import "math"

// Mapped is a convex solid with its Gauss map: where its faces look on the unit sphere, and the arc between two of them that
// each edge is there.
type Mapped struct {
	Convex
	normals []Vec
	arcs    []arc
}

// arc is an edge on the Gauss map.
type arc struct {
	along    Vec // the edge's own direction
	from, to Vec // the normals of its two faces
	pole     Vec // to × from, square to the arc's great circle
}

// Map gives a solid its Gauss map.
func Map(c Convex) Mapped {
	m := Mapped{Convex: c, normals: make([]Vec, len(c.Faces)), arcs: make([]arc, len(c.Edges))}
	number := make(map[[2]int]int, len(c.Edges))
	for i, e := range c.Edges {
		number[e] = i
		m.arcs[i].along = c.Corners[e[1]].Sub(c.Corners[e[0]]).Unit()
	}
	for i, f := range c.Faces {
		n := c.Face(i).Normal()
		m.normals[i] = n
		for k, a := range f {
			b := f[(k+1)%len(f)]
			if e, ok := number[[2]int{a, b}]; ok {
				m.arcs[e].from = n
			} else if e, ok := number[[2]int{b, a}]; ok {
				m.arcs[e].to = n
			}
		}
	}
	for i, a := range m.arcs {
		m.arcs[i].pole = a.to.Cross(a.from)
	}
	return m
}

// Overlap is how far, in metres, two convex solids reach into each other: the shortest way to push them apart, the length
// of their minimum translation vector. It is 0 or less where they only touch or stand apart. Convex solids are apart along
// a face of one of them or along the direction square to an edge of each: the separating axis theorem (Ericson, Real-Time
// Collision Detection, 2005, 5.2.1).
func Overlap(a, b Mapped) float64 {
	depth := math.Inf(1)
	axes(a, b, func(axis Vec) bool {
		alo, ahi := reach(a.Convex, axis)
		blo, bhi := reach(b.Convex, axis)
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
func Meeting(a, b Mapped, d Vec, give float64) (from, to float64) {
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
		alo, ahi := reach(a.Convex, axis)
		blo, bhi := reach(b.Convex, axis)
		speed := axis.Dot(d)
		return cut(speed, bhi-alo-give) && cut(-speed, ahi-blo-give)
	})
	return from, to
}

// flush is the sine of an angle below which a direction counts as lying in a plane.
const flush = 1e-9

// axes visits the unit directions along which two convex solids can be apart until visit is false: the normals of both, and
// the directions square to those couples of edges that make a face of their Minkowski difference. Such edges' arcs cross on
// the Gauss maps, one of which is turned inside out (Gregorius, The Separating Axis Test between Convex Polyhedra, Game
// Developers Conference 2013). Arcs that only touch count as crossing: an axis too many does no harm.
func axes(a, b Mapped, visit func(axis Vec) bool) {
	for _, n := range a.normals {
		if n != (Vec{}) && !visit(n) {
			return
		}
	}
	for _, n := range b.normals {
		if n != (Vec{}) && !visit(n) {
			return
		}
	}
	const touching = 1e-9
	for i := range a.arcs {
		e := &a.arcs[i]
		for k := range b.arcs {
			f := &b.arcs[k]
			c, d := -f.from.Dot(e.pole), -f.to.Dot(e.pole)
			if c*d > touching {
				continue
			}
			u, v := e.from.Dot(f.pole), e.to.Dot(f.pole) // the poles of b are the same inside out
			if u*v > touching || c*v < -touching {
				continue
			}
			axis := e.along.Cross(f.along)
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

// reach is how far the solid goes along an axis.
func reach(c Convex, axis Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, v := range c.Corners {
		d := v.Dot(axis)
		lo, hi = min(lo, d), max(hi, d)
	}
	return lo, hi
}
