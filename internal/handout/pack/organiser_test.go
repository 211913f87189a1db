package pack

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"boothmock/internal/find/hang"
)

// What the organiser gets has what was asked for, and nothing that costs money: its tables say no price, and nothing else of it
// is words.
func TestOrganisersPaper(t *testing.T) {
	p := *load(t, "demo.yaml")
	p.Electricity = "one socket, four lamps of 7 W"
	d := newPaper(&p, "x")
	d.sheet = hang.Of(&p)
	said := fmt.Sprint(d.facts([]string{"The way in is 40 in wide."}))
	for _, want := range []string{"Pitch 10 ft wide", "Greatest height 10 ft 8 in", "80 lb on each of 4 legs", "one socket, four lamps of 7 W", "Flame labels not stated", "The way in is 40 in wide."} {
		if !strings.Contains(said, want) {
			t.Errorf("%s has no %q", said, want)
		}
	}
	for _, s := range d.sheet.Stock {
		if s.Amount != "" && strings.Contains(said, s.Amount) {
			t.Errorf("it has the price %s", s.Amount)
		}
	}
	drawings := []Drawing{{"The plan.", coverPicture(t), 64, 36}, {"A wall.", greyPicture(t, 9), 64, 36}, {"A wall.", greyPicture(t, 30), 64, 36}}
	var a, b bytes.Buffer
	for _, w := range []*bytes.Buffer{&a, &b} {
		if err := WriteOrganiser(w, &p, d.sheet, nil, drawings); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) || len(read(t, a.Bytes())) < 2 {
		t.Errorf("%d and %d bytes, %d pages", a.Len(), b.Len(), len(read(t, a.Bytes())))
	}
}
