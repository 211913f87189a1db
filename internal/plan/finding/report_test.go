package finding

import (
	"testing"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
)

// READY means that nobody has anything to mend; the wind that the booth stands is part of it, rounded down.
func TestLine(t *testing.T) {
	mph := func(v float64) *float64 { v *= wind.MilesPerHour; return &v }
	for _, c := range []struct {
		units  unit.System
		gust   *float64
		levels []Level
		want   Verdict
		line   string
	}{
		{unit.Inches, nil, nil, Ready, "READY: nothing to mend."},
		{unit.Inches, mph(14.99), []Level{Note, Caution}, ThinkOver, "READY up to gusts of 14 mph: nothing to mend, 1 thing to think over."},
		{unit.Centimetres, mph(14.99), []Level{Note}, Ready, "READY up to gusts of 24 km/h: nothing to mend."},
		{unit.Inches, mph(0), nil, Ready, "READY in still air only: nothing to mend."},
		{unit.Inches, mph(60), []Level{Caution, Note, Fail, Caution, Fail}, NotReady, "NOT READY: 2 things to mend, 2 things to think over."},
	} {
		var found []Finding
		for _, l := range c.levels {
			found = append(found, Finding{Level: l})
		}
		half := len(found) / 2
		r := Gather(&booth.Plan{File: "a.yaml", Units: c.units}, c.gust, found[:half], found[half:])
		if r.Verdict != c.want || r.Line != c.line || len(r.Findings) != len(c.levels) {
			t.Errorf("%v: %s, %q, want %s, %q", c.levels, r.Verdict, r.Line, c.want, c.line)
		}
		for i := 1; i < len(r.Findings); i++ {
			if rank(r.Findings[i].Level) < rank(r.Findings[i-1].Level) {
				t.Errorf("%v: the gravest is not first: %v", c.levels, r.Findings)
			}
		}
	}
}

func TestSentence(t *testing.T) {
	for message, want := range map[string]string{"too light": "Too light.", "did you mean 24 x 36 in?": "Did you mean 24 x 36 in?", "Élan": "Élan.", "": ""} {
		if got := (Finding{Message: message}).Sentence(); got != want {
			t.Errorf("%q: %q, want %q", message, got, want)
		}
	}
}
