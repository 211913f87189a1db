package check

import (
	"math"

	"boothmock/internal/basis/unit"
)

const (
	tilt     = 10.0 // degrees that a wall on feet may be tilted and still come back
	tiltFrom = "common practice, no source: what stands by itself comes back when it is tilted by 10 degrees"
)

var standing = Check{
	Name: "standing walls", Doc: "A wall that stands by itself is tied, or joined to others at an angle, or has feet so deep that it comes back when somebody leans on it.",
	Source: tiltFrom,
	Run: func(p *Pass) {
		tented := !p.Plan.Pitch.Indoor && p.Plan.Tented() // in the open the sheet reckons with the wind
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			w := part.Wall
			if w == nil || !w.Free || w.Back != "" || w.Tied {
				continue
			}
			if w.Bound { // one corner braces the whole run
				if w.Joins == "" && tented {
					p.report(Note, part, Finding{Source: tiltFrom}, "%s and what is joined to it stand by themselves: outdoors wind moves them all the same; tie them (tied: yes)", unit.Capital(part.Name))
				}
				continue
			}
			high := w.Top / 2 // of the middle of its weight, about
			need := 2 * high * math.Tan(tilt*math.Pi/180)
			f := Finding{Figure: metres(w.Feet, need), Source: tiltFrom}
			const mend = "tie it to the tent's frame or to what stands beside it (tied: yes), join it to another at an angle (run), or give it feet of "
			switch {
			case w.Feet < hair:
				p.report(Fail, part, f, "%s stands by itself on an edge and falls: "+mend+"%s", unit.Capital(part.Name), p.length(need))
			case w.Feet < need-hair:
				p.report(Caution, part, f, "%s stands by itself on feet of %s, and somebody who leans on it tips it: "+mend+"%s", unit.Capital(part.Name), p.length(w.Feet), p.length(need))
			case tented:
				p.report(Note, part, f, "%s stands by itself on its feet: outdoors wind tips it all the same; tie it (tied: yes)", unit.Capital(part.Name))
			}
		}
	},
}
