package check

import (
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/way"
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

// However many folds cloth has, the outlines on the floor keep to a number whose gaps can be measured; and they keep to the cloth.
func TestFoldsAreJoined(t *testing.T) {
	for _, tables := range []int{1, 200} {
		s := newStall()
		s.Pitch.Width, s.Pitch.Depth = 5000*in, 5000*in
		for k := range tables {
			x, z := float64(k%20)*100-1000, -100-float64(k/20)*100
			p := s.table(x, z-20, x+40, z, 29)
			p.Blocks = p.Solids
			p.Solids = nil
			for i := range 40 { // folds an inch wide before the front edge, each out a little further than the one before it
				p.Solids = append(p.Solids, geom.Box(geom.World, vec(x+float64(i), 0, z-20), vec(x+float64(i)+0.8, 29, z+0.02*float64(i%20))))
			}
		}
		closed := Closed(&s.Plan)
		if n := len(closed); n > 610 || n < tables {
			t.Errorf("%d tables: %d outlines", tables, n)
		}
		far := -1e9
		for _, o := range closed {
			for _, q := range o {
				if q.X > -1001*in && q.X < 1000*in && q.Z > -150*in && q.Z < -90*in {
					far = max(far, q.Z)
				}
			}
		}
		if far > (-100+0.02*19)*in+1e-9 {
			t.Errorf("%d tables: an outline stands out of the cloth by %g m", tables, far-(-100+0.38)*in)
		}
	}
}
