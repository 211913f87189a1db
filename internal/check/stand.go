package check

import (
	"math"

	"boothmock/internal/geom"
	"boothmock/internal/rules"
	"boothmock/internal/way"
)

// stand is the place from which somebody looks at a work straight on.
type stand struct {
	found bool // the work faces a side, so that a place before it makes sense
	at    way.Point
	way   passage // from the entrance
}

// stand looks for a place before a work, straight out from its middle, from as near as a person fits back to the viewing
// distance: the nearest one that the rule for routes leads to and that shows at least half of the work. If there is
// none, it is the one with the widest way.
func (p *Pass) stand(w Work) stand {
	if s, ok := p.stands[w.Number]; ok {
		return s
	}
	s := p.findStand(w)
	p.stands[w.Number] = s
	return s
}

func (p *Pass) findStand(w Work) stand {
	n := w.Work.Face.Normal()
	out := geom.Vec{X: n.X, Z: n.Z}
	if out.Len() < 0.5 { // it lies on its back: people lean over it
		return stand{}
	}
	out = out.Unit()
	middle := w.Work.Face.Centre()
	f := p.floor()
	back := p.rule(rules.StandBack)
	at := func(d float64) way.Point { return way.Point{X: middle.X + out.X*d, Z: middle.Z + out.Z*d} }
	clear := func(d float64) float64 { return f.Clearance(at(d)).Width }

	const step = 0.05 // metres from try to try
	best, most := 0.0, -1.0
	var tries []float64
	for d := step; d <= back+1e-9; d += step {
		c := clear(d)
		if c > most {
			best, most = d, c
		}
		if 2*c >= p.rule(rules.RouteWidth)-hair {
			tries = append(tries, d)
		}
	}
	if len(tries) == 0 {
		// Nearest things change sides between two tries: narrow it down.
		lo, hi := best-step, min(best+step, back)
		for range 40 {
			a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
			if clear(a) < clear(b) {
				lo = a
			} else {
				hi = b
			}
		}
		tries = append(tries, (lo+hi)/2)
	}
	var widest stand
	for _, d := range tries {
		q := at(d)
		s := stand{found: true, at: q, way: p.passage(p.door(), q)}
		if s.way.ok && p.see(geom.Vec{X: q.X, Y: p.usual().Height, Z: q.Z}, w, noPeople).visible >= 0.5 {
			return s
		}
		if !widest.found || s.way.gap.Width > widest.way.gap.Width || math.IsInf(s.way.gap.Width, 1) {
			widest = s
		}
	}
	return widest
}
