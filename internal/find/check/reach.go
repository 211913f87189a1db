package check

import "boothmock/internal/plan/rules"

var reach = Check{
	Name: "reach", Doc: "There is a clear way to a place to stand before every work.",
	Source: rules.RouteWidth.Source,
	Run: func(p *Pass) {
		// Works that one narrow place keeps from being reached are reported together; of the way in itself the check of
		// the entrance tells.
		in := p.room().way
		type cause struct{ a, b int }
		var causes []cause
		works, ways := map[cause][]Work{}, map[cause]passage{}
		for _, w := range p.Works {
			s := p.stand(w)
			if !s.found || s.way.ok || (!in.ok && s.way.gap.A == in.gap.A && s.way.gap.B == in.gap.B) {
				continue
			}
			c := cause{s.way.gap.A, s.way.gap.B}
			if c.b < 0 {
				c = cause{-1, w.Number} // too little room just there
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
			case c.a < 0:
				p.report(Fail, part, f, "The place to stand before %s, %s, is %s", list(names), p.sides(ways[c].gap), p.enough(ways[c]))
			default:
				p.report(Fail, part, f, "The way to %s, %s, is %s", list(names), p.sides(ways[c].gap), p.enough(ways[c]))
			}
		}
	},
}
