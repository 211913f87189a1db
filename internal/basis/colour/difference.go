package colour

import "math"

// Lab is a colour in CIE 1976 L*a*b*.
type Lab struct{ L, A, B float64 }

// LabOf is the colour of an sRGB pixel under the sRGB white, D65. The matrix is that of the BT.709 primaries that
// IEC 61966-2-1 names, scaled so that white is exactly L* 100.
func LabOf(r, g, b uint8) Lab {
	lr, lg, lb := Linear(float64(r)/255), Linear(float64(g)/255), Linear(float64(b)/255)
	x := (0.4124*lr + 0.3576*lg + 0.1805*lb) / (0.4124 + 0.3576 + 0.1805)
	y := 0.2126*lr + 0.7152*lg + 0.0722*lb
	z := (0.0193*lr + 0.1192*lg + 0.9505*lb) / (0.0193 + 0.1192 + 0.9505)
	f := func(t float64) float64 {
		const d = 6.0 / 29 // CIE 15: a cube root, with a straight line below (6/29)^3
		if t > d*d*d {
			return math.Cbrt(t)
		}
		return t/(3*d*d) + 4.0/29
	}
	return Lab{116*f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))}
}

// Difference is CIEDE2000 with all weights 1: about 1 where a careful eye begins to see that two colours differ.
// Written from Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula", Color Research and Application 30(1), 2005.
func Difference(p, q Lab) float64 {
	const pow25to7 = 6103515625 // 25^7
	deg := math.Pi / 180
	c7 := math.Pow((math.Hypot(p.A, p.B)+math.Hypot(q.A, q.B))/2, 7)
	g := 1 + 0.5*(1-math.Sqrt(c7/(c7+pow25to7)))
	pa, qa := p.A*g, q.A*g
	pc, qc := math.Hypot(pa, p.B), math.Hypot(qa, q.B)
	ph, qh := hue(pa, p.B), hue(qa, q.B)

	dl, dc := q.L-p.L, qc-pc
	turn, mean := 0.0, ph+qh
	if pc*qc != 0 {
		turn = qh - ph
		if turn > 180 {
			turn -= 360
		} else if turn < -180 {
			turn += 360
		}
		switch {
		case math.Abs(ph-qh) <= 180:
			mean /= 2
		case mean < 360:
			mean = (mean + 360) / 2
		default:
			mean = (mean - 360) / 2
		}
	}
	dh := 2 * math.Sqrt(pc*qc) * math.Sin(turn/2*deg)

	l, c := (p.L+q.L)/2, (pc+qc)/2
	t := 1 - 0.17*math.Cos((mean-30)*deg) + 0.24*math.Cos(2*mean*deg) + 0.32*math.Cos((3*mean+6)*deg) - 0.20*math.Cos((4*mean-63)*deg)
	sl := 1 + 0.015*(l-50)*(l-50)/math.Sqrt(20+(l-50)*(l-50))
	sc := 1 + 0.045*c
	sh := 1 + 0.015*c*t
	c7 = math.Pow(c, 7)
	bend := (mean - 275) / 25
	rt := -2 * math.Sqrt(c7/(c7+pow25to7)) * math.Sin(60*math.Exp(-bend*bend)*deg)
	l, c, h := dl/sl, dc/sc, dh/sh
	return math.Sqrt(l*l + c*c + h*h + rt*c*h)
}

// hue is the angle of a colour in degrees from 0 to 360; 0 for grey.
func hue(a, b float64) float64 {
	if a == 0 && b == 0 {
		return 0
	}
	h := math.Atan2(b, a) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	return h
}
