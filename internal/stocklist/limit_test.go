package stocklist

import (
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/fault"
	"boothmock/internal/unit"
)

// A list of 5,000 works is read whole; a longer one is refused at the row that is too many, not cut in silence.
func TestLongestList(t *testing.T) {
	rows := "Title,Height,Width\n" + strings.Repeat("Study,12,9\n", maxRows)
	read := func(text string) (*Sheet, error) {
		return Read(fstest.MapFS{"works.csv": {Data: []byte(text)}}, "works.csv", unit.Inches, true)
	}
	if s, err := read(rows); err != nil || len(s.Rows) != maxRows {
		t.Fatalf("of %d rows: %v", maxRows, err)
	}
	_, err := read(rows + "One more,12,9\n")
	if f, ok := err.(fault.Fault); !ok || f.At.Line != maxRows+2 || f.Text != "the list has more than 5000 works" {
		t.Errorf("of a row too many it is said: %v", err)
	}
}
