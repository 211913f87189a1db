package check

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// 2010 ADA Standards, table 703.5.5, in inches. 60 in high from 21 ft is 2.5 in (thebuildingcodeforum.com, quoting the
// table); the others follow from its rows.
func TestLettersOnSigns(t *testing.T) {
	for _, c := range [][3]float64{{60, 252, 2.5}, {60, 72, 0.625}, {60, 30, 0.625}, {60, 120, 1.125}, {70, 72, 0.625}, {71, 100, 2}, {80, 240, 2.625}, {120, 180, 2}, {121, 252, 3}, {130, 300, 3.5}} {
		if got := leastOnSign(c[0]*in, c[1]*in) / in; math.Abs(got-c[2]) > 1e-9 {
			t.Errorf("%v in high from %v in: %v in, the table gives %v", c[0], c[1], got, c[2])
		}
	}
}

// Arc minutes at 120 in (accessibility.gtri.gatech.edu, FAA Human Factors Design Standard: 1 rad = 3437.747 minutes):
// 16 minutes are 0.558505 in.
func TestArcMinutes(t *testing.T) {
	if got := 120 * minutes16; math.Abs(got-0.558505) > 5e-7 {
		t.Errorf("16 minutes at 120 in are %v in", got)
	}
}

// 2010 ADA Standards 308.2.2: forward over an obstruction, 48 in up to 20 in deep and 44 in up to 25 in; 308.3.2: from
// the side, 46 in up to 24 in deep over at most 34 in.
func TestReachOver(t *testing.T) {
	for _, c := range [][3]float64{{20, 40, 48}, {21, 40, 44}, {25, 40, 44}, {26, 40, 0}, {10, 30, 48}, {22, 30, 46}, {24, 34, 46}, {24, 35, 44}} {
		if got := reachOver(c[0]*in, c[1]*in) / in; math.Abs(got-c[2]) > 1e-9 {
			t.Errorf("%v in over a top at %v in: %v in, want %v", c[0], c[1], got, c[2])
		}
	}
}

// of are the findings of one check.
func of(s *stall, check string) (out []Finding) {
	for _, f := range Run(&s.Plan).Findings {
		if f.Check == check {
			out = append(out, f)
		}
	}
	return out
}

// The back wall is 130 in from the eye at the entrance (70 in before the front, a sign at eye height 60 in behind it):
// 16 minutes are 0.605 in. A name across the aisle at 192 in: 0.894 in.
func TestLegible(t *testing.T) {
	for _, c := range []struct {
		from            booth.Reader
		largest, least  float64
		height          float64
		want            Level
		found, measured float64
	}{
		{booth.Entrance, 0.60, 0.2, 62.2, Caution, 0.605, 0.60},
		{booth.Entrance, 0.61, 0.2, 62.2, Note, 1.2292, 0.61}, // ADA: 0.625 + (130 − 72)/12/8
		{booth.Entrance, 1.25, 0.2, 62.2, "", 0, 0},
		{booth.Aisle, 0.88, 0.88, 62.2, Caution, 0.8936, 0.88},
		{booth.Close, 1, 0.10, 50, Caution, 0.1117, 0.10}, // 24 in away
		{booth.Close, 1, 0.11, 50, "", 0, 0},              // printed as 0.11 in, as what it should be
		{booth.Close, 1, 0.12, 50, "", 0, 0},
	} {
		s := newStall()
		p := s.box("welcome sign", -5, c.height-1, -60.2, 5, c.height+1, -60)
		p.Frame.Origin = vec(0, c.height, -60)
		p.Lettering = &booth.Lettering{From: c.from, Largest: c.largest * in, Least: c.least * in}
		got := of(s, "legible")
		switch {
		case c.want == "" && len(got) > 0:
			t.Errorf("%+v: %s", c, got[0].Message)
		case c.want == "":
		case len(got) != 1 || got[0].Level != c.want || math.Abs(got[0].Limit/in-c.found) > 5e-4 || math.Abs(got[0].Measured/in-c.measured) > 1e-9:
			t.Errorf("%+v: %+v", c, got)
		}
	}
}

// Ten times the side: a code of 2.4 in reads from 24 in.
func TestSquareCode(t *testing.T) {
	for side, want := range map[float64]int{2.4: 0, 2: 1} {
		s := newStall()
		s.box("sign", -5, 40, -60.2, 5, 50, -60).Lettering = &booth.Lettering{Code: side * in}
		if got := of(s, "square code"); len(got) != want {
			t.Errorf("a code of %v in: %+v", side, got)
		}
	}
}

// A bar before a corner of a square code hides little of the sign and a corner of the code: the sign is read and the code is not.
func TestHalfHiddenCode(t *testing.T) {
	for _, c := range []struct {
		right float64 // end of the bar
		want  int
	}{{-9, 0}, {-6, 1}} {
		s := newStall()
		p := s.box("sign", -20, 40, -60.2, 20, 60, -60)
		square := func(x0, y0, x1, y1 float64) geom.Polygon {
			return geom.Polygon{vec(x0, y0, -60), vec(x1, y0, -60), vec(x1, y1, -60), vec(x0, y1, -60)}
		}
		p.Lettering = &booth.Lettering{From: booth.Entrance, Face: square(-20, 40, 20, 60), Largest: 4 * in, Code: 4 * in, Square: square(-8, 42, -4, 46)}
		s.box("bar", -9.5, 41, -59, c.right, 43, -58.9)
		got := of(s, "read")
		if len(got) != c.want {
			t.Fatalf("the bar to %v: %+v", c.right, got)
		}
		if c.want > 0 && !strings.Contains(got[0].Message, "of the square code of the sign from where its square code is scanned") {
			t.Errorf("the bar to %v: %s", c.right, got[0].Message)
		}
	}
}

// A guest book on a table of 30 in: at its front edge it can be reached; 22 in in from the only side that is free it can at
// 46 in, not at 47; 26 in in not at all; and not where nobody can stand.
func TestWithinReach(t *testing.T) {
	for _, c := range []struct {
		front, height float64
		want          string
	}{{2, 30, ""}, {22, 46, ""}, {22, 47, "47 in high and 22 in in from the edge"}, {26, 31, "26 in in from the edge"}} {
		s := newStall()
		table := s.table(-60, -115, 60, -80, 30) // against the back, from side to side: only its front is free
		book := s.box("guest book", -5, 30, -80-c.front-6, 5, 31, -80-c.front)
		book.Parent, book.Handled, book.Frame.Origin = table.ID, true, vec(0, c.height, -80-c.front-3)
		s.Parts[0].Frame.Origin = vec(0, 0, -100)
		got := of(s, "within reach")
		switch {
		case c.want == "" && len(got) > 0:
			t.Errorf("%+v: %s", c, got[0].Message)
		case c.want != "" && (len(got) != 1 || !strings.Contains(got[0].Message, c.want)):
			t.Errorf("%+v: %+v", c, got)
		}
	}
	s := newStall()
	table := s.table(-60, -60, 60, -30, 30)
	s.box("fence", -60, 0, -20, 60, 60, -18)
	book := s.box("guest book", -5, 30, -40, 5, 31, -36)
	book.Parent, book.Handled = table.ID, true
	if got := of(s, "within reach"); len(got) != 1 || !strings.Contains(got[0].Message, "No way leads") {
		t.Errorf("behind a fence: %+v", got)
	}
}

// Common practice, no source. From the seat at the back left: a screen before it hides the entrance and the table.
func TestWatched(t *testing.T) {
	s := newStall()
	s.table(20, -60, 50, -30, 30)
	if got := of(s, "watched"); len(got) != 0 {
		t.Errorf("with nothing in the way: %s", got[0].Message)
	}
	s.box("screen", -60, 0, -80, 60, 72, -79)
	got := of(s, "watched")
	if len(got) != 2 || !strings.Contains(got[0].Message, "somebody who comes in") || !strings.Contains(got[1].Message, "the print table") {
		t.Errorf("behind a screen: %+v", got)
	}
}

// No finding says that letters are as high as they should be, whatever is wrong with them, and none that they have no
// height; in inches and in centimetres.
func TestLettersDiffer(t *testing.T) {
	amount := regexp.MustCompile(`(?:less than )?[0-9.]+ (?:in|mm)\b`)
	found := 0
	for _, units := range []unit.System{unit.Inches, unit.Centimetres} {
		for k := range 600 {
			s := newStall()
			s.Units = units
			p := s.box("welcome sign", -5, 61, -60.2, 5, 63, -60)
			p.Frame.Origin = vec(0, 62, -60)
			from := []booth.Reader{booth.Entrance, booth.Aisle, booth.Close}[k%3]
			high := 0.002 * float64(k) * in
			p.Lettering = &booth.Lettering{From: from, Largest: high, Least: high}
			if k < 3 {
				p.Lettering.Largest, p.Lettering.Least = 0.004*in, 0.004*in
			}
			for _, f := range s.of(legible) {
				found++
				said := amount.FindAllString(f.Message, -1)
				if len(said) < 2 || said[0] == said[len(said)-1] || strings.HasPrefix(said[0], "0.00") || strings.HasPrefix(said[0], "0.0 ") {
					t.Errorf("%s", f.Message)
				}
			}
		}
	}
	if found < 600 {
		t.Errorf("only %d findings", found)
	}
}
