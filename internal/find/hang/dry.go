package hang

import (
	"fmt"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// Dry is the question whether the curtains close the booth against rain.
var Dry = finding.Check{
	Name:   "rain",
	Doc:    "In a scene that is closed against rain, the ready-made curtains reach from the eave to the ground.",
	Source: "common practice, no source: rain is driven in, and runs in, under a curtain that ends above the ground",
}

// gap is what a curtain may end above the ground, in metres, so that its hem is not trodden on: common practice, no source.
const gap = 6 * 0.0254

// dry is what there is to say about rain: curtains that are too short, all sides in one sentence.
func (s Sheet) dry(p *booth.Plan) []finding.Finding {
	if s.Rain == nil || !p.Weather.Rain {
		return nil
	}
	var sides []string
	short := 0.0
	for _, o := range s.Rain.Openings {
		if o.Short > gap {
			sides = append(sides, o.Side)
			short = max(short, o.Short)
		}
	}
	if len(sides) == 0 {
		return nil
	}
	side := "side"
	if len(sides) > 1 {
		side = "sides"
	}
	return []finding.Finding{{
		Check: Dry.Name, Level: finding.Caution, Item: "weather", At: p.Weather.At.String(), Source: Dry.Source,
		Figure:  &finding.Figure{Measured: short, Limit: gap, Unit: finding.Metres},
		Message: fmt.Sprintf("Rain curtains %s high end %s above the ground on the %s %s: take longer ones, or a sheet of the size on the rain page", s.full(s.Rain.Curtain[0]), s.full(short), unit.List(sides, "and"), side),
	}}
}
