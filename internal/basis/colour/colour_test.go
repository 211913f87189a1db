package colour

import (
	"math"
	"testing"
)

// Values worked out from the formula of IEC 61966-2-1; 64, 124 and 231 are also the worked example of the glTF 2.0
// specification, section on metallic-roughness (base colour 0.051, 0.202, 0.799).
func TestLinear(t *testing.T) {
	for _, c := range []struct{ byte, light float64 }{
		{0, 0}, {10, 0.003035}, {11, 0.003347}, {64, 0.051269}, {118, 0.181164}, {124, 0.201556}, {128, 0.215861},
		{188, 0.502886}, {231, 0.799103}, {255, 1},
	} {
		if got := Linear(c.byte / 255); math.Abs(got-c.light) > 5e-7 {
			t.Errorf("Linear(%v/255) = %.6f, want %.6f", c.byte, got, c.light)
		}
		if got := float64(Light(uint8(c.byte))); math.Abs(got-c.light) > 6e-7 {
			t.Errorf("Light(%v) = %.6f, want %.6f", c.byte, got, c.light)
		}
	}
	for _, c := range []struct{ light, signal float64 }{{0.5, 0.735357}, {0.18, 0.461356}, {0.214041, 0.5}} {
		if got := Signal(c.light); math.Abs(got-c.signal) > 1e-6 {
			t.Errorf("Signal(%v) = %.6f, want %.6f", c.light, got, c.signal)
		}
	}
}

func TestByteIsTheInverseOfLight(t *testing.T) {
	for b := range 256 {
		if got := Byte(Light(uint8(b))); got != uint8(b) {
			t.Errorf("Byte(Light(%d)) = %d", b, got)
		}
	}
	if lo, hi := Byte(-1), Byte(7); lo != 0 || hi != 255 {
		t.Errorf("light outside 0 to 1 gives %d and %d", lo, hi)
	}
}

// The light of a byte is kept, and light between two bytes gives the upper one for the share of shares that it is up.
func TestDithered(t *testing.T) {
	for b := range 255 {
		at, next := Linear(float64(b)/255), Linear(float64(b+1)/255)
		for share := 32; share <= 224; share++ {
			if got := Dithered(float32(at), uint8(share)); got != uint8(b) {
				t.Fatalf("byte %d, share %d: %d", b, share, got)
			}
		}
		for _, part := range []float64{0.25, 0.5, 0.75} {
			up := 0
			for share := range 256 {
				switch got := int(Dithered(float32(at+(next-at)*part), uint8(share))); got {
				case b + 1:
					up++
				case b:
				default:
					t.Fatalf("byte %d and %v: dithered to %d", b, part, got)
				}
			}
			if math.Abs(float64(up)/256-part) > 0.12 { // a tenth of a level for the table's steps, the rest for the curve
				t.Errorf("byte %d and %v: %d of 256 are rounded up", b, part, up)
			}
		}
	}
}

// Pairs and results from table 1 of Sharma, Wu and Dalal 2005.
func TestDifference(t *testing.T) {
	for _, c := range []struct {
		p, q Lab
		want float64
	}{
		{Lab{50, 2.6772, -79.7751}, Lab{50, 0, -82.7485}, 2.0425},
		{Lab{50, 3.1571, -77.2803}, Lab{50, 0, -82.7485}, 2.8615},
		{Lab{50, 2.8361, -74.0200}, Lab{50, 0, -82.7485}, 3.4412},
		{Lab{50, -1.3802, -84.2814}, Lab{50, 0, -82.7485}, 1},
		{Lab{50, -1.1848, -84.8006}, Lab{50, 0, -82.7485}, 1},
		{Lab{50, -0.9009, -85.5211}, Lab{50, 0, -82.7485}, 1},
		{Lab{50, 0, 0}, Lab{50, -1, 2}, 2.3669},
		{Lab{50, 2.49, -0.001}, Lab{50, -2.49, 0.0009}, 7.1792},
		{Lab{50, 2.49, -0.001}, Lab{50, -2.49, 0.0011}, 7.2195},
		{Lab{50, 2.5, 0}, Lab{50, 0, -2.5}, 4.3065},
		{Lab{50, 2.5, 0}, Lab{73, 25, -18}, 27.1492},
		{Lab{50, 2.5, 0}, Lab{50, 3.1736, 0.5854}, 1},
		{Lab{50, 2.5, 0}, Lab{50, 3.2972, 0}, 1},
		{Lab{60.2574, -34.0099, 36.2677}, Lab{60.4626, -34.1751, 39.4387}, 1.2644},
		{Lab{63.0109, -31.0961, -5.8663}, Lab{62.8187, -29.7946, -4.0864}, 1.2630},
		{Lab{22.7233, 20.0904, -46.6940}, Lab{23.0331, 14.9730, -42.5619}, 2.0373},
		{Lab{2.0776, 0.0795, -1.1350}, Lab{0.9033, -0.0636, -0.5514}, 0.9082},
	} {
		for _, got := range []float64{Difference(c.p, c.q), Difference(c.q, c.p)} {
			if math.Abs(got-c.want) > 5e-5 {
				t.Errorf("Difference(%v, %v) = %.5f, want %.4f", c.p, c.q, got, c.want)
			}
		}
	}
}

func TestLabOf(t *testing.T) {
	// White and black are L* 100 and 0 without hue by the definition in CIE 15; #767676 is worked out from Y 0.181164.
	for _, c := range []struct{ v, want float64 }{{255, 100}, {0, 0}, {118, 116*math.Cbrt(0.1811642) - 16}} {
		got := LabOf(uint8(c.v), uint8(c.v), uint8(c.v))
		if math.Abs(got.L-c.want) > 1e-4 || math.Abs(got.A) > 1e-9 || math.Abs(got.B) > 1e-9 {
			t.Errorf("grey %v is %v, want L* %.4f", c.v, got, c.want)
		}
	}
}

// Near black L* is a straight line: 24389/27 times the luminance below (6/29)^3 (CIE 15:2004). A grey of 5 and one of 20, near the limit's two
// sides: 5/255/12.92 is 0.0015176, and ((20/255+0.055)/1.055)^2.4 is 0.0069954.
func TestLabOfNearBlack(t *testing.T) {
	for grey, y := range map[uint8]float64{5: 5. / 255 / 12.92, 20: math.Pow((20./255+0.055)/1.055, 2.4)} {
		if got := LabOf(grey, grey, grey); math.Abs(got.L-y*24389/27) > 1e-4 || math.Abs(got.A)+math.Abs(got.B) > 1e-9 {
			t.Errorf("grey of %d: %+v, want L* %v", grey, got, y*24389/27)
		}
	}
}
