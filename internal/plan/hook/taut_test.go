package hook

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s is %v, want %v within %v", what, got, want, tol)
	}
}

const deg = math.Pi / 180

// at is a wire that leaves its rings at the angle.
func at(angle float64) Taut { return Taut{Spacing: 1, Length: 1 / math.Cos(angle)} }

// Derived from the ellipse: rings 20 in apart with 22 in of wire sag 4.582576 in and pull 1.200198 W; with 20.5 in they
// sag 2.25 in exactly and pull 2.277778 W. 10 lb pull 12.00 lb.
func TestTautWire(t *testing.T) {
	w := Taut{Spacing: 20, Length: 22}
	near(t, "sag", w.Sag(), 4.582576, 5e-7)
	near(t, "tension", w.Tension(1), 1.200198, 5e-7)
	near(t, "tension of 10 lb", w.Tension(10), 12.00, 0.005)
	w.Length = 20.5
	near(t, "sag of a tight wire", w.Sag(), 2.25, 1e-12)
	near(t, "tension of a tight wire", w.Tension(1), 2.277778, 5e-7)
	// The property of the ellipse itself: from ring to hook to ring is the whole wire, with one hook and with two.
	for _, apart := range []float64{0, 4, 10} {
		w := Taut{Spacing: 20, Length: 22, Apart: apart}
		near(t, "wire over the hooks", 2*math.Hypot((20-apart)/2, w.Sag())+apart, 22, 1e-12)
	}
	near(t, "sag of a wire that is too short", Taut{Spacing: 20, Length: 20}.Sag(), 0, 0)
}

// T/W by T = W/(2 sin a), to six places.
func TestTensionTable(t *testing.T) {
	for angle, want := range map[float64]float64{60: 0.577350, 45: 0.707107, 30: 1, 20: 1.461902, 15: 1.931852, 10: 2.879385, 5: 5.736857} {
		near(t, "T/W", at(angle*deg).Tension(1), want, 5e-7)
	}
}

// Printed problems of statics.
func TestPublishedStatics(t *testing.T) {
	// physicsforums.com/threads/tension-and-weight.78306: 3.5 N on each side at 45 degrees hold 4.9 N.
	near(t, "4.9 N picture", at(45*deg).Tension(4.9497), 3.5, 5e-5)
	// jiskha.com/questions/444620: 20 kg hung 2 m below the ceiling by two cables of 3 m: 147 N each, with g = 9.8.
	w := Taut{Spacing: 2 * math.Sqrt(5), Length: 6}
	near(t, "sag", w.Sag(), 2, 1e-12)
	near(t, "147 N", w.Tension(20*9.8), 147, 1e-9)
	// Giancoli, chapter 12 (numerade.com): 60.0 kg in the middle of a wire of 36 m that sags 2.1 m: 2500 N (2537.1). The
	// 36 m are the span: each half rises 2.1 m on 18 m.
	w = Taut{Spacing: 36, Length: 2 * math.Hypot(18, 2.1)}
	near(t, "2500 N", w.Tension(60*9.8), 2537.1, 2)
	// wyzant.com 379661: 500 N with at most 1800 N in the rope needs 7.98 degrees.
	near(t, "7.98 degrees", LeastAngle(500, 1800)/deg, 7.98, 0.005)
	near(t, "tension at that angle", at(LeastAngle(500, 1800)).Tension(500), 1800, 1e-9)
	// qammunity.org/9095786: 70 kg at 3 degrees, 6553.811 N with g = 9.8.
	near(t, "6553.811 N", at(3*deg).Tension(70*9.8), 6553.811, 0.001)
	near(t, "no angle will do", LeastAngle(10, 5)/deg, 90, 1e-12)
	// Balance of moments: 18 lb at 8 of 24 in: 12 and 6 lb.
	a, b := Share(18, 8, 24)
	near(t, "first hook", a, 12, 1e-12)
	near(t, "second hook", b, 6, 1e-12)
}

// Two hooks under one wire, by hand: rings 20 apart, hooks 10 apart, wire 22: 6 on each side over 5 level, so the sag
// is √11 = 3.3166, T = W/(2·3.3166/6) = 0.90453 W, and each hook is drawn inwards by T·(1 − 5/6) = 0.15076 W.
func TestTwoHooksUnderOneWire(t *testing.T) {
	w := Taut{Spacing: 20, Length: 22, Apart: 10}
	near(t, "sag", w.Sag(), math.Sqrt(11), 1e-12)
	near(t, "tension", w.Tension(1), 0.9045340, 5e-8)
	near(t, "inward", w.Inward(1), 0.1507557, 5e-8)
	near(t, "inward on one hook", Taut{Spacing: 20, Length: 22}.Inward(1), 0, 0)
}
