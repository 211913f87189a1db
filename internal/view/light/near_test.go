package light

import (
	"math"
	"math/rand/v2"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
)

// What the trees find is what asking every solid finds.
func TestTreesPassNothingOver(t *testing.T) {
	r := newRoom(stall(), eyes(stall()), nothing)
	r.settle()
	g := newGatherer(r)
	all := make([]int, len(r.solids))
	for i := range all {
		all[i] = i
	}
	random := rand.New(rand.NewPCG(41, 42))
	span := func(lo, hi float64) float64 { return lo + random.Float64()*(hi-lo) }
	place := func() geom.Vec { return geom.Vec{X: span(-2, 2), Y: span(0, 2.5), Z: span(-3.5, 1)} }
	stops, few := 0, 0
	for range 2000 {
		a, b := place(), place()
		if random.IntN(4) == 0 {
			b.Y = a.Y
		}
		want := false
		for i := range r.solids {
			want = want || r.solids[i].Stops(a, b)
		}
		if want {
			stops++
		}
		if g.stopped(a, b) != want {
			t.Fatalf("from %v to %v: stopped is not %v", a, b, want)
		}
		for _, far := range []float64{0, 0.3} {
			found := map[int]bool{}
			for _, i := range r.near(a, far, nil) {
				found[i] = true
			}
			for i := range r.solids {
				if lo, hi := r.solids[i].Bounds(); inside(a, lo, hi, far) && !found[i] {
					t.Fatalf("solid %d at %v is passed over", i, a)
				}
			}
		}

		n := b.Sub(a).Unit()
		g.arrive(a, n, -1)
		if len(g.which) < len(all) {
			few++
		}
		f := facing(n)
		front := geom.Rect(geom.Frame{Origin: n, X: f.X, Y: f.Y.Neg(), Z: n.Neg()}, -1, -1, 1, 1)
		pieces := func(which []int) (at []geom.Vec, by []int) {
			gaze := sight.Gaze{Least: slight}
			gaze.Look(a, front, r.solids, which)
			gaze.Each(func(p []geom.Vec, k int) { at, by = append(at, p...), append(by, k) })
			return at, by
		}
		p, by := pieces(g.which)
		q, want2 := pieces(all)
		if len(p) != len(q) || len(by) != len(want2) {
			t.Fatalf("from %v along %v: %d pieces instead of %d", a, n, len(by), len(want2))
		}
		for i := range p {
			if p[i] != q[i] {
				t.Fatalf("from %v along %v: %v instead of %v", a, n, p[i], q[i])
			}
		}
	}
	if stops < 100 || few < 100 {
		t.Errorf("only %d lines are stopped and %d times a solid is passed over: this tries little", stops, few)
	}
}

// What is passed over as too small takes little of the light, wherever it is: also a long thing close before the surface and far to both
// sides of the point, whose middle's distance says little.
func TestLittleIsPassedOver(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 20))
	n := geom.Vec{Z: 1}
	f := facing(n)
	front := geom.Rect(geom.Frame{Origin: n, X: f.X, Y: f.Y.Neg(), Z: n.Neg()}, -reach, -reach, reach, reach)
	share := func(s sight.Solid, least float64) (sum float64) {
		gaze := sight.Gaze{Least: least}
		gaze.Look(geom.Vec{}, front, []sight.Solid{s}, []int{0})
		gaze.Each(func(p []geom.Vec, by int) {
			if by == 0 {
				sum += ring(p).factor(n)
			}
		})
		return sum
	}
	over, most := 0, 0.0
	for range 20000 {
		size := func() float64 { return 0.002 * math.Pow(1500, rng.Float64()) } // 2 mm to 3 m
		half := geom.Vec{X: size() / 2, Y: size() / 2, Z: size() / 2}
		c := geom.Vec{X: 4*rng.Float64() - 2, Y: 4*rng.Float64() - 2, Z: half.Z + 0.005*math.Pow(400, rng.Float64())}
		s := sight.NewSolid(geom.Box(geom.World, c.Sub(half), c.Add(half)), 0)
		if share(s, slight) == 0 {
			over++
			most = max(most, share(s, 0))
		}
	}
	if most > 2*slight || over < 5000 { // a plate looks twice as large square on as over all directions
		t.Errorf("of what is passed over, %d things, one takes %.4f of the light", over, most)
	}
}
