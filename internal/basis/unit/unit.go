// Package unit holds lengths, sizes, weights, money, angles, shares and times as people write them, and prints them the
// same way. A number in text is plain decimal ("6.5") or a fraction ("6 1/2", "½"); thousands are never marked except in
// money, and the decimal mark is a point, because "1,200" means two things.
package unit

import "regexp"

// System is the units that a scene is written in, and that everything about it is printed in.
type System int

const (
	Inches System = iota
	Centimetres
)

// ParseSystem reads the name of a system as a scene states it.
func ParseSystem(s string) (System, error) {
	switch plain(s) {
	case "in", "inch", "inches", `"`:
		return Inches, nil
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters":
		return Centimetres, nil
	}
	return Inches, unclear(s, "a system of units", "in or cm")
}

func (s System) String() string {
	if s == Centimetres {
		return "cm"
	}
	return "in"
}

// Length in metres.
type Length float64

// Exact factors: the international inch and foot (NIST SP 811, appendix B).
const (
	Inch       Length = 0.0254
	Foot       Length = 0.3048
	Centimetre Length = 0.01
	Metre      Length = 1
)

// M is the length as a plain number of metres.
func (l Length) M() float64 { return float64(l) }

// Size is two lengths. Which is which, the user of the type says: A x B is height x width for works, as catalogues write
// it, and along x across for a table top.
type Size struct{ A, B Length }

// Size3 is three lengths, in an order that the user of the type says.
type Size3 struct{ A, B, C Length }

// Extent is a size, and a third length where it has one: height x width, or height x width x depth of what stands free.
type Extent struct {
	Size
	C Length // 0: it has none
}

// Weight in kilograms.
type Weight float64

// Exact factors: the avoirdupois pound and ounce (NIST SP 811, appendix B).
const (
	Pound Weight = 0.45359237
	Ounce Weight = Pound / 16
)

// Kg is the weight as a plain number of kilograms.
func (w Weight) Kg() float64 { return float64(w) }

// Angle in radians.
type Angle float64

// Share is a part of a whole: 0.9 is 90%.
type Share float64

// Minutes is how long a task takes.
type Minutes int

// Money is an amount in hundredths of the scene's currency.
type Money int64

// Error says what is wrong with a text, and what can be written instead.
type Error struct{ Text, Hint string }

func (e *Error) Error() string {
	if e.Hint == "" {
		return e.Text
	}
	return e.Text + ": " + e.Hint
}

var digitComma = regexp.MustCompile(`\d,\d`)

// unclear is the error for a text that is not understood as what was wanted.
func unclear(s, what, hint string) error {
	if plain(s) == "" {
		return &Error{"is empty; want " + what, "write " + hint}
	}
	if digitComma.MatchString(s) && hint != moneyHint {
		hint += "; a point, not a comma, before decimals"
	}
	return &Error{Quote(s) + " is not " + what, "write " + hint}
}
