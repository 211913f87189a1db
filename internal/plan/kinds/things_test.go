package kinds

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Every shape keeps within the room that it is said to take, stands on the ground and is as high as it says; an easel's legs
// may spread a little more.
func TestShapesKeepWithinTheirSize(t *testing.T) {
	for what, k := range shapes {
		for _, size := range [][3]float64{k.size, {30, 20, 50}} {
			p := mustPlan(t, fmt.Sprintf("units: in\nthings: [{name: a, what: %s, size: %g x %g x %g}]\n", what, size[0], size[1], size[2]))
			part := p.Part("thing/a")
			var corners []geom.Vec
			for _, c := range part.Solids {
				if err := c.Check(); err != nil {
					t.Errorf("%s: %v", what, err)
				}
				for _, v := range c.Corners {
					corners = append(corners, part.Frame.Local(v))
				}
			}
			lo, hi := geom.Bounds(corners)
			const in, hair = 0.0254, 0.0015
			spread := 0.0
			if what == "easel" {
				spread = 0.1
			}
			if lo.Y < -hair || lo.Y > 0.04 || math.Abs(hi.Y-size[2]*in) > 0.02*size[2]*in+hair {
				t.Errorf("%s of %v in reaches from %.4f to %.4f m", what, size, lo.Y, hi.Y)
			}
			if max(-lo.X, hi.X) > size[0]*in/2+hair || max(-lo.Z, hi.Z) > size[1]*in/2+hair+spread+map[bool]float64{true: 0.3}[what == "easel"] {
				t.Errorf("%s of %v in takes the room from %v to %v", what, size, lo, hi)
			}
		}
	}
}

// A work stands on an easel, leaning against it; a rug is laid before what stands on it, and nobody trips over a thing that
// is walked on.
func TestEaselAndRug(t *testing.T) {
	p := mustPlan(t, "units: in\nthings: [{name: tripod, what: easel}, {name: mat, what: rug}, {name: box, on: desk, size: 5 x 5 x 5}]\ntables: [{name: desk, size: 40 x 20}]\nworks: [{name: a, size: 24 x 30, on: tripod}]\n")
	work, easel := p.Part("work/a"), p.Part("thing/tripod")
	if work == nil || work.Parent != easel.ID || !easel.Cradle || math.Abs(work.Frame.Z.Y-math.Sin(easelLean)) > 1e-9 {
		t.Fatalf("%+v on %+v", work, easel)
	}
	for _, c := range easel.Solids { // what leans does not go into the work
		for _, w := range work.Solids {
			if d := geom.Overlap(geom.Map(c), geom.Map(w)); d > 0.001 {
				t.Errorf("a piece of the easel is %.4f m in the work", d)
			}
		}
	}
	if !p.Part("thing/mat").Flat || p.Part("thing/box").Parent != "table/desk" {
		t.Error("the rug or the box stands elsewhere")
	}
	for _, task := range p.SetUp.Tasks {
		if task.ID == booth.ID("table/desk") && !strings.Contains(fmt.Sprint(task.After), "thing/mat") {
			t.Errorf("the table is set up before the rug is laid: %v", task.After)
		}
	}
}
