package main

import "math"

// rgb is a colour in the sRGB curve, each channel 0..1: close enough to how paint mixes
// on the palette, and cheap.
type rgb struct{ r, g, b float64 }

// hex reads a colour written 0xRRGGBB.
func hex(v uint32) rgb {
	return rgb{float64(v>>16&255) / 255, float64(v>>8&255) / 255, float64(v&255) / 255}
}

func (c rgb) mix(d rgb, t float64) rgb {
	t = clamp(t, 0, 1)
	return rgb{c.r + (d.r-c.r)*t, c.g + (d.g-c.g)*t, c.b + (d.b-c.b)*t}
}

// times darkens (k < 1) or lightens (k > 1).
func (c rgb) times(k float64) rgb { return rgb{c.r * k, c.g * k, c.b * k} }

// stain multiplies channel by channel, as a glaze of colour d would.
func (c rgb) stain(d rgb) rgb { return rgb{c.r * d.r, c.g * d.g, c.b * d.b} }

// shift moves a colour in lightness and from cool (negative) to warm (positive).
func (c rgb) shift(light, warm float64) rgb {
	return rgb{c.r + light + warm, c.g + light + 0.25*warm, c.b + light - warm}
}

// off is how different two colours look: a weighted sum of channel differences.
func (c rgb) off(d rgb) float64 {
	return 0.35*math.Abs(c.r-d.r) + 0.45*math.Abs(c.g-d.g) + 0.2*math.Abs(c.b-d.b)
}

func (c rgb) luma() float64 { return 0.3*c.r + 0.59*c.g + 0.11*c.b }

// ramp runs through evenly spaced stops as t goes 0..1.
func ramp(t float64, stops ...uint32) rgb {
	f := clamp(t, 0, 1) * float64(len(stops)-1)
	i := min(int(f), len(stops)-2)
	return hex(stops[i]).mix(hex(stops[i+1]), f-float64(i))
}

func clamp(v, lo, hi float64) float64 { return max(lo, min(hi, v)) }

func smooth(a, b, v float64) float64 {
	t := clamp((v-a)/(b-a), 0, 1)
	return t * t * (3 - 2*t)
}

func lerp(a, b, t float64) float64 { return a + (b-a)*t }
