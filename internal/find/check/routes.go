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
		case r.circle.Diameter == 0:
			p.reportPitch(Fail, Finding{Figure: metres(0, need), View: "entrance", Source: rules.RouteWidth.Source}, "There is no room to step in")
		case !r.way.ok && r.way.gap.Width < hair:
			part, f := p.narrow(r.way.gap)
			p.report(Fail, part, f, "There is no way in: it is closed %s", p.sides(r.way.gap))
		case !r.way.ok:
			part, f := p.narrow(r.way.gap)
			p.report(Fail, part, f, "The way in, %s, is %s", p.sides(r.way.gap), p.enough(r.way))
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

var turning = Check{
	Name: "turning circle", Doc: "A wheelchair can turn inside the booth.",
	Source: rules.TurningCircle.Source,
	Run: func(p *Pass) {
		r, need := p.room(), p.rule(rules.TurningCircle)
		f := Finding{Figure: metres(r.circle.Diameter, need), Source: rules.TurningCircle.Source}
		across, turns := p.length(r.circle.Diameter)+" across", "a wheelchair turns in "+p.length(need)
		if on := p.around(r.circle); len(on) > 1 {
			across += ", between " + list(on)
		}
		switch {
		case r.circle.Diameter == 0:
			p.reportPitch(Caution, f, "There is no clear circle inside; %s", turns)
		case r.circle.Diameter >= need-hair: // that no good way leads to it, if so, is for the check of the entrance
		case !r.way.ok:
			p.reportPitch(Caution, f, "The largest clear circle inside is %s, and no good way leads to it; %s", across, turns)
		case r.beyond.Diameter > 0:
			p.reportPitch(Caution, f, "The largest clear circle inside that a good way leads to is %s; %s. One of %s lies beyond a narrow place",
				across, turns, p.length(r.beyond.Diameter))
		default:
			p.reportPitch(Caution, f, "The largest clear circle inside is %s; %s", across, turns)
		}
	},
}

// around are the names of what keeps a circle from being larger.
func (p *Pass) around(c way.Circle) (names []string) {
	for _, o := range c.Touches {
		if n := p.floor().Obstacles[o].Owner; len(names) == 0 || names[len(names)-1] != p.name(n) {
			names = append(names, p.name(n))
		}
	}
	return names
}
