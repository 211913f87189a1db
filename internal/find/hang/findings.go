package hang

import (
	"slices"

	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// Checks are the questions that the sheet answers with findings, in the order in which people read about them.
var Checks = []finding.Check{Holding, Carrying, Standing, Dry}

// Findings is what there is to mend or to think over in how things hang, whether the tent stands, and whether rain comes in.
func Findings(p *booth.Plan, s Sheet) []finding.Finding {
	return slices.Concat(s.holding(p), s.carrying(p), s.standing(p), s.inTheOpen(p), s.forecast(p), s.dry(p))
}
