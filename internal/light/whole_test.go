package light

import (
	"math"
	"testing"

	"boothmock/internal/geom"
)

// Every triangle lies in the whole one that it is a part of, faces the same way, and together they fill it.
func TestPartsFillTheWhole(t *testing.T) {
	p, lit := baked()
	divided := 0
	for _, s := range lit.Surfaces {
		area := func(v [3]int) geom.Vec {
			a, b, c := s.Mesh.Vertices[v[0]].P, s.Mesh.Vertices[v[1]].P, s.Mesh.Vertices[v[2]].P
			return b.Sub(a).Cross(c.Sub(a)).Mul(0.5)
		}
		filled := make([]float64, len(s.Whole))
		for i, v := range s.Mesh.Triangles {
			w := s.Whole[s.Of[i]]
			whole := area(w)
			filled[s.Of[i]] += area(v).Dot(whole.Unit())
			for _, k := range v {
				for j := range 3 {
					if side := area([3]int{w[j], w[(j+1)%3], k}).Dot(whole.Unit()); side < -1e-9 {
						t.Fatalf("%s: %v lies beside its whole triangle", p.Parts[s.Part].ID, s.Mesh.Vertices[k].P)
					}
				}
			}
		}
		for i, a := range filled {
			if want := area(s.Whole[i]).Len(); math.Abs(a-want) > 1e-9 {
				t.Errorf("%s: a triangle of %v m² is filled with %v m²", p.Parts[s.Part].ID, want, a)
			}
		}
		divided += len(s.Mesh.Triangles) - len(s.Whole)
	}
	if divided < 100 {
		t.Errorf("only %d triangles more", divided)
	}
}
