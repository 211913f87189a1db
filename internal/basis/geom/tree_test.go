package geom

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestTree asks for boxes near a box, and looks at each to know the answer.
func TestTree(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 9))
	for _, n := range []int{0, 1, 4, 5, 33, 300} {
		los, his := make([]Vec, n), make([]Vec, n)
		for i := range n {
			los[i] = Vec{r.Float64() * 10, r.Float64() * 3, r.Float64() * 8}
			his[i] = los[i].Add(Vec{r.Float64(), r.Float64(), r.Float64()})
			if i%5 == 4 {
				los[i], his[i] = los[i-1], his[i-1] // in one place with another
			}
		}
		tree := NewTree(n, func(i int) (lo, hi Vec) { return los[i], his[i] })
		for range 50 {
			lo := Vec{r.Float64() * 10, r.Float64() * 3, r.Float64() * 8}
			hi := lo.Add(Vec{r.Float64() * 2, r.Float64() * 2, r.Float64() * 2})
			asked := 0
			meets := func(l, h Vec) bool {
				asked++
				return l.X <= hi.X && lo.X <= h.X && l.Y <= hi.Y && lo.Y <= h.Y && l.Z <= hi.Z && lo.Z <= h.Z
			}
			var got, want []int
			tree.Each(meets, func(i int) {
				if meets(los[i], his[i]) {
					got = append(got, i)
				}
			})
			if n == 300 && asked > n {
				t.Errorf("%d boxes were looked at of %d", asked, n)
			}
			for i := range n {
				if meets(los[i], his[i]) {
					want = append(want, i)
				}
			}
			if slices.Sort(got); !slices.Equal(got, want) {
				t.Fatalf("of %d boxes %v are near, and %v were found", n, want, got)
			}
		}
	}
}
