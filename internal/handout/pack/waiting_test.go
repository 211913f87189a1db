package pack

import (
	"testing"

	"boothmock/internal/plan/booth"
)

// A spare has its line on the stock list and its tag, as it may hang before the day is over: a hall of them takes pages more.
func TestSparesHaveTags(t *testing.T) {
	few := *load(t, "demo.yaml")
	many := few
	for i := range 60 {
		many.Waiting = append(many.Waiting, booth.Waiting{ID: booth.ID("work/spare " + string(rune('A'+i))), Work: booth.Work{Title: "Spare", Height: 0.3, Width: 0.2, Price: 9500, Year: "2024"}})
	}
	if a, b := len(read(t, write(t, &few, Options{}))), len(read(t, write(t, &many, Options{}))); b < a+4 {
		t.Errorf("%d pages, and with sixty spares %d", a, b)
	}
}
