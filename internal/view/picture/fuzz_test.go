package picture

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Whatever the three corners are, drawing ends, and a pixel shows the triangle or nothing; none, if a corner is no
// number; and none outside of the corners' bounds where all are well before the eye.
func FuzzTriangle(f *testing.F) {
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range [][9]float64{
		{-1, 1, -2, 1, 1, -2, 0, 2, -2},                     // a level edge
		{-1, 1, -2, 1, 1, -2, 1, 1, -2},                     // no area
		{0, 1.5, 0, 0, 1.5, -3, 0, 1.5, 5},                  // through the eye, edge on
		{-1, 0, 3, 1, 0, 3, 0, 1.4, -90},                    // from behind the eye
		{-1e9, 0, -1, 1e9, 0, -1, 0, 1e9, -1},               // far beyond the picture
		{-1e300, 0, -1e300, 1e300, 0, 1, 0, 1e300, -1e300},  // beyond what numbers hold
		{nan, 0, -1, 1, 1, -2, 0, 2, -2},                    // no number
		{inf, 0, -1, 1, 1, -2, 0, 2, -inf},                  // no place
		{-1, 1.5, -0.05, 1, 1.5, -0.05, 0, 1.6, -0.0500001}, // at the near plane
		{-5, 0, -200, 5, 0, -200, 0, 4, -200},               // at the far plane
		{0.01, 1.5, -1, 0.0101, 1.5, -1, 0.01, 1.5001, -1},  // smaller than a pixel
	} {
		f.Add(c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7], c[8])
	}
	f.Fuzz(func(t *testing.T, ax, ay, az, bx, by, bz, cx, cy, cz float64) {
		p := []geom.Vec{{X: ax, Y: ay, Z: az}, {X: bx, Y: by, Z: bz}, {X: cx, Y: cy, Z: cz}}
		var m geom.Mesh
		for _, v := range p {
			m.Vertices = append(m.Vertices, geom.Vertex{P: v, N: geom.Vec{Z: 1}})
		}
		m.Triangles = [][3]int{{0, 1, 2}}
		s := new(stand)
		s.add(booth.Part{}, m, booth.Look{TwoSided: true, Colour: booth.Colour{90, 90, 90}}, full)
		st := s.stage()
		o := Options{Width: 70, Height: 66}
		st.Draw(straight, o)
		lo, hi := geom.Vec{X: inf, Y: inf}, geom.Vec{X: -inf, Y: -inf}
		bounded := true
		for _, v := range p {
			x, y, depth, ok := st.Project(straight, o, v)
			bounded = bounded && ok && depth > 2*near && depth < far/2 && math.Abs(x)+math.Abs(y) < 1e4
			lo, hi = geom.Vec{X: min(lo.X, x), Y: min(lo.Y, y)}, geom.Vec{X: max(hi.X, x), Y: max(hi.Y, y)}
		}
		for i, id := range st.IDs(straight, o) {
			x, y := float64(i%70)+0.5, float64(i/70)+0.5
			switch {
			case id != -1 && id != 0:
				t.Fatalf("pixel %v, %v shows part %d", x, y, id)
			case id == 0 && !(p[0].Finite() && p[1].Finite() && p[2].Finite()):
				t.Fatalf("pixel %v, %v shows %v", x, y, p)
			case id == 0 && bounded && (x < lo.X-0.01 || x > hi.X+0.01 || y < lo.Y-0.01 || y > hi.Y+0.01):
				t.Fatalf("pixel %v, %v is outside of %v to %v", x, y, lo, hi)
			}
		}
	})
}
