package main

import "math"

// solid is a thing turned about an axis from a to b, with half-width r(t) as t goes 0..1:
// a pear, a lemon, a jug.
type solid struct {
	a, b pt
	r    func(t float64) float64
}

// profile is a half-width through evenly spaced values, smoothly joined; round ends close
// like a fruit, otherwise they are cut flat like a jar.
func profile(round bool, scale float64, v ...float64) func(float64) float64 {
	return func(t float64) float64 {
		t = clamp(t, 0, 1)
		f := t * float64(len(v)-1)
		i := min(int(f), len(v)-2)
		at := func(i int) float64 { return v[max(0, min(len(v)-1, i))] }
		a, b, c, d := at(i-1), at(i), at(i+1), at(i+2)
		u := f - float64(i)
		r := b + 0.5*u*(c-a+u*(2*a-5*b+4*c-d+u*(3*(b-c)+d-a)))
		if round {
			r *= math.Sqrt(1 - math.Pow(math.Abs(2*t-1), 5))
		}
		return scale * r
	}
}

// along gives axis position t, signed distance across, and the length of the axis.
func (o solid) along(x, y float64) (t, across, l float64) {
	dx, dy := o.b.x-o.a.x, o.b.y-o.a.y
	l = length(dx, dy)
	t = ((x-o.a.x)*dx + (y-o.a.y)*dy) / (l * l)
	across = ((y-o.a.y)*dx - (x-o.a.x)*dy) / l
	return t, across, l
}

func (o solid) shape() shape {
	widest := 0.0
	for i := range 41 {
		widest = max(widest, o.r(float64(i)/40))
	}
	s := bounds([]pt{o.a, o.b}, widest)
	s.d = func(x, y float64) float64 {
		t, across, l := o.along(x, y)
		slope := (o.r(t+0.01) - o.r(t-0.01)) / (0.02 * l)
		side := (math.Abs(across) - o.r(t)) / math.Sqrt(1+slope*slope)
		return max(side, max(-t, t-1)*l)
	}
	return s
}

// lit is how light the solid is at a point (0 dark .. 1 full light) from a lamp in
// direction (lx, ly, lz), x right, y down, z to the eye; a little light comes back up
// into the shadow edge from the table.
func (o solid) lit(x, y, lx, ly, lz float64) float64 {
	t, across, l := o.along(x, y)
	slope := (o.r(t+0.02) - o.r(t-0.02)) / (0.04 * l)
	k := clamp(across/max(o.r(t), 1e-6), -1, 1)
	dx, dy := (o.b.x-o.a.x)/l, (o.b.y-o.a.y)/l
	n := 1 / math.Sqrt(1+slope*slope)
	nx, ny, nz := (-dy*k-dx*slope)*n, (dx*k-dy*slope)*n, math.Sqrt(1-k*k)*n
	m := 1 / math.Sqrt(lx*lx+ly*ly+lz*lz)
	lam := (nx*lx + ny*ly + nz*lz) * m
	back := 0.22 * smooth(-0.25, -1, lam) * smooth(-0.2, 0.9, ny)
	return clamp(smooth(-0.35, 0.97, lam)+back, 0, 1)
}

// form is the direction of strokes that follow the solid from end to end.
func (o solid) form(x, y float64) float64 {
	t, across, l := o.along(x, y)
	k := clamp(across/max(o.r(t), 1e-6), -1, 1)
	slope := (o.r(t+0.02) - o.r(t-0.02)) / (0.04 * l)
	return math.Atan2(o.b.y-o.a.y, o.b.x-o.a.x) + math.Atan(k*slope)
}

// model paints a solid lit from the upper left in a ramp from shadow to highlight; mottle
// breaks the colour up.
func (s *study) model(o solid, mottle float64, stops ...uint32) {
	seed := int(o.a.x*1000) + len(s.marks)
	s.lay(o.shape(), 0.004, func(x, y float64) rgb {
		l := o.lit(x, y, -0.62, -0.55, 0.55)
		m := fbm(seed, x*22, y*22, 3)
		c := ramp(l+mottle*0.5*m, stops...)
		return c.shift(0.3*mottle*m, 0.5*mottle*noise(seed+1, x*12, y*12))
	}, hand{o.form, 2.2, 0.7})
}

// castShadow darkens the table: an oval from the thing's foot away from the light.
func (s *study) castShadow(cx, cy, length, height float64, c rgb) {
	s.glaze(oval(cx+length*0.75, cy+height*0.15, length, height, 0.03), height*1.3, c, 0.85)
	s.glaze(oval(cx+length*0.12, cy, length*0.5, height*0.6, 0), height*0.6, c, 0.8)
}

// gleam is a soft highlight, as thick paint touched on last.
func (s *study) gleam(x, y, rx, ry, turn float64, c rgb) {
	s.lay(oval(x, y, rx, ry, turn), min(rx, ry)*0.9, func(x, y float64) rgb { return c },
		hand{steady(turn), 1.5, 1})
}

// leaf is a two-toned blade from a to b, bulging sideways by bow.
func (s *study) leaf(ax, ay, bx, by, wide, bow float64, light, dark uint32) {
	nx, ny := -(by - ay), bx-ax
	mx, my := (ax+bx)/2+nx*bow, (ay+by)/2+ny*bow
	spine := curve(ax, ay, mx, my, bx, by)
	dir := math.Atan2(by-ay, bx-ax)
	s.lay(ribbon(spine, lens(wide)), 0.003, func(x, y float64) rgb {
		across := ((x-ax)*nx + (y-ay)*ny) / length(nx, ny)
		return hex(dark).mix(hex(light), smooth(-wide, wide, -across+wide*0.8*noise(7, x*30, y*30)))
	}, hand{steady(dir), 2.5, 0.8})
	s.touch(spine[:len(spine)-2], 0.0011, 0.0005, hex(light).mix(hex(dark), 0.3))
}
