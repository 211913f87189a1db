package kinds

import (
	"strings"
	"testing"
)

// What hangs of a print is its sheet, or the frame around that; a mat hides the margin. By hand: 42 cm, 42 + 2 x 2, 30 + 2 x (2 + 6).
func TestSheetOfPrint(t *testing.T) {
	p := mustPlan(t, `
units: cm
walls: [{side: back, hang on: panel}]
works:
  - {name: bare, size: 20 x 30, paper: 30 x 42}
  - {name: framed, size: 20 x 30, paper: 30 x 42, frame: {width: 2}}
  - {name: matted, size: 20 x 30, paper: 30 x 42, frame: {width: 2, mat: 6}}
rows: [{wall: back, works: [bare, framed, matted]}]
`)
	for name, want := range map[string]struct {
		wide, deep float64
		surfaces   int
		says       string
	}{
		"bare": {0.42, backing.M(), 3, "20 x 30 cm, sheet 30 x 42 cm"}, "framed": {0.46, 0.75 * 0.0254, 3, "20 x 30 cm, sheet 30 x 42 cm, framed 34 x 46 cm"}, "matted": {0.46, 0.75 * 0.0254, 4, "20 x 30 cm, framed 36 x 46 cm"},
	} {
		part := p.Part(WorkID(name))
		near(t, name, part.Work.Hung.X1-part.Work.Hung.X0, want.wide)
		near(t, name, part.Work.Hung.Depth, want.deep)
		near(t, name, part.Work.Face.Area(), 0.2*0.3)
		if got := part.Work.Size(p.Units); got != want.says || len(part.Surfaces) != want.surfaces {
			t.Errorf("%s: %q, %d surfaces", name, got, len(part.Surfaces))
		}
	}
	margin := 0.0 // of the bare one: what is in the picture's plane and not the picture
	part := p.Part(WorkID("bare"))
	for _, tri := range part.Surfaces[2].Mesh.Triangles {
		v := part.Surfaces[2].Mesh.Vertices
		margin += v[tri[1]].P.Sub(v[tri[0]].P).Cross(v[tri[2]].P.Sub(v[tri[0]].P)).Len() / 2
	}
	near(t, "margin", margin, 0.3*0.42-0.2*0.3)
	for works, want := range map[string]string{
		"{name: a, size: 20 x 30, paper: 10 x 42}":                  `the sheet of "a" is smaller than its picture, 20 x 30 cm`,
		"{name: a, size: 20 x 30, paper: 30 x 42, parts: [{}, {}]}": `"a" is in parts, or a sculpture, and no single sheet`,
	} {
		_, err := plan(t, "units: cm\nwalls: [{side: back, hang on: panel}]\nworks: ["+works+"]\nrows: [{wall: back, works: [a]}]\n")
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", works, err)
		}
	}
}
