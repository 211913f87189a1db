package figure

import "boothmock/internal/basis/geom"

// How far the solids of a body may stand out of its drawn skin where that is hollow, as a share of its height: an adult's by
// 4 mm, so that seen from any side they cover some half per cent too much. And how far a point of the skin may be outside of them, in
// metres.
const (
	standsOut = 0.004 / 1.69
	hullSlack = 0.0008
)

// solids are convex hulls of pieces of the drawn skin.
func (b body) solids(f faces) []geom.Convex {
	skin := geom.Skin{Points: f.points, Triangles: f.triangles}
	lo, hi := geom.Bounds(f.points)
	parts := make([][]int, len(b.pieces))
	for i := range f.triangles {
		c, nearest, of := skin.Middle(i), 0.0, 0
		for k, s := range b.pieces {
			if d := s(c); k == 0 || d < nearest {
				nearest, of = d, k
			}
		}
		parts[of] = append(parts[of], i)
	}
	fit := geom.Fit{Out: standsOut * (hi.Y - lo.Y), Slack: hullSlack, Fewest: 8, Most: 400}
	var out []geom.Convex
	for _, p := range parts {
		if len(p) > 0 {
			out = append(out, skin.Wrapped(p, fit)...)
		}
	}
	return out
}
