package page

import (
	"fmt"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
)

// step is a step of the set-up.
type step struct {
	order.Step
	Anchor   string
	Picture  []byte
	Clock    string // when it begins, from the start: "0:12"
	Takes    string
	Hands    string
	Needs    []string
	Waits    []string // who waits before it, for how long and for what
	Measures []string
	Wall     *elevation // where it is done, of the walls on which works hang
	From     string     // the view from which what it is about is seen best
	Found    []found    // what must be known here
}

func (m model) newSteps() []step {
	var out []step
	for i, s := range m.Rehearsal.Steps {
		t := step{Step: s, Anchor: stepAnchor(s), Clock: clock(s.Start), Takes: unit.Minutes(s.Minutes()).Format(), Hands: s.Hands(" and "), From: "entrance"}
		if i < len(m.Values.Steps) {
			t.Picture = m.Values.Steps[i]
		}
		if s.Lacks > 0 {
			t.Hands += ": ask a neighbour"
		}
		for _, f := range s.Fetch {
			t.Needs = append(t.Needs, f.Words())
		}
		t.Measures = m.Sheet.Measures(m.Plan, s.Hooks, s.Parts)
		if t.Wall = m.wallOf(s.Place); t.Wall != nil {
			t.From = "inside"
		}
		for _, f := range m.Report.Of(m.Rehearsal.Step(s)) {
			t.Found = append(t.Found, found{Finding: f})
		}
		out = append(out, t)
	}
	m.addWaits(out)
	return out
}

func stepAnchor(s order.Step) string { return fmt.Sprintf("step-%d", s.Number) }

// wallOf is the drawn wall of that ID, or that the cloth of that ID hangs before.
func (m model) wallOf(id booth.ID) *elevation {
	for i, w := range m.Walls {
		part := m.Plan.Part(w.ID)
		if id != "" && (w.ID == id || part != nil && part.Wall.Cover == id) {
			return &m.Walls[i]
		}
	}
	return nil
}

// addWaits tells at each step who has to wait for it.
func (m model) addWaits(steps []step) {
	for _, lane := range m.Rehearsal.Lanes() {
		for _, t := range lane.Turns {
			if !t.Wait || t.Step == 0 {
				continue
			}
			text := fmt.Sprintf("%s waits %s for it", lane.Who, unit.Minutes(t.To-t.From).Format())
			if len(t.Until) > 0 {
				text += ", until " + m.stepNames(t.Until) + are(len(t.Until)) + " done"
			}
			text += "."
			if len(t.Early) > 0 {
				text += " Meanwhile possible: " + m.stepNames(t.Early) + "."
			}
			steps[t.Step-1].Waits = append(steps[t.Step-1].Waits, text)
		}
	}
}

func are(n int) string {
	if n == 1 {
		return " is"
	}
	return " are"
}

// stepNames are steps as people find them.
func (m model) stepNames(numbers []int) string {
	var out []string
	for _, n := range numbers {
		s := m.Rehearsal.Steps[n-1]
		out = append(out, fmt.Sprintf("step %d (%s)", n, strings.Join(s.Who, " and ")))
	}
	return unit.List(out, "and")
}

// clock is minutes as hours and minutes.
func clock(minutes int) string { return fmt.Sprintf("%d:%02d", minutes/60, minutes%60) }

// Planned is what the whole takes, and how much time is left, in words.
func (m model) Planned() string {
	r := m.Rehearsal
	time := func(minutes int) string { return unit.Minutes(minutes).Format() }
	s := fmt.Sprintf("Done after %s for %s", time(r.Length), unit.List(r.People, "and"))
	switch {
	case r.Time >= r.Length && r.Time > 0:
		s += fmt.Sprintf(", with %s left before the gates open after %s", time(r.Time-r.Length), time(r.Time))
	case r.Time > 0:
		s += fmt.Sprintf(", and the gates open after %s: %s too late", time(r.Time), time(r.Length-r.Time))
	}
	return s + "."
}

// stepsAt are the steps that are done at a wall.
func (m model) stepsAt(w *elevation) []order.Step {
	var out []order.Step
	for _, s := range m.Rehearsal.Steps {
		if at := m.wallOf(s.Place); at != nil && at.ID == w.ID {
			out = append(out, s)
		}
	}
	return out
}
