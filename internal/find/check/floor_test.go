package check

import (
	"math"
	"slices"
	"testing"

	"boothmock/internal/basis/way"
)

// Between two posts flush with a line, as far apart as a chord, a round thing comes nearer than the line by the sagitta of that
// chord: r - √(r² - (c/2)²) (Euclid, Elements III.35, as any geometry book has it). Posts so near that nobody feels it have one
// outline, those farther apart keep their own.
func TestSagitta(t *testing.T) {
	post := func(x float64) way.Shape {
		return way.Shape{{X: x, Z: -0.03}, {X: x + 0.05, Z: -0.03}, {X: x + 0.05}, {X: x}}
	}
	const radius, felt, aside = 0.4, 0.375 * 0.0254, 0.02 // metres; aside is how far from the middle the nearest try can be
	sagitta := func(half float64) float64 { return radius - math.Sqrt(radius*radius-half*half) }
	for _, chord := range []float64{0.02, 0.06, 0.10, 0.14, 0.18, 0.22, 0.30, 0.40} {
		posts := []way.Shape{post(0), post(0.05 + chord)}
		got := sag(way.Hull(slices.Concat(posts...)), posts)
		if want := sagitta(chord / 2); got > want+1e-12 || got < sagitta(max(0, chord/2-aside)) {
			t.Errorf("%v m apart: %v m nearer, and the sagitta is %v", chord, got, want)
		}
		if n := len(joined(posts)); (n == 1) != (got <= felt) {
			t.Errorf("%v m apart, %v m nearer: %d outlines", chord, got, n)
		}
	}
}
