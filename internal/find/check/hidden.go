package check

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// half is the part of a work below which it counts as lost: common practice, no source.
const half = 0.5

var hidden = Check{
	Name: "hidden", Doc: "Every work that faces the entrance is seen from there, and from the aisle along any other open side that it faces. Things hide what their drawn shape hides: cloth fold by fold, wire mesh wire by wire. Of what is behind a mesh the share (1 - d/(s cos a))(1 - d/(s cos b)) stays open, d being the wires' thickness, s their spacing, a and b the angles off square across the standing and the lying ones: 85% of a 2 in mesh square on, 66% at 74 degrees (derived from round wires). A work's own frame does not count.",
	Source: rules.VisibleShare.Source,
	Run: func(p *Pass) {
		enough := rules.VisibleShare.In(p.Plan.Rules)
		lost := map[int]bool{}       // works that the usual visitor does not see well
		worst := map[int]Sightline{} // of the other eyes, for works that the usual visitor sees well
		type hider struct {
			from string
			by   booth.ID
		}
		var hiders []hider // of works that face a side aisle; what one hides from there is told together
		behind := map[hider][]Sightline{}
		var byPeople []string // works that a visitor in the booth stands before
		var somebody *booth.Part
		for _, l := range p.sightlines() {
			w := l.work
			if l.still.turned <= 0 {
				continue
			}
			visible := l.still.visible
			f := Finding{View: l.From, Figure: shares(visible, enough), Source: rules.VisibleShare.Source, With: greatest(l.still)}
			switch {
			case l.From == "application" && l.Eye == p.usual().Name && visible < enough-1e-9:
				p.report(Note, w.Part, f, "%s of %s in the picture for juries", p.hiding(l.still), w.Name)
			case l.From != "entrance" && l.view.Before && l.Eye == p.usual().Name && visible < half && p.faces(l):
				by := hider{l.From, f.With}
				if behind[by] == nil {
					hiders = append(hiders, by)
				}
				behind[by] = append(behind[by], l)
			case l.From != "entrance":
			case l.Eye != p.usual().Name:
				if o, ok := worst[w.Number]; visible < half && !lost[w.Number] && (!ok || visible < o.still.visible) {
					worst[w.Number] = l
				}
			case visible < half:
				lost[w.Number] = true
				p.report(Fail, w.Part, f, "%s of %s from the entrance (%s eye)%s: less than half of it is seen", p.hiding(l.still), w.Name, l.Eye, p.besides(l.still))
			case visible < enough-1e-9:
				lost[w.Number] = true
				p.report(Caution, w.Part, f, "%s of %s from the entrance (%s eye)%s", p.hiding(l.still), w.Name, l.Eye, p.besides(l.still))
			case l.Visible < enough-1e-9:
				byPeople = append(byPeople, w.Name)
				for _, h := range l.HiddenBy {
					if part := &p.Plan.Parts[h.number]; part.Moving && somebody == nil {
						somebody = part
					}
				}
			}
		}
		for _, h := range hiders {
			l := behind[h][0]
			f := Finding{View: h.from, Figure: shares(l.still.visible, enough), Source: rules.VisibleShare.Source, With: h.by}
			if len(behind[h]) == 1 {
				p.report(Caution, l.work.Part, f, "%s of %s from %s (%s eye): less than half of it is seen", p.hiding(l.still), l.work.Name, aisleOf[l.view.Side], l.Eye)
				continue
			}
			var names []string
			for _, l := range behind[h] {
				names = append(names, l.work.Name)
			}
			p.report(Caution, l.work.Part, f, "%s hides more than half of %s from %s (%s eye)", unit.Capital(p.Plan.Part(h.by).Name), list(names), aisleOf[l.view.Side], l.Eye)
		}
		for _, w := range p.Works {
			if l, ok := worst[w.Number]; ok {
				p.report(Note, w.Part, Finding{View: l.From, Figure: shares(l.still.visible, half), Source: rules.VisibleShare.Source, With: greatest(l.still)},
					"%s of %s from the entrance for somebody whose eye is at %s (%s)", p.hiding(l.still), w.Name, p.length(l.EyeM), l.Eye)
			}
		}
		if somebody != nil {
			p.report(Note, somebody, Finding{View: "entrance", Source: rules.VisibleShare.Source},
				"People standing in the booth hide part of %s from the entrance, until they move on", list(byPeople))
		}
	},
}

// faces reports whether a work is turned towards somebody enough to be for them, rather than for those who step in.
func (p *Pass) faces(l Sightline) bool {
	return l.still.turned > 0 && l.still.turned >= rules.TurnedAway.In(p.Plan.Rules)-1e-9
}

// greatest is the thing that hides most; empty where nothing does.
func greatest(s seen) booth.ID {
	if len(s.hidden) == 0 {
		return ""
	}
	return s.hidden[0].Item
}
