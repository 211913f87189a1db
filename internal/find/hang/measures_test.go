package hang_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
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
