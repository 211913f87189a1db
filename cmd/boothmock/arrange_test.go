package main

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"boothmock/internal/job"
	"boothmock/internal/plan/finding"
)

// What stands in the way of a better arrangement is told once for each reason, however many works it has.
func TestOneReasonIsOneLine(t *testing.T) {
	a := &job.Arranged{Before: 1, Bound: 1.2, Tried: 480_000, Views: []string{"entrance"}, Rejected: 3}
	for i := range 12 {
		a.Refused = append(a.Refused, finding.Finding{Check: "hidden", Level: finding.Fail, Message: fmt.Sprintf("The desk hides work %d", i+1)})
	}
	a.Refused = append(a.Refused, finding.Finding{Check: "load", Level: finding.Fail, Message: "The left wall carries too much"})
	var b bytes.Buffer
	printArranged(&b, a, nil)
	got := strings.ReplaceAll(b.String(), "\n", " ")
	for _, want := range []string{
		"Tried 480,000 ways", "3 ways to show more were rejected; of the best of them, this would be worse than now:",
		"- The desk hides work 1 (and 11 more like it)", "- The left wall carries too much", "No better arrangement was found. No arrangement in these rows can show more than another 20.0 %.",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%s\nhas no %q", b.String(), want)
		}
	}
	if strings.Contains(got, "work 2") || strings.Contains(got, " sr") {
		t.Errorf("it says too much:\n%s", b.String())
	}
}
