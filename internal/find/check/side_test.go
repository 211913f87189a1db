package check

import (
	"math"
	"strings"
	"testing"

	"boothmock/internal/plan/booth"
)

// onCorner is a pitch with an aisle on the right too, and the three views from it.
func onCorner() *stall {
	s := newStall()
	s.Parts = make([]booth.Part, 0, 16)
	s.Pitch.Open[booth.Right] = true
	for k, v := range []struct {
		name string
		x, z float64
	}{{"right-side", 130, -60}, {"right-from-front", 125, 31}, {"right-from-back", 125, -151}} {
		s.Views = append(s.Views, booth.View{Name: v.name, Stand: vec(v.x, 0, v.z), Passing: true, Before: k == 0, Side: booth.Right})
	}
	return s
}

// A work that faces the side aisle is seen from there: nobody is told that it faces away, as on a pitch with one aisle.
func TestWorksFaceTheSideAisle(t *testing.T) {
	for _, corner := range []bool{false, true} {
		s := newStall()
		if corner {
			s = onCorner()
		}
		left := s.wall(booth.Left)
		s.work(left, "Orchard", 85, 58, 24, 30, 1.5) // deep in the booth: at less than 45 degrees from the front aisle
		want := "note"
		if corner {
			want = ""
		}
		if got := s.of(turned); levels(got) != want {
			t.Errorf("corner %v: %+v", corner, got)
		}
	}
}

// What hides a work from the side aisle alone is told, with its view; what is hidden from the front stays a fail.
func TestHiddenFromTheSideAisle(t *testing.T) {
	s := onCorner()
	s.work(s.wall(booth.Left), "Orchard", 45, 58, 24, 30, 1.5)
	if got := s.of(hidden); len(got) != 0 {
		t.Errorf("with nothing in the way: %+v", got)
	}
	s.box("screen", 20, 0, -100, 21, 84, -20)
	got := s.of(hidden)
	if levels(got) != "caution" || got[0].View != "right-side" ||
		!strings.HasPrefix(got[0].Message, "The screen hides 100% of Orchard from the aisle on the right (adult eye)") {
		t.Errorf("behind a screen: %+v", got)
	}
}

// The way in is measured across each open side. Shelves along the right side leave 30 in at its back (by hand); with the front
// closed the way in is that one.
func TestWayInFromTheSideAisle(t *testing.T) {
	s := onCorner()
	s.wall(booth.Back)
	widths := func() map[string]float64 {
		out := map[string]float64{}
		for _, c := range Run(&s.Plan).Clearances {
			if c.To == "inside" && c.Width != nil {
				out[c.From] = *c.Width / in
			}
		}
		return out
	}
	open := widths()
	s.box("shelves", 55, 0, -89, 60, 60, 0) // the back wall's face is at -119
	got := s.of(entrance)
	if levels(got) != "note" || got[0].View != "right-side" ||
		got[0].Message != "The way in from the aisle on the right, between the shelves and the back wall, is 30 in wide; 36 in is good practice" {
		t.Errorf("shelves along the side: %+v", got)
	}
	now := widths()
	if math.Abs(now["right-side"]-30) > 0.01 || now["entrance"] < 60 || open["right-side"] <= now["right-side"] {
		t.Errorf("%v in wide without shelves, %v with them", open, now)
	}
	if words := Run(&s.Plan).WayInWords(&s.Plan); !strings.Contains(words, "From the aisle on the right it is 30 in wide at its narrowest, between the shelves and the back wall.") {
		t.Errorf("%s", words)
	}
	s.box("counter", -60, 0, -6, 60, 40, -2)
	if got := s.of(entrance); levels(got) != "fail" || !strings.Contains(got[0].Message, "is 30 in wide") {
		t.Errorf("with the front closed: %+v", got)
	}
	// Where the scene says that visitors buy over a counter, no way in is asked for, whatever hangs behind it.
	s.Pitch.Counter = true
	if got := append(s.of(entrance), s.of(turning)...); levels(got) != "note" || Run(&s.Plan).WayInWords(&s.Plan) != "" {
		t.Errorf("over a counter: %+v", got)
	}
}
