package check

import (
	"math"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/rules"
)

// apart is how far two short narrow places must be from each other, in metres: 2010 ADA Standards 403.5.1, exception.
const apart = 48 * float64(unit.Inch)

// passage is the widest way between two places, judged by the rule of 2010 ADA Standards 403.5.1.
type passage struct {
	gap  way.Gap
	long float64 // metres for which the gap is narrower than the rule allows; 0 if that was not asked
	ok   bool
}

// passage finds the widest way. Where it is narrower than the rule for routes, short narrow places may still be let
// through, if each is wide enough for that and far enough from the next.
func (p *Pass) passage(from, to way.Point) passage { return p.passageOn(p.floor(), from, to) }

func (p *Pass) passageOn(f *way.Floor, from, to way.Point) passage {
	need, pinch, longest := p.rule(rules.RouteWidth), p.rule(rules.PinchWidth), p.rule(rules.PinchLength)
	var let []way.Gap
	var grounds []way.Shape
	for {
		g := f.Widest(from, to, let...)
		if g.Width >= need-hair {
			if len(let) > 0 {
				g = let[0] // the narrowest of them
			}
			return passage{gap: leftFirst(g), ok: true}
		}
		if g.B < 0 || g.Width < pinch-hair {
			return passage{gap: leftFirst(g)}
		}
		ground, long := f.Throat(g, need-hair/2)
		if long > longest+hair {
			return passage{gap: leftFirst(g), long: long}
		}
		for _, other := range grounds {
			// What is too near is one narrow place with it, and the two together must be short.
			if _, _, d := way.Closest(ground, other); d < apart-hair {
				if long = max(long, along(g, append(ground, other...))); long > longest+hair {
					return passage{gap: leftFirst(g), long: long}
				}
			}
		}
		let, grounds = append(let, g), append(grounds, ground)
	}
}

// leftFirst is the gap with the thing on its left first, as somebody sees it who comes in; of two that lie behind each other
// the nearer one.
func leftFirst(g way.Gap) way.Gap {
	const fine = 1e-9 // metres
	dx, dz := g.AtB.X-g.AtA.X, g.AtB.Z-g.AtA.Z
	if g.B >= 0 && (dx < -fine || dx < fine && dz > fine) {
		g.A, g.B, g.AtA, g.AtB = g.B, g.A, g.AtB, g.AtA
	}
	return g
}

// along is how far the shape reaches along the way through the gap, in metres.
func along(g way.Gap, s way.Shape) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range s {
		d := float64((q.X-g.AtA.X)*(g.AtB.Z-g.AtA.Z)) - float64((q.Z-g.AtA.Z)*(g.AtB.X-g.AtA.X))
		lo, hi = min(lo, d/g.Width), max(hi, d/g.Width)
	}
	return hi - lo
}

// sides names the things on either side of a narrow place.
func (p *Pass) sides(g way.Gap) string { return p.sidesOn(p.floor(), g) }

func (p *Pass) sidesOn(f *way.Floor, g way.Gap) string {
	a := p.name(f.Obstacles[g.A].Owner)
	if g.B < 0 {
		return "beside " + a
	}
	b := p.name(f.Obstacles[g.B].Owner)
	if a == b {
		return "between two parts of " + a
	}
	return "between " + a + " and " + b
}

// enough says how wide the way is and how wide it should be.
func (p *Pass) enough(w passage) string {
	s := p.length(w.gap.Width) + " wide"
	need := p.length(p.rule(rules.RouteWidth)) + " is good practice"
	if w.long > 0 {
		return s + " for " + p.length(w.long) + "; " + need + ", or " + p.length(p.rule(rules.PinchWidth)) + " for at most " + p.length(p.rule(rules.PinchLength))
	}
	return s + "; " + need
}
