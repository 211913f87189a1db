package job_test

import (
	"bytes"
	"strings"
	"testing"

	"boothmock/internal/job"
)

func TestWriteJSON(t *testing.T) {
	var b bytes.Buffer
	err := job.WriteJSON(&b, map[string]any{
		"a": 89.09499187584731, "b": []float64{0.1 + 0.2, -1e-12, 12, 1e300, 2.5e-7}, "c": `1.23456789012345 "0.30000000000000004" \`, "d": 7, "0.30000000000000004": "<&>",
	})
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Join(strings.Fields(b.String()), " ")
	want := `{ "generator": "boothmock", "0.30000000000000004": "<&>", "a": 89.094991876, "b": [ 0.3, 0, 12, 1e+300, 0.00000025 ], "c": "1.23456789012345 \"0.30000000000000004\" \\", "d": 7 }`
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
