package glb

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
)

// Two pieces of cloth that meet at a right angle, one level and one upright: their backs go behind them by two millimetres, and still
// meet. Their fronts stay.
func TestApart(t *testing.T) {
	level := geom.Polygon{{}, {Z: 1}, {X: 1, Z: 1}, {X: 1}}                           // faces up
	upright := geom.Polygon{{Z: 1}, {Y: -1, Z: 1}, {X: 1, Y: -1, Z: 1}, {X: 1, Z: 1}} // faces +Z
	var front, back light.Surface
	for _, p := range []geom.Polygon{level, upright} {
		front.Mesh.AddPolygon(p)
		back.Mesh.AddPolygon(geom.Polygon{p[3], p[2], p[1], p[0]})
	}
	back.Back = true
	in := []light.Surface{front, back}
	for i, s := range apart(in) {
		for k, v := range s.Mesh.Vertices {
			was := in[i].Mesh.Vertices[k].P
			want := was
			if s.Back && was.Y > -0.5 {
				want.Y -= 0.002
			}
			if s.Back && was.Z > 0.5 {
				want.Z -= 0.002
			}
			if v.P.Dist(want) > 1e-12 {
				t.Errorf("surface %d: %v is moved to %v, want %v", i, was, v.P, want)
			}
		}
	}
	if back.Mesh.Vertices[0].P != (geom.Vec{X: 1}) {
		t.Error("the light itself is changed")
	}
}

// Of the ground there is the pitch, two metres beside and behind it, and the aisle before it, three metres here.
func TestGroundNearby(t *testing.T) {
	p := testBooth(t)
	p.Pitch = booth.Pitch{Width: 3, Depth: 3, Aisle: 3}
	far := geom.Grid(3, 3, func(u, v float64) (geom.Vec, float64, float64) {
		x, z := float64(60*u)-30, 25-float64(60*v)
		return geom.Vec{X: x, Z: z}, x, z
	})
	p.Parts = append(p.Parts, booth.Part{ID: "ground", Kind: "pitch", Flat: true, Surfaces: []booth.Surface{{Mesh: far}}})
	d := decode(t, written(t, p))
	got := read(t, d, d.Meshes[*nodes(t, d)["ground"].node.Mesh].Primitives[0])
	area := 0.0
	for i := 0; i < len(got.index); i += 3 {
		var tri geom.Polygon
		for _, k := range got.index[i : i+3] {
			v := got.position[k]
			tri = append(tri, geom.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])})
			if math.Abs(tri[len(tri)-1].X) > 3.5+1e-6 || v[2] < -5-1e-6 || v[2] > 3+1e-6 {
				t.Errorf("ground at %v", v)
			}
		}
		if a := tri.Area(); a > 1e-9 && tri.Normal().Y < 0.999 {
			t.Errorf("a triangle faces %v", tri.Normal())
		}
		area += tri.Area()
	}
	if math.Abs(area-7*8) > 1e-4 {
		t.Errorf("%g m² of ground, want 7 × 8", area)
	}
}
