package hang_test

import (
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

// Each step of the demo that sets hooks, hangs, pins or puts something on the ground says its measures; those of a hook are
// the sheet's own, and from both ends they make the wall.
func TestMeasuresOfSteps(t *testing.T) {
	fsys := os.DirFS("../../../scenes")
	f, err := scene.Read(fsys, "demo.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, err := kinds.Build(f, rules.Book{}, fsys)
	if err != nil {
		t.Fatal(err)
	}
	s := hang.Of(p)
	hooks := 0
	for _, task := range p.SetUp.Tasks {
		lines := s.Measures(p, task.Hooks, task.Parts)
		t.Logf("%s\n\t%s", task.ID, strings.Join(lines, "\n\t"))
		kind, _, _ := strings.Cut(string(task.ID), "/")
		if slices.Contains([]string{"frame", "wall", "drape", "hooks", "works", "tags", "table", "bin"}, kind) && len(lines) == 0 {
			t.Errorf("%s says no measures", task.ID)
		}
		if kind != "hooks" {
			continue
		}
		for _, w := range s.Walls {
			if w.ID != task.Place {
				continue
			}
			for _, k := range w.Works {
				for _, h := range k.Hooks {
					want := unit.Length(h.X).Format(p.Units) + " from the left end, " + unit.Length(w.Width-h.X).Format(p.Units) + " from the right end, " + unit.Length(h.Grip).Format(p.Units) + " up"
					if !strings.Contains(lines[h.Number-1], want) {
						t.Errorf("hook %d: %q does not say %q", h.Number, lines[h.Number-1], want)
					}
					hooks++
				}
			}
		}
	}
	if hooks < 10 {
		t.Errorf("only %d hooks", hooks)
	}
}

// Where a thing stands is measured by hand: a table of 30 x 20 in stands 4 in behind the front edge, with its side at the edge of the
// pitch that it is nearer to, or 6 in from it.
func TestWhereThingsStand(t *testing.T) {
	for place, want := range map[string]string{
		"against: left":    "its left side 0 in from the pitch's left edge, its front 4 in behind the front edge",
		"from left: 6":     "its left side 6 in from the pitch's left edge, its front 4 in behind the front edge",
		"against: right":   "its right side 0 in from the pitch's right edge, its front 4 in behind the front edge",
		"from left: 5.5ft": "its right side 0 in from the pitch's right edge, its front 4 in behind the front edge",
	} {
		text := "units: in\npitch: {width: 8ft, depth: 6ft}\nwalls: [{side: back}]\ntables: [{name: desk, size: 30 x 20, from front: 4, " + place + "}]\nworks: [{name: a, size: 9 x 9, wall: back}]\n"
		f, err := scene.Read(fstest.MapFS{"a.yaml": {Data: []byte(text)}}, "a.yaml")
		if err != nil {
			t.Fatal(err)
		}
		p, err := kinds.Build(f, rules.Book{}, fstest.MapFS{})
		if err != nil {
			t.Fatal(err)
		}
		got := hang.Of(p).Measures(p, nil, []booth.ID{"table/desk"})
		if len(got) != 1 || !strings.HasSuffix(got[0], want) {
			t.Errorf("%s: %q, want %q", place, got, want)
		}
	}
}

// What stands on a table is measured on it, as the scene places it: from its left end and from its front, whichever way it faces.
func TestWhereThingsStandOnATable(t *testing.T) {
	for _, beside := range []string{"left", "right", "back"} {
		text := "units: in\npitch: {width: 8ft, depth: 8ft}\nwalls: [{side: back}, {side: left}, {side: right}]\ntables: [{name: desk, size: 40 x 20, against: " + beside + ", cloth: linen, on top: [{name: guest book, size: 8 x 6 x 2, along: 7, back: 3}]}]\n" +
			"works: [{name: a, size: 9 x 9, wall: back}]\n"
		f, err := scene.Read(fstest.MapFS{"a.yaml": {Data: []byte(text)}}, "a.yaml")
		if err != nil {
			t.Fatal(err)
		}
		p, err := kinds.Build(f, rules.Book{}, fstest.MapFS{})
		if err != nil {
			t.Fatal(err)
		}
		var on []booth.ID
		for _, k := range p.Parts {
			if k.Parent == "table/desk" {
				on = append(on, k.ID)
			}
		}
		want := []string{"The guest book, as you stand before the desk table: its left side 7 in from the left end, its front 3 in from the front"}
		if got := hang.Of(p).Measures(p, nil, on); !slices.Equal(got, want) {
			t.Errorf("beside the %s wall: %q, want %q", beside, got, want)
		}
	}
}
