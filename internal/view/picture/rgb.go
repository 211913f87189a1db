package picture

import (
	"github.com/fogleman/fauxgl"

	"boothmock/internal/basis/colour"
	"boothmock/internal/plan/booth"
)

// rgb is linear light. It is no array, as Go keeps arrays in memory and not in registers.
type rgb struct{ r, g, b float32 }

func linear(c booth.Colour) rgb {
	return rgb{colour.Light(c[0]), colour.Light(c[1]), colour.Light(c[2])}
}

func (a rgb) times(b rgb) rgb { return rgb{a.r * b.r, a.g * b.g, a.b * b.b} }

func lit(c [3]float32) rgb { return rgb{c[0], c[1], c[2]} }

// toward is the mix with t of b.
func (a rgb) toward(b rgb, t float64) rgb {
	f := float32(t)
	return rgb{a.r + f*(b.r-a.r), a.g + f*(b.g-a.g), a.b + f*(b.b-a.b)}
}

// plus adds a share of b.
func (a rgb) plus(b rgb, share float32) rgb {
	return rgb{a.r + share*b.r, a.g + share*b.g, a.b + share*b.b}
}

func (a rgb) numbers() [3]float32 { return [3]float32{a.r, a.g, a.b} }

// vertex is the colour as fauxgl has it.
func (a rgb) vertex() fauxgl.Color {
	return fauxgl.Color{R: float64(a.r), G: float64(a.g), B: float64(a.b), A: 1}
}
