package check

import (
	"fmt"

	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

var listed = Check{
	Name: "list", Doc: "Where the scene says so (whole list: yes), every work of the list that is neither sold nor a spare is in the booth.",
	Source: "the list itself",
	Run: func(p *Pass) {
		for _, kind := range []struct {
			lack            booth.Lack
			one, many, then string
		}{
			{booth.Unread, "One row of the list cannot be read, so its work is missing", "%d rows of the list cannot be read, so their works are missing",
				"Mend the list and give the work a place under rows, or mark it spare there"},
			{booth.Unsized, "One work has no size that can be right, so it is missing", "%d works have no size that can be right, so they are missing",
				"Measure them and write height and width into the list"},
			{booth.Unplaced, "One work of the list has no place in the booth", "%d works of the list have no place in the booth",
				"Give them a row or another wall, or mark those that stay at home as spare, in the list or here"},
		} {
			p.lacking(kind.lack, kind.one, kind.many, kind.then)
		}
	},
}

// lacking tells of the works that are missing for one reason, some of them by name.
func (p *Pass) lacking(lack booth.Lack, one, many, then string) {
	var names []string
	at, why := "", ""
	for _, m := range p.Plan.Missing {
		if m.Lack != lack {
			continue
		}
		if at == "" {
			at = m.At.String()
		}
		names = append(names, fmt.Sprintf("%s (%s)", m.Row, m.Title))
		why = m.Why
	}
	if len(names) == 0 {
		return
	}
	if len(names) == 1 && why != "" {
		names[0] += ", " + why
	}
	p.report(Fail, &booth.Part{ID: "works"}, Finding{At: at}, "%s", finding.Several(names, one, many, then))
}
