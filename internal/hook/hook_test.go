package hook

import (
	"math"
	"math/rand/v2"
	"testing"

	"boothmock/internal/booth"
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
