package sight

import (
	"math"

	"boothmock/internal/basis/geom"
)

// hair is the distance in metres below which a point counts as lying in a plane: far above the rounding of coordinates
// of a fair's size (1e-14 m), far below anything that can be seen.
const hair = 1e-10

// level is the height in metres above the target's plane up to which a thing counts as lying in it, and hides nothing.
const level = 1e-9

// line bounds a shadow on the target's plane: ax + by + c <= 0 on the shadow's side. (a, b) is a unit vector, so the
// left-hand side is a distance from the line.
type line struct{ a, b, c float64 }

func (l line) off(p point) float64 { return float64(l.a*p.x) + float64(l.b*p.y) + l.c }

// pane is the target's plane as the eye sees it: coordinates from the eye, x and y along the plane, z from the plane
// towards the eye, so that the plane is at z = -h.
type pane struct {
	eye     geom.Vec
	x, y, z geom.Vec
	h       float64  // metres from the eye to the plane
	endless bool     // the plane stands for directions: whatever is before the eye hides, however far it is
	afar    bool     // the eye is infinitely far away: see SeeAlong
	s       geom.Vec // then, the direction to it; eye is a point of the plane, and h is 0
}

func (c *pane) local(p geom.Vec) geom.Vec {
	d := p.Sub(c.eye)
	return geom.Vec{X: d.Dot(c.x), Y: d.Dot(c.y), Z: d.Dot(c.z)}
}

// shadow appends to g.lines the lines that bound what s hides of the plane, and reports whether it hides anything.
//
// A sight line goes from the eye down to the plane and s hides its end when it meets s on the way. So the shadow is
// the cone over s from the eye, cut by the plane, and s must first be cut off at the plane, as what lies beyond it hides
// nothing. A cone over a convex solid is bounded by the planes through the eye and the edges of its outline: the edges
// between a face that faces the eye and one that does not. Cutting at the target adds a face that faces away from the
// eye, so the outline gains the line in which each facing face that is cut meets the target.
//
// Nothing has to be cut near the eye. A solid that reaches beside or behind the eye has no finite projection, but its
// cone is bounded by the same planes all the same, and of that cone the target takes only directions that lead down
// to the plane; so the answer is exact for any bounded target with no distance to choose.
func (g *Gaze) shadow(s *Solid) bool {
	// A face seen edge-on has no side. The solid is moved back from such a face by two hairs; then the outline closes,
	// and a solid that the eye touches hides just the half of the world on its side.
	if g.afar {
		return g.shadowAlong(s)
	}
	eye := g.eye
	for _, q := range s.planes {
		if math.Abs(q.above(eye)) < hair {
			eye = eye.Add(q.n.Mul(2 * hair))
		}
	}
	g.facing = g.facing[:0]
	inside := true
	for _, q := range s.planes {
		f := q.above(eye) > 0
		g.facing = append(g.facing, f)
		inside = inside && !f
	}
	if inside {
		g.near, g.far = math.Inf(-1), 0
		return true // no line bounds it: everything is hidden
	}

	ground := level - g.h // what is lower is beyond the target
	if g.endless {
		ground = math.Inf(-1)
	}
	lo, hi := g.lay(s, eye)
	if lo >= 0 || hi <= ground {
		return false
	}
	g.near, g.far = -hi, -lo
	for _, e := range s.edges {
		a, b := g.corners[e.a], g.corners[e.b]
		if g.facing[e.left] == g.facing[e.right] || a.Z <= ground && b.Z <= ground {
			continue
		}
		if !g.facing[e.left] {
			a, b = b, a
		}
		if !g.bound(a.Cross(b), 0) {
			return false
		}
	}
	return lo > ground || g.boundFaces(s, eye, ground)
}

// lay puts the corners of s, as they are from eye in the pane's axes, into g.corners, and gives their lowest and greatest height.
func (g *Gaze) lay(s *Solid, eye geom.Vec) (lo, hi float64) {
	g.corners = g.corners[:0]
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range s.Convex.Corners {
		d := p.Sub(eye)
		l := geom.Vec{X: d.Dot(g.x), Y: d.Dot(g.y), Z: d.Dot(g.z)}
		g.corners = append(g.corners, l)
		lo, hi = min(lo, l.Z), max(hi, l.Z)
	}
	return lo, hi
}

// boundFaces bounds the shadow of a solid that the target cuts by its facing faces, where they meet the target.
func (g *Gaze) boundFaces(s *Solid, eye geom.Vec, ground float64) bool {
	for i, q := range s.planes {
		if !g.facing[i] || !g.cutFace(s.Convex.Faces[i], ground) {
			continue
		}
		n := geom.Vec{X: q.n.Dot(g.x), Y: q.n.Dot(g.y), Z: q.n.Dot(g.z)}
		if !g.bound(n, q.above(eye)) {
			return false
		}
	}
	return true
}

// cutFace reports whether a face has corners on both sides of the height ground.
func (g *Gaze) cutFace(face []int, ground float64) bool {
	in, out := false, false
	for _, k := range face {
		if g.corners[k].Z > ground {
			in = true
		} else {
			out = true
		}
	}
	return in && out
}

// bound appends the line in which the plane n·p + d = 0 meets the target's; the shadow is on the side where the sum is
// negative. It reports false if that leaves the shadow nothing.
func (g *Gaze) bound(n geom.Vec, d float64) bool {
	c := d - float64(n.Z*g.h)
	l := math.Sqrt(float64(n.X*n.X) + float64(n.Y*n.Y))
	if l <= 1e-14*math.Abs(n.Z) { // level with the target
		return c < 0
	}
	g.lines = append(g.lines, line{n.X / l, n.Y / l, c / l})
	return true
}
