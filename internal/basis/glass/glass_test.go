package glass

import (
	"math"
	"testing"
)

// Fresnel's equations. At straight incidence ((n-1)/(n+1))²: 4.26 % a face for 1.52, both faces 8.2 %; acrylic 7.5 % (textbook). At
// Brewster's angle, atan n, light that swings along the plane of incidence is not given back, and the rest is ((n²-1)/(n²+1))² a face:
// 15.7 % of it, 13.6 % of all from both faces. One face of 1.5 in textbooks' tables (Hecht, Optics; from memory): 4.0 % at 0°, 8.9 % at
// 60°, 38.8 % at 80°; both faces of 1.52 follow by 2r/(1+r).
func TestFresnel(t *testing.T) {
	near := func(what string, got, want, by float64) {
		t.Helper()
		if !(math.Abs(got-want) <= by) {
			t.Errorf("%s: %.4f, want %.4f", what, got, want)
		}
	}
	near("glass, straight", Glass.Reflects(1), 2*0.0426/1.0426, 1e-4)
	near("acrylic, straight", Acrylic.Reflects(1), 0.075, 0.0005)
	n2 := 1.52 * 1.52
	rs := math.Pow((n2-1)/(n2+1), 2)
	near("Brewster's angle", Glass.Reflects(math.Cos(math.Atan(1.52))), rs/(1+rs), 1e-9)
	near("60 degrees", Glass.Reflects(0.5), 0.161, 0.005) // r across 0.180, along 0.0017: 0.1525 + 0.0017, mean of twice each
	near("80 degrees", Glass.Reflects(math.Cos(80*math.Pi/180)), 0.55, 0.02)
	near("grazing", Glass.Reflects(0), 1, 1e-9)
	near("low reflection, straight", LowReflection.Reflects(1), 0.01, 1e-9)
	for c := 0.0; c < 0.99; c += 0.05 {
		if g, a, l := Glass.Reflects(c+0.01), Acrylic.Reflects(c+0.01), LowReflection.Reflects(c+0.01); !(g > a && g > l && Glass.Reflects(c) >= g) || None.Reflects(c) != 0 {
			t.Errorf("at a cosine of %.2f: %v %v %v", c, g, a, l)
		}
	}
}

// The same by Fresnel's own form, in sines and tangents of the angles of incidence and refraction, and with what goes to and fro
// between the faces added up one by one. Of one face of 1.5 Hecht's Optics (from memory) has 4.0 % at 0, 8.9 % at 60 and 38.8 % at 80
// degrees: the form here gives those.
func TestFresnelsTable(t *testing.T) {
	face := func(n, degrees float64) (across, along float64) {
		i := degrees * math.Pi / 180
		r := math.Asin(math.Sin(i) / n)
		return math.Pow(math.Sin(i-r)/math.Sin(i+r), 2), math.Pow(math.Tan(i-r)/math.Tan(i+r), 2)
	}
	for degrees, want := range map[float64]float64{0.01: 0.040, 60: 0.089, 80: 0.388} {
		if s, p := face(1.5, degrees); math.Abs((s+p)/2-want) > 0.0005 {
			t.Errorf("one face of 1.5 at %v degrees: %.4f, want %.3f", degrees, (s+p)/2, want)
		}
	}
	both := func(r float64) (sum float64) {
		sum = r
		for pass := (1 - r) * (1 - r) * r; pass > 1e-12; pass *= r * r {
			sum += pass
		}
		return sum
	}
	for kind, n := range map[Kind]float64{Glass: 1.52, Acrylic: 1.49} {
		for degrees := 5.0; degrees < 90; degrees += 5 {
			s, p := face(n, degrees)
			if got, want := kind.Reflects(math.Cos(degrees*math.Pi/180)), (both(s)+both(p))/2; math.Abs(got-want) > 1e-9 {
				t.Errorf("%s at %v degrees: %.6f, want %.6f", kind, degrees, got, want)
			}
		}
	}
}
