package check

import (
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

var entrance = Check{
	Name: "entrance", Doc: "The table and everything else leave the way in clear. It is measured between things as they are drawn: to the folds and the hem of cloth, though cloth gives, and to the feet of a tent's legs.",
	Source: rules.RouteWidth.Source,
	Run: func(p *Pass) {
		r := p.room()
		need := p.rule(rules.RouteWidth)
		switch {
		case p.counter():
			p.reportPitch(Note, Finding{View: "entrance", Source: practice}, "Visitors stay in the aisle, and buy over a counter: no way in is asked for")
		case r.circle.Diameter == 0:
			p.reportPitch(Fail, Finding{Figure: metres(0, need), View: "entrance", Source: rules.RouteWidth.Source}, "There is no room to step in")
		case !r.way.ok:
			part, f := p.narrow(r.way.gap)
			counter := ""
			if part.Top != nil && r.way.gap.Width < sellerWide-hair {
				counter = ". If visitors buy over " + part.Name + ", write counter: yes under it"
			}
			if r.way.gap.Width < hair {
				p.report(Fail, part, f, "There is no way in: it is closed %s%s", p.sides(r.way.gap), counter)
			} else {
				p.report(Fail, part, f, "The way in, %s, is %s%s", p.sides(r.way.gap), p.enough(r.way), counter)
			}
		case r.way.gap.Width < need-hair:
			part, f := p.narrow(r.way.gap)
			p.report(Note, part, f, "The way in, %s, is %s wide at a short narrow place; %s is good practice elsewhere", p.sides(r.way.gap), p.length(r.way.gap.Width), p.length(need))
		}
		for _, w := range p.sideWays() { // a side that is closed is meant to be
			if r.way.ok && !w.way.ok && w.way.gap.Width >= hair {
				p.reportPitch(Note, Finding{View: w.view.Name, Figure: metres(w.way.gap.Width, need), Source: rules.RouteWidth.Source},
					"The way in from %s, %s, is %s", aisleOf[w.view.Side], p.sidesOn(w.floor, w.way.gap), p.enough(w.way))
			}
		}
	},
}

// counter reports whether the booth sells over a counter: the scene says so, or its front is closed but for a gap that nobody takes for a way in, and all that
// visitors look at or take is reached from the aisle.
func (p *Pass) counter() bool {
	if p.Plan.Pitch.Counter {
		return true
	}
	if r := p.room(); r.circle.Diameter > 0 && (r.way.ok || r.way.gap.Width >= sellerWide-hair) {
		return false
	}
	reached := false
	for _, w := range p.Works {
		s := p.stand(w)
		if s.found && !s.good {
			return false
		}
		reached = reached || s.found
	}
	for i := range p.Plan.Parts {
		part := &p.Plan.Parts[i]
		table := p.Plan.Part(part.Parent)
		if !part.Handled || table == nil || table.Top == nil {
			continue
		}
		if _, ok := p.edgeBefore(table, part); !ok {
			return false
		}
		reached = true
	}
	return reached
}

// narrow is the part to name for a narrow place (the one that can be moved: it stands by itself) and the finding's
// figures.
func (p *Pass) narrow(g way.Gap) (*booth.Part, Finding) {
	f := Finding{View: "entrance", Figure: metres(g.Width, p.rule(rules.RouteWidth)), Source: rules.RouteWidth.Source}
	part := &booth.Part{ID: "pitch", At: p.Plan.Pitch.At}
	for _, o := range []int{g.A, g.B} {
		if o < 0 {
			continue
		}
		if n := p.floor().Obstacles[o].Owner; n >= 0 && (part.ID == "pitch" || !movable(part) && movable(&p.Plan.Parts[n])) {
			part = &p.Plan.Parts[n]
		}
	}
	for _, o := range []int{g.A, g.B} {
		if o >= 0 {
			if id := p.id(p.floor().Obstacles[o].Owner); id != part.ID {
				f.With = id
			}
		}
	}
	return part, f
}

// movable reports whether a part stands by itself and is no piece of the booth's shell.
func movable(part *booth.Part) bool {
	return part.Parent == "" && !part.Shell && !part.Beyond && part.Cloth == nil && part.Wall == nil && part.Tent == nil
}
