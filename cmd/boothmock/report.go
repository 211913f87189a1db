package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/check"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// printReport prints how much of each work the usual visitor sees, everything that there is to say, and the verdict.
func printReport(w io.Writer, m *job.Mockup) {
	p := m.Plan
	if p.Event != "" {
		fmt.Fprintln(w, indented(w, fmt.Sprintf("%s (%s)", p.Event, p.File), "")+"\n")
	}
	printSeen(w, p, m.Checks())
	if way := m.Checks().WayInWords(p); way != "" {
		fmt.Fprintln(w, "\n"+indented(w, way, ""))
	}
	if r := m.Report(); len(r.Findings) > 0 {
		fmt.Fprintln(w)
		printFindings(w, r.Findings)
	}
	fmt.Fprintln(w)
	printVerdict(w, m.Report())
}

func printFindings(w io.Writer, list []finding.Finding) {
	rows := [][]string{}
	for _, f := range list {
		rows = append(rows, []string{painted(w, string(f.Level), levelColour[f.Level]), f.Message})
	}
	printTable(w, nil, rows)
}

// printVerdict prints the line that every output shows.
func printVerdict(w io.Writer, r finding.Report) {
	colour := text.FgGreen
	if r.Verdict == finding.NotReady {
		colour = text.FgRed
	}
	head, why, _ := strings.Cut(r.Line, ":")
	fmt.Fprintln(w, indented(w, painted(w, head, colour)+":"+why, ""))
}

// printMends prints what must be mended, and the verdict: for commands that show something else.
func printMends(w io.Writer, r finding.Report) {
	if mend := r.Mend(); len(mend) > 0 {
		printFindings(w, mend)
	}
	printVerdict(w, r)
}

// verdict is the error that makes the command end with exit code 1.
func verdict(r finding.Report) error {
	if r.Verdict == finding.NotReady {
		return errFailed
	}
	return nil
}

var levelColour = map[finding.Level]text.Color{finding.Fail: text.FgRed, finding.Caution: text.FgYellow, finding.Note: text.FgCyan}

// printSeen prints how much of each work the usual visitor sees from each view, the aisle along each further side in a table of
// its own.
func printSeen(w io.Writer, p *booth.Plan, r check.Result) {
	views := [4][]string{}
	for _, v := range p.Views {
		if v.Height == 0 && !v.Bare {
			views[v.Side] = append(views[v.Side], v.Name)
		}
	}
	away := false
	for side, names := range views {
		if len(names) > 0 && side > 0 && p.Works() > 0 {
			fmt.Fprintln(w)
		}
		if printSeenFrom(w, p, r, names) {
			away = true
		}
	}
	if away {
		fmt.Fprintln(w, indented(w, "A dash: the work faces away from there.", ""))
	}
}

// printSeenFrom prints how much is seen from some views, and reports whether a work faces away from one.
func printSeenFrom(w io.Writer, p *booth.Plan, r check.Result, views []string) (away bool) {
	var rows [][]string
	lines := r.ByWork()
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
	if len(rows) > 0 && len(views) > 0 {
		printTable(w, append([]string{"seen by an " + p.Eyes[0].Name}, views...), rows)
	}
	return away
}
