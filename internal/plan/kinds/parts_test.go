package kinds

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

const diptych = `
units: in
walls: [{side: back, hang on: panel}]
works:
  - {name: tides, title: Two tides, size: 20 x 30, parts: [{}, {size: 24 x 10}], apart: 3, weight: 12lb, price: 900, frame: {width: 1}}
  - {name: hours, title: Hours, size: 10 x 10, parts: [{}, {}, {}]}
rows: [{wall: back, works: [tides], gap: 5}]
tags: {}
`

// The parts hang side by side, their middles level, each by hooks of its own, and are one work on every list. By hand: the row has
// 120 in, the two frames 32 and 12 in with 3 in between: 47 in, so that 36 1/2 in are left at either end.
func TestWorkInParts(t *testing.T) {
	p := mustPlan(t, diptych)
	in := unit.Inch.M()
	for i, want := range []struct {
		id           booth.ID
		name         string
		left, wide   float64
		high, weight float64
	}{{"work/tides", "Two tides, part 1 of 2", 36.5, 32, 22, 12 * 600.0 / 840}, {"work/tides/2", "Two tides, part 2 of 2", 71.5, 12, 26, 12 * 240.0 / 840}} {
		part := p.Part(want.id)
		if part == nil || part.Name != want.name || part.Work.Part != i+1 || len(part.Work.Hung.Hooks) == 0 || part.Work.Price != 0 {
			t.Fatalf("%s: %+v", want.id, part)
		}
		h := part.Work.Hung
		near(t, "left edge", h.X0, want.left*in)
		near(t, "width", h.X1-h.X0, want.wide*in)
		near(t, "height", h.Y1-h.Y0, want.high*in)
		near(t, "middle", h.Centre(), 58*in)
		near(t, "weight", part.Work.Weight.Kg(), want.weight*unit.Pound.Kg())
	}
	all := p.Catalogue()
	if len(all) != 2 || p.Works() != 1 {
		t.Fatalf("%d works on the list, %d on view", len(all), p.Works())
	}
	whole, waits := all[0], all[1]
	if whole.ID != "work/tides" || whole.Work.Title != "Two tides" || whole.Work.Price != 90000 || len(whole.Work.Hung.Hooks) != len(p.Part("work/tides").Work.Hung.Hooks)+len(p.Part("work/tides/2").Work.Hung.Hooks) {
		t.Errorf("%+v", whole.Work)
	}
	near(t, "weight of all", whole.Work.Weight.Kg(), 12*unit.Pound.Kg())
	if got := whole.Work.Size(unit.Inches); got != "2 parts, 20 x 30 in and 24 x 10 in, together 24 x 45 in, framed 26 x 47 in" {
		t.Error(got)
	}
	if got := waits.Work.Size(unit.Inches); waits.On != "" || got != "3 parts, each 10 x 10 in, together 10 x 34 in" {
		t.Errorf("%q on %q", got, waits.On)
	}
	tags := 0
	for _, part := range p.Parts {
		if part.Kind == "tags" {
			tags++
		}
	}
	if tags != 1 {
		t.Errorf("%d tags", tags)
	}
	for _, task := range p.SetUp.Tasks {
		if task.ID == "works/back" && (len(task.Parts) != 2 || len(task.Fetch) != 1 || task.Fetch[0].What != "“Two tides” in 2 parts" || math.Abs(task.Fetch[0].Weight.Kg()-12*unit.Pound.Kg()) > 1e-9) {
			t.Errorf("%+v", task)
		}
	}
}

// What a list of works says of the size is over all, as it hangs: three parts with 2 in between make 10, 10 and 10 of 34.
func TestSizeOfPartsOnAList(t *testing.T) {
	fsys := fstest.MapFS{"works.csv": {Data: []byte("Name,Title,Size\nhours,Hours,10 x 34\n")}}
	fsys["a.yaml"] = &fstest.MapFile{Data: []byte("units: in\nsheet: works.csv\nwalls: [{side: back}]\nworks: [{name: hours, parts: [{}, {}, {}], wall: back}]\n")}
	f, err := scene.Read(fsys, "a.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, err := Build(f, rules.Book{}, fsys)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "width of a part", p.Part("work/hours/3").Work.Width, 10*unit.Inch.M())
	near(t, "width over all", p.Part("work/hours").Work.Itself().Width, 34*unit.Inch.M())
}

// A photograph of the whole is cut at the parts, what shows between them left out; photographs of parts make one of the whole.
func TestPicturesOfParts(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 220, 100)) // 10 pixels an inch: red, 2 in of black, green
	red, green := color.NRGBA{220, 30, 30, 255}, color.NRGBA{30, 200, 30, 255}
	for x := range 220 {
		for y := range 100 {
			c := color.NRGBA{A: 255}
			if x < 100 {
				c = red
			} else if x >= 120 {
				c = green
			}
			m.SetNRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	fsys := fstest.MapFS{"all.png": {Data: b.Bytes()}}
	build := func(text string) *booth.Plan {
		f, err := scene.Parse("a.yaml", []byte("units: in\nwalls: [{side: back}]\nworks:\n"+text))
		if err != nil {
			t.Fatal(err)
		}
		p, err := Build(f, rules.Book{}, fsys)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	// On a board 24 in wide and 36 high the photograph, 22 to 10, keeps its shape: what is over of its width is cut off.
	board := build("  []\nthings: [{name: map, what: board, image: all.png, from left: 30, from front: 50}]\n").Part("thing/map")
	mesh := board.Surfaces[len(board.Surfaces)-1].Mesh
	u, v := 0.0, 0.0
	for _, a := range mesh.Vertices {
		u, v = max(u, 2*float64(a.U)-1), max(v, 2*float64(a.V)-1)
	}
	if math.Abs(u-24./36*10/22) > 1e-6 || math.Abs(v-1) > 1e-6 {
		t.Errorf("the board shows %.4f of the photograph's width and %.4f of its height", u, v)
	}
	_, err := plan(t, "units: in\nwalls: [{side: back}]\nworks:\n  - {name: a, size: 10 x 22, parts: [{image: all.png},\n    {size: 5 x 11, image: none.png}], apart: 1, wall: back}\n")
	if err == nil || !strings.Contains(err.Error(), ":5:27: there is no file none.png") {
		t.Errorf("a part without its photograph: %v", err)
	}
	p := build("  - {name: a, size: 10 x 10, parts: [{}, {}], image: all.png, wall: back}\n")
	for id, want := range map[booth.ID]color.NRGBA{"work/a": red, "work/a/2": green} {
		got := p.Part(id).Work.Image
		if got.Width != 100 || got.Height != 100 || got.Pixels().NRGBAAt(1, 50) != want || got.Pixels().NRGBAAt(98, 50) != want {
			t.Errorf("%s shows %dx%d, %v", id, got.Width, got.Height, got.Pixels().NRGBAAt(1, 50))
		}
	}
	q := build("  - {name: a, size: 10 x 22, parts: [{image: all.png}, {size: 5 x 11, image: all.png}], apart: 1, wall: back}\n")
	whole := q.Part("work/a").Work.Itself().Image
	pixels, wide := whole.Pixels(), whole.Width
	at := func(x float64) color.NRGBA { return pixels.NRGBAAt(int(x/34*float64(wide)), whole.Height/2) }
	if near := func(a, b color.NRGBA) bool { return max(a.R, b.R)-min(a.R, b.R) < 6 && max(a.G, b.G)-min(a.G, b.G) < 6 }; !near(at(5), red) || !near(at(18), green) || at(22.5).R < 0xe0 || !near(at(25), red) || !near(at(32), green) {
		t.Errorf("over all %v, %v, %v, %v, %v", at(5), at(18), at(22.5), at(25), at(32))
	}
}

// On chains 16 in apart each part of a set has a chain of its own, whatever is asked, and the row leaves the room for that: parts 8 in wide
// and 1 in apart hang 16 in from middle to middle, those 12 in wide 32 in, as no two of them fit between. By hand: 3 x 8 and 2 x 8 between
// is 40 in, 12 + 20 + 12 is 44 in, and of the 120 in 12 are left three times.
func TestPartsOnChains(t *testing.T) {
	p := mustPlan(t, `
units: in
pitch: {width: 10ft, depth: 10ft}
walls: [{side: back, hang on: chains, spacing: 16}]
works:
  - {name: small, size: 8 x 8, parts: [{}, {}, {}], apart: 1, hang by: sawtooth}
  - {name: large, size: 12 x 12, parts: [{}, {}], apart: 5, hang by: sawtooth}
rows: [{wall: back, works: [small, large]}]
`)
	in, last := unit.Inch.M(), math.Inf(-1)
	for id, step := range map[booth.ID]float64{"work/small": 16, "work/small/2": 16, "work/large": 32} {
		h, next := p.Part(id).Work.Hung, p.Part(booth.PartID(p.Part(id).Work.Whole.ID, p.Part(id).Work.Part+1)).Work.Hung
		near(t, "from middle to middle", next.X0+next.X1-h.X0-h.X1, 2*step*in)
	}
	for _, id := range []booth.ID{"work/small", "work/small/2", "work/small/3", "work/large", "work/large/2"} {
		h := p.Part(id).Work.Hung
		if len(h.Hooks) != 1 || h.X0 < last+2*in {
			t.Errorf("%s hangs from %.3f on, %d hooks; its neighbour ends at %.3f", id, h.X0, len(h.Hooks), last)
		}
		last = h.X1
	}
}

// Stacked parts hang one under the other where the upper one really hangs, about the row's height: 12 + 2 + 18 + 2 + 12 in are 46, so the
// first one's middle is 23 - 6 above 58. On the list the work is 46 in high; a photograph of all is cut from top to bottom.
func TestStacked(t *testing.T) {
	p := mustPlan(t, `
units: in
walls: [{side: back, hang on: panel}]
works: [{name: tower, size: 12 x 10, parts: [{}, {size: 18 x 6}, {}], apart: 2, stacked: yes, weight: 9lb}]
rows: [{wall: back, works: [tower]}]
`)
	in := unit.Inch.M()
	for id, middle := range map[booth.ID]float64{"work/tower": 75, "work/tower/2": 58, "work/tower/3": 41} {
		h := p.Part(id).Work.Hung
		near(t, "middle", h.Centre(), middle*in)
		near(t, "across", (h.X0+h.X1)/2, 60*in)
	}
	whole := p.Catalogue()[0].Work
	if got := whole.Size(unit.Inches); got != "3 parts, 12 x 10 in, 18 x 6 in and 12 x 10 in, together 46 x 10 in" {
		t.Error(got)
	}
	near(t, "from top to bottom", whole.Hung.Y1-whole.Hung.Y0, 46*in)
	if p.Part("work/tower/3").Work.Hung.Under != "work/tower/2" || whole.Hung.Under != "" {
		t.Error("the lower one does not hang under the upper one")
	}
}
