package main

import "math"

func field(s *study) {
	s.ground, s.lively = hex(0xa07048), 0.05
	h := 0.40
	s.sky(h, 0.16, 301, 0x4f6077, 0x75869a, 0xa9b4ba, 0xe3d9bd)
	s.cloud(1.15, 0.14, 0.55, 0.16, 302, 0x9aa4ae, 0x44536a)
	s.cloud(0.3, 0.12, 0.35, 0.09, 303, 0xf3ead8, 0x7f8fa2)
	s.cloud(0.62, 0.27, 0.3, 0.05, 304, 0xf6e7c8, 0x96a1ac)
	s.glow(0.3, 0.38, 0.3, hex(0xfff0c8), 0.65)
	for i := range 14 { // a far shaft of rain
		x := 1.05 + 0.03*float64(i)
		s.glaze(ribbon(points([]float64{x, 0.2, x - 0.09, h}), taper(0.02, 0.03)), 0.05, hex(0x8795a6), 0.35)
	}
	s.ridge(0.372, 0.018, 2.5, 305, 0.006, dapple(306, 0.08, 2, 0x63768a, 0x7d8c96, 0x9aa39c), hand{level, 2, 0.2})
	s.ridge(0.392, 0.012, 4, 307, 0.005, dapple(308, 0.04, 2, 0x3c4c45, 0x56664c, 0x81855a), hand{level, 1.6, 0.3})
	vx, vy := 0.62, 0.375
	s.lay(below(func(x float64) float64 { return h + 0.012*math.Sin(x*2) }), 0.004, func(x, y float64) rgb {
		d := y - vy
		row := (x-vx)/d*3.1 + 0.35*fbm(309, x*3, y*3, 2)
		k := 0.5 + 0.5*math.Sin(row*2*math.Pi/0.62)
		fade := smooth(0.02, 0.14, d)
		earth := ramp(k*fade+0.45*(1-fade)+0.28*fbm(310, x*12, y*30, 3), 0x33241f, 0x573a2c, 0x835a3d, 0xb28a5e)
		green := ramp(0.5+0.6*fbm(311, x*14, y*36, 3), 0x4a5a2c, 0x76833a, 0xaaa95a)
		earth = earth.mix(green, 0.55*smooth(0.55, 0.95, k)*smooth(-0.4, 0.3, fbm(312, x*3, y*5, 2)))
		// Water lies in the furrows near us.
		pool := smooth(0.42, 0.12, k) * smooth(-0.06, 0.12, fbm(313, x*4.2, y*5, 3)+0.1*d) * smooth(0.05, 0.2, d)
		wet := ramp(1.05-d*1.2-0.5*(x-0.4)*(x-0.4)+0.2*noise(314, x*9, y*40), 0x7289a2, 0xa9b8c2, 0xf6ead0)
		return earth.mix(wet, 0.92*pool).mix(hex(0x8f8a78), 0.5*(1-fade))
	}, hand{func(x, y float64) float64 { return math.Atan2(y-vy, x-vx) }, 3.6, 0.5})
	for i, x := range []float64{0.08, 0.17, 0.24, 0.98, 1.10, 1.34, 1.42} {
		r := []float64{0.055, 0.04, 0.03, 0.03, 0.036, 0.05, 0.06}[i]
		s.crown(x, h-r*0.75, r, r, -1, 320+i, 0x263129, 0x3b4a35, 0x65703f, 0x9d985a)
	}
	s.bareTree(1.22, 0.41, -1.57, 0.075, 0.0055, 5, hex(0x2d2a2c))
	s.lay(outline(loop(-0.1, 0.40, 0.2, 0.405, 0.5, 0.402, 0.3, 0.418, -0.1, 0.43)), 0.006, dapple(328, 0.04, 3, 0x55612f, 0x848a42, 0xb9b463), hand{level, 2.5, 0.3})
	for range 15 { // rooks
		x, y := s.between(0.75, 1.2), s.between(0.18, 0.36)
		w := s.between(0.005, 0.011)
		s.touch(curve(x-w, y-w*0.4, x, y, x+w, y-w*0.5), 0.0018, 0.0014, hex(0x1f2024))
	}
	s.reeds(-0.02, 1.5, 1.0, 1.05, 0.07, 0.1, 70, 0x6b6a34, 0x9c954e, 0x3f4526)
}

func orchard(s *study) {
	s.ground, s.lively = hex(0xb8693c), 0.06
	h := 0.43
	s.sky(h, 0.14, 331, 0x8f8fa8, 0xc2a7a6, 0xeec29a, 0xfbd58d)
	s.glow(0.16, 0.36, 0.3, hex(0xfff0b0), 0.8)
	s.ridge(0.385, 0.02, 3, 332, 0.008, dapple(333, 0.08, 2, 0x8f7f97, 0xa9909a, 0xc9a898), hand{level, 2, 0.2})
	s.ridge(0.42, 0.012, 6, 334, 0.006, dapple(335, 0.05, 2, 0x6a5f6b, 0x897267, 0xb18d63), hand{level, 1.5, 0.3})
	s.lay(below(func(x float64) float64 { return h + 0.01*math.Sin(x*3) }), 0.005, func(x, y float64) rgb {
		d := y - h
		return ramp(0.62-0.45*d-0.22*x/s.a+0.5*fbm(336, x*8, y*20, 4), 0x4c5132, 0x7d7a3b, 0xb79a48, 0xe2b95a, 0xf6d787)
	}, hand{func(x, y float64) float64 { return -0.2 + 0.5*noise(337, x*6, y*6) }, 2, 0.3})
	trees := []struct{ x, foot, r float64 }{
		{0.36, 0.465, 0.045}, {0.50, 0.47, 0.05}, {0.64, 0.465, 0.048}, {0.79, 0.47, 0.05}, {0.95, 0.468, 0.052}, {1.12, 0.47, 0.052},
		{0.30, 0.53, 0.08}, {0.58, 0.535, 0.085}, {0.86, 0.53, 0.08}, {1.17, 0.54, 0.09},
		{0.20, 0.68, 0.15}, {0.72, 0.69, 0.155}, {1.20, 0.70, 0.155},
	}
	for i, t := range trees {
		// Long violet shadows fall to the right and towards us.
		s.glaze(ribbon(curve(t.x, t.foot, t.x+t.r*1.2, t.foot+t.r*0.20, t.x+t.r*3, t.foot+t.r*0.6), taper(t.r*0.10, t.r*0.42)), t.r*0.2, hex(0x9a86b4), 0.85)
		top := t.foot - t.r*1.55
		mist := clamp((0.56-t.foot)*5, 0, 0.6)
		s.bole(curve(t.x+t.r*0.05, top, t.x-t.r*0.06, t.foot-t.r*0.4, t.x, t.foot), t.r*0.07, t.r*0.11, -1, 340+i, 0x33232c, 0x5d3f3a, 0xb27a4a)
		s.bole(curve(t.x-t.r*0.5, top, t.x-t.r*0.2, t.foot-t.r*0.75, t.x-t.r*0.02, t.foot-t.r*0.35), t.r*0.035, t.r*0.07, -1, 345+i, 0x33232c, 0x5d3f3a, 0xb27a4a)
		s.bole(curve(t.x+t.r*0.6, top, t.x+t.r*0.25, t.foot-t.r*0.8, t.x+t.r*0.03, t.foot-t.r*0.4), t.r*0.035, t.r*0.07, -1, 348+i, 0x33232c, 0x5d3f3a, 0xa2704a)
		s.crown(t.x, top, t.r*1.12, t.r*0.92, -1, 360+7*i, 0x3a3440, 0x55552f, 0x8c7f37, 0xcfa548, 0xf7d681)
		s.glaze(oval(t.x, top, t.r*1.4, t.r*1.3, 0), t.r*0.5, rgb{1.12, 1.02, 0.98}, mist)
		if t.r > 0.07 {
			for range int(t.r * 230) {
				a, k := s.between(0, 6.28), math.Sqrt(s.between(0, 0.75))
				x, y := t.x+t.r*k*math.Cos(a), top+t.r*0.85*k*math.Sin(a)
				c := hex(0x8f2f26).mix(hex(0xf0703a), clamp(0.5-0.7*math.Cos(a)*k+s.between(-0.2, 0.2), 0, 1))
				s.touch(curve(x, y, x+0.002, y+0.001), t.r*0.034, t.r*0.03, c)
			}
			for range int(t.r * 90) {
				x, y := t.x+s.between(-1, 1.3)*t.r, t.foot+s.between(-0.1, 0.25)*t.r
				s.touch(curve(x, y, x+0.002, y), t.r*0.026, t.r*0.02, hex(0xb8452c).shift(s.between(-0.1, 0.1), 0))
			}
		}
	}
	// A ladder left in the near tree.
	for _, dx := range []float64{0, 0.032} {
		s.touch(curve(0.60+dx, 0.70, 0.665+dx*0.7, 0.45), 0.0042, 0.0036, hex(0xe8c48a))
	}
	for i := range 8 {
		t := 0.08 + 0.11*float64(i)
		s.touch(curve(0.60+0.065*t, 0.70-0.25*t, 0.632+0.055*t, 0.70-0.25*t), 0.003, 0.003, hex(0xc9985c))
	}
	s.reeds(-0.02, 1.3, 0.97, 1.05, 0.06, 0.1, 150, 0x6b6a34, 0xc9a64e, 0xf0cf7c, 0x4a4a30)
}

func barn(s *study) {
	s.ground, s.lively = hex(0xa5744e), 0.05
	h := 0.56
	s.sky(h, 0.16, 401, 0x7f97ad, 0xa6b5be, 0xcfd0c6, 0xecdfc2)
	s.cloud(0.85, 0.16, 0.36, 0.12, 402, 0xf6efe0, 0x98a3ae)
	s.cloud(0.2, 0.3, 0.25, 0.06, 403, 0xf3eada, 0xa5adb3)
	s.ridge(0.50, 0.03, 2.5, 404, 0.008, dapple(405, 0.07, 2, 0x748795, 0x8496a0, 0xa0aba6), hand{level, 1.8, 0.2})
	s.ridge(0.545, 0.012, 4, 406, 0.006, dapple(407, 0.04, 2, 0x56684f, 0x75805a, 0x9c9b6b), hand{level, 1.6, 0.3})
	s.lay(below(func(x float64) float64 { return h + 0.03*x }), 0.006, func(x, y float64) rgb {
		return ramp(0.5+0.3*(y-0.75)+0.6*fbm(408, x*6, y*18, 4), 0x7d7038, 0xad9446, 0xd2b65f, 0xecd58a)
	}, hand{func(x, y float64) float64 { return 0.15 + 0.4*noise(409, x*4, y*6) }, 2.4, 0.3})
	s.crown(1.12, 0.42, 0.17, 0.19, -1, 410, 0x2b3a2e, 0x45573a, 0x748046, 0xb0aa62)
	s.crown(0.97, 0.46, 0.1, 0.13, -1, 411, 0x2f4031, 0x4a5d3e, 0x7d874b, 0xb9b069)
	s.crown(0.2, 0.50, 0.09, 0.08, -1, 412, 0x35483a, 0x566848, 0x879058)
	s.crown(0.06, 0.51, 0.1, 0.07, -1, 413, 0x35483a, 0x566848, 0x879058)
	boards := func(seed int, stops ...uint32) tint {
		return func(x, y float64) rgb {
			return ramp(0.5+0.45*noise(seed, x*70, 0.3)+0.4*fbm(seed+1, x*10, y*4, 3), stops...)
		}
	}
	poly := func(xy ...float64) shape { return outline(points(xy)) }
	s.glaze(poly(0.33, 0.70, 0.98, 0.66, 1.2, 0.71, 0.7, 0.78), 0.02, hex(0x5f5a78), 0.8)
	// Long side in light, gable end in half shadow, a grey tin roof.
	s.lay(poly(0.30, 0.50, 0.66, 0.485, 0.66, 0.725, 0.30, 0.70), 0.003, boards(420, 0x9c3226, 0xbd4330, 0xd55e3f), hand{steady(1.57), 3, 0.6})
	s.lay(poly(0.66, 0.485, 0.80, 0.335, 0.955, 0.475, 0.955, 0.685, 0.66, 0.725), 0.003, boards(424, 0x5a1f24, 0x74282a, 0x8e3630), hand{steady(1.57), 3, 0.6})
	s.lay(poly(0.275, 0.508, 0.415, 0.365, 0.805, 0.325, 0.668, 0.492), 0.003, func(x, y float64) rgb {
		return ramp(0.6-1.0*(y-0.42)+0.4*noise(428, (x+y*0.9)*34, 0.5)+0.3*fbm(429, x*7, y*7, 3), 0x6a7078, 0x8e949a, 0xb5b7b4, 0xd9d4c6)
	}, hand{steady(-0.82), 3, 0.6})
	s.lay(poly(0.795, 0.328, 0.812, 0.322, 0.985, 0.482, 0.965, 0.49), 0.003, plain(0x60646c), hand{steady(0.8), 3, 0.8})
	s.lay(poly(0.275, 0.508, 0.668, 0.492, 0.668, 0.508, 0.30, 0.522), 0.004, plain(0x6d2420), hand{level, 3, 0.7})
	// Doors, a hay hatch, white trim.
	s.lay(poly(0.745, 0.555, 0.87, 0.547, 0.87, 0.698, 0.745, 0.714), 0.003, plain(0x241a20), hand{steady(1.57), 3, 0.7})
	s.lay(poly(0.87, 0.547, 0.935, 0.543, 0.935, 0.688, 0.87, 0.698), 0.003, boards(430, 0x7d3430, 0x9a453a), hand{steady(1.57), 3, 0.7})
	s.lay(poly(0.785, 0.43, 0.83, 0.428, 0.83, 0.475, 0.785, 0.478), 0.003, plain(0x2a1d22), hand{steady(1.57), 2, 0.9})
	white := hex(0xe9dfca)
	s.touch(points([]float64{0.745, 0.712, 0.745, 0.555, 0.935, 0.543}), 0.0035, 0.0035, white)
	s.touch(points([]float64{0.783, 0.48, 0.783, 0.428, 0.832, 0.426, 0.832, 0.476, 0.783, 0.48}), 0.0028, 0.0028, white)
	s.touch(points([]float64{0.661, 0.723, 0.661, 0.49}), 0.003, 0.003, white.times(0.92))
	for _, x := range []float64{0.37, 0.47, 0.57} {
		y := 0.585 - 0.01*(x-0.37)
		s.lay(poly(x-0.018, y-0.026, x+0.018, y-0.027, x+0.018, y+0.022, x-0.018, y+0.022), 0.003, plain(0x2c2a35), hand{level, 1.5, 0.9})
		s.touch(points([]float64{x - 0.019, y + 0.023, x - 0.019, y - 0.027, x + 0.019, y - 0.028, x + 0.019, y + 0.023, x - 0.019, y + 0.023}), 0.0024, 0.0024, white)
	}
	// A track to the door, and grass against the wall.
	s.lay(ribbon(curve(0.806, 0.748, 0.80, 0.77, 0.66, 0.86, 0.5, 1.05), func(t float64) float64 { return 0.038 + 0.1*t*t }), 0.03, dapple(432, 0.05, 2, 0xa88a63, 0xc8ab7d, 0xe5cfa2), hand{steady(-0.9), 2, 0.3})
	s.lay(ribbon(curve(0.80, 0.765, 0.775, 0.80, 0.66, 0.88, 0.52, 1.05), taper(0.006, 0.035)), 0.02, dapple(433, 0.03, 1, 0x8f8440, 0xb9a455), hand{steady(-0.9), 2, 0.4})
	s.reeds(0.29, 0.74, 0.70, 0.735, 0.035, 0.1, 90, 0x7d7a3c, 0xb7a556, 0xe2cf86)
	s.reeds(0.9, 1.05, 0.68, 0.71, 0.04, 0.1, 40, 0x5d6238, 0x9a9150)
	s.reeds(-0.02, 0.45, 0.96, 1.06, 0.12, 0.15, 110, 0x8a7c3c, 0xc8ae5b, 0xf0dd9c, 0x5f5c34)
	s.reeds(0.8, 1.27, 0.96, 1.06, 0.1, -0.1, 100, 0x8a7c3c, 0xc8ae5b, 0xf0dd9c, 0x5f5c34)
	for i := range 6 { // fence
		x := 0.99 + 0.055*float64(i)
		s.touch(points([]float64{x, 0.70 + 0.012*float64(i), x + 0.002, 0.635 + 0.01*float64(i)}), 0.0045, 0.004, hex(0x4a3d38))
	}
	s.touch(curve(0.98, 0.652, 1.12, 0.678, 1.27, 0.705), 0.0026, 0.003, hex(0x5d4e46))
	s.touch(curve(0.98, 0.675, 1.12, 0.703, 1.27, 0.732), 0.0026, 0.003, hex(0x5d4e46))
}

func hill(s *study) {
	s.ground, s.lively = hex(0xa0764a), 0.055
	s.sky(0.6, 0.16, 441, 0x6f8aa3, 0x9db0bb, 0xd3d5cb, 0xefe3c6)
	s.cloud(0.25, 0.17, 0.3, 0.09, 442, 0xf7f0e2, 0x93a0ad)
	s.cloud(1.0, 0.1, 0.32, 0.08, 443, 0xf4eee2, 0x8c9aaa)
	s.ridge(0.44, 0.05, 2, 444, 0.008, dapple(445, 0.1, 2, 0x7f90a0, 0x91a0a8, 0xaab2ae), hand{steady(0.2), 2, 0.2})
	top := func(x float64) float64 {
		return 0.64 - 0.31*math.Exp(-math.Pow((x-0.74)/0.40, 2)) - 0.15*math.Exp(-math.Pow((x-0.28)/0.26, 2)) + 0.022*fbm(446, x*5, 0, 4)
	}
	s.lay(below(top), 0.006, func(x, y float64) rgb {
		lit := 0.62 - 0.9*(x-0.62) + 0.45*fbm(447, x*5+y*2, y*9, 4)
		return ramp(lit-0.25*(y-0.5), 0x4b4a47, 0x6b6a45, 0x97894d, 0xc4aa62, 0xe4cd8c)
	}, hand{func(x, y float64) float64 { return math.Atan((top(x+0.02) - top(x-0.02)) / 0.04 * 0.9) }, 2.6, 0.3})
	s.glaze(everywhere(func(x, y float64) float64 {
		return max(top(x)-y, 0.80-x+0.25*(y-0.3)-0.06*fbm(448, x*5, y*5, 3))
	}), 0.05, hex(0x76749a), 0.6)
	// Stone walls over the hill.
	for _, w := range [][]pt{curve(0.40, 0.72, 0.47, 0.62, 0.58, 0.52, 0.66, 0.43, 0.72, top(0.72)), curve(0.20, 0.60, 0.36, 0.60, 0.52, 0.572, 0.72, 0.57, 0.94, 0.53, 1.22, 0.56), curve(0.66, 0.44, 0.82, 0.455, 0.98, 0.45)} {
		s.touch(w, 0.0034, 0.0015, hex(0x7d7566))
		s.touch(place(w, -0.001, -0.002, 1, 0), 0.0014, 0.0008, hex(0xcdbf9f))
	}
	larch := func(x, foot, tall float64, seed int, mist float64) {
		d := func(px, py float64) float64 {
			t := (py - foot + tall) / tall
			tier := 0.72 + 0.28*math.Abs(math.Mod(t*7+0.2*noise(seed, px*20, 1), 1)*2-1)
			half := tall * 0.20 * math.Pow(max(t, 0), 0.85) * tier * (1 + 0.4*fbm(seed, px*50, py*50, 2))
			return max(math.Abs(px-x)-half, max(-t, t-0.94)*tall)
		}
		s.touch(curve(x, foot-tall*0.1, x, foot+tall*0.01), tall*0.016, tall*0.018, hex(0x3d2f2c))
		s.lay(shape{x - tall*0.3, foot - tall, x + tall*0.3, foot, d}, 0.004, func(px, py float64) rgb {
			u := (px - x) / (tall * 0.2)
			c := ramp(0.5-0.42*u+0.8*fbm(seed+1, px*2.2/tall*5, py*4/tall*5, 3), 0x3f2f22, 0x7a4d22, 0xb9772a, 0xdfa343, 0xf3d07e)
			return c.mix(hex(0xc0b9a4), mist)
		}, hand{func(px, py float64) float64 { return math.Copysign(0.55, px-x) }, 1.8, 0.6})
	}
	for i := range 26 { // far plantation along the flank
		x := 0.90 + 0.0125*float64(i) + s.between(-0.006, 0.006)
		larch(x, top(x)+0.035+s.between(0, 0.05), s.between(0.06, 0.1), 450+i, 0.25)
	}
	for i := range 9 {
		x := 0.02 + 0.024*float64(i) + s.between(-0.008, 0.008)
		larch(x, top(x)+0.02+s.between(0, 0.02), s.between(0.05, 0.08), 480+i, 0.3)
	}
	s.lay(below(func(x float64) float64 { return 0.745 + 0.05*math.Sin(x*2.4+0.6) + 0.012*fbm(449, x*7, 0, 3) }), 0.008, func(x, y float64) rgb {
		return ramp(0.5+0.25*(0.85-y)+0.6*fbm(490, x*7, y*16, 4), 0x55552f, 0x7f7a3c, 0xab9a50, 0xd5bd74)
	}, hand{steady(0.1), 2.2, 0.35})
	for i, t := range []struct{ x, foot, tall float64 }{{0.13, 0.80, 0.36}, {0.245, 0.83, 0.44}, {0.05, 0.85, 0.5}, {0.35, 0.84, 0.29}, {0.97, 0.80, 0.24}, {1.06, 0.83, 0.33}} {
		s.glaze(ribbon(curve(t.x, t.foot, t.x+0.12, t.foot+0.02, t.x+t.tall*0.6, t.foot+0.05), taper(0.012, 0.02)), 0.02, hex(0x6f6888), 0.75)
		larch(t.x, t.foot, t.tall, 500+i, 0)
	}
	for i := range 34 { // a belt of young larch up the near slope
		t := float64(i) / 33
		x := 0.40 + 0.26*t + s.between(-0.03, 0.03)
		foot := 0.735 - 0.17*t + s.between(-0.012, 0.012)
		s.glaze(oval(x+0.018, foot, 0.022, 0.004, 0.1), 0.006, hex(0x7d7488), 0.7)
		larch(x, foot, lerp(0.085, 0.05, t)*s.between(0.8, 1.2), 540+i, 0.08+0.14*t)
	}
	for range 70 { // gorse and bracken
		x, y := s.between(0.25, 1.2), s.between(0.42, 0.72)
		if y > top(x)+0.03 {
			s.lay(oval(x, y, s.between(0.006, 0.016), s.between(0.003, 0.006), 0.1), 0.004, plain([]uint32{0x5b5335, 0x8a5f33, 0x6f6a3a}[s.rnd.IntN(3)]), hand{steady(0.2), 1.2, 0.6})
		}
	}
	for range 12 { // sheep
		x, y := s.between(0.5, 0.85), s.between(0.79, 0.9)
		s.touch(curve(x, y, x+0.013, y-0.001), 0.0055, 0.0055, hex(0xf0e8d6))
		s.touch(curve(x+0.016, y-0.002, x+0.019, y+0.001), 0.0026, 0.0022, hex(0x4a4140))
	}
	s.reeds(-0.02, 1.22, 0.98, 1.06, 0.08, 0.12, 170, 0x6a6534, 0xb29c52, 0xe3cb86, 0x454726)
}

func shore(s *study) {
	s.ground, s.lively = hex(0xb99c78), 0.045
	h := 0.40
	s.sky(h, 0.12, 521, 0x86a0b5, 0xb1bfc4, 0xdcd6c4, 0xf2dfbd)
	s.cloud(0.5, 0.16, 0.5, 0.13, 522, 0xf8f0e0, 0x9aa5b0)
	s.cloud(1.5, 0.24, 0.55, 0.09, 523, 0xf6ead4, 0xa4adb4)
	s.cloud(2.5, 0.14, 0.6, 0.15, 524, 0xf9f1e2, 0x93a0ae)
	s.lay(below(func(float64) float64 { return h }), 0.003, func(x, y float64) rgb {
		return ramp((y-h)*3.2+0.35*fbm(525, x*3, y*40, 3), 0x5f7f8f, 0x6f9199, 0x8fb0ac, 0xb6c9bb)
	}, hand{level, 5, 0.3})
	edge := func(x float64) float64 {
		return 0.50 + 0.14*smooth(0.3, 3, x) + 0.012*math.Sin(x*5) + 0.02*fbm(527, x*3, 0, 3)
	}
	for i, off := range []float64{-0.07, -0.04, -0.012} { // breaking waves
		o := off * (0.7 + 0.3*float64(i))
		line := func(x float64) float64 { return edge(x) + o*1.2 + 0.006*fbm(530+i, x*4, 0, 3) }
		s.lay(band(line, func(x float64) float64 { return line(x) + 0.018*smooth(-0.25, 0.3, fbm(535+i, x*2, 9, 3)) }), 0.006, func(x, y float64) rgb {
			return ramp(0.6+0.6*fbm(540+i, x*20, y*50, 2), 0xc6d2cc, 0xf2efe2, 0xfdfaf0)
		}, hand{level, 3, 0.75})
	}
	s.lay(below(edge), 0.006, func(x, y float64) rgb {
		k := y - edge(x)
		wet := ramp(0.4+0.5*fbm(545, x*3, y*26, 3), 0x9a9180, 0xb9b3a4, 0xdcd7c6)
		dry := ramp(0.5+0.6*fbm(546, x*5, y*12, 4), 0xb59468, 0xd3b583, 0xe9d3a5)
		return wet.mix(dry, smooth(0.06, 0.18, k+0.04*fbm(547, x*3, y*6, 2)))
	}, hand{func(x, y float64) float64 { return 0.06 + 0.25*noise(548, x*3, y*6) }, 3.2, 0.3})
	// Dunes to the left with marram.
	dune := func(x float64) float64 { return 0.47 + 0.42*smooth(0, 1.25, x) + 0.03*fbm(549, x*4, 0, 3) }
	s.lay(below(func(x float64) float64 {
		if x > 1.6 {
			return 9
		}
		return dune(x) - 0.1*smooth(0.5, 0, x) + smooth(1.0, 1.6, x)*0.4
	}), 0.01, dapple(550, 0.1, 1.4, 0x8c7a50, 0xb79f68, 0xdcc48e, 0xf0dfb4), hand{steady(0.5), 2, 0.35})
	for range 330 {
		x := math.Pow(s.between(0, 1), 1.5) * 1.2
		y := dune(x) - 0.1*smooth(0.5, 0, x) + s.between(-0.01, 0.35)*smooth(1.3, 0.2, x)
		l := s.between(0.04, 0.12)
		sw := s.between(0.1, 0.6) * l
		c := []uint32{0x5f6238, 0x8d8b4e, 0xc3b677, 0x474c2e}[s.rnd.IntN(4)]
		s.touch(curve(x, y, x+sw*0.3, y-l*0.65, x+sw, y-l*0.95), 0.0032, 0.001, hex(c))
	}
	for i := range 9 { // groyne posts walking into the sea
		k := float64(i) / 8
		x, foot := lerp(2.45, 2.12, k), lerp(0.80, 0.47, k)
		tall := lerp(0.17, 0.05, k)
		w := lerp(0.013, 0.005, k)
		s.bole(curve(x, foot-tall, x+0.002, foot-tall/2, x, foot), w, w*1.1, -1, 560+i, 0x2d2a2c, 0x504842, 0x8c7a63)
		s.glaze(oval(x+w*3, foot, w*4.5, w*0.7, 0), w, hex(0x6a6a78), 0.7)
	}
	figure := func(x, foot, tall float64, coat uint32) {
		s.touch(curve(x-tall*0.07, foot, x-tall*0.04, foot-tall*0.42), tall*0.05, tall*0.07, hex(0x2b2d38))
		s.touch(curve(x+tall*0.1, foot, x+tall*0.03, foot-tall*0.42), tall*0.05, tall*0.07, hex(0x2b2d38))
		s.touch(curve(x, foot-tall*0.4, x+tall*0.01, foot-tall*0.76), tall*0.14, tall*0.10, hex(coat))
		s.touch(curve(x+tall*0.01, foot-tall*0.88, x+tall*0.012, foot-tall*0.9), tall*0.075, tall*0.075, hex(0xb98a6a))
		s.glaze(oval(x+tall*0.3, foot+0.004, tall*0.4, tall*0.035, 0), 0.01, hex(0x5f5f70), 0.7)
	}
	figure(1.62, 0.70, 0.13, 0x9c3a30)
	figure(1.685, 0.705, 0.12, 0x35506b)
	s.touch(curve(1.79, 0.705, 1.82, 0.70), 0.007, 0.006, hex(0x2b2624))
	s.touch(curve(1.825, 0.694, 1.832, 0.692), 0.0055, 0.005, hex(0x2b2624))
	for _, x := range []float64{1.785, 1.795, 1.82} {
		s.touch(curve(x, 0.706, x-0.003, 0.728), 0.0025, 0.002, hex(0x2b2624))
	}
	s.touch(curve(2.75, 0.385, 2.80, 0.385), 0.006, 0.004, hex(0x4f5f6b))
	s.touch(curve(2.775, 0.38, 2.775, 0.30), 0.002, 0.0015, hex(0x4f5f6b))
	s.lay(outline(points([]float64{2.778, 0.305, 2.81, 0.37, 2.778, 0.372})), 0.003, plain(0xb0553a), hand{steady(1.3), 2, 1})
	for range 14 {
		x, y := s.between(0.9, 2.4), s.between(0.15, 0.45)
		w := s.between(0.012, 0.024)
		s.touch(curve(x-w, y-w*0.3, x-w*0.4, y-w*0.55, x, y, x+w*0.5, y-w*0.6, x+w, y-w*0.2), 0.0026, 0.0018, hex(0xfdf8ee))
	}
	for range 60 { // wrack and pebbles
		x, y := s.between(1.2, 3), s.between(0.82, 0.98)
		s.touch(curve(x, y, x+s.between(0.004, 0.02), y), s.between(0.002, 0.006), 0.002, ramp(s.between(0, 1), 0x4a4038, 0x8d8072, 0xd9cfbd))
	}
}
