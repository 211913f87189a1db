package check

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

// middleThird is where the share of a thing that may stand out past an edge is from. What stands on ground so wide bears on
// all of it only while its weight is in the middle third: the kern of a rectangle, in textbooks of statics. If a part x of a
// width w stands out on one side, the ground is w−x wide and the weight (w/2)−x from the edge, so x may be w/4.
const middleThird = "the middle third of what carries a load (kern of a rectangle, textbooks of statics); for things on tables common practice, no source"

const inset = 0.25 // of a thing's width, that its weight is to be inside of an edge

var tipping = Check{
	Name: "tipping", Doc: "What stands on a table or pedestal has the middle of its weight over it, at least a quarter of its own width from the edge.",
	Source: middleThird,
	Run: func(p *Pass) {
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			on := p.Plan.Part(part.Parent)
			if on == nil || on.Cradle || part.Beyond || p.ease(part) != onTop || part.Sheet || len(part.Solids) == 0 || len(on.Solids) == 0 || part.Hangs {
				continue
			}
			p.atEdge(part, on)
		}
	},
}

// atEdge tells of the edge of its top that a thing is nearest to falling over.
func (p *Pass) atEdge(part, on *booth.Part) {
	from, to := topOf(on)
	lo, hi := part.In(on.Frame)
	flo, fhi := foot(part, on, to.Y)
	m := on.Frame.Local(part.Middle())
	worst, least := -1, math.Inf(1)
	sides := []struct {
		name          string
		out, in, wide float64 // metres: the foot past the edge, the weight inside of it, the thing's width across it
	}{
		{"left end", from.X - flo.X, m.X - from.X, hi.X - lo.X}, {"right end", fhi.X - to.X, to.X - m.X, hi.X - lo.X},
		{"front edge", fhi.Z - to.Z, to.Z - m.Z, hi.Z - lo.Z}, {"back edge", from.Z - flo.Z, m.Z - from.Z, hi.Z - lo.Z},
	}
	for i, s := range sides {
		if k := s.in / s.wide; k < least-1e-9 && (s.out > hair || s.in < s.wide*inset-hair) {
			worst, least = i, k
		}
	}
	if worst < 0 {
		return
	}
	s, name := sides[worst], unit.Capital(part.Name)
	if worst == 0 && math.Abs(sides[1].in-s.in) < hair {
		s.name = "nearest end" // it is as wide of both
	}
	f := Finding{Figure: metres(s.in, s.wide*inset), Source: middleThird, With: on.ID}
	switch {
	case s.in < hair:
		p.report(Fail, part, f, "%s falls: the middle of its weight is %s past the %s of %s", name, p.length(max(0, -s.in)), s.name, on.Name)
	case s.in < s.wide*inset-hair:
		p.report(Caution, part, f, "%s tips easily: the middle of its weight is %s from the %s of %s; a quarter of its width, %s, is usual",
			name, p.length(s.in), s.name, on.Name, p.length(s.wide*inset))
	case s.out > pressed:
		p.report(Note, part, f, "%s stands out %s past the %s of %s", name, p.length(s.out), s.name, on.Name)
	}
}

// foot is the ground of a thing near the top that it stands on, in the top's own frame.
func foot(part, on *booth.Part, high float64) (lo, hi geom.Vec) {
	const low = 2 * float64(unit.Inch) // what is higher leans
	y := on.Frame.At(geom.Vec{Y: high}).Y
	var corners []geom.Vec
	for _, c := range part.Room() {
		for _, q := range way.Footprint(c, y-low, y+low) {
			corners = append(corners, on.Frame.Local(geom.Vec{X: q.X, Z: q.Z}))
		}
	}
	if corners == nil { // it stands on something else there
		return part.In(on.Frame)
	}
	return geom.Bounds(corners)
}
