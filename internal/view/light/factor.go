package light

import (
	"math"

	"boothmock/internal/basis/geom"
)

// ring is the outline of a flat convex polygon: its corners as they lie from the point that it lights, counterclockwise
// seen from there.
type ring []geom.Vec

// next is the corner after number i.
func (r ring) next(i int) geom.Vec {
	if i++; i < len(r) {
		return r[i]
	}
	return r[0]
}

// factor is the configuration factor of the polygon for a surface at the point with normal n: the share of the
// surface's light that would come from the polygon if all that the surface sees were as bright. No part of the polygon
// may be behind the surface. Lambert, Photometria, 1760: one angle for each side, weighted by how its plane leans.
func (r ring) factor(n geom.Vec) float64 {
	s := 0.0
	for i, a := range r {
		b := r.next(i)
		c := a.Cross(b)
		if l := c.Len(); l > 0 {
			s -= float64(angle(l, a.Dot(b)) * c.Dot(n) / l)
		}
	}
	return s / (2 * math.Pi)
}

// angle is that of the direction x, y with y not negative, in radians, within 2e-8: the arc tangent by Abramowitz and Stegun,
// Handbook of Mathematical Functions, 4.4.49. It takes a third of the time of math.Atan2.
func angle(y, x float64) float64 {
	t, turn, base := 0.0, 1.0, 0.0
	if math.Abs(x) >= y {
		t = y / x
		if x < 0 {
			base = math.Pi
		}
	} else {
		t, turn, base = x/y, -1, math.Pi/2
	}
	// The terms are added in pairs, and pairs of pairs (Estrin's scheme), as a processor works on several at once.
	s := t * t
	s2 := s * s
	s4 := s2 * s2
	p0, p2 := 1-float64(0.3333314528*s), 0.1999355085-float64(0.1420889944*s)
	p4, p6 := 0.1065626393-float64(0.0752896400*s), 0.0429096138-float64(0.0161657367*s)
	p := p0 + float64(p2*s2) + float64((p4+float64(p6*s2)+float64(0.0028662257*s4))*s4)
	return base + float64(turn*t*p)
}

// solidAngle in steradians; less than a half-space. See geom.Polygon.SolidAngle; here the arguments are added by
// multiplying the complex numbers. The corners are unit vectors.
func (r ring) solidAngle() float64 {
	re, im := 1.0, 0.0
	a := r[0]
	for i := 1; i+1 < len(r); i++ {
		b, c := r[i], r[i+1]
		x := 1 + a.Dot(b) + b.Dot(c) + c.Dot(a)
		y := -a.Dot(b.Cross(c))
		re, im = float64(re*x)-float64(im*y), float64(re*y)+float64(im*x)
	}
	return 2 * math.Atan2(im, re)
}

// moments is the integral over the polygon's solid angle of d (d·n), d the direction: with n the normal, the light on a surface from
// a polygon that is as bright as each coordinate of the direction. The corners are unit vectors.
//
// It is the second axial moment of Arvo, Applications of Irradiance Tensors, SIGGRAPH 1995: a third of n times the
// solid angle, less a sum over the sides, in which a side that runs from a to b contributes its plane's normal times the
// integral of d along its arc, (a+b) tan(angle/2).
func (r ring) moments(n geom.Vec) geom.Vec {
	s := n.Mul(r.solidAngle())
	for i, a := range r {
		b := r.next(i)
		s = s.Sub(a.Cross(b).Mul(n.Dot(a.Add(b)) / (1 + a.Dot(b))))
	}
	return s.Mul(1. / 3)
}
