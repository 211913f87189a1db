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

// steps is the fineness of the table of signals: five steps to one level of the darkest greys.
const steps = 1 << 14

var (
	lights  [256]float32
	signals [steps + 1]uint16 // of light in steps: bytes and, in the lower eight bits, parts of one
)

func init() {
	for i := range lights {
		lights[i] = float32(Linear(float64(i) / 255))
	}
	for i := range signals {
		signals[i] = uint16(math.Round(255 * 256 * Signal(float64(i)/steps)))
	}
}

// Light is the light of a byte of an sRGB picture, from 0 to 1.
func Light(b uint8) float32 { return lights[b] }

// Byte is the byte of an sRGB picture for light from 0 to 1; light outside of that is held to it.
func Byte(light float32) uint8 { return Dithered(light, 128) }

// Dithered is the byte just below or just above the light: the one above if a step of share/256 of a level takes the
// light past it. With shares spread evenly over neighbouring pixels, a slow gradient shows no bands. For shares from 32
// to 224, light that is just that of a byte gives that byte.
func Dithered(light float32, share uint8) uint8 {
	if !(light > 0) {
		return 0
	}
	if light >= 1 {
		return 255
	}
	return uint8((uint32(signals[int(light*steps+0.5)]) + uint32(share)) >> 8)
}
