package sight

import (
	"math"
	"slices"

	"boothmock/internal/basis/geom"
)

// point is a point of the target's plane in metres; the origin is the foot of the eye.
type point struct{ x, y float64 }

// piece is a part of the target, points from:to of the gaze's. It is convex and counterclockwise.
type piece struct {
	from, to int
	by       int   // number of the solid that hides it; -1: seen
	cast     int   // number of that solid's shadow
	next     int   // the first shadow of which it is not known whether its solid is nearer
	centre   point // of a circle about it, for a seen piece
	radius   float64
}

func (g *Gaze) points(p *piece) []point { return g.at[p.from:p.to] }

// whole is the seen piece that points from number from on are the corners of.
func (g *Gaze) whole(from int) piece {
	p := g.at[from:]
	var c point
	for _, q := range p {
		c.x, c.y = c.x+q.x, c.y+q.y
	}
	k := 1 / float64(len(p))
	c.x, c.y = float64(c.x*k), float64(c.y*k)
	r := 0.0
	for _, q := range p {
		dx, dy := q.x-c.x, q.y-c.y
		if d := float64(dx*dx) + float64(dy*dy); d > r {
			r = d
		}
	}
	return piece{from: from, to: len(g.at), by: -1, centre: c, radius: math.Sqrt(r)}
}

// subtract takes the shadow number cast bounded by lines, solid number by's, from the seen pieces. One of which it hides nothing
// stays as it is: so what is seen does not depend on solids that hide nothing.
func (g *Gaze) subtract(lines []line, by, cast int) {
	kept := 0
	g.born = g.born[:0]
	for i := range g.seen {
		pc := &g.seen[i]
		p := g.points(pc)
		if g.clear(p, pc, lines) {
			if kept < i {
				g.seen[kept] = *pc
			}
			kept++
			continue
		}
		// Each line cuts off a convex piece that is seen past it; what is left behind all lines is hidden.
		rest := append(g.rest[:0], p...)
		inner := g.inner[:0]
		before, at := len(g.born), len(g.at)
		for i, l := range lines {
			if g.middle[i] <= -pc.radius { // all of it is on the shadow's side
				continue
			}
			from := len(g.at)
			rest, inner = g.cut(rest, inner[:0], l)
			if len(g.at) > from {
				g.born = append(g.born, g.whole(from))
			}
			if len(rest) == 0 {
				break
			}
		}
		g.rest, g.inner = rest, inner
		if len(rest) == 0 {
			g.born, g.at = g.born[:before], g.at[:at]
			if kept < i {
				g.seen[kept] = *pc
			}
			kept++
			continue
		}
		from := len(g.at)
		g.at = append(g.at, rest...)
		g.hidden = append(g.hidden, piece{from: from, to: len(g.at), by: by, cast: cast, next: cast + 1})
	}
	g.seen = append(g.seen[:kept], g.born...)
}

// clear reports whether the piece, whose points are p, lies wholly outside one of the lines. If not, g.middle is how far its
// middle is outside of each.
func (g *Gaze) clear(p []point, pc *piece, lines []line) bool {
	middle := slices.Grow(g.middle[:0], len(lines))[:len(lines)]
	g.middle = middle
	for i, l := range lines {
		d := l.off(pc.centre)
		middle[i] = d
		switch {
		case d >= pc.radius:
			return true
		case d < -g.fine: // its middle is on the shadow's side
			continue
		}
		out := true
		for _, q := range p {
			if l.off(q) < -g.fine {
				out = false
				break
			}
		}
		if out {
			return true
		}
	}
	return false
}

// cut sends the part of p outside of l to the gaze's points and returns the part on the shadow's side, together with a spare
// buffer: one of the two is p, the other inner. Points within g.fine of the line belong to both parts, so that no sliver
// is cut.
func (g *Gaze) cut(p, inner []point, l line) (rest, spare []point) {
	offs := slices.Grow(g.offs[:0], len(p))[:len(p)]
	g.offs = offs
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, q := range p {
		d := l.off(q)
		offs[i] = d
		if d < lo {
			lo = d
		}
		if d > hi {
			hi = d
		}
	}
	switch {
	case hi <= g.fine:
		return p, inner
	case lo >= -g.fine:
		g.at = append(g.at, p...)
		return inner, p
	}
	at := g.at
	for i, q := range p {
		d := offs[i]
		if d <= g.fine {
			inner = append(inner, q)
		}
		if d >= -g.fine {
			at = append(at, q)
		}
		j := i + 1
		if j == len(p) {
			j = 0
		}
		if e := offs[j]; d > g.fine && e < -g.fine || d < -g.fine && e > g.fine {
			t, r := d/(d-e), p[j]
			m := point{q.x + float64(t*(r.x-q.x)), q.y + float64(t*(r.y-q.y))}
			inner = append(inner, m)
			at = append(at, m)
		}
	}
	g.at = at
	return inner, p
}

// area of a convex piece in square metres.
func area(p []point) float64 {
	s := 0.0
	for i := 2; i < len(p); i++ {
		a, b := point{p[i-1].x - p[0].x, p[i-1].y - p[0].y}, point{p[i].x - p[0].x, p[i].y - p[0].y}
		s += float64(a.x*b.y) - float64(a.y*b.x)
	}
	return s / 2
}

// solidAngle of the seen pieces in steradians. Each triangle's half angle is the argument of a complex number (Van
// Oosterom and Strackee, IEEE Trans. Biomed. Eng. 30(2), 1983). Together they stay under pi, so the numbers are
// multiplied and the argument is taken once.
func (g *Gaze) solidAngle() float64 {
	re, im := 1.0, 0.0
	for i := range g.seen {
		p := g.points(&g.seen[i])
		a, b := g.ray(p[0]), g.ray(p[1])
		for _, q := range p[2:] {
			c := g.ray(q)
			x := 1 + a.Dot(b) + b.Dot(c) + a.Dot(c)
			y := a.Dot(c.Cross(b))
			re, im = float64(re*x)-float64(im*y), float64(re*y)+float64(im*x)
			b = c
		}
		// Only the argument counts: keep the size from running away.
		s := max(math.Abs(re), math.Abs(im))
		re, im = re/s, im/s
	}
	return 2 * math.Atan2(im, re)
}

// ray is the unit direction from the eye to a point of the plane, in the pane's axes.
func (g *Gaze) ray(p point) geom.Vec { return geom.Vec{X: p.x, Y: p.y, Z: -g.h}.Unit() }
