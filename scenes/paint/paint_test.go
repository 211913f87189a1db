package main

import (
	"bytes"
	"image/jpeg"
	"math"
	"os"
	"testing"
)

// find returns the work of a name.
func find(t *testing.T, name string) Work {
	t.Helper()
	for _, w := range Works {
		if w.Name == name {
			return w
		}
	}
	t.Fatalf("no work named %q", name)
	return Work{}
}

func TestSameWorkPaintedTwiceGivesTheSameBytes(t *testing.T) {
	for _, name := range []string{"jug", "moths"} { // one in oil, one print; the quickest
		if name == "moths" && os.Getenv("REQUIRE_TOOLS") == "" {
			continue // in .ci/run, which sets it
		}
		w := find(t, name)
		first, err := encode(w.paint(w))
		if err != nil {
			t.Fatal(err)
		}
		again, err := encode(w.paint(w))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first, again) {
			t.Errorf("%s: painted twice, the bytes differ (%d and %d long)", name, len(first), len(again))
		}
		cfg, err := jpeg.DecodeConfig(bytes.NewReader(first))
		if err != nil {
			t.Fatal(err)
		}
		if pw, ph := w.pixels(); cfg.Width != pw || cfg.Height != ph {
			t.Errorf("%s: picture is %d x %d, want %d x %d", name, cfg.Width, cfg.Height, pw, ph)
		}
	}
}

func TestEveryWorkHasTheAspectOfItsSize(t *testing.T) {
	seen := map[string]bool{}
	for _, w := range Works {
		if seen[w.Name] {
			t.Errorf("%s is listed twice", w.Name)
		}
		seen[w.Name] = true
		pw, ph := w.pixels()
		wide := float64(ph) * float64(w.WidthIn) / float64(w.HeightIn)
		tall := float64(pw) * float64(w.HeightIn) / float64(w.WidthIn)
		// One side is exact; the other is the true length to the nearest pixel.
		if min(math.Abs(wide-float64(pw)), math.Abs(tall-float64(ph))) > 0.5 {
			t.Errorf("%s: %d x %d px is not %d x %d in", w.Name, pw, ph, w.WidthIn, w.HeightIn)
		}
		long := 800
		if max(w.HeightIn, w.WidthIn) >= 24 {
			long = 1200
		}
		if max(pw, ph) != long {
			t.Errorf("%s: long side is %d px, want %d", w.Name, max(pw, ph), long)
		}
	}
	if len(Works) != 20 {
		t.Errorf("%d works, want 20", len(Works))
	}
}
