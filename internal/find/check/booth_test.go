package check

import (
	"strings"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
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
		s.Views = append(s.Views, booth.View{Name: v.name, Stand: vec(v.x, 0, v.z), Bare: v.name == "application", Passing: v.z > 0 && v.name != "application", Before: v.name == "entrance"})
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
	p.run(check)
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
