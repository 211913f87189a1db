package main

import (
	"fmt"
	"io"

	"github.com/jedib0t/go-pretty/v6/text"

	"boothmock/internal/booth"
	"boothmock/internal/check"
	"boothmock/internal/unit"
)

// printReport prints the verdict, what to mend, and how much of each work the usual visitor sees.
func printReport(w io.Writer, p *booth.Plan, r check.Report) {
	if p.Event != "" {
		fmt.Fprintln(w, indented(w, fmt.Sprintf("%s (%s)", p.Event, p.File), "")+"\n")
	}
	printSeen(w, p, r)
	if way := r.WayInWords(p); way != "" {
		fmt.Fprintln(w, "\n"+indented(w, way, ""))
	}
	count := map[check.Level]int{}
	rows := [][]string{}
	for _, f := range r.Findings {
		count[f.Level]++
		rows = append(rows, []string{painted(w, string(f.Level), levelColour[f.Level]), f.Message})
	}
	if len(rows) > 0 {
		fmt.Fprintln(w)
		printTable(w, nil, rows)
	}
	fmt.Fprintln(w)
	say := func(verdict, why string) { fmt.Fprintln(w, indented(w, verdict+": "+why+".", "")) }
	switch {
	case count[check.Fail] > 0:
		say(painted(w, "NOT READY", text.FgRed), things(count[check.Fail])+" to mend, "+things(count[check.Caution])+" to think over")
	case count[check.Caution] > 0:
		say(painted(w, "READY", text.FgGreen), "nothing to mend, "+things(count[check.Caution])+" to think over")
	default:
		say(painted(w, "READY", text.FgGreen), "nothing to mend")
	}
}

var levelColour = map[check.Level]text.Color{check.Fail: text.FgRed, check.Caution: text.FgYellow, check.Note: text.FgCyan}

func things(n int) string {
	if n == 1 {
		return "1 thing"
	}
	return fmt.Sprintf("%d things", n)
}

// printSeen prints how much of each work the usual visitor sees from each view.
func printSeen(w io.Writer, p *booth.Plan, r check.Report) {
	var views []string
	for _, v := range p.Views {
		if v.Height == 0 && !v.Bare {
			views = append(views, v.Name)
		}
	}
	var rows [][]string
	lines, away := r.ByWork(), false
	for _, part := range p.Parts {
		if part.Work == nil {
			continue
		}
		row := []string{part.Work.Title}
		for _, v := range views {
			for _, l := range lines[part.ID] {
				if l.From == v && l.Eye == p.Eyes[0].Name {
					seen := "-"
					if l.Turned > 0 {
						seen = unit.Share(l.Visible).Whole()
					} else {
						away = true
					}
					row = append(row, seen)
				}
			}
		}
		rows = append(rows, row)
	}
	if len(rows) > 0 {
		printTable(w, append([]string{"seen by an " + p.Eyes[0].Name}, views...), rows)
	}
	if away {
		fmt.Fprintln(w, indented(w, "A dash: the work faces away from there.", ""))
	}
}
