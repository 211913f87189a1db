package job_test

import (
	"strings"
	"testing"
	"time"

	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
)

// evening is an empty pitch at a fair that is open on the night on which clocks are set back, in the Middle West of the United States.
func evening() *booth.Plan {
	zone, err := time.LoadLocation("America/Chicago")
	if err != nil {
		panic(err)
	}
	from := time.Date(2026, 11, 1, 0, 30, 0, 0, zone)
	return &booth.Plan{
		Pitch: booth.Pitch{Width: 3, Depth: 3},
		Fair:  &booth.Fair{Days: []booth.Opening{{From: from, To: from.Add(20 * time.Hour)}}, Latitude: 0.74, Longitude: -1.57, Sky: "clear"},
	}
}

// A time that clocks show twice, or that is none, is refused, and says so.
func TestTimesOfTheFair(t *testing.T) {
	p := evening()
	for text, says := range map[string]string{
		"1:30":             "on 1 November 2026 clocks show 1:30 twice",
		"25:00":            "not a time of day",
		"2026-11-02 12:00": "the fair has no day 2026-11-02",
	} {
		if _, err := job.Time(p, text); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want %q", text, err, says)
		}
	}
	at, err := job.Time(p, "15:00")
	if want := time.Date(2026, 11, 1, 21, 0, 0, 0, time.UTC); err != nil || !at.Equal(want) {
		t.Errorf("15:00 is %v, want %v: %v", at, want, err)
	}
}

// By night it is dark, unless there is a lamp; by day it is not.
func TestDark(t *testing.T) {
	p := evening()
	m, err := job.New(p)
	if err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]bool{"4:00": true, "12:00": false} {
		at, err := job.Time(p, text)
		if err != nil {
			t.Fatal(err)
		}
		if got := m.At(at).Dark(); got != want {
			t.Errorf("at %s it is dark: %v", text, got)
		}
	}
}
