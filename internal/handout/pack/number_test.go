package pack

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// Of 1 to 60 hooks crowded on a wall no number lies on another or on a hook; a hook with room about it has its number at its
// right, or at its left where its work ends.
func TestNumbersOfHooksDoNotMerge(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for n := 1; n <= 60; n++ {
		type spot struct{ x, y float64 }
		var spots []spot
		var taken []patch
		for range n {
			s := spot{r.Float64() * 150, r.Float64() * 40}
			spots = append(spots, s)
			taken = append(taken, patch{s.x - 1.2, s.x + 1.2, s.y - 1.2, s.y + 1.2})
		}
		for i, s := range spots {
			p := numbered(s.x, s.y, 1.6+1.6*float64(i/9), s.x+20, taken)
			if slices.ContainsFunc(taken, p.meets) {
				t.Errorf("of %d hooks, the number of the one at %+v is at %+v, on something else", n, s, p)
			}
			taken = append(taken, p)
		}
	}
	if p := numbered(10, 10, 2, 100, nil); p.x0 != 11.8 || p.y1 != 11.2 {
		t.Errorf("with room the number is at %+v", p)
	}
	if p := numbered(10, 10, 2, 12, nil); p.x1 != 8.2 {
		t.Errorf("at a work's right edge the number is at %+v", p)
	}
}
