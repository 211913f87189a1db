package try_test

import (
	"testing"

	"boothmock/internal/try"
	"boothmock/scenes/crowd"
)

// What letting go costs until all findings are there: a work moved on its wall, and back.
func BenchmarkMoved(b *testing.B) {
	s := tryAt(b, "")
	by := 0.0254
	for b.Loop() {
		say(b, s, try.Ask{Do: "nudge", Item: "work/heron", Y: by})
		by = -by
	}
}

// A thing on the ground is built once more to find where it is written, and the ways round it are measured.
func BenchmarkTable(b *testing.B) {
	s := tryAt(b, "")
	by := 0.0254
	for b.Loop() {
		say(b, s, try.Ask{Do: "nudge", Item: "table/prints", X: 0.3 + by})
		by = -by - 0.6
	}
}

// The booth in quick light, as the walk gets it.
func BenchmarkQuick(b *testing.B) {
	s := tryAt(b, "")
	for b.Loop() {
		k := s.Booth(s.State().At, false)
		k.Facts()
		if _, err := k.Model(); err != nil {
			b.Fatal(err)
		}
	}
}

// The same in a booth of 300 works.
func BenchmarkMovedAmongMany(b *testing.B) {
	path, err := crowd.Write(b.TempDir(), 300)
	if err != nil {
		b.Fatal(err)
	}
	s := tryAt(b, path)
	for b.Loop() {
		say(b, s, try.Ask{Do: "swap", Item: s.State().Works[0].ID, With: s.State().Works[1].ID})
	}
}
