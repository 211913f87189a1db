package check

import (
	"math"
	"slices"

	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

var centres = Check{
	Name: "centres", Doc: "Works hang with their centres near the hanging height.",
	Source: rules.HangingCentre.Source,
	Run: func(p *Pass) {
		want, slack := p.rule(rules.HangingCentre), p.rule(rules.CentreSlack)
		// Works of one wall with one centre, as far as hooks can make it one, are reported together.
		type level struct {
			wall  booth.ID
			works []Work
		}
		var levels []level
		for _, w := range p.Works {
			wall := p.wallOf(w)
			if wall == nil || math.Abs(w.Work.Hung.Centre()-want) <= slack+hair || p.stacked(w) || p.overTable(w) {
				continue
			}
			k := slices.IndexFunc(levels, func(l level) bool {
				return l.wall == wall.ID && math.Abs(l.works[0].Work.Hung.Centre()-w.Work.Hung.Centre()) <= 2*p.rule(rules.LevelSlack)+hair
			})
			if k < 0 {
				k, levels = len(levels), append(levels, level{wall: wall.ID})
			}
			levels[k].works = append(levels[k].works, w)
		}
		for _, l := range levels {
			var names []string
			first := l.works[0]
			c := first.Work.Hung.Centre()
			for _, w := range l.works { // of those that differ by a tolerance, the one that is furthest off is told
				names = append(names, w.Name)
				if k := w.Work.Hung.Centre(); math.Abs(k-want) > math.Abs(c-want) {
					c = k
				}
			}
			p.report(Note, first.Part, Finding{At: placeOf(first.Part), Figure: metres(c, want), Source: rules.HangingCentre.Source},
				"%s: the centre is %s above the ground; %s is usual", list(names), p.length(c), p.length(want))
		}
	},
}

// stacked reports whether another work hangs above or below: then it is the group's middle that counts.
func (p *Pass) stacked(w Work) bool {
	h := w.Work.Hung
	for _, o := range p.Works {
		k := o.Work.Hung
		if k != nil && o.Number != w.Number && k.Wall == h.Wall && k.X0 < h.X1 && h.X0 < k.X1 && (k.Y0 >= h.Y1 || h.Y0 >= k.Y1) {
			return true
		}
	}
	return false
}

// overTable reports whether a table stands below the work, so that it has to hang higher.
func (p *Pass) overTable(w Work) bool {
	const before = 0.3 // metres before the wall: a table is pushed up to it, more or less
	wall := p.wallOf(w)
	f, h := wall.Frame, w.Work.Hung
	for i := range p.Plan.Parts {
		part := &p.Plan.Parts[i]
		if part.Top == nil {
			continue
		}
		for _, c := range part.Room() {
			x0, x1, z := math.Inf(1), math.Inf(-1), math.Inf(1)
			for _, v := range c.Corners {
				l := f.Local(v)
				x0, x1, z = min(x0, l.X), max(x1, l.X), min(z, l.Z)
			}
			if x0 < h.X1 && h.X0 < x1 && z > -0.5 && z < before {
				return true
			}
		}
	}
	return false
}
