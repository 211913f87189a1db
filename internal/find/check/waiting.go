package check

import (
	"fmt"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

var waiting = Check{
	Name: "waiting", Doc: "Works that hang nowhere wait for a place, and none of them is forgotten; one that is sold, or that the list keeps at home, is not in a place.", Source: "the scene itself",
	Run: func(p *Pass) {
		const most = 6                 // told by name
		missing := map[booth.ID]bool{} // listed tells of them
		for _, m := range p.Plan.Missing {
			missing[m.ID] = true
		}
		var names []string
		at := ""
		for _, w := range p.Plan.Waiting {
			if w.Work.Sold || missing[w.ID] {
				continue
			}
			if at == "" {
				at = w.At.String()
			}
			names = append(names, w.Work.Title)
		}
		n := len(names)
		if n > most {
			names = append(names[:most-1:most-1], fmt.Sprintf("%d more", n-most+1))
		}
		switch {
		case n == 1:
			p.reportPitch(Note, Finding{At: at}, "%s hangs nowhere and waits", names[0])
		case n > 1:
			p.reportPitch(Note, Finding{At: at}, "%d works hang nowhere and wait: %s", n, unit.List(names, "and"))
		}
		for _, l := range p.Plan.Catalogue() {
			switch part := p.Plan.Part(l.ID); {
			case l.On == "":
			case l.Work.Sold:
				p.report(Note, part, Finding{}, "%s is sold and still in its place: boothmock arrange --after-sale says what can take it", l.Work.Title)
			case l.Work.Away != "":
				p.report(Note, part, Finding{}, "%s has a place here, and the list says that it is %s: take it out of its row, or change the list", l.Work.Title, l.Work.Away)
			}
		}
	},
}
