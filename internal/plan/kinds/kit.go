package kinds

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// Kit is a thing of the artist's own that nothing in the scene shows.
type Kit struct {
	Name   string      `yaml:"name" must:"yes" doc:"what it is"`
	Count  int         `yaml:"count" range:"1..1000" doc:"how many"`
	Weight unit.Weight `yaml:"weight" doc:"what one weighs"`
}

var kitKind = many("kit", "Things to bring that the scene does not draw, for the packing list.", Kit{Count: 1}, buildKit)

func buildKit(s *Site, entries []entry[Kit]) {
	for _, en := range entries {
		s.Plan.Kit = append(s.Plan.Kit, booth.Extra{Name: en.says.Name, Count: en.says.Count, Weight: en.says.Weight})
	}
}
