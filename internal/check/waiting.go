package check

import (
	"fmt"

	"boothmock/internal/unit"
)

var waiting = Check{
	Name: "waiting", Doc: "Works that hang nowhere wait for a place, and none of them is forgotten.", Source: "the scene itself",
	Run: func(p *Pass) {
		const most = 6 // told by name
		var names []string
		for i, w := range p.Plan.Waiting {
			if i == most-1 && len(p.Plan.Waiting) > most {
				names = append(names, fmt.Sprintf("%d more", len(p.Plan.Waiting)-i))
				break
			}
			names = append(names, w.Work.Title)
		}
		switch n := len(p.Plan.Waiting); {
		case n == 1:
			p.reportPitch(Note, Finding{At: p.Plan.Waiting[0].At.String()}, "%s hangs nowhere and waits", names[0])
		case n > 1:
			p.reportPitch(Note, Finding{At: p.Plan.Waiting[0].At.String()}, "%d works hang nowhere and wait: %s", n, unit.List(names, "and"))
		}
	},
}
