package picture

import (
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// An elevation is to scale: a work 0.6 m wide and 0.4 m high fills its own pixels and no more, wherever it hangs and
// however far it stands out; what is before or behind the depth asked for is left out.
func TestDrawFlatIsToScale(t *testing.T) {
	s := new(stand)
	wall := geom.Upright(geom.Vec{X: -1.5}, geom.Vec{X: 1}) // the left wall, its left end at the front
	red, blue := booth.Look{Colour: booth.Colour{200, 0, 0}}, booth.Look{Colour: booth.Colour{0, 0, 200}}
	s.add(booth.Part{ID: "cloth"}, flatMesh(geom.Rect(wall, 0, 0, 3, 2)), booth.Look{Colour: booth.Colour{100, 100, 100}}, full)
	s.add(booth.Part{ID: "work"}, flatMesh(geom.Rect(wall.Moved(geom.Vec{Z: 0.04}), 0.5, 1.2, 1.1, 1.6)), red, full)
	s.add(booth.Part{ID: "far out"}, flatMesh(geom.Rect(wall.Moved(geom.Vec{Z: 0.9}), 1.5, 0.5, 2, 1)), blue, full)
	s.add(booth.Part{ID: "pole before"}, flatMesh(geom.Rect(wall.Moved(geom.Vec{Z: 1.2}), 0.7, 0, 0.8, 2)), blue, full)
	s.add(booth.Part{ID: "behind"}, flatMesh(geom.Rect(wall.Moved(geom.Vec{Z: -0.5}), 0, 0, 3, 2.4)), blue, full)
	m := s.stage().DrawFlat(wall, 3, 2.4, 100, -0.1, 1, nil)
	if m.Rect.Dx() != 300 || m.Rect.Dy() != 240 {
		t.Fatalf("the drawing is %v", m.Rect)
	}
	for y := range 240 {
		for x := range 300 {
			want := [3]uint8{255, 255, 255}
			switch {
			case x >= 50 && x < 110 && y >= 80 && y < 120:
				want = red.Colour
			case x >= 150 && x < 200 && y >= 140 && y < 190:
				want = blue.Colour
			case y >= 40:
				want = [3]uint8{100, 100, 100}
			}
			if c := m.NRGBAAt(x, y); [3]uint8{c.R, c.G, c.B} != want {
				t.Fatalf("pixel %d, %d is %v, want %v", x, y, c, want)
			}
		}
	}
}

// A plan from above: the frame faces up, its Y runs towards the back. What is higher hides what is lower.
func TestDrawFlatFromAbove(t *testing.T) {
	s := new(stand)
	s.add(booth.Part{ID: "grass"}, flatMesh(geom.Polygon{{X: -2, Z: 1}, {X: 2, Z: 1}, {X: 2, Z: -4}, {X: -2, Z: -4}}), booth.Look{Colour: booth.Colour{0, 160, 0}}, full)
	s.add(booth.Part{ID: "table"}, geom.Solids(geom.Box(geom.World, geom.Vec{X: -1.5, Z: -1}, geom.Vec{X: -0.5, Y: 0.74, Z: -0.5})), booth.Look{Colour: booth.Colour{160, 0, 0}}, full)
	s.add(booth.Part{ID: "roof"}, flatMesh(geom.Polygon{{X: -2, Y: 2.2, Z: 1}, {X: 2, Y: 2.2, Z: 1}, {X: 2, Y: 2.2, Z: -4}, {X: -2, Y: 2.2, Z: -4}}), booth.Look{}, full)
	above := geom.Frame{Origin: geom.Vec{X: -2, Z: 1}, X: geom.Vec{X: 1}, Y: geom.Vec{Z: -1}, Z: geom.Vec{Y: 1}}
	m := s.stage().DrawFlat(above, 4, 5, 40, -1, 2, nil)
	for _, c := range []struct {
		x, z float64
		want [3]uint8
	}{{-1, -0.75, [3]uint8{160, 0, 0}}, {-1.49, -0.51, [3]uint8{160, 0, 0}}, {1, -0.75, [3]uint8{0, 160, 0}}, {-1, 0.5, [3]uint8{0, 160, 0}}, {-1, -1.1, [3]uint8{0, 160, 0}}} {
		p := m.NRGBAAt(int((c.x+2)*40), int(200-(1-c.z)*40))
		if [3]uint8{p.R, p.G, p.B} != c.want {
			t.Errorf("at %v, %v: %v, want %v", c.x, c.z, p, c.want)
		}
	}
}
