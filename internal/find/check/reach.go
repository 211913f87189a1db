package check

import (
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/rules"
)

var reach = Check{
	Name: "reach", Doc: "There is a clear way to a place to stand before every work.",
	Source: rules.RouteWidth.Source,
	Run: func(p *Pass) {
		// Works that one narrow place keeps from being reached are reported together; of the way in itself the check of
		// the entrance tells.
		type cause struct{ a, b int } // owners of what is on either side
		between := func(g way.Gap) cause {
			owner := func(obstacle int) int {
				if obstacle < 0 {
					return -1
				}
				return p.floor().Obstacles[obstacle].Owner
			}
			a, b := owner(g.A), owner(g.B)
			return cause{min(a, b), max(a, b)}
		}
		in := p.room().way
		var causes []cause
		works, ways := map[cause][]Work{}, map[cause]passage{}
		for _, w := range p.Works {
			s := p.stand(w)
			c, door := between(s.way.gap), between(in.gap)
			told := c == door
			if s.way.gap.B < 0 { // too little room just there, by what stands in the way in too
				told = c.b == door.a || c.b == door.b
				if in.gap.Width < hair { // any of several things closes it
					told = s.way.gap.Width >= hair
				}
			}
			if !s.found || s.way.ok || !in.ok && told {
				continue
			}
			if s.way.gap.B < 0 {
				c = cause{-1, -2 - w.Number}
			}
			if works[c] == nil {
				causes, ways[c] = append(causes, c), s.way
			}
			works[c] = append(works[c], w)
		}
		for _, c := range causes {
			var names []string
			for _, w := range works[c] {
				names = append(names, w.Name)
			}
			part, f := p.narrow(ways[c].gap)
			f.View = ""
			if len(names) == 1 {
				part, f.At = works[c][0].Part, placeOf(works[c][0].Part)
			}
			switch {
			case ways[c].gap.Width < hair:
				p.report(Fail, part, f, "Nobody can get to a place before %s: the way is closed %s", list(names), p.sides(ways[c].gap))
			case c.b < -1:
				p.report(Fail, part, f, "The place to stand before %s, %s, is %s", list(names), p.sides(ways[c].gap), p.enough(ways[c]))
			default:
				p.report(Fail, part, f, "The way to %s, %s, is %s", list(names), p.sides(ways[c].gap), p.enough(ways[c]))
			}
		}
	},
}
