package check

import (
	"testing"

	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// Works that all hang in one place: every pair overlaps, and the booth is described in a page.
func TestCrowdOnOneWall(t *testing.T) {
	s := newStall()
	s.Parts = make([]booth.Part, 0, 256)
	back := s.wall(booth.Back)
	for range 200 {
		s.work(back, "One more", 40, 58, 24, 36, 1.5)
	}
	r := Run(&s.Plan)
	if len(r.Findings) > 3*(finding.Most+1)*len(All) {
		t.Errorf("%d findings", len(r.Findings))
	}
	more := 0
	for _, f := range r.Findings {
		more += f.More
	}
	if want := 200*199/2 - finding.Most; more < want {
		t.Errorf("%d findings are counted, want at least %d", more, want)
	}
}
