package order_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
	"boothmock/scenes"
)

func plan(t testing.TB, text string) *booth.Plan {
	t.Helper()
	fsys := fstest.MapFS{"a.yaml": {Data: []byte(text)}}
	f, err := scene.Read(fsys, "a.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, err := kinds.Build(f, rules.Book{}, fsys)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func example(t testing.TB, name string) *booth.Plan {
	t.Helper()
	f, err := scene.ReadAs(scenes.FS, name, name)
	if err != nil {
		t.Fatal(err)
	}
	p, err := kinds.Build(f, rules.Book{}, scenes.FS)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func rehearsed(t testing.TB, p *booth.Plan, o order.Options) order.Rehearsal {
	t.Helper()
	r, err := order.Of(p, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func step(t testing.TB, r order.Rehearsal, id booth.ID) order.Step {
	t.Helper()
	i := slices.IndexFunc(r.Steps, func(s order.Step) bool { return s.ID == id })
	if i < 0 {
		t.Fatalf("there is no step %s", id)
	}
	return r.Steps[i]
}

// small is a booth of one wall whose table stands where the hanger has to stand; the chair stands clear of it.
const small = `
units: in
set-up: {people: 2, trip: 0min}
tent: {}
walls: [{side: left}]
tables: [{name: t, size: 48 x 24, against: left, from front: 36}]
chair: {from left: 84, from front: 6}
works: [{name: a, size: 20 x 20, wall: left, hooks: 1}]
tags: {}
`

// Worked by hand: frame, canopy, raise, weights of four minutes each, mesh 8, a hook 1, a work 2, a tag 1, the table 4, the
// last look 5: 37. The chair's minute fits beside any of them that takes one person.
func TestSmallBoothByHand(t *testing.T) {
	p := plan(t, small)
	r := rehearsed(t, p, order.Options{})
	if r.Length != 37 || r.Chain != 37 || r.Bound != 37 {
		t.Errorf("length %d, chain %d, bound %d; want 37", r.Length, r.Chain, r.Bound)
	}
	want := []struct {
		id                             booth.ID
		start, end, earliest, slack, n int
	}{
		{"frame", 0, 4, 0, 0, 2}, {"canopy", 4, 8, 4, 0, 2}, {"raise", 8, 12, 8, 0, 2}, {"weights", 12, 16, 12, 0, 2},
		{"wall/left", 16, 24, 16, 0, 2}, {"hooks/left", 24, 25, 24, 0, 1}, {"works/left", 25, 27, 25, 0, 1}, {"tags/left", 27, 28, 27, 0, 1},
		{"table/t", 28, 32, 28, 0, 1}, {"look", 32, 37, 32, 0, 1},
	}
	for _, w := range want {
		s := step(t, r, w.id)
		if s.Start != w.start || s.End != w.end || s.Earliest != w.earliest || s.Slack != w.slack || len(s.Who) != w.n || s.Room != 0 {
			t.Errorf("%s: %+v, want %+v and no room", w.id, s, w)
		}
	}
	// The chair can begin when the weights are on (16) and must end before the last look (32): 15 minutes of slack.
	chair := step(t, r, "chair")
	if chair.Earliest != 16 || chair.Slack != 15 || chair.End > 32 {
		t.Errorf("the chair: %+v", chair)
	}
	after := func(id, before booth.ID) bool {
		return slices.Contains(step(t, r, id).After, step(t, r, before).Number)
	}
	if !after("table/t", "works/left") || !after("table/t", "hooks/left") || !after("table/t", "tags/left") {
		t.Error("the table does not wait for the work behind it")
	}
	if after("chair", "works/left") {
		t.Error("the chair waits for a work that it is not in the way of")
	}
	if s := step(t, r, "canopy"); s.Shows[0].Low == 0 {
		t.Error("the canopy goes on while the frame stands low")
	}
	for _, s := range step(t, r, "raise").Shows {
		if s.Low != 0 {
			t.Errorf("%s is still low after the tent is raised", s.Part)
		}
	}
}

// A table that stands 40 in from the wall leaves ground enough to hang behind it; 20 in does not.
func TestWhatStandsInTheWay(t *testing.T) {
	for clear, waits := range map[string]bool{"40": false, "20": true} {
		p := plan(t, strings.Replace(small, "against: left, from front: 36", "from left: "+clear+", from front: 36, turn: 90", 1))
		r := rehearsed(t, p, order.Options{})
		got := slices.Contains(step(t, r, "table/t").After, step(t, r, "works/left").Number)
		if got != waits {
			t.Errorf("%s in from the wall: waits for the work: %v, want %v", clear, got, waits)
		}
	}
}

// said is what the rehearsal finds, in one text.
func said(p *booth.Plan, r order.Rehearsal) string {
	var out []string
	for _, f := range order.Findings(p, r) {
		out = append(out, f.Message)
	}
	return strings.Join(out, "\n")
}

func TestOnePersonIsTold(t *testing.T) {
	p := plan(t, small).SetUpBy(1)
	r := rehearsed(t, p, order.Options{})
	if r.Length != 38 || step(t, r, "raise").Lacks != 1 || step(t, r, "table/t").Lacks != 0 {
		t.Errorf("length %d, want 38 for one after the other", r.Length)
	}
	if got := order.Findings(p, r); len(got) != 1 || got[0].Level != finding.Fail || !strings.Contains(got[0].Message, "raise") || !strings.Contains(got[0].Message, "one person more wanted, 24 min for setting up") {
		t.Errorf("found %v", got)
	}
}

func TestNotEnoughTimeIsTold(t *testing.T) {
	for give, want := range map[string]string{"30min": "More hands do not help: steps that wait for each other take 37 min", "37min": ""} {
		p := plan(t, strings.Replace(small, "trip: 0min", "trip: 0min, time: "+give, 1))
		got := said(p, rehearsed(t, p, order.Options{}))
		if want == "" && got != "" || !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", give, got, want)
		}
	}
	// Nine minutes for two people, one after the other for one: a third of the hands is what is missing.
	p := plan(t, strings.Replace(small, "trip: 0min", "trip: 0min, time: 37min", 1)).SetUpBy(1)
	if got := said(p, rehearsed(t, p, order.Options{})); !strings.Contains(got, "No other order helps: for one person it takes 38 min at least") {
		t.Errorf("one person in 37 minutes: %q", got)
	}
}

// What helps is rehearsed too: as many more people as it takes, and what may stand the evening before. Each line says how long it then takes, and
// that is in time.
func TestWhatHelpsAgainstTime(t *testing.T) {
	p := example(t, "demo.yaml")
	p.SetUp.Time = 90
	r := rehearsed(t, p, order.Options{})
	got := said(p, r)
	m := regexp.MustCompile(`What helps: come (.+) earlier, find (.+) more \(then it takes (.+?)\) or put up (.+) the evening before, where the fair allows it \(then it takes (.+?)\)$`).FindStringSubmatch(got)
	if m == nil {
		t.Fatalf("what helps is not said: %q", got)
	}
	more := map[string]int{"one person": 1, "2 people": 2, "3 people": 3}[m[2]]
	for n := 1; n <= more; n++ {
		q := p.SetUpBy(2 + n)
		if long := rehearsed(t, q, order.Options{}).Length; (long <= 90) != (n == more) || n == more && unit.Minutes(long).Format() != m[3] {
			t.Errorf("with %d people more it takes %d min, told: %q", n, long, got)
		}
	}
	took := 1
	for took <= 90 && unit.Minutes(took).Format() != m[5] {
		took++
	}
	if took > 90 {
		t.Errorf("%q helps, and takes %s", got, m[5])
	}
}

// The strike and the night are no set-up backwards.
func TestStrikeAndNight(t *testing.T) {
	p := plan(t, small)
	r := rehearsed(t, p, order.Options{Which: order.Strike})
	at := func(id booth.ID) order.Step { return step(t, r, id) }
	for _, pair := range [][2]booth.ID{{"money", "works/left"}, {"table/t", "works/left"}, {"works/left", "wall/left"}, {"wall/left", "lower"}, {"chair", "lower"}, {"lower", "canopy"}, {"canopy", "weights"}, {"weights", "frame"}} {
		if at(pair[0]).End > at(pair[1]).Start {
			t.Errorf("%s ends at %d, and %s starts at %d", pair[0], at(pair[0]).End, pair[1], at(pair[1]).Start)
		}
	}
	for _, s := range r.Steps {
		if s.ID == "tags/left" || s.ID == "hooks/left" {
			t.Errorf("%s is no step of a strike: tags and hooks go with the works", s.ID)
		}
	}
	r = rehearsed(t, p, order.Options{Which: order.Night})
	if !strings.Contains(at("works/left").Name, "take them with you") || at("look").Caution == "" {
		t.Errorf("the night: %+v", r.Steps)
	}
	if r.Morning != 3 { // a work 2, a tag 1
		t.Errorf("in the morning %d minutes of work, want 3", r.Morning)
	}
	covered := plan(t, strings.Replace(small, "people: 2", "people: 2, night: covered", 1))
	r = rehearsed(t, covered, order.Options{Which: order.Night})
	if !strings.Contains(at("works/left").Name, "sheet") || r.Morning != 0 {
		t.Errorf("covered: %+v", at("works/left"))
	}
}

// Two loads by hand: the tent of 27 kg and two weights of 40 lb are 63.3 kg, a third one would be more than 150 lb (68 kg).
// The work comes by itself, and only when the weights are on.
func TestLoadsAndTrips(t *testing.T) {
	r := rehearsed(t, plan(t, strings.Replace(small, "trip: 0min", "trip: 6min", 1)), order.Options{})
	if n := r.Loads[0].Items[1]; len(r.Loads[0].Items) != 2 || n.Count != 2 || r.Loads[0].Weight > 68.04 {
		t.Errorf("the first load: %+v", r.Loads[0])
	}
	total := 0
	for _, l := range r.Loads {
		if l.Weight > 150*0.45359237+1e-9 {
			t.Errorf("load %d weighs %g kg", l.Number, l.Weight)
		}
		for _, i := range l.Items {
			if strings.HasPrefix(i.What, "weights") {
				total += i.Count
			}
			if i.What == "“a”" != l.Tender {
				t.Errorf("load %d, tender %v, holds %s", l.Number, l.Tender, i.What)
			}
		}
		trip := step(t, r, booth.ID("trip/"+string(rune('0'+l.Number))))
		if trip.Minutes() != 6 || len(trip.Who) != 1 {
			t.Errorf("trip %d: %+v", l.Number, trip)
		}
		if l.Tender && trip.Start < step(t, r, "weights").End {
			t.Errorf("the work is fetched at %d, and the roof stands at %d", trip.Start, step(t, r, "weights").End)
		}
	}
	if total != 4 {
		t.Errorf("%d weights are carried, want 4", total)
	}
	if canopy := step(t, r, "canopy"); canopy.Start < step(t, r, "trip/2").End {
		t.Error("the canopy goes on before all weights are there")
	}
	if raise, weights := step(t, r, "raise"), step(t, r, "weights"); weights.Start != raise.End || raise.Start != step(t, r, "canopy").End {
		t.Error("somebody lets go of the tent before its weights are on")
	}
}

// When the booth is taken down a load goes to the car once all that it holds is down.
func TestTripsOfTheStrike(t *testing.T) {
	r := rehearsed(t, plan(t, strings.Replace(small, "trip: 0min", "trip: 6min", 1)), order.Options{Which: order.Strike})
	from := map[string]booth.ID{"t table": "table/t", "mesh panels of the left wall": "wall/left", "chair": "chair", "weights for the legs": "weights", "“a”": "works/left", "the tent frame with its canopy": "frame"}
	for _, l := range r.Loads {
		trip := step(t, r, booth.ID("trip/"+string(rune('0'+l.Number))))
		for _, i := range l.Items {
			if down := step(t, r, from[i.What]); down.End > trip.Start {
				t.Errorf("load %d goes at %d with %s, which is down at %d", l.Number, trip.Start, i.What, down.End)
			}
		}
	}
	if len(r.Loads) != 3 {
		t.Errorf("%d loads, want 3", len(r.Loads))
	}
}

// One that is left over is not called by the name of all.
func TestOneOfMany(t *testing.T) {
	r := rehearsed(t, plan(t, small+"kit: [{name: jars of wax, count: 3, weight: 70lb}, {name: stool, weight: 1lb}]\n"), order.Options{})
	var words []string
	for _, l := range r.Loads {
		words = append(words, l.Words()...)
	}
	for _, want := range []string{"2 jars of wax", "1 of the jars of wax", "stool"} {
		if !slices.Contains(words, want) {
			t.Errorf("no load says %q: %q", want, words)
		}
	}
}

func TestHeavyThingIsTold(t *testing.T) {
	p := plan(t, strings.Replace(small, "trip: 0min", "trip: 6min, trolley: 50lb", 1))
	r := rehearsed(t, p, order.Options{})
	if got := said(p, r); !strings.Contains(got, "The tent frame with its canopy is more than the trolley carries") {
		t.Errorf("found %q", got)
	}
	if trip := step(t, r, "trip/1"); len(trip.Who) != 2 {
		t.Errorf("the tent is carried by %v", trip.Who)
	}
}

func TestTasksOfTheUsersOwn(t *testing.T) {
	r := rehearsed(t, plan(t, strings.Replace(small, "trip: 0min", "trip: 6min", 1)+`
tasks:
  - {do: Sign in, name: sign in, minutes: 10, before: [everything]}
  - {do: Park the car, minutes: 8, after: [trips]}
  - {step: works/left, minutes: 12, people: 2, caution: Fresh varnish.}
  - {step: table/t, not after: [tags/left, works/left, hooks/left]}
`), order.Options{})
	if s := step(t, r, "sign in"); s.Start != 0 || s.End != 10 {
		t.Errorf("signing in: %+v", s)
	}
	last := 0
	for _, s := range r.Steps {
		if s.ID != "sign in" && s.Start < 10 {
			t.Errorf("%s starts at %d, before anybody has signed in", s.ID, s.Start)
		}
		if strings.HasPrefix(string(s.ID), "trip/") {
			last = max(last, s.End)
		}
	}
	if s := step(t, r, "task/2"); s.Start < last || s.Minutes() != 8 {
		t.Errorf("the car is parked at %d, and the last trip ends at %d", s.Start, last)
	}
	if s := step(t, r, "works/left"); s.Minutes() != 12 || len(s.Who) != 2 || s.Caution != "Fresh varnish." {
		t.Errorf("the changed step: %+v", s)
	}
	if s := step(t, r, "table/t"); slices.Contains(s.After, step(t, r, "works/left").Number) {
		t.Error("the table still waits for what it need not wait for")
	}
}

// A task without minutes is done in passing, though everybody is at work.
func TestNoMinutes(t *testing.T) {
	r := rehearsed(t, plan(t, `
units: in
set-up: {people: 1}
tasks:
  - {do: Sweep, name: sweep, minutes: 30}
  - {do: Wave at the neighbours, name: wave, minutes: 0}
`), order.Options{})
	if s := step(t, r, "wave"); s.Minutes() != 0 || len(s.Who) != 1 {
		t.Errorf("from %d to %d by %v", s.Start, s.End, s.Who)
	}
	for _, s := range r.Steps {
		if s.Room < 0 {
			t.Errorf("%s may be late by %d", s.ID, s.Room)
		}
	}
}

func TestImpossibleOrders(t *testing.T) {
	for name, c := range map[string]struct{ tasks, want string }{
		"a loop":         {"tasks: [{step: wall/left, after: [works/left]}]", `a.yaml:10:9: these steps wait for each other: wall/left waits for works/left waits for hooks/left waits for wall/left`},
		"between":        {"tasks: [{do: Coffee, name: coffee, after: [raise], before: [weights]}]", `a.yaml:10:9: coffee cannot come between raise and weights`},
		"of its own":     {"tasks: [{do: A, name: a1, after: [b1]}, {do: B, name: b1, after: [a1]}]", `a1 waits for b1 waits for a1`},
		"for the strike": {"tasks: [{step: canopy, of: strike, after: [frame]}]", `canopy waits for frame waits for weights waits for canopy`},
	} {
		p := plan(t, small+c.tasks+"\n")
		err := order.Check(p)
		var faults fault.List
		if !errors.As(err, &faults) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s:\n got %v\nwant %s", name, err, c.want)
		}
	}
	if err := order.Check(plan(t, small)); err != nil {
		t.Error(err)
	}
}

// Every example, in all three lists and for one to four people: nobody is in two places, nothing begins before what it
// waits for, every part is put up once and stands in the end, and the bound is no longer than the schedule.
func TestExamples(t *testing.T) {
	for _, name := range []string{"demo.yaml", "corner.yaml", "hall.yaml", "double.yaml"} {
		p := example(t, name)
		for _, which := range []order.Which{order.SetUp, order.Strike, order.Night} {
			for _, n := range []int{1, 2, 4} {
				p := p.SetUpBy(n)
				r := rehearsed(t, p, order.Options{Which: which})
				if r.Bound > r.Length || r.Chain > r.Length {
					t.Errorf("%s, %s, %d: bound %d, chain %d, length %d", name, which, n, r.Bound, r.Chain, r.Length)
				}
				if n >= 2 && r.Length*10 > r.Bound*12 {
					t.Errorf("%s, %s, %d: the schedule takes %d, the bound is %d: more than a fifth above", name, which, n, r.Length, r.Bound)
				}
				for i, s := range r.Steps {
					if s.Number != i+1 || len(s.Who)+s.Lacks == 0 || s.Room < 0 || s.Name == "" {
						t.Errorf("%s, %s, %d: %+v", name, which, n, s)
					}
					for _, a := range s.After {
						if a >= s.Number || r.Steps[a-1].End > s.Start {
							t.Errorf("%s, %s, %d: step %d starts before step %d is done", name, which, n, s.Number, a)
						}
					}
					for _, u := range r.Steps[i+1:] {
						for _, who := range s.Who {
							if slices.Contains(u.Who, who) && u.Start < s.End && s.Start < u.End {
								t.Errorf("%s, %s, %d: %s is at step %d and %d at once", name, which, n, who, s.Number, u.Number)
							}
						}
					}
				}
			}
		}
		r := rehearsed(t, p, order.Options{})
		end := r.Steps[len(r.Steps)-1].Shows
		for _, part := range p.Parts {
			stands := slices.ContainsFunc(end, func(s order.Stand) bool { return s.Part == part.ID && s.Low == 0 })
			if !stands && !part.Flat && !part.Moving && !part.Beyond {
				t.Errorf("%s: no step puts up %s", name, part.ID)
			}
		}
	}
}

func TestDemoIsAsLongAsItsStepsCanBeFollowed(t *testing.T) {
	r := rehearsed(t, example(t, "demo.yaml"), order.Options{})
	if n := len(r.Steps); n < 15 || n > 30 {
		t.Errorf("%d steps, want 15 to 30", n)
	}
	if r.Length > r.Time || r.Time == 0 || r.Chance < 0.9 {
		t.Errorf("%d of %d minutes, chance %g", r.Length, r.Time, r.Chance)
	}
	again := rehearsed(t, example(t, "demo.yaml"), order.Options{})
	for i := range r.Steps {
		if again.Steps[i].ID != r.Steps[i].ID || again.Steps[i].Start != r.Steps[i].Start || !slices.Equal(again.Steps[i].Who, r.Steps[i].Who) {
			t.Fatalf("step %d differs the second time", i+1)
		}
	}
}

func TestPracticeIsLearnt(t *testing.T) {
	p := plan(t, small)
	log := order.TimesLog{{Run: 1, Step: "works/left", Minutes: 6.4}, {Run: 2, Step: "works/left", Minutes: 8}, {Run: 2, Step: "hooks/left", Minutes: 0.3}}
	r := rehearsed(t, p, order.Options{Times: log})
	s := step(t, r, "works/left")
	if s.Minutes() != 7 || !s.Measured || r.Length != 42 { // 7.2 on the mean, planned 2: five longer
		t.Errorf("%d minutes, the whole %d; want 7 and 42", s.Minutes(), r.Length)
	}
	if step(t, r, "hooks/left").Minutes() != 1 {
		t.Error("what takes any time takes a minute at least")
	}
	if len(r.Learnt) != 2 || r.Learnt[1].Say() != "works/left: took 7.2 min on the mean of 2 runs, planned 2" {
		t.Errorf("learnt %+v", r.Learnt)
	}
	// Taking the same works down is another step.
	down := rehearsed(t, p, order.Options{Which: order.Strike, Times: append(log, order.Took{Run: 3, Step: "strike/works/left", Minutes: 4})})
	if s := step(t, down, "works/left"); s.Minutes() != 4 || len(down.Learnt) != 1 {
		t.Errorf("taking down: %d minutes, learnt %+v", s.Minutes(), down.Learnt)
	}
}

func TestTimelineIsAnXMLDocument(t *testing.T) {
	p := plan(t, strings.Replace(small, "trip: 0min", "trip: 0min, time: 50min", 1)+"tasks: [{do: \"Tie <b> & \\\"c\\\"\", minutes: 3}]\n")
	r := rehearsed(t, p, order.Options{})
	var b bytes.Buffer
	if err := r.WriteTimeline(&b); err != nil {
		t.Fatal(err)
	}
	text, bars, waits, black := "", 0, 0, 0
	d := xml.NewDecoder(&b)
	for {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch tok := tok.(type) {
		case xml.CharData:
			text += string(tok)
		case xml.StartElement:
			for _, a := range tok.Attr {
				switch {
				case tok.Name.Local == "rect" && a.Name.Local == "stroke":
					bars++
				case tok.Name.Local == "rect" && a.Value == "url(#wait)":
					waits++
				case tok.Name.Local == "rect" && a.Value == "#222" && a.Name.Local == "fill":
					black++
				}
			}
		}
	}
	turns, waiting, late := len(r.Steps), 0, 0 // a bar a step in its row, and one in the lane of each of its people
	for _, l := range r.Lanes() {
		for _, t := range l.Turns {
			if t.Wait {
				waiting++
			} else {
				turns++
			}
		}
	}
	for _, s := range r.Steps {
		if s.Room == 0 {
			late += 1 + len(s.Who)
		}
	}
	if bars != turns || waits != waiting || black != late || waits == 0 || late == 0 {
		t.Errorf("%d bars for %d turns, %d hatched for %d waits, %d black for %d", bars, turns, waits, waiting, black, late)
	}
	for _, want := range []string{`Tie <b> & "c"`, "gates open", "Setting up: " + r.Done()} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing reads %q in %s", want, text)
		}
	}
}

func BenchmarkDemo(b *testing.B) {
	p := example(b, "demo.yaml")
	for b.Loop() {
		rehearsed(b, p, order.Options{})
	}
}

// What comes with one load says so once.
func TestNeedsInWords(t *testing.T) {
	for _, c := range []struct {
		fetch []order.Fetch
		want  string
	}{
		{nil, ""},
		{[]order.Fetch{{What: "weights", Count: 4, Loads: []int{1, 2}}}, "4 weights (loads 1 and 2)"},
		{[]order.Fetch{{What: "a", Count: 1, Loads: []int{3}}, {What: "b", Count: 1, Loads: []int{3}}, {What: "c", Count: 1, Loads: []int{}}}, "a, b (load 3), c"},
	} {
		if got := (order.Step{Fetch: c.fetch}).Needs(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// The times that a fair asks for are held against the day: coming at 9:00 leaves an hour to set up; taking down ends after the
// fair wants quiet.
func TestTimesThatAFairAsksFor(t *testing.T) {
	p := &booth.Plan{SetUp: booth.SetUp{People: 1, Tasks: []booth.Task{{ID: "a", Name: "Work", Crew: 1, Minutes: 90}}, Strike: []booth.Task{{ID: "a", Name: "Work", Crew: 1, Minutes: 150}}}}
	day := time.Date(2026, 6, 13, 10, 0, 0, 0, time.UTC)
	p.Fair = &booth.Fair{Days: []booth.Opening{{From: day, To: day.Add(8 * time.Hour)}}}
	for _, c := range []struct{ key, value, want string }{
		{"arrive", "9:00 to 9:30", "fail The fair asks “In the sheet”; from 9:00 to the gates there are 1 h, and the set-up takes 1 h 30 min"},
		{"arrive", "7:00 to 8:00", "caution The fair asks “In the sheet”; by the scene you begin at 8:30: be there by 8:00 at the latest"},
		{"arrive", "8:00 to 8:30", ""},
		{"quiet", "20:00 to 8:00", "caution The fair asks “In the sheet”; taking down lasts until 20:30"},
		{"quiet", "20:30 to 8:30", ""},
	} {
		var err error
		p.Rules, err = rules.Merge(nil, nil, rules.Layer{Units: unit.Inches, Values: map[string]any{"asks": []any{map[string]any{"says": "In the sheet.", c.key: c.value}}}, At: func(string) fault.Place { return fault.Place{} }})
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, f := range order.Findings(p, rehearsed(t, p, order.Options{}), rehearsed(t, p, order.Options{Which: order.Strike})) {
			got += string(f.Level) + " " + f.Message
		}
		if got != c.want {
			t.Errorf("%s %s: %q, want %q", c.key, c.value, got, c.want)
		}
	}
}
