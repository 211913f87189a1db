package main

import "math"

func dahlias(s *study) {
	s.ground, s.lively = hex(0x7a4a4a), 0.045
	s.wall(901, 0x4f4a5a, 0x6f6a78, 0x958d94, 0xb9aeac)
	s.lay(below(func(x float64) float64 { return 0.80 + 0.01*math.Sin(x*4) }), 0.006, func(x, y float64) rgb {
		return ramp(0.75-0.5*x/s.a+0.3*fbm(902, x*5, y*12, 3), 0x6a5348, 0x957a63, 0xbfa384, 0xddc8a8)
	}, hand{steady(0.03), 3.2, 0.2})
	s.castShadow(0.42, 0.93, 0.20, 0.04, hex(0x4c4058))
	vase := solid{pt{0.40, 0.94}, pt{0.40, 0.60}, profile(false, 1, 0.075, 0.115, 0.132, 0.122, 0.09, 0.066, 0.082)}
	s.model(vase, 0.06, 0x12242e, 0x1d3c48, 0x2f5e69, 0x5b8f92, 0xb5d0c4)
	s.gleam(0.335, 0.755, 0.011, 0.036, 0.08, hex(0xf3f6ea))
	s.gleam(0.475, 0.83, 0.006, 0.022, -0.1, hex(0x7fa4a4))
	for i := range 8 { // a dark mass of leaf behind the flowers
		a := float64(i)/8*2*math.Pi + 0.3
		s.crown(0.40+0.19*math.Cos(a), 0.37+0.17*math.Sin(a), 0.13, 0.12, -1, 910+i, 0x1c2a26, 0x2f4234, 0x4d6244, 0x7b8a58)
	}
	s.crown(0.40, 0.52, 0.16, 0.10, -1, 919, 0x1c2a26, 0x2c3f32, 0x4d6244, 0x71804f)
	for _, l := range [][4]float64{{0.22, 0.50, 0.06, 0.60}, {0.56, 0.53, 0.73, 0.62}, {0.20, 0.25, 0.09, 0.13}, {0.58, 0.22, 0.71, 0.10}, {0.42, 0.16, 0.38, 0.04}, {0.44, 0.58, 0.53, 0.68}, {0.34, 0.58, 0.24, 0.69}, {0.66, 0.40, 0.78, 0.44}, {0.12, 0.38, 0.02, 0.36}} {
		s.leaf(l[0], l[1], l[2], l[3], 0.034, s.between(-0.2, 0.2), 0x7f9258, 0x2b3f30)
	}
	reds := []uint32{0x4a0f1c, 0x82182a, 0xb52a35, 0xdc5047, 0xf39a7c}
	pinks := []uint32{0x7a2f4f, 0xb04d70, 0xd97f98, 0xf0b1b8, 0xfde0dc}
	golds := []uint32{0x7d3a16, 0xb8601c, 0xe08e2c, 0xf6bb54, 0xfde3a0}
	plums := []uint32{0x24101f, 0x471a36, 0x6d2a4c, 0x964a68, 0xc58698}
	creams := []uint32{0x8f7f6a, 0xbfae8f, 0xe2d3b2, 0xf5ecd4, 0xfffaf0}
	set := []struct {
		x, y, r, tip float64
		stops        []uint32
	}{
		{0.20, 0.21, 0.088, -0.5, plums}, {0.60, 0.19, 0.095, 0.5, golds}, {0.40, 0.15, 0.082, 0, pinks},
		{0.13, 0.42, 0.092, -0.8, golds}, {0.67, 0.40, 0.088, 0.8, plums}, {0.305, 0.345, 0.125, -0.15, reds},
		{0.525, 0.365, 0.115, 0.25, creams}, {0.265, 0.545, 0.088, -0.5, pinks}, {0.475, 0.545, 0.10, 0.1, reds}, {0.63, 0.555, 0.06, 0.9, pinks},
	}
	for i, f := range set {
		s.glaze(oval(f.x+0.014, f.y+0.022, f.r*1.05, f.r*1.05, 0), f.r*0.3, hex(0x33333f), 0.75)
		s.dahlia(f.x, f.y, f.r, f.tip, 930+i, f.stops)
	}
	for i, f := range []struct{ x, y float64 }{{0.56, 0.925}, {0.20, 0.945}, {0.62, 0.965}} {
		c := [][]uint32{reds, pinks, golds}[i]
		s.glaze(oval(f.x+0.008, f.y+0.006, 0.026, 0.008, 0), 0.01, hex(0x4c4058), 0.8)
		s.lay(ribbon(curve(f.x-0.022, f.y, f.x, f.y-0.008, f.x+0.024, f.y+0.002), lens(0.009)), 0.003, func(x, y float64) rgb {
			return ramp(0.6-(y-f.y)*40, c...)
		}, hand{steady(0.1), 2, 0.9})
	}
}

// dahlia builds a flower ring by ring from the outer petals in; tip leans its face.
func (s *study) dahlia(cx, cy, r, tip float64, seed int, stops []uint32) {
	rings := 6
	for ring := range rings {
		k := 1 - float64(ring)/float64(rings)
		n := 9 + int(9*k)
		for j := range n {
			a := (float64(j)+0.5*float64(ring%2))/float64(n)*2*math.Pi + 0.2*lattice(seed, ring, j)
			reach := r * (0.16 + 0.86*k) * (1 + 0.08*lattice(seed+1, ring, j))
			squash := 1 - 0.18*math.Abs(tip)
			mx, my := cx+0.22*r*tip*(1-k), cy-0.12*r*(1-k)
			dx, dy := math.Cos(a)*squash, math.Sin(a)*0.94
			in := reach * 0.35
			path := curve(mx+dx*in, my+dy*in, mx+dx*(in+reach)/2, my+dy*(in+reach)/2, mx+dx*reach, my+dy*reach)
			wide := reach * 2 * math.Pi / float64(n) * 0.40
			light := 0.44 - 0.30*(dx*0.6+dy*0.75) + 0.10*(1-k) + 0.1*lattice(seed+2, ring, j)
			s.lay(ribbon(path, func(t float64) float64 {
				return wide * math.Sqrt(clamp(1-math.Pow(2*t-1, 4), 0, 1)) * (0.62 + 0.38*t)
			}), 0.002, func(x, y float64) rgb {
				out := length((x-mx)/squash, (y-my)/0.94) / reach
				side := ((x-mx)*dy - (y-my)*dx) / wide
				return ramp(light+0.52*(out-0.72)-0.12*side-0.15*smooth(0.6, 1, math.Abs(side)), stops...)
			}, hand{steady(a), 2.4, 1})
		}
	}
	for range 12 {
		a, k := s.between(0, 6.28), s.between(0, 0.13)*r
		x, y := cx+0.22*r*tip+k*math.Cos(a), cy-0.12*r+k*math.Sin(a)
		s.touch(curve(x, y, x+0.002, y), r*0.026, r*0.02, ramp(s.between(0.1, 0.7), stops...))
	}
}
