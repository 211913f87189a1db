package drawing

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/lettering"
)

// scaleBar draws a bar of a round length at a place (its left end, on the bar), in steps that people count in.
func (p paper) scaleBar(plan *booth.Plan, at spot, perMetre float64) {
	step, n, words := unit.Foot.M(), 3, "3 ft"
	if plan.Units == unit.Centimetres {
		step, n, words = 0.25, 4, "1 m"
	}
	long, thick := step*perMetre, 0.3*p.em
	for k := range n {
		a := at.add(spot{float64(k) * long, -thick / 2})
		b := a.add(spot{long, thick})
		if k%2 == 0 {
			p.fill(ink, []spot{a, {b.x, a.y}, b, {a.x, b.y}})
		}
		p.box(ink, max(1, 0.06*p.em), a, b)
	}
	p.write(lettering.Regular, ink, 0.9, at.add(spot{float64(n)*long + 0.5*p.em, 0.32 * p.em}), words)
}

// length is metres in the scene's units.
func length(plan *booth.Plan, m float64) string { return plan.Measure(m) }
