package hang

import (
	"fmt"
	"math"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// Standing is the question whether the tent stands in the wind.
var Standing = finding.Check{
	Name:   "wind",
	Doc:    "The weights on the tent's legs hold the wind that the scene states, with the walls up, and what stands in the open holds it by its own weight; without a stated wind, up to which gusts they do.",
	Source: "ASCE 7-05/-10, velocity pressure and 0.6 D + W; statics; common practice for what is not stated (boothmock hang prints the method)",
}

// StandsUpTo is the gust in m/s that the booth stands with its walls up and all that stands in the open, by the stated weights of the tent; 0
// where none is stated, nil where no wind reaches it or none can move it.
func (s Sheet) StandsUpTo() *float64 {
	up := anyWind
	if s.Weather != nil {
		up = s.Weather.Up.GoodFor
	}
	if len(s.Loose) > 0 {
		up = min(up, s.Loose[0].GoodFor)
	}
	if up >= anyWind {
		return nil
	}
	return &up
}

// Standing is what there is to say about the wind. A wind that the scene states must be held; without one, people are told
// when the walls must come down, and when the tent must.
func (s Sheet) standing(p *booth.Plan) []finding.Finding {
	w := s.Weather
	if w == nil {
		return nil
	}
	f := finding.Finding{Check: Standing.Name, Item: "weather", At: p.Weather.At.String(), Source: Standing.Source, Steps: windSteps(p)}
	for i := range p.Parts {
		if p.Parts[i].Tent != nil {
			f.Item, f.At = p.Parts[i].ID, p.Parts[i].At.String()
			break
		}
	}
	need := fmt.Sprintf("each of the %d legs needs %s with the walls up and %s with them down", w.Legs, s.atLeast(w.Up.PerLeg), s.atLeast(w.Down.PerLeg))
	if w.Down.PerLeg > w.Up.PerLeg-0.01 {
		need = fmt.Sprintf("each of the %d legs needs %s", w.Legs, s.atLeast(w.Up.PerLeg))
	}
	up, stated := wind.Apart(wind.Speed(w.Up.GoodFor), wind.Speed(w.Gust), s.system)
	if w.Up.Enough {
		up, stated = s.below(w.Up), wind.Speed(w.Gust).Format(s.system)
	}
	gust := "gusts of " + stated
	f.Figure = &finding.Figure{Measured: w.leg(), Limit: w.Up.PerLeg + w.Stake, Unit: finding.Kilograms}
	switch {
	case w.Up.GoodFor >= anyWind:
		return nil
	case w.GustStated && w.Up.Enough:
		f.Level = finding.Note
		f.Message = fmt.Sprintf("%s; the scene states %s", unit.Capital(s.comesDown(up)), gust)
	case w.GustStated && w.leg() == 0:
		f.Level = finding.Fail
		f.Message = fmt.Sprintf("The ballast is not stated: in the stated %s, %s. Write ballast under tent, and bring it", gust, need)
	case w.GustStated:
		f.Level = finding.Fail
		f.Message = fmt.Sprintf("%s on each leg is not enough for the stated %s: %s. As it is, %s. %s",
			s.onLegs(), gust, need, s.comesDown(up), w.mend(p, w.Gust))
	case w.leg() == 0:
		f.Level = finding.Caution
		f.Message = fmt.Sprintf("The ballast is not stated: in %s, which are only a guess, %s. Write ballast under tent, and the wind of your forecast under weather", gust, need)
	default:
		f.Level = finding.Caution
		f.Figure = &finding.Figure{Measured: w.Up.GoodFor, Limit: w.Down.GoodFor, Unit: finding.Speed}
		f.Message = fmt.Sprintf("No wind is stated. With %s on each leg, %s", s.onLegs(), s.comesDown(up))
	}
	return []finding.Finding{f}
}

// onLegs is what holds each leg.
func (s Sheet) onLegs() string {
	w := s.Weather
	switch stake := "a stake that you state to hold " + s.weight(w.Stake); {
	case w.Stake == 0:
		return s.weight(w.Ballast)
	case w.Ballast == 0:
		return stake
	default:
		return s.weight(w.Ballast) + " and " + stake
	}
}

// comesDown says in which gusts the walls, which stand gusts of up, and then the tent must come down.
func (s Sheet) comesDown(up string) string {
	w := s.Weather
	if w.Down.GoodFor <= w.Up.GoodFor {
		return fmt.Sprintf("in gusts of more than %s the tent must come down", up)
	}
	return fmt.Sprintf("in gusts of more than %s the walls must come down, and of more than %s the tent", up, s.below(w.Down))
}

// below is the gust that a state is good for, rounded down.
func (s Sheet) below(x WindState) string { return wind.Speed(x.GoodFor).Below(s.system) }

// atLeast is a weight to bring, rounded up to a whole pound or half a kilogram.
func (s Sheet) atLeast(kg float64) string {
	step := unit.Pound.Kg()
	if s.system == unit.Centimetres {
		step = 0.5
	}
	return s.weight(math.Ceil(kg/step-1e-9) * step)
}

// windSteps are the steps at which somebody must know what wind the booth stands.
func windSteps(p *booth.Plan) []booth.ID {
	var out []booth.ID
	for _, list := range []struct {
		name  booth.ID
		tasks []booth.Task
	}{{"set-up", p.SetUp.Tasks}, {"night", p.SetUp.Night}} {
		for _, t := range list.tasks {
			if t.Windy {
				out = append(out, list.name+"/"+t.ID)
			}
		}
	}
	return out
}
