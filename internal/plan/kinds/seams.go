package kinds

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Widths of cloth that lies double, in metres: common practice, no source.
const (
	seamWide = 0.02  // on each side of the line where two panels are sewn together
	hemWide  = 0.035 // along an edge that hangs free
)

// strip is where flat cloth lies double: within wide of the line through at whose inner side in points to.
type strip struct {
	at, in geom.Vec
	wide   float64
}

// doubled is the share of light that two layers pass of cloth that passes p and keeps none to itself: what goes to and
// fro between them comes through too, so it is p² / (1 - (1 - p)²).
func doubled(p float64) float64 { return p / (2 - p) }

// sewn is flat cloth as two surfaces: the panels, and the strips along them where it is double and lets less light
// through.
func sewn(look booth.Look, cloths []geom.Polygon, strips [][]strip) []booth.Surface {
	var once, twice geom.Mesh
	for i, c := range cloths {
		pieces := []geom.Polygon{c}
		for _, s := range strips[i] {
			var cut []geom.Polygon
			for _, p := range pieces {
				a, b := split(p, s.at.Add(s.in.Mul(s.wide)), s.in)
				cut = append(cut, a, b)
			}
			pieces = pieces[:0]
			for _, p := range cut {
				if len(p) > 2 && p.Area() > 1e-6 {
					pieces = append(pieces, p)
				}
			}
		}
		x := c[1].Sub(c[0]).Unit()
		y := c.Normal().Cross(x)
		for _, p := range pieces {
			m := &once
			for _, s := range strips[i] {
				if d := p.Centre().Sub(s.at).Dot(s.in); d > 0 && d < s.wide {
					m = &twice
				}
			}
			from := len(m.Vertices)
			m.AddPolygon(p)
			for k := from; k < len(m.Vertices); k++ { // the threads of all pieces run on
				v := &m.Vertices[k]
				d := v.P.Sub(c[0])
				v.U, v.V = d.Dot(x), -d.Dot(y)
			}
		}
	}
	double := look
	double.Passes = doubled(look.Passes)
	return []booth.Surface{{Mesh: once, Look: look}, {Mesh: twice, Look: double}}
}

// roofStrips are the seams and hems of one slope of a roof: a hem along an edge at the eave, a seam along an edge that
// another slope meets, and one seam up the middle.
func roofStrips(slope geom.Polygon, eave float64) (out []strip) {
	n := slope.Normal()
	middle := false
	for i, a := range slope {
		b := slope[(i+1)%len(slope)]
		in := n.Cross(b.Sub(a)).Unit()
		if max(a.Y, b.Y) > eave+1e-6 {
			out = append(out, strip{a, in, seamWide})
			continue
		}
		out = append(out, strip{a, in, hemWide})
		if !middle {
			middle = true
			x := b.Sub(a).Unit()
			out = append(out, strip{a.Lerp(b, 0.5).Sub(x.Mul(seamWide / 2)), x, seamWide}, strip{a.Lerp(b, 0.5).Add(x.Mul(seamWide / 2)), x.Neg(), seamWide})
		}
	}
	return out
}

// split cuts a convex polygon by the plane through at: what lies on the side that n points to, and the rest.
func split(p geom.Polygon, at, n geom.Vec) (before, behind geom.Polygon) {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		da, db := a.Sub(at).Dot(n), b.Sub(at).Dot(n)
		if math.Abs(da) < 1e-9 {
			da = 0
		}
		if math.Abs(db) < 1e-9 {
			db = 0
		}
		if da >= 0 {
			before = append(before, a)
		}
		if da <= 0 {
			behind = append(behind, a)
		}
		if da > 0 && db < 0 || da < 0 && db > 0 {
			c := a.Lerp(b, da/(da-db))
			before, behind = append(before, c), append(behind, c)
		}
	}
	return before, behind
}
