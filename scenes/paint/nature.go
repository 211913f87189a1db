package main

import "math"

// sky fills down to y = to with a ramp of stops, stirred by broad drifting cloud.
func (s *study) sky(to, stir float64, seed int, stops ...uint32) {
	s.lay(everywhere(func(x, y float64) float64 { return y - to }), 0, func(x, y float64) rgb {
		n := fbm(seed, x*2.2, y*6, 4)
		return ramp(y/to+stir*n, stops...).shift(0.02*fbm(seed+9, x*5, y*9, 2), 0)
	}, hand{func(x, y float64) float64 { return 0.35*noise(seed+3, x*2, y*3) - 0.08 }, 2.6, 0.1})
}

// cloud banks bright heads with shaded, flatter feet.
func (s *study) cloud(cx, cy, rx, ry float64, seed int, light, shade uint32) {
	d := func(x, y float64) float64 {
		dx, dy := (x-cx)/rx, (y-cy)/ry
		if dy > 0 {
			dy *= 1.9
		}
		return (length(dx, dy) - 0.8 - 0.55*fbm(seed, x*4.5/max(ry*4, 0.4), y*6.5/max(ry*4, 0.4), 4)) * ry
	}
	sh := shape{cx - 2*rx, cy - 2*ry, cx + 2*rx, cy + 2*ry, d}
	s.lay(sh, ry*0.35, func(x, y float64) rgb {
		up := (cy - y) / ry
		lump := d(x-0.03, y-0.035) - d(x, y)
		return hex(shade).mix(hex(light), clamp(0.45+0.4*up+lump*9, 0, 1))
	}, hand{func(x, y float64) float64 { return 1.5 * noise(seed+5, x*5, y*6) }, 1.6, 0.3})
}

// ridge is a far hill, wood or bank: everything under a wavering line.
func (s *study) ridge(base, amp, freq float64, seed int, soft float64, t tint, h hand) {
	s.lay(below(func(x float64) float64 { return base + amp*fbm(seed, x*freq, 3.7, 4) }), soft, t, h)
}

// dapple mixes colours in soft patches, the staple of grass, mud and far woods.
func dapple(seed int, size, squash float64, stops ...uint32) tint {
	return func(x, y float64) rgb {
		return ramp(0.5+0.75*fbm(seed, x/size, y/size*squash, 4), stops...)
	}
}

// crown is a mass of leaves: ragged outside, clumped inside, lit from the side of lx
// (-1 left .. 1 right) and above.
func (s *study) crown(cx, cy, rx, ry, lx float64, seed int, stops ...uint32) {
	size := min(rx, ry)
	d := func(x, y float64) float64 {
		k := length((x-cx)/rx, (y-cy)/ry)
		return (k - 0.84 - 0.46*fbm(seed, x*2.6/size, y*2.6/size, 4)) * size
	}
	s.lay(shape{cx - 1.5*rx, cy - 1.5*ry, cx + 1.5*rx, cy + 1.5*ry, d}, size*0.12, func(x, y float64) rgb {
		u, v := (x-cx)/rx, (y-cy)/ry
		clump := fbm(seed+2, x*3.2/size, y*3.6/size, 3) - fbm(seed+2, (x+0.12*size*lx)*3.2/size, (y-0.14*size)*3.6/size, 3)
		leaf := noise(seed+6, x*90, y*90)
		return ramp(0.46+0.3*(u*lx-v)+0.95*clump+0.10*leaf, stops...)
	}, hand{func(x, y float64) float64 { return 0.8 + 1.8*noise(seed+4, x*5/size, y*5/size) }, 1.5, 0.3})
}

// bole is a tree trunk along a path, lit from the side of lx.
func (s *study) bole(path []pt, w0, w1, lx float64, seed int, stops ...uint32) {
	a, b := path[0], path[len(path)-1]
	s.lay(ribbon(path, taper(w0, w1)), 0.003, func(x, y float64) rgb {
		t := clamp((y-a.y)/(b.y-a.y), 0, 1)
		i := min(int(t*float64(len(path)-1)), len(path)-2)
		c := lerp(path[i].x, path[i+1].x, t*float64(len(path)-1)-float64(i))
		k := (x - c) / lerp(w0, w1, t)
		return ramp(0.45+0.42*k*lx+0.3*fbm(seed, x*60, y*16, 3), stops...)
	}, hand{along(path), 3, 0.75})
}

// bareTree grows a leafless tree of last touches: stems that fork and taper.
func (s *study) bareTree(x, y, dir, length, w float64, depth int, c rgb) {
	bend := s.between(-0.12, 0.12)
	mx, my := x+math.Cos(dir)*length*0.5, y+math.Sin(dir)*length*0.5
	ex, ey := mx+math.Cos(dir+bend)*length*0.5, my+math.Sin(dir+bend)*length*0.5
	s.touch(curve(x, y, mx, my, ex, ey), w, w*0.62, c)
	if depth == 0 {
		return
	}
	for range 2 + s.rnd.IntN(2) {
		d := dir + s.between(-0.62, 0.62)
		d += 0.18 * math.Remainder(-math.Pi/2-d, 2*math.Pi) // twigs seek the light
		s.bareTree(ex, ey, d, length*s.between(0.55, 0.82), w*0.6, depth-1, c)
	}
	if depth > 1 {
		s.bareTree(mx, my, dir+s.between(0.4, 0.8)*float64(1-2*s.rnd.IntN(2)), length*0.5, w*0.45, depth-2, c)
	}
}

// reeds sets blades of grass along a strip as last touches.
func (s *study) reeds(x0, x1, y0, y1, tall, lean float64, n int, colours ...uint32) {
	for range n {
		x, y := s.between(x0, x1), s.between(y0, y1)
		l := tall * s.between(0.45, 1)
		sway := lean*l + s.between(-0.25, 0.25)*l
		c := hex(colours[s.rnd.IntN(len(colours))]).shift(s.between(-0.04, 0.04), 0)
		s.touch(curve(x, y, x+sway*0.25, y-l*0.6, x+sway, y-l), s.between(0.0014, 0.0028), 0.0006, c)
	}
}

// glints are short level touches of light on water.
func (s *study) glints(x0, x1, y0, y1, long float64, n int, c rgb) {
	for range n {
		x, y := s.between(x0, x1), s.between(y0, y1)
		l := long * s.between(0.3, 1) * (0.4 + (y-y0)/(y1-y0+1e-9))
		w := s.between(0.0007, 0.0019)
		s.touch(curve(x, y, x+l*0.3, y+s.between(-0.002, 0.002), x+l, y), w, w*0.4, c.shift(s.between(-0.1, 0.03), 0))
	}
}
