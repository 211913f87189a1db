package kinds

import (
	"fmt"
	"math"
	"slices"
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
			where, below := "", 0.0
			if what == "shelf" || what == "ledge" {
				where = ", wall: back"
			}
			if what == "bag-hooks" {
				where = ", hangs on: back, height: 60"
			}
			if what == "shelf" { // its brackets are under it
				below = 0.8 * size[1] * 0.0254
			}
			p := mustPlan(t, fmt.Sprintf("units: in\nwalls: [{side: back, hang on: panel}]\nthings: [{name: a, what: %s, size: %g x %g x %g%s}]\n", what, size[0], size[1], size[2], where))
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
			if lo.Y < -hair-below || lo.Y > 0.04 || math.Abs(hi.Y-size[2]*in) > 0.02*size[2]*in+hair {
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

// What leans on a shelf or a ledge touches the wall with its upper edge and the board with its lower one, behind the lip; the
// shelf is fastened before anything stands on it and comes down before its wall. Nobody brings a tree.
func TestShelves(t *testing.T) {
	p := mustPlan(t, "units: in\nwalls: [{side: back, hang on: panel}]\nthings:\n  - {name: shelf, what: shelf, wall: back, height: 40}\n  - {name: rail, what: ledge, wall: back, height: 60, left: 10}\n"+
		"  - {name: oak, what: tree, from left: -40, from back: -40}\nworks:\n  - {name: a, size: 14 x 11, depth: 1, on: shelf}\n  - {name: b, size: 9 x 12, depth: 1, on: rail, along: 2}\n")
	wall := p.Part("wall/back")
	for _, c := range []struct {
		work, on string
		high     float64 // in
	}{{"a", "shelf", 40}, {"b", "rail", 60}} {
		work, on := p.Part(booth.ID("work/"+c.work)), p.Part(booth.ID("thing/"+c.on))
		var corners []geom.Vec
		for _, v := range work.Solids[0].Corners {
			corners = append(corners, wall.Frame.Local(v))
		}
		lo, hi := geom.Bounds(corners)
		if work.Parent != on.ID || on.Parent != wall.ID || on.Heft <= 0 || math.Abs(lo.Z) > 1e-9 || math.Abs(lo.Y-c.high*0.0254) > 1e-9 || hi.Z < 0.05 {
			t.Errorf("%s reaches from %v to %v before the wall", c.work, lo, hi)
		}
		for _, c := range on.Solids {
			if d := geom.Overlap(geom.Map(c), geom.Map(work.Solids[0])); d > 0.001 {
				t.Errorf("%s goes %.4f m into what it stands on", work.Name, d)
			}
		}
	}
	order := func(tasks []booth.Task, ids ...booth.ID) {
		for i, id := range ids[1:] {
			k := slices.IndexFunc(tasks, func(t booth.Task) bool { return t.ID == id })
			if k < 0 || !slices.Contains(tasks[k].After, ids[i]) {
				t.Errorf("%s does not wait for %s", id, ids[i])
			}
		}
	}
	order(p.SetUp.Tasks, "wall/back", "thing/shelf", "on/shelf")
	order(p.SetUp.Strike, "on/shelf", "thing/shelf", "wall/back")
	if oak := p.Part("thing/oak"); !oak.Beyond || oak.Bring != "" || slices.ContainsFunc(p.SetUp.Tasks, func(t booth.Task) bool { return t.ID == oak.ID }) {
		t.Errorf("the oak is brought: %+v", oak.Bring)
	}
}
