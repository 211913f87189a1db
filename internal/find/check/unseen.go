package check

import (
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/rules"
)

var unseen = Check{
	Name: "unseen", Doc: "Works that face away from the entrance are seen by people who pass on some other way.",
	Source: rules.VisibleShare.Source,
	Run: func(p *Pass) {
		best, facing := map[int]Sightline{}, map[int]bool{} // from where most of a work is seen of those places that it faces
		for _, l := range p.sightlines() {
			if l.Eye == p.usual().Name && l.view.Passing {
				n := l.work.Number
				if b, ok := best[n]; !ok || l.shown() > b.shown() || b.still.turned <= 0 && l.still.turned > 0 {
					best[n] = l
				}
				facing[n] = facing[n] || (l.view.Before && (l.From == "entrance" && l.still.turned > 0 || p.faces(l)))
			}
		}
		for _, w := range p.Works {
			l, looked := best[w.Number]
			if !looked || facing[w.Number] || l.shown() >= half {
				continue
			}
			f := Finding{Figure: shares(l.shown(), half), Source: rules.VisibleShare.Source, At: placeOf(w.Part)}
			if l.still.turned <= 0 {
				p.report(Caution, w.Part, f, "%s faces away from everybody who passes", w.Name)
				continue
			}
			f.View = l.From
			p.report(Caution, w.Part, f, "%s faces away from the entrance, and people who pass see at most %s of it (%s)", w.Name, percent(l.shown()), l.From)
		}
	},
}

var turned = Check{
	Name: "turned", Doc: "Works are turned towards the people who pass, so that they read before anybody steps in.",
	Source: rules.TurnedAway.Source,
	Run: func(p *Pass) {
		least := rules.TurnedAway.In(p.Plan.Rules)
		best := map[int]float64{}
		for _, l := range p.sightlines() {
			if l.Eye == p.usual().Name && l.view.Passing {
				best[l.work.Number] = max(best[l.work.Number], l.still.turned)
			}
		}
		// All works of a wall are turned away together: one note a wall.
		var walls []booth.ID
		works, most := map[booth.ID][]string{}, map[booth.ID]float64{}
		for _, w := range p.Works {
			b := best[w.Number]
			if b <= 0 || b >= least || w.Work.Hung == nil {
				continue
			}
			id := w.Work.Hung.Wall
			if works[id] == nil {
				walls = append(walls, id)
			}
			works[id] = append(works[id], w.Name)
			most[id] = max(most[id], b)
		}
		for _, id := range walls {
			wall := p.Plan.Part(id)
			p.report(Note, wall, Finding{Figure: &Figure{Measured: most[id], Limit: least, Unit: finding.Degrees}, Source: rules.TurnedAway.Source},
				"People who pass see %s on %s at less than %.0f°: those are for visitors who step in", list(works[id]), wall.Name, least)
		}
	},
}
