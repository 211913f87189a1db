// Package lamp is how much light lamps send into which direction, and of which colour.
//
// Angles are radians, light is lumens, intensity candela. A lamp's axis is the direction in which it points: the nadir of a
// maker's file.
package lamp

import "math"

// Beam is the luminous intensity of a lamp by direction. The zero value is dark.
type Beam struct {
	Lumens   float64 // that leave it
	peak     float64 // candela on the axis, of a spot
	exponent float64
	table    *table // of a maker's file; nil: a spot
	scale    float64
}

// Spot is a beam that is alike all round its axis: I0·cosⁿ, with n so that the intensity is half across the beam angle, and I0 so
// that all of it is the lumens: 2π·I0/(n+1). Across 120 degrees it is Lambert's lamp.
func Spot(lumens, across float64) Beam {
	n := 0.0
	if c := math.Cos(across / 2); c > 1e-9 {
		n = math.Log(0.5) / math.Log(c)
	}
	return Beam{Lumens: lumens, peak: lumens * (n + 1) / (2 * math.Pi), exponent: n}
}

// With is the beam, of the same shape, with so many lumens.
func (b Beam) With(lumens float64) Beam {
	if b.Lumens > 0 {
		f := lumens / b.Lumens
		b.Lumens, b.peak, b.scale = lumens, b.peak*f, b.scale*f
	}
	return b
}

// Toward is the intensity in a direction so far from the axis, and so far round it from where a maker's file counts.
func (b Beam) Toward(off, round float64) float64 {
	if b.table != nil {
		return b.scale * b.table.at(off, round)
	}
	c := math.Cos(off)
	if c <= 0 {
		return 0
	}
	return b.peak * math.Pow(c, b.exponent)
}

// Across is the angle across which the intensity is at least half of what it is on the axis.
func (b Beam) Across() float64 {
	const step = math.Pi / 720
	half := b.Toward(0, 0) / 2
	for a := step; a < math.Pi; a += step {
		if b.Toward(a, 0) < half {
			return 2 * a
		}
	}
	return 2 * math.Pi
}

// White are the linear red, green and blue (BT.709 primaries) of a black body at so many kelvin, of luminance 1. Its chromaticity is
// the cubic of Kim et al., US patent 7024034 (2002), good from 1,667 to 25,000 K.
func White(kelvin float64) [3]float64 {
	t := max(1667, min(kelvin, 25_000))
	x := -0.2661239e9/float64(t*t*t) - 0.2343589e6/float64(t*t) + 0.8776956e3/t + 0.179910
	if t > 4000 {
		x = -3.0258469e9/float64(t*t*t) + 2.1070379e6/float64(t*t) + 0.2226347e3/t + 0.240390
	}
	cubic := func(a, b, c, d float64) float64 { return float64((float64((float64(a*x)+b)*x)+c)*x) + d }
	y := cubic(3.0817580, -5.87338670, 3.75112997, -0.37001483)
	switch {
	case t <= 2222:
		y = cubic(-1.1063814, -1.34811020, 2.18555832, -0.20219683)
	case t <= 4000:
		y = cubic(-0.9549476, -1.37418593, 2.09137015, -0.16748867)
	}
	bigX, bigZ := x/y, (1-x-y)/y
	rgb := [3]float64{ // IEC 61966-2-1
		float64(3.2406*bigX) - 1.5372 - float64(0.4986*bigZ),
		float64(-0.9689*bigX) + 1.8758 + float64(0.0415*bigZ),
		float64(0.0557*bigX) - 0.2040 + float64(1.0570*bigZ),
	}
	for i := range rgb {
		rgb[i] = max(0, rgb[i])
	}
	return rgb
}

// Tint is the colour of a lamp to an eye that takes another colour temperature for white: of luminance 1, by each primary apart
// (von Kries).
func Tint(kelvin, white float64) [3]float64 {
	lamp, eye := White(kelvin), White(white)
	y := 0.0
	for i, w := range [3]float64{0.2126, 0.7152, 0.0722} {
		lamp[i] /= max(eye[i], 1e-3)
		y += float64(w * lamp[i])
	}
	for i := range lamp {
		lamp[i] /= y
	}
	return lamp
}
