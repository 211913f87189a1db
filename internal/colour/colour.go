// Package colour turns the numbers of a picture file into amounts of light and back, and says how different two
// colours look.
package colour

import "math"

// The transfer function of sRGB, IEC 61966-2-1.
const (
	knee       = 0.04045 // signal below which the curve is a straight line
	kneeLinear = 0.0031308
	slope      = 12.92
	offset     = 0.055
	gamma      = 2.4
)

// Linear is the light, from 0 to 1, of an sRGB signal from 0 to 1.
func Linear(signal float64) float64 {
	if signal <= knee {
		return signal / slope
	}
	return math.Pow((signal+offset)/(1+offset), gamma)
}

// Signal is the sRGB signal of light from 0 to 1; the inverse of Linear.
func Signal(light float64) float64 {
	if light <= kneeLinear {
		return light * slope
	}
	return (1+offset)*math.Pow(light, 1/gamma) - offset
}

// steps is the fineness of the table that Byte reads: five steps to one level of the darkest greys.
const steps = 1 << 14

var (
	lights [256]float32
	bytes  [steps + 1]uint8
)

func init() {
	for i := range lights {
		lights[i] = float32(Linear(float64(i) / 255))
	}
	for i := range bytes {
		bytes[i] = uint8(math.Round(255 * Signal(float64(i)/steps)))
	}
}

// Light is the light of a byte of an sRGB picture, from 0 to 1.
func Light(b uint8) float32 { return lights[b] }

// Byte is the byte of an sRGB picture for light from 0 to 1; light outside of that is held to it.
func Byte(light float32) uint8 {
	if !(light > 0) {
		return 0
	}
	if light >= 1 {
		return 255
	}
	return bytes[int(light*steps+0.5)]
}

// Dithered is the byte just below or just above the light: the one above if the light is more than share of the way
// from one to the other. With shares from 0 to 1 spread over neighbouring pixels, a slow gradient shows no bands. Light
// that is just that of a byte stays that byte.
func Dithered(light, share float32) uint8 {
	b := Byte(light)
	switch over := light - lights[b]; {
	case over > 0 && b < 255 && over > share*(lights[b+1]-lights[b]):
		return b + 1
	case over < 0 && b > 0 && -over >= (1-share)*(lights[b]-lights[b-1]):
		return b - 1
	}
	return b
}
