// Package wind estimates what wind does to a tent on its legs: the pressure of the wind, the force on cloth, and the
// weight that keeps a tent from sliding and from tipping.
//
// The formulas are those of ASCE 7 for the velocity pressure and of plain statics for the rest. They are an estimate to
// compare choices with. They leave out gusts between buildings, uneven ground, a frame that buckles, ropes, and what stakes hold.
// They are no proof that a tent is safe: that is for the organiser, the local code and a licensed person to say.
//
// Speeds are metres a second, pressures pascals, forces newtons, lengths metres, weights kilograms.
package wind

// Gravity is the standard acceleration of free fall in m/s² (NIST SP 811, appendix B).
const Gravity = 9.80665

// Exact or defined factors: the mile and the knot (NIST SP 811, appendix B).
const (
	MilesPerHour      = 0.44704       // m/s in one mph
	Knot              = 1852.0 / 3600 // m/s in one knot
	KilometresPerHour = 1 / 3.6       // m/s in one km/h
)
