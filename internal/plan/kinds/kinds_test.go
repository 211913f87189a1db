package kinds

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
	"boothmock/scenes"
)

const inch = 0.0254

// plan builds a booth from the text of a scene; red.jpg, twice as wide as high, is beside it.
func plan(t *testing.T, text string) (*booth.Plan, error) {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewNRGBA(image.Rect(0, 0, 40, 20)), nil); err != nil {
		t.Fatal(err)
	}
	fsys := fstest.MapFS{"a.yaml": {Data: []byte(text)}, "red.jpg": {Data: b.Bytes()}}
	f, err := scene.Read(fsys, "a.yaml")
	if err != nil {
		return nil, err
	}
	return Build(f, rules.Book{}, fsys)
}

func mustPlan(t *testing.T, text string) *booth.Plan {
	t.Helper()
	p, err := plan(t, text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) < 1e-9) {
		t.Errorf("%s: got %.6f m (%.3f in), want %.6f m (%.3f in)", what, got, got/inch, want, want/inch)
	}
}

// Everything that any scene of the project builds is sound.
func TestScenesAreSound(t *testing.T) {
	files, err := fs.Glob(scenes.FS, "*.yaml")
	if err != nil || len(files) < 4 {
		t.Fatalf("%d scenes, %v", len(files), err)
	}
	for _, name := range files {
		f, err := scene.Read(scenes.FS, name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		p, err := Build(f, rules.Book{}, scenes.FS)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		ids := map[booth.ID]bool{"": true}
		for _, part := range p.Parts {
			if ids[part.ID] {
				t.Errorf("%s: two parts are called %s", name, part.ID)
			}
			if !ids[part.Parent] {
				t.Errorf("%s: %s hangs on %s, which does not come before it", name, part.ID, part.Parent)
			}
			ids[part.ID] = true
			if part.Name == "" || part.At.Line == 0 && part.Kind != "pitch" {
				t.Errorf("%s: %s has no name or no place in the file", name, part.ID)
			}
			for i, s := range part.Solids {
				if err := s.Check(); err != nil {
					t.Errorf("%s: %s: solid %d: %v", name, part.ID, i, err)
				}
			}
			for i, s := range part.Surfaces {
				if err := s.Mesh.Check(); err != nil {
					t.Errorf("%s: %s: surface %d: %v", name, part.ID, i, err)
				}
				if s.Look.Image == nil || s.Look.Tile > 0 {
					continue
				}
				for _, v := range s.Mesh.Vertices {
					if v.U < 0 || v.U > 1 || v.V < 0 || v.V > 1 {
						t.Errorf("%s: %s: surface %d: texture at %g, %g", name, part.ID, i, v.U, v.V)
					}
				}
			}
			if w := part.Work; w != nil {
				near(t, name+": width of "+w.Title, w.Face[0].Dist(w.Face[1]), w.Width)
				near(t, name+": height of "+w.Title, w.Face[1].Dist(w.Face[2]), w.Height)
				if w.Image == nil {
					continue
				}
				if r := float64(w.Image.Width) / float64(w.Image.Height) / (w.Width / w.Height); math.Abs(r-1) > 0.02 && name != "wrong.yaml" {
					t.Errorf("%s: the image of %s is %.3f times as wide as its size says", name, w.Title, r)
				}
			}
		}
		for _, v := range p.Views {
			if v.Across <= 0 || v.Across > 2.5 || v.Doc == "" || v.Look == v.Stand {
				t.Errorf("%s: view %+v", name, v)
			}
		}
	}
}

const booth10 = `
units: in
tent: {leg: 1.5}
walls: [{side: left}, {side: back}, {side: right}]
`

// Worked by hand: between the legs a side of 120 in has 117. Works of 24, 48 and 24 leave 21 for four gaps of 5 1/4.
func TestRowIsSpacedEvenly(t *testing.T) {
	p := mustPlan(t, booth10+`
works:
  - {name: a, size: 36 x 24, image: red.jpg}
  - {name: b, size: 30 x 48}
  - {name: c, size: 24 x 24, depth: 2}
  - {name: d, size: 10 x 20, frame: {width: 1, mat: 2, depth: 3/4}, under: b, gap: 4}
rows: [{wall: back, works: [a, b, c], centre: 60}]
`)
	for _, c := range []struct {
		id         booth.ID
		x0, y0, y1 float64
	}{
		{"work/a", 5.25, 42, 78}, {"work/b", 34.5, 45, 75}, {"work/c", 87.75, 48, 72},
		{"work/d", 34.5 + 24 - 13, 45 - 4 - 16, 41}, // 26 in over all, under the middle of b
	} {
		h := p.Part(c.id).Work.Hung
		near(t, string(c.id)+" left", h.X0, c.x0*inch)
		near(t, string(c.id)+" foot", h.Y0, c.y0*inch)
		near(t, string(c.id)+" top", h.Y1, c.y1*inch)
	}
	// The wall's face is a leg and a quarter inch of hooks in from the back edge; the canvas stands 2 in out of it.
	face := p.Part("work/c").Work.Face
	near(t, "the face of c", face[0].Z, (-120+1.5+0.25+2)*inch)
	near(t, "c's left edge in the booth", face[0].X, (-60+1.5+87.75)*inch)
	if n := face.Normal(); n.Dist(geom.Vec{Z: 1}) > 1e-12 {
		t.Errorf("c looks towards %v", n)
	}
}

func TestRowTooWideKeepsItsGapsAndStaysInTheMiddle(t *testing.T) {
	p := mustPlan(t, booth10+`
works: [{name: a, size: 20 x 60}, {name: b, size: 20 x 60}]
rows: [{wall: left, works: [a, b]}]
`)
	near(t, "a", p.Part("work/a").Work.Hung.X0, -2.5*inch) // (117 - 120 - 2) / 2
	near(t, "b", p.Part("work/b").Work.Hung.X1, 119.5*inch)
}

func TestThingsStandWhereTheSceneSays(t *testing.T) {
	p := mustPlan(t, booth10+`
tables:
  - {name: side, size: 48 x 24, against: left, from front: 6, on top: [{name: box, size: 10 x 8 x 4, along: 6, back: 2}]}
  - {name: across, size: 60 x 30, from left: 24, from front: 0}
pedestals: [{name: p, size: 12 x 10, from right: 10, from back: 20}]
chair: {from left: 90, before front: 12}
`)
	for _, c := range []struct {
		id     booth.ID
		lo, hi geom.Vec // inches
	}{
		// Against the left wall: 1 1/2 of leg and 1/4 of hooks; its length runs along the wall.
		{"table/side", geom.Vec{X: -58.25, Z: -54}, geom.Vec{X: -34.25, Y: 29, Z: -6}},
		{"table/across", geom.Vec{X: -36, Z: -30}, geom.Vec{X: 24, Y: 29, Z: 0}},
		{"pedestal/p", geom.Vec{X: 38, Z: -100}, geom.Vec{X: 50, Y: 36, Z: -90}},
		// On the side table, seen from its front (the inside): left is the front of the booth... it faces +X, so its left is +Z.
		{"thing/box", geom.Vec{X: -34.25 - 2 - 8, Y: 29, Z: -6 - 6 - 10}, geom.Vec{X: -36.25, Y: 33, Z: -12}},
		{"chair", geom.Vec{X: 30, Z: 12}, geom.Vec{X: 48, Y: 18 + 0.44/inch, Z: 30}},
	} {
		var corners []geom.Vec
		for _, s := range p.Part(c.id).Solids {
			corners = append(corners, s.Corners...)
		}
		lo, hi := geom.Bounds(corners)
		if lo.Dist(c.lo.Mul(inch)) > 1e-9 || hi.Dist(c.hi.Mul(inch)) > 1e-9 {
			t.Errorf("%s stands from %v to %v in, want %v to %v", c.id, lo.Mul(1/inch), hi.Mul(1/inch), c.lo, c.hi)
		}
	}
}

// The cloth that is drawn is the cloth to buy: its length over the folds is fullness times the width.
func TestDrapeHasItsFullness(t *testing.T) {
	for _, fullness := range []float64{1, 1.2, 1.5, 2, 3} {
		m, _, deep := folds(geom.World, 3, 0, 2, fullness, 0.12, wholeFold)
		row := 0
		for row < len(m.Vertices) && m.Vertices[row].P.Y == 0 {
			row++
		}
		length := 0.0
		for i := 1; i < row; i++ {
			length += m.Vertices[i].P.Dist(m.Vertices[i-1].P)
		}
		if got := length / 3; math.Abs(got-fullness) > 1e-4 {
			t.Errorf("fullness %g: the cloth is %.3f times the width", fullness, got)
		}
		if deep < 0.002 || deep > 0.22 {
			t.Errorf("fullness %g: folds are %g m deep", fullness, deep)
		}
	}
}

func TestBadScenes(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"no such wall":  {"units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 9 x 9, wall: bakc}]\n", `a.yaml:3:38: there is no wall "bakc" (did you mean "back"?)`},
		"no such work":  {"units: in\nwalls: [{side: back}]\nworks: [{name: heron, size: 9 x 9}]\nrows: [{wall: back, works: [hreon, heron]}]\n", `a.yaml:4:29: there is no work "hreon" (did you mean "heron"?)`},
		"two of a name": {"units: in\nwalls: [{side: back}]\nworks:\n  - {name: a, size: 9 x 9, wall: back}\n  - {name: a, size: 9 x 9, wall: back}\n", `a.yaml:5:12: the name "a" is taken already, at line 4 (give each work its own name)`},
		"hung twice":    {"units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 9 x 9}]\nrows: [{wall: back, works: [a, a]}]\n", `a.yaml:4:32: "a" hangs already (name it once)`},
		"a spare hangs": {"units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 9 x 9, wall: back, status: spare}]\n", `a.yaml:3:52: "a" is a spare, and hangs (take that away, or the name out of the row)`},
		"under nothing": {"units: in\nworks: [{name: a, size: 9 x 9, under: a}]\n", `a.yaml:2:39: "a" hangs nowhere itself (hang the upper one first)`},
		"under, in a row": {"units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 9 x 9}, {name: b, size: 9 x 9, under: a}]\nrows: [{wall: back, works: [a, b]}]\n",
			`a.yaml:3:63: "b" hangs in a row, and under: says otherwise (take that away, or the name out of the row)`},
		"under, and a wall":   {"units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 9 x 9, wall: back}, {name: b, size: 9 x 9, wall: back, under: a}]\n", `a.yaml:3:87: "b" has a wall, and under: says otherwise (keep one of the two)`},
		"under, and on":       {"units: in\nwalls: [{side: back}]\ntables: [{name: t, size: 30 x 30}]\nworks: [{name: a, size: 9 x 9, wall: back}, {name: b, size: 9 x 9, under: a, on: t}]\n", `a.yaml:4:82: "b" hangs under "a", and on: says otherwise (keep one of the two)`},
		"no image":            {"units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 9 x 9, wall: back, image: b.jpg}]\n", `a.yaml:3:51: `},
		"image outside":       {"units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 9 x 9, wall: back, image: ../b.jpg}]\n", `a.yaml:3:51: `},
		"no colour":           {"drapes: {cloth: linnen}\n", `a.yaml:1:17: cloth: "linnen" is not a colour (did you mean linen?)`},
		"peak under eave":     {"tent: {eave: 90in, peak: 80in}\n", `a.yaml:1:26: the peak is lower than the eave (the peak is the highest point of the canopy)`},
		"wall too wide":       {"units: in\nwalls: [{side: back, width: 130}]\n", `a.yaml:2:29: the wall is wider than its side: 130 in, and there are 120 in`},
		"two places":          {"units: in\ntables: [{size: 20 x 10, from left: 3, from right: 3}]\n", `a.yaml:2:52: both "from left" and "from right" are given (say one of the two)`},
		"unknown key":         {"tabels: []\n", `a.yaml:1:1: `},
		"no such side":        {"pitch: {open: [rihgt]}\n", `a.yaml:1:`},
		"sign nowhere":        {"signs: [{text: [x]}]\n", `a.yaml:1:9: the sign stands nowhere`},
		"looks at":            {"visitors: [{looks at: work/x}]\n", `a.yaml:1:23: there is no "work/x"`},
		"one part":            {"units: in\nworks: [{name: a, size: 9 x 9, parts: [{}]}]\n", `a.yaml:2:39: a work in parts has two of them at least (leave it out, or name the others too)`},
		"no parts":            {"units: in\nworks: [{name: a, size: 9 x 9, apart: 2}]\n", `a.yaml:2:39: "a" has no parts (say its parts: too, or leave this out)`},
		"parts on a table":    {"units: in\ntables: [{name: t, size: 30 x 30}]\nworks: [{name: a, size: 9 x 9, parts: [{}, {}], on: t}]\n", `a.yaml:3:53: "a" has parts, and those hang together`},
		"a part unsized":      {"units: in\nworks: [{name: a, parts: [{size: 9 x 9}, {}]}]\n", `a.yaml:2:9: size is missing`},
		"sculpture on a wall": {"units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 9 x 9 x 9, wall: back}]\n", `a.yaml:3:42: "a" is a sculpture, as its size has a depth, and stands (leave it out, or the third length of the size)`},
		"sculpture in a row":  {"units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 9 x 9 x 9}]\nrows: [{wall: back, works: [a]}]\n", `a.yaml:4:29: "a" is a sculpture`},
		"banner up":           {"banner: {text: x, size: 12in x 60in}\n", `a.yaml:1:1: without a tent the banner has nothing to hang from`},
	} {
		_, err := plan(t, c.text)
		if err == nil {
			t.Errorf("%s: no fault was found", name)
		} else if !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s:\n got %s\nwant %s", name, err, c.want)
		}
	}
}

// What to do about an image stands on a line of its own, as with every other fault.
func TestHintOfAnImage(t *testing.T) {
	_, err := plan(t, "units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 9 x 9, wall: back, image: rde.jpg}]\n")
	var faults fault.List
	if !errors.As(err, &faults) || len(faults) != 1 || faults[0].Text != "there is no file rde.jpg" || faults[0].Hint != "did you mean red.jpg?" {
		t.Errorf("%+v", err)
	}
}

// A thing with a fault of its own gives no further faults where it is named.
func TestOneFaultIsToldOnce(t *testing.T) {
	_, err := plan(t, "units: in\nwalls: [{side: back, top: 3}]\ntables: [{name: t, size: 0 x 3}]\nworks: [{name: a, size: 9 x}]\nrows: [{wall: back, works: [a]}]\nsigns: [{text: [x], on: t}]\n")
	if err == nil || strings.Count(err.Error(), "\n") != 2 {
		t.Errorf("want three faults, one a line, got:\n%v", err)
	}
	for text, at := range map[string]string{
		"walls: [{side: back, from left: 12ft}]\nworks: [{name: a, size: 9 x 9, wall: back}]\n":           "a.yaml:2:",
		"walls: [{side: back}]\nsheet: none.csv\nworks: [{name: a, wall: back}, {name: b, wall: back}]\n": "a.yaml:3:",
		"walls: [{side: back}]\nworks: [{name: a, wall: back}]\n":                                         "a.yaml:3:",
	} {
		if _, err := plan(t, "units: in\n"+text); err == nil || strings.Contains(err.Error(), "\n") || !strings.HasPrefix(err.Error(), at) {
			t.Errorf("%s: want one fault, at %s, got:\n%v", text, at, err)
		}
	}
	for _, row := range []string{"{wall: bakc, works: [a]}", "{wall: back, works: [a], centre: high}", "{works: [a]}"} {
		_, err := plan(t, "units: in\nwalls: [{side: back}]\nworks: [{name: a, size: 9 x 9}]\nrows: ["+row+"]\n")
		if err == nil || strings.Contains(err.Error(), "\n") || !strings.HasPrefix(err.Error(), "a.yaml:4:") {
			t.Errorf("row %s: want one fault, in the row, got:\n%v", row, err)
		}
	}
}

func TestCornerAndDoublePitches(t *testing.T) {
	p := mustPlan(t, "pitch: {width: 20ft, depth: 10ft, open: [right]}\ntent: {tents across: 2}\n")
	if !p.Pitch.Open[booth.Right] || p.Pitch.Open[booth.Left] || !p.Pitch.Open[booth.Front] {
		t.Errorf("open sides: %v", p.Pitch.Open)
	}
	legs := 0
	for _, part := range p.Parts {
		if strings.Contains(string(part.ID), "/leg-") {
			legs++
		}
	}
	if legs != 6 {
		t.Errorf("two tents side by side stand on %d legs, want 6", legs)
	}
	if !slices.ContainsFunc(p.Views, func(v booth.View) bool { return v.Name == "entrance" }) {
		t.Error("there is no view from the entrance")
	}
}

func TestTitle(t *testing.T) {
	for text, want := range map[string]string{
		"artist: Odile\nevent: Green Fair\n": "Odile at the Green Fair", "artist: Odile\nevent: The Green Fair\n": "Odile at The Green Fair",
		"event: The Green Fair\n": "The Green Fair", "units: in\n": "The booth",
	} {
		if got := mustPlan(t, text).Title(); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

// A side without a neighbour has its own aisle: somebody stands before its middle and people pass both ways, as far out and as
// far along as at the front.
func TestViewsFromSideAisles(t *testing.T) {
	names := func(p *booth.Plan) (out []string) {
		for _, v := range p.Views {
			out = append(out, v.Name)
		}
		return out
	}
	usual := []string{"entrance", "aisle-left", "aisle-right", "across", "inside", "application"}
	if got := names(mustPlan(t, "pitch: {width: 12ft, depth: 8ft}\n")); !slices.Equal(got, usual) {
		t.Errorf("%v", got)
	}
	p := mustPlan(t, "pitch: {width: 12ft, depth: 8ft, aisle: 10ft, open: [right, back, left]}\n")
	want := slices.Insert(slices.Clone(usual), 4, "left-side", "left-from-back", "left-from-front", "right-side", "right-from-front", "right-from-back",
		"back-side", "back-from-right", "back-from-left")
	if got := names(p); !slices.Equal(got, want) {
		t.Errorf("%v", got)
	}
	const ft = 12 * inch
	// By hand: half of the aisle, 5 ft, out from the side's middle; 0.8 m past its ends and 0.45 of the aisle, 4.5 ft, out.
	for name, at := range map[string][2]float64{
		"entrance": {0, 5 * ft}, "right-side": {11 * ft, -4 * ft}, "left-side": {-11 * ft, -4 * ft}, "back-side": {0, -13 * ft},
		"aisle-left": {-6*ft - 0.8, 4.5 * ft}, "right-from-front": {10.5 * ft, 0.8}, "right-from-back": {10.5 * ft, -8*ft - 0.8},
		"left-from-front": {-10.5 * ft, 0.8}, "left-from-back": {-10.5 * ft, -8*ft - 0.8},
		"back-from-left": {-6*ft - 0.8, -12.5 * ft}, "back-from-right": {6*ft + 0.8, -12.5 * ft},
	} {
		k := slices.IndexFunc(p.Views, func(v booth.View) bool { return v.Name == name })
		v := p.Views[k]
		near(t, name+" x", v.Stand.X, at[0])
		near(t, name+" z", v.Stand.Z, at[1])
		if d := v.Look.Sub(v.Stand); !v.Passing || v.Look.X < -6*ft || v.Look.X > 6*ft || v.Look.Z > 0 || v.Look.Z < -8*ft || d.Len() < 1 {
			t.Errorf("%s looks at %v: %+v", name, v.Look, v)
		}
	}
}

// é is one name, as one character or as e with an accent after it: in works, rows, keys of other lists and file names; and
// two works of one name are told as such.
func TestOneNameInTwoSpellings(t *testing.T) {
	const one, two = "caf\u00e9", "cafe\u0301"
	p := mustPlan(t, "units: in\nwalls: [{side: back, name: "+one+"}]\nworks: [{name: "+one+", size: 9 x 9}]\nrows: [{wall: "+two+", works: ["+two+"]}]\n")
	if w := p.Part("work/" + one); w == nil || w.Work.Hung == nil || w.Parent != "wall/"+one {
		t.Errorf("%+v", w)
	}
	_, err := plan(t, "units: in\nwalls: [{side: back}]\nworks: [{name: "+one+", size: 9 x 9, wall: back}, {name: "+two+", size: 9 x 9, wall: back}]\n")
	if err == nil || !strings.Contains(err.Error(), "is taken already, at line 3") {
		t.Errorf("two works of one name: %v", err)
	}
}
