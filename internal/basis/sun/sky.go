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

// Twilight ends, for who wants to read or paint, with the sun six degrees below the horizon: a clear sky then gives 3.4 lx (civil
// twilight; from memory). From sunset on light falls by the same factor each degree; past twelve degrees there is none.
const (
	civil    = 6 * math.Pi / 180 // radians
	civilLux = 3.4
)

// Diffuse is the sky's own light on open level ground, without the sun's. Same source; twilight and night as above.
func (k Sky) Diffuse(altitude float64) float64 {
	if altitude < -2*civil {
		return 0
	}
	if altitude < 0 {
		sunset := k.Diffuse(0)
		return sunset * math.Pow(civilLux/Clear.Diffuse(0), -altitude/civil)
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
