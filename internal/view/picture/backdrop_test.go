package picture

import (
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// From the visitor's feet to the sky, no row differs from the next by a visible step where the drawn ground ends, and
// the sky is above the horizon for every height of the picture's middle.
func TestGroundRunsIntoTheDistance(t *testing.T) {
	s := new(stand)
	grass := flatMesh(geom.Polygon{{X: -9, Z: 9}, {X: 9, Z: 9}, {X: 9, Z: -12}, {X: -9, Z: -12}})
	s.add(booth.Part{ID: "ground", Flat: true}, grass, booth.Look{Colour: booth.Colour{120, 141, 84}}, full)
	st := s.stage()
	for _, look := range []float64{0.6, 1.5, 1.9} {
		v := straight
		v.Look.Y = look
		m := st.Draw(v, Options{Width: 64, Height: 400})
		_, horizon, _, _ := st.Project(v, Options{Width: 64, Height: 400}, geom.Vec{Y: 1.5, Z: -5})
		for y := 1; y < 400; y++ {
			a, b := m.NRGBAAt(32, y-1), m.NRGBAAt(32, y)
			if step := max(int(a.B)-int(b.B), int(b.B)-int(a.B)); step > 2 && (float64(y) < horizon-1 || float64(y) > horizon+40) {
				t.Errorf("looking at height %v: rows %d and %d (horizon %.1f) are %v and %v", look, y-1, y, horizon, a, b)
			}
			if sky := b.B > b.G; sky != (float64(y) < horizon) && (float64(y) < horizon-1 || float64(y) > horizon+10) {
				t.Errorf("looking at height %v: row %d (horizon %.1f) is %v", look, y, horizon, b)
			}
		}
	}
}

func TestHall(t *testing.T) {
	s := new(stand)
	s.plan.Pitch.Indoor = true
	floor := flatMesh(geom.Polygon{{X: -9, Z: 9}, {X: 9, Z: 9}, {X: 9, Z: -12}, {X: -9, Z: -12}})
	s.add(booth.Part{ID: "floor", Flat: true}, floor, booth.Look{Colour: booth.Colour{90, 70, 60}}, full)
	m := s.stage().Draw(straight, Options{Width: 200, Height: 200})
	for _, c := range []struct {
		y     int
		floor bool
	}{{0, false}, {100, false}, {105, false}, {107, true}, {115, true}, {199, true}} { // the wall meets the floor 1.5/25 below the horizon: row 106
		p := m.NRGBAAt(100, c.y)
		if isFloor := p.R >= 89 && p.R <= 91 && p.B >= 59 && p.B <= 61; isFloor != c.floor {
			t.Errorf("row %d is %v", c.y, p)
		}
	}
}
