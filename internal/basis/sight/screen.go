package sight

import (
	"math"

	"boothmock/internal/basis/geom"
)

// Screen is wires before a target, and their owner's number: wire mesh, chains. It is a translucent occluder. Of what is seen past
// all solids it hides what its wires cover, each by itself; where wires of two screens cross, both cover the same, which
// is counted once, as a share: of a piece that one screen leaves open by a and the other by b, a times b is seen.
//
// So the open share of a mesh follows from the direction. A round wire of diameter d hides a strip of the plane behind it
// that is d / cos α wide, α being the angle between the square to the mesh and the line of sight in the plane across the
// wires; of wires s apart the share 1 - d / (s cos α) is open, and of a mesh the product for its two families.
type Screen struct {
	Wires geom.Wires
	Owner int

	centre, half geom.Vec // of the bounds
}

// NewScreen prepares wires for being looked through.
func NewScreen(w geom.Wires, owner int) Screen {
	a, b := w.Ends(0)
	c, d := w.Ends(w.Count - 1)
	lo, hi := geom.Bounds([]geom.Vec{a, b, c, d})
	r := geom.Vec{X: w.Radius, Y: w.Radius, Z: w.Radius}
	return Screen{Wires: w, Owner: owner, centre: lo.Lerp(hi, 0.5), half: hi.Sub(lo).Mul(0.5).Add(r)}
}

// through takes from what is seen what the screens hide of it, and adds that to the shares of their owners. whole is the
// target's area.
func (g *Gaze) through(s *Seen, whole float64, screens []Screen, skip func(owner int) bool) {
	g.open = g.open[:0]
	for i := range screens {
		sc := &screens[i]
		if len(g.seen) == 0 || g.beside(sc.centre, sc.half) || skip(sc.Owner) {
			continue
		}
		if len(g.open) == 0 {
			for k := range g.seen {
				g.open = append(g.open, area(g.points(&g.seen[k])))
			}
		}
		if hidden := g.strain(sc); hidden > 0 {
			s.Hidden = g.charge(sc.Owner, hidden/whole)
		}
	}
	if len(g.open) == 0 {
		return
	}
	before := s.Visible
	s.Visible = 0
	for _, a := range g.open {
		s.Visible += a
	}
	if s.Visible /= whole; before > 0 {
		s.SolidAngle = float64(s.SolidAngle * (s.Visible / before)) // the wires of a piece are spread over it
	}
	g.rank()
}

// strain is the area, in m², that a screen hides of the seen pieces; g.open, their areas still open, shrink by it.
func (g *Gaze) strain(sc *Screen) (hidden float64) {
	g.cover = g.cover[:0]
	for range g.seen {
		g.cover = append(g.cover, 0)
	}
	for i := range sc.Wires.Count {
		from := len(g.lines)
		if g.strip(sc.Wires, i) && !g.clear(g.points(&g.target), &g.target, g.lines[from:]) {
			for k := range g.seen {
				if p := &g.seen[k]; !g.clear(g.points(p), p, g.lines[from:]) {
					g.cover[k] += g.under(g.points(p), g.lines[from:])
				}
			}
		}
		g.lines = g.lines[:from]
	}
	for k, c := range g.cover {
		if c > 0 {
			h := g.open[k] * min(1, c/area(g.points(&g.seen[k])))
			g.open[k] -= h
			hidden += h
		}
	}
	return hidden
}

// strip appends to g.lines the four lines that bound what wire number i hides of the plane, and reports whether it hides
// anything: the planes through the eye that touch the wire on both sides, and those through its ends.
func (g *Gaze) strip(w geom.Wires, i int) bool {
	a, b := w.Ends(i)
	a, b = g.local(a), g.local(b)
	if g.afar {
		return g.stripAlong(a, b, w.Radius)
	}
	// What is beside or behind the eye, or beyond the target, hides nothing.
	const beside = 1e-3 // of the way to the target: nothing nearer to the eye's level is before a target of any size
	var ok bool
	if a, b, ok = clip(a, b, -g.h, -beside*g.h); !ok {
		return false
	}
	u := b.Sub(a).Unit()
	q := a.Sub(u.Mul(a.Dot(u)))
	d := q.Len()
	if d <= w.Radius {
		return false // the eye is in the wire, or looks along it
	}
	q = q.Mul(1 / d)
	p := u.Cross(q)
	sin := w.Radius / d
	cos := math.Sqrt(1 - float64(sin*sin))
	back := q.Mul(-sin)
	if !g.bound(p.Mul(cos).Add(back), 0) || !g.bound(p.Mul(-cos).Add(back), 0) {
		return false
	}
	first, last := a.Cross(p), b.Cross(p)
	if first.Dot(b) > 0 {
		first = first.Neg()
	}
	if last.Dot(a) > 0 {
		last = last.Neg()
	}
	return g.bound(first, 0) && g.bound(last, 0)
}

// clip is the part of the line from a to b whose height is from lo to hi.
func clip(a, b geom.Vec, lo, hi float64) (geom.Vec, geom.Vec, bool) {
	if max(a.Z, b.Z) <= lo || min(a.Z, b.Z) >= hi {
		return a, b, false
	}
	cut := func(p, q geom.Vec) geom.Vec { // p, moved along the line to q until it is within
		switch {
		case p.Z < lo:
			return p.Lerp(q, (lo-p.Z)/(q.Z-p.Z))
		case p.Z > hi:
			return p.Lerp(q, (hi-p.Z)/(q.Z-p.Z))
		}
		return p
	}
	return cut(a, b), cut(b, a), true
}

// under is the area of the part of a convex piece that is on the shadow's side of all lines.
func (g *Gaze) under(p []point, lines []line) float64 {
	from, to := append(g.rest[:0], p...), g.inner[:0]
	for _, l := range lines {
		to = to[:0]
		for i, q := range from {
			r := from[(i+1)%len(from)]
			d, e := l.off(q), l.off(r)
			if d <= 0 {
				to = append(to, q)
			}
			if d < 0 && e > 0 || d > 0 && e < 0 {
				t := d / (d - e)
				to = append(to, point{q.x + float64(t*(r.x-q.x)), q.y + float64(t*(r.y-q.y))})
			}
		}
		if from, to = to, from; len(from) < 3 {
			break
		}
	}
	g.rest, g.inner = from, to
	if len(from) < 3 {
		return 0
	}
	return area(from)
}
