package main

import "math"

func ferry(s *study) {
	s.ground, s.lively = hex(0x4a3a44), 0.04
	h := 0.47
	s.sky(h, 0.14, 601, 0x0f1a30, 0x182848, 0x27405f, 0x4b627a)
	s.glow(1.02, 0.14, 0.16, hex(0xb9c6c8), 0.5)
	s.lay(oval(1.02, 0.14, 0.032, 0.032, 0), 0.006, plain(0xf3ecd0), hand{steady(0.6), 1.2, 0.9})
	s.lay(ribbon(curve(0.86, 0.168, 1.0, 0.16, 1.2, 0.172), lens(0.016)), 0.02, plain(0x3a5070), hand{level, 3, 0.4})
	s.ridge(0.445, 0.03, 2.2, 602, 0.006, dapple(603, 0.08, 2, 0x101a2b, 0x18253a, 0x22324a), hand{level, 2, 0.2})
	s.lay(below(func(float64) float64 { return h }), 0.004, func(x, y float64) rgb {
		n := fbm(604, x*4, y*34, 4)
		c := ramp(0.5+0.55*n-0.25*(y-0.7), 0x0d1828, 0x16293f, 0x244259, 0x3f6173)
		moon := math.Exp(-math.Pow((x-1.02)/(0.03+0.16*(y-h)), 2)) * smooth(-0.05, 0.25, fbm(605, x*9, y*70, 2))
		return c.mix(hex(0xd9dcc8), 0.7*moon)
	}, hand{func(x, y float64) float64 { return 0.1 * noise(606, x*6, y*12) }, 4.5, 0.45})
	lights := []uint32{0xffd98a, 0xffb85a, 0xfff0c4, 0xf28a5a, 0xbfe0d8}
	for range 30 { // the far shore
		x, y := s.between(0, s.a), h-s.between(0.004, 0.03)
		c := hex(lights[s.rnd.IntN(len(lights))])
		s.touch(curve(x, y, x+0.002, y), 0.0028, 0.0022, c)
		for k := range 4 {
			ry := h + 0.012 + 0.018*float64(k) + s.between(0, 0.01)
			s.touch(curve(x-0.006, ry, x+0.006, ry), 0.0016, 0.0008, c.mix(hex(0x1c3148), 0.35+0.15*float64(k)))
		}
	}
	poly := func(xy ...float64) shape { return outline(points(xy)) }
	// Hull, decks, bridge, funnel.
	s.lay(poly(0.20, 0.495, 0.92, 0.495, 1.0, 0.47, 0.945, 0.565, 0.25, 0.565), 0.003, func(x, y float64) rgb {
		return ramp(0.4+0.4*fbm(607, x*12, y*20, 2)-2*(y-0.53), 0x0c1119, 0x1b2330, 0x37414c)
	}, hand{level, 3, 0.7})
	s.lay(ribbon(curve(0.235, 0.552, 0.6, 0.553, 0.95, 0.55), taper(0.006, 0.006)), 0.003, plain(0x7a2b26), hand{level, 4, 0.8})
	white := func(seed int) tint {
		return func(x, y float64) rgb {
			return ramp(0.5+0.45*fbm(seed, x*14, y*14, 3), 0x5a6a7a, 0x8f9799, 0xc9c2ac)
		}
	}
	s.lay(poly(0.235, 0.425, 0.865, 0.425, 0.89, 0.497, 0.225, 0.497), 0.003, white(608), hand{level, 3, 0.6})
	s.lay(poly(0.29, 0.365, 0.80, 0.365, 0.815, 0.427, 0.28, 0.427), 0.003, white(609), hand{level, 3, 0.6})
	s.lay(poly(0.64, 0.315, 0.76, 0.315, 0.785, 0.367, 0.63, 0.367), 0.003, white(610), hand{level, 3, 0.7})
	s.lay(poly(0.42, 0.262, 0.50, 0.262, 0.515, 0.367, 0.405, 0.367), 0.003, func(x, y float64) rgb {
		return ramp(1.2-(x-0.4)*9, 0x4a1c1f, 0x8a3229, 0xb5503a)
	}, hand{steady(1.57), 3, 0.7})
	s.lay(poly(0.417, 0.262, 0.503, 0.262, 0.505, 0.284, 0.415, 0.284), 0.003, plain(0x14161c), hand{level, 2, 0.8})
	s.touch(curve(0.70, 0.315, 0.705, 0.20), 0.0035, 0.002, hex(0x9aa09c))
	s.touch(curve(0.33, 0.365, 0.33, 0.27), 0.003, 0.002, hex(0x7d8588))
	s.touch(curve(0.33, 0.275, 0.24, 0.425), 0.0009, 0.0009, hex(0x7d8588))
	s.touch(curve(0.705, 0.205, 0.90, 0.43), 0.0009, 0.0009, hex(0x7d8588))
	for i := range 4 { // smoke
		x := 0.44 - 0.05*float64(i)
		s.lay(oval(x, 0.235-0.03*float64(i), 0.05+0.02*float64(i), 0.02+0.006*float64(i), -0.4), 0.05, dapple(611+i, 0.05, 1, 0x2a3a50, 0x3d4d62), hand{steady(-0.4), 2, 0.2})
	}
	glow := hex(0xffcf73)
	for i := range 15 {
		x := 0.262 + 0.042*float64(i)
		if i%6 == 4 {
			continue
		}
		s.lay(poly(x-0.012, 0.445, x+0.012, 0.445, x+0.012, 0.474, x-0.012, 0.474), 0.003, func(px, py float64) rgb {
			return glow.shift(0.12*noise(615+i, px*40, py*40), 0)
		}, hand{level, 1.2, 1})
	}
	for i := range 12 {
		x := 0.315 + 0.042*float64(i)
		if i != 3 && i != 8 {
			s.lay(poly(x-0.010, 0.383, x+0.010, 0.383, x+0.010, 0.408, x-0.010, 0.408), 0.003, plain(0xffdf96), hand{level, 1.2, 1})
		}
	}
	s.lay(poly(0.655, 0.328, 0.765, 0.328, 0.772, 0.346, 0.652, 0.346), 0.003, plain(0xfff0c0), hand{level, 2, 1})
	for _, x := range []float64{0.35, 0.56, 0.73} {
		s.glow(x, 0.43, 0.13, hex(0xffc46a), 0.22)
	}
	s.touch(curve(0.705, 0.20, 0.706, 0.2), 0.0055, 0.005, hex(0xfff6d8))
	s.touch(curve(0.95, 0.46, 0.951, 0.46), 0.005, 0.005, hex(0x7fe0b0))
	s.touch(curve(0.22, 0.47, 0.221, 0.47), 0.005, 0.005, hex(0xff6a4a))
	// Hull shadow and the broken columns of light.
	s.glaze(poly(0.22, 0.565, 0.96, 0.565, 0.98, 0.66, 0.2, 0.66), 0.05, hex(0x4a5468), 0.85)
	s.each(poly(0.24, 0.57, 0.90, 0.57, 0.98, 0.95, 0.17, 0.95), 0.12, func(i int, x, y, cover float64) {
		k := smooth(-0.1, 0.4, fbm(625, x*7, y*44, 3)) * (1 - 1.9*(y-0.57))
		s.col[i] = s.col[i].mix(hex(0xc98a48), 0.55*k*cover)
	})
	for i := range 15 {
		x := 0.262 + 0.042*float64(i)
		for k := range 17 {
			t := float64(k) / 17
			y := 0.58 + 0.33*math.Pow(t, 1.15) + s.between(-0.006, 0.006)
			if s.rnd.Float64() < 0.35+0.3*t {
				continue
			}
			w := s.between(0.006, 0.014) * (1 + 1.1*t)
			dx := s.between(-0.012, 0.012) * (1 + 2*t)
			c := ramp(s.between(0, 1), 0xf0a44c, 0xffd27a, 0xffe9ac).mix(hex(0x2a4257), 0.12+0.65*t)
			p := s.between(0.0012, 0.0034)
			s.touch(curve(x+dx-w, y, x+dx, y+s.between(-0.0012, 0.0012), x+dx+w, y), p, p*0.5, c)
		}
	}
	s.touch(curve(0.16, 0.572, 0.22, 0.566, 0.5, 0.57, 0.95, 0.567, 1.0, 0.572), 0.0025, 0.0016, hex(0x9fb0b4))
	s.touch(curve(0.0, 0.60, 0.1, 0.585, 0.22, 0.572), 0.001, 0.0028, hex(0x7f959e))
	for range 26 {
		x, y := s.between(0, s.a), s.between(0.02, 0.34)
		s.touch(curve(x, y, x+0.001, y), s.between(0.0008, 0.0018), 0.001, hex(0xd6dbe0).mix(hex(0x27405f), s.between(0, 0.5)))
	}
}
