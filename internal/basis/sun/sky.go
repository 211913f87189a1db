package sun

import (
	"math"

	"boothmock/internal/basis/geom"
)

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

// groups are how a sky's brightness falls from the horizon to the zenith, 1 + a exp(b/cos Z), and away from the sun,
// 1 + c (exp(dχ) - exp(dπ/2)) + e cos²χ.
type groups struct{ a, b, c, d, e float64 }

// ISO 15469:2004 (CIE S 011/E:2003): type 12, clear with few specks in the air; type 7, partly cloudy and brighter about the sun. As in
// Darula and Kittler, "CIE general sky standard defining luminance distributions", eSim 2002.
var standard = map[Sky]groups{Clear: {-1, -0.32, 10, -3, 0.45}, Mixed: {0, -1, 5, -2.5, 0.30}}

// Luminance is how bright the sky is in a direction, beside its zenith, with the sun in another; both are unit vectors with Y up, and
// neither points down. An overcast sky is the standard's sixteenth, after Moon and Spencer.
func (k Sky) Luminance(toward, sun geom.Vec) float64 {
	g, ok := standard[k]
	if !ok {
		return (1 + 2*toward.Y) / 3
	}
	gradation := func(cos float64) float64 { return 1 + g.a*math.Exp(g.b/max(cos, 1e-6)) }
	indicatrix := func(cos float64) float64 {
		cos = max(-1, min(cos, 1))
		return 1 + g.c*(math.Exp(g.d*math.Acos(cos))-math.Exp(g.d*math.Pi/2)) + float64(g.e*cos*cos)
	}
	return gradation(toward.Y) * indicatrix(toward.Dot(sun)) / (gradation(1) * indicatrix(sun.Y))
}
