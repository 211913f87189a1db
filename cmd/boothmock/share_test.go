package main

import (
	"strings"
	"testing"
)

// Sizes are never told smaller than they are, and what is over a limit is said, at the byte.
func TestSizesAreTold(t *testing.T) {
	for n, want := range map[int]string{1: "0.1 MB", 100_000: "0.1 MB", 5_306_329: "5.4 MB", 16_000_001: "16.1 MB"} {
		if got := megabytes(n); got != want {
			t.Errorf("%d bytes are %q, want %q", n, got, want)
		}
	}
	for _, c := range []struct {
		bytes int
		want  string
	}{{10_000_000, ""}, {10_000_001, "many mails (10 MB)"}, {16_000_000, "many mails (10 MB)"}, {16_000_001, "many messengers (16 MB)"}} {
		if got := tooLarge("a.gif", c.bytes); (got == "") != (c.want == "") || !strings.Contains(got, c.want) {
			t.Errorf("of %d bytes is said %q, want %q", c.bytes, got, c.want)
		}
	}
}
