package check

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
)

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
	t.Run("a table across the middle: the works behind it in one finding", func(t *testing.T) {
		s := clean()
		s.table(-60, -66, 60, -52, 29)
		got := s.of(reach)
		const want = "Nobody can get to a place before Alder carr, Saltings at slack water and Tideline: the way is closed between "
		if levels(got) != "fail" || !strings.HasPrefix(got[0].Message, want) {
			t.Errorf("%+v", got)
		}
	})
	t.Run("a table across the front: the entrance tells of it, once", func(t *testing.T) {
		s := clean()
		s.table(-60, -30, 60, 0, 29)
		if got := append(s.of(entrance), s.of(reach)...); levels(got) != "fail" || got[0].Check != "entrance" {
			t.Errorf("%+v", got)
		}
	})
}

// By hand: the work reaches down to 38 - 30/2 = 23 in, and the table to 34: 11 in below its top.
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

// Where nobody gets to a work, that is told, and not what stands before it.
func TestNothingIsBehindWhatNobodyReaches(t *testing.T) {
	s := newStall()
	s.Parts = make([]booth.Part, 0, 4)
	s.work(s.wall(booth.Back), "Saltings", 38, 38, 30, 44, 1.5)
	s.table(-36, -117, 36, -87, 34)
	s.table(-60, -30, 60, 0, 29)
	if got := s.of(behind); len(got) > 0 {
		t.Errorf("%+v", got)
	}
}

// A tall screen 40 in before the wall leaves 37 1/2 in before the work's face, and more room beyond, from where nobody sees the work.
func TestPlaceToStandIsOneThatSees(t *testing.T) {
	s := newStall()
	s.Parts = make([]booth.Part, 0, 4)
	w := s.work(s.wall(booth.Back), "Saltings", 38, 58, 30, 44, 1.5)
	s.box("screen", -24, 0, -80, 24, 80, -79)
	p := newPass(&s.Plan)
	if st := p.stand(p.Works[0]); !st.good || st.at.Z > -80*in || w.Work == nil {
		t.Errorf("one stands at %v", st.at)
	}
	if got := s.of(behind); len(got) > 0 {
		t.Errorf("%+v", got)
	}
}

// Works of a wall that hang as low as each other are told together, give or take two tie loops of 1/8 in and a hair of 1/16; others and those of other
// walls alone.
func TestCentresAreToldTogether(t *testing.T) {
	for v, want := range map[float64]string{52: "note", 52.3: "note", 52.32: "note note"} {
		s := newStall()
		s.Parts = make([]booth.Part, 0, 8)
		back, left := s.wall(booth.Back), s.wall(booth.Left)
		s.work(back, "Alder", 10, 52, 24, 20, 1.5)
		s.work(back, "Weir", 50, v, 24, 20, 1.5)
		if got := s.of(centres); levels(got) != want {
			t.Errorf("at %v in: %+v", v, got)
		}
		s.work(left, "Heron", 50, 52, 24, 20, 1.5)
		if got := s.of(centres); levels(got) != want+" note" {
			t.Errorf("at %v in, and on another wall: %+v", v, got)
		}
	}
}

// Of a thing with several edges over the way the lowest is told, and how far out the furthest of those as low is.
func TestLowestEdgeIsTold(t *testing.T) {
	s := newStall()
	s.Parts = make([]booth.Part, 0, 4)
	s.wall(booth.Back)
	shelf := s.box("shelf", -20, 40, -119, 20, 41, -110) // 9 in out
	shelf.Parent = "wall/back"
	shelf.Solids = append(shelf.Solids, geom.Box(geom.World, vec(-20, 35, -119), vec(20, 36, -112)), geom.Box(geom.World, vec(-20, 35, -119), vec(20, 36, -111)),
		geom.Box(geom.World, vec(-20, 50, -119), vec(20, 51, -100)))
	if got := s.of(protruding); len(got) != 1 || !strings.HasPrefix(got[0].Message, "The shelf sticks out 8 in with its lower edge 35 in above") {
		t.Errorf("%+v", got)
	}
}

// 45 degrees: NUREG-0700 rev. 3, 11.2.1.1-5, as in TestLimits; that half of a work is enough is common practice, no source.
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
	if got := s.of(unseen); levels(got) != "caution" || got[0].Message != "Orchard faces away from everybody who passes" || got[0].Measured != 0 {
		t.Errorf("with its face to the wall: %+v", got)
	}
}

// A work that faces the aisle on one side, and not the entrance, does not face away from everybody: it is said where most of
// it is seen from.
func TestFacesTheAisleOnly(t *testing.T) {
	s := newStall()
	f := geom.Upright(vec(40, 0, -10), geom.Vec{X: 1, Z: 0.05}.Unit())
	s.add(booth.Part{ID: "work/orchard", Name: "Orchard", Frame: f,
		Work: &booth.Work{Title: "Orchard", Height: 24 * in, Width: 30 * in, Face: geom.Rect(f, -15*in, 46*in, 15*in, 70*in)}})
	if got := s.of(unseen); len(got) != 0 {
		t.Errorf("with nothing in the way: %+v", got)
	}
	s.box("post", 55, 0, 8, 62, 80, 12)
	got := s.of(unseen)
	if levels(got) != "caution" || !strings.Contains(got[0].Message, "Orchard faces away from the entrance, and people who pass see at most ") ||
		got[0].View != "aisle-right" || got[0].Measured <= 0 || got[0].Measured >= 0.5 {
		t.Errorf("with a post before it: %+v", got)
	}
	shown := false
	for _, l := range Run(&s.Plan).Sightlines {
		shown = shown || l.From == got[0].View && l.Eye == "adult" && l.Turned > 0 && l.Visible == got[0].Measured
	}
	if !shown {
		t.Errorf("no sightline has what is said: %+v", got)
	}
	s.box("screen", 50, 0, -60, 52, 90, 60)
	if got := s.of(unseen); levels(got) != "caution" || !strings.Contains(got[0].Message, "people who pass see at most 0% of it") {
		t.Errorf("with a screen before it: %+v", got)
	}
}

// What the turning circle says when there is none, when the only one is out of reach, and when a larger one lies beyond
// a narrow place.
func TestTurningCircleIsTheOneThatCanBeReached(t *testing.T) {
	full := newStall()
	full.box("crates", -60, 0, -120, 60, 50, 0)
	if got := full.of(turning); levels(got) != "caution" || got[0].Message != "There is no clear circle inside; a wheelchair turns in 60 in" {
		t.Errorf("a full pitch: %+v", got)
	}
	// A counter across the booth, 20 in short of the right side: 58 in before it, and more room behind.
	counter := func(z float64) *stall {
		s := newStall()
		s.box("counter", -60, 0, z-4, 40, 40, z)
		return s
	}
	for z, want := range map[float64]string{
		-50: "The largest clear circle inside that a good way leads to is ",
		-10: "", // as wide as is needed; that no good way leads to it is for the check of the entrance
		-80: "",
	} {
		got := counter(z).of(turning)
		if want == "" {
			if len(got) != 0 {
				t.Errorf("a counter at %g in: %+v", z, got)
			}
			continue
		}
		if levels(got) != "caution" || !strings.HasPrefix(got[0].Message, want) {
			t.Errorf("a counter at %g in: %+v", z, got)
		}
	}
	close := counter(-10)
	close.box("crates", -60, 0, -120, 60, 40, -65)
	if got := close.of(turning); levels(got) != "caution" || !strings.HasPrefix(got[0].Message, "The largest clear circle inside is 51 in across") ||
		!strings.HasSuffix(got[0].Message, ", and no good way leads to it; a wheelchair turns in 60 in") {
		t.Errorf("a small circle behind a counter: %+v", got)
	}
	got := counter(-50).of(turning)
	if m := got[0].Message; !strings.Contains(m, " is 50 in across") || !strings.HasSuffix(m, "One of 66 in lies beyond a narrow place") {
		t.Errorf("%s", m)
	}
	if got[0].Measured < 49.99*in || got[0].Measured > 50.01*in {
		t.Errorf("%+v", got[0])
	}
}

func TestWayIn(t *testing.T) {
	s := newStall()
	s.table(-60, -30, 12, -6, 29)
	line := newPass(&s.Plan).line()
	if len(line) < 2 || line[0].Z != 70*in {
		t.Fatalf("%v", line)
	}
	for _, q := range line { // it goes by the right of the table, 24 in from it
		if q.Z < 0 && q.Z > -30*in && q.X < 30*in {
			t.Errorf("%v", line)
		}
	}
	s.table(-60, -40, 60, -35, 29)
	if line := newPass(&s.Plan).line(); line != nil {
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
	if got := s.of(clash); len(got) > 0 {
		t.Errorf("at two ends of the left wall: %+v", got)
	}
	s.work(left, "Deep", 120-1.5-20, 58, 20, 20, 2) // its side is half an inch behind the other's front
	const want = "Deep and Back take the same room: move Deep 1 1/2 in to the left"
	if got := s.of(clash); len(got) != 1 || got[0].Message != want {
		t.Errorf("both in the corner: %+v, want %s", got, want)
	}
	if got := s.of(gaps); len(got) > 0 {
		t.Errorf("reported twice: %+v", got)
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
	const want = "The photograph heron.jpg is tall but 24 x 36 in is wide (height x width): did you mean 36 x 24 in?"
	if got := s.of(shape); levels(got) != "fail" || got[0].Message != want {
		t.Errorf("%+v", got)
	}
}

// The same screen, low enough for the usual visitor: somebody in a wheelchair sees 46% over it and a child 28%, by the same
// similar triangles; one note tells of the child, who sees least.
func TestWhoSeesLeastIsTold(t *testing.T) {
	const top, far, before = 53.5, 70 + 117.5, 70 + 30.0
	s := newStall()
	s.Views = s.Views[:1]
	s.work(s.wall(booth.Back), "Saltings", 38, 58, 30, 44, 1.5)
	s.box("screen", -59, 0, -30.001, 59, top, -30)
	got := s.of(hidden)
	child := s.Eyes[4].Height / in
	want := 1 - (child+(top-child)*far/before-43)/30
	if len(got) != 1 || got[0].Level != Note || !strings.Contains(got[0].Message, "(child)") || math.Abs(got[0].Measured-want) > 1e-3 {
		t.Errorf("%+v, want one note that a child sees %.3f", got, want)
	}
}

// The jury's picture is judged as it is taken: what hides a work in it is noted, and nothing else is said of it. From the aisle less than
// half must be hidden.
func TestJuryAndAisle(t *testing.T) {
	for _, c := range []struct {
		view, want string
		share      float64
	}{{"application", "", 0.09}, {"application", "note", 0.11}, {"application", "note", 0.8}, {"aisle-left", "", 0.49}, {"aisle-left", "caution", 0.51}} {
		s := newStall()
		s.Eyes = s.Eyes[:1]
		s.Views = []booth.View{{Name: c.view, Stand: vec(0, 0, 70), Before: true, Passing: c.view != "application"}}
		s.work(s.wall(booth.Back), "Saltings", 38, 58, 30, 44, 1.5)
		top := 62.2 + (43+30*c.share-62.2)*(70+30)/(70+117.5)
		s.box("screen", -59, 0, -30.001, 59, top, -30)
		if got := s.of(hidden); levels(got) != c.want {
			t.Errorf("%s, %v hidden: %+v, want %q", c.view, c.share, got, c.want)
		}
	}
}
