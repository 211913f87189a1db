package job_test

import (
	"encoding/json"
	"math/rand/v2"
	"reflect"
	"testing"

	"boothmock/internal/basis/answer"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
)

// eachVersion makes random booths, edits each some times (one choice of many is another), and hands on the mock-up that took over
// what it could from the version before, and one that was made from nothing.
func eachVersion(t *testing.T, booths, edits int, visit func(text string, next, fresh *job.Mockup)) {
	t.Helper()
	for seed := range uint64(booths) {
		r := rand.New(rand.NewPCG(seed, 18))
		choices := seeded(seed + 1000)
		var kept answer.Kept
		var m *job.Mockup
		for n := 0; n <= edits; {
			text := randomScene(choices, dialect{})
			choices[r.IntN(150)] = byte(r.Uint32())
			p, err := buildAgain(text, &kept)
			if err != nil {
				n++ // what is wrong with it is for other tests
				continue
			}
			kept.Version()
			fromNothing, err := build(text)
			if err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(plainParts(p.Parts), plainParts(fromNothing.Parts)) {
				t.Fatalf("the parts are not those of a booth built from nothing:\n%s", text)
			}
			if m == nil {
				m, err = job.New(p)
			} else {
				m, err = m.Next(p)
			}
			if err != nil {
				t.Fatal(err)
			}
			visit(text, m, mockupOf(t, fromNothing))
			n++
		}
	}
}

func mockupOf(t *testing.T, p *booth.Plan) *job.Mockup {
	t.Helper()
	m, err := job.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func asJSON(t *testing.T, v any) string {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// A mock-up that takes over answers of the version before says the same, to the last bit, as one made from nothing.
func TestNextIsFresh(t *testing.T) {
	n := booths(t, 1, 2)
	lit := booths(t, 0, 2) // versions: light takes long, and has a test of its own beside it
	versions := 0
	eachVersion(t, n, 2, func(text string, next, fresh *job.Mockup) {
		versions++
		for _, answers := range []struct {
			what string
			a, b any
		}{
			{"report", next.Report(), fresh.Report()}, {"hang sheet", next.Sheet(), fresh.Sheet()}, {"set-up", next.SetUp(), fresh.SetUp()},
			{"checks", asJSON(t, next.Checks()), asJSON(t, fresh.Checks())},
		} {
			if !reflect.DeepEqual(answers.a, answers.b) {
				t.Errorf("the %s is not that of a booth made from nothing:\n%+v\n%+v\n%s", answers.what, answers.a, answers.b, text)
			}
		}
		if versions > lit {
			return
		}
		if versions == 1 {
			next.Lit()
			return
		}
		if !reflect.DeepEqual(plainLit(next.Lit()), plainLit(fresh.Lit())) {
			t.Errorf("the light is not that of a booth made from nothing:\n%s", text)
		}
	})
	if versions < n {
		t.Errorf("only %d versions of %d booths could be built", versions, n)
	}
}

// After a row of works of the demo, or its table, was moved, only what depends on that is worked out again; and what is kept is
// bounded. In one version each question is worked out once.
func TestOnlyWhatDependsIsWorkedOutAgain(t *testing.T) {
	w := &job.Workshop{}
	f, err := w.Read()
	if err != nil {
		t.Fatal(err)
	}
	p, err := w.Build(f)
	if err != nil {
		t.Fatal(err)
	}
	m := mockupOf(t, p)
	m.Report()
	first := m.Counts()
	for _, edit := range []struct {
		path, value string
		most        map[string]int // of each question, how often it may be worked out; those not named: never
	}{
		{"rows[right].centre", "55", map[string]int{"shade.sunlit": 6, "shade.dose": 120, "check.sightline": 170, "sight.prepared": 10, "shade.sunAt": 30, "check.floor": 1, "check.line": 1, "check.feet": 10}},
		{"tables[prints].from front", "16", map[string]int{"shade.sunlit": 3, "shade.dose": 30, "check.sightline": 100, "sight.prepared": 6, "check.feet": 6, "check.outlines": 1, "check.floor": 1, "check.line": 1, "order.network": 2}},
		{"works[heron].title", "Heron, again", map[string]int{"kinds.lettered": 1, "order.network": 2}},
	} {
		at, err := scene.ParsePath(edit.path)
		if err != nil {
			t.Fatal(err)
		}
		if f, err = f.Set(at, edit.value); err != nil {
			t.Fatal(err)
		}
		if p, err = w.Build(f); err != nil {
			t.Fatal(err)
		}
		if m, err = m.Next(p); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(m.Report(), mockupOf(t, p).Report()) {
			t.Errorf("%s: the report is not that of a booth made from nothing", edit.path)
		}
		for _, counts := range []map[string]answer.Count{w.Counts(), m.Counts()} {
			for question, c := range counts {
				t.Logf("%s: %s was asked %d times, worked out %d times", edit.path, question, c.Asked, c.Worked)
				if c.Worked > edit.most[question] {
					t.Errorf("%s: %s was worked out %d times again", edit.path, question, c.Worked)
				}
			}
		}
	}
	if c := first["check.sightline"]; c.Worked < 200 {
		t.Errorf("only %d sightlines of the first version were worked out", c.Worked)
	}
	if mb := w.Kept(m) >> 20; mb < 10 || mb > 80 {
		t.Errorf("%d MB are kept", mb)
	}
}
