package hang

import (
	"math"

	"boothmock/internal/booth"
)

// grip is where a hook holds on so that it carries at a wanted height.
type grip struct {
	y    float64 // metres: the mesh wire, the link, or the place on a panel or a rail's wire
	loop float64 // metres of tie loop, hung, between there and the S-hook; 0: none
	at   float64 // metres above the ground at which the hook then carries
	ok   bool    // false: nothing holds there; at is the nearest height that can be had
}

const hair = 1e-9 // metres: rounding

// line is the lowest height, not below y, at which a wall has something to hold on to; ok is false above the last one.
func line(w *booth.Wall, y float64) (height float64, ok bool) {
	switch w.Hold {
	case booth.Mesh:
		n := max(0, math.Ceil((y-w.Bottom)/w.Spacing-hair))
		height = w.Bottom + float64(n*w.Spacing)
	case booth.Chains:
		n := math.Floor((w.Top-y)/w.Link + hair)
		n = min(n, math.Floor((w.Top-w.Bottom)/w.Link+hair))
		height = w.Top - float64(n*w.Link)
	default:
		height = max(y, w.Bottom)
	}
	return height, height <= w.Top+hair
}

// step is the distance from one such height to the next; 0 where a hook can be at any height.
func step(w *booth.Wall) float64 {
	switch w.Hold {
	case booth.Mesh:
		return w.Spacing
	case booth.Chains:
		return w.Link
	}
	return 0
}

// reach finds what a hook that is to carry at y holds on to. On mesh and chains that is a wire or link above, then a tie
// loop where the S-hook alone does not come within slack of y, then the S-hook.
func reach(w *booth.Wall, h booth.Hooks, slack, y float64) grip {
	s := step(w)
	if s == 0 {
		g := grip{y: min(max(y, w.Bottom), w.Top)}
		g.at, g.ok = g.y, math.Abs(g.y-y) <= slack+hair
		return g
	}
	for from := y + h.Drop - slack; ; {
		l, ok := line(w, from)
		if !ok {
			break
		}
		rest := l - h.Drop - y
		if math.Abs(rest) <= slack+hair {
			return grip{y: l, at: l - h.Drop, ok: true}
		}
		if rest >= h.Loop-hair {
			return grip{y: l, loop: rest, at: y, ok: true}
		}
		from = l + s/2
	}
	// Nothing is high enough: the highest line without a loop, or with the shortest one.
	top, _ := line(w, w.Top-s+hair)
	if top > w.Top+hair {
		top -= s
	}
	direct, tied := top-h.Drop, top-h.Drop-h.Loop
	if math.Abs(tied-y) < math.Abs(direct-y) {
		return grip{y: top, loop: h.Loop, at: tied}
	}
	return grip{y: top, at: direct}
}

// spots are places across a wall at which n hooks, apart metres from each other, can hold a work whose middle should be
// at x: the middle that can be had, nearest to x. ok is false if the wall has no two places so far apart.
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
	if steps < 1 || math.Abs(steps*w.Spacing-apart) > slack+hair || steps > last {
		return x, nil, false
	}
	k := min(max(0, math.Round(x/w.Spacing-steps/2)), last-steps)
	a, b := k*w.Spacing, (k+steps)*w.Spacing
	return (a + b) / 2, []float64{a, b}, true
}
