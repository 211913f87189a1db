package check

import (
	"fmt"
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
