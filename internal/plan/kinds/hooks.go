package kinds

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// Hooks are what works are hung with.
type Hooks struct {
	Drop  unit.Length `yaml:"drop" range:"1/4in..12in" doc:"of an S-hook: from where it holds on down to where it carries"`
	Loop  unit.Length `yaml:"shortest loop" range:"1/8in..6in" doc:"the shortest loop of cord that you can tie"`
	Holds unit.Weight `yaml:"hold" doc:"what the maker says that one hook carries; unknown if left out"`
	Wire  unit.Weight `yaml:"wire holds" doc:"what the maker says that your picture wire carries; unknown if left out"`
}

var hooksKind = one("hooks", "The hooks, loops and picture wire that you hang with.", usualHooks, buildHooks)

// Common practice, no source: a 1 1/2 in S-hook carries about 1 1/4 in below the wire that it holds on to.
var usualHooks = Hooks{Drop: 1.25 * unit.Inch, Loop: 0.5 * unit.Inch}

func buildHooks(s *Site, entries []entry[Hooks]) {
	e := usualHooks
	if len(entries) > 0 {
		e = entries[0].says
	}
	s.Plan.Hooks = booth.Hooks{Drop: e.Drop.M(), Loop: e.Loop.M(), Holds: e.Holds}
	s.wireHolds = e.Wire
}
