package compare

import (
	"fmt"
	"strings"
	"testing"

	"boothmock/internal/plan/booth"
)

// Of two plans that differ in all, works are told first, what is gone in one line, neighbours counted; of two that hardly differ, all is told.
func TestLines(t *testing.T) {
	few := []Thing{{"neighbour/left", "the left tent", Moved, "is 2 in to the left"}, {"work/a", "Heron", Moved, "is 1 in lower"}, {"work/a", "Heron", Changed, "costs $5 instead of $4"}}
	lines, more := Lines(few, false)
	if got := strings.Join(lines, " "); got != "Heron is 1 in lower; costs $5 instead of $4. the left tent is 2 in to the left." || more != 0 {
		t.Errorf("%s, %d more", got, more)
	}
	many := few
	for i := range 20 {
		many = append(many, Thing{booth.ID(fmt.Sprint("work/", i)), fmt.Sprint("No. ", i), Removed, "is gone"}, Thing{booth.ID(fmt.Sprint("table/", i)), fmt.Sprint("table ", i), Moved, "is 1 in to the left"})
	}
	lines, more = Lines(many, false)
	if len(lines) != 13 || lines[0] != "No. 0, No. 1, No. 2, No. 3, No. 4, No. 5, No. 6, No. 7, No. 8 and 11 more are gone." || !strings.HasPrefix(lines[1], "Heron") || more != 10 {
		t.Errorf("%d lines, %d more: %q", len(lines), more, lines)
	}
	if lines, more = Lines(many, true); len(lines) != len(many) || more != 0 {
		t.Errorf("all: %d lines, %d more", len(lines), more)
	}
}
