package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Two boxes on one line, by hand: one of 2 m from 0 meets one of 1 m from 5 when it is moved by 3 to 6 m.
func TestMeetingByHand(t *testing.T) {
	a, b := Box(World, Vec{}, Vec{2, 1, 1}), Box(World, Vec{5, 0, 0}, Vec{6, 1, 1})
	for _, c := range []struct {
		d              Vec
		give, from, to float64
	}{
		{Vec{1, 0, 0}, 0, 3, 6}, {Vec{-1, 0, 0}, 0, -6, -3}, {Vec{1, 0, 0}, 0.25, 3.25, 5.75}, {Vec{1, 0, 0}, -0.25, 2.75, 6.25},
	} {
		from, to := Meeting(Map(a), Map(b), c.d, c.give)
		near(t, "from", from, c.from, 1e-12)
		near(t, "to", to, c.to, 1e-12)
	}
	for _, d := range []Vec{{0, 1, 0}, {0, 0, 1}, Vec{1, 1, 0}.Unit()} {
		if from, to := Meeting(Map(a), Map(b), d, 0); from < to {
			t.Errorf("along %v they meet from %v to %v m", d, from, to)
		}
	}
}

// Just outside of the distances at which two solids meet they are apart, and just inside they reach into each other;
// what is told is held against Overlap, which asks without moving.
func TestMeetingAgreesWithOverlap(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	span := func(lo, hi float64) float64 { return lo + r.Float64()*(hi-lo) }
	solid := func() Convex {
		f := World.Moved(Vec{span(-1, 1), span(-1, 1), span(-1, 1)}).Turned(span(0, 7)).Tilted(span(-1, 1))
		if r.IntN(2) == 0 {
			return Box(f, Vec{}, Vec{span(0.05, 1), span(0.05, 1), span(0.05, 1)})
		}
		return Drum(f, 3+r.IntN(6), 0, 0.3, 0.2, span(0.1, 1), 0.6, 0.4)
	}
	moved := func(c Convex, by Vec) Convex { return World.Moved(by).Solid(c) }
	met := 0
	for range 2000 {
		a, b := solid(), solid()
		d := Vec{span(-1, 1), span(-1, 1), span(-1, 1)}.Unit()
		from, to := Meeting(Map(a), Map(b), d, 0)
		if from >= to {
			for k := range 20 {
				if at := float64(k)/5 - 2; Overlap(Map(moved(a, d.Mul(at))), Map(b)) > 1e-9 {
					t.Fatalf("they meet %v m on, and are said to pass each other", at)
				}
			}
			continue
		}
		met++
		const step = 1e-7
		for _, at := range []float64{from - step, to + step} {
			if o := Overlap(Map(moved(a, d.Mul(at))), Map(b)); o > 1e-12 {
				t.Errorf("at %v, outside of %v to %v, they reach %v m into each other", at, from, to, o)
			}
		}
		if mid := (from + to) / 2; !(Overlap(Map(moved(a, d.Mul(mid))), Map(b)) > 0) || math.IsInf(mid, 0) {
			t.Errorf("half way between %v and %v they do not meet", from, to)
		}
	}
	if met < 500 {
		t.Errorf("only %d couples meet: that proves little", met)
	}
}

// The axes of couples of edges whose arcs cross are all that there are: all couples of edges, as the separating axis theorem has
// them, tell no other depth. Boxes stand square and turned, so that arcs touch, and drums have many sides.
func TestOverlapAgainstAllCouplesOfEdges(t *testing.T) {
	plain := func(a, b Convex) float64 {
		depth := math.Inf(1)
		along := func(axis Vec) {
			if l := axis.Len(); l > 1e-9 {
				alo, ahi := reach(a, axis.Mul(1/l))
				blo, bhi := reach(b, axis.Mul(1/l))
				depth = min(depth, ahi-blo, bhi-alo)
			}
		}
		for _, c := range []Convex{a, b} {
			for i := range c.Faces {
				along(c.Face(i).Normal())
			}
		}
		for _, e := range a.Edges {
			for _, f := range b.Edges {
				along(a.Corners[e[1]].Sub(a.Corners[e[0]]).Unit().Cross(b.Corners[f[1]].Sub(b.Corners[f[0]]).Unit()))
			}
		}
		return depth
	}
	r := rand.New(rand.NewPCG(5, 6))
	span := func(lo, hi float64) float64 { return lo + r.Float64()*(hi-lo) }
	solid := func() Convex {
		f := World.Moved(Vec{span(-0.5, 0.5), span(-0.5, 0.5), span(-0.5, 0.5)})
		switch r.IntN(3) {
		case 0:
			f = f.Turned(span(0, 7))
		case 1:
			f = f.Turned(span(0, 7)).Tilted(span(-1, 1))
		}
		if r.IntN(2) == 0 {
			return Box(f, Vec{}, Vec{span(0.05, 1), span(0.05, 1), span(0.05, 1)})
		}
		return Drum(f, 3+r.IntN(12), 0, 0.3, 0.2, span(0.1, 1), 0.6, 0.4)
	}
	met := 0
	for range 1000 {
		a, b := solid(), solid()
		got, want := Overlap(Map(a), Map(b)), plain(a, b)
		if want > 0 {
			met++
			near(t, "overlap", got, want, 1e-12)
		} else if got > 0 {
			t.Errorf("apart by %v, and said to overlap by %v", -want, got)
		}
	}
	if met < 300 {
		t.Errorf("only %d couples meet: that proves little", met)
	}
}
