package sight

import (
	"math"
	"math/rand/v2"
	"testing"

	"boothmock/internal/basis/geom"
)

// Of solids that do not reach into each other, each has what the lines of sight meet first: as many of n x n points spread
// over the target, to within the four standard deviations of TestAgainstCountedPoints for two outlines more.
func TestBlameIsAlongTheLines(t *testing.T) {
	const n, limit = 80, 0.008
	r := rand.New(rand.NewPCG(13, 14))
	var g Gaze
	shared, worst := 0, 0.0
	for k := range 300 {
		eye, target, all := scene(t, r, 2+r.IntN(14))
		var solids []Solid
		for _, s := range all {
			apart := true
			for _, o := range solids {
				apart = apart && geom.Overlap(geom.Map(s.Convex), geom.Map(o.Convex)) < 0
			}
			if apart {
				s.Owner = len(solids)
				solids = append(solids, s)
			}
		}
		got := map[int]float64{}
		for _, h := range g.See(eye, target, solids, -1).Hidden {
			got[h.Owner] = h.Part
		}
		if len(got) > 1 {
			shared++
		}
		lo, hi := geom.Bounds(target)
		want, points := map[int]float64{}, 0
		for i := range n {
			for j := range n {
				p := geom.Vec{X: lo.X + (hi.X-lo.X)*(float64(i)+.5)/n, Y: lo.Y + (hi.Y-lo.Y)*(float64(j)+.5)/n}
				if !within(p, target) {
					continue
				}
				points++
				first, by := 1.0, -1
				for m := range solids {
					if s := &solids[m]; s.Stops(eye, p) {
						if at := max(0, s.enter(eye, p.Sub(eye))); at < first {
							first, by = at, m
						}
					}
				}
				if by >= 0 {
					want[by]++
				}
			}
		}
		for m := range solids {
			d := math.Abs(got[m] - want[m]/float64(points))
			if worst = max(worst, d); d > limit {
				t.Errorf("scene %d: solid %d hides %.4f, counted %.4f", k, m, got[m], want[m]/float64(points))
			}
		}
	}
	t.Logf("%d scenes with several hiders, up to %.4f off", shared, worst)
	if shared < 50 {
		t.Errorf("only %d of 300 scenes have several hiders: they prove little", shared)
	}
}

// A rail begins near the eye and ends behind a board. What both cover is the board's, though the rail comes nearer.
func TestNearestAlongTheLineNotByTheWhole(t *testing.T) {
	target, eye := wall(-40, 0, 40, 50), at(0, 25, 140)
	rail := NewSolid(geom.Rod(at(12, 25, 100), at(-30, 25, 30), 0.1, 6), 1)
	board := NewSolid(box(-20, 20, 75, -8, 30, 77), 2)
	var g Gaze
	alone := g.See(eye, target, []Solid{board}, -1).Hidden[0].Part
	if rail.distance(eye) > board.distance(eye) {
		t.Fatal("the rail is not nearer as a whole")
	}
	for _, h := range g.See(eye, target, []Solid{rail, board}, -1).Hidden {
		if h.Owner == 2 {
			near(t, "share of the board", h.Part, alone, 1e-12)
		}
	}
}

// distance from eye to the nearest point of the solid in metres; 0 inside.
func (s *Solid) distance(eye geom.Vec) float64 {
	inside := true
	for i, q := range s.planes {
		if h := q.above(eye); h > 0 {
			if inside = false; s.holds(eye.Sub(q.n.Mul(h)), i) {
				return h
			}
		}
	}
	if inside {
		return 0
	}
	best := math.Inf(1)
	for _, e := range s.edges {
		a, b := s.Convex.Corners[e.a].Sub(eye), s.Convex.Corners[e.b].Sub(eye)
		along := b.Sub(a)
		if l := along.Dot(along); l > 0 {
			a = a.Add(along.Mul(max(0, min(1, -a.Dot(along)/l))))
		}
		best = min(best, a.Dot(a))
	}
	return math.Sqrt(best)
}

// holds reports whether p, a point of face i's plane, is a point of the face.
func (s *Solid) holds(p geom.Vec, i int) bool {
	for k, q := range s.planes {
		if k != i && q.above(p) > 0 {
			return false
		}
	}
	return true
}
