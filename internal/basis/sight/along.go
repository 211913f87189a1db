package sight

import (
	"math"

	"boothmock/internal/basis/geom"
)

// SeeAlong is SeePast by an eye that is infinitely far away in the direction of the unit vector toward: the middle of the sun.
// What is visible is what it shines on. All lines of sight being parallel, a shadow is bounded by planes along them. Where
// several solids hide the same spot, the one that reaches highest over the target has it. There is no solid angle.
func (g *Gaze) SeeAlong(toward geom.Vec, target geom.Polygon, c *Crowd, skip func(owner int) bool) Seen {
	n := target.Normal()
	s := Seen{Turned: math.Asin(max(-1, min(1, n.Dot(toward))))}
	g.at, g.seen, g.hidden = g.at[:0], g.seen[:0], g.hidden[:0]
	if n.Dot(toward) <= level {
		return s
	}
	whole := g.aim(pane{eye: target.Centre(), z: n, afar: true, s: toward}, target)
	c.tree.Each(func(lo, hi geom.Vec) bool {
		return !g.beside(lo.Lerp(hi, 0.5), hi.Sub(lo).Mul(0.5+1e-12))
	}, func(i int) {
		if o := &c.solids[i]; !g.misses(o) && !skip(o.Owner) {
			g.shade(c.solids, i)
		}
	})
	g.take()
	for i := range g.seen {
		s.Visible += area(g.points(&g.seen[i]))
	}
	s.Visible /= whole
	s.Hidden = g.blame(c.solids, whole)
	if s.Visible > 0 && len(c.screens) > 0 {
		g.through(&s, whole, c.screens, skip)
	}
	s.SolidAngle = 0
	return s
}

// shadowAlong is shadow for an eye that is infinitely far away.
func (g *Gaze) shadowAlong(s *Solid) bool {
	g.facing = g.facing[:0]
	for _, q := range s.planes {
		g.facing = append(g.facing, q.n.Dot(g.s) > 0)
	}
	const ground = level
	lo, hi := g.lay(s, g.eye)
	if hi <= ground {
		return false
	}
	g.near, g.far = -hi, -lo
	along := g.axes(g.s)
	for _, e := range s.edges {
		a, b := g.corners[e.a], g.corners[e.b]
		if g.facing[e.left] == g.facing[e.right] || a.Z <= ground && b.Z <= ground {
			continue
		}
		if !g.facing[e.left] {
			a, b = b, a
		}
		n := b.Sub(a).Cross(along)
		if n.Dot(n) < hair*hair {
			continue // it is seen end-on: those beside it close the outline
		}
		if !g.bound(n, -n.Dot(a)) {
			return false
		}
	}
	return lo > ground || g.boundFaces(s, g.eye, ground)
}

// stripAlong is strip for an eye that is infinitely far away; the wire runs from a to b, in the pane's axes.
func (g *Gaze) stripAlong(a, b geom.Vec, radius float64) bool {
	var ok bool
	if a, b, ok = clip(a, b, 0, math.Inf(1)); !ok {
		return false
	}
	along := g.axes(g.s)
	p := b.Sub(a).Cross(along)
	if p.Len() < hair {
		return false // it is seen end-on
	}
	p = p.Unit()
	e := along.Cross(p)
	if e.Dot(b.Sub(a)) < 0 {
		e = e.Neg()
	}
	return g.bound(p, -p.Dot(a)-radius) && g.bound(p.Neg(), p.Dot(a)-radius) && g.bound(e.Neg(), e.Dot(a)) && g.bound(e, -e.Dot(b))
}

// axes is a direction in the pane's axes.
func (c *pane) axes(d geom.Vec) geom.Vec {
	return geom.Vec{X: d.Dot(c.x), Y: d.Dot(c.y), Z: d.Dot(c.z)}
}
