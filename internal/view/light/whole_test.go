package light

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
)

// Every triangle lies in the whole one that it is a part of, or in the two that it lies across, and faces the same way, and
// together they fill the whole ones.
func TestPartsFillTheWhole(t *testing.T) {
	p, lit := baked()
	divided, across := 0, 0
	for _, s := range lit.Surfaces {
		area := func(v [3]int) geom.Vec {
			a, b, c := s.Mesh.Vertices[v[0]].P, s.Mesh.Vertices[v[1]].P, s.Mesh.Vertices[v[2]].P
			return b.Sub(a).Cross(c.Sub(a)).Mul(0.5)
		}
		second := map[int]int{}
		for _, a := range s.Across {
			second[a[0]] = a[1]
		}
		filled, want := 0.0, 0.0
		for _, w := range s.Whole {
			want += area(w).Len()
		}
		for i, v := range s.Mesh.Triangles {
			wholes := [][3]int{s.Whole[s.Of[i]]}
			if k, ok := second[i]; ok {
				wholes = append(wholes, s.Whole[k])
			}
			n := area(wholes[0]).Unit()
			filled += area(v).Dot(n)
			for _, k := range v {
				inside := false
				for _, w := range wholes {
					in := true
					for j := range 3 {
						in = in && area([3]int{w[j], w[(j+1)%3], k}).Dot(n) > -1e-6
					}
					inside = inside || in
				}
				if !inside {
					t.Fatalf("%s: %v lies beside its whole triangle", p.Parts[s.Part].ID, s.Mesh.Vertices[k].P)
				}
			}
		}
		if math.Abs(filled-want) > 2e-3*want {
			t.Errorf("%s: %v m² are filled with %v m²", p.Parts[s.Part].ID, want, filled)
		}
		divided, across = divided+len(s.Mesh.Triangles)-len(s.Whole), across+len(s.Across)
	}
	if divided < 100 || across < 100 {
		t.Errorf("only %d triangles more, %d of them across two", divided, across)
	}
}
