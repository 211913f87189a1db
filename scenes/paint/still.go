package main

import "math"

// wall is the quiet backdrop of a still life, lit from the left.
func (s *study) wall(seed int, stops ...uint32) {
	s.lay(everywhere(func(x, y float64) float64 { return -1 }), 0, func(x, y float64) rgb {
		return ramp(0.75-0.45*x/s.a-0.2*y+0.35*fbm(seed, x*3, y*3, 3), stops...)
	}, hand{func(x, y float64) float64 { return 0.9 + 0.9*noise(seed+1, x*2.5, y*2.5) }, 2, 0})
}

// fruit is a round thing with its axis tipped by turn, standing on (cx, foot).
func fruit(cx, cy, half, turn float64, r func(float64) float64) solid {
	dx, dy := math.Sin(turn)*half, -math.Cos(turn)*half
	return solid{pt{cx - dx, cy - dy}, pt{cx + dx, cy + dy}, r}
}

func quince(s *study) {
	s.ground, s.lively = hex(0x8f5f42), 0.05
	s.wall(201, 0x4a3f3c, 0x6d5d52, 0x8c7a68, 0xa8967c)
	edge := func(x float64) float64 { return 0.44 + 0.02*math.Sin(x*3) }
	fold := func(x, y float64) float64 {
		return math.Sin(9*(x+0.55*y)+2.6*fbm(202, x*2.2, y*2.2, 2)) * 0.5 * (0.5 + 0.5*smooth(0.5, 0.95, y))
	}
	s.lay(below(edge), 0.004, func(x, y float64) rgb {
		return ramp(0.58+0.75*fold(x, y)-0.2*x/s.a+0.14*fbm(203, x*9, y*9, 3), 0x1c2f55, 0x2c4a7d, 0x4a6ea2, 0x86a3c4, 0xb9c9d8)
	}, hand{func(x, y float64) float64 { return 2.1 + 0.5*noise(204, x*3, y*3) }, 2.6, 0.4})
	shade := hex(0x3a3a5c)
	q := func(cx, cy, r, turn float64) solid {
		return fruit(cx, cy, r*1.1, turn, profile(true, r, 0.66, 0.98, 1.06, 1.0, 0.86, 0.66, 0.48))
	}
	set := []struct{ x, y, r, turn float64 }{
		{0.50, 0.44, 0.125, -0.25}, {0.79, 0.45, 0.135, 0.35}, {0.30, 0.585, 0.135, 0.5}, {0.615, 0.62, 0.155, -0.12}, {0.97, 0.655, 0.13, 0.55},
	}
	for i, f := range set {
		s.castShadow(f.x, f.y+f.r*0.92, f.r*1.25, f.r*0.32, shade)
		o := q(f.x, f.y, f.r, f.turn)
		if i < 2 {
			s.model(o, 0.16, 0x4a4420, 0x7d7028, 0xb39d36, 0xd8bf52, 0xf0dc86)
		} else {
			s.model(o, 0.16, 0x56441c, 0x8f7322, 0xcfa42e, 0xecc648, 0xf8e07e, 0xfdf0b4)
		}
		tip := pt{o.b.x, o.b.y}
		s.lay(oval(tip.x-0.1*(tip.x-f.x), tip.y-0.1*(tip.y-f.y), 0.022, 0.014, f.turn), 0.012, plain(0x4f4420), hand{steady(f.turn), 1, 0.9})
		s.touch(curve(tip.x, tip.y+0.006, tip.x+0.012, tip.y-0.03), 0.006, 0.004, hex(0x3c2d1c))
		s.gleam(f.x-f.r*0.40, f.y-f.r*0.25, f.r*0.2, f.r*0.12, -0.7, hex(0xfff6d2))
	}
	s.leaf(0.62, 0.455, 0.80, 0.335, 0.034, 0.15, 0x93a05a, 0x3f5230)
	s.leaf(0.62, 0.455, 0.50, 0.33, 0.028, -0.2, 0x7f8f50, 0x33452c)
	s.leaf(0.30, 0.86, 0.12, 0.80, 0.03, 0.15, 0x9aa45e, 0x44522f)
	s.glaze(oval(0.24, 0.862, 0.1, 0.016, 0.2), 0.02, shade, 0.6)
	s.leaf(0.30, 0.85, 0.12, 0.79, 0.03, 0.15, 0xa7ad66, 0x4a5a33)
}

func jug(s *study) {
	s.ground, s.lively = hex(0x9a7f5c), 0.045
	s.wall(211, 0x4f5a50, 0x6d7767, 0x8d947f, 0xadb09a)
	s.lay(below(func(x float64) float64 { return 0.775 + 0.015*x }), 0.006, func(x, y float64) rgb {
		return ramp(0.7-0.35*x/s.a+0.3*fbm(212, x*4, y*14, 3), 0x7d5c3a, 0xa67f50, 0xc9a471, 0xe2c595)
	}, hand{steady(0.05), 3.5, 0.2})
	s.castShadow(0.40, 0.905, 0.21, 0.045, hex(0x5f4a48))
	body := solid{pt{0.38, 0.915}, pt{0.38, 0.50}, profile(false, 1, 0.088, 0.128, 0.146, 0.142, 0.116, 0.083, 0.068, 0.082)}
	handle := curve(0.445, 0.555, 0.525, 0.53, 0.575, 0.585, 0.56, 0.68, 0.505, 0.745)
	s.lay(ribbon(handle, taper(0.0145, 0.017)), 0.003, func(x, y float64) rgb {
		return ramp(1.9-2.6*(x-0.1)+0.3*noise(213, x*30, y*30), 0x6c7480, 0x9ea3a3, 0xd9d2bf, 0xf3ead2)
	}, hand{along(handle), 2.5, 0.8})
	s.model(body, 0.05, 0x5d6470, 0x8b9197, 0xb9b8ad, 0xe0d8c3, 0xf5ecd5, 0xfdf8e8)
	s.lay(outline(loop(0.298, 0.497, 0.262, 0.478, 0.30, 0.492, 0.38, 0.487, 0.462, 0.497, 0.455, 0.512, 0.38, 0.522, 0.305, 0.514)), 0.003, plain(0xefe6cf), hand{level, 2, 0.9})
	s.lay(oval(0.382, 0.503, 0.07, 0.011, 0), 0.004, plain(0x4a4a44), hand{level, 2, 0.9})
	// Two blue slip bands.
	for _, y := range []float64{0.70, 0.722} {
		hw := body.r((0.915 - y) / 0.415)
		s.touch(curve(0.38-hw*0.98, y-0.004, 0.38-hw*0.5, y+0.008, 0.38, y+0.012, 0.38+hw*0.5, y+0.008, 0.38+hw*0.98, y-0.004), 0.0045, 0.0035, hex(0x3d5580))
	}
	s.gleam(0.325, 0.63, 0.012, 0.04, 0.05, hex(0xffffff))
	umbels := []struct{ x, y, r float64 }{
		{0.13, 0.22, 0.085}, {0.26, 0.11, 0.10}, {0.42, 0.20, 0.115}, {0.57, 0.13, 0.09}, {0.66, 0.29, 0.085},
		{0.22, 0.34, 0.08}, {0.53, 0.36, 0.085}, {0.09, 0.40, 0.055}, {0.71, 0.43, 0.05}, {0.37, 0.37, 0.06},
	}
	for i := range 5 {
		s.crown(0.27+0.055*float64(i), s.between(0.43, 0.48), 0.06, 0.035, -1, 220+i, 0x2c3a26, 0x47573a, 0x6f7d4c, 0x98a066)
	}
	for range 34 { // fern-like leaves at the neck
		a, l := s.between(-2.9, -0.24), s.between(0.07, 0.16)
		x, y := 0.38+s.between(-0.05, 0.06), 0.495
		ex, ey := x+l*1.1*math.Cos(a), y+l*math.Sin(a)
		s.leaf(x, y, ex, ey+0.02*math.Abs(math.Cos(a)), s.between(0.006, 0.012), s.between(-0.15, 0.15), 0x8a975a, 0x37472f)
	}
	for _, u := range umbels {
		green := hex(0x5b6b3a).shift(s.between(-0.05, 0.1), 0)
		s.touch(curve(0.38+0.05*(u.x-0.38), 0.505, 0.38+0.45*(u.x-0.38), lerp(0.5, u.y, 0.45), u.x, u.y+u.r*0.45), 0.0035, 0.002, green)
		for j := range 11 {
			a := math.Pi * (1.05 + 0.9*float64(j)/10)
			ex, ey := u.x+u.r*math.Cos(a)*0.95, u.y+u.r*(0.42+0.62*math.Sin(a))
			s.touch(curve(u.x, u.y+u.r*0.45, lerp(u.x, ex, 0.5), lerp(u.y+u.r*0.45, ey, 0.65), ex, ey), 0.0012, 0.0008, green.shift(0.06, 0))
		}
		for range 70 {
			a, k := s.between(0, 2*math.Pi), math.Sqrt(s.between(0, 1))
			x, y := u.x+u.r*k*math.Cos(a), u.y+0.36*u.r*k*math.Sin(a)-0.18*u.r*(1-k*k)
			l := 0.5 - 0.5*(math.Cos(a)*0.5+math.Sin(a))*k
			c := hex(0xa9ad98).mix(hex(0xfffbef), clamp(l+0.35, 0, 1))
			w := s.between(0.0025, 0.0058)
			s.touch(curve(x, y, x+s.between(-0.007, 0.007), y+s.between(-0.003, 0.003)), w, w*0.8, c)
		}
		s.glaze(oval(u.x, u.y, u.r, u.r*0.4, 0), u.r*0.5, hex(0xd8dcc8), 0.4)
	}
	for range 26 { // fallen florets on the table
		x, y := s.between(0.12, 0.68), s.between(0.90, 0.97)
		s.touch(curve(x, y, x+0.004, y), 0.0028, 0.002, hex(0xf4efdd))
	}
}

func pears(s *study) {
	s.ground, s.lively = hex(0x7a4a38), 0.05
	s.wall(231, 0x1f3a3f, 0x2d5054, 0x44696a, 0x648380)
	s.lay(below(func(x float64) float64 { return 0.62 - 0.02*x }), 0.006, func(x, y float64) rgb {
		return ramp(0.75-0.45*x+0.25*fbm(232, x*4, y*10, 3), 0x8e7f74, 0xb9a893, 0xdccdb2, 0xf1e6cd)
	}, hand{steady(-0.05), 3, 0.2})
	s.lay(band(func(x float64) float64 { return 0.925 - 0.01*x }, func(float64) float64 { return 2 }), 0.005, plain(0x7b6a5f), hand{steady(0), 4, 0.3})
	p := func(cx, cy, r, turn float64) solid {
		return fruit(cx, cy, r*1.45, turn, profile(true, r, 0.6, 0.98, 1.06, 0.98, 0.74, 0.52, 0.43, 0.36, 0.26))
	}
	set := []struct {
		x, y, r, turn float64
		stops         []uint32
	}{
		{0.60, 0.515, 0.148, 0.10, []uint32{0x4d3a20, 0x7d6426, 0xb0933a, 0xd3bb57, 0xeedc8c}},
		{0.30, 0.60, 0.155, -0.12, []uint32{0x3f4a26, 0x68752f, 0x9fa544, 0xcdc868, 0xeee8a2}},
		{0.74, 0.735, 0.14, 1.25, []uint32{0x5b2a20, 0x93452a, 0xc4793a, 0xe0aa55, 0xf5da93}},
	}
	for _, f := range set {
		foot := f.y + f.r*1.4*math.Cos(f.turn)
		if f.turn > 1 {
			foot = f.y + f.r*0.95
		}
		s.castShadow(f.x, foot-0.01, f.r*1.2, f.r*0.24, hex(0x54506a))
		o := p(f.x, f.y, f.r, f.turn)
		s.model(o, 0.14, f.stops...)
		// A blush on the sunny cheek.
		s.each(o.shape(), 0.004, func(i int, x, y, cover float64) {
			k := smooth(0.2, 0.8, 0.5+0.9*fbm(int(f.r*9999), x*6, y*6, 2)) * smooth(f.r*1.3, 0, length(x-f.x-f.r*0.35, y-f.y-f.r*0.45))
			s.col[i] = s.col[i].mix(s.col[i].stain(rgb{1.02, 0.62, 0.5}), 0.7*k*cover)
		})
		dx, dy := math.Sin(f.turn), -math.Cos(f.turn)
		s.touch(curve(o.b.x-dx*0.012, o.b.y-dy*0.012, o.b.x+dx*0.03+0.006, o.b.y+dy*0.03, o.b.x+dx*0.06+0.024, o.b.y+dy*0.06), 0.007, 0.0055, hex(0x33241a))
		s.gleam(f.x-f.r*0.42-dx*f.r*0.4, f.y-f.r*0.15-dy*f.r*0.4, f.r*0.16, f.r*0.09, -0.8, hex(0xfffbe0))
	}
}

func lemons(s *study) {
	s.ground, s.lively = hex(0x7c4a2e), 0.05
	s.wall(241, 0x3c2a2c, 0x5a3b33, 0x7a5340, 0x94684a)
	// Night in the window.
	s.lay(outline(points([]float64{0.05, 0.06, 0.33, 0.06, 0.33, 0.5, 0.05, 0.5})), 0.004, func(x, y float64) rgb {
		return ramp(0.2+y*1.4+0.3*fbm(242, x*6, y*6, 3), 0x16233f, 0x223559, 0x3a5378, 0x5a7391)
	}, hand{steady(1.2), 2, 0.2})
	frame := hex(0xa8906f)
	for _, f := range [][]pt{curve(0.04, 0.05, 0.345, 0.05), curve(0.045, 0.05, 0.045, 0.505), curve(0.338, 0.05, 0.338, 0.505), curve(0.19, 0.05, 0.19, 0.505), curve(0.045, 0.27, 0.338, 0.27)} {
		s.lay(ribbon(f, taper(0.009, 0.009)), 0.003, func(x, y float64) rgb { return frame.shift(0.06*noise(243, x*20, y*20), 0) }, hand{along(f), 3, 0.7})
	}
	s.lay(ribbon(curve(0.02, 0.512, 0.37, 0.512), taper(0.014, 0.014)), 0.003, plain(0xb79a72), hand{level, 3, 0.6})
	s.glow(0.50, 0.27, 0.30, hex(0xffc873), 0.55)
	s.lay(below(func(x float64) float64 { return 0.665 }), 0.006, func(x, y float64) rgb {
		d := length((x-0.46)/0.42, (y-0.78)/0.22)
		return ramp(1.05-0.6*d+0.22*fbm(244, x*4, y*16, 3), 0x3a241f, 0x6b3f2a, 0xa4693a, 0xd7a055, 0xf2cd86)
	}, hand{level, 3.5, 0.2})
	// The lamp: turned base, brass neck, shade.
	s.glaze(oval(0.53, 0.745, 0.13, 0.03, 0), 0.05, hex(0x6a4030), 0.8)
	base := solid{pt{0.52, 0.745}, pt{0.52, 0.42}, profile(false, 1, 0.062, 0.083, 0.092, 0.082, 0.057, 0.034, 0.022, 0.018, 0.018)}
	s.lay(base.shape(), 0.004, func(x, y float64) rgb {
		l := base.lit(x, y, -0.35, -0.75, 0.5)
		return ramp(l+0.12*fbm(245, x*20, y*20, 2), 0x17313a, 0x24505a, 0x3d7a7c, 0x7fb0a0, 0xd8dcae)
	}, hand{base.form, 2.2, 0.7})
	s.gleam(0.488, 0.63, 0.008, 0.025, 0.05, hex(0xf4efc8))
	shade := outline(points([]float64{0.425, 0.16, 0.615, 0.16, 0.705, 0.41, 0.335, 0.41}))
	s.lay(shade, 0.006, func(x, y float64) rgb {
		k := (x - 0.52) / (0.10 + 0.36*(y-0.16))
		core := length((x-0.51)/0.15, (y-0.33)/0.13)
		return ramp(1.08-0.42*core-0.12*k*k+0.08*noise(246, k*12, y*3), 0xa8642c, 0xd9943c, 0xf2c05c, 0xfde49a, 0xfffbe0)
	}, hand{func(x, y float64) float64 { return 1.57 - 1.2*(x-0.52) }, 2.5, 0.6})
	s.touch(curve(0.425, 0.158, 0.52, 0.154, 0.615, 0.158), 0.004, 0.004, hex(0x8a5528))
	s.touch(curve(0.335, 0.412, 0.52, 0.424, 0.705, 0.412), 0.005, 0.005, hex(0xb7702f))
	// Bowl of lemons.
	s.castShadow(0.24, 0.90, 0.19, 0.03, hex(0x50302c))
	lm := func(cx, cy, r, turn float64) {
		o := fruit(cx, cy, r*1.35, turn, profile(true, r, 0.2, 0.62, 0.93, 1.0, 0.93, 0.62, 0.24))
		s.lay(o.shape(), 0.003, func(x, y float64) rgb {
			l := o.lit(x, y, 0.55, -0.75, 0.42)
			return ramp(l+0.1*fbm(247, x*30, y*30, 2), 0x6b4a14, 0xa87a1c, 0xdcae2a, 0xf5d34a, 0xfdeb92)
		}, hand{o.form, 1.8, 0.75})
		s.gleam(cx+r*0.3, cy-r*0.45, r*0.16, r*0.1, 0.6, hex(0xfffbd8))
	}
	lm(0.15, 0.755, 0.052, 1.2)
	lm(0.32, 0.76, 0.05, -1.1)
	lm(0.235, 0.725, 0.056, 1.8)
	bowl := solid{pt{0.235, 0.905}, pt{0.235, 0.765}, profile(false, 1, 0.066, 0.11, 0.142, 0.162, 0.172)}
	s.lay(bowl.shape(), 0.003, func(x, y float64) rgb {
		l := bowl.lit(x, y, 0.55, -0.6, 0.5)
		return ramp(l+0.08*fbm(248, x*20, y*20, 2), 0x3d3340, 0x6d6068, 0xa89a90, 0xdccdb0, 0xf8ecca)
	}, hand{func(x, y float64) float64 { return 0.9 * (0.235 - x) / 0.17 }, 2.4, 0.7})
	s.touch(curve(0.065, 0.766, 0.15, 0.778, 0.235, 0.782, 0.32, 0.778, 0.405, 0.766), 0.0045, 0.004, hex(0xfdf2d2))
	s.touch(curve(0.085, 0.80, 0.16, 0.816, 0.235, 0.82, 0.31, 0.816, 0.385, 0.80), 0.0035, 0.003, hex(0x3f5f7c))
	s.castShadow(0.60, 0.885, 0.09, 0.02, hex(0x50302c))
	o := 0.06
	lm(0.55, 0.855, o, 1.35)
	// A lemon cut across.
	s.castShadow(0.40, 0.965, 0.07, 0.016, hex(0x50302c))
	s.lay(oval(0.40, 0.93, 0.058, 0.050, 0), 0.003, plain(0xe2b437), hand{steady(0.3), 1.5, 0.9})
	s.lay(oval(0.404, 0.928, 0.051, 0.044, 0), 0.003, plain(0xfdf3cf), hand{steady(0.3), 1.5, 1})
	s.lay(oval(0.404, 0.928, 0.044, 0.038, 0), 0.003, func(x, y float64) rgb {
		a := math.Atan2((y-0.928)*1.15, x-0.404)
		return hex(0xf3d65a).mix(hex(0xfdf3cf), smooth(0.86, 1, math.Abs(math.Cos(a*4.5))))
	}, hand{steady(0.3), 1.2, 1})
}
