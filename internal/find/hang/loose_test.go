package hang

import (
	"math"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// field is a booth without a tent on open ground.
func field(parts ...booth.Part) *booth.Plan {
	return &booth.Plan{
		Pitch:   booth.Pitch{Width: 10 * ft, Depth: 10 * ft},
		Weather: booth.Weather{Gust: 30 * wind.MilesPerHour, Exposure: "C", Friction: 0.3, Lift: 0.6}, Parts: parts,
	}
}

// slab is a box w wide, d deep and h high on the ground, so heavy.
func slab(id booth.ID, w, d, h, kg float64) booth.Part {
	f := geom.World.Moved(geom.Vec{Z: -5 * ft})
	return booth.Part{ID: id, Name: "the " + string(id), Frame: f, Heft: unit.Weight(kg), Solids: []geom.Convex{geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})}}
}

// By hand: a board 0.9 m wide, 0.4 m deep and 2 m high of 60 kg. At 1 m/s each m² gets 0.61287 Pa (0.00256 psf at 1 mph) × Kz 0.84888 × 0.85 × 0.85 × 1.3
// = 0.48864 N. From the front 1.8 m² get 0.87955 N at 1 m. 0.6 × 60 × 9.80665 = 353.04 N hold it: it slides at √(0.3 × 353.04 / 0.87955) = 10.974 m/s and tips
// about an edge 0.2 m off at √(0.2 × 353.04 / 0.87955) = 8.960 m/s. With a roof of 2 m² a lift of 0.6 × 0.61287 × 2 = 0.73545 N takes from the weight:
// 0.87955 × 1 + 0.73545 × 0.2 = 1.02664 Nm, 8.293 m/s.
func TestLooseByHand(t *testing.T) {
	board := slab("board", 0.9, 0.4, 2, 60)
	roofed := slab("roofed", 0.9, 0.4, 2, 60)
	roofed.Canopy = 2
	for _, c := range []struct {
		part         booth.Part
		slides, tips float64
	}{{board, 10.974, 8.960}, {roofed, 9.813, 8.293}} {
		if c.part.Canopy > 0 { // sliding: 0.87955 / 0.3 + 0.73545 = 3.66728 N off 353.04
			c.slides = math.Sqrt(353.04 / 3.66728)
		}
		found := Of(field(c.part)).Loose
		if len(found) != 1 {
			t.Fatalf("%+v", found)
		}
		near(t, "slides", found[0].SlidesAt, c.slides, 0.005)
		near(t, "tips", found[0].TipsAt, c.tips, 0.005)
		near(t, "area", found[0].Area, 1.8, 1e-9)
		// The wind comes from 16 directions: turned by three of them it is the same.
		turned := c.part
		turned.Frame = geom.World.Turned(3 * math.Pi / 8)
		turned.Solids = []geom.Convex{geom.Box(turned.Frame, geom.Vec{X: -0.45, Z: -0.2}, geom.Vec{X: 0.45, Y: 2, Z: 0.2})}
		near(t, "turned", Of(field(turned)).Loose[0].GoodFor, found[0].GoodFor, 1e-6)
		// What it needs in the gust holds it there.
		c.part.Heft = unit.Weight(found[0].Needs)
		near(t, "with that", Of(field(c.part)).Loose[0].GoodFor, 30*wind.MilesPerHour, 1e-6)
	}
}

// What falls together is one body: what stands on a thing, panels in a run, walls along the sides; what is behind something else catches no wind
// twice. A tent, a roof, a tie, and being low keep wind off.
func TestWhatIsLoose(t *testing.T) {
	box := slab("box", 0.5, 0.5, 1, 10)
	behind := slab("behind", 0.5, 0.5, 1, 10)
	behind.Parent = "box"
	low := slab("low", 0.5, 0.5, 0.79, 10)
	wall := func(id booth.ID, w booth.Wall) booth.Part {
		p := slab(id, 1, 0.03, 2, 9)
		w.Width, w.Top = 1, 2
		p.Wall = &w
		return p
	}
	tent := booth.Part{ID: "tent", Frame: geom.World.Moved(geom.Vec{Z: -5 * ft}), Tent: &booth.Tent{Width: 10 * ft, Depth: 10 * ft, Eave: 2, Peak: 3, Legs: 4}}
	for name, c := range map[string]struct {
		parts  []booth.Part
		weight []float64
	}{
		"one on another": {[]booth.Part{box, behind}, []float64{20}},
		"low":            {[]booth.Part{low}, nil},
		"under a tent":   {[]booth.Part{tent, box}, nil},
		"tied":           {[]booth.Part{wall("a", booth.Wall{Free: true, Tied: true})}, nil},
		"a run":          {[]booth.Part{wall("a", booth.Wall{Free: true}), wall("b", booth.Wall{Free: true, Joins: "a"}), wall("c", booth.Wall{Free: true, Back: "b"})}, []float64{27}},
		"sides":          {[]booth.Part{wall("a", booth.Wall{Side: booth.Left}), wall("b", booth.Wall{Side: booth.Back})}, []float64{18}},
		"sides of tents": {[]booth.Part{tent, wall("a", booth.Wall{Side: booth.Left})}, nil},
	} {
		found := Of(field(c.parts...)).Loose
		if len(found) != len(c.weight) {
			t.Errorf("%s: %+v", name, found)
			continue
		}
		for i, l := range found {
			near(t, name, l.Weight, c.weight[i], 1e-9)
			if name == "one on another" && l.Area > 0.5*math.Sqrt2+1e-9 {
				t.Errorf("%v m² of two boxes in one place", l.Area)
			}
		}
	}
	p := field(box)
	p.Pitch.Indoor = true
	if found := Of(p).Loose; len(found) != 0 {
		t.Errorf("in a hall: %+v", found)
	}
}

// A stated wind must be held; without one the weakest are told together. The verdict has the gusts of the weakest.
func TestInTheOpen(t *testing.T) {
	heavy, light := slab("heavy", 0.6, 0.6, 1, 200), slab("light", 0.6, 0.6, 1, 5)
	p := field(heavy, light)
	s := Of(p)
	if f := s.inTheOpen(p); len(f) != 1 || f[0].Level != finding.Caution || f[0].Item != "light" || !strings.Contains(f[0].Message, "the light slides from") || strings.Contains(f[0].Message, "heavy") {
		t.Errorf("%+v", f)
	}
	if up := s.StandsUpTo(); up == nil || *up != s.Loose[0].GoodFor || s.Loose[0].ID != "light" {
		t.Errorf("stands up to %v: %+v", up, s.Loose)
	}
	p.Weather.Stated = true
	if f := s.inTheOpen(p); len(f) != 1 || f[0].Level != finding.Fail || !strings.Contains(f[0].Message, "stated gusts of 30 mph") {
		t.Errorf("%+v", f)
	}
	if asks := s.Asks(booth.Forecast{Gust: 12}, true); len(asks) != 1 || !strings.Contains(asks[0], "the light (") {
		t.Errorf("%q", asks)
	}
}
