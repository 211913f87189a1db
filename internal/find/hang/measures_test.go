package hang_test

import (
	"os"
	"slices"
	"strings"
	"testing"

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

// Wires are counted by hand: of a mesh of 5 cm from 10 cm to 210 cm the topmost is at 210, the seventh from the top at 180;
// of a chain of links of 4 cm from 200 cm down the third is at 192.
func TestWiresFromTheTop(t *testing.T) {
	mesh := hang.Wall{Hold: booth.Mesh, Bottom: 0.1, Top: 2.1, Step: 0.05}
	cut := hang.Wall{Hold: booth.Mesh, Bottom: 0.1, Top: 2.12, Step: 0.05} // a wall cut between two wires
	chain := hang.Wall{Hold: booth.Chains, Bottom: 0.3, Top: 2, Step: 0.04}
	for _, c := range []struct {
		wall hang.Wall
		at   float64
		want string
	}{
		{mesh, 2.1, "wire 1 from the top"}, {mesh, 1.8, "wire 7 from the top"}, {mesh, 0.1, "wire 41 from the top"}, {cut, 1.8, "wire 7 from the top"},
		{chain, 2, "link 1 from the top"}, {chain, 1.92, "link 3 from the top"}, {hang.Wall{Hold: booth.Panel, Top: 2}, 1.5, ""},
	} {
		if got := c.wall.FromTop(hang.Hook{Grip: c.at}); got != c.want {
			t.Errorf("at %v of %+v: %q, want %q", c.at, c.wall, got, c.want)
		}
	}
}
