package sight

import (
	"math"
	"slices"

	"boothmock/internal/basis/geom"
)

// settle gives each hidden piece to the solid that the lines of sight to it meet first. The solids' shadows were taken in the
// order in which they come near, so that only one that comes near later, but before the piece's own ends, can be met
// earlier: a board before the far end of a long table. Of two solids that do not reach into each other, the same one is met
// first wherever both are, so a piece under both shadows is decided in its middle.
func (g *Gaze) settle(solids []Solid) {
	for i := 0; i < len(g.hidden); i++ {
		for k := g.hidden[i].next; k < len(g.casts); k++ {
			pc := &g.hidden[i]
			c := &g.casts[k]
			s, o := &solids[pc.by], &solids[c.solid]
			if c.order >= g.casts[pc.cast].far || o.Veil != s.Veil {
				break
			}
			lines := g.lines[c.from:c.to]
			if s.Owner == o.Owner || g.away(pc, lines) {
				continue
			}
			g.divide(i, k, lines, s, o)
		}
	}
}

// away reports whether a hidden piece lies wholly outside one of the lines.
func (g *Gaze) away(pc *piece, lines []line) bool {
	for _, l := range lines {
		out := true
		for _, q := range g.points(pc) {
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

// divide gives what of hidden piece i of solid s is under the shadow of solid o, number k, to o if that is met first; the rest
// of it becomes pieces of s.
func (g *Gaze) divide(i, k int, lines []line, s, o *Solid) {
	own := g.hidden[i]
	seen := len(g.at)
	rest, inner := append(g.rest[:0], g.points(&own)...), g.inner[:0]
	births := len(g.hidden)
	for _, l := range lines {
		from := len(g.at)
		rest, inner = g.cut(rest, inner[:0], l)
		if len(g.at) > from {
			g.hidden = append(g.hidden, piece{from: from, to: len(g.at), by: own.by, cast: own.cast, next: k + 1})
		}
		if len(rest) == 0 {
			break
		}
	}
	g.rest, g.inner = rest, inner
	if len(rest) == 0 {
		g.hidden, g.at = g.hidden[:births], g.at[:seen]
		return
	}
	var m point
	for _, q := range rest {
		m.x, m.y = m.x+q.x, m.y+q.y
	}
	n := 1 / float64(len(rest))
	if d := g.toward(point{float64(m.x * n), float64(m.y * n)}); o.enter(g.eye, d) >= s.enter(g.eye, d) {
		g.hidden, g.at = g.hidden[:births], g.at[:seen] // it stays as it is
		return
	}
	from := len(g.at)
	g.at = append(g.at, rest...)
	g.hidden[i] = piece{from: from, to: len(g.at), by: g.casts[k].solid, cast: k, next: k + 1}
}

// enter is where the line from p along d comes into the solid, as a share of d.
func (s *Solid) enter(p, d geom.Vec) float64 {
	in := math.Inf(-1)
	for _, q := range s.planes {
		if v := q.n.Dot(d); v < 0 {
			in = max(in, -q.above(p)/v)
		}
	}
	return in
}

// Owners are the owners of the crowd's solids that have a shadow on the target of the last look past it, whether others hide
// the same or not, each once; the nearest comes first.
func (g *Gaze) Owners(c *Crowd) (out []int) {
	for _, k := range g.casts {
		if o := c.solids[k.solid].Owner; !slices.Contains(out, o) {
			out = append(out, o)
		}
	}
	return out
}
