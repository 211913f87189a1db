// Package hang says where every hook of a booth goes, what it carries, what the wind does to the tent, and what to
// bring. It reads the finished booth and decides nothing about it.
//
// Lengths are metres above the ground or from a wall's left end as you face it; weights are kilograms, forces newtons,
// angles degrees, speeds metres a second. Tables turn them into the scene's own units.
package hang

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// Sheet is everything that there is to know about hanging a booth.
type Sheet struct {
	Scene     string    `json:"scene"`
	Event     string    `json:"event"`
	Artist    string    `json:"artist"`
	Units     string    `json:"units"`
	Tolerance float64   `json:"level_tolerance_m"`
	Walls     []Wall    `json:"walls"`
	Pipes     []Pipe    `json:"pipes"`
	Weather   *Weather  `json:"weather"` // null without a tent
	Loose     []Loose   `json:"in_the_open"`
	Rain      *Rain     `json:"rain"` // null without a tent
	Hardware  []Item    `json:"hardware"`
	Cloth     []Cloth   `json:"cloth"`
	Kit       []Item    `json:"kit"`
	Stock     []Piece   `json:"stock"`
	Weights   []Weighed `json:"weights"`
	Cautions  []string  `json:"cautions"`

	gust     float64 // m/s, stated or usual
	indoor   bool
	tented   bool
	system   unit.System
	currency string
}

// Of makes the sheet of a booth.
func Of(p *booth.Plan) Sheet {
	s := Sheet{
		Scene: p.File, Event: p.Event, Artist: p.Artist, Units: p.Units.String(), system: p.Units, currency: p.Currency,
		Tolerance: tolerance(p), Walls: walls(p), Pipes: pipes(p), Weather: weather(p), Loose: loose(p), gust: p.Weather.Gust, indoor: p.Pitch.Indoor, tented: p.Tented(), Rain: rain(p), Cloth: cloths(p), Stock: stock(p),
	}
	s.Hardware = hardware(p, s.Walls)
	s.Kit = kit(p, s)
	s.Weights = weights(p, s)
	s.Cautions = cautions(p)
	return s
}

// Caution is what is said with every load and force.
const Caution = "These figures are estimates to plan with, not a proof of safety. They leave out knocks, children, worn or bent hooks, wet cloth and wind on the works. The organiser's rules, the local code and a licensed person come first."

func cautions(p *booth.Plan) []string {
	out := []string{
		Caution,
		"A stated strength is the working load that the maker prints. A breaking strength is not one: never load near it. What is not stated is called unknown here and is not assumed.",
	}
	cloth := "Drapes and cloths"
	if p.Tented() {
		cloth = "Cloth, canopy and rain curtains"
		out = append(out, "Put the weights on the tent's legs before anything else, and take them off last.")
	}
	out = append(out, "Stand on a step ladder, never on a chair or a table, with somebody holding it on soft ground.")
	if !p.Pitch.Indoor {
		out = append(out, "Leave the walls down and the works packed if thunder, a gale warning or the organiser says so, and go out of the tent yourself.")
	}
	return append(out, cloth+" should carry the flame label that the fair asks for (NFPA 701 is the usual one in the United States). Keep the way out free.")
}
