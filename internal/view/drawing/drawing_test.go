package drawing

import (
	"image"
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// stall is a booth with a back wall, a green work on it, a table that stands before the wall, and a pole in the air.
func stall() (*booth.Plan, *picture.Stage) {
	p := &booth.Plan{Units: unit.Inches, Pitch: booth.Pitch{Width: 3, Depth: 3, Aisle: 3}, Eyes: []booth.Eye{{Name: "adult", Height: 1.58}}}
	wall := geom.Upright(geom.Vec{X: -1.5, Z: -3}, geom.Vec{Z: 1})
	l := &light.Lit{}
	add := func(part booth.Part, m geom.Mesh, c booth.Colour) {
		s := light.Surface{Part: len(p.Parts), Mesh: m, Look: booth.Look{Colour: c}}
		for range m.Vertices {
			s.Light = append(s.Light, [3]float32{1, 1, 1})
		}
		part.Surfaces = []booth.Surface{{Mesh: m}}
		p.Parts, l.Surfaces = append(p.Parts, part), append(l.Surfaces, s)
	}
	rect := func(f geom.Frame, x0, y0, x1, y1, z float64) (m geom.Mesh) {
		m.AddPolygon(geom.Rect(f.Moved(geom.Vec{Z: z}), x0, y0, x1, y1))
		return m
	}
	add(booth.Part{ID: "wall/back", Name: "the back wall", Frame: wall, Wall: &booth.Wall{Side: booth.Back, Width: 3, Top: 2.1}},
		rect(wall, 0, 0, 3, 2.1, 0), booth.Colour{150, 150, 150})
	work := geom.Rect(wall.Moved(geom.Vec{Z: 0.04}), 1, 1.2, 1.6, 1.6)
	add(booth.Part{ID: "work/heron", Name: "Heron", Work: &booth.Work{Title: "Heron", Height: 0.4, Width: 0.6, Face: work,
		Hung: &booth.Hung{Wall: "wall/back", X0: 1, Y0: 1.2, X1: 1.6, Y1: 1.6, Depth: 0.04}}}, rect(wall, 1, 1.2, 1.6, 1.6, 0.04), booth.Colour{0, 200, 0})
	table := geom.Box(geom.World, geom.Vec{X: -1.4, Z: -2.8}, geom.Vec{X: -0.2, Y: 1.5, Z: -2})
	add(booth.Part{ID: "table/prints", Name: "the prints table", Bring: "a table", Solids: []geom.Convex{table}}, geom.Solids(table), booth.Colour{0, 0, 200})
	return p, picture.NewStage(p, l)
}

// count is the box and the number of the pixels of a colour.
func count(m *image.NRGBA, is func(r, g, b uint8) bool) (box image.Rectangle, n int) {
	for y := range m.Rect.Dy() {
		for x := range m.Rect.Dx() {
			if c := m.NRGBAAt(x, y); is(c.R, c.G, c.B) {
				box, n = box.Union(image.Rect(x, y, x+1, y+1)), n+1
			}
		}
	}
	return box, n
}

func green(r, g, b uint8) bool  { return r < 60 && g > 150 && b < 60 }
func isBlue(r, g, b uint8) bool { return r < 60 && g > 60 && g < 110 && b > 140 }
func isRed(r, g, b uint8) bool  { return r > 150 && g < 60 && b < 80 }

// scaleOf is how many pixels the scale bar says that a metre is: its first and third step, a foot each, are all ink; it is so many ems above the foot of the paper.
func scaleOf(m *image.NRGBA, up float64) float64 {
	y, from, run := m.Rect.Dy()-int(up*newPaper(m).em), -1, 0
	for x := range m.Rect.Dx() {
		if c := m.NRGBAAt(x, y); max(c.R, c.G, c.B) < 128 {
			run++
			continue
		}
		if run > 30 && from >= 0 {
			return float64(x-from) / (3 * unit.Foot.M())
		}
		if run > 30 {
			from = x - run
		}
		run = 0
	}
	return math.NaN()
}

func sheet(t *testing.T, p *booth.Plan, name string) Sheet {
	t.Helper()
	for _, s := range Of(p) {
		if s.Name == name {
			return s
		}
	}
	t.Fatalf("there is no drawing %q", name)
	return Sheet{}
}

// A work on an elevation has its true size by the scale bar beside it, at any size of paper; the table before the wall is
// left out.
func TestElevationIsToScale(t *testing.T) {
	p, s := stall()
	for _, o := range []Options{{}, {Width: 1200, Height: 900}, {Width: 1400, Height: 1600}} {
		m := sheet(t, p, "wall-back").Draw(s, o, Notes{})
		box, n := count(m, green)
		perMetre := scaleOf(m, 0.75)
		if wide := float64(box.Dx()) / perMetre; !(math.Abs(wide-0.6) < 0.01) {
			t.Errorf("%v: the work is %.3f m wide", o, wide)
		}
		if high := float64(box.Dy()) / perMetre; !(math.Abs(high-0.4) < 0.01) {
			t.Errorf("%v: the work is %.3f m high", o, high)
		}
		if share := float64(n) / float64(box.Dx()*box.Dy()); share < 0.99 {
			t.Errorf("%v: only %.3f of the work is to be seen", o, share)
		}
		if _, n := count(m, func(r, g, b uint8) bool { return r < 20 && g < 20 && b > 180 }); n > 0 {
			t.Errorf("%v: %d pixels of the table", o, n)
		}
	}
}

// On a paper of any size there is a drawing, if only of a part of the booth.
func TestAnySizeOfPaper(t *testing.T) {
	p, s := stall()
	for _, o := range []Options{{Width: 16, Height: 16}, {Width: 96, Height: 54}, {Width: 16, Height: 900}, {Width: 900, Height: 16}} {
		for _, d := range Of(p) {
			if m := d.Draw(s, o, Notes{}); m.Rect.Dx() != o.Width || m.Rect.Dy() != o.Height {
				t.Errorf("%s is %v, want %v", d.Name, m.Rect, o)
			}
		}
	}
	if got := unit.Capital("étude"); got != "Étude" {
		t.Errorf("a caption begins with %q", got)
	}
}

// Just the hidden part is hatched.
func TestHatchedWhereHidden(t *testing.T) {
	p, s := stall()
	d := sheet(t, p, "wall-back")
	plain := d.Draw(s, Options{}, Notes{})
	work := p.Parts[1].Work.Face
	left := geom.Polygon{work[0], work[0].Lerp(work[1], 0.5), work[3].Lerp(work[2], 0.5), work[3]}
	elsewhere := geom.Rect(geom.World, 0, 0, 1, 1)
	hatched := d.Draw(s, Options{}, Notes{Hidden: []geom.Polygon{left, elsewhere}})
	box, _ := count(plain, green)
	in, out := 0, 0
	for y := range plain.Rect.Dy() {
		for x := range plain.Rect.Dx() {
			if plain.NRGBAAt(x, y) == hatched.NRGBAAt(x, y) {
				continue
			}
			if (image.Point{x, y}).In(image.Rect(box.Min.X-6, box.Min.Y-6, box.Min.X+box.Dx()/2+6, box.Max.Y+6)) {
				in++
			} else {
				out++
			}
		}
	}
	if share := float64(in) / float64(box.Dx()*box.Dy()/2); share < 0.2 || share > 0.7 || out > 0 {
		t.Errorf("%.2f of the hidden half is marked, and %d pixels elsewhere", share, out)
	}
}

// On a view the hatching lies where the hidden part would be seen, over what hides it.
func TestHatchOnAView(t *testing.T) {
	p, s := stall()
	v := booth.View{Stand: geom.Vec{Z: 1.5}, Look: geom.Vec{Y: 1.4, Z: -3}, Across: 1.2}
	o := picture.Options{Width: 960, Height: 540, Eye: p.Eyes[0]}
	piece := p.Parts[1].Work.Face
	behind := geom.Polygon{{Z: 3}, {X: 1, Z: 3}, {X: 1, Y: 1, Z: 3}} // behind the visitor
	img := s.Draw(v, o)
	Hatch(img, s, v, o, []geom.Polygon{piece, behind, {piece[3], piece[2], piece[1], piece[0]}})
	x0, y0, _, _ := s.Project(v, o, piece[3])
	x1, y1, _, _ := s.Project(v, o, piece[1])
	box, n := count(img, isRed)
	if n < 100 || math.Abs(float64(box.Min.X)-x0) > 12 || math.Abs(float64(box.Max.X)-x1) > 12 || math.Abs(float64(box.Min.Y)-y0) > 12 || math.Abs(float64(box.Max.Y)-y1) > 12 {
		t.Errorf("%d pixels in %v, and the work is at %.0f,%.0f to %.0f,%.0f", n, box, x0, y0, x1, y1)
	}
}

// The clear circle has its true size on the plan; the narrow place is red where it is too narrow, and blue where not.
func TestPlan(t *testing.T) {
	p, s := stall()
	d := sheet(t, p, "plan")
	if _, n := count(d.Draw(s, Options{}, Notes{}), isBlue); n > 0 {
		t.Errorf("%d blue pixels without a way", n)
	}
	narrow := &[2]way.Point{{X: -0.2, Z: -2}, {X: 1.5, Z: -2}}
	m := d.Draw(s, Options{}, Notes{Floor: &Floor{Circle: &way.Circle{Centre: way.Point{X: 0.4, Z: -1.2}, Diameter: 1.5}, Turning: 1, Narrow: narrow, Width: 1.7, OK: true}})
	perMetre := scaleOf(m, 1.1)
	box, _ := count(m, isBlue)
	// The circle reaches 0.45 m before the front of the narrow place's line, which is the lowest blue.
	if wide := float64(box.Dx()) / perMetre; !(math.Abs(wide-1.85) < 0.03) {
		t.Errorf("from the circle's left end to the narrow place's right end are %.3f m, not 1.85", wide)
	}
	if _, n := count(m, isRed); n > 0 {
		t.Errorf("%d red pixels on a good plan", n)
	}
	m = d.Draw(s, Options{}, Notes{Floor: &Floor{Narrow: narrow, Width: 1.7}})
	if box, _ := count(m, isRed); !(math.Abs(float64(box.Dx())/perMetre-1.7) < 0.03) {
		t.Errorf("the narrow place is %.3f m long on paper, not 1.7", float64(box.Dx())/perMetre)
	}
}

// Slanted strokes of two halves are those of the whole.
func TestHatchJoins(t *testing.T) {
	square := func(x0, x1 float64) []spot { return []spot{{x0, 10}, {x0, 90}, {x1, 90}, {x1, 10}} }
	whole, halves := blank(Options{100, 100}), blank(Options{100, 100})
	whole.hatch([][]spot{square(10, 90)})
	halves.hatch([][]spot{square(10, 53.3), square(53.3, 90)})
	differs := 0
	for i := range whole.Pix {
		if d := int(whole.Pix[i]) - int(halves.Pix[i]); d < -60 || d > 60 {
			differs++
		}
	}
	if differs > len(whole.Pix)/200 {
		t.Errorf("%d of %d values differ", differs, len(whole.Pix))
	}
}

func TestFileNames(t *testing.T) {
	for id, want := range map[booth.ID]string{"wall/back": "wall-back", `wall/a:b\c*`: "wall-a-b-c-", "wall/Südwand 2": "wall-Südwand 2"} {
		if got := fileName(id); got != want {
			t.Errorf("%q becomes %q", id, got)
		}
	}
}
