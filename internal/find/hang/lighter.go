package hang

import (
	"fmt"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// mend is what helps a tent that does not stand a gust.
func (w *Weather) mend(p *booth.Plan, gust float64) string {
	if off := w.lighter(p, gust); len(off) > 0 {
		return "Bring more weight, or leave off " + unit.List(off, "and") + ", which is enough, or stay packed in such a wind"
	}
	return "Bring more weight (without walls it is not enough either), or stay packed in such a wind"
}

// lighter are the cloths and walls, in words, without which the tent stands a gust with the rest up: those with the fewest works, then the fewest.
// Each direction of the wind meets sides of its own, so each is asked by itself. It is empty where none help.
func (w *Weather) lighter(p *booth.Plan, gust float64) (out []string) {
	const most = 10 // that are tried on two sides: booths have up to six
	for _, from := range directions {
		var there []*booth.Part
		works := map[booth.ID]int{}
		for i := range p.Parts {
			part := &p.Parts[i]
			c, wall, hung := part.Cloth, part.Wall, hungOn(p, part)
			sides := across[from]
			switch {
			case hung != nil:
				works[part.Work.Hung.Wall]++
			case c != nil && !c.Free && !c.Rain && (c.Side == sides[0] || c.Side == sides[1]),
				wall != nil && !wall.Free && (wall.Side == sides[0] || wall.Side == sides[1]):
				there = append(there, part)
			}
		}
		if len(there) > most {
			return nil
		}
		best, least := -1, [2]int{}
		for set := range 1 << len(there) {
			off := map[booth.ID]bool{}
			cost := [2]int{} // works, then things
			for k, part := range there {
				if set>>k&1 == 1 {
					off[part.ID] = true
					cost[0], cost[1] = cost[0]+works[part.ID], cost[1]+1
				}
			}
			if best >= 0 && (cost[0] > least[0] || cost[0] == least[0] && cost[1] >= least[1]) {
				continue
			}
			stays := func(part *booth.Part) bool {
				return !off[part.ID] && (hungOn(p, part) == nil || !off[part.Work.Hung.Wall])
			}
			if w.from(p, from, stays).holds(gust) {
				best, least = set, cost
			}
		}
		if best < 0 {
			return nil
		}
		for k, part := range there {
			if best>>k&1 == 0 {
				continue
			}
			name := part.Name
			if n := works[part.ID]; n > 0 {
				name += fmt.Sprintf(" with its %s", plural(n, "work"))
			}
			out = append(out, name)
		}
	}
	return out
}
