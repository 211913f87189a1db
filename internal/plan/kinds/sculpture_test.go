package kinds

import (
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// A sculpture takes the room that its three lengths say and is drawn within it, on a pedestal or on the ground, where
// a step of the set-up stands it.
func TestSculpture(t *testing.T) {
	p := mustPlan(t, "units: in\npedestals: [{name: plinth, size: 14 x 14, height: 36}]\nworks:\n  - {name: figure, title: Figure, size: 24 x 12 x 10, on: plinth, price: 900}\n  - {name: stone, title: Stone, size: 10 x 12 x 14, on: ground, along: 6, back: 20, weight: 40lb}\n")
	in := unit.Inch.M()
	for id, want := range map[booth.ID]struct {
		on   booth.ID
		room [3]float64 // inches
		low  float64
	}{"work/figure": {"pedestal/plinth", [3]float64{12, 24, 10}, 36}, "work/stone": {"", [3]float64{12, 10, 14}, 0}} {
		part := p.Part(id)
		if part == nil || part.Parent != want.on || !part.Work.Sculpture || part.Work.Hung != nil {
			t.Fatalf("%s: %+v", id, part)
		}
		lo, hi := geom.Bounds(part.Room()[0].Corners)
		near(t, "it stands at", lo.Y, want.low*in)
		for k, got := range [3]float64{hi.X - lo.X, hi.Y - lo.Y, hi.Z - lo.Z} {
			near(t, "its room", got, want.room[k]*in)
		}
		for _, c := range part.Solids {
			if err := c.Check(); err != nil {
				t.Errorf("%s: %v", id, err)
			}
		}
		slo, shi := geom.BoundsOf(part.Solids) // it is seen from all sides, and not as a card
		for k, got := range [3]float64{shi.X - slo.X, shi.Y - slo.Y, shi.Z - slo.Z} {
			near(t, "what is drawn", got, want.room[k]*in)
		}
		for _, v := range part.Surfaces[0].Mesh.Vertices {
			if mid := part.Frame.At(geom.Vec{Y: (shi.Y - slo.Y) / 2}); v.N.Dot(v.P.Sub(mid)) <= 0 || math.Abs(v.N.Len()-1) > 1e-9 {
				t.Fatalf("%s at %v its skin faces %v", id, v.P, v.N)
			}
		}
		if side := part.Work.FaceTo(part.Frame.At(geom.Vec{X: 3})); math.Abs(side[0].Dist(side[1])-want.room[2]*in) > 1e-9 {
			t.Errorf("from its side %s is %.3f m wide", id, side[0].Dist(side[1]))
		}
	}
	if lo, hi := geom.Bounds(p.Part("work/stone").Room()[0].Corners); math.Abs(lo.X+(60-6)*in) > 1e-9 || math.Abs(hi.Z+20*in) > 1e-9 {
		t.Errorf("from %v to %v: 6 in from the left edge, 20 in behind the front", lo, hi)
	}
	stone := p.Catalogue()[1]
	if _, err := plan(t, "units: in\nworks: [{name: heron, size: 24 x 36, on: ground}]\n"); err == nil || !strings.Contains(err.Error(), "only sculpture stands on the ground") {
		t.Errorf("a picture on the ground: %v", err)
	}
	if stone.On != "ground" || stone.Work.Size(unit.Inches) != "10 x 12 x 14 in" {
		t.Errorf("%s on %q", stone.Work.Size(unit.Inches), stone.On)
	}
	tasks := map[booth.ID]booth.Task{}
	for _, task := range p.SetUp.Tasks {
		tasks[task.ID] = task
	}
	if task := tasks["work/stone"]; task.Crew != 2 || task.Name != "Stand “Stone” in its place" {
		t.Errorf("%+v", task)
	}
	if task := tasks["on/plinth"]; len(task.Parts) != 1 {
		t.Errorf("%+v", task)
	}
}

// A card is cut out where its photograph is transparent: nothing of it is where nothing of the sculpture is, and next to all of it is
// there. A ring of radii 40 and 20 pixels has an area of π(40² − 20²).
func TestCutOut(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 100, 100))
	seen := func(x, y float64) bool { r := math.Hypot(x-50, y-50); return r < 40 && r > 20 }
	for x := range 100 {
		for y := range 100 {
			if seen(float64(x)+0.5, float64(y)+0.5) {
				m.SetNRGBA(x, y, color.NRGBA{200, 100, 50, 255})
			}
		}
	}
	area := 0.0
	for _, s := range cutOut(m, 100) {
		area += 100 * (s.y1 - s.y0) * (s.right0 - s.left0 + s.right1 - s.left1) / 2
		for _, c := range [][2]float64{{s.left0, s.y0}, {s.right0, s.y0}, {s.left1, s.y1}, {s.right1, s.y1}} {
			if r := math.Hypot(c[0], 100*c[1]-50); r > 42 || r < 18 {
				t.Errorf("a corner at %v", c)
			}
		}
	}
	if want := math.Pi * (40*40 - 20*20); math.Abs(area/want-1) > 0.03 {
		t.Errorf("the outline has %.0f square pixels, want %.0f", area, want)
	}
	if all := cutOut(image.NewNRGBA(image.Rect(0, 0, 9, 9)), 1); len(all) != 1 || all[0].right1 != 0.5 {
		t.Errorf("of a photograph that shows nothing: %v", all)
	}
}
