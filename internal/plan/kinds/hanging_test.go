package kinds

import (
	"math"
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
)

const hangScene = `
units: in
tent: {eave: 84, peak: 120, weight: 50lb, ballast: 40lb}
drapes: {walls: [back], grams: 150}
walls: [{side: back, holds: 60lb}]
works:
  - {name: a, size: 24 x 36, wall: back, %s}
tables: [{name: t, size: 48 x 22, on top: [{name: cards, size: 4 x 4 x 6, for visitors: yes}]}]
hooks: {drop: 1 1/2, hold: 25lb, wire holds: 30lb}
kit: [{name: trolley, weight: 14lb, count: 2}]
weather: {%s}
`

func hangPlan(t *testing.T, fixing, weather string) *booth.Plan {
	t.Helper()
	return mustPlan(t, strings.Replace(strings.Replace(hangScene, "%s", fixing, 1), "%s", weather, 1))
}

// What the scene says of hanging, weights and weather stands in the plan.
func TestHangingIsInThePlan(t *testing.T) {
	p := hangPlan(t, "rings: 20, wire: 22, rings down: 8", "wind: force 5, friction: 0.5, around: built")
	in := unit.Inch.M()
	f := p.Part("work/a").Work.Fixing
	near(t, "wire holds", f.Holds.Kg(), 30*unit.Pound.Kg())
	if f.By != booth.Wire || f.Assumed || f.Hooks != 1 {
		t.Errorf("%+v", f)
	}
	near(t, "rings", f.Spacing, 20*in)
	near(t, "wire", f.Wire, 22*in)
	near(t, "down", f.Drop, 8*in)
	near(t, "hook", p.Hooks.Drop, 1.5*in)
	near(t, "hooks hold", p.Hooks.Holds.Kg(), 25*unit.Pound.Kg())
	if len(p.Kit) != 1 || p.Kit[0].Count != 2 {
		t.Errorf("%+v %+v", p.Hooks, p.Kit)
	}
	near(t, "gust", p.Weather.Gust, 10.8*wind.Gustiness)
	if p.Weather.Exposure != "B" || p.Weather.Friction != 0.5 || p.Weather.Assumed || p.Weather.Rain {
		t.Errorf("%+v", p.Weather)
	}
	tent := p.Part("tent").Tent
	near(t, "tent", tent.Weight.Kg(), 50*unit.Pound.Kg())
	near(t, "ballast", tent.Ballast.Kg(), 40*unit.Pound.Kg())
	if tent.Legs != 4 {
		t.Errorf("%+v", tent)
	}
	near(t, "roof", tent.RoofFront, 120*36*in*in/2)
	wall := p.Part("wall/back").Wall
	if wall.Cover != "drape/back" || math.Abs((wall.Holds-60*unit.Pound).Kg()) > 1e-9 || p.Part("drape/back").Cloth.Grammage != 150 {
		t.Errorf("%+v", wall)
	}
	if !p.Part("thing/cards").Handled || p.Part("table/t").Handled {
		t.Error("what visitors take is not marked")
	}
}

// Usual measures stand in for what is not said and are marked as such. They hide the hook and leave the wire at the
// angle of cos a = 6/7, 31 degrees.
func TestUsualFixing(t *testing.T) {
	f := hangPlan(t, "depth: 1", "rain: no").Part("work/a").Work.Fixing
	if f.By != booth.Wire || !f.Assumed {
		t.Errorf("%+v", f)
	}
	sag := math.Sqrt(f.Wire*f.Wire-f.Spacing*f.Spacing) / 2
	near(t, "cosine", f.Spacing/f.Wire, 6.0/7)
	near(t, "sag share", sag/f.Spacing, sagOfSpacing)
	if hidden := f.Drop - sag; hidden < usualHidden-1e-9 {
		t.Errorf("the hook is %v m below the edge", hidden)
	}
	if f := hangPlan(t, "rings: 20", "rain: no").Part("work/a").Work.Fixing; f.By != booth.Rings || f.Hooks != 2 || !f.Assumed {
		t.Errorf("%+v", f)
	}
	if f := hangPlan(t, "hang by: sawtooth, rings down: 1/2", "rain: no").Part("work/a").Work.Fixing; f.By != booth.Sawtooth || f.Hooks != 1 || f.Assumed {
		t.Errorf("%+v", f)
	}
}

// Common practice without a source: a sawtooth half an inch down, a cleat two inches.
func TestUsualDrop(t *testing.T) {
	for by, inches := range map[string]float64{"sawtooth": 0.5, "cleat": 2} {
		f := hangPlan(t, "hang by: "+by, "rain: no").Part("work/a").Work.Fixing
		near(t, by, f.Drop, inches*inch)
		if !f.Assumed {
			t.Errorf("%s: taken for stated", by)
		}
	}
}

// What cannot be is a fault at its own place.
func TestBadHanging(t *testing.T) {
	for _, c := range [][3]string{
		{"rings: 20, wire: 20", "rain: no", "a wire of 20 in does not reach between rings 20 in apart"},
		{"rings: 40, wire: 44", "rain: no", "rings 40 in apart do not fit on a work 36 in wide"},
		{"rings: 20, wire: 22, rings down: 30", "rain: no", "the work is only 24 in high"},
		{"hang by: rings, wire: 22", "rain: no", "has no wire"},
		{"hang by: sawtooth, hooks: 2", "rain: no", "cannot hang on 2 hooks"},
		{"hang by: glue", "rain: no", "is not one of wire, rings, sawtooth or cleat"},
		{"depth: 1", "wind: gale", "is not a wind"},
		{"depth: 1", "wind: force 12", "beyond what a tent is calculated for"},
		{"depth: 1", "friction: 3", "out of range"},
	} {
		_, err := plan(t, strings.Replace(strings.Replace(hangScene, "%s", c[0], 1), "%s", c[1], 1))
		if err == nil || !strings.Contains(err.Error(), c[2]) {
			t.Errorf("%s; %s: %v, want %q", c[0], c[1], err, c[2])
		}
	}
	if _, err := plan(t, "units: in\nweather: {rain: yes}\n"); err == nil || !strings.Contains(err.Error(), "without a tent") {
		t.Errorf("rain without a tent: %v", err)
	}
}

// The rain can be seen: curtains on every side without a tent wall, those of the front drawn back, and a cover over the
// table. Without rain there is none of it.
func TestRainIsDrawn(t *testing.T) {
	text := strings.Replace(strings.Replace(hangScene, "%s", "depth: 1", 1), "%s", "rain: yes", 1)
	text = strings.Replace(text, "ballast: 40lb", "ballast: 40lb, sidewalls: [left]", 1)
	p := mustPlan(t, text)
	for id, want := range map[booth.ID]bool{"rain/front-left": true, "rain/front-right": true, "rain/back": true, "rain/right": true, "rain/left": false, "rain/over-t": true} {
		part := p.Part(id)
		if (part != nil) != want {
			t.Errorf("%s is there: %v", id, part != nil)
		}
		if part == nil {
			continue
		}
		if len(part.Surfaces) == 0 || len(part.Surfaces[0].Mesh.Triangles) == 0 || len(part.Solids) == 0 {
			t.Errorf("%s has no shape", id)
		}
		for _, s := range part.Solids {
			if err := s.Check(); err != nil {
				t.Errorf("%s: %v", id, err)
			}
		}
		if lo, hi := part.In(part.Frame); part.Cloth != nil && math.Abs(lo.X+hi.X) > 0.02 {
			t.Errorf("%s goes from %v to %v of its place", id, lo.X, hi.X)
		}
	}
	for _, part := range hangPlan(t, "depth: 1", "rain: no").Parts {
		if strings.HasPrefix(string(part.ID), "rain/") {
			t.Errorf("%s in dry weather", part.ID)
		}
	}
}
