package check

import (
	"math"
	"testing"

	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

// The veil over a work has just the area that the sightline says is hidden, and lies on the work's face.
func TestVeils(t *testing.T) {
	s := clean()
	s.table(-30, -50, 40, -20, 60) // high enough to hide a part of what hangs on the back wall
	report := Run(&s.Plan)
	for _, v := range s.Views {
		for _, e := range s.Eyes {
			if v.Height > 0 {
				continue
			}
			veils := map[booth.ID]Veil{}
			for _, l := range Veils(&s.Plan, v, e) {
				veils[l.Work] = l
			}
			some := 0
			for _, l := range report.Sightlines {
				if l.From != v.Name || l.Eye != e.Name {
					continue
				}
				w := s.Part(l.Work).Work
				area := 0.0
				for _, q := range veils[l.Work].Pieces {
					area += q.Area()
					for _, c := range q {
						if d := math.Abs(c.Sub(w.Face[0]).Dot(w.Face.Normal())); d > 1e-9 {
							t.Errorf("%s from %s: a corner is %v m before the work", l.Work, v.Name, d)
						}
					}
					if q.Normal().Dot(w.Face.Normal()) < 0.999 {
						t.Errorf("%s from %s: a piece faces elsewhere", l.Work, v.Name)
					}
				}
				if hidden := area / w.Face.Area(); math.Abs(hidden-(1-l.Visible)) > 1e-9 {
					t.Errorf("%s from %s by the %s eye: %.6f is veiled, and %.6f is hidden", l.Work, v.Name, e.Name, hidden, 1-l.Visible)
				}
				if l.Visible > 0 && l.Visible < 1 {
					some++
				}
			}
			if v.Name == "entrance" && some == 0 {
				t.Errorf("from the entrance the %s eye sees all or nothing of every work", e.Name)
			}
		}
	}
}

// The line of the way in passes the narrow place that the report names, also where there is another one as wide.
func TestWayInPassesTheNarrowPlace(t *testing.T) {
	for _, left := range []float64{-36, -20, -50} { // inches: a table 72 in wide before the front, in the middle and aside
		s := newStall()
		s.wall(booth.Back)
		s.wall(booth.Left)
		s.wall(booth.Right)
		s.table(left, -34, left+72, -4, 36)
		var at [][2]float64
		for _, c := range Run(&s.Plan).Clearances {
			if c.To == "inside" {
				at = c.At
			}
		}
		line := newPass(&s.Plan).line()
		if len(at) != 2 || len(line) < 2 {
			t.Fatalf("%v in: between %v, the way is %v", left, at, line)
		}
		mid := way.Point{X: (at[0][0] + at[1][0]) / 2, Z: (at[0][1] + at[1][1]) / 2}
		near := math.Inf(1)
		for i := 1; i < len(line); i++ {
			_, _, d := way.Closest(way.Shape{line[i-1], line[i]}, way.Shape{mid})
			near = min(near, d)
		}
		if near > 0.06 { // metres: the line is found on a grid of 4 cm
			t.Errorf("%v in: the way passes %.2f m from the narrow place", left, near)
		}
	}
}
