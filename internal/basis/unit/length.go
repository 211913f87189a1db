package unit

import (
	"fmt"
	"math"
	"strings"
)

const (
	lengthHint = `24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m`
	sizeHint   = `24in x 36in or 61 x 91 cm`
	size3Hint  = `24in x 36in x 2in or 61 x 91 x 5 cm`
)

// lengthUnits are the units of length in tenths of a millimetre: whole numbers, so that 36in is 0.9144 m to the last bit.
var lengthUnits = unitTable(map[string]float64{
	`in ins inch inches "`: 254,
	`ft foot feet '`:       3048,
	"mm millimetre millimetres millimeter millimeters":     10,
	"cm cms centimetre centimetres centimeter centimeters": 100,
	"m metre metres meter meters":                          10000,
})

// unitTable gives every spelling of a unit its own entry.
func unitTable(spellings map[string]float64) map[string]float64 {
	t := map[string]float64{}
	for words, v := range spellings {
		for _, w := range strings.Fields(words) {
			t[w] = v
		}
	}
	return t
}

// ParseLength reads a length, which may be negative: whether that makes sense is for the caller to say. A bare number
// is in the system bare if bareOK, else it is an error. Errors are of type *Error.
func ParseLength(s string, bare System, bareOK bool) (Length, error) {
	ts, negative, ok := terms(s)
	if !ok {
		return 0, unclear(s, "a length", lengthHint)
	}
	const inch, foot, centimetre, metre = 254, 3048, 100, 10000
	sum, above := 0.0, 0.0
	for i, t := range ts {
		u := lengthUnits[t.unit]
		switch {
		case t.unit != "":
		case len(ts) == 1 && !bareOK:
			n := strings.TrimSpace(s)
			return 0, &Error{"a length needs a unit", fmt.Sprintf("write %sin, %sft or %scm", n, n, n)}
		case len(ts) == 1 && bare == Centimetres:
			u = centimetre
		case len(ts) == 1, i == 1 && above == foot: // 5'6
			u = inch
		}
		second := above == foot && u == inch && t.n < 12 || above == metre && u == centimetre && t.n < 100
		if u == 0 || i > 1 || i == 1 && !second {
			return 0, unclear(s, "a length", lengthHint)
		}
		sum = float64(t.n*u) + sum
		above = u
	}
	return Length(sign(sum/10000, negative)), nil
}

// Format is the length as people write it: inches with fractions down to 1/8 ("24 1/2 in"), or centimetres down to the
// millimetre ("61.3 cm").
func (l Length) Format(sys System) string {
	if sys == Centimetres {
		return decimals(upward(l.M()*100), 1) + " cm"
	}
	return eighths(l.M()/Inch.M()) + " in"
}

// FormatFeet is the length as people speak of rooms and pitches: feet and inches ("10 ft", "9 ft 6 in"), or metres
// down to the centimetre ("3.05 m").
func (l Length) FormatFeet(sys System) string {
	if sys == Centimetres {
		return decimals(upward(l.M()), 2) + " m"
	}
	n := math.Round(upward(math.Abs(l.M()) / Inch.M() * 8))
	feet, rest := math.Floor(n/96), math.Mod(n, 96)
	s := ""
	if l < 0 && n > 0 {
		s = "-"
	}
	if !(feet > 0) {
		return s + eighths(n/8) + " in"
	}
	s += decimals(feet, 0) + " ft"
	if rest > 0 {
		s += " " + eighths(rest/8) + " in"
	}
	return s
}

// upward is v and a hair away from 0, so that what lies half-way is rounded alike however it was worked out.
func upward(v float64) float64 { return v + math.Copysign(1e-9, v) }

// eighths prints a number with its fraction, to the nearest 1/8: "24", "24 1/2", "3/8".
func eighths(v float64) string {
	n := math.Round(upward(math.Abs(v) * 8))
	whole, rest := math.Floor(n/8), int(math.Mod(n, 8))
	var s string
	switch fraction := [...]string{"", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"}[max(0, rest)]; {
	case rest <= 0:
		s = decimals(whole, 0)
	case whole == 0:
		s = fraction
	default:
		s = decimals(whole, 0) + " " + fraction
	}
	if v < 0 && n > 0 {
		return "-" + s
	}
	return s
}

// ParseSize reads two lengths with an x between them. The unit stands with each, or once at the end for all.
func ParseSize(s string, bare System, bareOK bool) (Size, error) {
	l, err := across(s, 2, sizeHint, bare, bareOK)
	if err != nil {
		return Size{}, err
	}
	return Size{l[0], l[1]}, nil
}

// ParseSize3 reads three lengths, like ParseSize.
func ParseSize3(s string, bare System, bareOK bool) (Size3, error) {
	l, err := across(s, 3, size3Hint, bare, bareOK)
	if err != nil {
		return Size3{}, err
	}
	return Size3{l[0], l[1], l[2]}, nil
}

// ParseExtent reads two lengths or three, like ParseSize.
func ParseExtent(s string, bare System, bareOK bool) (Extent, error) {
	if len(acrossParts(s)) == 3 {
		l, err := ParseSize3(s, bare, bareOK)
		return Extent{Size{l.A, l.B}, l.C}, err
	}
	l, err := ParseSize(s, bare, bareOK)
	return Extent{Size: l}, err
}

// acrossParts are the lengths in a text with x, * or "by" between them.
func acrossParts(s string) []string {
	return strings.Split(strings.NewReplacer(" by ", "x", "*", "x").Replace(plain(s)), "x")
}

// across reads n lengths with x, * or "by" between them.
func across(s string, n int, hint string, bare System, bareOK bool) ([]Length, error) {
	what := map[int]string{2: "a size", 3: "a size of three lengths"}[n]
	parts := acrossParts(s)
	if n == 2 && len(parts) == 3 {
		if _, err := across(s, 3, hint, bare, true); err == nil {
			return nil, &Error{Quote(s) + " is three lengths where two are wanted", "the third has a key of its own, such as height or depth"}
		}
	}
	if len(parts) != n {
		return nil, unclear(s, what, hint)
	}
	last, _, _ := terms(parts[n-1])
	shared, without := "", 0
	if len(last) == 1 {
		shared = last[0].unit
	}
	out := make([]Length, n)
	for i, p := range parts {
		ts, _, ok := terms(p)
		if !ok {
			return nil, unclear(s, what, hint)
		}
		if len(ts) == 1 && ts[0].unit == "" {
			p += shared
			if shared == "" {
				without++
			}
		}
		l, err := ParseLength(p, bare, true)
		if err != nil {
			return nil, unclear(s, what, hint)
		}
		out[i] = l
	}
	switch {
	case without > 0 && without < n: // 24in x 36: inches of the one, and of the other?
		return nil, &Error{Quote(s) + " has a unit for one length and not for the other", "write " + hint}
	case without > 0 && !bareOK:
		t := strings.TrimSpace(s)
		return nil, &Error{"a size needs a unit", fmt.Sprintf("write %s in or %s cm", t, t)}
	}
	return out, nil
}

// Format is the size as people write it, with the unit once: "24 1/2 x 36 in".
func (s Size) Format(sys System) string { return formatAcross(sys, s.A, s.B) }

// Format is the size as people write it, with the unit once: "24 x 36 x 1 1/2 in".
func (s Size3) Format(sys System) string { return formatAcross(sys, s.A, s.B, s.C) }

// Format is the size as people write it, with its depth if it has one.
func (e Extent) Format(sys System) string {
	if e.C == 0 {
		return e.Size.Format(sys)
	}
	return formatAcross(sys, e.A, e.B, e.C)
}

func formatAcross(sys System, ls ...Length) string {
	suffix := " " + sys.String()
	parts := make([]string, len(ls))
	for i, l := range ls {
		parts[i] = strings.TrimSuffix(l.Format(sys), suffix)
	}
	return strings.Join(parts, " x ") + suffix
}
