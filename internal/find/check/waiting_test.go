package check

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/plan/booth"
)

// Works that hang nowhere are named in one note, six of them by name at most: there is nothing outside to hold it against.
func TestWaitingWorksAreTold(t *testing.T) {
	for n, want := range map[int]string{
		0: "", 1: "Spare 1 hangs nowhere and waits", 2: "2 works hang nowhere and wait: Spare 1 and Spare 2",
		9: "9 works hang nowhere and wait: Spare 1, Spare 2, Spare 3, Spare 4, Spare 5 and 4 more",
	} {
		s := clean()
		for i := range n {
			s.Waiting = append(s.Waiting, booth.Waiting{ID: booth.ID(fmt.Sprint("work/spare ", i+1)), Work: booth.Work{Title: fmt.Sprint("Spare ", i+1)}})
		}
		got := ""
		for _, f := range Run(&s.Plan).Findings {
			if f.Check == waiting.Name {
				got += f.Message
			}
		}
		if got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}

// A work that is sold and still hangs is named; one that is sold and gone is not.
func TestSoldWorksLeaveTheirPlaces(t *testing.T) {
	s := clean()
	k := slices.IndexFunc(s.Parts, func(p booth.Part) bool { return p.Work != nil })
	if got := s.of(waiting); len(got) != 0 {
		t.Errorf("nothing is sold: %v", got)
	}
	s.Parts[k].Work.Sold = true
	s.Waiting = append(s.Waiting, booth.Waiting{ID: "work/gone", Work: booth.Work{Title: "Gone", Sold: true}})
	got := s.of(waiting)
	if len(got) != 1 || got[0].Item != s.Parts[k].ID || got[0].Level != Note {
		t.Errorf("one is sold and hangs: %v", got)
	}
	s.Parts[k].Work.Sold, s.Parts[k].Work.Away = false, "spare"
	if got = s.of(waiting); len(got) != 1 || got[0].Item != s.Parts[k].ID || !strings.Contains(got[0].Message, "the list says that it is spare") {
		t.Errorf("one is marked spare in the list and hangs: %v", got)
	}
}
