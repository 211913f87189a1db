package check

import (
	"fmt"
	"strings"
	"testing"

	"boothmock/internal/basis/fault"
	"boothmock/internal/plan/booth"
)

// What keeps works of the list out of the booth is told once for each reason, three rows by name at most, and of one that
// waits nothing else is said: there is nothing outside to hold it against.
func TestMissingWorksAreTold(t *testing.T) {
	miss := func(n int, l booth.Lack, why string) (out []booth.Missing) {
		for i := range n {
			out = append(out, booth.Missing{At: fault.Place{File: "works.csv", Line: i + 2}, Row: fmt.Sprint("row ", i+2), Title: fmt.Sprint("Work ", i+1), Lack: l, Why: why})
		}
		return out
	}
	for want, missing := range map[string][]booth.Missing{
		"": nil,
		"One row of the list cannot be read, so its work is missing: row 2 (Work 1), Size: no. Mend":                                   miss(1, booth.Unread, "Size: no"),
		"2 rows of the list cannot be read, so their works are missing: row 2 (Work 1) and row 3 (Work 2). Mend":                       miss(2, booth.Unread, "Size: no"),
		"One work has no size that can be right, so it is missing: row 2 (Work 1). Measure":                                            miss(1, booth.Unsized, ""),
		"6 works of the list have no place in the booth: row 2 (Work 1), row 3 (Work 2), row 4 (Work 3) and 3 others. Give them a row": miss(6, booth.Unplaced, ""),
	} {
		s := clean()
		s.Missing = missing
		s.Waiting = []booth.Waiting{{ID: "work/1", Work: booth.Work{Title: "Work 1"}}}
		for i := range missing {
			s.Missing[i].ID = "work/1"
		}
		got, waits := "", false
		for _, f := range Run(&s.Plan).Findings {
			if f.Check == listed.Name {
				if got += f.Message; f.Level != Fail || f.At != "works.csv:2:0" {
					t.Errorf("%+v", f)
				}
			}
			waits = waits || f.Check == waiting.Name
		}
		if !strings.HasPrefix(got, want) || want == "" && got != "" || waits != (len(missing) == 0) {
			t.Errorf("%q, want %q; told that it waits: %v", got, want, waits)
		}
	}
}
