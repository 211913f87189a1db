package picture

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
)

// A board before a wall casts its shadow on the wall's picture where similar triangles say, with an edge as soft as the sun is wide;
// a thing that is left out of the picture casts none.
func TestShadowInThePicture(t *testing.T) {
	s := new(stand)
	s.add(booth.Part{ID: "wall"}, flatMesh(quad(-2, 0, 2, 3, -2)), booth.Look{Colour: white}, func(geom.Vertex) [3]float32 { return [3]float32{0.1, 0.1, 0.1} })
	toward := geom.Vec{Y: 0.8, Z: 0.6}
	const out, high = 0.5, 2.0 // metres before the wall, and of its lower edge
	board := geom.Box(geom.World, geom.Vec{X: -9, Y: high, Z: -2 + out}, geom.Vec{X: 9, Y: high + 5, Z: -2 + out + 0.01})
	s.plan.Parts = append(s.plan.Parts, booth.Part{ID: "board", Moving: true})
	s.lit.Sun = &light.Sun{Toward: toward, Outlines: sight.NewOutlines(toward, 0.00465, []sight.Solid{sight.NewSolid(board, 1)})}
	s.lit.Surfaces[0].Sun = []float32{0.6, 0.6, 0.6, 0.6}
	o := Options{Width: 400, Height: 400}
	st := s.stage()
	m := st.Draw(straight, o)
	edge := high - out*toward.Y/toward.Z // over it the wall is in the shadow
	for _, c := range []struct {
		y   float64
		lit float64
	}{{edge + 0.05, 0.1}, {edge - 0.05, 0.7}, {2.9, 0.1}, {0.1, 0.7}} {
		x, y, _, _ := st.Project(straight, o, geom.Vec{X: 0.3, Y: c.y, Z: -2})
		got := linear(booth.Colour(m.Pix[m.PixOffset(int(x), int(y)):][:3:3]))
		if math.Abs(float64(got.g)-c.lit) > 0.01 {
			t.Errorf("at %.2f m the wall is %.3f bright, want %.1f", c.y, got.g, c.lit)
		}
	}
	o.Alone = true
	m = st.Draw(straight, o)
	x, y, _, _ := st.Project(straight, o, geom.Vec{X: 0.3, Y: edge + 0.05, Z: -2})
	if got := linear(booth.Colour(m.Pix[m.PixOffset(int(x), int(y)):][:3:3])); math.Abs(float64(got.g)-0.7) > 0.01 {
		t.Errorf("somebody who is left out casts a shadow: %.3f", got.g)
	}
}
