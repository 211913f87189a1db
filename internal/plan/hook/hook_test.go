package hook

import (
	"math"
	"math/rand/v2"
	"testing"

	"boothmock/internal/plan/booth"
)

const in = 0.0254 // metres

// Whatever the height, what is held on to leads to a level work: hold on + loop + hook, each rounded to 1/8 in, is
// within half an eighth of the loop and the stated tolerance; and a hook never holds on where there is no wire.
func TestHooksAreLevel(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	h := booth.Hooks{Drop: 1.25 * in, Loop: 0.5 * in}
	const slack = in / 8
	for _, hold := range []booth.Hold{booth.Mesh, booth.Chains, booth.Rail, booth.Panel} {
		for range 2000 {
			w := booth.Wall{Width: 3, Bottom: 6 * in, Top: 82 * in, Hold: hold, Spacing: (0.5 + 3*r.Float64()) * in, Link: (0.3 + r.Float64()) * in}
			y := (2 + 88*r.Float64()) * in
			g := reach(&w, h, slack, y)
			if g.y > w.Top+hair || g.y < w.Bottom-hair {
				t.Fatalf("%s: holds on at %v, the wall is %v to %v", hold, g.y/in, w.Bottom/in, w.Top/in)
			}
			if s := Step(&w); s > 0 {
				from := w.Bottom
				if hold == booth.Chains {
					from = w.Top
				}
				if n := (g.y - from) / s; math.Abs(n-math.Round(n)) > 1e-6 {
					t.Fatalf("%s: holds on at %v, where nothing is", hold, g.y/in)
				}
				if got := g.y - g.loop - h.Drop; math.Abs(got-g.at) > hair {
					t.Fatalf("%s: carries at %v, adds up to %v", hold, g.at/in, got/in)
				}
				if g.loop != 0 && g.loop < h.Loop-hair {
					t.Fatalf("%s: a loop of %v in", hold, g.loop/in)
				}
			}
			if g.ok && math.Abs(g.at-y) > slack+hair {
				t.Fatalf("%s: carries at %v instead of %v", hold, g.at/in, y/in)
			}
			if !g.ok && y > w.Bottom && y < w.Top-h.Drop-h.Loop-w.Spacing {
				t.Fatalf("%s: nothing for %v", hold, y/in)
			}
		}
	}
}

// One work, 24 x 36 in, on every kind of wall and by everything that can be on its back, by hand, in inches. The wall is 117
// wide, hooks hold between 6 and 82; mesh wires lie 2 apart from 6 on, chains hang 12 apart with a link an inch from 82 on. An
// S-hook drops 1 1/4, the shortest loop is 1/2, the tolerance 1/8. The work is asked for with its middle at 50 across and 58 up.
//
//	wire      rings 20 apart and 8 down, wire 22: on one hook it sags √(22² − 20²)/2 = 4.582576, so the hook carries 3.417424
//	          below the upper edge, at 66.582576. On two hooks 20/3 apart: √(15.3333² − 13.3333²)/2 = 3.785939, at
//	          65.785939; on two chains 12 apart √(10² − 8²)/2 = 3, at 65.
//	rings     18 apart and 3 down: at 67. Plus 1 1/4 is 68.25: mesh at 70 with a loop of 1.75; a link at 69 with one of 3/4.
//	sawtooth  1/2 down: at 69.5, plus 1 1/4 is 70.75: mesh at 72 with a loop of 1.25; 71 would need a loop of 1/4, too short,
//	          so the link at 72 too.
//	cleat     2 down: at 68. Only a panel takes it, at 12 on either side of the middle.
func TestEveryKindOfWall(t *testing.T) {
	fixings := map[string]booth.Fixing{
		"wire":      {By: booth.Wire, Spacing: 20 * in, Wire: 22 * in, Drop: 8 * in, Hooks: 1},
		"two hooks": {By: booth.Wire, Spacing: 20 * in, Wire: 22 * in, Drop: 8 * in, Hooks: 2},
		"rings":     {By: booth.Rings, Spacing: 18 * in, Drop: 3 * in, Hooks: 2},
		"rings 24":  {By: booth.Rings, Spacing: 24 * in, Drop: 3 * in, Hooks: 2},
		"sawtooth":  {By: booth.Sawtooth, Drop: 0.5 * in, Hooks: 1},
		"cleat":     {By: booth.Cleat, Drop: 2 * in, Hooks: 2},
	}
	for _, c := range []struct {
		hold          booth.Hold
		by            string
		unheld        booth.Unheld
		across        []float64
		y, grip, loop float64
		moved, raised float64
		middle, up    float64 // asked for; 50 and 58 if 0
	}{
		{hold: booth.Mesh, by: "wire", across: []float64{50}, y: 66.582576, grip: 70, loop: 2.167424},
		{hold: booth.Mesh, by: "two hooks", across: []float64{50 - 10.0/3, 50 + 10.0/3}, y: 65.785939, grip: 68, loop: 0.964061},
		{hold: booth.Mesh, by: "rings", across: []float64{41, 59}, y: 67, grip: 70, loop: 1.75},
		{hold: booth.Mesh, by: "sawtooth", across: []float64{50}, y: 69.5, grip: 72, loop: 1.25},
		{hold: booth.Mesh, by: "cleat", unheld: booth.NoPlace},
		{hold: booth.Rail, by: "wire", across: []float64{50}, y: 66.582576, grip: 66.582576},
		{hold: booth.Rail, by: "rings", across: []float64{41, 59}, y: 67, grip: 67},
		{hold: booth.Rail, by: "sawtooth", across: []float64{50}, y: 69.5, grip: 69.5},
		{hold: booth.Rail, by: "cleat", unheld: booth.NoPlace},
		{hold: booth.Panel, by: "two hooks", across: []float64{50 - 10.0/3, 50 + 10.0/3}, y: 65.785939, grip: 65.785939},
		{hold: booth.Panel, by: "rings", across: []float64{41, 59}, y: 67, grip: 67},
		{hold: booth.Panel, by: "cleat", across: []float64{38, 62}, y: 68, grip: 68},
		{hold: booth.Chains, by: "wire", across: []float64{48}, y: 66.582576, grip: 69, loop: 1.167424, moved: -2},
		{hold: booth.Chains, by: "wire", middle: 52, across: []float64{48, 60}, y: 65, grip: 67, loop: 0.75, moved: 2},
		{hold: booth.Chains, by: "two hooks", across: []float64{48, 60}, y: 65, grip: 67, loop: 0.75, moved: 4},
		{hold: booth.Chains, by: "rings", unheld: booth.NoPlace},
		{hold: booth.Chains, by: "rings 24", across: []float64{36, 60}, y: 67, grip: 69, loop: 0.75, moved: -2},
		{hold: booth.Chains, by: "sawtooth", across: []float64{48}, y: 69.5, grip: 72, loop: 1.25, moved: -2},
		{hold: booth.Chains, by: "sawtooth", middle: 116, across: []float64{108}, y: 69.5, grip: 72, loop: 1.25, moved: -8},
		{hold: booth.Chains, by: "cleat", unheld: booth.NoPlace},
		{hold: booth.None, by: "wire", unheld: booth.NoPlace},
		// Higher than anything holds: at 74 the rings carry at 83, the wire at 82 and the link there at 80.75 at most.
		{hold: booth.Mesh, by: "rings", up: 74, across: []float64{41, 59}, y: 80.75, grip: 82, raised: -2.25},
		{hold: booth.Chains, by: "rings 24", up: 74, across: []float64{36, 60}, y: 80.75, grip: 82, moved: -2, raised: -2.25},
		{hold: booth.Panel, by: "rings", up: 74, across: []float64{41, 59}, y: 82, grip: 82, raised: -1},
		// Lower than anything holds: at -7 the rings would carry at 2. A loop reaches down from a wire, a panel has none there.
		{hold: booth.Mesh, by: "rings", up: -7, across: []float64{41, 59}, y: 2, grip: 6, loop: 2.75},
		{hold: booth.Panel, by: "rings", up: -7, across: []float64{41, 59}, y: 6, grip: 6, raised: 4},
		// Past the end: a hook at 8 - 9 = -1, or at 110 + 9 = 119.
		{hold: booth.Mesh, by: "rings", middle: 8, unheld: booth.PastEnd},
		{hold: booth.Panel, by: "rings", middle: 110, unheld: booth.PastEnd},
		{hold: booth.Rail, by: "sawtooth", middle: -1, unheld: booth.PastEnd},
	} {
		w := booth.Wall{Width: 117 * in, Bottom: 6 * in, Top: 82 * in, Hold: c.hold, Spacing: 2 * in, Link: 1 * in}
		if c.hold == booth.Chains {
			w.Spacing = 12 * in
		}
		middle, up := c.middle, c.up
		if middle == 0 {
			middle = 50
		}
		if up == 0 {
			up = 58
		}
		h := booth.Hung{X0: (middle - 18) * in, X1: (middle + 18) * in, Y0: (up - 12) * in, Y1: (up + 12) * in}
		Hang(&h, &w, fixings[c.by], booth.Hooks{Drop: 1.25 * in, Loop: 0.5 * in}, in/8)
		name := string(c.hold) + ", " + c.by
		is := func(what string, metres, inches float64) {
			t.Helper()
			near(t, name+": "+what, metres/in, inches, 5e-7)
		}
		is("its middle", (h.X0+h.X1)/2, middle+c.moved)
		is("its height", h.Centre(), up+c.raised)
		is("moved", h.Moved, c.moved)
		is("raised", h.Raised, c.raised)
		if h.Unheld != c.unheld || len(h.Hooks) != len(c.across) {
			t.Errorf("%s: %q with %d hooks, want %q with %d", name, h.Unheld, len(h.Hooks), c.unheld, len(c.across))
			continue
		}
		for i, k := range h.Hooks {
			is("hook", k.X, c.across[i])
			is("carries", k.Y, c.y)
			is("holds on", k.Grip, c.grip)
			is("loop", k.Loop, c.loop)
		}
	}
}
