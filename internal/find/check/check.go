// Package check says what is wrong with a booth before the car is loaded: works that are hidden, ways that are too
// narrow, things that do not fit. A check is a value in All; it reads the finished booth, reports findings, prints
// nothing and knows no other check. A new check is one file and one line in All.
//
// Numbers are metres, degrees and shares from 0 to 1; messages are in the scene's own units.
package check

import (
	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
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
	tops, fit, gaps, centres, shape, inside, clash, tipping, standing, knocked, stores, asked,
	legible, inSight, codes, handled, watch, crowded, listed, waiting,
}

// What the checks say, in words of their own package.
type (
	Finding = finding.Finding
	Figure  = finding.Figure
	Level   = finding.Level
)

const (
	Fail    = finding.Fail
	Caution = finding.Caution
	Note    = finding.Note
)

func metres(measured, limit float64) *Figure {
	return &Figure{Measured: measured, Limit: limit, Unit: finding.Metres}
}
func shares(measured, limit float64) *Figure {
	return &Figure{Measured: measured, Limit: limit, Unit: finding.Share}
}

// list is the names of some things, in words.
var list = finding.Names

// Result is what the checks have to say about a booth, with what they measured whether it passed or not.
type Result struct {
	Findings []finding.Finding `json:"-"` // they go into the one report

	Sightlines []Sightline `json:"sightlines"` // every work from every view by every eye
	Clearances []Clearance `json:"clearances"` // the way in, then the way to every work
	Circle     *Circle     `json:"circle"`     // the largest clear circle that the way in leads to; null without one

	Way []way.Point `json:"-"` // the line of the way in, as corners on the floor; nil where there is none
}

// Run asks every check about the booth. Findings are in the order of All.
func Run(plan *booth.Plan) Result { return Again(plan, nil) }

// Again is Run, with what was kept of other versions of the booth taken over where it is made from the same.
func Again(plan *booth.Plan, kept *answer.Kept) Result {
	p := newPassAgain(plan, kept)
	for _, c := range All {
		p.run(c)
	}
	return Result{Findings: p.findings, Sightlines: p.sightlines(), Clearances: p.clearances(true), Circle: p.circle(), Way: p.line()}
}
