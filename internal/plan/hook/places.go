package hook

import (
	"math"

	"boothmock/internal/plan/booth"
)

// places are where hooks go across a wall for a work so wide whose middle should be at x, from left to right, and where
// its middle then is; ok is false if the wall has no places for what is on its back.
func places(w *booth.Wall, f booth.Fixing, width, slack, x float64) (middle float64, hooks []float64, ok bool) {
	if w.Hold == booth.None {
		return x, nil, false
	}
	switch f.By {
	case booth.Wire:
		middle, hooks = onWire(w, f, slack, x)
		return middle, hooks, true
	case booth.Rings:
		return spots(w, 2, f.Spacing, 2*slack, x)
	case booth.Sawtooth:
		return spots(w, 1, 0, slack, x)
	}
	if w.Hold != booth.Panel { // a cleat is screwed to something flat
		return x, nil, false
	}
	third := width / 3 // common practice, no source: the wall's half is two thirds as wide as the work
	return x, []float64{x - third, x + third}, true
}

// spots are places across a wall at which n hooks, apart metres from each other, can hold a work whose middle should be
// at x: the middle that is nearest to x of those that are possible. ok is false if the wall has no two places so far apart.
func spots(w *booth.Wall, n int, apart, slack, x float64) (middle float64, hooks []float64, ok bool) {
	if w.Hold != booth.Chains {
		if n == 1 {
			return x, []float64{x}, true
		}
		return x, []float64{x - apart/2, x + apart/2}, true
	}
	last := math.Floor(w.Width/w.Spacing + hair)
	if n == 1 {
		k := min(max(0, math.Round(x/w.Spacing)), last)
		return k * w.Spacing, []float64{k * w.Spacing}, true
	}
	steps := math.Round(apart / w.Spacing)
	if steps < 1 || math.Abs(float64(steps*w.Spacing)-apart) > slack+hair || steps > last {
		return x, nil, false
	}
	k := min(max(0, math.Round(x/w.Spacing-steps/2)), last-steps)
	a, b := k*w.Spacing, (k+steps)*w.Spacing
	return (a + b) / 2, []float64{a, b}, true
}

// onWire is where a work that hangs by a wire can be. A wire slides on its hooks until it is even, so the work's middle
// hangs under one hook or halfway between two. On chains the nearer of the two is taken.
func onWire(w *booth.Wall, f booth.Fixing, slack, x float64) (middle float64, hooks []float64) {
	if w.Hold != booth.Chains {
		middle, hooks, _ = spots(w, f.Hooks, f.Spacing/3, slack, x)
		return middle, hooks
	}
	middle, hooks, _ = spots(w, 1, 0, slack, x)
	if w.Spacing <= 0.8*f.Spacing { // common practice, no source: the wire between two hooks leaves enough of it to slide
		m, h, ok := spots(w, 2, w.Spacing, slack, x)
		if ok && (f.Hooks == 2 || math.Abs(m-x) < math.Abs(middle-x)) {
			return m, h
		}
	}
	return middle, hooks
}

// Past is how far past an end of its wall a hook of a work would be, in metres, and which end.
func Past(h *booth.Hung, w *booth.Wall, f booth.Fixing, slack float64) (past float64, end string) {
	_, across, _ := places(w, f, h.X1-h.X0, slack, (h.X0+h.X1)/2)
	left, right := -across[0], across[len(across)-1]-w.Width
	if left > right {
		return left, "left"
	}
	return right, "right"
}
