package check

import (
	"math"
	"testing"

	"boothmock/internal/booth"
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
