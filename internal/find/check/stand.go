package check

import (
	"cmp"
	"math"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/rules"
)

// stand is the place from which somebody looks at a work straight on.
type stand struct {
	found bool // the work faces a side, so that a place before it makes sense
	at    way.Point
	way   passage // from the entrance
	good  bool    // the way is wide enough, and at least half of the work is seen from there
}

// stand looks for a place before a work, as far back as the viewing distance: straight out from its middle if possible,
// otherwise to one side, as long as the work is not seen at a lower angle than the rule for turned works. It is the place
// with the widest way to it among those that the rule for routes leads to and that show at least half of the work; if
// there is none, the place with the widest way.
func (p *Pass) stand(w Work) stand {
	s, ok := p.stands[w.Number]
	if !ok {
		s = p.findStand(w)
		p.stands[w.Number] = s
	}
	return s
}

// Metres from try to try, out from the work and to the side.
const outStep, sideStep = 0.05, 0.1

func (p *Pass) findStand(w Work) stand {
	n := w.Work.Face.Normal()
	out := geom.Vec{X: n.X, Z: n.Z}
	if out.Len() < 0.5 { // it lies on its back: people lean over it
		return stand{}
	}
	out = out.Unit()
	side := geom.Up.Cross(out)
	back := p.rule(rules.StandBack)
	aslant := 1 / math.Tan(rules.TurnedAway.In(p.Plan.Rules)*math.Pi/180) // metres to the side for each metre out
	var best stand
	for k := 0; float64(k)*sideStep <= back*aslant; k++ {
		for _, off := range [2]float64{float64(k) * sideStep, -float64(k) * sideStep} {
			line := lookout{p, w, w.Work.Face.Centre().Add(side.Mul(off)), out}
			s := line.best(max(outStep, math.Abs(off)/aslant), math.Sqrt(max(0, back*back-off*off)))
			if !best.found || s.good && !best.good || s.found && s.good == best.good && s.way.gap.Width > best.way.gap.Width {
				best = s
			}
			if k == 0 {
				break
			}
		}
		if best.good {
			break
		}
	}
	return best
}

// lookout is a line of places out from a point before a work.
type lookout struct {
	*Pass
	work    Work
	origin  geom.Vec
	outward geom.Vec
}

func (l lookout) at(d float64) way.Point {
	q := l.origin.Add(l.outward.Mul(d))
	return way.Point{X: q.X, Z: q.Z}
}

func (l lookout) clear(d float64) float64 { return l.floor().Clearance(l.at(d)).Width }

// best is the best place of the line between the distances near and far from the work.
func (l lookout) best(near, far float64) stand {
	type try struct{ d, clear float64 }
	var tries []try
	for d := near; d <= far; d += outStep {
		tries = append(tries, try{d, l.clear(d)})
	}
	if len(tries) == 0 {
		return stand{}
	}
	// The roomiest places lie beside the roomiest tries: where one thing stops being the nearest and another starts.
	for i, t := range slices.Clone(tries) {
		before, after := tries[max(0, i-1)], tries[min(i+1, len(tries)-1)]
		if (i == 0 || t.clear > before.clear) && t.clear >= after.clear {
			mid, clear := peak(before.d, min(far, t.d+outStep), l.clear)
			tries = append(tries, try{mid, clear})
		}
	}
	slices.SortStableFunc(tries, func(a, b try) int { return cmp.Compare(b.clear, a.clear) })

	var best stand
	for _, t := range tries {
		// No way to a place is wider than the place itself; a place that is too small is of interest only when there
		// is no other.
		small := 2*t.clear < l.rule(rules.RouteWidth)-hair
		if best.found && small || best.good && 2*t.clear <= best.way.gap.Width {
			break
		}
		q := l.at(t.d)
		s := stand{found: true, at: q, way: l.passage(l.door(), q)}
		s.good = s.way.ok && l.see(geom.Vec{X: q.X, Y: l.usual().Height, Z: q.Z}, l.work, noPeople).visible >= half
		if !best.found || s.good && !best.good || s.good == best.good && s.way.gap.Width > best.way.gap.Width {
			best = s
		}
	}
	return best
}

// peak is where between lo and hi, to a hundredth of a hair, a function with one peak there is greatest, and its value:
// golden section search (Kiefer, "Sequential minimax search for a maximum", Proc. AMS 4, 1953).
func peak(lo, hi float64, f func(float64) float64) (x, fx float64) {
	const golden = math.Phi - 1
	a, b := hi-float64(golden*(hi-lo)), lo+float64(golden*(hi-lo))
	fa, fb := f(a), f(b)
	for hi-lo > hair/100 {
		if fa < fb {
			lo, a, fa = a, b, fb
			b = lo + float64(golden*(hi-lo))
			fb = f(b)
		} else {
			hi, b, fb = b, a, fa
			a = hi - float64(golden*(hi-lo))
			fa = f(a)
		}
	}
	if fa < fb {
		return b, fb
	}
	return a, fa
}
