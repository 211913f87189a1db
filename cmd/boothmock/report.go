package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"

	"boothmock/internal/booth"
	"boothmock/internal/check"
	"boothmock/internal/unit"
)

// printReport prints the verdict, what to mend, and how much of each work the usual visitor sees.
func printReport(w io.Writer, p *booth.Plan, r check.Report) {
	if p.Event != "" {
		fmt.Fprintf(w, "%s (%s)\n\n", p.Event, p.File)
	}
	printSeen(w, p, r)
	printWayIn(w, p, r)
	count := map[check.Level]int{}
	rows := [][]string{}
	for _, f := range r.Findings {
		count[f.Level]++
		rows = append(rows, []string{painted(w, string(f.Level), levelColour[f.Level]), f.Message})
	}
	if len(rows) > 0 {
		fmt.Fprintln(w)
		printTable(w, rows)
	}
	fmt.Fprintln(w)
	switch {
	case count[check.Fail] > 0:
		fmt.Fprintf(w, "%s: %s to mend, %s to think over.\n", painted(w, "NOT READY", text.FgRed), things(count[check.Fail]), things(count[check.Caution]))
	case count[check.Caution] > 0:
		fmt.Fprintf(w, "%s: nothing to mend, %s to think over.\n", painted(w, "READY", text.FgGreen), things(count[check.Caution]))
	default:
		fmt.Fprintf(w, "%s: nothing to mend.\n", painted(w, "READY", text.FgGreen))
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
	head := []string{"seen by an " + p.Eyes[0].Name}
	var views []string
	for _, v := range p.Views {
		if v.Height == 0 && !v.Bare {
			views = append(views, v.Name)
		}
	}
	rows := [][]string{append(head, views...)}
	for _, part := range p.Parts {
		if part.Work == nil {
			continue
		}
		row := []string{part.Work.Title}
		for _, v := range views {
			for _, l := range r.Sightlines {
				if l.Work == part.ID && l.From == v && l.Eye == p.Eyes[0].Name {
					row = append(row, percent(l.Visible))
				}
			}
		}
		rows = append(rows, row)
	}
	if len(rows) > 1 {
		printTable(w, rows)
	}
}

// percent of 0 to 1, whole; never 100 or 0 for what is not quite so.
func percent(share float64) string {
	n := math.Round(share * 100)
	switch {
	case share > 0 && n == 0:
		n = 1
	case share < 1-1e-9 && n == 100:
		n = 99
	}
	if n == 0 {
		return "-"
	}
	return fmt.Sprintf("%.0f %%", n)
}

func printWayIn(w io.Writer, p *booth.Plan, r check.Report) {
	if len(r.Clearances) == 0 || r.Clearances[0].Width == nil {
		return
	}
	c := r.Clearances[0]
	var between []string
	for _, id := range c.Between {
		if part := p.Part(id); part != nil {
			between = append(between, part.Name)
		}
	}
	fmt.Fprintf(w, "\nThe way in is %s wide", unit.Length(*c.Width).Format(p.Units))
	if len(between) == 2 {
		fmt.Fprintf(w, " at its narrowest, between %s", strings.Join(between, " and "))
	}
	fmt.Fprintln(w, ".")
}
