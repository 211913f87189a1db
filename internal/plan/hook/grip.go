package hook

import (
	"math"

	"boothmock/internal/plan/booth"
)

// grip is where a hook holds on so that it carries at a wanted height.
type grip struct {
	y    float64 // metres: the mesh wire, the link, or the place on a panel or a rail's wire
	loop float64 // metres of tie loop, hung, between there and the S-hook; 0: none
	at   float64 // metres above the ground at which the hook then carries
	ok   bool    // false: nothing holds there; at is the nearest height at which something does
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

// Step is the distance from one such height to the next; 0 where a hook can be at any height.
func Step(w *booth.Wall) float64 {
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
	s := Step(w)
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
