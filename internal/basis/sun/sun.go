// Package sun is where the sun stands over a place at a time, how much light sun and sky give, and the sky from where.
//
// Angles are radians; light is illuminance in lux.
package sun

import (
	"math"
	"time"

	"github.com/soniakeys/meeus/v3/coord"
	"github.com/soniakeys/meeus/v3/sidereal"
	"github.com/soniakeys/meeus/v3/solar"
	"github.com/soniakeys/unit"

	"boothmock/internal/basis/geom"
)

// Radius is half the angle across which the sun is seen: 0.533 degrees.
const Radius = 0.533 / 2 * math.Pi / 180

// Place is a place on the earth: north and east are positive.
type Place struct{ Latitude, Longitude float64 }

// Position is where the sun stands: its altitude over the horizon, as refraction lifts it, and its azimuth, clockwise from
// north.
type Position struct{ Altitude, Azimuth float64 }

// At is where the sun stands at t, within 0.02 degrees. It is the low-accuracy method of Meeus, Astronomical Algorithms, chapter
// 25, with the sun's parallax, and refraction after Bennett (chapter 16) at 1010 mbar and 10 °C.
func At(t time.Time, p Place) Position {
	const day = 86400.0
	const epoch = 2440587.5 // Julian day of Unix time 0
	const lag = 69.0        // seconds that dynamical time is ahead of universal time, in the 2020s
	jd := epoch + float64(t.UnixNano())/1e9/day
	ra, dec := solar.ApparentEquatorial(jd + lag/day)
	// Meeus counts longitude westward, and azimuth westward from south.
	a, h := coord.EqToHz(ra, dec, unit.Angle(p.Latitude), unit.Angle(-p.Longitude), sidereal.Apparent(jd))
	altitude := float64(h)
	altitude -= 8.794 / 3600 * math.Pi / 180 * math.Cos(altitude)
	return Position{Altitude: refracted(altitude), Azimuth: turn(float64(a) + math.Pi)}
}

// refracted is the altitude at which a true altitude is seen: Bennett, as in Meeus, chapter 16; below the horizon there is none.
func refracted(h float64) float64 {
	d := h * 180 / math.Pi
	if d < -1 {
		return h
	}
	// Saemundsson's form, from the true altitude; minutes of arc.
	r := 1.02 / math.Tan((d+10.3/(d+5.11))*math.Pi/180)
	return h + r/60*math.Pi/180
}

// turn is the angle from 0 to a whole turn.
func turn(a float64) float64 {
	a = math.Mod(a, 2*math.Pi)
	if a < 0 {
		a += 2 * math.Pi
	}
	return a
}

// Toward is the unit vector to the sun in the axes of a booth whose entrance faces the azimuth faces.
func (p Position) Toward(faces float64) geom.Vec {
	a := p.Azimuth - faces // clockwise from +Z as seen from above: -X is a quarter turn on
	c := math.Cos(p.Altitude)
	return geom.Vec{X: -c * math.Sin(a), Y: math.Sin(p.Altitude), Z: c * math.Cos(a)}
}
