package light

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.9f, want %.9f within %g", what, got, want, tol)
	}
}

// of is the ring of a polygon as it is seen from p.
func of(polygon geom.Polygon, p geom.Vec) (r ring) {
	for _, v := range polygon {
		r = append(r, v.Sub(p).Unit())
	}
	return r
}

// An element parallel to a rectangle, its normal through a corner: Siegel and Howell, as Tregenza and Sharples' algorithm
// 3.14 on naturalfrequency.com cites it; the digits are derived from that formula.
func TestFactorOfAnElement(t *testing.T) {
	n := geom.Vec{Z: 1}
	corner := of(geom.Rect(geom.World.Moved(geom.Vec{Z: 1}), 0, 0, 1, 1), geom.Vec{})
	near(t, "1 x 1 at 1, over a corner", math.Abs(corner.factor(n)), 0.138531606, 1e-8)
	middle := of(geom.Rect(geom.World.Moved(geom.Vec{Z: 1}), -1, -1, 1, 1), geom.Vec{})
	near(t, "2 x 2 at 1, over its middle", math.Abs(middle.factor(n)), 0.554126424, 1e-8)
}

func TestAngle(t *testing.T) {
	for i := range 10001 {
		y, x := math.Sincos(math.Pi * float64(i) / 10000)
		near(t, "angle", angle(3*math.Abs(y), 3*x), math.Pi*float64(i)/10000, 2e-8)
	}
}

// gauss are the abscissas and weights of Gauss's rule with five points on 0 to 1.
var gauss = [5][2]float64{
	{0.5, 0.28444444444444444},
	{0.5 - 0.26923465505284155, 0.23931433524968324}, {0.5 + 0.26923465505284155, 0.23931433524968324},
	{0.5 - 0.45308992296933200, 0.11846344252809454}, {0.5 + 0.45308992296933200, 0.11846344252809454},
}

// opposed is the mean factor over a rectangle a x b of an equal one at distance c before it, by Gauss's rule on n x n cells.
func opposed(a, b, c float64, n int) float64 {
	light := geom.Rect(geom.Frame{Origin: geom.Vec{Z: c}, X: geom.Vec{X: -1}, Y: geom.Vec{Y: 1}, Z: geom.Vec{Z: -1}}, -a, 0, 0, b)
	sum := 0.0
	for i := range n {
		for j := range n {
			for _, x := range gauss {
				for _, y := range gauss {
					p := geom.Vec{X: a * (float64(i) + x[0]) / float64(n), Y: b * (float64(j) + y[0]) / float64(n)}
					sum += x[1] * y[1] * of(light, p).factor(geom.Vec{Z: 1})
				}
			}
		}
	}
	return sum / float64(n*n)
}

// Published to four digits; the longer values are derived from the closed form of the same configuration.
func TestFactorBetweenRectangles(t *testing.T) {
	for _, c := range []struct {
		source    string
		a, b, c   float64
		published float64
		digits    float64
		derived   float64
	}{
		{"Incropera Table 13.2 (engdatabase.com)", 1, 1, 1, 0.1998, 5e-5, 0.1998249},
		{"Siegel and Howell 4th ed. p. 843 (fchartsoftware.com hs201)", 1, 1.5, 0.5, 0.4756, 5e-5, 0.4755764},
		{"Howell C-13 (fchartsoftware.com hs214)", 0.1, 0.1, 0.05, 0.4153, 5e-5, 0.4152533},
		{"engdatabase.com, X = Y = 10", 10, 10, 1, 0.827, 5e-4, 0.8269945},
	} {
		got := opposed(c.a, c.b, c.c, 10)
		near(t, c.source, got, c.published, c.digits)
		near(t, c.source+", derived", got, c.derived, 1e-6)
	}
}

// The integral of the square of the cosine over a hemisphere is 2 pi/3, and that of cosine times sine of elevation over the
// upper half of what a wall sees is 2/3 (both derived).
func TestMoment(t *testing.T) {
	const r = 1e5
	sky := geom.Rect(geom.Frame{Origin: geom.Vec{Y: 1}, X: geom.Vec{X: 1}, Y: geom.Vec{Z: 1}, Z: geom.Vec{Y: -1}}, -r, -r, r, r)
	near(t, "up, up", of(sky, geom.Vec{}).moments(geom.Up).Dot(geom.Up), 2*math.Pi/3, 1e-4)
	n := geom.Vec{Z: 1}
	wall := geom.Rect(geom.Frame{Origin: n, X: geom.Vec{X: -1}, Y: geom.Vec{Y: 1}, Z: n.Neg()}, -r, 0, r, r)
	near(t, "up, forward", of(wall, geom.Vec{}).moments(geom.Up).Dot(n), 2./3, 1e-4)
	near(t, "forward, up", of(wall, geom.Vec{}).moments(n).Dot(geom.Up), 2./3, 1e-4)

	// And any polygon, by small pieces of it.
	tri := geom.Polygon{{X: -.3, Y: .2, Z: 1}, {X: .8, Y: 1.1, Z: .7}, {X: .1, Y: -.4, Z: .9}}
	v, w := geom.Vec{X: .6, Z: .8}, geom.Vec{Y: 1}
	sum := 0.0
	const k = 200
	area := tri[1].Sub(tri[0]).Cross(tri[2].Sub(tri[0])).Mul(0.5)
	for i := range k {
		for j := range k - i {
			for _, s := range []float64{1. / 3, 2. / 3} {
				if s > .5 && i+j+2 > k {
					continue
				}
				p := tri[0].Add(tri[1].Sub(tri[0]).Mul((float64(i) + s) / k)).Add(tri[2].Sub(tri[0]).Mul((float64(j) + s) / k))
				d := p.Unit()
				sum += d.Dot(v) * d.Dot(w) * math.Abs(area.Dot(d)) / p.Dot(p) / k / k
			}
		}
	}
	r1 := of(tri, geom.Vec{})
	if r1.factor(geom.Vec{Z: 1}) < 0 {
		r1 = of(geom.Polygon{tri[2], tri[1], tri[0]}, geom.Vec{})
	}
	near(t, "a triangle by its pieces", r1.moments(v).Dot(w), sum, 1e-6)
	near(t, "solid angle", r1.solidAngle(), math.Abs(tri.SolidAngle(geom.Vec{})), 1e-12)
}
