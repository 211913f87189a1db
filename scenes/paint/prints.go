package main

import "math"

func moths(p *print) {
	soft, key := p.block(0xc99a5b), p.block(0x23303f)
	frame := p.margin(0.07)
	soft.leave(frame)
	key.leave(frame)
	type moth struct{ x, y, size, turn float64 }
	set := []moth{{0.345, 0.31, 0.30, -0.22}, {0.27, 0.63, 0.20, 0.5}, {0.555, 0.70, 0.225, -0.45}}
	moon := pt{0.635, 0.155}
	near := func(x, y float64) bool {
		for _, m := range set {
			if length(x-m.x, y-m.y) < m.size*0.62 {
				return true
			}
		}
		return length(x-moon.x, y-moon.y) < 0.075
	}
	// Rings of light round the moon fill the night.
	p.gouges(key, 0.0165, 0.045, 0.0026, func(x, y float64) float64 { return math.Atan2(y-moon.y, x-moon.x) + math.Pi/2 },
		func(x, y float64) bool { return frame.d(x, y) < -0.012 && !near(x, y) && y < 0.86 })
	key.cut(oval(moon.x, moon.y, 0.05, 0.05, 0))
	soft.cut(oval(moon.x, moon.y, 0.05, 0.05, 0))
	for _, m := range set {
		for _, side := range []float64{1, -1} {
			at := func(q []pt) []pt {
				if side < 0 {
					q = mirror(q)
				}
				return place(q, m.x, m.y, m.size, m.turn)
			}
			fore := outline(at(loop(0.03, -0.13, 0.18, -0.30, 0.42, -0.44, 0.62, -0.42, 0.60, -0.28, 0.50, -0.10, 0.30, 0.0, 0.05, 0.02)))
			hind := outline(at(loop(0.03, -0.02, 0.22, -0.02, 0.42, 0.06, 0.46, 0.22, 0.34, 0.36, 0.18, 0.33, 0.05, 0.14)))
			key.cut(hind)
			for i := range 9 {
				a := 0.12 + 0.155*float64(i)
				key.leave(ribbon(at(curve(0.14*math.Cos(a), 0.02+0.14*math.Sin(a), 0.40*math.Cos(a), 0.02+0.37*math.Sin(a))), lens(0.009*m.size)))
			}
			key.leave(ribbon(at(curve(0.44, 0.07, 0.42, 0.20, 0.33, 0.31, 0.19, 0.29, 0.10, 0.18)), taper(0.014*m.size, 0.01*m.size)))
			key.leave(outline(at(loop(0.24, 0.12, 0.31, 0.13, 0.31, 0.21, 0.24, 0.21))))
			soft.cut(outline(at(loop(0.26, 0.145, 0.295, 0.15, 0.29, 0.185, 0.26, 0.185))))
			key.cut(outline(at(loop(0.26, 0.145, 0.295, 0.15, 0.29, 0.185, 0.26, 0.185))))
			key.leave(ribbon(at(loop(0.03, -0.13, 0.18, -0.30, 0.42, -0.44, 0.62, -0.42, 0.60, -0.28, 0.50, -0.10, 0.30, 0.0, 0.05, 0.02)), taper(0.02*m.size, 0.02*m.size)))
			key.cut(fore)
			for i := range 10 { // veins fan from the root
				a := -0.78 + 0.085*float64(i)
				key.leave(ribbon(at(curve(0.08, -0.07, 0.08+0.33*math.Cos(a), -0.07+0.33*math.Sin(a), 0.08+0.49*math.Cos(a+0.02), -0.07+0.49*math.Sin(a+0.02))), taper(0.0025*m.size, 0.0085*m.size)))
			}
			for _, k := range []float64{0.30, 0.60, 0.84} { // wavy cross bands
				q := curve(lerp(0.04, 0.30, k)*1.0, lerp(-0.14, -0.38, k), lerp(0.10, 0.43, k), lerp(-0.10, -0.27, k), lerp(0.08, 0.42, k), lerp(-0.05, -0.17, k), lerp(0.06, 0.42, k), lerp(0.0, -0.05, k))
				key.leave(ribbon(at(q), taper((0.012+0.01*k)*m.size, (0.010+0.008*k)*m.size)))
			}
			key.leave(outline(at(loop(0.29, -0.30, 0.36, -0.32, 0.37, -0.25, 0.30, -0.23))))
			for _, b := range []*block{key, soft} {
				b.cut(outline(at(loop(0.315, -0.29, 0.345, -0.295, 0.348, -0.262, 0.318, -0.255))))
			}
			for i := range 9 { // fringe
				t := float64(i) / 8
				x, y := lerp(0.605, 0.40, t), lerp(-0.38, -0.05, t)+0.02*math.Sin(t*3)
				q := at(curve(x-0.035, y-0.01, x+0.005, y+0.006))
				soft.cut(ribbon(q, lens(0.011*m.size)))
				key.cut(ribbon(q, lens(0.011*m.size)))
			}
			// Feathered feeler.
			feeler := at(curve(0.02, -0.17, 0.07, -0.27, 0.16, -0.35))
			key.cut(ribbon(feeler, lens(0.011*m.size)))
			for i := 2; i < len(feeler)-1; i += 2 {
				q := feeler[i]
				a := math.Atan2(feeler[i+1].y-q.y, feeler[i+1].x-q.x)
				for _, t := range []float64{1.0, -1.0} {
					key.cut(ribbon([]pt{q, {q.x + 0.05*m.size*math.Cos(a+t), q.y + 0.05*m.size*math.Sin(a+t)}}, taper(0.006*m.size, 0.003*m.size)))
				}
			}
		}
		at := func(q []pt) []pt { return place(q, m.x, m.y, m.size, m.turn) }
		body := at(loop(0, -0.19, 0.05, -0.15, 0.062, -0.06, 0.05, 0.06, 0.042, 0.18, 0, 0.31, -0.042, 0.18, -0.05, 0.06, -0.062, -0.06, -0.05, -0.15))
		key.leave(ribbon(body, taper(0.012*m.size, 0.012*m.size)))
		key.cut(outline(body))
		for i := range 7 {
			y := -0.02 + 0.042*float64(i)
			key.leave(ribbon(at(curve(-0.045, y, 0, y+0.018, 0.045, y)), lens(0.011*m.size)))
		}
		for i := range 13 { // fur
			a := float64(i) / 12 * math.Pi
			key.leave(ribbon(at(curve(0.02*math.Cos(a), -0.09-0.02*math.Sin(a), 0.058*math.Cos(a), -0.09-0.07*math.Sin(a))), lens(0.007*m.size)))
		}
	}
	// Grass at the foot, cut light.
	for range 70 {
		x := p.between(0.07, p.a-0.07)
		l := p.between(0.05, 0.16)
		q := curve(x, 0.915, x+p.between(-0.02, 0.02), 0.91-l*0.6, x+p.between(-0.06, 0.06), 0.91-l)
		key.cut(ribbon(q, func(t float64) float64 { return 0.0042 * (1 - t) }))
	}
	for _, b := range []*block{soft, key} {
		outside(b, frame)
	}
}

// outside clears everything beyond the printed rectangle.
func outside(b *block, frame shape) {
	b.cut(everywhere(func(x, y float64) float64 { return -frame.d(x, y) }))
}

func thistle(p *print) {
	green, rose, key := p.block(0xa9b189), p.block(0xb5476b), p.block(0x1f2e2b)
	frame := p.margin(0.07)
	green.leave(frame)
	heads := []struct{ x, y, r, turn float64 }{{0.405, 0.27, 0.105, 0.06}, {0.20, 0.43, 0.066, -0.45}, {0.59, 0.45, 0.074, 0.5}}
	// A pale sky carved with rays leaves the plant to the key block.
	p.gouges(green, 0.021, 0.085, 0.0042, func(x, y float64) float64 { return math.Atan2(y-0.27, x-0.405) },
		func(x, y float64) bool { return frame.d(x, y) < -0.01 && length(x-0.405, y-0.27) > 0.15 })
	stem := curve(0.40, 0.95, 0.41, 0.78, 0.395, 0.6, 0.405, 0.36)
	key.leave(ribbon(stem, taper(0.015, 0.010)))
	left, right := curve(0.40, 0.74, 0.33, 0.63, 0.25, 0.56, 0.222, 0.49), curve(0.405, 0.80, 0.49, 0.69, 0.55, 0.60, 0.568, 0.51)
	key.leave(ribbon(left, taper(0.011, 0.007)))
	key.leave(ribbon(right, taper(0.011, 0.007)))
	// Leaves: a rib with spiny lobes either side.
	leaf := func(x, y, long, turn, flip float64) {
		var up, down []pt
		const lobes = 6
		for i := range lobes {
			t := (float64(i) + 0.3) / lobes
			w := 0.40 * math.Sin(math.Pi*math.Pow(0.08+0.9*t, 0.75))
			up = append(up, pt{t - 0.05, -0.14 * (1 - t)}, pt{t + 0.07, -w * (1 + 0.1*lattice(5, i, 1))})
			down = append(down, pt{t - 0.05, 0.12 * (1 - t)}, pt{t + 0.06, w * 0.85 * (1 + 0.1*lattice(5, i, 2))})
		}
		q := append([]pt{{0, 0}}, up...)
		q = append(q, pt{1.08, 0.02})
		for i := len(down) - 1; i >= 0; i-- {
			q = append(q, down[i])
		}
		bow := func(r pt) pt { return pt{r.x * flip, r.y + 0.18*r.x*r.x} }
		at := func(q []pt) []pt {
			b := make([]pt, len(q))
			for i, r := range q {
				b[i] = bow(r)
			}
			return place(b, x, y, long, turn)
		}
		key.leave(outline(at(q)))
		key.cut(ribbon(at(curve(0.04, 0, 0.35, 0, 0.7, 0, 0.98, 0.01)), taper(0.0042, 0.0012)))
		for i := range lobes {
			t := (float64(i) + 0.3) / lobes
			w := 0.29 * math.Sin(math.Pi*math.Pow(0.08+0.9*t, 0.75))
			key.cut(ribbon(at(curve(t-0.03, -0.035, t+0.05, -w)), lens(0.0026)))
			key.cut(ribbon(at(curve(t-0.03, 0.03, t+0.045, w*0.85)), lens(0.0026)))
		}
	}
	leaf(0.40, 0.85, 0.29, -0.42, 1)
	leaf(0.40, 0.83, 0.29, 0.38, -1)
	leaf(0.405, 0.76, 0.18, 0.75, -1)
	leaf(0.40, 0.66, 0.19, -0.75, 1)
	leaf(0.40, 0.54, 0.12, 0.85, -1)
	leaf(0.40, 0.48, 0.11, -0.8, 1)
	for _, h := range heads {
		at := func(q []pt) []pt { return place(q, h.x, h.y, h.r, h.turn) }
		// The tuft, in rose with key strokes; the scaled cup below.
		tuft := at([]pt{{-0.55, 0.05}, {-1.0, -0.78}, {-0.80, -0.80}, {-0.74, -1.02}, {-0.5, -0.98}, {-0.36, -1.2}, {-0.12, -1.12}, {0.04, -1.28}, {0.2, -1.12}, {0.42, -1.2}, {0.52, -1.0}, {0.78, -1.0}, {0.82, -0.8}, {1.0, -0.76}, {0.55, 0.05}})
		green.cut(outline(tuft))
		rose.leave(outline(tuft))
		for i := range 17 {
			t := float64(i)/16*2 - 1
			k := 1.02 + 0.12*lattice(9, i, 0) - 0.22*math.Abs(t)
			key.leave(ribbon(at(curve(0.42*t, 0.0, 0.68*t, -0.45*k, 0.93*t, -0.98*k)), taper(0.030*h.r, 0.012*h.r)))
		}
		cup := at(loop(0, 1.02, 0.42, 0.92, 0.68, 0.52, 0.62, 0.10, 0.3, -0.02, 0, -0.05, -0.3, -0.02, -0.62, 0.10, -0.68, 0.52, -0.42, 0.92))
		key.leave(outline(cup))
		for row := range 5 {
			y := 0.82 - 0.19*float64(row)
			half := 0.62 * math.Sqrt(max(0.1, 1-math.Pow((y-0.42)/0.62, 2)))
			n := 4 + row%2
			for j := range n {
				x := half * ((float64(j)+0.5)/float64(n)*2 - 1)
				for _, dx := range []float64{-0.085, 0.085} {
					key.cut(ribbon(at(curve(x+dx, y+0.03, x+dx*0.7, y-0.05, x, y-0.12)), lens(0.020*h.r)))
				}
			}
		}
		for i := range 13 { // spines
			a := 0.12 + 2.9*float64(i)/12
			x, y := 0.66*math.Cos(a), 0.45+0.52*math.Sin(a)
			key.leave(ribbon(at(curve(x, y, x*1.38, 0.45+(y-0.45)*1.2-0.10)), taper(0.034*h.r, 0.006*h.r)))
		}
	}
	// Ground in key, hatched.
	key.leave(below(func(x float64) float64 { return 0.865 + 0.01*math.Sin(x*14) + 0.008*math.Sin(x*41) }))
	for range 85 {
		x := p.between(0.05, p.a-0.05)
		q := curve(x, 0.92, x+p.between(-0.01, 0.01), 0.895, x+p.between(-0.03, 0.03), 0.86-p.between(0, 0.05))
		key.leave(ribbon(q, func(t float64) float64 { return 0.0045 * (1 - t) }))
	}
	for range 60 {
		x, y := p.between(0.08, p.a-0.08), p.between(0.875, 0.91)
		key.cut(ribbon(curve(x, y, x+p.between(-0.006, 0.006), y-p.between(0.012, 0.03)), lens(0.0022)))
	}
	for _, b := range []*block{green, rose, key} {
		outside(b, frame)
	}
}

func bunting(p *print) {
	blue, rust, key := p.block(0x9db3b4), p.block(0xb4713f), p.block(0x24221f)
	frame := p.margin(0.075)
	blue.leave(frame)
	cx, cy, k := 0.60, 0.40, 0.60
	p.gouges(blue, 0.026, 0.12, 0.0048, func(x, y float64) float64 { return 0.12*math.Sin(x*5+1) - 0.1 },
		func(x, y float64) bool { return frame.d(x, y) < -0.012 && y < 0.72 })
	p.gouges(blue, 0.022, 0.16, 0.0062, func(x, y float64) float64 { return 0.05 * math.Sin(x*9) },
		func(x, y float64) bool { return frame.d(x, y) < -0.012 && y > 0.74 })
	at := func(xy ...float64) []pt { return place(points(xy), cx, cy, k, 0) }
	sat := func(xy ...float64) []pt { return spline(at(xy...), false) }
	clo := func(xy ...float64) []pt { return spline(at(xy...), true) }
	// Reeds: stems, blades and plumed heads.
	stems := []struct{ x0, x1, top float64 }{{0.20, 0.29, 0.16}, {0.335, 0.36, 0.26}, {0.98, 0.90, 0.14}, {1.10, 1.12, 0.24}, {0.50, 0.66, 0.72}}
	for i, r := range stems {
		key.leave(ribbon(curve(r.x0, 0.99, lerp(r.x0, r.x1, 0.45), lerp(1, r.top, 0.5), r.x1, r.top), taper(0.0085, 0.005)))
		if i == 4 {
			continue
		}
		for j := range 16 {
			t := float64(j) / 15
			y := r.top + 0.15*t
			x := lerp(r.x1, r.x0, 0.16*t)
			l := 0.03 + 0.035*math.Sin(math.Pi*min(1, t*0.9+0.12))
			for _, d := range []float64{1, -0.55} {
				q := curve(x, y, x+d*l*0.6, y-0.012, x+d*l, y+0.026)
				rust.leave(ribbon(q, lens(0.009)))
				key.leave(ribbon(q, lens(0.0032)))
			}
		}
	}
	for _, b := range [][]float64{{0.24, 0.75, 0.10, 0.55, 0.05, 0.60}, {0.31, 0.62, 0.45, 0.45, 0.52, 0.50}, {0.95, 0.70, 0.82, 0.52, 0.75, 0.56}, {1.10, 0.66, 1.2, 0.5, 1.24, 0.54}, {1.02, 0.92, 1.16, 0.72, 1.22, 0.76}, {0.36, 0.9, 0.5, 0.76, 0.56, 0.8}, {0.16, 0.95, 0.1, 0.8, 0.12, 0.72}} {
		key.leave(ribbon(curve(b...), lens(0.013)))
		mid := curve(b...)
		key.cut(ribbon(mid[2:len(mid)-2], lens(0.0026)))
	}
	// The perch: one thick reed bent by the bird's weight.
	perch := curve(0.27, 1.0, 0.40, 0.80, 0.57, 0.665, 0.80, 0.585, 1.02, 0.57)
	key.leave(ribbon(perch, taper(0.016, 0.011)))
	key.cut(ribbon(perch[3:len(perch)-3], taper(0.0042, 0.003)))
	// The cock bird: black head and bib, white collar, streaked rust back, pale breast.
	all := clo(-0.235, -0.30, -0.17, -0.345, -0.09, -0.325, -0.03, -0.245, 0.08, -0.16, 0.19, -0.03, 0.255, 0.10, 0.20, 0.20, 0.09, 0.285, -0.06, 0.29, -0.18, 0.20, -0.235, 0.05, -0.225, -0.08, -0.255, -0.17, -0.265, -0.25)
	for _, b := range []*block{blue, key, rust} {
		b.cut(outline(all))
	}
	back := clo(-0.10, -0.14, -0.02, -0.21, 0.08, -0.14, 0.19, -0.02, 0.27, 0.13, 0.31, 0.24, 0.20, 0.22, 0.05, 0.17, -0.06, 0.08, -0.12, -0.03)
	rust.leave(outline(back))
	tail := clo(0.20, 0.12, 0.27, 0.13, 0.43, 0.40, 0.52, 0.56, 0.455, 0.58, 0.36, 0.44, 0.24, 0.27, 0.17, 0.2)
	for _, b := range []*block{blue, rust} {
		b.cut(outline(tail))
	}
	key.leave(outline(tail))
	key.cut(ribbon(sat(0.27, 0.20, 0.38, 0.38, 0.485, 0.565), taper(0.0055, 0.003)))
	key.cut(ribbon(sat(0.25, 0.24, 0.34, 0.38, 0.44, 0.54), lens(0.003)))
	key.leave(ribbon(append(all, all[0]), taper(0.0042, 0.0042)))
	head := clo(-0.27, -0.25, -0.235, -0.31, -0.17, -0.35, -0.09, -0.33, -0.045, -0.265, -0.06, -0.20, -0.125, -0.17, -0.165, -0.10, -0.185, -0.02, -0.23, -0.03, -0.245, -0.10, -0.255, -0.18)
	key.leave(outline(head))
	key.leave(outline(at(-0.258, -0.272, -0.335, -0.232, -0.262, -0.205)))
	key.cut(ribbon(sat(-0.255, -0.238, -0.318, -0.232), taper(0.0018, 0.001)))
	// Moustache stripe, eye, and a few cuts for the curve of the skull.
	key.cut(ribbon(sat(-0.255, -0.205, -0.20, -0.19, -0.14, -0.205), lens(0.011)))
	key.cut(oval(cx-0.185*k, cy-0.265*k, 0.011, 0.0105, 0))
	key.leave(oval(cx-0.187*k, cy-0.264*k, 0.0068, 0.0066, 0))
	for i := range 4 {
		t := float64(i)
		key.cut(ribbon(sat(-0.16+0.022*t, -0.325+0.009*t, -0.12+0.02*t, -0.30+0.014*t, -0.10+0.016*t, -0.265+0.014*t), lens(0.0018)))
	}
	// Back streaks, wing bars and flight feathers.
	for i := range 6 {
		t := float64(i)
		key.leave(ribbon(sat(-0.075+0.045*t, -0.135+0.028*t, -0.02+0.047*t, -0.075+0.036*t, 0.02+0.05*t, 0.0+0.04*t), lens(0.0085)))
	}
	for i := range 5 {
		t := float64(i)
		q := sat(-0.085+0.03*t, 0.035+0.022*t, 0.05+0.03*t, 0.115+0.018*t, 0.21+0.028*t, 0.185+0.022*t)
		key.leave(ribbon(q, lens(0.0105)))
	}
	for i := range 6 {
		t := float64(i)
		q := sat(-0.105+0.02*t, -0.06+0.03*t, -0.055+0.022*t, -0.03+0.03*t)
		key.leave(ribbon(q, lens(0.008)))
	}
	for i := range 11 { // flank flecks
		x, y := -0.16+0.028*float64(i%6), 0.10+0.055*float64(i/6)+0.02*float64(i%2)
		key.leave(ribbon(sat(x, y, x+0.03, y+0.045), lens(0.0036)))
	}
	// Feet on the reed.
	for _, x := range []float64{-0.03, 0.055} {
		key.leave(ribbon(sat(x-0.01, 0.275, x+0.012, 0.34, x-0.005, 0.40), taper(0.0062, 0.005)))
		for _, d := range []float64{-0.05, -0.02, 0.03} {
			key.leave(ribbon(sat(x-0.005, 0.395, x-0.005+d*0.6, 0.40, x-0.005+d, 0.44), taper(0.0048, 0.003)))
		}
	}
	for range 60 {
		x := p.between(0.06, p.a-0.06)
		l := p.between(0.04, 0.15)
		q := curve(x, 0.94, x+p.between(-0.02, 0.02), 0.93-l*0.6, x+p.between(-0.06, 0.06), 0.93-l)
		key.leave(ribbon(q, func(t float64) float64 { return 0.0052 * (1 - t) }))
	}
	for _, b := range []*block{blue, rust, key} {
		outside(b, frame)
	}
}
