package check

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boothmock/internal/art"
	"boothmock/internal/booth"
	"boothmock/internal/fault"
	"boothmock/internal/geom"
	"boothmock/internal/rules"
)

// in is an inch in metres: tests are written in inches, as the published values are.
const in = 0.0254

// stall is a booth under construction for a test, in inches.
type stall struct{ booth.Plan }

func newStall() *stall {
	s := &stall{booth.Plan{File: "stall.yaml", Pitch: booth.Pitch{Width: 120 * in, Depth: 120 * in, Aisle: 144 * in, Open: [4]bool{booth.Front: true}, At: s0(1)}}}
	var b rules.Book
	s.Eyes = []booth.Eye{
		{Name: "adult", Height: rules.AdultEye.In(b)}, {Name: "tall", Height: rules.TallEye.In(b)}, {Name: "short", Height: rules.ShortEye.In(b)},
		{Name: "wheelchair", Height: rules.WheelchairEye.In(b)}, {Name: "child", Height: rules.ChildEye.In(b)},
	}
	for _, v := range []struct {
		name string
		x, z float64
	}{{"entrance", 0, 70}, {"aisle-left", -92, 65}, {"aisle-right", 92, 65}, {"across", 0, 132}, {"inside", 0, -18}, {"application", 0, 135}} {
		s.Views = append(s.Views, booth.View{Name: v.name, Stand: vec(v.x, 0, v.z), Bare: v.name == "application"})
	}
	s.Views = append(s.Views, booth.View{Name: "seat", Stand: vec(-40, 0, -100), Height: 47 * in})
	return s
}

func s0(line int) fault.Place { return fault.Place{File: "stall.yaml", Line: line, Col: 3} }

func vec(x, y, z float64) geom.Vec { return geom.Vec{X: x * in, Y: y * in, Z: z * in} }

// add puts a part in the booth; its place is line 10 and its number.
func (s *stall) add(p booth.Part) *booth.Part {
	p.At = s0(10 + len(s.Parts))
	s.Parts = append(s.Parts, p)
	return &s.Parts[len(s.Parts)-1]
}

// box is a thing from (x0, y0, z0) to (x1, y1, z1).
func (s *stall) box(name string, x0, y0, z0, x1, y1, z1 float64) *booth.Part {
	return s.add(booth.Part{ID: booth.ID("thing/" + name), Name: "the " + name, Frame: geom.World,
		Solids: []geom.Convex{geom.Box(geom.World, vec(x0, y0, z0), vec(x1, y1, z1))}})
}

// table is a table with a cloth to the ground.
func (s *stall) table(x0, z0, x1, z1, height float64) *booth.Part {
	p := s.box("print table", x0, 0, z0, x1, height, z1)
	top := height * in
	p.Top = &top
	return p
}

// wall is a panel 1 in thick along a side of the pitch, from the ground to 84 in.
func (s *stall) wall(side booth.Side) *booth.Part {
	a, b := s.Pitch.Edge(side)
	f := geom.Upright(a, b.Sub(a).Unit().Cross(geom.Up))
	w := a.Dist(b)
	name := side.String()
	return s.add(booth.Part{ID: booth.ID("wall/" + name), Name: "the " + name + " wall", Frame: f.Moved(geom.Vec{Z: in}),
		Solids: []geom.Convex{geom.Box(f, geom.Vec{}, geom.Vec{X: w, Y: 84 * in, Z: in})},
		Wall:   &booth.Wall{Side: side, Width: w, Bottom: 6 * in, Top: 84 * in, Hold: booth.Panel}})
}

// work hangs a work of h by w inches on the wall, its left edge at left and its middle at centre.
func (s *stall) work(wall *booth.Part, title string, left, centre, h, w, depth float64) *booth.Part {
	f := wall.Frame.Moved(vec(left, centre-h/2, 0))
	id := "work/" + strings.ToLower(strings.Fields(title)[0])
	return s.add(booth.Part{ID: booth.ID(id), Parent: wall.ID, Name: title, Frame: f,
		Solids: []geom.Convex{geom.Box(f, geom.Vec{}, vec(w, h, depth))},
		Work: &booth.Work{Title: title, Height: h * in, Width: w * in, Depth: depth * in, Face: geom.Rect(f.Moved(vec(0, 0, depth)), 0, 0, w*in, h*in),
			Hung: &booth.Hung{Wall: wall.ID, X0: left * in, Y0: (centre - h/2) * in, X1: (left + w) * in, Y1: (centre + h/2) * in, Depth: depth * in, At: s0(5)}}})
}

// clean is a booth with nothing wrong: works on three walls, a table at one side.
func clean() *stall {
	s := newStall()
	s.Parts = make([]booth.Part, 0, 64) // so that the pointers that add returns stay good
	back, left, right := s.wall(booth.Back), s.wall(booth.Left), s.wall(booth.Right)
	s.work(back, "Alder carr", 8, 58, 36, 24, 1.5)
	s.work(back, "Saltings at slack water", 38, 58, 30, 44, 1.5)
	s.work(back, "Tideline", 88, 58, 24, 24, 1.5)
	s.work(left, "Orchard, evening", 46, 58, 24, 30, 1.5)
	s.work(right, "Heron at the weir", 40, 58, 24, 36, 1.5)
	s.table(-58, -40, -36, -4, 29)
	return s
}

func (s *stall) of(check Check) []Finding {
	p := newPass(&s.Plan)
	p.check = check.Name
	check.Run(p)
	return p.findings
}

// levels are the levels of the findings, such as "fail note", or "" for none.
func levels(fs []Finding) string {
	var out []string
	for _, f := range fs {
		out = append(out, string(f.Level))
	}
	return strings.Join(out, " ")
}

func TestCleanBoothHasNotesOnly(t *testing.T) {
	r := Run(&clean().Plan)
	if r.Verdict != "pass" {
		t.Errorf("verdict %s", r.Verdict)
	}
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
		}, map[float64]string{24: "note", 25: "fail"}},
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
		{hold, "highest place for a hook: the wall's own", func(v float64) *stall {
			s := clean()
			s.work(s.Part("wall/right"), "Weir", 80, v-12, 24, 20, 1.5)
			return s
		}, map[float64]string{84: "", 84.2: "caution"}},
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

// Booth arithmetic of published-values section 13 (derived): a 6 ft table across the opening.
func TestTableAcrossTheEntrance(t *testing.T) {
	for _, c := range []struct {
		name  string
		x0    float64
		width float64
		want  string
	}{{"at one side leaves 48 in", -60, 48, ""}, {"centred leaves 24 and 24", -36, 24, "fail"}} {
		s := newStall()
		s.table(c.x0, -30, c.x0+72, 0, 29)
		r := Run(&s.Plan)
		if w := r.Clearances[0].Width; math.Abs(*w-c.width*in) > 1e-9 {
			t.Errorf("%s: %.3f in", c.name, *w/in)
		}
		got := s.of(entrance)
		if levels(got) != c.want {
			t.Errorf("%s: %+v", c.name, got)
		}
		if c.want == "fail" {
			const want = "The way in, between the right edge of the pitch and the print table, is 24 in wide; 36 in is good practice"
			alike := strings.Replace(want, "right", "left", 1)
			if got[0].Item != "thing/print table" || got[0].Message != want && got[0].Message != alike {
				t.Errorf("%s: %s: %s", c.name, got[0].Item, got[0].Message)
			}
		}
	}
}

// A screen between the eye and a work, worked by similar triangles: the eye is 62.2 in high and 70 in before the front,
// the face of the work is 117.5 in behind it, and the screen's top edge is seen against the work at a height that
// decides how much is hidden.
func TestHiddenShareByHand(t *testing.T) {
	const eye, far = 62.2, 70 + 117.5
	for _, c := range []struct {
		share float64
		want  string
	}{{0.05, ""}, {0.099, ""}, {0.101, "caution"}, {0.13, "caution"}, {0.499, "caution"}, {0.501, "fail"}} {
		s := newStall()
		s.Eyes = s.Eyes[:1]
		s.Views = s.Views[:1]
		s.work(s.wall(booth.Back), "Saltings", 38, 58, 30, 44, 1.5) // from 43 to 73 in
		at := 43 + 30*c.share
		top := eye + (at-eye)*(70+30)/far // in the plane z = -30
		s.box("screen", -59, 0, -30.001, 59, top, -30)
		got := s.of(hidden)
		if levels(got) != c.want {
			t.Errorf("%g: %+v", c.share, got)
		}
		if len(got) > 0 {
			if math.Abs(got[0].Measured-(1-c.share)) > 1e-5 {
				t.Errorf("%g is hidden: seen %g", c.share, got[0].Measured)
			}
			if want := fmt.Sprintf("The screen hides %.0f%% of Saltings from the entrance (adult eye)", 100*c.share); !strings.HasPrefix(got[0].Message, want) {
				t.Errorf("%s, want %s", got[0].Message, want)
			}
		}
	}
}

func TestWhoHides(t *testing.T) {
	t.Run("a visitor: a note only", func(t *testing.T) {
		s := clean()
		s.box("visitor", -10, 0, -30, 10, 68, -20).Moving = true
		if got := s.of(hidden); levels(got) != "note" || got[0].Item != "thing/visitor" {
			t.Errorf("%+v", got)
		}
		var hid bool
		for _, l := range Run(&s.Plan).Sightlines {
			hid = hid || l.From == "entrance" && l.Visible < 0.9 && l.HiddenBy[0].Item == "thing/visitor"
		}
		if !hid {
			t.Error("the sightlines do not tell of the visitor")
		}
		if got := s.of(reach); len(got) > 0 {
			t.Errorf("a visitor is in the way: %+v", got)
		}
	})
	t.Run("wire mesh hides nothing", func(t *testing.T) {
		s := clean()
		s.box("mesh", -20, 0, -31, 20, 80, -30).SeeThrough = true
		if got := s.of(hidden); len(got) > 0 {
			t.Errorf("%+v", got)
		}
	})
	t.Run("the wall that it hangs on hides nothing", func(t *testing.T) {
		s := newStall()
		wall := s.wall(booth.Back)
		wall.Solids = append(wall.Solids, geom.Box(geom.World, vec(-60, 40, -119), vec(60, 60, -110))) // a rail before the works
		s.Parts[0] = *wall
		s.work(&s.Parts[0], "Saltings", 38, 58, 30, 44, 1.5)
		if got := s.of(hidden); len(got) > 0 {
			t.Errorf("%+v", got)
		}
	})
	t.Run("things left out of the picture for juries", func(t *testing.T) {
		s := clean()
		s.Views = s.Views[5:6]
		s.box("sign", -20, 0, -31, 20, 70, -30).Dressing = true
		if got := s.of(hidden); len(got) > 0 {
			t.Errorf("%+v", got)
		}
		s.Parts[len(s.Parts)-1].Dressing = false
		if got := s.of(hidden); !strings.HasPrefix(levels(got), "note") {
			t.Errorf("%+v", got)
		}
	})
	t.Run("only from a wheelchair: a note", func(t *testing.T) {
		s := newStall()
		s.Views = s.Views[:1]
		s.work(s.wall(booth.Back), "Saltings", 38, 50, 30, 44, 1.5)
		s.box("screen", -59, 0, -11, 59, 51.4, -10)
		got := s.of(hidden)
		if levels(got) != "note" || !strings.Contains(got[0].Message, "eye is at") {
			t.Errorf("%+v", got)
		}
	})
}

func TestPlaceToStand(t *testing.T) {
	// Shelves before the right wall leave v inches of alley for somebody who looks at the Heron.
	alley := func(v float64) *stall {
		s := clean()
		s.Part("work/heron").Work.Hung.At = fault.Place{}
		s.box("shelves", 57.5-v-20, 0, -119, 57.5-v, 80, -20)
		return s
	}
	for v, want := range map[float64]string{35.9: "fail", 36: ""} {
		got := alley(v).of(reach)
		heron := got[:0]
		for _, f := range got {
			if f.Item == "work/heron" {
				heron = append(heron, f)
			}
		}
		if levels(heron) != want {
			t.Errorf("an alley of %g in (ADA 403.5.1: 36 in): %+v", v, heron)
		}
	}
	t.Run("beyond a table", func(t *testing.T) {
		s := newStall()
		s.work(s.wall(booth.Back), "Saltings", 38, 58, 30, 44, 1.5)
		s.table(-36, -119, 36, -89, 29)
		if got := append(s.of(reach), s.of(behind)...); len(got) > 0 {
			t.Errorf("%+v", got)
		}
	})
	t.Run("a table right across: all works in one finding", func(t *testing.T) {
		s := clean()
		s.table(-60, -30, 60, 0, 29)
		got := s.of(reach)
		if levels(got) != "fail" || !strings.Contains(got[0].Message, "2 others") {
			t.Errorf("%+v", got)
		}
	})
}

func TestBehindTheTable(t *testing.T) {
	s := newStall()
	s.work(s.wall(booth.Back), "Saltings", 38, 38, 30, 44, 1.5) // from 23 in up
	s.table(-36, -117, 36, -87, 34)
	got := s.of(behind)
	if levels(got) != "caution" || !strings.HasSuffix(got[0].Message, "its lower edge is 11 in below the top of the print table") {
		t.Errorf("%+v", got)
	}
	if got[0].At != "stall.yaml:5:3" {
		t.Errorf("at %s, want where the scene hangs it", got[0].At)
	}
}

func TestTurnedAway(t *testing.T) {
	s := newStall()
	left := s.wall(booth.Left)
	s.work(left, "Orchard", 85, 58, 24, 30, 1.5)
	if got := s.of(turned); levels(got) != "note" || got[0].Item != "wall/left" {
		t.Errorf("deep in the booth, on a side wall: %+v", got)
	}
	s = newStall()
	s.work(s.wall(booth.Back), "Orchard", 45, 58, 24, 30, 1.5)
	if got := s.of(turned); len(got) > 0 {
		t.Errorf("on the back wall: %+v", got)
	}
	s.Parts[1].Work.Face = geom.Polygon{s.Parts[1].Work.Face[1], s.Parts[1].Work.Face[0], s.Parts[1].Work.Face[3], s.Parts[1].Work.Face[2]}
	if got := s.of(unseen); levels(got) != "caution" {
		t.Errorf("with its face to the wall: %+v", got)
	}
}

func TestWayIn(t *testing.T) {
	s := newStall()
	s.table(-60, -30, 12, -6, 29)
	line := WayIn(&s.Plan)
	if len(line) < 2 || line[0].Z != 70*in {
		t.Fatalf("%v", line)
	}
	for _, q := range line { // it goes by the right of the table, 24 in from it
		if q.Z < 0 && q.Z > -30*in && q.X < 30*in {
			t.Errorf("%v", line)
		}
	}
	s.table(-60, -40, 60, -35, 29)
	if line := WayIn(&s.Plan); line != nil {
		t.Errorf("through a table: %v", line)
	}
}

func TestRainCurtainMayHangBeforeTheFront(t *testing.T) {
	s := clean()
	s.box("front rain curtain", -60, 1, 0, -48, 80, 6).Cloth = &booth.Cloth{Rain: true}
	if got := s.of(inside); len(got) > 0 {
		t.Errorf("%+v", got)
	}
}

func TestHold(t *testing.T) {
	s := clean()
	s.Part("wall/right").Wall.Hold = booth.None
	if got := s.of(hold); levels(got) != "fail" || got[0].Item != "work/heron" {
		t.Errorf("bare cloth: %+v", got)
	}
	s = clean()
	s.Part("wall/right").Wall.Bottom = 75 * in
	if got := s.of(hold); levels(got) != "fail" {
		t.Errorf("no hook so low: %+v", got)
	}
}

func TestGapsOfARow(t *testing.T) {
	s := newStall()
	back := s.wall(booth.Back)
	for i, name := range []string{"One", "Two", "Three", "Four"} {
		s.work(back, name, 10+21*float64(i), 58, 20, 20, 1).Work.Hung.Row = "works"
	}
	if got := s.of(gaps); levels(got) != "caution" || !strings.HasPrefix(got[0].Message, "4 works of the row works hang only 1 in apart") {
		t.Errorf("%+v", got)
	}
}

func TestCorner(t *testing.T) {
	s := newStall()
	s.Parts = make([]booth.Part, 0, 8)
	back, left := s.wall(booth.Back), s.wall(booth.Left)
	s.work(back, "Back", 1.5, 58, 20, 20, 2)
	s.work(left, "Left", 1.5, 58, 20, 20, 2)
	if got := s.of(gaps); len(got) > 0 {
		t.Errorf("at two ends of the left wall: %+v", got)
	}
	s.work(left, "Deep", 120-1.5-20, 58, 20, 20, 2)
	if got := s.of(gaps); !strings.Contains(levels(got), "fail") {
		t.Errorf("both in the corner: %+v", got)
	}
}

func TestStackedWorksMayHangOffCentre(t *testing.T) {
	s := newStall()
	back := s.wall(booth.Back)
	s.work(back, "Upper", 40, 70, 16, 16, 1)
	s.work(s.Part("wall/back"), "Lower", 40, 46, 16, 16, 1)
	if got := s.of(centres); len(got) > 0 {
		t.Errorf("%+v", got)
	}
}

func TestWorksOverATableMayHangHigh(t *testing.T) {
	s := newStall()
	s.work(s.wall(booth.Back), "Upper", 40, 66, 16, 16, 1)
	if got := s.of(centres); levels(got) != "note" {
		t.Errorf("%+v", got)
	}
	s.table(-36, -118, 36, -90, 29)
	if got := s.of(centres); len(got) > 0 {
		t.Errorf("%+v", got)
	}
}

func TestTurnedImage(t *testing.T) {
	s := clean()
	w := s.Part("work/heron").Work // 24 x 36
	w.Image = &art.Image{Name: "heron.jpg", Width: 1000, Height: 1500}
	const want = "heron.jpg is tall but 24 x 36 in is wide (height x width): did you mean 36 x 24 in?"
	if got := s.of(shape); levels(got) != "fail" || got[0].Message != want {
		t.Errorf("%+v", got)
	}
}
