package check

import (
	"slices"
	"strings"
	"testing"

	"boothmock/internal/plan/booth"
)

// Things are named from left to right, whatever the order of the scene, and of two ways past a table that are as wide it is
// the left one that is named.
func TestFromLeftToRight(t *testing.T) {
	build := func(reversed bool) *stall {
		s := newStall()
		s.Parts = make([]booth.Part, 0, 16)
		makes := []func(){
			func() { s.box("left screen", -60, 0, -30, -50, 84, 0).Cloth = &booth.Cloth{} },
			func() { s.box("right screen", 50, 0, -30, 60, 84, 0).Cloth = &booth.Cloth{} },
			func() { s.table(-30, -30, 30, -6, 29) },
		}
		if reversed {
			slices.Reverse(makes)
		}
		for _, make := range makes {
			make()
		}
		back := s.wall(booth.Back)
		works := []func(){
			func() { s.work(back, "Alder", 20, 58, 20, 30, 1.5) },
			func() { s.work(back, "Birch", 51, 58, 20, 20, 1.5) },
			func() { s.work(back, "Cedar", 72, 58, 20, 20, 1.5) },
		}
		if reversed {
			slices.Reverse(works)
		}
		for _, make := range works {
			make()
		}
		return s
	}
	for _, reversed := range []bool{false, true} {
		s := build(reversed)
		in := s.of(entrance)
		if len(in) != 1 || !strings.HasPrefix(in[0].Message, "The way in, between the left screen and the print table, is 20 in wide") || in[0].Item != "thing/print table" {
			t.Errorf("reversed %v: %+v", reversed, in)
		}
		var said []string
		for _, f := range s.of(gaps) {
			said = append(said, f.Message[:strings.Index(f.Message, " hang only")])
		}
		slices.Sort(said)
		if !slices.Equal(said, []string{"Alder and Birch", "Birch and Cedar"}) {
			t.Errorf("reversed %v: %q", reversed, said)
		}
		if got := s.of(reach); len(got) != 0 {
			t.Errorf("reversed %v: the way in tells of it: %+v", reversed, got)
		}
		s.box("fence", -60, 0, -60, 60, 84, -58)
		for _, f := range s.of(reach) {
			if !strings.HasPrefix(f.Message, "Nobody can get to a place before Alder, Birch and Cedar: ") {
				t.Errorf("reversed %v: %s", reversed, f.Message)
			}
		}
	}
}

// Two posts that hide as much of a work are named from left to right.
func TestHidersAsGreatAreNamedFromLeftToRight(t *testing.T) {
	for _, reversed := range []bool{false, true} {
		s := newStall()
		s.Parts = make([]booth.Part, 0, 8)
		posts := []func(){func() { s.box("left post", -12, 0, -60, -4, 84, -56) }, func() { s.box("right post", 4, 0, -60, 12, 84, -56) }}
		if reversed {
			slices.Reverse(posts)
		}
		for _, make := range posts {
			make()
		}
		for i := range s.Parts { // as kinds do, each has its own frame
			lo, hi := s.Parts[i].Solids[0].Bounds()
			s.Parts[i].Frame.Origin = lo.Lerp(hi, 0.5)
		}
		s.work(s.wall(booth.Back), "Alder", 45, 58, 30, 30, 1.5)
		got := s.of(hidden)
		if len(got) == 0 || !strings.HasPrefix(got[0].Message, "The left post and the right post hide ") {
			t.Errorf("reversed %v: %+v", reversed, got)
		}
	}
}
