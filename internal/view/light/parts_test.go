package light

import (
	"math"
	"math/rand/v2"
	"testing"

	"boothmock/internal/basis/geom"
)

// Light from a rectangle is the light from its parts, and is the same wherever the lamp and the surface are moved and
// turned together.
func TestPartsOfALampAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	span := func(lo, hi float64) float64 { return lo + r.Float64()*(hi-lo) }
	for range 300 {
		x0, y0, w, h := span(-2, 2), span(0.05, 1), span(0.02, 3), span(0.02, 3)
		p, n := geom.Vec{X: span(-1, 1), Z: span(0.05, 3)}, geom.Vec{X: span(-0.01, 0.01), Y: 1} // all of the lamp is above the surface
		v, k := geom.Vec{X: span(-1, 1), Y: span(-1, 1), Z: span(-1, 1)}, span(0.05, 0.95)
		rect := func(x, y, w, h float64) geom.Polygon { return geom.Rect(geom.World, x, y, x+w, y+h) }
		whole := of(rect(x0, y0, w, h), p)
		parts := []ring{of(rect(x0, y0, w*k, h), p), of(rect(x0+w*k, y0, w*(1-k), h*k), p), of(rect(x0+w*k, y0+h*k, w*(1-k), h*(1-k)), p)}
		factor, angle, moment := 0.0, 0.0, 0.0
		for _, part := range parts {
			factor, angle, moment = factor+part.factor(n), angle+part.solidAngle(), moment+part.moments(n).Dot(v)
		}
		near(t, "factor of the parts", factor, whole.factor(n), 3e-8)
		near(t, "solid angle of the parts", angle, whole.solidAngle(), 1e-9)
		near(t, "moment of the parts", moment, whole.moments(n).Dot(v), 1e-9)
		near(t, "solid angle of the polygon", math.Abs(angle), rect(x0, y0, w, h).SolidAngle(p), 1e-9)

		f := geom.World.Moved(geom.Vec{X: 3, Y: -1, Z: 2}).Turned(span(0, 7)).Tilted(span(0, 7)).Turned(span(0, 7))
		var turned geom.Polygon
		for _, c := range rect(x0, y0, w, h) {
			turned = append(turned, f.At(c))
		}
		moved, along := of(turned, f.At(p)), func(d geom.Vec) geom.Vec { return f.At(d).Sub(f.Origin) }
		near(t, "factor, moved", moved.factor(along(n)), whole.factor(n), 3e-8)
		near(t, "moment, moved", moved.moments(along(n)).Dot(along(v)), whole.moments(n).Dot(v), 1e-9)
	}
}
