package hang_test

import (
	"encoding/json"
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/find/hang"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

// The sheets of the example scenes: numbers that JSON can hold, every hung work on them once, hooks numbered in order,
// tables whose rows are as long as their heads, and the same sheet each time.
func TestScenes(t *testing.T) {
	fsys := os.DirFS("../../../scenes")
	for _, name := range []string{"demo.yaml", "corner.yaml", "hall.yaml", "double.yaml"} {
		f, err := scene.Read(fsys, name)
		if err != nil {
			t.Fatal(err)
		}
		p, err := kinds.Build(f, rules.Book{}, fsys)
		if err != nil {
			t.Fatal(err)
		}
		s := hang.Of(p)
		text, err := json.Marshal(s)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if again, _ := json.Marshal(hang.Of(p)); string(again) != string(text) {
			t.Errorf("%s: two sheets differ", name)
		}
		var back hang.Sheet
		if err := json.Unmarshal(text, &back); err != nil || !reflect.DeepEqual(back.Walls, s.Walls) {
			t.Errorf("%s: the walls do not come back from JSON (%v)", name, err)
		}
		hung := 0
		for _, part := range p.Parts {
			if part.Work != nil && part.Work.Hung != nil {
				hung++
			}
		}
		for _, w := range s.Walls {
			hung -= len(w.Works)
			number := 0
			rows := map[string]int{}
			for _, t := range s.WallSection(w).Tables {
				rows[t.Title] = len(t.Rows)
			}
			for _, work := range w.Works {
				rows["Hooks"] -= len(work.Hooks)
				for _, h := range work.Hooks {
					if h.Hole != nil {
						rows["Holes in the cloth"]--
					}
				}
			}
			if rows["Hooks"] != 0 || rows["Holes in the cloth"] != 0 {
				t.Errorf("%s: %s: hooks and holes without a row, or rows without any: %v", name, w.Name, rows)
			}
			for _, work := range w.Works {
				for _, h := range work.Hooks {
					if number++; h.Number != number {
						t.Errorf("%s: hook %d comes as number %d", name, h.Number, number)
					}
					if h.X < 0 || h.X > w.Width || h.Grip > w.Top+1e-9 {
						t.Errorf("%s: hook %d at %v, %v on a wall of %v x %v", name, h.Number, h.X, h.Grip, w.Width, w.Top)
					}
					if math.Abs(h.FromEdge+work.X0-h.X) > 1e-9 {
						t.Errorf("%s: the two ways to hook %d differ", name, h.Number)
					}
				}
			}
		}
		if hung != 0 {
			t.Errorf("%s: %d works are on no wall", name, hung)
		}
		var titles []string
		for _, sec := range s.Sections() {
			titles = append(titles, sec.Title)
			for _, tab := range sec.Tables {
				for _, r := range tab.Rows {
					if len(r) != len(tab.Head) || len(r) != len(tab.Wide) {
						t.Errorf("%s, %s: a row of %d under a head of %d", name, sec.Title, len(r), len(tab.Head))
					}
				}
			}
		}
		if got := slices.Contains(titles, "Wind and weights"); got != (name != "hall.yaml") {
			t.Errorf("%s: wind is on the sheet: %v", name, got)
		}
	}
}

// By hand, on chains 16 in apart: parts of 8 in with an inch between hang 16 in from middle to middle, 8 apart; parts of 12 in with 5
// between hang 32 in from middle to middle, 20 apart. The first of them says it of all.
func TestPartsThatHangWider(t *testing.T) {
	f, err := scene.Parse("a.yaml", []byte(`
units: in
pitch: {width: 10ft, depth: 10ft}
walls: [{side: back, hang on: chains, spacing: 16}]
works:
  - {name: small, size: 8 x 8, parts: [{}, {}, {}], apart: 1, hang by: sawtooth}
  - {name: large, size: 12 x 12, parts: [{}, {}], apart: 5, hang by: sawtooth}
  - {name: fits, size: 8 x 8, parts: [{}, {}], apart: 8, hang by: sawtooth}
rows: [{wall: back, works: [small, large]}]
`))
	if err != nil {
		t.Fatal(err)
	}
	p, err := kinds.Build(f, rules.Book{}, os.DirFS("."))
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range hang.Of(p).Walls[0].Works {
		want := map[string]string{"work/small": "with its parts 8 in apart", "work/large": "with its parts 20 in apart"}[string(w.ID)]
		if (want == "") != !strings.Contains(w.Problem, "with its parts") || !strings.Contains(w.Problem, want) {
			t.Errorf("%s: %q, want %q", w.ID, w.Problem, want)
		}
	}
}
