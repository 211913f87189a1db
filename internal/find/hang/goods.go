package hang

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// Goods are what is to be carried besides what the tasks of a booth fetch: hardware and tools, each with the steps that need
// it first.
func (s Sheet) Goods() []booth.Goods {
	var out []booth.Goods
	for _, list := range [][]Item{s.Hardware, s.Kit} {
		for _, i := range list {
			if i.first != "" && i.first != inHand {
				out = append(out, booth.Goods{Cargo: booth.Cargo{What: i.What, Count: i.Need + i.Spare, Weight: unit.Weight(i.usual / 1000), Assumed: true}, First: i.first})
			}
		}
	}
	return out
}
