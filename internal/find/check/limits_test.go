package check

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
)

func TestCleanBoothHasNotesOnly(t *testing.T) {
	r := Run(&clean().Plan)
	for _, f := range r.Findings {
		if f.Level != Note {
			t.Errorf("%s %s: %s", f.Level, f.Check, f.Message)
		}
	}
}

// edge is a check at its limit: the same booth but for one length.
type edge struct {
	check  Check
	source string
	make   func(v float64) *stall
	cases  map[float64]string // length in inches: levels of the findings
}

// onTable is a crate on a table from (-30, -40) to (30, -10).
func onTable(x0, z0, x1, z1 float64) *stall {
	s := newStall()
	s.Parts = make([]booth.Part, 0, 4)
	s.table(-30, -40, 30, -10, 29)
	s.box("crate", x0, 29, z0, x1, 39, z1).Parent = "thing/print table"
	return s
}

func TestLimits(t *testing.T) {
	edges := []edge{
		{entrance, "ADA 403.5.1: 36 in clear", func(v float64) *stall {
			s := clean()
			s.box("screen", -60, 0, -30, 59-v, 50, 0)
			return s
		}, map[float64]string{35.9: "fail", 36: ""}},
		{entrance, "ADA 403.5.1 exception: 32 in for at most 24 in of length", func(v float64) *stall {
			s := clean()
			s.box("screen", -60, 0, -v, 27, 50, 0)
			return s
		}, map[float64]string{24: "note", 24.2: "fail"}},
		{entrance, "ADA 403.5.1 exception: never less than 32 in", func(v float64) *stall {
			s := clean()
			s.box("screen", -60, 0, -10, 59-v, 50, 0)
			return s
		}, map[float64]string{31.9: "fail", 32: "note"}},
		{entrance, "ADA 403.5.1 exception: narrow places at least 48 in apart", func(v float64) *stall {
			s := newStall()
			s.box("screen", -60, 0, -4, 28, 50, 0)
			s.box("stand", -60, 0, -8-v, 28, 50, -4-v)
			s.box("crates", -60, 0, -4-v, 23, 50, -4) // 37 in are left beside them
			return s
		}, map[float64]string{47: "fail", 48: "note"}},
		{turning, "ADA 304.3.1: a circle of 60 in", func(v float64) *stall {
			s := newStall()
			s.box("left crates", -60, 0, -120, -v/2, 50, 0)
			s.box("right crates", v/2, 0, -120, 60, 50, 0)
			return s
		}, map[float64]string{59.9: "caution", 60: ""}},
		{overhead, "ADA 307.4: 80 in of headroom", func(v float64) *stall {
			s := clean()
			s.box("front valance", -60, v, -0.1, 60, v+9, 0)
			return s
		}, map[float64]string{79: "caution", 79.9: "caution", 80: "", 80.1: ""}},
		{protruding, "ADA 307.2: 4 in with the lower edge above 27 in", func(v float64) *stall {
			s := clean()
			s.work(s.Part("wall/right"), "Weir", 80, 28+12, 24, 20, v)
			return s
		}, map[float64]string{4: "", 4.1: "caution"}},
		{protruding, "ADA 307.2: a lower edge at 27 in is found by a cane, whatever the depth", func(v float64) *stall {
			s := clean()
			s.work(s.Part("wall/right"), "Weir", 80, v+12, 24, 20, 8)
			return s
		}, map[float64]string{27: "", 27.2: "caution", 80.1: ""}},
		{tops, "ADA 902.3: tops from 28 to 34 in", func(v float64) *stall {
			s := newStall()
			s.table(-60, -40, -36, 0, v)
			return s
		}, map[float64]string{27.9: "note", 28: "", 29: "", 34: "", 34.1: "note"}},
		{reach, "a place to stand within 60 in, 36 in wide: common practice; ADA 403.5.1", func(v float64) *stall {
			s := newStall()
			s.work(s.wall(booth.Back), "Saltings", 38, 58, 30, 44, 1.5)
			s.table(-60, -117.5, 60, -117.5+v-18, 29) // the work's face is at -117.5
			return s
		}, map[float64]string{58: "", 60.2: "fail"}},
		{turned, "45 degrees between the line of sight and the face: NUREG-0700, 11.2.1.1-5", func(v float64) *stall {
			s := newStall()
			w := s.work(s.wall(booth.Left), "Orchard", 45, s.Eyes[0].Height/in, 24, 30, 1.5)
			mid, a := w.Work.Face.Centre(), v*math.Pi/180
			s.Views = []booth.View{{Name: "entrance", Passing: true, Before: true, Stand: geom.Vec{X: mid.X + math.Sin(a), Z: mid.Z + math.Cos(a)}}}
			return s
		}, map[float64]string{44.9: "note", 45.1: ""}},
		{standing, "tilted by 10 degrees, a wall of 72 in comes back on feet of 72 tan 10° = 12.7 in: common practice, no source", func(v float64) *stall {
			s := newStall()
			s.Parts = make([]booth.Part, 0, 2)
			w := s.wall(booth.Back)
			*w.Wall = booth.Wall{Side: w.Wall.Side, Width: w.Wall.Width, Top: 72 * in, Free: true, Feet: v * in}
			s.Parts = append(s.Parts, booth.Part{ID: "tent", Tent: &booth.Tent{}})
			return s
		}, map[float64]string{0: "fail", 1: "caution", 12.6: "caution", 12.8: "note"}},
		{gaps, "gap between works 2 in: common practice, no source", func(v float64) *stall {
			s := clean()
			s.work(s.Part("wall/right"), "Weir", 76+v, 58, 24, 20, 1.5)
			return s
		}, map[float64]string{-1: "fail", 1.9: "caution", 2: ""}},
		{fit, "margin at wall ends 2 in: common practice, no source", func(v float64) *stall {
			s := clean()
			s.work(s.Part("wall/right"), "Weir", 100-v, 58, 24, 20, 1.5)
			return s
		}, map[float64]string{-1: "fail", 1.9: "caution", 2: ""}},
		{centres, "hanging centre 58 in, give or take 2: common practice, no source", func(v float64) *stall {
			s := clean()
			s.work(s.Part("wall/right"), "Weir", 80, v, 24, 20, 1.5)
			return s
		}, map[float64]string{55.9: "note", 56: "", 60: "", 60.1: "note"}},
		{inside, "nothing on the ground past the line: common practice, no source", func(v float64) *stall {
			s := clean()
			s.box("crate", 10, 0, -20, 30, 20, v)
			return s
		}, map[float64]string{0: "", 0.2: "fail"}},
		{inside, "6 in over the line above people's heads: common practice, no source", func(v float64) *stall {
			s := clean()
			s.box("banner", -30, 82, -1, 30, 100, v)
			return s
		}, map[float64]string{6: "", 6.2: "caution"}},
		{tipping, "a quarter of a thing's width past the edge, its weight in the middle third of what carries it (kern of a rectangle)", func(v float64) *stall { return onTable(10+v, -30, 30+v, -20) }, map[float64]string{0: "", 5: "note", 5.2: "caution", 9.9: "caution", 10.1: "fail"}},
		{tipping, "the same past the left end", func(v float64) *stall { return onTable(-30-v, -30, -10-v, -20) }, map[float64]string{0: "", 5: "note", 5.2: "caution", 9.9: "caution", 10.1: "fail"}},
		{tipping, "the same past the front", func(v float64) *stall { return onTable(-10, -30+v, 10, -10+v) }, map[float64]string{0: "", 5: "note", 5.2: "caution", 9.9: "caution", 10.1: "fail"}},
		{tipping, "the same past the back", func(v float64) *stall { return onTable(-10, -40-v, 10, -20-v) }, map[float64]string{0: "", 5: "note", 5.2: "caution", 9.9: "caution", 10.1: "fail"}},
		{watch, "half of somebody from the knees to the chest, 0.5 to 1.5 m: common practice, no source", func(v float64) *stall {
			s := newStall()
			s.box("screen", -60, 0, -0.002, 60, v/in, -0.001)
			return s
		}, map[float64]string{0.99: "", 1.01: "note"}},
		{watch, "in the middle third of the front, 40 in", func(v float64) *stall {
			s := newStall()
			s.box("left screen", -60, 0, -0.002, -v, 72, -0.001)
			s.box("right screen", v, 0, -0.002, 60, 72, -0.001)
			return s
		}, map[float64]string{10.1: "", 9.9: "note"}},
		{tipping, "what is more than 2 in above the top leans out and has no foot there: common practice, no source", func(v float64) *stall {
			s := newStall()
			s.Parts = make([]booth.Part, 0, 4)
			s.table(-30, -40, 30, -10, 29)
			c := s.box("crate", 10, 29, -30, 25, 39, -20)
			c.Parent = "thing/print table"
			c.Solids = append(c.Solids, geom.Box(geom.World, vec(25, 29+v, -30), vec(31, 29.2+v, -20)))
			return s
		}, map[float64]string{1.9: "note", 2.1: ""}},
		{crowded, "a sixth and a third of a picture 120 x 67 1/2 in large at 60 in: common practice, no source", func(v float64) *stall {
			s := newStall()
			eye := s.Eyes[0].Height / in
			s.Views = []booth.View{{Name: "seat", Stand: vec(0, 0, 0), Look: vec(0, eye, -100), Across: math.Pi / 2}}
			s.box("screen", -v/2, eye-20, -59.999, v/2, eye+20, -59.99).Frame.Origin = vec(0, eye, -60)
			return s
		}, map[float64]string{33.6: "", 33.9: "note", 67.4: "note", 67.7: "caution"}},
		{fit, "less than half of a sign past the end of its wall: common practice, no source", func(v float64) *stall {
			s := newStall()
			s.Parts = make([]booth.Part, 0, 4)
			s.thin(s.wall(booth.Back), "sign", 108+v, 50, 120+v, 60, 0)
			return s
		}, map[float64]string{0: "", 5.9: "caution", 6: "caution", 6.2: "fail"}},
		{inSight, "90% of a sign, and half of it, from before the entrance: common practice, no source", func(v float64) *stall {
			s := newStall()
			s.Parts = make([]booth.Part, 0, 4)
			sign := s.thin(s.wall(booth.Back), "sign", 50, 40, 70, 60, 0)
			f := geom.Rect(s.Part("wall/back").Frame.Moved(vec(0, 0, 0.125)), 50*in, 40*in, 70*in, 60*in)
			sign.Lettering = &booth.Lettering{From: booth.Entrance, Face: f, Largest: in, Least: in}
			// A screen halfway between the eye at z = 70 and the face at z = -118.875 is seen against it twice as large.
			eye := s.Eyes[0].Height / in
			s.box("screen", -10, 20, -24.44, 10, (eye+40+v*20/100)/2, -24.4375)
			return s
		}, map[float64]string{9.8: "", 10.2: "caution", 49.8: "caution", 50.2: "fail", 105: "fail"}},
		{shape, "image within 2% of the stated shape: common practice, no source", func(v float64) *stall {
			s := clean()
			w := s.Part("work/heron").Work
			w.Image, w.ImageAt = &art.Image{Name: "heron.jpg", Width: int(1500 * v), Height: 1000}, s0(7)
			return s
		}, map[float64]string{1: "", 1.02: "", 1.03: "caution", 1 / 2.25: "fail"}},
	}
	for _, e := range edges {
		for v, want := range e.cases {
			if got := e.make(v).of(e.check); levels(got) != want {
				t.Errorf("%s (%s) at %g: %q, want %q: %+v", e.check.Name, e.source, v, levels(got), want, got)
			}
		}
	}
}

// By Pythagoras: past a gap from (0, 0) to (3, 4) one goes along (-4, 3), of length 5.
func TestAlong(t *testing.T) {
	g := way.Gap{AtB: way.Point{X: 3, Z: 4}, Width: 5}
	for _, c := range []struct {
		s    way.Shape
		want float64
	}{{way.Shape{{X: -4, Z: 3}, {X: 4, Z: -3}}, 10}, {way.Shape{{}, {X: 3, Z: 4}}, 0}, {way.Shape{{X: 1, Z: 0}, {X: 0, Z: 1}}, 7. / 5}} {
		if got := along(g, c.s); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v reaches %v along the way, want %v", c.s, got, c.want)
		}
	}
}

// Two places 33 in wide and near each other are one: 23 in of both with what is between is short, 25 in is not (ADA 403.5.1).
func TestNarrowPlacesTogether(t *testing.T) {
	for v, want := range map[float64]string{23.9: "note", 24.2: "fail"} {
		s := newStall()
		s.box("screen", -60, 0, -4, 27, 50, 0)
		s.box("stand", -60, 0, -v, 27, 50, 4-v)
		s.box("crates", -60, 0, 4-v, 22, 50, -4) // 38 in are left beside them
		if got := s.of(entrance); levels(got) != want {
			t.Errorf("together %g in long: %+v", v, got)
		}
	}
}

// By hand, in a pitch of 120 x 120 in: past which edge a shape stands out, and how far.
func TestBeyond(t *testing.T) {
	p := newPass(&newStall().Plan)
	for _, c := range []struct {
		x0, z0, x1, z1 float64
		side           booth.Side
		out            float64
	}{{-20, -30, 20, 3, booth.Front, 3}, {-64, -30, 0, -20, booth.Left, 4}, {0, -125, 10, -90, booth.Back, 5}, {50, -30, 66, -20, booth.Right, 6}, {-59, -119, 59, -1, booth.Front, 0}, {50, -30, 66, 7, booth.Front, 7}} {
		side, out := p.beyond(way.Rect(way.Point{X: c.x0 * in, Z: c.z0 * in}, way.Point{X: c.x1 * in, Z: c.z1 * in}))
		if math.Abs(out-c.out*in) > 1e-9 || out > 0 && side != c.side {
			t.Errorf("%+v: %.3f in past the %s", c, out/in, side)
		}
	}
}

// A run with a corner braces itself; under a tent wind moves it all the same, which is said once, of its first wall. In the open the sheet
// reckons with the wind.
func TestRunsBraceThemselves(t *testing.T) {
	for _, c := range []struct {
		joins        booth.ID
		indoor, tent bool
		want         string
	}{{"", false, true, "note"}, {"", true, true, ""}, {"", false, false, ""}, {"wall/other", false, true, ""}} {
		s := newStall()
		s.Parts = make([]booth.Part, 0, 3)
		w := s.wall(booth.Back)
		if c.tent {
			s.Parts = append(s.Parts, booth.Part{ID: "tent", Tent: &booth.Tent{}})
		}
		w.Wall.Free, w.Wall.Bound, w.Wall.Joins, s.Pitch.Indoor = true, true, c.joins, c.indoor
		if got := s.of(standing); levels(got) != c.want {
			t.Errorf("%+v: %+v", c, got)
		}
	}
}
