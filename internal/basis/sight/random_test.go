package sight

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"boothmock/internal/basis/geom"
)

// scene is a random target, eye and solids; every solid passes geom's own check.
func scene(t testing.TB, r *rand.Rand, n int) (geom.Vec, geom.Polygon, []Solid) {
	span := func(lo, hi float64) float64 { return lo + r.Float64()*(hi-lo) }
	w, h := span(.3, 1.5), span(.3, 1.5)
	var target geom.Polygon
	if k := r.IntN(4); k == 0 {
		for i := range 5 {
			s, c := math.Sincos(2 * math.Pi * float64(i) / 5)
			target = append(target, geom.Vec{X: w * c, Y: h * s})
		}
	} else {
		target = geom.Rect(geom.World, -w, -h, w, h)
	}
	eye := geom.Vec{X: span(-3, 3), Y: span(-3, 3), Z: span(.2, 4)}
	var solids []Solid
	for i := range n {
		f := geom.World.Moved(geom.Vec{X: span(-2, 2), Y: span(-2, 2), Z: span(-.5, 3.5)})
		if r.IntN(3) > 0 {
			f = f.Turned(span(0, 7)).Tilted(span(0, 7))
		}
		var c geom.Convex
		switch r.IntN(3) {
		case 0:
			c = geom.Box(f, geom.Vec{X: -span(.01, .5), Y: -span(.01, .5), Z: -span(.01, .5)}, geom.Vec{X: .1, Y: .1, Z: .1})
		case 1:
			x, z, taper := span(.02, .3), span(.02, .3), span(.2, 2) // one taper both ways keeps the sides flat
			c = geom.Drum(f, 3+r.IntN(9), 0, x, z, span(.1, 1.5), x*taper, z*taper)
		default:
			c = geom.Rod(f.Origin, f.At(geom.Vec{X: span(-1, 1), Y: span(-1, 1), Z: span(.1, 1)}), span(.01, .1), 5)
		}
		if err := c.Check(); err != nil {
			t.Fatal(err)
		}
		solids = append(solids, NewSolid(c, i/2))
	}
	return eye, target, solids
}

func TestPromises(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var g, h Gaze
	partly := 0
	for k := range 500 {
		eye, target, solids := scene(t, r, 1+r.IntN(12))
		s := g.See(eye, target, solids, -1)
		if s.Visible > .01 && s.Visible < .99 {
			partly++
		}
		sum := s.Visible
		for i, x := range s.Hidden {
			sum += x.Part
			if i > 0 && x.Part > s.Hidden[i-1].Part {
				t.Errorf("scene %d: shares out of order: %v", k, s.Hidden)
			}
		}
		near(t, "parts add up", sum, 1, 1e-11)

		// Fewer solids never show less.
		less := h.See(eye, target, solids[1:], -1)
		if less.Visible < s.Visible-1e-11 {
			t.Errorf("scene %d: %.12f is seen, and %.12f without one of the solids", k, s.Visible, less.Visible)
		}

		// The order of the list is no matter, to the last bit.
		mixed := append([]Solid(nil), solids...)
		r.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		m := h.See(eye, target, mixed, -1)
		if m.Visible != s.Visible || len(m.Hidden) != len(s.Hidden) {
			t.Fatalf("scene %d: other order, other answer: %v, %v", k, s, m)
		}
		for i := range m.Hidden {
			if m.Hidden[i] != s.Hidden[i] {
				t.Fatalf("scene %d: other order, other answer: %v, %v", k, s, m)
			}
		}

		// The set-up as a whole may be turned any way.
		f := geom.World.Moved(geom.Vec{X: 3, Y: -1, Z: 2}).Turned(r.Float64() * 7).Tilted(r.Float64() * 7).Turned(r.Float64() * 7)
		turned := make(geom.Polygon, len(target))
		for i, p := range target {
			turned[i] = f.At(p)
		}
		var moved []Solid
		for _, s := range solids {
			c := geom.Convex{Edges: s.Convex.Edges, Faces: s.Convex.Faces}
			for _, p := range s.Convex.Corners {
				c.Corners = append(c.Corners, f.At(p))
			}
			moved = append(moved, NewSolid(c, s.Owner))
		}
		o := h.See(f.At(eye), turned, moved, -1)
		near(t, "turned set-up: visible", o.Visible, s.Visible, 1e-9)
		near(t, "turned set-up: solid angle", o.SolidAngle, s.SolidAngle, 1e-9)
		near(t, "turned set-up: angle", o.Turned, s.Turned, 1e-9)
	}
	if partly < 150 {
		t.Errorf("only %d of 500 scenes are partly hidden: they prove little", partly)
	}
}

// TestAgainstCountedPoints is the other way to know: n x n points spread over the target, each joined to the eye by a line
// that is cut by every solid's faces in turn. Counting goes wrong only in the cells that an outline crosses. Up to six
// shadows have outlines of about 4n cells each, an error of up to half a cell at random in each, so its standard deviation
// is about sqrt(24n)/3.5 cells of n*n, which is 0.0014 for n = 100; the limit is four times that.
func TestAgainstCountedPoints(t *testing.T) {
	const n, limit = 100, 0.0056
	r := rand.New(rand.NewPCG(3, 4))
	var g Gaze
	worst := 0.0
	for k := range 250 {
		eye, target, solids := scene(t, r, 1+r.IntN(6))
		got := g.See(eye, target, solids, -1).Visible
		lo, hi := geom.Bounds(target)
		seen, all := 0, 0
		var faces [][]geom.Polygon
		for _, s := range solids {
			var fs []geom.Polygon
			for i := range s.Convex.Faces {
				fs = append(fs, s.Convex.Face(i))
			}
			faces = append(faces, fs)
		}
		for i := range n {
			for j := range n {
				p := geom.Vec{X: lo.X + (hi.X-lo.X)*(float64(i)+.5)/n, Y: lo.Y + (hi.Y-lo.Y)*(float64(j)+.5)/n}
				if !within(p, target) {
					continue
				}
				all++
				blocked := false
				for _, fs := range faces {
					blocked = blocked || stabs(fs, eye, p)
				}
				if !blocked {
					seen++
				}
			}
		}
		d := math.Abs(got - float64(seen)/float64(all))
		worst = max(worst, d)
		if d > limit {
			t.Errorf("scene %d: %.6f by the pieces, %.6f by %d points", k, got, float64(seen)/float64(all), all)
		}
	}
	t.Logf("greatest difference in 250 scenes: %.5f (limit %.5f)", worst, limit)
}

func within(p geom.Vec, target geom.Polygon) bool {
	for i, a := range target {
		if target[(i+1)%len(target)].Sub(a).Cross(p.Sub(a)).Z < 0 {
			return false
		}
	}
	return true
}

// stabs reports whether the line from a to b passes through the solid: the stretch of it behind every face is not empty.
func stabs(faces []geom.Polygon, a, b geom.Vec) bool {
	t0, t1 := 0.0, 1.0
	for _, p := range faces {
		n := p[1].Sub(p[0]).Cross(p[2].Sub(p[1]))
		da, db := n.Dot(a.Sub(p[0])), n.Dot(b.Sub(p[0]))
		switch {
		case da > 0 && db > 0:
			return false
		case da > 0:
			t0 = max(t0, da/(da-db))
		case db > 0:
			t1 = min(t1, da/(da-db))
		}
	}
	return t0 < t1
}

func TestLookAgreesWithSee(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	var g, far Gaze
	for range 200 {
		eye, target, solids := scene(t, r, 5)
		// All solids before the target's plane: then it is no matter that directions have no far end.
		var front []Solid
		directions := make(geom.Polygon, len(target))
		for i, p := range target {
			directions[i] = p.Sub(eye)
		}
		for _, s := range solids {
			if lo, _ := s.Convex.Bounds(); lo.Z > 0 {
				front = append(front, s)
			}
		}
		which := make([]int, len(front))
		for i := range which {
			which[i] = i
		}
		want := g.See(eye, target, front, -1)
		far.Look(eye, directions, front, which)
		area := 0.0
		far.Each(func(p []geom.Vec, by int) {
			if by < 0 {
				area += geom.Polygon(p).Area()
			}
		})
		near(t, "visible", area/target.Area(), want.Visible, 1e-12)
	}
}

func TestLookingAllocatesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	eye, target, solids := scene(t, r, 30)
	var g Gaze
	g.See(eye, target, solids, -1)
	if n := testing.AllocsPerRun(100, func() { g.See(eye, target, solids, -1) }); n != 0 {
		t.Errorf("%v allocations a query, want none", n)
	}
}

// FuzzSee looks from and past anything: the parts always add up and are numbers.
func FuzzSee(f *testing.F) {
	f.Add(0.0, 1.6, 3.0, -.2, 0.0, 1.0, .2, 1.0, 1.5)
	f.Add(.2, 1.0, 1.5, -.2, 0.0, 1.0, .2, 1.0, 1.5)
	f.Add(0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0)
	f.Fuzz(func(t *testing.T, ex, ey, ez, x0, y0, z0, x1, y1, z1 float64) {
		for _, v := range []float64{ex, ey, ez, x0, y0, z0, x1, y1, z1} {
			if !(math.Abs(v) < 100) {
				t.Skip("no fair is as large")
			}
		}
		c := geom.Box(geom.World, geom.Vec{X: min(x0, x1), Y: min(y0, y1), Z: min(z0, z1)}, geom.Vec{X: max(x0, x1), Y: max(y0, y1), Z: max(z0, z1)})
		if c.Check() != nil {
			t.Skip("no solid")
		}
		var g Gaze
		s := g.See(geom.Vec{X: ex, Y: ey, Z: ez}, geom.Rect(geom.World, -1, 0, 1, 2), []Solid{NewSolid(c, 0)}, -1)
		sum := s.Visible
		for _, h := range s.Hidden {
			sum += h.Part
		}
		if ez > level && !(math.Abs(sum-1) < 1e-9) || ez <= level && sum != 0 {
			t.Errorf("parts add up to %v: %+v", sum, s)
		}
		if !(s.Visible >= 0 && s.SolidAngle >= 0 && s.SolidAngle <= 2*math.Pi) {
			t.Errorf("no such sight: %+v", s)
		}
	})
}

// BenchmarkSee is a work on the back wall past 30 solids: posts, people, tables, works.
func BenchmarkSee(b *testing.B) {
	var solids []Solid
	for i := range 30 {
		x := -60 + float64(i%10)*13
		solids = append(solids, NewSolid(box(x, 0, 20+float64(i/10)*25, x+2+float64(i%3)*3, 40+float64(i%7)*6, 24+float64(i/10)*25), i))
	}
	eye, target := at(-5, 60, 120), wall(-20, 36, 20, 72)
	var g Gaze
	b.ReportAllocs()
	for b.Loop() {
		g.See(eye, target, solids, -1)
	}
	s := g.See(eye, target, solids, -1)
	b.ReportMetric(float64(len(s.Hidden)), "owners")
	b.ReportMetric(float64(len(g.seen)), "pieces")
}

// BenchmarkSeeRandom is the same among 30 turned boxes, drums and rods.
func BenchmarkSeeRandom(b *testing.B) {
	eye, target, solids := scene(b, rand.New(rand.NewPCG(7, 9)), 30)
	var g Gaze
	b.ReportAllocs()
	for b.Loop() {
		g.See(eye, target, solids, -1)
	}
	s := g.See(eye, target, solids, -1)
	b.ReportMetric(float64(len(s.Hidden)), "owners")
	b.ReportMetric(float64(len(g.seen)), "pieces")
}

// TestSeePast looks past a crowd and past the same solids one by one: the same answer to the last bit.
func TestSeePast(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 3))
	var g, h Gaze
	for k := range 200 {
		eye, target, solids := scene(t, r, r.IntN(60))
		skip := r.IntN(4) - 1
		want := g.See(eye, target, solids, skip)
		got := h.SeePast(eye, target, NewCrowd(solids), func(owner int) bool { return owner == skip })
		if got.Visible != want.Visible || got.SolidAngle != want.SolidAngle || got.Turned != want.Turned || !slices.Equal(got.Hidden, want.Hidden) {
			t.Fatalf("scene %d: %v past the crowd, %v past its solids", k, got, want)
		}
	}
	eye, target, solids := scene(t, r, 60)
	c, none := NewCrowd(solids), func(int) bool { return false }
	if n := testing.AllocsPerRun(20, func() { g.SeePast(eye, target, c, none) }); n > 0 {
		t.Errorf("looking past a crowd allocates %v times", n)
	}
}
