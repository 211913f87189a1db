package light

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// On an open field under the CIE overcast sky an upright face gets 0.396 of what level ground gets from the sky (Moon and
// Spencer's sky integrated over the half that it sees), and half of what the ground gives back.
func TestAroundOnAnOpenField(t *testing.T) {
	p := &booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 3, Aisle: 3}}
	r := newRoom(p, nil, nothing)
	r.settle()
	want := 0.396177 + 0.2/2 // ground of 20 %
	if got := luminance(r.around(geom.Vec{Y: 1.6, Z: 500})); math.Abs(got-want) > 0.002 {
		t.Errorf("around an eye in the open: %.4f, want %.4f", got, want)
	}
}

// From the aisle a booth is as dark as it is beside it; a step inside the eye has got used to it, and on the way there it does so
// evenly. A darker canopy makes the same booth darker.
func TestAdaptation(t *testing.T) {
	p, lit := baked()
	at := func(z float64) float64 { return float64(lit.Brighter(p, geom.Vec{Y: 1.6, Z: z})[1]) }
	outside := at(1.5)
	if outside < 0.1 || outside > 0.8 {
		t.Errorf("from the aisle the booth is %.2f as bright as inside", outside)
	}
	last := outside
	for _, z := range []float64{0.2, -0.1, -0.2, -0.3, -0.4, -1} {
		now := at(z)
		if now < last-0.08 || z <= -0.4 && now != 1 {
			t.Errorf("at %v the booth is %.3f as bright as inside, before %.3f", z, now, last)
		}
		last = now
	}
	if l := (&Lit{}).Brighter(p, geom.Vec{Z: 2}); l != [3]float32{1, 1, 1} {
		t.Errorf("light that was not worked out has the exposure %v", l)
	}
}

// The table of a curve is the curve.
func TestCurveTable(t *testing.T) {
	for _, c := range []*curve{ofWorks, ofOther} {
		for x := 0.0; x < 3; x += 0.00037 {
			if d := math.Abs(float64(c.look(float32(x))) - c.at(x)); d > 2e-5 {
				t.Fatalf("at %v the table is off by %v", x, d)
			}
		}
		if c.look(-1) != 0 || c.look(1e9) > float32(c.top) || math.Abs(float64(c.look(1e9))-c.top) > 1e-3 {
			t.Errorf("beyond the table: %v, %v", c.look(-1), c.look(1e9))
		}
	}
}
