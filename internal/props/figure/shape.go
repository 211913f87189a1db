package figure

import (
	"math"

	"boothmock/internal/basis/geom"
)

// shape is a body as its signed distance: metres from a point to the skin, negative inside. Near the skin it is true
// to a few per cent; further off it may be too small or too large by half, never of the wrong sign.
type shape func(p geom.Vec) float64

// cone is a limb: the hull of a ball of radius ra at a and one of radius rb at b.
func cone(a, b geom.Vec, ra, rb float64) shape {
	ba := b.Sub(a)
	l2, rr := ba.Dot(ba), ra-rb
	a2 := l2 - float64(rr*rr)
	sign := func(v float64) float64 { return math.Copysign(1, v) }
	return func(p geom.Vec) float64 {
		pa := p.Sub(a)
		y := pa.Dot(ba)
		z := y - l2
		x := pa.Mul(l2).Sub(ba.Mul(y))
		x2, y2, z2 := x.Dot(x), float64(y*y)*l2, float64(z*z)*l2
		k := float64(sign(rr) * float64(rr*rr) * x2)
		switch {
		case sign(z)*a2*z2 > k:
			return math.Sqrt(x2+float64(z2))/l2 - rb
		case sign(y)*a2*y2 < k:
			return math.Sqrt(x2+float64(y2))/l2 - ra
		}
		return (math.Sqrt(float64(x2*a2)/l2)+float64(y*rr))/l2 - ra
	}
}

// limb is a row of cones through joints of the given radii.
func limb(joints []geom.Vec, radii []float64) shape {
	s := cone(joints[0], joints[1], radii[0], radii[1])
	for i := 1; i+1 < len(joints); i++ {
		s = blend(radii[i]/2, s, cone(joints[i], joints[i+1], radii[i], radii[i+1]))
	}
	return s
}

// egg is an ellipsoid with half axes r along the frame's axes.
func egg(f geom.Frame, r geom.Vec) shape {
	return func(p geom.Vec) float64 {
		q := f.Local(p)
		u := geom.Vec{X: q.X / r.X, Y: q.Y / r.Y, Z: q.Z / r.Z}
		v := geom.Vec{X: u.X / r.X, Y: u.Y / r.Y, Z: u.Z / r.Z}
		k, g := u.Len(), v.Len()
		if g < 1e-9 {
			return -min(r.X, r.Y, r.Z)
		}
		return k * (k - 1) / g
	}
}

// section is a level cut through a trunk at height y: its middle and its half axes, and how much higher the left side
// of the body lies there than its middle, in metres a metre.
type section struct{ y, x, z, rx, rz, tilt float64 }

// trunk is skinned over sections, from the lowest up; it ends flat at both ends.
func trunk(s []section) shape {
	return func(p geom.Vec) float64 {
		c := between(s, p.Y)
		c = between(s, p.Y-float64(c.tilt*(p.X-c.x)))
		u, v := (p.X-c.x)/c.rx, (p.Z-c.z)/c.rz
		u2, v2 := float64(u*u), float64(v*v)
		// Between an ellipse and a rounder box, as a chest in cloth is.
		round := math.Sqrt(u2 + v2)
		d := -0.9 * min(c.rx, c.rz)
		if round > 0.05 {
			l := float64(0.6*round) + float64(0.4*math.Sqrt(math.Sqrt(float64(u2*u2)+float64(v2*v2))))
			d = (l - 1) * round / math.Sqrt(u2/float64(c.rx*c.rx)+v2/float64(c.rz*c.rz))
		}
		y := p.Y - float64(c.tilt*(p.X-c.x))
		return both(0.016, d, max(s[0].y-y, y-s[len(s)-1].y))
	}
}

// between is the section at height y: cubics through the sections given (Catmull-Rom, with their true spacing).
func between(s []section, y float64) section {
	n := len(s)
	i := 0
	for i < n-2 && y > s[i+1].y {
		i++
	}
	o, a, b, e := s[max(i-1, 0)], s[i], s[i+1], s[min(i+2, n-1)]
	h := b.y - a.y
	t := max(0, min(1, (y-a.y)/h))
	t2 := float64(t * t)
	t3 := float64(t2 * t)
	va, vb := float64(t3-float64(2*t2)+t)*h/(b.y-o.y), float64(t3-t2)*h/(e.y-a.y) // weights of the two slopes
	wb := float64(3*t2) - float64(2*t3)
	wa := 1 - wb
	at := func(o, a, b, e float64) float64 {
		return float64(wa*a) + float64(wb*b) + float64(va*(b-o)) + float64(vb*(e-a))
	}
	return section{y, at(o.x, a.x, b.x, e.x), at(o.z, a.z, b.z, e.z), at(o.rx, a.rx, b.rx, e.rx), at(o.rz, a.rz, b.rz, e.rz),
		at(o.tilt, a.tilt, b.tilt, e.tilt)}
}

// blend is the union of shapes, with a fillet of about k metres where they meet.
func blend(k float64, shapes ...shape) shape {
	return func(p geom.Vec) float64 {
		d := shapes[0](p)
		for _, s := range shapes[1:] {
			d = either(k, d, s(p))
		}
		return d
	}
}

// either is the smooth minimum of two distances: a quadratic takes over where they differ by less than k.
func either(k, a, b float64) float64 {
	h := max(k-math.Abs(a-b), 0)
	return min(a, b) - float64(h*h)/(4*k)
}

// both is the smooth maximum: what lies in a and in b, its edge rounded.
func both(k, a, b float64) float64 { return -either(k, -a, -b) }

// slope is the direction in which the distance grows fastest: the normal of the skin.
func (s shape) slope(p geom.Vec) geom.Vec {
	const e = 1e-4
	return geom.Vec{
		X: s(geom.Vec{X: p.X + e, Y: p.Y, Z: p.Z}) - s(geom.Vec{X: p.X - e, Y: p.Y, Z: p.Z}),
		Y: s(geom.Vec{X: p.X, Y: p.Y + e, Z: p.Z}) - s(geom.Vec{X: p.X, Y: p.Y - e, Z: p.Z}),
		Z: s(geom.Vec{X: p.X, Y: p.Y, Z: p.Z + e}) - s(geom.Vec{X: p.X, Y: p.Y, Z: p.Z - e}),
	}.Mul(1 / (2 * e))
}

// onSkin moves a point that is near the skin onto it.
func (s shape) onSkin(p geom.Vec) geom.Vec {
	for range 3 {
		g := s.slope(p)
		if l2 := g.Dot(g); l2 > 0.01 {
			step := max(-0.01, min(0.01, s(p)/l2))
			p = p.Sub(g.Mul(step))
		}
	}
	return p
}
