package check

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// The shape of findings.json is what other programs read.
func TestJSON(t *testing.T) {
	s := clean()
	s.table(-36, -30, 36, 0, 29)
	b, err := json.Marshal(Run(&s.Plan))
	if err != nil {
		t.Fatal(err)
	}
	var got map[string]any
	if err := json.Unmarshal(b, &got); err != nil {
		t.Fatal(err)
	}
	keys := func(v any) string {
		var out []string
		for k := range v.(map[string]any) {
			out = append(out, k)
		}
		slices.Sort(out)
		return strings.Join(out, " ")
	}
	first := func(k string) any { return got[k].([]any)[0] }
	for _, c := range [][2]string{
		{keys(got), "circle clearances sightlines"},
		{keys(first("sightlines")), "eye eye_m from hidden_by share_of_view_sr turned_deg visible work"},
		{keys(first("clearances")), "at between from stand to width"},
	} {
		if c[0] != c[1] {
			t.Errorf("%s, want %s", c[0], c[1])
		}
	}
	// Six views by five eyes, and the seat by one.
	if n := len(got["sightlines"].([]any)); n != 5*(6*5+1) {
		t.Errorf("%d sightlines", n)
	}
	if n := len(got["clearances"].([]any)); n != 1+5 {
		t.Errorf("%d clearances", n)
	}
}

func TestEmptyBooth(t *testing.T) {
	r := Run(&newStall().Plan)
	if len(r.Findings) > 0 || r.Circle == nil {
		t.Errorf("%+v", r)
	}
	b, err := json.Marshal(Run(&booth.Plan{}))
	if err != nil || strings.Contains(string(b), "\"findings\":null") {
		t.Errorf("%s %v", b, err)
	}
}

func TestSameInputSameReport(t *testing.T) {
	s := busy()
	a, b := Run(&s.Plan), Run(&s.Plan)
	if !reflect.DeepEqual(mustJSON(t, a), mustJSON(t, b)) {
		t.Error("two runs differ")
	}
}

func mustJSON(t *testing.T, r Result) string {
	b, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// Every finding says what, where and on what ground; every check is described once.
func TestFindingsAreWhole(t *testing.T) {
	s := busy()
	r := Run(&s.Plan)
	if len(r.Findings) < 5 {
		t.Errorf("the busy booth has only %d findings", len(r.Findings))
	}
	for _, f := range r.Findings {
		if f.Item == "" || f.At == "" || f.Source == "" || f.Message == "" || strings.Contains(f.Message, "%!") || strings.HasSuffix(f.Message, ".") {
			t.Errorf("%+v", f)
		}
	}
	var names []string
	for _, c := range All {
		if c.Name == "" || c.Doc == "" || c.Source == "" || c.Run == nil || slices.Contains(names, c.Name) {
			t.Errorf("%+v", c)
		}
		names = append(names, c.Name)
	}
}

// busy is a booth of fifteen works with a table too many.
func busy() *stall {
	s := newStall()
	s.Parts = make([]booth.Part, 0, 64)
	n := 0
	for _, side := range []booth.Side{booth.Left, booth.Back, booth.Right} {
		wall := s.wall(side)
		for i := range 5 {
			n++
			s.work(wall, fmt.Sprintf("Work%02d", n), 6+22*float64(i), 58, 24, 18, 1.5)
		}
	}
	s.table(-36, -30, 36, -6, 29)
	s.table(-58, -90, -30, -50, 29)
	for i, x := range []float64{-60, 58.5} {
		s.box(fmt.Sprintf("front leg %d", i), x, 0, -1.5, x+1.5, 84, 0)
	}
	s.box("front valance", -60, 74, 0.5, 60, 83, 0.6)
	s.box("easel", 20, 0, -70, 40, 60, -50)
	rack := s.box("rack", 40, 0, -100, 56, 40, -84)
	for i := range 20 {
		rack.Solids = append(rack.Solids, geom.Box(geom.World, vec(41, 20, -99+0.7*float64(i)), vec(55, 39, -98.5+0.7*float64(i))))
	}
	s.box("visitor", 0, 0, -45, 18, 66, -35).Moving = true
	return s
}

func BenchmarkRun(b *testing.B) {
	s := busy()
	for b.Loop() {
		Run(&s.Plan)
	}
}
