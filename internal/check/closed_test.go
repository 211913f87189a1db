package check

import (
	"testing"

	"boothmock/internal/way"
)

// Who walks through the booth on the page stops at what the check of the ways calls closed, and at people.
func TestClosed(t *testing.T) {
	s := newStall()
	s.table(-40, -40, 0, -20, 29)
	s.box("sheet", 10, 0, -40, 20, 0.03, -30)  // of paper, which nobody notices
	s.box("foot", 10, 0, -60, 20, 0.24, -50)   // of a leg: low, but it is there
	s.box("lamp", 30, 70, -40, 40, 80, -30)    // above the eye
	s.box("shelf", -30, 10, -35, -20, 15, -25) // under the table
	s.box("visitor", 0, 0, -80, 18, 66, -70).Moving = true
	closed := Closed(&s.Plan)
	if len(closed) != 6 {
		t.Errorf("%d outlines: %v", len(closed), closed)
	}
	holds := func(x, z float64) bool {
		for _, o := range closed {
			if o.Holds(way.Point{X: x * in, Z: z * in}) {
				return true
			}
		}
		return false
	}
	for _, c := range []struct {
		what string
		x, z float64
		want bool
	}{
		{"the table", -20, -30, true}, {"the visitor", 9, -75, true}, {"beside the table", 2, -30, false},
		{"the sheet", 15, -35, false}, {"the foot", 15, -55, true}, {"below the lamp", 35, -35, false},
		{"the neighbour's on the left", -70, -60, true}, {"behind", 0, -130, true}, {"the aisle", 0, 30, false},
	} {
		if got := holds(c.x, c.z); got != c.want {
			t.Errorf("%s is closed: %v", c.what, got)
		}
	}
	if n := len(newPass(&s.Plan).floor().Obstacles); n != 5 {
		t.Errorf("the ways go round %d things, and not past visitors", n)
	}
}
