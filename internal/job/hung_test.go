package job_test

import (
	"bytes"
	"encoding/json"
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/find/hang"
	"boothmock/internal/handout/glb"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/view/light"
)

// chained is a booth with chains a foot apart: on the back wall works on wires and sawtooths, which slide to the chains, and
// on the left one works on two rings, which chains a foot apart hold only if the rings are.
const chained = `units: in
pitch: {width: 10ft, depth: 10ft, aisle: 12ft, neighbours: none}
tent: {eave: 88, weight: 60lb, ballast: 40lb}
walls:
  - {side: back, hang on: chains, spacing: 12, top: 82}
  - {side: left, hang on: chains, spacing: 12, top: 82}
works:
  - {name: ash, size: 20 x 16}
  - {name: birch, size: 14 x 11, hang by: sawtooth}
  - {name: cedar, size: 16 x 20, hang by: wire, hooks: 2}
  - {name: dogwood, size: 10 x 8, hang by: sawtooth}
  - {name: elm, size: 8 x 8, hang by: sawtooth, under: ash, gap: 3}
  - {name: fir, size: 20 x 24, hang by: rings, rings: 16}
  - {name: gorse, size: 18 x 30, hang by: rings, rings: 24}
  - {name: hazel, size: 12 x 12, hang by: cleat}
tags: {}
rows:
  - {wall: back, works: [ash, birch, cedar, dogwood]}
  - {wall: left, works: [fir, gorse, hazel]}
`

// By hand, in inches: the walls are 117 wide. The back row's works are 16, 11, 20 and 8 wide, 55 in all: 62 are left for five
// gaps of 12.4. So middles are asked at 20.4, 46.3, 74.2 and 100.6. ash and cedar hang by wires whose rings are 10 2/3 and
// 13 1/3 apart; only chains closer than 0.8 of that hold two hooks, so all hang from one chain: at 24, 48, 72 and 96. elm hangs under ash, where that is. The left row's are 24, 30 and 12 wide: gaps of
// 12.75; middles at 24.75, 64.5 and 98.25. fir's rings fit no chains and hazel's cleat fits none at all: they stay. gorse's fit two
// of them: its middle goes to 60.
func TestWorksOnChains(t *testing.T) {
	p, err := build(chained)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]struct{ asked, at float64 }{
		"ash": {20.4, 24}, "birch": {46.3, 48}, "cedar": {74.2, 72}, "dogwood": {100.6, 96}, "elm": {24, 24},
		"fir": {24.75, 24.75}, "gorse": {64.5, 60}, "hazel": {98.25, 98.25},
	} {
		h := p.Part(booth.ID("work/" + name)).Work.Hung
		if at := (h.X0 + h.X1) / 2 / 0.0254; math.Abs(at-want.at) > 1e-9 || math.Abs(at-h.Moved/0.0254-want.asked) > 1e-9 {
			t.Errorf("%s: its middle is at %.4f in and was asked for at %.4f, want %g and %g", name, at, at-h.Moved/0.0254, want.at, want.asked)
		}
		if held := name != "fir" && name != "hazel"; (len(h.Hooks) > 0) != held || (h.Unheld == booth.NoPlace) == held {
			t.Errorf("%s: %d hooks, %q", name, len(h.Hooks), h.Unheld)
		}
	}
	onePlace(t, p)
}

// Wherever hooks let works of random booths hang, everything that shows them shows them there.
func TestWorksAreShownWhereTheyHang(t *testing.T) {
	hung, moved, raised, unheld := 0, 0, 0, 0
	n := booths(t, 20, 60)
	for seed := range uint64(n) {
		_, p, err := randomBooth(seed, dialect{})
		if err != nil {
			continue
		}
		slack := rules.LevelSlack.In(p.Rules)
		for i := range p.Parts {
			if w := p.Parts[i].Work; w != nil && w.Hung != nil {
				hung++
				rests(t, p, &p.Parts[i])
				switch h := w.Hung; {
				case h.Unheld != "":
					unheld++
				case math.Abs(h.Moved) > slack:
					moved++
				case math.Abs(h.Raised) > slack:
					raised++
				}
			}
		}
		if onePlace(t, p); t.Failed() {
			t.Fatalf("booth %d", seed)
		}
	}
	t.Logf("%d works hang on walls: %d move across, %d up or down, %d hang by nothing", hung, moved, raised, unheld)
	if moved < 5 || raised < 5 || unheld < 5 || hung < 2*n {
		t.Errorf("these prove little")
	}
}

// rests holds a work against plain statics: its middle is below its hook, or below the middle between two, level ones; and
// what a hook holds on to is there, on the wall.
func rests(t *testing.T, p *booth.Plan, part *booth.Part) {
	h, f, wall := part.Work.Hung, part.Work.Fixing, p.Part(part.Work.Hung.Wall).Wall
	const tiny = 1e-9
	if len(h.Hooks) == 0 {
		if h.Unheld == "" || h.Moved != 0 || h.Raised != 0 {
			t.Errorf("%s has no hooks: %+v", part.ID, h)
		}
		return
	}
	first, last := h.Hooks[0], h.Hooks[len(h.Hooks)-1]
	if math.Abs((first.X+last.X)/2-(h.X0+h.X1)/2) > tiny || first.Y != last.Y {
		t.Errorf("%s is not in balance on its hooks: %+v", part.ID, h)
	}
	below := h.Y1 - first.Y // of the hooks below the upper edge
	if f.By == booth.Wire {
		// Two straight pieces of wire from the rings to the hooks, and what is between the hooks, are the wire's length.
		up, in := f.Drop-below, (f.Spacing-(last.X-first.X))/2
		below = f.Drop
		if l := 2*math.Hypot(up, in) + last.X - first.X; math.Abs(l-f.Wire) > tiny {
			t.Errorf("%s hangs by a wire of %v that would have to be %v", part.ID, f.Wire, l)
		}
	}
	if math.Abs(below-f.Drop) > tiny {
		t.Errorf("%s has its hook %v below its upper edge, and the ring is at %v", part.ID, below, f.Drop)
	}
	for _, k := range h.Hooks {
		whole := func(m, step float64) bool { return math.Abs(math.Remainder(m, step)) < tiny }
		there := true
		switch wall.Hold {
		case booth.Mesh:
			there = whole(k.Grip-wall.Bottom, wall.Spacing)
		case booth.Chains:
			there = whole(wall.Top-k.Grip, wall.Link) && whole(k.X, wall.Spacing)
		case booth.None:
			there = false
		}
		if !there || k.X < -tiny || k.X > wall.Width+tiny || k.Grip < wall.Bottom-tiny || k.Grip > wall.Top+tiny {
			t.Errorf("%s: nothing on %s to hold %+v", part.ID, h.Wall, k)
		}
	}
}

// onePlace holds the plan's outline of every work on a wall against its mesh, its solids, its picture, the hang sheet and the
// .glb: all have it in one place, to a nanometre.
func onePlace(t *testing.T, p *booth.Plan) {
	t.Helper()
	var sheet hang.Sheet
	var text, model bytes.Buffer
	if err := job.WriteJSON(&text, hang.Of(p)); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text.Bytes(), &sheet); err != nil {
		t.Fatal(err)
	}
	if err := glb.Write(&model, p, light.Even(p), glb.Motion{}); err != nil {
		t.Fatal(err)
	}
	nodes := standing(t, readable(t, model.Bytes()))
	told := map[booth.ID]hang.Work{}
	for _, w := range sheet.Walls {
		for _, k := range w.Works {
			told[k.ID] = k
		}
	}
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Work == nil || part.Work.Hung == nil {
			continue
		}
		h, frame := part.Work.Hung, p.Part(part.Work.Hung.Wall).Frame
		local := func(points []geom.Vec) (lo, hi geom.Vec) {
			var out []geom.Vec
			for _, v := range points {
				out = append(out, frame.Local(v))
			}
			return geom.Bounds(out)
		}
		var mesh, solids []geom.Vec
		for _, s := range part.Surfaces {
			for _, v := range s.Mesh.Vertices {
				mesh = append(mesh, v.P)
			}
		}
		for _, s := range part.Solids {
			solids = append(solids, s.Corners...)
		}
		same := func(what string, x0, y0, x1, y1 float64) {
			if off := max(math.Abs(x0-h.X0), math.Abs(y0-h.Y0), math.Abs(x1-h.X1), math.Abs(y1-h.Y1)); !(off <= 1e-9) {
				t.Errorf("%s: %s has it %g m from where it hangs", part.ID, what, off)
			}
		}
		for what, points := range map[string][]geom.Vec{"its mesh": mesh, "what checks look at": solids} {
			lo, hi := local(points)
			same(what, lo.X, lo.Y, hi.X, hi.Y)
		}
		w, high := h.X1-h.X0, h.Y1-h.Y0
		for what, c := range map[string]geom.Vec{"its picture": part.Work.Face.Centre(), "booth.glb": nodes[string(part.ID)].at.Origin} {
			at := frame.Local(c)
			same(what, at.X-w/2, at.Y-high/2, at.X+w/2, at.Y+high/2)
		}
		k := told[part.ID]
		same("hang.json", k.X0, k.Y0, k.X1, k.Y1)
		asked := k.Held && max(math.Abs(k.Moved), math.Abs(k.Raised)) <= sheet.Tolerance+1e-9
		along := k.Held && part.Work.Part > 1 && told[booth.PartID(part.Work.Whole.ID, 1)].Problem != "" // the first part says it of all
		if len(k.Hooks) != len(h.Hooks) || k.Held != (h.Unheld == "") || (k.Problem == "") != asked && !along {
			t.Errorf("%s: hang.json says %+v of %+v", part.ID, k, h)
		}
	}
}
