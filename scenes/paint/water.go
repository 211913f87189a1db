package main

import "math"

var level = steady(0)

func heron(s *study) {
	s.ground, s.lively = hex(0xb08a66), 0.05
	s.sky(0.36, 0.16, 11, 0x9fb0bf, 0xbfc4c2, 0xe3d3b8, 0xf0d9b4)
	s.ridge(0.27, 0.05, 3, 12, 0.012, dapple(13, 0.07, 1.5, 0x8b9aa2, 0x9fa8a4, 0xb3b3a2), hand{steady(1.4), 1.5, 0.2})
	s.ridge(0.325, 0.035, 5, 14, 0.008, dapple(15, 0.06, 1.5, 0x5d7069, 0x74836c, 0x94976f), hand{steady(1.3), 1.4, 0.3})
	s.crown(0.2, 0.22, 0.25, 0.22, 1, 16, 0x34483f, 0x4c6048, 0x77814f, 0xa9a25f)
	s.crown(-0.02, 0.28, 0.16, 0.2, 1, 17, 0x2f423d, 0x465a47, 0x6c774d)
	s.crown(0.52, 0.3, 0.12, 0.09, 1, 18, 0x45594e, 0x647355, 0x979663)
	s.crown(1.42, 0.24, 0.2, 0.16, -1, 19, 0x45564f, 0x66745a, 0x98976a)
	s.lay(band(func(x float64) float64 { return 0.385 + 0.006*noise(20, x*9, 0) }, func(float64) float64 { return 1 }), 0.006,
		dapple(21, 0.05, 3, 0x4d5c48, 0x7b7d50, 0xa39a5e), hand{level, 2, 0.3})
	crest := func(x float64) float64 { return 0.47 - 0.02*x }
	s.mirrorInWater(band(func(x float64) float64 { return 0.41 }, crest), 0.4, 0.006, hex(0xe6e8e4), hex(0x8fa3a6), 0.15)
	// The sill of the weir, and water coming over it.
	fall := band(crest, func(x float64) float64 { return crest(x) + 0.07 + 0.012*fbm(22, x*8, 0, 3) })
	s.lay(fall, 0.006, func(x, y float64) rgb {
		v := (y - crest(x)) / 0.07
		return ramp(0.15+0.6*v+0.45*fbm(23, x*28, y*5, 3), 0x4f666a, 0x8ba4a6, 0xd5ddd6, 0xf6f2e4)
	}, hand{steady(1.45), 2.4, 0.75})
	s.mirrorInWater(below(func(x float64) float64 { return crest(x) + 0.07 + 0.012*fbm(22, x*8, 0, 3) }), 0.5, 0.02, hex(0xd2dada), hex(0x3f585e), 0.32)
	s.lay(band(func(x float64) float64 { return crest(x) + 0.065 }, func(x float64) float64 { return crest(x) + 0.105 + 0.02*fbm(24, x*6, 1, 3) }), 0.03,
		func(x, y float64) rgb { return ramp(0.5+0.8*fbm(25, x*14, y*40, 3), 0x7f989c, 0xc4d0cc, 0xf4f0e2) }, hand{level, 2.5, 0.6})
	// Shingle under the bird.
	bar := oval(1.08, 0.93, 0.52, 0.085, -0.04)
	s.lay(everywhere(func(x, y float64) float64 { return 0.9 + 0.25*x - y + 0.03*fbm(27, x*7, 0, 3) }), 0.02,
		dapple(28, 0.06, 1, 0x2d3b2f, 0x4a5637, 0x77753f), hand{steady(-1.3), 2, 0.4})
	s.reeds(-0.02, 0.42, 0.9, 1.05, 0.34, 0.12, 90, 0x3c4a33, 0x6b6d3a, 0x9c9150, 0xc3b169, 0x2c382f)
	s.glints(0.3, 0.80, 0.62, 0.86, 0.06, 24, hex(0xb9c2bd))
	s.glints(1.27, 1.45, 0.62, 0.84, 0.06, 12, hex(0xa9b7b4))
	s.glints(0.02, 0.80, 0.555, 0.6, 0.045, 30, hex(0xe6e6da))
	s.glints(1.22, 1.45, 0.545, 0.6, 0.04, 16, hex(0xe6e6da))
	s.lay(bar, 0.03, dapple(26, 0.03, 2.4, 0x54534a, 0x7d7663, 0xa89b7d, 0xc4b592), hand{level, 1.4, 0.5})
	theHeron(s, 0.94, 0.33, 0.58)
}

// theHeron stands facing left; (cx, top) is over its shoulder at the height of the crown.
func theHeron(s *study, cx, top, tall float64) {
	at := func(p []pt) []pt { return place(p, cx, top, tall, 0) }
	grey, pale, ink := hex(0x6f7f8c), hex(0xdcd9cf), hex(0x232a35)
	s.glaze(oval(cx+0.1, top+tall+0.012, 0.13, 0.014, 0), 0.02, hex(0x3a4048), 0.9)
	// Far leg, near leg.
	for _, leg := range [][]pt{curve(0.15, 0.62, 0.18, 0.78, 0.155, 1.0), curve(0.07, 0.63, 0.065, 0.8, 0.075, 1.01)} {
		s.lay(ribbon(at(leg), taper(0.0125*tall, 0.0075*tall)), 0.002, plain(0x4b4638), hand{steady(1.57), 3, 1})
	}
	s.touch(at(curve(0.075, 1.01, 0.03, 1.022, -0.02, 1.025)), 0.003, 0.0015, hex(0x3a372d))
	s.touch(at(curve(0.155, 1.0, 0.12, 1.012, 0.09, 1.012)), 0.003, 0.0015, hex(0x3a372d))
	body := outline(at(loop(-0.09, 0.42, -0.02, 0.355, 0.1, 0.37, 0.24, 0.47, 0.36, 0.64, 0.41, 0.735, 0.3, 0.70, 0.18, 0.665, 0.04, 0.645, -0.06, 0.57)))
	s.lay(body, 0.004, func(x, y float64) rgb {
		u, v := (x-cx)/tall, (y-top)/tall
		return ramp(0.5+0.5*(0.52-v+0.35*u)*3+0.25*fbm(31, (x+y)*40, (y-x)*14, 3), 0x3d4855, 0x5d6c7a, 0x8797a1, 0xb3bdc0)
	}, hand{steady(0.72), 2.6, 0.8})
	// Folded wing edge and dark shoulder.
	s.lay(outline(at(loop(0.08, 0.60, 0.22, 0.605, 0.35, 0.69, 0.425, 0.76, 0.3, 0.725, 0.16, 0.67))), 0.004, plain(0x2b323d), hand{steady(0.5), 3, 0.9})
	s.lay(outline(at(loop(-0.075, 0.43, -0.02, 0.405, 0.035, 0.44, 0.01, 0.49, -0.05, 0.49))), 0.006, plain(0x28303b), hand{steady(0.5), 2, 0.9})
	// Breast plumes, then the neck in its S.
	s.lay(outline(at(loop(-0.11, 0.42, -0.055, 0.40, -0.03, 0.50, -0.05, 0.63, -0.085, 0.56))), 0.005, plain(0xcfcdc4), hand{steady(1.5), 2.5, 0.9})
	neck := at(curve(-0.045, 0.47, -0.10, 0.39, -0.085, 0.31, -0.015, 0.235, 0.005, 0.16, -0.025, 0.095, -0.075, 0.072))
	s.lay(ribbon(neck, func(t float64) float64 { return tall * lerp(0.056, 0.026, math.Sqrt(t)) }), 0.003, func(x, y float64) rgb {
		return pale.mix(hex(0xa9adb0), smooth(-0.02, 0.05, (x-cx)/tall+0.03*noise(33, x*40, y*40)))
	}, hand{along(neck), 2.5, 1})
	s.lay(oval(cx-0.085*tall, top+0.068*tall, 0.062*tall, 0.033*tall, 0.12), 0.003, plain(0xe6e2d6), hand{steady(0.1), 2, 1})
	s.lay(outline(at(points([]float64{-0.125, 0.05, -0.36, 0.098, -0.355, 0.104, -0.128, 0.09}))), 0.002, plain(0xc99a4b), hand{steady(0.2), 3, 1})
	s.touch(at(curve(-0.13, 0.088, -0.25, 0.098, -0.355, 0.103)), 0.0022, 0.001, hex(0x8a6230))
	s.touch(at(curve(-0.1, 0.05, -0.06, 0.044, 0.0, 0.06, 0.09, 0.105)), 0.006, 0.001, ink)
	s.touch(at(curve(-0.02, 0.062, 0.04, 0.1, 0.07, 0.135)), 0.003, 0.001, ink)
	s.touch(at(curve(-0.118, 0.066, -0.112, 0.066)), 0.0035, 0.003, ink)
	for i := range 5 {
		k := float64(i)
		s.touch(at(curve(-0.085+0.004*k, 0.30+0.03*k, -0.092+0.006*k, 0.33+0.03*k)), 0.0028, 0.001, hex(0x3a404a))
		s.touch(at(curve(-0.08+0.012*k, 0.46, -0.085+0.012*k, 0.56, -0.075+0.006*k, 0.64+0.01*k)), 0.0024, 0.0008, pale.mix(grey, 0.12*k))
	}
	for i := range 6 {
		k := float64(i)
		s.touch(at(curve(0.04+0.03*k, 0.43+0.018*k, 0.16+0.03*k, 0.52+0.018*k, 0.25+0.026*k, 0.63+0.016*k)), 0.0026, 0.001, hex(0xa9b4ba).mix(grey, s.between(0, 0.7)))
	}
}

func weir(s *study) {
	s.ground, s.lively = hex(0xa98f86), 0.045
	s.sky(0.42, 0.14, 41, 0x93a3bb, 0xb4b6c6, 0xd9c6c6, 0xf1d7bd)
	s.glow(0.95, 0.33, 0.22, hex(0xffe9c4), 0.75)
	s.ridge(0.335, 0.03, 4, 42, 0.012, dapple(43, 0.06, 1.4, 0x8d8fa6, 0xa3a0b2, 0xbfb1b6), hand{steady(1.5), 1.4, 0.2})
	s.ridge(0.375, 0.022, 6, 44, 0.008, dapple(45, 0.05, 2, 0x6f7489, 0x88889a, 0xb3a9b0), hand{steady(1.5), 1.4, 0.3})
	s.lay(below(func(x float64) float64 { return 0.41 + 0.01*noise(46, x*5, 0) }), 0.006, dapple(47, 0.08, 4, 0xa9adb5, 0xc9c8cb, 0xe6dfda), hand{level, 2.5, 0.2})
	water := outline(loop(0.62, 0.43, 0.78, 0.428, 1.0, 0.47, 1.25, 0.53, 1.6, 0.56, 1.6, 1.2, -0.3, 1.2, -0.25, 0.86, 0.05, 0.66, 0.42, 0.5))
	s.lay(water, 0.006, func(x, y float64) rgb {
		return ramp(2.6*(y-0.42)+0.4*fbm(40, x*4, y*50, 3), 0xc9bfca, 0xe4cfc6, 0xb9bac8, 0x8c9bb2)
	}, hand{level, 5, 0.4})
	crest := func(x float64) float64 { return 0.605 - 0.05*x - 0.05*math.Sin(x*2.2) }
	drop := func(x float64) float64 { return crest(x) + 0.075 + 0.05*(1.33-x)*0.5 + 0.01*fbm(48, x*10, 0, 2) }
	inRiver := func(sh shape) shape {
		d := sh.d
		sh.d = func(x, y float64) float64 { return max(d(x, y), water.d(x, y)) }
		return sh
	}
	s.lay(inRiver(band(crest, func(float64) float64 { return 1 })), 0.004, func(x, y float64) rgb {
		return ramp(0.45+0.5*fbm(49, x*4, y*24, 4)-0.35*(y-0.7), 0x2f3f52, 0x4f6377, 0x8494a4, 0xb9bdc6)
	}, hand{func(x, y float64) float64 { return 0.12 * noise(50, x*5, y*9) }, 4, 0.4})
	s.lay(inRiver(band(crest, drop)), 0.004, func(x, y float64) rgb {
		v := (y - crest(x)) / (drop(x) - crest(x))
		return ramp(0.2+0.55*v+0.5*fbm(51, x*26, y*4, 3), 0x54687c, 0x8fa0b1, 0xd4d7dc, 0xfbf4ea)
	}, hand{steady(1.5), 2.6, 0.75})
	s.lay(inRiver(band(func(x float64) float64 { return drop(x) - 0.008 }, func(x float64) float64 { return drop(x) + 0.05 + 0.04*fbm(52, x*7, 2, 3) })), 0.03,
		func(x, y float64) rgb { return ramp(0.55+0.8*fbm(53, x*13, y*36, 3), 0x7d8fa2, 0xc8cdd4, 0xfaf3e8) }, hand{level, 2, 0.6})
	// Frosted near bank.
	bank := below(func(x float64) float64 { return 1.13 - 0.27*math.Pow(x, 1.6) + 0.025*fbm(54, x*6, 0, 4) })
	s.lay(bank, 0.012, dapple(55, 0.09, 1.6, 0x6d6a6f, 0x9a8f86, 0xc7bfb9, 0xe9e4e0), hand{steady(-0.4), 1.6, 0.4})
	far := outline(loop(-0.2, 0.42, 0.3, 0.43, 0.55, 0.44, 0.4, 0.5, 0.12, 0.6, -0.2, 0.75))
	s.lay(far, 0.01, dapple(56, 0.07, 2.5, 0x7b756f, 0xa79f98, 0xd5cfcb, 0xeee8e2), hand{steady(-0.35), 2, 0.4})
	s.glaze(outline(loop(-0.2, 0.66, 0.12, 0.575, 0.4, 0.485, 0.42, 0.5, 0.14, 0.61, -0.2, 0.77)), 0.012, hex(0x6d6577), 0.8)
	// Old sluice posts.
	for i := range 6 {
		x := 0.30 + 0.115*float64(i)
		y := crest(x)
		tall := 0.075 - 0.006*float64(i)
		s.bole(curve(x, y-tall, x+0.004, y-tall/2, x+0.002, y+0.03), 0.0085, 0.0095, 1, 57+i, 0x2c2830, 0x4d444a, 0x87776d)
		s.touch(curve(x-0.007, y-tall-0.003, x+0.007, y-tall-0.003), 0.004, 0.0035, hex(0xf2ede8))
	}
	s.touch(curve(0.29, crest(0.29)-0.045, 0.6, crest(0.6)-0.035, 0.89, crest(0.89)-0.028), 0.0055, 0.004, hex(0x43393d))
	s.touch(curve(0.29, crest(0.29)-0.052, 0.6, crest(0.6)-0.041, 0.89, crest(0.89)-0.033), 0.0022, 0.0018, hex(0xe9e4e4))
	s.bareTree(0.13, 0.6, -1.55, 0.2, 0.011, 6, hex(0x4a4250))
	s.bareTree(0.3, 0.52, -1.62, 0.13, 0.0065, 5, hex(0x5d5565))
	s.bareTree(0.42, 0.475, -1.5, 0.085, 0.004, 5, hex(0x77717f))
	s.bareTree(1.2, 0.5, -1.57, 0.1, 0.0045, 5, hex(0x6e6878))
	s.bareTree(1.29, 0.52, -1.5, 0.13, 0.006, 5, hex(0x5f5868))
	s.reeds(0.55, 1.36, 0.93, 1.08, 0.2, 0.15, 130, 0x8a7a66, 0xb8a88f, 0xe6dccd, 0xf4efe8, 0x6a5c55)
	s.reeds(-0.02, 0.3, 0.58, 0.66, 0.06, 0.1, 60, 0xa59a8f, 0xe2dad2, 0x7d726b)
	s.glints(0.1, 0.85, 0.76, 0.9, 0.07, 26, hex(0xb4bfcc))
}

func alder(s *study) {
	s.ground, s.lively = hex(0x8b6f4a), 0.055
	shore := 0.60
	s.sky(shore, 0.22, 61, 0xb9b884, 0xcfc78f, 0xe6d8a0, 0xd9c78e)
	s.ridge(0.30, 0.14, 4, 62, 0.05, dapple(63, 0.07, 1, 0x8d9469, 0xa9a670, 0xc9bd80), hand{steady(1.4), 1.5, 0.2})
	s.ridge(0.48, 0.05, 7, 64, 0.03, dapple(65, 0.05, 1.2, 0x6a7653, 0x858a5b, 0xada26a), hand{steady(1.5), 1.5, 0.2})
	for i := range 9 { // far stems, pale in the mist
		x := s.between(0, s.a)
		s.bole(curve(x, -0.02, x+s.between(-0.01, 0.01), 0.3, x+s.between(-0.015, 0.015), shore), 0.004, 0.007, 1, 70+i, 0x7a7c5c, 0x94926a, 0xb5ab7d)
	}
	s.ridge(0.575, 0.012, 12, 66, 0.01, dapple(67, 0.03, 2, 0x3d4a33, 0x5c673b, 0x8f8c4b), hand{steady(1.4), 1.4, 0.4})
	trunks := []struct{ x, lean, w, foot float64 }{
		{0.065, 0.02, 0.024, 0.625}, {0.20, -0.035, 0.016, 0.605}, {0.285, 0.03, 0.034, 0.66},
		{0.415, 0.01, 0.012, 0.605}, {0.475, -0.03, 0.022, 0.63}, {0.60, 0.045, 0.03, 0.645},
	}
	for i, t := range trunks {
		path := curve(t.x+t.lean*2, -0.05, t.x+t.lean*1.1, 0.18, t.x+t.lean*0.2, 0.4, t.x, t.foot-0.03, t.x-0.004, t.foot)
		s.bole(path, t.w*0.62, t.w*1.12, 1, 80+i, 0x231d20, 0x42353a, 0x6a5a4a, 0xa3905c)
		s.lay(oval(t.x, t.foot, t.w*2, 0.013, 0), 0.012, dapple(90+i, 0.02, 1, 0x2c3525, 0x55602f, 0x8b8a42), hand{level, 1.3, 0.5})
	}
	for i := range 26 {
		x := s.between(-0.03, 0.7)
		y := -0.02 + 0.27*s.between(0, 1)*s.between(0.3, 1)
		s.crown(x, y, s.between(0.07, 0.15), s.between(0.022, 0.045), 1, 100+i, 0x4a5430, 0x737a38, 0xa9a148, 0xdccb70)
	}
	s.mirrorInWater(below(func(x float64) float64 { return 0.628 + 0.012*noise(68, x*9, 0) }), 0.64, 0.02, hex(0xc6c9a6), hex(0x39412f), 0.35)
	// Feet in front of the water line are painted again over it.
	for i, t := range trunks {
		if t.foot > 0.625 {
			s.bole(curve(t.x+0.001, t.foot-0.09, t.x, t.foot-0.04, t.x-0.004, t.foot), t.w*0.98, t.w*1.2, 1, 80+i, 0x231d20, 0x42353a, 0x6a5a4a, 0x93854f)
			s.lay(oval(t.x-0.002, t.foot+0.002, t.w*1.9, 0.011, 0), 0.008, dapple(95+i, 0.02, 1, 0x252c20, 0x4c5829, 0x8b8a42), hand{level, 1.3, 0.6})
		}
	}
	s.glow(0.36, 0.9, 0.14, hex(0xe9dca0), 0.3)
	for i := range 7 { // rafts of fallen leaves
		x, y := s.between(0.02, 0.62), s.between(0.72, 0.97)
		s.lay(oval(x, y, s.between(0.03, 0.08), s.between(0.004, 0.009), 0), 0.008, dapple(110+i, 0.012, 1, 0x5a4a2a, 0xa07a35, 0xd0a64e), hand{level, 1.2, 0.7})
	}
	for range 300 { // loose leaves at the canopy's edge
		x, y := s.between(0, 0.667), 0.34*s.between(0, 1)*s.between(0.2, 1)
		s.touch(curve(x, y, x+s.between(-0.006, 0.006), y+s.between(0.002, 0.008)), s.between(0.0018, 0.0042), 0.0012, ramp(s.between(0, 1), 0x55602f, 0x95953f, 0xe0cf76))
	}
	for i, t := range trunks { // dead lower branches
		if t.w < 0.02 {
			continue
		}
		side := float64(1 - 2*(i%2))
		x, y := t.x+t.lean*0.9, 0.24+0.035*float64(i)
		s.touch(curve(x, y, x+side*0.04, y-0.012, x+side*0.085, y+0.018), 0.003, 0.0008, hex(0x3a2f2c))
		s.touch(curve(x+side*0.04, y-0.012, x+side*0.06, y-0.03, x+side*0.075, y-0.034), 0.0015, 0.0007, hex(0x3a2f2c))
	}
	s.reeds(-0.02, 0.3, 0.98, 1.06, 0.17, 0.1, 60, 0x4a5228, 0x84823a, 0xb9ab55, 0x2f3622)
	s.glints(0.05, 0.6, 0.68, 0.97, 0.05, 26, hex(0xc9c48e))
}

func saltings(s *study) {
	s.ground, s.lively = hex(0xb4956f), 0.045
	h := 0.665
	s.sky(h, 0.12, 121, 0x6f8fae, 0x8fa9bd, 0xb7c3c6, 0xe0d5bd, 0xf3dcae)
	s.cloud(0.35, 0.27, 0.34, 0.15, 122, 0xf7efe0, 0x8f9aa8)
	s.cloud(1.15, 0.2, 0.44, 0.17, 123, 0xfaf1df, 0x8893a4)
	s.cloud(0.8, 0.44, 0.3, 0.06, 124, 0xf5e6cc, 0xa9adb2)
	s.cloud(1.5, 0.47, 0.3, 0.055, 125, 0xf3e3ca, 0xabaeb2)
	s.cloud(0.1, 0.5, 0.3, 0.045, 126, 0xf2e0c4, 0xb4b4b2)
	s.cloud(0.75, 0.05, 0.3, 0.06, 127, 0xe8e4dc, 0x8398ae)
	s.ridge(0.648, 0.01, 6, 128, 0.005, dapple(129, 0.05, 2, 0x7e8b96, 0x8f99a0, 0xa5a9a8), hand{level, 1.6, 0.3})
	s.lay(below(func(x float64) float64 { return h }), 0.004, func(x, y float64) rgb {
		k := (y - h) / (1 - h)
		return ramp(0.5+0.6*fbm(130, x*(7-4*k), y*40/(1+3*k), 4), 0x55583f, 0x7a7551, 0x988d63, 0xb0a27c).
			mix(hex(0x9c93a0), 0.5*smooth(0.1, 0.7, fbm(131, x*5, y*22, 3))).mix(hex(0xa7ab9c), 0.5*(1-smooth(0, 0.25, k)))
	}, hand{func(x, y float64) float64 { return 0.1 * noise(132, x*6, y*12) }, 3, 0.35})
	// The creek, winding to us; its mud banks first.
	creek := func(grow float64) shape {
		p := curve(0.62, 0.668, 0.83, 0.682, 1.0, 0.70, 0.86, 0.728, 0.62, 0.755, 0.6, 0.80, 0.86, 0.86, 1.0, 0.95, 0.86, 1.1)
		return ribbon(p, func(t float64) float64 {
			return (0.004 + 0.16*math.Pow(t, 2.3)) * grow * (1 + 0.15*fbm(133, t*18, 0, 2))
		})
	}
	s.lay(creek(1.55), 0.01, dapple(134, 0.06, 4, 0x4d443b, 0x6b5e4e, 0x8a7b65), hand{steady(-0.15), 2.4, 0.4})
	s.lay(creek(1.16), 0.006, dapple(135, 0.05, 4, 0x877a68, 0xa3957d, 0x6f6454), hand{steady(0.1), 2.4, 0.4})
	s.lay(creek(1), 0.004, func(x, y float64) rgb {
		k := (y - h) / (1 - h)
		return ramp(1-k*0.95+0.25*fbm(136, x*4, y*30, 3), 0x6d8ca8, 0x9db2bf, 0xcfd0c5, 0xf3e1bb)
	}, hand{level, 5, 0.5})
	s.lay(ribbon(curve(0.0, 0.7, 0.3, 0.697, 0.5, 0.705), lens(0.006)), 0.003, plain(0xe9dcbd), hand{level, 5, 0.8})
	s.lay(ribbon(curve(1.2, 0.72, 1.4, 0.714, 1.62, 0.72), lens(0.007)), 0.003, plain(0xdcd8c6), hand{level, 5, 0.8})
	// A boat left by the tide.
	boat := func(xy ...float64) []pt { return place(loop(xy...), 0.33, 0.80, 0.95, -0.1) }
	s.glaze(oval(0.35, 0.832, 0.14, 0.012, -0.05), 0.015, hex(0x4a423c), 0.9)
	s.lay(outline(boat(-0.12, -0.03, -0.06, -0.012, 0.04, -0.012, 0.12, -0.04, 0.10, 0.01, 0.05, 0.03, -0.06, 0.03, -0.105, 0.012)), 0.003, func(x, y float64) rgb {
		return ramp((0.83-y)/0.07, 0x1e2a33, 0x2d4150, 0x4f6b78)
	}, hand{steady(-0.05), 3, 0.9})
	s.lay(outline(boat(-0.118, -0.033, -0.06, -0.018, 0.04, -0.017, 0.118, -0.043, 0.05, -0.003, -0.05, -0.003)), 0.003, plain(0x8a6b4b), hand{steady(-0.1), 3, 0.9})
	s.touch(place(curve(-0.12, -0.032, -0.06, -0.004, 0.04, -0.003, 0.12, -0.042), 0.33, 0.80, 0.95, -0.1), 0.0035, 0.003, hex(0xe9dcc0))
	s.touch(curve(0.35, 0.79, 0.385, 0.62), 0.0034, 0.002, hex(0x4a3c31))
	s.touch(curve(0.45, 0.765, 0.53, 0.80, 0.585, 0.815), 0.0014, 0.001, hex(0x3a332c))
	s.reeds(1.1, 1.62, 0.95, 1.06, 0.12, 0.2, 110, 0x5b5a38, 0x8c8150, 0xb9a873, 0x8b7f92, 0x3f4230)
	s.reeds(-0.02, 0.6, 0.97, 1.06, 0.1, 0.2, 90, 0x5b5a38, 0x8c8150, 0xb9a873, 0x8b7f92, 0x3f4230)
	for range 9 { // gulls over the creek
		x, y := s.between(0.75, 1.3), s.between(0.5, 0.63)
		w := s.between(0.006, 0.012)
		s.touch(curve(x-w, y-w*0.3, x-w*0.4, y-w*0.5, x, y, x+w*0.5, y-w*0.55, x+w, y-w*0.2), 0.0013, 0.001, hex(0xfaf5ea))
	}
	s.glints(0.7, 1.05, 0.86, 0.99, 0.08, 18, hex(0xf5ead0))
}
