package finding

import (
	"strings"
	"testing"

	"boothmock/internal/plan/booth"
)

// Of thousands of findings of one kind the worst are told, in their order, and the rest are counted; no message is made
// for one that is not told.
func TestTheWorstAreTold(t *testing.T) {
	const n = 4000
	var all Tally
	said := 0
	for i := range n {
		worse := float64(i * 7919 % n) // each of 0 to n-1 once, 7919 being prime
		all.Add(Finding{Check: "gaps", Level: Fail, Figure: &Figure{Measured: -worse, Unit: Metres}}, func() string { said++; return "x" })
	}
	told := all.Told()
	if len(told) != Most+1 || told[Most].More != n-Most || !strings.Contains(told[Most].Message, "3976 more of the kind") {
		t.Fatalf("%d told, the last: %+v", len(told), told[len(told)-1])
	}
	for _, f := range told[:Most] {
		if -f.Measured < n-Most {
			t.Errorf("%v is told, which is not among the worst %d", f.Measured, Most)
		}
	}
	if said > 12*Most { // a random order replaces Most × ln(n / Most) of them, here 123
		t.Errorf("%d messages were made for %d that are told", said, Most)
	}
	r := Gather(&booth.Plan{}, nil, told)
	if !strings.HasPrefix(r.Line, "NOT READY: 4000 things to mend") {
		t.Errorf("the line counts otherwise: %s", r.Line)
	}
}
