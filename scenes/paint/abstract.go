package main

import "math"

func tideline(s *study) {
	s.ground, s.lively, s.brush = hex(0xb06a3e), 0.055, 1.25
	// Bands of sea, foam and sand cross the square on one long swing.
	swing := func(x float64) float64 {
		return 0.05*math.Sin(x*3.1+0.4) + 0.10*(x-0.5) + 0.03*fbm(701, x*3, 0, 3)
	}
	bands := []struct {
		at, soft float64
		tone     tint
		detail   float64
	}{
		{-1, 0.01, dapple(702, 0.25, 3, 0xb7c3c2, 0xd6d6c9, 0xebe2cc), 0.1},
		{0.13, 0.05, dapple(703, 0.2, 4, 0x6e8f98, 0x8eaaac, 0xb3c4bd), 0.1},
		{0.22, 0.012, dapple(704, 0.18, 3, 0x173843, 0x22505a, 0x3a6e73, 0x64908d), 0.2},
		{0.40, 0.02, dapple(705, 0.14, 3, 0x2f6468, 0x4f8784, 0x8fb3a4), 0.2},
		{0.465, 0.006, dapple(706, 0.08, 2.4, 0xbfcfc4, 0xf2eee0, 0xfcf8ec), 0.5},
		{0.515, 0.006, dapple(707, 0.1, 3, 0x4a3b34, 0x6d5647, 0x927660), 0.3},
		{0.565, 0.03, dapple(708, 0.2, 3, 0x9c7350, 0xbd8f62, 0xd9b182), 0.2},
		{0.70, 0.008, dapple(709, 0.15, 2, 0xd9bd8f, 0xe9d4aa, 0xf4e6c6), 0.2},
		{0.86, 0.06, dapple(710, 0.18, 2, 0xb8764a, 0xcf9560, 0xe3b780), 0.1},
	}
	for i, b := range bands {
		k := float64(i)
		s.lay(below(func(x float64) float64 {
			return b.at + swing(x+0.05*k)*(1-0.05*k) + 0.02*fbm(711+i, x*5, 0, 3)
		}), b.soft, b.tone, hand{func(x, y float64) float64 {
			return math.Atan(0.155*math.Cos((x+0.05*k)*3.1+0.4)+0.1) + 0.25*noise(720+i, x*4, y*4)
		}, 4, b.detail})
	}
	// Wrack: a broken dark line with rust in it, and knife slabs of light.
	for i := range 46 {
		x := s.between(0, 1)
		y := 0.535 + swing(x+0.25)*0.75 + s.between(-0.02, 0.026)
		l, w := s.between(0.01, 0.06), s.between(0.002, 0.007)
		s.lay(ribbon(curve(x, y, x+l/2, y+s.between(-0.006, 0.006), x+l, y+0.1*l), lens(w)), 0.003,
			plain([]uint32{0x2a2226, 0x3d2c2a, 0x8c3f24, 0x1d2a30}[i%4]), hand{steady(0.1), 2, 0.9})
	}
	for i, b := range []struct{ x, y, l, w, a float64 }{{0.62, 0.31, 0.30, 0.018, 0.12}, {0.12, 0.27, 0.2, 0.012, 0.02}, {0.30, 0.77, 0.32, 0.02, 0.08}, {0.74, 0.66, 0.2, 0.013, 0.2}} {
		c := []uint32{0x9fc0b6, 0x4f8a90, 0xf8eed6, 0xe8c999}[i]
		s.lay(outline(place(points([]float64{-0.5, -b.w / b.l, 0.46, -b.w / b.l * 0.7, 0.5, b.w / b.l, -0.42, b.w / b.l * 0.8}), b.x, b.y, b.l, b.a)), 0.004, plain(c), hand{steady(b.a), 5, 0.5})
	}
	s.lay(oval(0.735, 0.105, 0.052, 0.05, 0), 0.006, func(x, y float64) rgb {
		return ramp(0.5+0.7*fbm(731, x*20, y*20, 2), 0xd5673a, 0xe58a4c, 0xf0b06a)
	}, hand{steady(0.6), 1.6, 0.5})
	for range 40 {
		x, y := s.between(0, 1), s.between(0.76, 0.97)
		s.touch(curve(x, y, x+s.between(0.002, 0.012), y+s.between(-0.002, 0.002)), s.between(0.0012, 0.004), 0.001, ramp(s.between(0, 1), 0x5a3b2c, 0xf6ead0))
	}
}

func stones(s *study) {
	s.ground, s.lively = hex(0x5d4a40), 0.05
	s.lay(everywhere(func(x, y float64) float64 { return -1 }), 0, dapple(741, 0.1, 1, 0x1d1e22, 0x2c2a2c, 0x453a36), hand{steady(0.4), 1.5, 0.2})
	// Stones of many sizes set in by hand-like trial: each keeps clear of the ones before.
	type stone struct{ x, y, rx, ry, turn float64 }
	var set []stone
	fits := func(c stone) bool {
		for _, o := range set {
			dx, dy := c.x-o.x, (c.y-o.y)*1.22
			if length(dx, dy) < (c.rx+o.rx)*0.98 {
				return false
			}
		}
		return true
	}
	for _, r := range []float64{0.17, 0.13, 0.10, 0.075, 0.055, 0.04, 0.028, 0.019} {
		for range 700 {
			c := stone{s.between(-0.05, 1.05), s.between(-0.05, 1.05), r * s.between(0.9, 1.1), 0, s.between(-0.25, 0.25)}
			c.ry = c.rx * s.between(0.74, 0.84)
			if (r > 0.15 && len(set) >= 3) || !fits(c) {
				continue
			}
			set = append(set, c)
		}
	}
	greys := [][]uint32{
		{0x2e3238, 0x575e66, 0x8c949a, 0xb9bebd, 0xdedcd2},
		{0x37332f, 0x655d54, 0x9a9082, 0xc4baa8, 0xe6ddc8},
		{0x272c36, 0x454f5f, 0x6f7d8c, 0xa0abb3, 0xcfd3d2},
		{0x3a3636, 0x6e6a68, 0xa5a19b, 0xd0ccc2, 0xf0ebdf},
		{0x22252a, 0x383d43, 0x585e63, 0x83888a, 0xb4b5b0},
		{0x43302a, 0x7d5a48, 0xb08a70, 0xd2b496, 0xecd9bd},
	}
	for i, c := range set {
		tone := greys[[]int{0, 1, 2, 3, 4, 0, 2, 3, 1, 0, 4, 3, 2, 5}[i%14]]
		wob := func(x, y float64) float64 {
			a := math.Atan2(y-c.y, x-c.x)
			return 1 + 0.07*fbm(750+i, math.Cos(a)*1.2+9, math.Sin(a)*1.2, 2)
		}
		o := oval(c.x, c.y, c.rx, c.ry, c.turn)
		body := o
		body.x0, body.y0, body.x1, body.y1 = o.x0-0.02, o.y0-0.02, o.x1+0.02, o.y1+0.02
		body.d = func(x, y float64) float64 { return o.d(x, y) + c.rx*(1-wob(x, y)) }
		s.glaze(oval(c.x+c.rx*0.12, c.y+c.ry*0.22, c.rx*1.05, c.ry*1.05, c.turn), c.rx*0.3, hex(0x3a3a42), 0.8)
		s.lay(body, 0.005, func(x, y float64) rgb {
			u, v := (x-c.x)/c.rx, (y-c.y)/c.ry
			z := math.Sqrt(max(0, 1-0.85*(u*u+v*v)))
			l := 0.62*z - 0.34*u - 0.42*v
			vein := smooth(0.1, 0.02, math.Abs(fbm(800+i, x*5/math.Sqrt(c.rx*9), y*9/math.Sqrt(c.rx*9), 3)))
			k := l + 0.28*fbm(760+i, x*14, y*20, 3)
			p := ramp(k, tone...)
			if i%5 == 2 && c.rx > 0.05 {
				p = p.mix(hex(0xe9e4d8), 0.55*vein*clamp(l+0.3, 0, 1))
			}
			return p
		}, hand{func(x, y float64) float64 { return math.Atan2(y-c.y, x-c.x) + math.Pi/2 }, 2.2, 0.3})
	}
	for range 60 {
		c := set[s.rnd.IntN(len(set))]
		x, y := c.x-c.rx*s.between(0, 0.5), c.y-c.ry*s.between(0.1, 0.6)
		s.touch(curve(x, y, x+c.rx*0.05, y-c.rx*0.02), 0.003, 0.0015, hex(0xf1eee4))
	}
}
