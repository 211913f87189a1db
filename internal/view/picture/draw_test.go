package picture

import (
	"testing"

	"boothmock/internal/plan/booth"
)

// A view for a jury leaves dressing out, a picture of the booth alone leaves people out, and nothing else.
func TestLeftOut(t *testing.T) {
	s := new(stand)
	for i, p := range []booth.Part{{ID: "work"}, {ID: "tag", Dressing: true}, {ID: "person", Dressing: true, Moving: true}} {
		x := float64(i) - 1
		s.add(p, flatMesh(quad(x-0.3, 1.2, x+0.3, 1.8, -2)), booth.Look{Colour: booth.Colour{90, 90, 90}}, full)
	}
	stage := s.stage()
	for _, c := range []struct {
		bare, alone bool
		want        [3]bool
	}{{false, false, [3]bool{true, true, true}}, {true, false, [3]bool{true, false, false}}, {false, true, [3]bool{true, true, false}}} {
		v, o := straight, Options{Width: 64, Height: 64, Alone: c.alone}
		v.Bare = c.bare
		var got [3]bool
		for _, id := range stage.IDs(v, o) {
			if id >= 0 {
				got[id] = true
			}
		}
		if got != c.want {
			t.Errorf("bare %v, alone %v: parts seen %v", c.bare, c.alone, got)
		}
	}
}

// Fewer samples give nearly the same picture, and exactly the same where no edge is.
func TestQuick(t *testing.T) {
	s := fair(400).stage()
	a, b := s.Draw(entrance, Options{Width: 320, Height: 180}), s.Draw(entrance, Options{Width: 320, Height: 180, Quick: true})
	sum, same := 0, 0
	for i := range a.Pix {
		d := int(a.Pix[i]) - int(b.Pix[i])
		sum += max(d, -d)
		if d == 0 {
			same++
		}
	}
	if mean := float64(sum) / float64(len(a.Pix)); mean > 3 || mean == 0 || same < len(a.Pix)/2 {
		t.Errorf("%.2f levels off on average, %d of %d values the same", mean, same, len(a.Pix))
	}
}
