package job

import (
	"testing"

	"boothmock/internal/plan/finding"
)

// An arrangement with one failure more is worse, one with a caution more too; one that exchanges a caution for another is not.
func TestWorse(t *testing.T) {
	of := func(level finding.Level, items ...string) (out []finding.Finding) {
		for _, i := range items {
			out = append(out, finding.Finding{Check: i, Level: level})
		}
		return out
	}
	report := func(lists ...[]finding.Finding) (r finding.Report) {
		for _, l := range lists {
			r.Findings = append(r.Findings, l...)
		}
		return r
	}
	for name, c := range map[string]struct {
		before, after finding.Report
		want          int
	}{
		"nothing":               {report(), report(), 0},
		"a note":                {report(), report(of(finding.Note, "a")), 0},
		"a failure":             {report(), report(of(finding.Fail, "a")), 1},
		"another failure":       {report(of(finding.Fail, "a")), report(of(finding.Fail, "b")), 1},
		"a caution":             {report(of(finding.Caution, "a")), report(of(finding.Caution, "a", "b")), 1},
		"another caution":       {report(of(finding.Caution, "a")), report(of(finding.Caution, "b")), 0},
		"two for one":           {report(of(finding.Caution, "a")), report(of(finding.Caution, "b", "c")), 2},
		"better":                {report(of(finding.Fail, "a"), of(finding.Caution, "b")), report(), 0},
		"a caution, no failure": {report(of(finding.Fail, "a")), report(of(finding.Caution, "a")), 1},
	} {
		if got := worse(c.before, c.after, finding.Beyond(c.after.Findings, c.before.Findings)); len(got) != c.want {
			t.Errorf("%s: %v, want %d", name, got, c.want)
		}
	}
}
