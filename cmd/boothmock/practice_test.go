package main

import (
	"bufio"
	"context"
	"io"
	"strings"
	"testing"
	"time"

	"boothmock/internal/find/order"
)

// Worked by hand: two people. A does 1 and then 3, B does 2; 3 waits for 2 too. Enter comes after 5, 8 and 10 minutes:
// 1 took five, 2 took eight, and 3 could begin only when 2 was done, so it took two.
func TestOverlappingStepsAreTimedFromWhenTheyCouldBegin(t *testing.T) {
	w := newWatch([]order.Step{
		{Number: 1, Who: []string{"A"}, Start: 0, End: 4},
		{Number: 2, Who: []string{"B"}, Start: 0, End: 6},
		{Number: 3, Who: []string{"A"}, Start: 6, End: 9, After: []int{1, 2}},
	})
	begun := time.Date(2000, 1, 1, 7, 0, 0, 0, time.UTC)
	clock := begun
	w.begun, w.now = begun, func() time.Time { return clock }
	lines := bufio.NewScanner(strings.NewReader("\n\n\n"))
	for i, c := range []struct{ at, took float64 }{{5, 5}, {8, 8}, {10, 2}} {
		clock = begun.Add(time.Duration(c.at * float64(time.Minute)))
		if took, more := w.ask(context.Background(), lines, io.Discard, w.steps[i]); took != c.took || !more {
			t.Errorf("step %d took %g, want %g", i+1, took, c.took)
		}
	}
	if _, more := w.ask(context.Background(), lines, io.Discard, w.steps[2]); more {
		t.Error("the end of the input does not stop")
	}
}

// The clock is set back in the middle of a practice: a step takes nothing or less, which practice does not note, and the
// next one is measured again. (Go's own clock is not set back with the wall's; it may stand still while a computer sleeps.)
func TestClockSetBackInThePractice(t *testing.T) {
	w := newWatch([]order.Step{{Number: 1, Who: []string{"A"}, End: 1}, {Number: 2, Who: []string{"A"}, End: 2}})
	begun := time.Date(2000, 1, 1, 7, 0, 0, 0, time.UTC)
	clock := begun
	w.begun, w.now = begun, func() time.Time { return clock }
	lines := bufio.NewScanner(strings.NewReader("\n\n"))
	clock = begun.Add(-time.Hour)
	if took, more := w.ask(context.Background(), lines, io.Discard, w.steps[0]); took > 0 || !more {
		t.Errorf("the first step took %g", took)
	}
	clock = begun.Add(5 * time.Minute)
	if took, more := w.ask(context.Background(), lines, io.Discard, w.steps[1]); took != 5 || !more {
		t.Errorf("the second step took %g", took)
	}
}

func TestInterruptStopsThePractice(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	in, out := io.Pipe() // nobody ever writes
	defer out.Close()
	w := newWatch([]order.Step{{Number: 1}})
	if _, more := w.ask(ctx, bufio.NewScanner(in), io.Discard, w.steps[0]); more {
		t.Error("an interrupt does not stop")
	}
}
