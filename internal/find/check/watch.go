package check

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

var watch = Check{
	Name: "watched", Doc: "From your chair you see the entrance, and your tables with what lies on them.",
	Source: practice,
	Run: func(p *Pass) {
		for _, v := range p.Plan.Views {
			if v.Height == 0 { // only a seat sets the height of the eye
				continue
			}
			eye := v.From(p.usual())
			w := p.Plan.Pitch.Width / 6
			// Somebody who comes in: from the knees to the chest, in the middle third of the front.
			door := geom.Rect(geom.Upright(geom.Vec{}, geom.Vec{Z: -1}), -w, 0.5, w, 1.5)
			if share := p.watched(eye, door, ""); share < half {
				p.reportPitch(Note, Finding{View: v.Name, Figure: shares(share, half), Source: practice},
					"From your chair you see %s of somebody who comes in", percent(share))
			}
			for i := range p.Plan.Parts {
				part := &p.Plan.Parts[i]
				if part.Top == nil {
					continue
				}
				if share := p.watched(eye, tabletop(part), part.ID); share < half {
					p.report(Note, part, Finding{View: v.Name, Figure: shares(share, half), Source: practice},
						"From your chair you see %s of the top of %s", percent(share), part.Name)
				}
			}
		}
	},
}

// tabletop is the upper face of a table as a polygon.
func tabletop(part *booth.Part) geom.Polygon {
	lo, hi := part.In(part.Frame)
	var out geom.Polygon
	for _, c := range [4][2]float64{{lo.X, hi.Z}, {hi.X, hi.Z}, {hi.X, lo.Z}, {lo.X, lo.Z}} {
		v := part.Frame.At(geom.Vec{X: c[0], Z: c[1]})
		v.Y = *part.Top
		out = append(out, v)
	}
	return out
}

// watched is the share of a polygon that an eye sees past everything but visitors, the thing itself and what stands on
// it.
func (p *Pass) watched(eye geom.Vec, target geom.Polygon, of booth.ID) float64 {
	return p.gaze.SeePast(eye, target, p.solids, func(owner int) bool {
		part := &p.Plan.Parts[owner]
		return part.Moving || of != "" && (part.ID == of || part.Parent == of)
	}).Visible
}
