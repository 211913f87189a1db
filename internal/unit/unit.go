// Package unit holds lengths, weights, money and angles as people write them, and prints them the same way.
package unit

// System is the units that a scene is written in, and that everything about it is printed in.
type System int

const (
	Inches System = iota
	Centimetres
)

// Length in metres.
type Length float64

// Exact factors: the international inch and foot (NIST SP 811, appendix B).
const (
	Inch       Length = 0.0254
	Foot       Length = 0.3048
	Centimetre Length = 0.01
	Millimetre Length = 0.001
	Metre      Length = 1
)

// M is the length as a plain number of metres.
func (l Length) M() float64 { return float64(l) }

// Weight in kilograms.
type Weight float64

// Exact factors: the avoirdupois pound and ounce (NIST SP 811, appendix B).
const (
	Kilogram Weight = 1
	Pound    Weight = 0.45359237
	Ounce    Weight = Pound / 16
)

// Angle in radians.
type Angle float64

// Money is an amount in hundredths of the scene's currency.
type Money int64
