// Package check says what is wrong with a booth before the car is loaded: works that are hidden, ways that are too
// narrow, things that do not fit. A check is a value in All; it reads the finished booth, reports findings, prints
// nothing and knows no other check. A new check is one file and one line in All.
//
// Numbers are metres, degrees and shares from 0 to 1; messages are in the scene's own units.
package check

import (
	"slices"

	"boothmock/internal/booth"
	"boothmock/internal/unit"
)

// Check is one question asked of a booth.
type Check struct {
	Name   string
	Doc    string // one sentence for people
	Source string // where its limits are from
	Run    func(*Pass)
}

// All is every check, in the order in which people read about them.
var All = []Check{
	hidden, unseen, behind, turned,
	entrance, reach, turning, overhead, protruding,
	tops, hold, fit, gaps, centres, shape, inside, clash,
	legible, codes, handled, watch,
}

// Level is how much a finding matters.
type Level string

const (
	Fail    Level = "fail"    // put it right before you go
	Caution Level = "caution" // worth a change
	Note    Level = "note"    // good to know
)

// Finding is one thing that a check has to say.
type Finding struct {
	Check   string   `json:"check"`
	Level   Level    `json:"level"`
	Item    booth.ID `json:"item"`
	At      string   `json:"at"`   // file:line:col
	View    string   `json:"view"` // the view concerned; empty where there is none
	*Figure          // left out where nothing was measured
	Message string   `json:"message"`
	Source  string   `json:"source"`
}

// Figure is what was measured and what it was compared with.
type Figure struct {
	Measured float64 `json:"measured"`
	Limit    float64 `json:"limit"`
	Unit     string  `json:"unit"` // "m", "share" or "deg"
}

func metres(measured, limit float64) *Figure { return &Figure{measured, limit, "m"} }
func shares(measured, limit float64) *Figure { return &Figure{measured, limit, "share"} }

// Report is all that the checks have to say about a booth, with what they measured whether it passed or not.
type Report struct {
	Scene      string      `json:"scene"`
	Verdict    string      `json:"verdict"` // "fail", "caution" or "pass": the worst level among the findings; notes pass
	Findings   []Finding   `json:"findings"`
	Sightlines []Sightline `json:"sightlines"` // every work from every view by every eye
	Clearances []Clearance `json:"clearances"` // the way in, then the way to every work
	Circle     *Circle     `json:"circle"`     // the largest clear circle that the way in leads to; null without one
}

// Run asks every check about the booth. Findings are in the order of All, the gravest first within a check.
func Run(plan *booth.Plan) Report {
	p := newPass(plan)
	for _, c := range All {
		p.check = c.Name
		c.Run(p)
	}
	rank := func(l Level) int { return slices.Index([]Level{Fail, Caution, Note}, l) }
	place := func(f Finding) int { return slices.IndexFunc(All, func(c Check) bool { return c.Name == f.Check }) }
	slices.SortStableFunc(p.findings, func(a, b Finding) int {
		if d := place(a) - place(b); d != 0 {
			return d
		}
		return rank(a.Level) - rank(b.Level)
	})
	r := Report{Scene: plan.File, Verdict: "pass", Findings: p.findings, Sightlines: p.sightlines(), Clearances: p.clearances(), Circle: p.circle()}
	for _, f := range p.findings {
		if f.Level == Fail || (f.Level == Caution && r.Verdict == "pass") {
			r.Verdict = string(f.Level)
		}
	}
	return r
}

// list is "a, b and c"; beyond four names the rest are counted.
func list(names []string) string {
	if len(names) > 4 {
		names = append(slices.Clone(names[:3]), plural(len(names)-3, "other"))
	}
	return unit.List(names, "and")
}
