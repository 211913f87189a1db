package page

import (
	"fmt"
	"strings"

	"boothmock/internal/order"
	"boothmock/internal/unit"
)

// step is a step of the set-up.
type step struct {
	order.Step
	Anchor  string
	Picture []byte
	Clock   string // when it begins, from the start: "0:12"
	Takes   string
	Hands   string
	Needs   []string
	Found   []found // what must be known here
}

func newSteps(v Values) []step {
	var out []step
	for i, s := range v.Rehearsal.Steps {
		t := step{Step: s, Anchor: fmt.Sprintf("step-%d", s.Number), Clock: clock(s.Start), Takes: unit.Minutes(s.Minutes()).Format(), Hands: s.Hands(" and ")}
		if i < len(v.Steps) {
			t.Picture = v.Steps[i]
		}
		if s.Lacks > 0 {
			t.Hands += ": ask a neighbour"
		}
		for _, f := range s.Fetch {
			t.Needs = append(t.Needs, f.Words())
		}
		for _, f := range v.Report.Of(v.Rehearsal.Step(s)) {
			t.Found = append(t.Found, found{Finding: f})
		}
		out = append(out, t)
	}
	return out
}

// clock is minutes as hours and minutes.
func clock(minutes int) string { return fmt.Sprintf("%d:%02d", minutes/60, minutes%60) }

// Planned is what the whole takes, and what there is, in words.
func (m model) Planned() string {
	s := fmt.Sprintf("%s for %s", unit.Minutes(m.Rehearsal.Length).Format(), strings.Join(m.Rehearsal.People, " and "))
	if m.Rehearsal.Time > 0 {
		s += fmt.Sprintf("; the gates open after %s", unit.Minutes(m.Rehearsal.Time).Format())
	}
	return s + "."
}
