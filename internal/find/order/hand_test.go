package order

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/golden"
	"boothmock/internal/plan/booth"
)

// By hand: the second person waits from 0 for step 2, which follows step 1; meanwhile what takes that person alone, no more than the ten
// minutes, and follows nothing that is not done could be done. Step 10 is done before the wait is over, and step 2 does not follow it.
func TestWait(t *testing.T) {
	r := Rehearsal{Steps: []Step{
		{Number: 1, Start: 0, End: 10, people: []int{0}},
		{Number: 2, Start: 10, End: 15, people: []int{1}, After: []int{1}},
		{Number: 3, Start: 15, End: 20, people: []int{1}},
		{Number: 4, Start: 20, End: 31, people: []int{1}},
		{Number: 5, Start: 31, End: 33, people: []int{1}, After: []int{1}},
		{Number: 6, Start: 33, End: 35, people: []int{0, 1}},
		{Number: 7, Start: 35, End: 36, people: []int{0}},
		{Number: 8, Start: 36, End: 37, people: []int{1}, AtOnce: true},
		{Number: 9, Start: 37, End: 47, people: []int{1}},
		{Number: 10, Start: 2, End: 8, people: []int{2}},
	}}
	w := r.wait(1, 0, r.Steps[1])
	if !slices.Equal(w.Until, []int{1}) || !slices.Equal(w.Early, []int{3, 9}) || w.From != 0 || w.To != 10 {
		t.Errorf("waits %+v", w)
	}
	// Before a step for two one waits for the other, who is busy until then: not for others who are, nor for what was done before.
	r.Steps = []Step{
		{Number: 1, Start: 0, End: 5, people: []int{2}}, {Number: 2, Start: 0, End: 10, people: []int{0}}, {Number: 3, Start: 5, End: 10, people: []int{2}},
		{Number: 4, Start: 10, End: 12, people: []int{0, 1}, After: []int{1}},
	}
	if w := r.wait(1, 5, r.Steps[3]); !slices.Equal(w.Until, []int{2}) || len(w.Early) > 0 {
		t.Errorf("waits for somebody: %+v", w)
	}
	if w := r.wait(2, 10, Step{Start: 12}); len(w.Until) > 0 {
		t.Errorf("waits at the end: %+v", w)
	}
}

// Goods go to the first task that needs them, not to one that others do at once; what no task needs goes with the last one that is not at
// once and before the trips; taking down, all does; at night nothing is carried.
func TestCarry(t *testing.T) {
	for _, c := range []struct {
		which Which
		first string
		want  booth.ID
	}{{SetUp, "hooks/", "hooks/left"}, {SetUp, "frame", "frame"}, {SetUp, "raise", "tags"}, {SetUp, "nothing", "tags"}, {Strike, "hooks/", "tags"}, {Night, "hooks/", ""}} {
		tasks := []booth.Task{{ID: "frame"}, {ID: "raise", AtOnce: true}, {ID: "hooks/left"}, {ID: "hooks/right"}, {ID: "tags"}, {ID: "weights", AtOnce: true}, {ID: "park", After: []booth.ID{booth.Trips}}}
		carry(tasks, []booth.Goods{{Cargo: booth.Cargo{What: "goods", Count: 1}, First: c.first}}, c.which)
		got := booth.ID("")
		for _, task := range tasks {
			if len(task.Fetch) > 0 {
				got += task.ID
			}
		}
		if got != c.want {
			t.Errorf("%v, needed first by %s: with %q, want %q", c.which, c.first, got, c.want)
		}
	}
	carry(nil, []booth.Goods{{First: "x"}}, SetUp)
}

// A pound is 0.45359237 kg; a load of more than 25 kg is a caution (a usual limit for one to lift: from memory, no source).
func TestHeavyInWords(t *testing.T) {
	for _, c := range []struct {
		kg         float64
		about      bool
		inch, cm   string
		caution    string
		hands      int
		over, wets bool
	}{
		{kg: 25, inch: "55 lb", cm: "25 kg", hands: 1}, {kg: 25.1, about: true, inch: "~55 lb", cm: "~25 kg", caution: "55 lb (25 kg)", hands: 1, wets: true},
		{kg: 60, inch: "132 lb", cm: "60 kg", caution: "132 lb (60 kg)", hands: 2, over: true},
	} {
		l := Load{Number: 3, Weight: c.kg, Assumed: c.about, Over: c.over, Tender: c.wets}
		task := tripTask(&booth.Plan{Units: unit.Inches, SetUp: booth.SetUp{Trip: 6}}, l, SetUp)
		if l.Heavy(unit.Inches) != c.inch || l.Heavy(unit.Centimetres) != c.cm || (task.Caution != "") != (c.caution != "") || !strings.Contains(task.Caution, c.caution) || task.Crew != c.hands || (task.Check != "") != c.wets || task.Minutes != 6 {
			t.Errorf("%v kg: %s, %s, %+v", c.kg, l.Heavy(unit.Inches), l.Heavy(unit.Centimetres), task)
		}
		if c.kg == 60 {
			if metric := tripTask(&booth.Plan{Units: unit.Centimetres}, l, Strike); !strings.Contains(metric.Caution, "60 kg (132 lb)") || metric.Name != "Carry load 3 to the car" || task.Name != "Fetch load 3 from the car" {
				t.Errorf("%+v and %+v", task, metric)
			}
		}
	}
}

// A square of 1 m is drawn in by 1 cm towards its middle at each corner, 1 cm / √2 = 7.07 mm at each side, before it counts as in the way;
// on every side, and for what lies across a corner.
func TestMeets(t *testing.T) {
	square := func(x, z float64) ground {
		return newGround(way.Rect(way.Point{X: x, Z: z}, way.Point{X: x + 1, Z: z + 1}))
	}
	for _, d := range [][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
		for deep, want := range map[float64]bool{-0.5: false, 0: false, 0.0069: false, 0.0072: true, 0.5: true} {
			if got := meets([]ground{square(7, 7), square(0, 0)}, []ground{square(d[0]*(1-deep), d[1]*(1-deep)+0.2*d[0])}); got != want {
				t.Errorf("towards %v, %v m over each other: %v", d, deep, got)
			}
		}
	}
	if meets(nil, []ground{square(0, 0)}) {
		t.Error("nothing is in the way")
	}
}

// The timeline of a small project as it was: its numbers are chosen by eye, and this is only that nobody changes one by accident.
// testdata/timeline.svg is written anew by -update.
func TestTimelineAsBefore(t *testing.T) {
	p := &booth.Plan{SetUp: booth.SetUp{People: 2, Time: 150, Tasks: []booth.Task{
		{ID: "sign", Name: "Sign in", Crew: 1, Minutes: 10}, {ID: "frame", Name: "Stand the frame", After: []booth.ID{"sign"}, Crew: 2, Minutes: 85},
		{ID: "tags", Name: "Pin the tags", After: []booth.ID{"frame"}, Crew: 1, Minutes: 4}, {ID: "look", Name: "Look once more at everything that anybody could possibly see", Crew: 1, Minutes: 70},
	}}}
	r, err := Of(p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := r.WriteTimeline(&b); err != nil {
		t.Fatal(err)
	}
	was, is := strings.Split(golden.Kept(t, "testdata/timeline.svg", b.Bytes()), "\n"), strings.Split(b.String(), "\n")
	for i := range max(len(was), len(is)) {
		if i >= len(was) || i >= len(is) || was[i] != is[i] {
			t.Fatalf("line %d differs: is\n%s", i+1, strings.Join(is[min(i, len(is)):], "\n"))
		}
	}
}

// Chances are told as wholes, and the ends in words.
func TestOdds(t *testing.T) {
	for p, want := range map[float64]string{1: "almost sure", 0.995: "almost sure", 0.994: "99 % sure", 0.5: "50 % sure", 0.0051: "1 % sure", 0.0049: "hardly possible", 0: "hardly possible"} {
		if got := odds(p); got != want {
			t.Errorf("%v is %s, want %s", p, got, want)
		}
	}
	for _, c := range []struct {
		time, length int
		want         string
	}{{150, 120, "done after 2 h, 30 min left before the gates open"}, {120, 120, "done after 2 h, 0 min left before the gates open"}, {100, 120, "done after 2 h, 20 min after the gates open"}, {0, 120, "done after 2 h"}} {
		if got := (Rehearsal{Time: c.time, Length: c.length}).Done(); got != c.want {
			t.Errorf("%+v: %s", c, got)
		}
	}
}

// B follows A at once and waits for C too: backwards A follows B at once, and C only waits for it.
func TestReversed(t *testing.T) {
	n := Network{{Name: "A"}, {Name: "C"}, {Name: "B", After: []int{0, 1}, AtOnce: true}, {Name: "D", After: []int{2, 1}}}
	r := n.reversed()
	want := Network{{Name: "A", After: []int{2}, AtOnce: true}, {Name: "C", After: []int{2, 3}}, {Name: "B", After: []int{3}}, {Name: "D"}}
	for j := range n {
		if !slices.Equal(r[j].After, want[j].After) || r[j].AtOnce != want[j].AtOnce {
			t.Errorf("backwards %s comes after %v, at once %v", r[j].Name, r[j].After, r[j].AtOnce)
		}
	}
}

// What was measured once is half as unsure as a guess, whose standard deviation is a quarter of it (tuned, no source): 12 ± 1.5.
func TestMeasuredOnce(t *testing.T) {
	if mean, variance, n := (TimesLog{{1, "frame", 12}}).of("frame"); n != 1 || mean != 12 || variance != 1.5*1.5 {
		t.Errorf("mean %v, variance %v of %d", mean, variance, n)
	}
	if mean, variance, n := (TimesLog{{1, "frame", 12}}).of("raise"); n != 0 || mean != 0 || variance != 0 {
		t.Errorf("of what was not measured: %v, %v, %d", mean, variance, n)
	}
}

// Three estimates count as (a + 4m + b) / 6 (Malcolm, Roseboom, Clark and Fazar, Operations Research 7, 1959): 5, 10 and 27 are 12 minutes;
// one of them alone says nothing. What takes any time takes a minute.
func TestEstimatesArePlanned(t *testing.T) {
	for _, c := range []struct {
		least, usual, most unit.Minutes
		want               int
	}{{5, 10, 27, 12}, {0, 10, 27, 10}, {5, 10, 0, 10}, {0, 10, 0, 10}, {0, 0, 0, 0}} {
		p := &booth.Plan{SetUp: booth.SetUp{People: 1, Tasks: []booth.Task{{ID: "a", Name: "Work", Crew: 1, Minutes: c.usual, Least: c.least, Most: c.most}}}}
		r, err := Of(p, Options{})
		if err != nil || r.Length != c.want {
			t.Errorf("%+v: %v, %s", c, err, fmt.Sprint(r.Length))
		}
	}
}
