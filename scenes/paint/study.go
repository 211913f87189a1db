package main

import (
	"math"
	"math/rand/v2"
)

// study is the composition before it is painted: for each pixel the colour wanted, and
// how the hand moves there. Brush strokes are then laid to match it.
type study struct {
	w, h    int
	a       float64 // width over height: x runs 0..a while y runs 0..1
	col     []rgb
	angle   []float32 // stroke direction, radians
	stretch []float32 // stroke length over width
	detail  []float32 // 0 broad brush only .. 1 smallest brush
	marks   []mark
	rnd     *rand.Rand

	ground rgb     // the primed colour that shows between strokes
	lively float64 // how far a stroke strays from the colour wanted
	brush  float64 // scale on all brush sizes
}

// hand says how strokes go in a part of the picture.
type hand struct {
	angle           func(x, y float64) float64
	stretch, detail float64
}

// mark is a last touch put straight on the canvas over the strokes: a twig, a stem, a light.
type mark struct {
	path   []pt
	w0, w1 float64
	col    rgb
}

type tint func(x, y float64) rgb

func newStudy(w Work) *study {
	pw, ph := w.pixels()
	s := &study{w: pw, h: ph, a: float64(pw) / float64(ph),
		col: make([]rgb, pw*ph), angle: make([]float32, pw*ph),
		stretch: make([]float32, pw*ph), detail: make([]float32, pw*ph),
		rnd:    rand.New(rand.NewPCG(w.seed(), 7)),
		ground: hex(0x9c7a58), lively: 0.05, brush: 1}
	for i := range s.stretch {
		s.stretch[i] = 3
	}
	return s
}

func steady(angle float64) func(x, y float64) float64 {
	return func(x, y float64) float64 { return angle }
}

// along is the direction of the nearest part of a path, so strokes run with it.
func along(p []pt) func(x, y float64) float64 {
	return func(x, y float64) float64 {
		best, angle := math.MaxFloat64, 0.0
		for i := range len(p) - 1 {
			if d, _ := toSegment(x, y, p[i], p[i+1]); d < best {
				best, angle = d, math.Atan2(p[i+1].y-p[i].y, p[i+1].x-p[i].x)
			}
		}
		return angle
	}
}

func plain(c uint32) tint {
	k := hex(c)
	return func(x, y float64) rgb { return k }
}

// lay puts a coloured shape on the study; soft is the width of its edge.
func (s *study) lay(sh shape, soft float64, t tint, h hand) {
	s.each(sh, soft, func(i int, x, y, cover float64) {
		s.col[i] = s.col[i].mix(t(x, y), cover)
		if cover > 0.5 && h.angle != nil {
			s.angle[i] = float32(h.angle(x, y))
			s.stretch[i] = float32(h.stretch)
			s.detail[i] = float32(h.detail)
		}
	})
}

// glaze multiplies what is there by a colour: shadows, dusk, a cool distance.
func (s *study) glaze(sh shape, soft float64, c rgb, strength float64) {
	s.each(sh, soft, func(i int, x, y, cover float64) {
		s.col[i] = s.col[i].mix(s.col[i].stain(c), cover*strength)
	})
}

// glow mixes in a light around a point, fading over radius.
func (s *study) glow(cx, cy, radius float64, c rgb, strength float64) {
	s.each(shape{cx - 2*radius, cy - 2*radius, cx + 2*radius, cy + 2*radius,
		func(x, y float64) float64 { return -1 }}, 0, func(i int, x, y, _ float64) {
		d := length(x-cx, y-cy) / radius
		s.col[i] = s.col[i].mix(c, strength*math.Exp(-2.5*d*d))
	})
}

// each visits the pixels a shape touches, with how far (0..1) it covers them.
func (s *study) each(sh shape, soft float64, visit func(i int, x, y, cover float64)) {
	px := 1 / float64(s.h)
	half := max(soft, px) / 2
	x0 := max(0, int((sh.x0-half)/px))
	x1 := min(s.w-1, int((sh.x1+half)/px)+1)
	y0 := max(0, int((sh.y0-half)/px))
	y1 := min(s.h-1, int((sh.y1+half)/px)+1)
	for py := y0; py <= y1; py++ {
		y := (float64(py) + 0.5) * px
		for p := x0; p <= x1; p++ {
			x := (float64(p) + 0.5) * px
			if c := 1 - smooth(-half, half, sh.d(x, y)); c > 0 {
				visit(py*s.w+p, x, y, c)
			}
		}
	}
}

// mirrorInWater fills the shape with the picture above y0 turned upside down. Ripple is
// the sideways wander of the reflection, tone stains it, fade mixes it towards murk.
func (s *study) mirrorInWater(sh shape, y0 float64, ripple float64, tone, murk rgb, fade float64) {
	seen := append([]rgb(nil), s.col...)
	s.each(sh, 0.004, func(i int, x, y, cover float64) {
		depth := y - y0
		wave := fbm(91, x*5, y*60/(1+4*depth), 2)
		sx := x + ripple*wave*(0.3+2*depth)
		sy := y0 - depth*0.95 + ripple*0.8*noise(92, x*9, y*80)
		px := min(s.w-1, max(0, int(sx*float64(s.h))))
		py := min(s.h-1, max(0, int(sy*float64(s.h))))
		c := seen[py*s.w+px].stain(tone).mix(murk, fade*(0.5+depth))
		s.col[i] = s.col[i].mix(c, cover)
		if cover > 0.5 {
			s.angle[i], s.stretch[i], s.detail[i] = float32(0.03*wave), 5, 0.45
		}
	})
}

// touch adds a last mark along a path, tapering from half-width w0 to w1.
func (s *study) touch(path []pt, w0, w1 float64, c rgb) {
	s.marks = append(s.marks, mark{path, w0, w1, c})
}

// wander is a bell-shaped random number kept within two standard deviations.
func (s *study) wander() float64 { return clamp(s.rnd.NormFloat64(), -2, 2) }

// between is a random number in lo..hi from the picture's own seed.
func (s *study) between(lo, hi float64) float64 { return lo + (hi-lo)*s.rnd.Float64() }
