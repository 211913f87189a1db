package way

import (
	"math/rand/v2"
	"testing"
)

// The widest way is the same whether gaps with something in them are left out or not, and most of them are left out.
func TestOpenGapsAreEnough(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2))
	all, open := 0, 0
	for k := range 300 {
		var o []Obstacle
		for i := range 3 + r.IntN(40) {
			w, d := 0.02+0.6*r.Float64(), 0.02+0.6*r.Float64()
			if r.IntN(4) == 0 { // walls of things that touch
				w, d = 0.5, 0.1
			}
			s := turned(r.Float64()*4/in, r.Float64()*4/in, w/in, d/in, 30*float64(r.IntN(4)))
			if r.IntN(3) == 0 {
				s = Rect(Point{float64(i%6) * 0.5, float64(i/6) * 0.7}, Point{float64(i%6)*0.5 + w, float64(i/6)*0.7 + d})
			}
			o = append(o, Obstacle{Shape: s})
		}
		f, every := NewFloor(o), NewFloor(o)
		every.open = every.gaps
		all, open = all+len(f.gaps()), open+len(f.open())
		for range 20 {
			from, to := Point{5*r.Float64() - 0.5, 5*r.Float64() - 0.5}, Point{5*r.Float64() - 0.5, 5*r.Float64() - 0.5}
			if got, want := f.Widest(from, to), every.Widest(from, to); got != want {
				t.Fatalf("floor %d, from %v to %v: %+v without the gaps that have something in them, %+v with them", k, from, to, got, want)
			}
		}
	}
	if 2*open > all {
		t.Errorf("%d gaps of %d have nothing in them", open, all)
	}
	t.Logf("%d gaps of %d have nothing in them", open, all)
}
