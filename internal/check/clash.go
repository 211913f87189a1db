package check

import (
	"boothmock/internal/booth"
	"boothmock/internal/geom"
	"boothmock/internal/unit"
)

// pressed is how far two things may reach into each other, in metres: cloth gives way, and leaning things are drawn stiff.
const pressed = 0.375 * float64(unit.Inch)

var clash = Check{
	Name: "two in one place", Doc: "No two things take the same room.", Source: practice,
	Run: func(p *Pass) {
		for _, c := range p.near(-pressed, func(part *booth.Part) bool { return !part.Moving }) {
			a, b := &p.Plan.Parts[c.a], &p.Plan.Parts[c.b]
			if p.fitted(a, b) {
				continue
			}
			if d := reaches(a, b); d > pressed+hair {
				p.report(Fail, b, Finding{Figure: metres(d, 0), Source: practice}, "%s and %s take the same room, by %s", unit.Capital(b.Name), a.Name, p.length(d))
			}
		}
	},
}

// fitted reports whether two parts are made to go into each other, or are looked at by another check.
func (p *Pass) fitted(a, b *booth.Part) bool {
	if p.carries(a, b) || p.carries(b, a) {
		return true
	}
	if a.Work != nil && b.Work != nil && a.Work.Hung != nil && b.Work.Hung != nil && a.Work.Hung.Wall == b.Work.Hung.Wall {
		return true // gaps tells of these
	}
	built := func(part *booth.Part) bool { // the shell of a booth, whose pieces meet at its corners
		return part.Wall != nil || part.Cloth != nil || p.Plan.Part(p.root(part)).Tent != nil
	}
	return built(a) && built(b)
}

// carries reports whether b hangs or stands on a, directly or not.
func (p *Pass) carries(a, b *booth.Part) bool {
	for b != nil && b.Parent != "" {
		if b.Parent == a.ID {
			return true
		}
		b = p.Plan.Part(b.Parent)
	}
	return false
}

// reaches is how far a and b reach into each other, in metres.
func reaches(a, b *booth.Part) float64 {
	deepest := 0.0
	for _, c := range a.Room() {
		alo, ahi := c.Bounds()
		for _, d := range b.Room() {
			blo, bhi := d.Bounds()
			if space(alo, ahi, blo, bhi) < -pressed {
				deepest = max(deepest, geom.Overlap(c, d))
			}
		}
	}
	return deepest
}
