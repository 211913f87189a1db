package try_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boothmock/internal/try"
)

// A work in parts is one thing to move: as wide as all of them, with all their hooks.
func TestWorkInPartsMovesAsOne(t *testing.T) {
	path := filepath.Join(t.TempDir(), "booth.yaml")
	text := "units: in\nwalls: [{side: back, hang on: panel}]\nworks:\n  - {name: tides, title: Two tides, size: 20 x 10, parts: [{}, {size: 24 x 16}], wall: back, left: 30}\n"
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	s := tryAt(t, path)
	const in = 0.0254
	one := func() try.Work {
		t.Helper()
		works := s.State().Works
		if len(works) != 1 {
			t.Fatalf("%d works", len(works))
		}
		return works[0]
	}
	if w := one(); w.Title != "Two tides" || math.Abs(w.Wide-28*in) > 0.001 || math.Abs(w.High-24*in) > 0.001 || len(w.Hooks) < 2 || math.Abs(w.Seen-1) > 0.001 {
		t.Errorf("%+v", w)
	}
	say(t, s, try.Ask{Do: "nudge", Item: "work/tides", X: 2 * in, Y: in})
	if w := one(); math.Abs(w.Left-32*in) > 0.001 || math.Abs(w.Centre-59*in) > 0.001 {
		t.Errorf("%+v", w)
	}
	say(t, s, try.Ask{Do: "save"})
	if got := contents(t, path); !strings.Contains(got, "left: 32, centre: 59}") {
		t.Error(got)
	}
}
