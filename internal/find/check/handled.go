package check

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

const ada308 = "2010 ADA Standards 308.2.2 and 308.3.2, written for fixed buildings; good practice for a booth"

var handled = Check{
	Name: "within reach", Doc: "Cards, guest books and sign-up sheets can be reached by somebody in a wheelchair.",
	Source: ada308,
	Run: func(p *Pass) {
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			if !part.Handled {
				continue
			}
			table := p.Plan.Part(part.Parent)
			if table == nil || table.Top == nil {
				continue
			}
			deep, ok := p.edgeBefore(table, part)
			high := part.Frame.Origin.Y
			switch limit := reachOver(deep, *table.Top); {
			case !ok:
				p.report(Caution, part, Finding{Source: ada308}, "No way leads to a place before %s", part.Name)
			case limit == 0:
				p.report(Caution, part, Finding{Figure: metres(deep, deepest), Source: ada308, With: table.ID},
					"%s is %s in from the edge of %s; %s can be reached from a wheelchair", unit.Capital(part.Name), p.length(deep), table.Name, p.length(deepest))
			case high > limit+hair:
				p.report(Caution, part, Finding{Figure: metres(high, limit), Source: ada308, With: table.ID},
					"%s is %s high and %s in from the edge of %s; %s can be reached from a wheelchair", unit.Capital(part.Name), p.length(high), p.length(deep), table.Name, p.length(limit))
			}
		}
	},
}

// deepest is the deepest reach over a table, in metres (308.2.2).
const deepest = 25 * float64(unit.Inch)

// reachOver is the greatest height in metres that can be reached deep metres in over a table whose top is at the height
// top; 0 if nothing can. Forward, with the knees under the table: 48 in up to 20 in deep, 44 in up to 25. From the side:
// 46 in up to 24 in deep, if the top is no higher than 34 in.
func reachOver(deep, top float64) float64 {
	const in = float64(unit.Inch)
	switch {
	case deep <= 20*in+hair:
		return 48 * in
	case deep <= 24*in+hair && top <= 34*in+hair:
		return 46 * in
	case deep <= deepest+hair:
		return 44 * in
	}
	return 0
}

// edgeBefore is how far a thing is in from the nearest edge of its table before which there is a place that the entrance
// leads to.
func (p *Pass) edgeBefore(table, thing *booth.Part) (deep float64, ok bool) {
	lo, hi := table.In(table.Frame)
	tlo, thi := thing.In(table.Frame)
	mid := tlo.Lerp(thi, 0.5)
	const off = 20 * float64(unit.Inch) // metres before the edge: the middle of a way 36 in wide, and room for a cloth
	deep = math.Inf(1)
	for _, e := range []struct {
		at   geom.Vec
		deep float64
	}{
		{geom.Vec{X: mid.X, Z: hi.Z + off}, hi.Z - thi.Z}, {geom.Vec{X: mid.X, Z: lo.Z - off}, tlo.Z - lo.Z},
		{geom.Vec{X: hi.X + off, Z: mid.Z}, hi.X - thi.X}, {geom.Vec{X: lo.X - off, Z: mid.Z}, tlo.X - lo.X},
	} {
		at := table.Frame.At(e.at)
		if e.deep < deep && p.passage(p.door(), way.Point{X: at.X, Z: at.Z}).ok {
			deep, ok = max(0, e.deep), true
		}
	}
	return deep, ok
}
