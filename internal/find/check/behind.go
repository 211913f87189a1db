package check

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/rules"
)

var behind = Check{
	Name: "behind", Doc: "Nothing stands before a work when somebody looks at it from straight in front.",
	Source: rules.VisibleShare.Source,
	Run: func(p *Pass) {
		enough := rules.VisibleShare.In(p.Plan.Rules)
		for _, w := range p.Works {
			st := p.stand(w)
			if !st.found || !st.way.ok {
				continue
			}
			eye := geom.Vec{X: st.at.X, Y: p.usual().Height, Z: st.at.Z}
			s := p.see(eye, w, noPeople)
			if s.visible >= enough-1e-9 || s.turned <= 0 || len(s.hidden) == 0 {
				continue
			}
			level := Caution
			if s.visible < half {
				level = Fail
			}
			why := ""
			lo, _ := geom.Bounds(w.Work.Face)
			if top := p.Plan.Parts[s.hidden[0].number].Top; top != nil && lo.Y < *top-hair {
				why = ": its lower edge is " + p.length(*top-lo.Y) + " below the top of " + p.name(s.hidden[0].number)
			}
			p.report(level, w.Part, Finding{Figure: shares(s.visible, enough), Source: rules.VisibleShare.Source, At: placeOf(w.Part), With: s.hidden[0].Item},
				"%s of %s from somebody who stands before it%s%s", p.hiding(s), w.Name, why, p.besides(s))
		}
	},
}
