package main

import "math"

// brushes are the half-widths in pixels, big to small, of the passes over a picture.
// Each pass goes only where the picture is still off by more than need, and where the
// study asks for that much detail.
var brushes = []struct{ half, detail, need float64 }{
	{36, 0, -1},
	{19, 0, 0.03},
	{10, 0, 0.035},
	{5.2, 0.25, 0.035},
	{2.8, 0.55, 0.035},
	{1.7, 0.85, 0.03},
}

// oil makes a painter of a composition: a toned ground, passes of strokes, last touches.
func oil(compose func(*study)) func(Work) *canvas {
	return func(w Work) *canvas {
		s := newStudy(w)
		compose(s)
		s.spreadDetail(7)
		c := newCanvas(s.w, s.h, s.ground)
		for _, b := range brushes {
			s.pass(c, b.half*s.brush, b.detail, b.need)
		}
		c.varnish()
		for i, m := range s.marks {
			k := float64(s.h)
			c.draw(place(m.path, 0, 0, k, 0), m.w0*k, m.w1*k, m.col, i)
		}
		return c
	}
}

// pass covers the canvas with strokes of one brush, in random order.
func (s *study) pass(c *canvas, half, detail, need float64) {
	want := s.blurred(int(half * 0.45))
	step := half * 0.95
	nx, ny := int(float64(s.w)/step)+2, int(float64(s.h)/step)+2
	for _, k := range s.rnd.Perm(nx * ny) {
		x := (float64(k%nx) + s.between(-0.5, 0.5)) * step
		y := (float64(k/nx) + s.between(-0.5, 0.5)) * step
		i := s.index(x, y)
		jl, jw, jl2, ja := s.wander(), s.wander(), s.wander(), s.wander()
		size, dry, lot := s.between(0.75, 1.2), s.between(0.2, 0.75), s.between(0, 400)
		asked := float64(s.detail[i])
		if asked >= 0.6 { // a thing worth drawing has its edges found with a finer brush
			asked += 0.4 * s.edge(want, x, y, half)
		}
		if asked < detail || need > 0 && s.miss(c, want, x, y, half) < need {
			continue
		}
		aim := want[i]
		angle := s.heading(want, x, y, half) + 0.12*ja
		far := half * float64(s.stretch[i]) * size
		fore := s.run(want, x, y, angle, far, aim)
		back := s.run(want, x, y, angle+math.Pi, far, aim)
		long := max((fore+back)/2, half*0.9)
		cx, cy := x+math.Cos(angle)*(fore-back)/2, y+math.Sin(angle)*(fore-back)/2
		a1, a2 := s.angle[s.index(cx-math.Cos(angle)*long, cy-math.Sin(angle)*long)], s.angle[s.index(cx+math.Cos(angle)*long, cy+math.Sin(angle)*long)]
		bend := clamp(0.25*long*math.Sin(float64(a2-a1)), -half, half)
		stray := s.lively * (0.5 + 0.5*min(1, half/10))
		base := aim.shift(stray*jl, 0.6*stray*jw)
		c.stroke(dab{x: cx, y: cy, angle: angle, long: long, wide: half * size, bend: bend,
			a: base, b: base.shift(0.9*stray*jl2, 0.5*stray*jl), body: 0.93, dry: dry, lot: lot})
	}
}

// spreadDetail carries the wish for fine work r pixels past the things drawn, so that the
// ground beside them is cut back to a clean edge.
func (s *study) spreadDetail(r int) {
	widen := func(p []float32, n, stride int) {
		src := make([]float32, n)
		for i := range n {
			src[i] = p[i*stride]
		}
		for i := range n {
			for _, v := range src[max(0, i-r):min(n, i+r+1)] {
				if v >= 0.6 && v > p[i*stride] {
					p[i*stride] = v
				}
			}
		}
	}
	for y := range s.h {
		widen(s.detail[y*s.w:], s.w, 1)
	}
	for x := range s.w {
		widen(s.detail[x:], s.h, s.w)
	}
}

// edge is how sharp an edge of the study is, 0..1.
func (s *study) edge(want []rgb, x, y, half float64) float64 {
	gx, gy := s.slope(want, x, y, half)
	return smooth(0.06, 0.2, length(gx, gy))
}

// slope is the change of lightness across a stroke, to the right and downwards.
func (s *study) slope(want []rgb, x, y, half float64) (gx, gy float64) {
	r := max(1, half*0.6)
	gx = want[s.index(x+r, y)].luma() - want[s.index(x-r, y)].luma()
	gy = want[s.index(x, y+r)].luma() - want[s.index(x, y-r)].luma()
	return gx, gy
}

// heading is the hand's direction, giving way to the edge's own direction at strong edges.
func (s *study) heading(want []rgb, x, y, half float64) float64 {
	gx, gy := s.slope(want, x, y, half)
	own := float64(s.angle[s.index(x, y)])
	k := smooth(0.06, 0.2, length(gx, gy))
	if k == 0 {
		return own
	}
	edge := math.Atan2(gx, -gy)
	turn := math.Remainder(edge-own, math.Pi) // a stroke has no front: half a turn is the same
	return own + k*turn
}

// run is how far a stroke can go before the colour wanted has changed.
func (s *study) run(want []rgb, x, y, angle, far float64, aim rgb) float64 {
	ct, st := math.Cos(angle), math.Sin(angle)
	d := 0.0
	for step := max(1, far/8); d < far; d += step {
		px, py := x+ct*(d+step), y+st*(d+step)
		if want[s.index(px, py)].off(aim) > 0.07 {
			break
		}
	}
	return min(d, far)
}

// miss is how far the canvas is from the study around a point.
func (s *study) miss(c *canvas, want []rgb, x, y, half float64) float64 {
	sum := 0.0
	for _, o := range [5]pt{{0, 0}, {0.6, 0}, {-0.6, 0}, {0, 0.6}, {0, -0.6}} {
		i := s.index(x+o.x*half, y+o.y*half)
		sum += c.col[i].off(want[i])
	}
	return sum / 5
}

func (s *study) index(x, y float64) int {
	return max(0, min(s.h-1, int(y)))*s.w + max(0, min(s.w-1, int(x)))
}

// blurred is the study seen through half-closed eyes: a box blur over r pixels, twice.
func (s *study) blurred(r int) []rgb {
	if r < 1 {
		return s.col
	}
	out := append([]rgb(nil), s.col...)
	for range 2 {
		for y := range s.h {
			boxBlur(out[y*s.w:], s.w, 1, r)
		}
		for x := range s.w {
			boxBlur(out[x:], s.h, s.w, r)
		}
	}
	return out
}

// boxBlur averages n values spaced stride apart over a window of 2r+1, clamped at the ends.
func boxBlur(p []rgb, n, stride, r int) {
	src := make([]rgb, n)
	for i := range n {
		src[i] = p[i*stride]
	}
	at := func(i int) rgb { return src[max(0, min(n-1, i))] }
	var sum rgb
	add := func(c rgb, k float64) { sum = rgb{sum.r + k*c.r, sum.g + k*c.g, sum.b + k*c.b} }
	for i := -r; i <= r; i++ {
		add(at(i), 1)
	}
	for i := range n {
		p[i*stride] = sum.times(1 / float64(2*r+1))
		add(at(i+r+1), 1)
		add(at(i-r), -1)
	}
}
