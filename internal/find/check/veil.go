package check

import (
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Veil is what of a work an eye does not see.
type Veil struct {
	Work   booth.ID
	Pieces []geom.Polygon // convex parts of the work's face, facing as it does; of a work seen from behind, all of it
}

// Veils are what the eye does not see from the view, exactly, of every work of which it does not see all. Things count
// as in the sightlines.
func Veils(plan *booth.Plan, v booth.View, e booth.Eye) []Veil {
	p := newPass(plan)
	scope, eye := everything, v.From(e)
	if v.Bare {
		scope = bare
	}
	var out []Veil
	for _, w := range p.Works {
		l := Veil{Work: w.ID}
		if s := p.see(eye, w, scope); s.turned <= 0 {
			l.Pieces = []geom.Polygon{slices.Clone(w.Work.FaceTo(eye))}
		} else {
			p.gaze.Each(func(piece []geom.Vec, by int) {
				if by < 0 {
					return
				}
				var q geom.Polygon
				for _, c := range piece {
					q = append(q, eye.Add(c))
				}
				l.Pieces = append(l.Pieces, q)
			})
		}
		if l.Pieces != nil {
			out = append(out, l)
		}
	}
	return out
}
