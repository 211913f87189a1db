package way

import "boothmock/internal/basis/geom"

// thin are the gaps that can be the first to close a ring. One between A and B with a third obstacle C in
// it cannot: the gaps from A to C and from C to B are narrower, so A and B are joined already. Nor does the line by way of C
// pass another place than the line straight on: A and C, blown up by half of the gap's width, meet in one piece without
// a hole, and no disc that wide has its middle there; and C and B likewise. Of n obstacles that leaves some n gaps of n².
func (f *Floor) thin() []Gap {
	const touch = 1e-4 // metres: what is nearer than that is taken to touch, and kept
	var out []Gap
	for _, g := range f.all() {
		if g.Width < touch {
			out = append(out, g)
			continue
		}
		lo, hi := Shape{g.AtA, g.AtB}.Bounds()
		between := false
		f.tree.Each(func(l, h geom.Vec) bool {
			return !between && l.X <= hi.X && lo.X <= h.X && l.Z <= hi.Z && lo.Z <= h.Z
		}, func(k int) {
			between = between || k != g.A && k != g.B && f.Obstacles[k].Shape.cuts(g.AtA, g.AtB)
		})
		if !between {
			out = append(out, g)
		}
	}
	return out
}

// cuts reports whether the shape meets the piece from a to b somewhere else than just at one of its ends.
func (s Shape) cuts(a, b Point) bool {
	const hair = 1e-6 // of the piece
	if len(s) < 3 {
		return false
	}
	in, out := 0.0, 1.0
	for i, p := range s {
		q := s[(i+1)%len(s)]
		ha, hb := q.sub(p).cross(a.sub(p)), q.sub(p).cross(b.sub(p)) // positive on the shape's side of its edge
		switch {
		case ha < 0 && hb < 0:
			return false
		case ha < 0:
			in = max(in, ha/(ha-hb))
		case hb < 0:
			out = min(out, ha/(ha-hb))
		}
	}
	return in <= out && in < 1-hair && out > hair
}
