package lamp

import (
	"math"
	"testing"
)

const deg = math.Pi / 180

func near(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if !(math.Abs(got-want) <= by) {
		t.Errorf("%s: %v, want %v within %v", what, got, want, by)
	}
}

// Lambert's lamp, textbook: across 120 degrees, I0 = lumens/π, and cos θ of it at θ.
func TestLambert(t *testing.T) {
	b := Spot(1000, 120*deg)
	near(t, "on the axis", b.Toward(0, 0), 1000/math.Pi, 1e-9)
	near(t, "at 60 degrees", b.Toward(60*deg, 0), 500/math.Pi, 1e-9)
	near(t, "behind", b.Toward(100*deg, 0), 0, 0)
}

// A spot has half of its intensity at half of its beam angle, and all of its lumens within a hemisphere.
func TestSpot(t *testing.T) {
	for _, across := range []float64{10, 24, 36, 60, 90, 120, 180} {
		b := Spot(800, across*deg)
		if across < 180 {
			near(t, "half", b.Toward(across/2*deg, 1)/b.Toward(0, 0), 0.5, 1e-9)
			near(t, "across", b.Across()/deg, across, 0.6)
		}
		sum := 0.0
		const n = 20000
		for i := range n {
			a := math.Pi / 2 * (float64(i) + 0.5) / n
			sum += b.Toward(a, 0) * 2 * math.Pi * math.Sin(a) * math.Pi / 2 / n
		}
		near(t, "lumens", sum, 800, 0.5)
		near(t, "scaled", b.With(400).Toward(0, 0), b.Toward(0, 0)/2, 1e-9)
	}
}

// Chromaticities of black bodies: CIE illuminant A, 2,856 K, is x 0.4476 y 0.4074; 6,500 K x 0.3135 y 0.3236 (CIE 15, Wyszecki and
// Stiles' table of Planck's locus, from memory). White has the luminance 1 and is nearly grey at 6,500 K.
func TestWhite(t *testing.T) {
	chromaticity := func(c [3]float64) (x, y float64) { // BT.709 primaries, as CIE XYZ
		bx := 0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]
		by := 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2]
		bz := 0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]
		return bx / (bx + by + bz), by / (bx + by + bz)
	}
	for _, c := range []struct{ kelvin, x, y float64 }{{2856, 0.4476, 0.4074}, {6500, 0.3135, 0.3236}, {4000, 0.3804, 0.3767}, {10000, 0.2807, 0.2884}} {
		x, y := chromaticity(White(c.kelvin))
		near(t, "x", x, c.x, 0.001)
		near(t, "y", y, c.y, 0.001)
	}
	if w := Tint(2700, 4000); !(w[0] > 1.1 && w[2] < 0.6) {
		t.Errorf("2,700 K beside 4,000 K: %v", w)
	}
	for _, k := range []float64{2700, 4000, 6500} {
		for _, v := range Tint(k, k) {
			near(t, "the eye's own white", v, 1, 1e-12)
		}
	}
}
