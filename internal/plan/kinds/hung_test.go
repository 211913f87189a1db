package kinds

import (
	"math"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// What hangs on a wall, on a table's front, under a table or under a bar of the tent touches it, with its upper edge where the scene says,
// and is a step of the set-up; cords reach up to what it hangs under.
func TestThingsThatHang(t *testing.T) {
	p := mustPlan(t, "units: in\ntent: {eave: 90}\nwalls: [{side: back, hang on: panel}]\ntables: [{name: desk, size: 40 x 20, height: 30, from left: 10, from front: 30}]\nthings:\n"+
		"  - {name: pegs, what: bag-hooks, hangs on: desk}\n  - {name: wreath, size: 10 x 4 x 12, hangs on: back, height: 70, left: 5}\n"+
		"  - {name: basket, size: 12 x 10 x 8, hangs under: desk, left: 2}\n  - {name: lantern, size: 8 x 8 x 12, hangs under: left bar, height: 80}\n  - {name: words, what: board, size: 30 x 1 x 6, hangs under: front bar}\n")
	const in = 0.0254
	for _, c := range []struct {
		id, on booth.ID
		top    float64 // inches
		step   string
	}{
		{"thing/pegs", "table/desk", 30, "on/desk"}, {"thing/wreath", "wall/back", 70, "thing/wreath"}, {"thing/basket", "table/desk", 30 - topThick/in, "on/desk"},
		{"thing/lantern", "tent", 90 - barAt/in, "thing/lantern"}, {"thing/words", "tent", 90 - barAt/in, "thing/words"},
	} {
		part := p.Part(c.id)
		if part == nil || part.Parent != c.on || !part.Hangs {
			t.Fatalf("%s: %+v", c.id, part)
		}
		if _, hi := geom.BoundsOf(part.Solids); math.Abs(hi.Y-c.top*in) > 1e-6 {
			t.Errorf("%s reaches %.3f in up, want %.3f", c.id, hi.Y/in, c.top)
		}
		for _, tasks := range [][]booth.Task{p.SetUp.Tasks, p.SetUp.Strike} {
			if !slices.ContainsFunc(tasks, func(k booth.Task) bool { return string(k.ID) == c.step && slices.Contains(k.Parts, c.id) }) {
				t.Errorf("no step has %s", c.id)
			}
		}
	}
	lo, hi := geom.BoundsOf(p.Part("thing/pegs").Solids)
	if _, front := geom.BoundsOf(p.Part("table/desk").Solids); math.Abs(lo.Z-front.Z) > 1e-6 || hi.Z < front.Z {
		t.Errorf("the pegs reach from %v to %v, before the table's front at %v", lo, hi, front.Z)
	}
	if z := p.Part("thing/words").Frame.Z; z.Z < 0.99 {
		t.Errorf("what hangs over the entrance looks towards %v, not into the aisle", z)
	}
	if got := p.Part("thing/wreath").Frame.Origin; math.Abs(got.X-p.Part("wall/back").Frame.At(geom.Vec{X: 10 * in}).X) > 1e-9 {
		t.Errorf("the wreath hangs at %v", got)
	}
	for says, want := range map[string]string{
		"{name: a, hangs on: nothing}":             `there is no wall, table or thing "nothing"`,
		"{name: a, hangs under: chest}":            "nothing hangs under the chest",
		"{name: a, hangs on: back, from left: 3}":  `the a hangs, and "from left" is of one that does not`,
		"{name: a, hangs under: left bar}":         "without a tent there is no left bar",
		"{name: a, what: bag-hooks}":               "the a hang nowhere",
		"{name: a, wall: back}":                    "say hangs on: and the wall's name",
		"{name: a, what: shelf, hangs on: back}":   "a shelf is fastened to a wall",
		"{name: a, left: 3}":                       "are of a thing that hangs",
		"{name: a, what: plant, image: a.jpg}":     "the a has no flat front for a picture",
		"{name: a, what: a-board, image: no.jpg}":  "no.jpg",
		"{name: a, hangs on: b}, {name: b, on: a}": `there is no table, pedestal or thing "a"`,
	} {
		_, err := plan(t, "units: in\nwalls: [{side: back}]\nthings: [{name: chest}, "+says+"]\n")
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v\nwant %s", says, err, want)
		}
	}
}

// A thing may stand on one that comes later in the file.
func TestThingsInAnyOrder(t *testing.T) {
	p := mustPlan(t, "units: in\nthings: [{name: cup, size: 3 x 3 x 4, on: tray}, {name: tray, size: 12 x 12 x 2, on: chest}, {name: chest, size: 20 x 20 x 20}]\n")
	if y := p.Part("thing/cup").Frame.Origin.Y; math.Abs(y-22*0.0254) > 1e-9 {
		t.Errorf("the cup stands %.3f m up", y)
	}
}

// What is clamped to a bar, or hangs under it, is on a tent where several stand side by side too.
func TestBarsOfSeveralTents(t *testing.T) {
	p := mustPlan(t, "pitch: {width: 20ft}\ntent: {tents across: 2}\nthings: [{name: lantern, what: round, hangs under: left bar}]\nlamps: [{name: spot, clip to: front bar, aim: down}]\n")
	for _, id := range []booth.ID{"thing/lantern", "lamp/spot"} {
		if on := p.Part(p.Part(id).Parent); on == nil || on.Tent == nil {
			t.Errorf("%s is on %q", id, p.Part(id).Parent)
		}
	}
	if !slices.ContainsFunc(p.SetUp.Tasks, func(k booth.Task) bool { return k.ID == "thing/lantern" }) {
		t.Error("nobody hangs the lantern")
	}
}
