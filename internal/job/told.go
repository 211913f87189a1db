package job

import (
	"io"

	"boothmock/internal/find/check"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/finding"
)

// told is the verdict at the head of a file of numbers, so that nobody reads one file and misses what the others say.
type told struct {
	Verdict finding.Verdict `json:"verdict"`
	Line    string          `json:"verdict_line"`
}

func (m *Mockup) told() told { return told{m.Report().Verdict, m.Report().Line} }

// WriteFindings writes the report, with every sightline and clear width, as JSON.
func WriteFindings(m *Mockup, w io.Writer) error {
	return WriteJSON(w, struct {
		finding.Report
		check.Result
	}{m.Report(), m.Checks()})
}

// WriteSheet writes the hang sheet as JSON.
func WriteSheet(m *Mockup, w io.Writer) error {
	return WriteJSON(w, struct {
		told
		hang.Sheet
	}{m.told(), m.Sheet()})
}

// WriteRehearsal writes one of the three lists of steps as JSON.
func WriteRehearsal(m *Mockup, r order.Rehearsal, w io.Writer) error {
	return WriteJSON(w, struct {
		told
		order.Rehearsal
	}{m.told(), r})
}
