package job

import (
	"fmt"
	"strings"
	"time"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
)

// days is the fair day by day: when to come, who does what and for how many minutes, what each evening asks by its forecast,
// the mornings and the strike. It is empty where the scene does not say when the fair is.
func days(m *Mockup) hang.Section {
	f := m.Plan.Fair
	if f == nil {
		return hang.Section{}
	}
	s := hang.Section{
		Title: "The days",
		Intro: []string{"Minutes are those of the rehearsal. What wind and rain ask is an estimate: look at the forecast again each evening; the organiser's word and local codes come first."},
	}
	for i, d := range f.Days {
		t := dayTable{hang.Table{
			Title: fmt.Sprintf("%s, open %s to %s", d.From.Format("Monday, 2 January 2006"), clock(d.From), clock(d.To)),
			Head:  []string{"from", "what", "who", "time"}, Wide: []float64{10, 62, 18, 14},
		}}
		switch {
		case i == 0 || m.Sheet().Stays(f.Days[i-1].Night) == hang.None:
			r := m.SetUp()
			from := d.From.Add(-minutes(max(r.Time, r.Length)))
			t.add(from, fmt.Sprintf("Set up: %d steps, as the set-up sheet and the page have them", len(r.Steps)), everybody(r), r.Length)
			t.say(from, busy(r))
		case m.Night().Morning > 0:
			r := m.Night()
			each := (r.Morning + len(r.People) - 1) / len(r.People)
			t.add(d.From.Add(-minutes(each)), "Uncover, hang again what came off, look round", everybody(r), each)
		}
		for _, ask := range m.Sheet().Asks(d.Day, true) {
			t.say(d.From, ask)
		}
		if i == len(f.Days)-1 {
			t.strike(m.Strike(), d.To, "Take down")
		} else {
			t.evening(m, d)
		}
		s.Tables = append(s.Tables, t.Table)
	}
	return s
}

// dayTable is one day.
type dayTable struct{ hang.Table }

func (t *dayTable) add(at time.Time, what, who string, minutes int) {
	t.Rows = append(t.Rows, []string{clock(at), what, who, unit.Minutes(minutes).Format()})
}

func (t *dayTable) say(at time.Time, what string) {
	t.Rows = append(t.Rows, []string{clock(at), what, "", ""})
}

func (t *dayTable) strike(r order.Rehearsal, at time.Time, what string) {
	t.add(at, fmt.Sprintf("%s: %d steps, as the sheet for taking down and the page have them", what, len(r.Steps)), everybody(r), r.Length)
}

// evening is what is done for the night: by the scene's own list, as far as its forecast lets the booth stand.
func (t *dayTable) evening(m *Mockup, d booth.Opening) {
	for _, ask := range m.Sheet().Asks(d.Night, false) {
		t.say(d.To, "Night: "+ask)
	}
	stays := m.Sheet().Stays(d.Night)
	if stays == hang.None {
		t.strike(m.Strike(), d.To, "Take down for the night")
		return
	}
	for _, step := range m.Night().Steps {
		if stays == hang.All || step.ID != "close" { // without walls there is nothing to close with
			t.add(d.To.Add(minutes(step.Start)), step.Name, step.Hands(" + "), step.Minutes())
		}
	}
}

func minutes(n int) time.Duration { return time.Duration(n) * time.Minute }

func clock(t time.Time) string { return t.Format("15:04") }

// everybody are all who are there.
func everybody(r order.Rehearsal) string { return unit.List(r.People, "and") }

// busy is how much work each person of a rehearsal has, and what is carried.
func busy(r order.Rehearsal) string {
	took := map[string]int{}
	for _, s := range r.Steps {
		for _, who := range s.Who {
			took[who] += s.Minutes()
		}
	}
	var all []string
	for _, who := range r.People {
		all = append(all, fmt.Sprintf("%s %s", who, unit.Minutes(took[who]).Format()))
	}
	return fmt.Sprintf("Of it: %s; %d loads from the car", strings.Join(all, ", "), len(r.Loads))
}
