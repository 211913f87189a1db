package hang

import (
	"math"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// One wall by hand, in inches. Mesh wires lie at 6, 8, … 82; an S-hook drops 1 1/4; the shortest loop is 1/2.
//
//	Heron   24 x 36, left edge 10, middle 58: upper edge 70, middle of its width 28.
//	        Rings 20 apart, wire 22: sag √(22² − 20²)/2 = 4.582576. Rings 8 down: the hook carries 8 − 4.582576 =
//	        3.417424 below the edge, at 66.582576. Plus 1.25 is 67.832576. The wire at 68 is 0.167424 higher: more than
//	        1/8, less than a loop. So the wire at 70, and a loop of 70 − 1.25 − 66.582576 = 2.167424.
//	Alder   36 x 24, left edge 60, middle 57.75: upper edge 75.75, middle 72. Two rings 18 apart, 3 down, no wire: they
//	        carry at 72.75; plus 1.25 is 74, a wire. No loop. Hooks at 63 and 81; from the Heron's right edge, 46: 17 and 35.
//	Moths   10 x 12 under the Alder, left edge 66, middle 30: sawtooth 1/2 down, carries at 34.5; plus 1.25 is 35.75; the
//	        wire at 36 would need a loop of 1/4, too short; 38 one of 2.25. Nothing stands on its left below the Heron (its
//	        lower edge is at 46), so it is measured from the wall's left end: hook at 72.
//	Cloth   its left edge is the wall's left end, fullness 1.25: the Heron's hole is 28 × 1.25 = 35 across and 84 − 70 = 14
//	        down on the flat cloth.
func TestOneWallByHand(t *testing.T) {
	p := bench(booth.Mesh,
		work("Alder", 36, 24, 60, 57.75, booth.Fixing{By: booth.Rings, Spacing: 18 * in, Drop: 3 * in, Hooks: 2}),
		work("Moths", 10, 12, 66, 30, booth.Fixing{By: booth.Sawtooth, Drop: 0.5 * in, Hooks: 1}),
		work("Heron", 24, 36, 10, 58, wire(20, 22, 8)),
	)
	s := Of(p)
	if len(s.Walls) != 1 || len(s.Walls[0].Works) != 3 {
		t.Fatalf("walls %+v", s.Walls)
	}
	heron, alder, moths := s.Walls[0].Works[0], s.Walls[0].Works[1], s.Walls[0].Works[2]
	if heron.Title != "Heron" || alder.Title != "Alder" || moths.Title != "Moths" {
		t.Fatalf("order %s, %s, %s", heron.Title, alder.Title, moths.Title)
	}
	is := func(what string, metres, inches float64) { t.Helper(); near(t, what, metres/in, inches, 5e-7) }
	h := heron.Hooks[0]
	is("heron x", h.X, 28)
	is("heron from the left end", h.FromSide, 28)
	is("heron from its own edge", h.FromEdge, 18)
	is("heron sag", heron.Sag, 4.582576)
	is("heron below its edge", heron.Below, 3.417424)
	is("heron carries", h.Y, 66.582576)
	is("heron holds on", h.Grip, 70)
	is("heron loop", h.Loop, 2.167424)
	is("heron hole across", h.Hole.Across, 35)
	is("heron hole down", h.Hole.Down, 14)
	is("alder first", alder.Hooks[0].X, 63)
	is("alder second", alder.Hooks[1].X, 81)
	is("alder from the heron", alder.Hooks[0].FromSide, 17)
	is("alder from the heron", alder.Hooks[1].FromSide, 35)
	is("alder gap", alder.Gap, 14)
	is("alder carries", alder.Hooks[1].Y, 72.75)
	is("alder holds on", alder.Hooks[1].Grip, 74)
	is("alder loop", alder.Hooks[1].Loop, 0)
	is("moths carries", moths.Hooks[0].Y, 34.5)
	is("moths holds on", moths.Hooks[0].Grip, 38)
	is("moths loop", moths.Hooks[0].Loop, 2.25)
	is("moths from the end", moths.Hooks[0].FromSide, 72)
	if alder.Beside != "Heron" || moths.Beside != "the wall's left end" {
		t.Errorf("measured from %q and %q", alder.Beside, moths.Beside)
	}
	for i, w := range []Work{heron, alder, moths} {
		if w.Problem != "" || w.Order != i+1 {
			t.Errorf("%s: %d, %s", w.Title, w.Order, w.Problem)
		}
	}
	if n := []int{h.Number, alder.Hooks[0].Number, alder.Hooks[1].Number, moths.Hooks[0].Number}; n[0] != 1 || n[1] != 2 || n[2] != 3 || n[3] != 4 {
		t.Errorf("numbers %v", n)
	}
	row := s.WallSection(s.Walls[0]).Tables[0].Rows[0]
	if got := strings.Join(row, "|"); got != "1|Heron|28|89|28|18|66 5/8|70|wire 7|2 1/8" /* 117 - 28; wires at 82, 80, …, 70 */ {
		t.Errorf("printed as %s", got)
	}
}

// What nothing holds is said, with the nearest height at which something does: the top wire at 82 carries at 80.75.
func TestTooHigh(t *testing.T) {
	p := bench(booth.Mesh, work("Heron", 24, 36, 10, 74, booth.Fixing{By: booth.Rings, Spacing: 20 * in, Drop: 3 * in, Hooks: 2})) // rings at 83
	w := Of(p).Walls[0].Works[0]
	near(t, "carries", w.Hooks[0].Y/in, 80.75, 1e-9)
	near(t, "raised", w.Raised/in, -2.25, 1e-9)
	near(t, "middle", (w.Y0+w.Y1)/2/in, 71.75, 1e-9)
	if want := "hangs 2 1/4 in lower than the scene puts it, its middle at 71 3/4 in, as nothing holds a hook that high"; w.Problem != want {
		t.Errorf("says %q", w.Problem)
	}
	p = bench(booth.Panel, work("Heron", 24, 36, 10, 74, booth.Fixing{By: booth.Rings, Spacing: 20 * in, Drop: 3 * in, Hooks: 2}))
	if w := Of(p).Walls[0].Works[0]; math.Abs(w.Raised/in+1) > 1e-9 || w.Problem == "" {
		t.Errorf("on a panel to 82 in, rings at 83 in: raised %v, %q", w.Raised/in, w.Problem)
	}
}

// A wire slides on its hooks until it is even: on chains 12 in apart the work's middle hangs under a chain, or halfway
// between two. A middle at 28 goes to 24 on one hook or 30 on two: 30 is nearer.
func TestChains(t *testing.T) {
	w := Of(bench(booth.Chains, work("Heron", 24, 36, 10, 58, wire(20, 22, 8)))).Walls[0].Works[0]
	if len(w.Hooks) != 2 {
		t.Fatalf("%d hooks", len(w.Hooks))
	}
	near(t, "first", w.Hooks[0].X/in, 24, 1e-9)
	near(t, "second", w.Hooks[1].X/in, 36, 1e-9)
	near(t, "moved", w.Moved/in, 2, 1e-9)
	near(t, "sag of the wire over two hooks", w.Sag/in, math.Sqrt(10*10-8*8)/2, 1e-9) // 22 − 12 and 20 − 12
	if !strings.Contains(w.Problem, "2 in further right") {
		t.Errorf("says %q", w.Problem)
	}
	rings := booth.Fixing{By: booth.Rings, Spacing: 16 * in, Drop: 3 * in, Hooks: 2}
	w = Of(bench(booth.Chains, work("Heron", 24, 36, 10, 58, rings))).Walls[0].Works[0]
	if len(w.Hooks) != 0 || !strings.Contains(w.Problem, "put a wire between the rings") {
		t.Errorf("rings 16 in apart on chains 12 in apart: %d hooks, %q", len(w.Hooks), w.Problem)
	}
	rings.Spacing = 24 * in
	w = Of(bench(booth.Chains, work("Heron", 24, 36, 10, 58, rings))).Walls[0].Works[0]
	if len(w.Hooks) != 2 || math.Abs(w.Hooks[0].X/in-12) > 1e-9 || math.Abs(w.Hooks[1].X/in-36) > 1e-9 {
		t.Errorf("rings 24 in apart: %+v", w.Hooks)
	}
}

// What a wall cannot hold is said, not drawn.
func TestCannotHang(t *testing.T) {
	cleat := booth.Fixing{By: booth.Cleat, Drop: 2 * in, Hooks: 2}
	for _, c := range []struct {
		hold booth.Hold
		f    booth.Fixing
		ok   bool
	}{{booth.Mesh, cleat, false}, {booth.Rail, cleat, false}, {booth.Panel, cleat, true}, {booth.None, wire(20, 22, 8), false}, {booth.Rail, wire(20, 22, 8), true}} {
		w := Of(bench(c.hold, work("Heron", 24, 36, 10, 58, c.f))).Walls[0].Works[0]
		if got := w.Problem == "" && len(w.Hooks) > 0; got != c.ok {
			t.Errorf("%s on %s: %d hooks, %q", c.f.By, c.hold, len(w.Hooks), w.Problem)
		}
		if !c.ok && !strings.Contains(w.Problem, "put ") {
			t.Errorf("%s on %s: %q says no way out", c.f.By, c.hold, w.Problem)
		}
	}
}

// Loads: 8 lb on one hook; the wire pulls 1.200198 times that. Against what is stated, and unknown where nothing is.
func TestLoads(t *testing.T) {
	p := bench(booth.Mesh, work("Heron", 24, 36, 10, 58, wire(20, 22, 8)))
	l := Of(p).Walls[0].Works[0].Load
	near(t, "hook", asWeight(*l.Hook).Kg()/lb, 8, 1e-9)
	near(t, "wire", asWeight(*l.Tension).Kg()/lb, 8*1.200198, 1e-5)
	if l.HookJudged != Unknown || l.WireJudged != Unknown || l.LeastAngle != nil || l.Steep {
		t.Errorf("nothing is stated: %+v", l)
	}
	p.Hooks.Holds = unit.Weight(7.9 * lb)
	p.Parts[2].Work.Fixing.Holds = unit.Weight(20 * lb)
	l = Of(p).Walls[0].Works[0].Load
	if l.HookJudged != Over || l.WireJudged != Within {
		t.Errorf("8 lb on a hook for 7.9 lb, 9.6 lb in a wire for 20 lb: %s, %s", l.HookJudged, l.WireJudged)
	}
	near(t, "least angle", *l.LeastAngle, math.Asin(8.0/40)/deg, 1e-9)
	p.Parts[2].Work.Weight = 0
	l = Of(p).Walls[0].Works[0].Load
	if l.Hook != nil || l.Tension != nil || l.HookJudged != Unknown {
		t.Errorf("a weight that is not stated is counted: %+v", l)
	}
	// A wall: two works of 8 lb, middles at 28 and 72 of 117 in: the right end takes 8·100/117 = 6.837607 lb.
	p = bench(booth.Mesh, work("Heron", 24, 36, 10, 58, wire(20, 22, 8)), work("Alder", 36, 24, 60, 58, wire(16, 18, 8)))
	wall := Of(p).Walls[0].Load
	near(t, "right end", asWeight(wall.Right).Kg()/lb, 8.0*(28+72)/117, 1e-9)
	near(t, "both ends", asWeight(wall.Left+wall.Right).Kg()/lb, 16, 1e-9)
	if wall.Judged != Unknown {
		t.Errorf("judged %s without a stated strength", wall.Judged)
	}
	// A shelf of 4 lb with its middle at 30 in, and on it a work of 6 lb: 10·30/117 lb more at the right end.
	on := booth.Part{ID: "thing/shelf", Parent: p.Parts[1].ID, Heft: unit.Weight(4 * lb), Frame: p.Parts[1].Frame.Moved(geom.Vec{X: 30 * in})}
	p.Parts = append(p.Parts, on, booth.Part{ID: "work/jug", Parent: on.ID, Work: &booth.Work{Weight: unit.Weight(6 * lb)}})
	with := Of(p).Walls[0].Load
	near(t, "right end with a shelf", asWeight(with.Right).Kg()/lb, (8.0*(28+72)+10*30)/117, 1e-9)
	near(t, "the shelf", with.Shelves/lb, 4, 1e-9)
	p.Parts = p.Parts[:len(p.Parts)-2]
	for holds, want := range map[float64]Verdict{15.9: Over, 16: Within} {
		p.Parts[1].Wall.Holds = unit.Weight(holds * lb)
		if got := Of(p).Walls[0].Load.Judged; got != want {
			t.Errorf("16 lb on a wall for %v lb: %s", holds, got)
		}
	}
	p.Parts[2].Work.Weight = 0
	if got := Of(p).Walls[0].Load; got.Judged != Unknown || got.Unstated != 1 {
		t.Errorf("one weight unknown on a wall for 16 lb: %+v", got)
	}
}

// What hangs on a wall is unknown, not nothing, where no weight is stated, and at least so much where one is not.
func TestUnstatedWeightsOnAWall(t *testing.T) {
	heavy := work("Heron", 24, 36, 10, 58, wire(20, 22, 8))
	light := work("Moths", 10, 12, 66, 30, wire(8, 10, 3))
	light.Work.Weight = 0
	for _, c := range []struct {
		works []booth.Part
		want  string
	}{
		{[]booth.Part{light}, "unknown|unknown|unknown"},
		{[]booth.Part{heavy, light}, "8 lb + 1 unknown|6 lb 1 oz or more|1 lb 15 oz or more"},
	} {
		row := Of(bench(booth.Mesh, c.works...)).LoadSection().Tables[1].Rows[0]
		if got := strings.Join(row[1:4], "|"); got != c.want {
			t.Errorf("got %s, want %s", got, c.want)
		}
	}
}
