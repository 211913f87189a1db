package job

import (
	"fmt"
	"slices"
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
	sheet, stands := m.Sheet(), hang.None // what stands before a morning
	for i, d := range f.Days {
		t := dayTable{hang.Table{
			Title: fmt.Sprintf("%s, open %s to %s", d.From.Format("Monday, 2 January 2006"), clock(d.From), clock(d.To)),
			Head:  []string{"from", "what", "who", "time"}, Wide: []float64{10, 62, 18, 14},
		}}
		day := sheet.Stays(d.Day)
		t.morning(m, d.From, stands, day)
		for _, ask := range sheet.Asks(d.Day, true) {
			t.say(d.From, ask)
		}
		switch {
		case i < len(f.Days)-1:
			stands = t.evening(m, d, day)
		case day != hang.None:
			t.strike(m, d.To, "Take down", day)
		}
		s.Tables = append(s.Tables, t.Table)
	}
	return s
}

// morning is what is done before the gates open, so that what stands becomes what the day's wind lets stand.
func (t *dayTable) morning(m *Mockup, open time.Time, stands, day hang.Stays) {
	r, down, night := m.SetUp(), m.Strike(), m.Night()
	each := (night.Morning + len(r.People) - 1) / len(r.People)
	switch {
	case day == hang.None && stands == hang.None: // it stays packed
	case day == hang.None:
		t.strike(m, open.Add(-minutes(down.Length)), "Take down before it opens", stands)
	case stands == hang.None && day == hang.All:
		from := open.Add(-minutes(max(r.Time, r.Length)))
		t.add(from, fmt.Sprintf("Set up: %d steps, as the set-up sheet and the page have them", len(r.Steps)), everybody(r), r.Length)
		t.say(from, busy(r))
	case stands == hang.None:
		took := r.Length - clad(m, r)
		t.add(open.Add(-minutes(max(r.Time, took))), "Set up, but for works, drapes and curtains: they stay packed", everybody(r), took)
	case day == hang.All && stands == hang.Bare:
		took := clad(m, r)
		t.add(open.Add(-minutes(took)), "Uncover, hang drapes and works again, look round", everybody(r), took)
	case day == hang.All && each > 0:
		t.add(open.Add(-minutes(each)), "Uncover, hang again what came off, look round", everybody(r), each)
	case day == hang.Bare && stands == hang.All:
		took := clad(m, down)
		t.add(open.Add(-minutes(took)), bareTent, everybody(r), took)
	}
}

// bareTent is what is done before a wind that the tent stands only without its cloth.
const bareTent = "Take down what still hangs of the works, wrap them and take them with you; then drapes and curtains"

// clad is how many minutes works and cloth take of a set-up or a strike, shared by all who are there.
func clad(m *Mockup, r order.Rehearsal) int {
	work := 0
	for _, s := range r.Steps {
		if slices.ContainsFunc(s.Parts, func(id booth.ID) bool {
			part := m.Plan.Part(id)
			return part.Cloth != nil || part.Work != nil && part.Work.Hung != nil
		}) {
			work += s.Minutes() * len(s.Who)
		}
	}
	return (work + len(r.People) - 1) / len(r.People)
}

// dayTable is one day.
type dayTable struct{ hang.Table }

func (t *dayTable) add(at time.Time, what, who string, minutes int) {
	t.Rows = append(t.Rows, []string{clock(at), what, who, unit.Minutes(minutes).Format()})
}

func (t *dayTable) say(at time.Time, what string) {
	t.Rows = append(t.Rows, []string{clock(at), what, "", ""})
}

// strike takes down what stands.
func (t *dayTable) strike(m *Mockup, at time.Time, what string, stands hang.Stays) {
	r := m.Strike()
	if stands == hang.Bare {
		t.add(at, what+" what stands, as the sheet for taking down has it", everybody(r), r.Length-clad(m, r))
		return
	}
	t.add(at, fmt.Sprintf("%s: %d steps, as the sheet for taking down and the page have them", what, len(r.Steps)), everybody(r), r.Length)
}

// evening is what is done for the night, so that what stood by day becomes what the night's wind lets stand. Works come down first, whatever
// follows; what did not stand by day is not put up for the night.
func (t *dayTable) evening(m *Mockup, d booth.Opening, day hang.Stays) hang.Stays {
	if day == hang.None {
		return day
	}
	for _, ask := range m.Sheet().Asks(d.Night, false) {
		t.say(d.To, "Night: "+ask)
	}
	night := max(day, m.Sheet().Stays(d.Night))
	if night == hang.None {
		t.strike(m, d.To, "Take down for the night", day)
		return night
	}
	at := d.To
	if day == hang.All && night == hang.Bare {
		r := m.Strike()
		took := clad(m, r)
		t.add(at, bareTent, everybody(r), took)
		at = at.Add(minutes(took))
	}
	for _, step := range m.Night().Steps {
		kind, _, _ := strings.Cut(string(step.ID), "/")
		switch {
		case night == hang.All:
			t.add(at.Add(minutes(step.Start)), step.Name, step.Hands(" + "), step.Minutes())
		case !slices.Contains([]string{"works", "trip", "close"}, kind): // no work hangs any more, and without walls nothing is closed
			t.add(at, step.Name, step.Hands(" + "), step.Minutes())
			at = at.Add(minutes(step.Minutes()))
		}
	}
	return night
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
