package page

import (
	"fmt"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
)

// list is a list of steps: the set-up, or what is done for the night or at the end.
type list struct {
	order.Rehearsal
	Title string // as a heading, and to choose it by
	Steps []step
}

// listWords are what the page calls a list, what the picture of its step of a number shows, and what a step's things are.
var listWords = map[order.Which]struct{ title, picture, things string }{
	order.SetUp:  {"Set up", "The booth after step %d", "Needs"},
	order.Night:  {"Night", "Before step %d, and what it takes away or covers", "To carry away:"},
	order.Strike: {"Take down", "Before step %d, and what it takes away", "To carry away:"},
}

// step is a step of a list.
type step struct {
	order.Step
	Anchor   string
	Log      booth.ID // its name in the log of times
	Picture  []byte
	Shows    string // what the picture shows
	Clock    string // when it begins, from the start: "0:12"
	Takes    string
	Hands    string
	Things   string // what its needs are
	Needs    []string
	Waits    []string // who waits before it, for how long and for what
	Measures []string
	Wall     *elevation // where it is done, of the walls on which works hang
	From     string     // the view from which what it is about is seen best
	Found    []found    // what must be known here
}

func (m model) newList(r order.Rehearsal) list {
	words := listWords[r.Which]
	out := list{Rehearsal: r, Title: words.title}
	pictures := m.Values.Steps[r.Which]
	for i, s := range r.Steps {
		t := step{
			Step: s, Anchor: stepAnchor(r.Which, s), Log: r.Which.Logged(s.ID), Shows: fmt.Sprintf(words.picture, s.Number), Things: words.things,
			Clock: clock(s.Start), Takes: unit.Minutes(s.Minutes()).Format(), Hands: s.Hands(" and "), From: "entrance",
		}
		if i < len(pictures) {
			t.Picture = pictures[i]
		}
		if s.Lacks > 0 {
			t.Hands += ": ask a neighbour"
		}
		for _, f := range s.Fetch {
			t.Needs = append(t.Needs, f.Words())
		}
		if r.Which == order.SetUp {
			t.Measures = m.Sheet.Measures(m.Plan, s.Hooks, s.Parts)
		}
		if t.Wall = m.wallOf(s.Place); t.Wall != nil {
			t.From = "inside"
		}
		for _, f := range m.Report.Of(r.Step(s)) {
			t.Found = append(t.Found, found{Finding: f})
		}
		out.Steps = append(out.Steps, t)
	}
	out.addWaits()
	return out
}

func stepAnchor(which order.Which, s order.Step) string {
	if which == order.SetUp {
		return fmt.Sprintf("step-%d", s.Number)
	}
	return fmt.Sprintf("%s-%d", which, s.Number)
}

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
func (l list) addWaits() {
	for _, lane := range l.Lanes() {
		for _, t := range lane.Turns {
			if !t.Wait || t.Step == 0 {
				continue
			}
			text := fmt.Sprintf("%s waits %s for it", lane.Who, unit.Minutes(t.To-t.From).Format())
			if len(t.Until) > 0 {
				text += ", until " + l.stepNames(t.Until) + are(len(t.Until)) + " done"
			}
			text += "."
			if len(t.Early) > 0 {
				text += " Meanwhile possible: " + l.stepNames(t.Early) + "."
			}
			s := &l.Steps[t.Step-1]
			s.Waits = append(s.Waits, text)
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
func (l list) stepNames(numbers []int) string {
	var out []string
	for _, n := range numbers {
		s := l.Rehearsal.Steps[n-1]
		out = append(out, fmt.Sprintf("step %d (%s)", n, strings.Join(s.Who, " and ")))
	}
	return unit.List(out, "and")
}

// clock is minutes as hours and minutes.
func clock(minutes int) string { return fmt.Sprintf("%d:%02d", minutes/60, minutes%60) }

// Planned is what the whole takes, and how much time is left, in words.
func (l list) Planned() string {
	r := l.Rehearsal
	time := func(minutes int) string { return unit.Minutes(minutes).Format() }
	s := fmt.Sprintf("%s: done after %s for %s", l.Title, time(r.Length), unit.List(r.People, "and"))
	switch {
	case r.Time >= r.Length && r.Time > 0:
		s += fmt.Sprintf(", with %s left before the gates open after %s", time(r.Time-r.Length), time(r.Time))
	case r.Time > 0:
		s += fmt.Sprintf(", and the gates open after %s: %s too late", time(r.Time), time(r.Length-r.Time))
	}
	return s + "."
}

// stepsAt are the steps of the set-up that are done at a wall.
func (m model) stepsAt(w *elevation) []step {
	var out []step
	for _, l := range m.StepLists {
		for _, s := range l.Steps {
			if l.Which == order.SetUp && s.Wall != nil && s.Wall.ID == w.ID {
				out = append(out, s)
			}
		}
	}
	return out
}
