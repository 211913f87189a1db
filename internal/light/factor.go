package light

import (
	"math"

	"boothmock/internal/geom"
)

// ring is the outline of a flat convex polygon as unit directions from the point that it lights, counterclockwise seen
// from there, with the cross product of each direction and the next.
type ring struct {
	u, c []geom.Vec
}

// set makes the ring of a polygon whose corners are relative to the point.
func (r *ring) set(p []geom.Vec) {
	r.u, r.c = r.u[:0], r.c[:0]
	for _, v := range p {
		r.u = append(r.u, v.Unit())
	}
	for i, a := range r.u {
		r.c = append(r.c, a.Cross(r.next(i)))
	}
}

// next is the direction after number i.
func (r *ring) next(i int) geom.Vec {
	if i++; i < len(r.u) {
		return r.u[i]
	}
	return r.u[0]
}

// factor is the configuration factor of the polygon for a surface at the point with normal n: the share of the
// surface's light that would come from the polygon if all that the surface sees were as bright. No part of the polygon
// may be behind the surface. Lambert, Photometria, 1760: one angle for each side, weighted by how its plane leans.
func (r *ring) factor(n geom.Vec) float64 {
	s := 0.0
	for i, a := range r.u {
		c := r.c[i]
		if l := c.Len(); l > 0 {
			s -= float64(math.Atan2(l, a.Dot(r.next(i))) * c.Dot(n) / l)
		}
	}
	return s / (2 * math.Pi)
}

// solidAngle in steradians; less than a half-space. See geom.Polygon.SolidAngle; here the arguments are added by
// multiplying the complex numbers.
func (r *ring) solidAngle() float64 {
	re, im := 1.0, 0.0
	a := r.u[0]
	for i := 1; i+1 < len(r.u); i++ {
		b, c := r.u[i], r.u[i+1]
		x := 1 + a.Dot(b) + b.Dot(c) + c.Dot(a)
		y := -a.Dot(r.c[i])
		re, im = float64(re*x)-float64(im*y), float64(re*y)+float64(im*x)
	}
	return 2 * math.Atan2(im, re)
}

// moment is the integral over the polygon's solid angle of (d·v)(d·w), d the direction. With one of them the normal and
// the other a gradient of brightness it is the light from a polygon whose brightness changes evenly with direction.
//
// It is the second axial moment of Arvo, Applications of Irradiance Tensors, SIGGRAPH 1995: a third of v·w times the
// solid angle, less a sum over the sides, in which a side that runs from a to b contributes its plane's normal times the
// integral of d along its arc, (a+b) tan(angle/2).
func (r *ring) moment(v, w geom.Vec) float64 {
	s := v.Dot(w)
	if s != 0 {
		s *= r.solidAngle()
	}
	for i, a := range r.u {
		b := r.next(i)
		s -= float64(v.Dot(r.c[i]) * w.Dot(a.Add(b)) / (1 + a.Dot(b)))
	}
	return s / 3
}
