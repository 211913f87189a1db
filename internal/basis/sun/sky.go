package sun

import "math"

// Sky is how cloudy it is.
type Sky string

// The three skies of the IES's formulas.
const (
	Clear    Sky = "clear"
	Mixed    Sky = "mixed" // partly cloudy
	Overcast Sky = "overcast"
)

// extinction is the optical depth of the air for sunlight; none comes through an overcast sky.
var extinction = map[Sky]float64{Clear: 0.21, Mixed: 0.80}

// Direct is the sun's light on a surface square to it: 127,500 lx outside of the air, less what the air takes on its way.
// IES, Recommended Practice for the Calculation of Daylight Availability, 1984 (from memory).
func (k Sky) Direct(altitude float64) float64 {
	c, shines := extinction[k]
	if !shines || altitude <= 0 {
		return 0
	}
	return 127_500 * math.Exp(-c/math.Sin(altitude))
}

// Diffuse is the sky's own light on open level ground, without the sun's. Same source. At night there is none.
func (k Sky) Diffuse(altitude float64) float64 {
	if altitude <= 0 {
		return 0
	}
	s := math.Sin(altitude)
	switch k {
	case Clear:
		return 800 + 15_500*math.Sqrt(s)
	case Mixed:
		return 300 + 45_000*s
	}
	return 300 + 21_000*s
}
