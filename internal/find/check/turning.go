package check

import (
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/rules"
)

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
		case p.counter():
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
