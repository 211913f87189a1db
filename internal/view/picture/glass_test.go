package picture

import (
	"math"
	"testing"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/glass"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
)

// A black work behind a pane, with a board before it that is red on the left of whoever looks at the work, and nothing on the right. By
// the law of reflection the left half of the pane mirrors red, 8 % of it and more beside (Fresnel); a work without a pane stays black.
func TestPaneMirrorsABoard(t *testing.T) {
	face := geom.Polygon{{X: -0.5, Y: 1}, {X: 0.5, Y: 1}, {X: 0.5, Y: 2}, {X: -0.5, Y: 2}}
	draw := func(kind glass.Kind, quick bool) (left, right [3]uint8) {
		board := geom.Box(geom.World, geom.Vec{X: -4, Y: 0, Z: 4}, geom.Vec{X: 0, Y: 4, Z: 4.1})
		other := geom.Box(geom.World, geom.Vec{X: 0, Y: 0, Z: 4}, geom.Vec{X: 4, Y: 4, Z: 4.1})
		p := &booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 3, Indoor: true, Ceiling: 300}, Eyes: []booth.Eye{{Height: 1.5}}, Parts: []booth.Part{
			{ID: "work", Work: &booth.Work{Face: face, Glazing: kind}, Surfaces: []booth.Surface{{Mesh: geom.ImageRect(face), Look: booth.Look{Glass: kind}}}},
			{ID: "board", Surfaces: []booth.Surface{{Mesh: geom.Solids(board), Look: booth.Look{Colour: booth.Colour{255, 0, 0}}}}},
			{ID: "other", Surfaces: []booth.Surface{{Mesh: geom.Solids(other), Look: booth.Look{Colour: booth.Colour{0, 0, 0}}}}},
		}}
		lit := light.Even(p)
		for i := range lit.Surfaces { // as bright all over
			for k := range lit.Surfaces[i].Light {
				lit.Surfaces[i].Light[k] = [3]float32{1, 1, 1}
			}
		}
		v := booth.View{Stand: geom.Vec{Z: 2}, Look: geom.Vec{Y: 1.5}, Across: 0.5}
		m := NewStage(p, lit).Draw(v, Options{Width: 160, Height: 120, Quick: quick})
		at := func(x int) [3]uint8 { c := m.NRGBAAt(x, 60); return [3]uint8{c.R, c.G, c.B} }
		return at(70), at(90)
	}
	for _, quick := range []bool{false, true} { // quick: a picture of the film
		left, right := draw(glass.Glass, quick)
		want := 255 * colour.Signal(glass.Glass.Reflects(1))
		if math.Abs(float64(left[0])-want) > 2 || left[1] > 2 || right[0] > 2 {
			t.Errorf("the pane mirrors %v on the left and %v on the right, want red %.0f on the left", left, right, want)
		}
	}
	if left, right := draw(glass.None, false); left != [3]uint8{} || right != [3]uint8{} {
		t.Errorf("without a pane: %v %v", left, right)
	}
}
