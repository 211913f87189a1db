package sight

import (
	"math"
	"math/rand/v2"
	"testing"

	"boothmock/internal/geom"
)

const inch = 0.0254

// wall is the rectangle x0..x1 by y0..y1, in inches, of the plane z = 0, facing +z.
func wall(x0, y0, x1, y1 float64) geom.Polygon {
	return geom.Rect(geom.World, x0*inch, y0*inch, x1*inch, y1*inch)
}

func at(x, y, z float64) geom.Vec { return geom.Vec{X: x * inch, Y: y * inch, Z: z * inch} }

func box(x0, y0, z0, x1, y1, z1 float64) geom.Convex {
	return geom.Box(geom.World, at(x0, y0, z0), at(x1, y1, z1))
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}

// The rows follow from similar triangles (derived, exact): a wall at z = 0, the eye 120 in before it. Thin things are
// as thin as makes the side that casts the shadow plain.
var occlusion = []struct {
	name   string
	eye    geom.Vec
	target geom.Polygon
	solid  geom.Convex
	want   float64
}{
	{"1 in pole halfway, work 24 wide", at(0, 60, 120), wall(-12, 48, 12, 72), box(-.5, 0, 60, .5, 120, 60), 22. / 24},
	{"8 in obstacle halfway", at(0, 60, 120), wall(-12, 48, 12, 72), box(-4, 0, 60, 4, 120, 60), 1. / 3},
	{"18 in person at 48, work 60 wide", at(0, 60, 120), wall(-30, 40, 30, 80), box(-9, 0, 72, 9, 200, 72), 1. / 4},
	{"18 in person at 48, work 36 wide", at(0, 60, 120), wall(-18, 40, 18, 80), box(-9, 0, 72, 9, 200, 72), 0},
	{"obstacle x 6..12 at 80", at(0, 60, 120), wall(-12, 48, 12, 72), box(6, 0, 40, 12, 120, 40), 21. / 24},
	{"12 x 12 square halfway, work 36 x 48", at(0, 60, 120), wall(-18, 36, 18, 84), box(-6, 54, 60, 6, 66, 60), 2. / 3},
	{"table top 29, far edge at 96, eye 60", at(0, 60, 120), wall(-12, 18, 12, 42), box(-60, 0, 24, 60, 29, 54), 0.864583333333333},
	{"same table, wheelchair eye 47", at(0, 47, 120), wall(-12, 18, 12, 42), box(-60, 0, 24, 60, 29, 54), 0.729166666666667},
	{"same table, child's eye 41", at(0, 41, 120), wall(-12, 18, 12, 42), box(-60, 0, 24, 60, 29, 54), 2. / 3},
	{"same table, eye 24 below its top: the near edge at 66 governs", at(0, 24, 120), wall(-12, 18, 12, 42), box(-60, 0, 24, 60, 29, 54), 0.371212121212121},
}

func TestOcclusionBySimilarTriangles(t *testing.T) {
	var g Gaze
	for _, c := range occlusion {
		s := g.See(c.eye, c.target, []Solid{NewSolid(c.solid, 3)}, -1)
		near(t, c.name, s.Visible, c.want, 1e-12)
		if len(s.Hidden) != 1 || s.Hidden[0].Owner != 3 {
			t.Errorf("%s: hidden by %v, want owner 3 alone", c.name, s.Hidden)
			continue
		}
		near(t, c.name+": hidden", s.Hidden[0].Part, 1-c.want, 1e-12)
	}
}

// Solid angles: the triangle and its 1/8 of the sphere stand on the page of the R package SolidAngleR (robustecologies
// .github.io/SolidAngleR/reference/solid_angle_3d.html); the triangle with sides of one radian is OEIS A243710; the
// corner rectangle is Howell's configuration B-106 (0.0836, as cited by fchart.com). The others are derived, from the
// formula of Van Oosterom and Strackee.
func TestSolidAngle(t *testing.T) {
	side := func() geom.Polygon { // three directions, each one radian from the others
		r := math.Acos(math.Sqrt((1 + 2*math.Cos(1)) / 3)) // their angle from the axis
		var p geom.Polygon
		for k := range 3 {
			s, c := math.Sincos(2 * math.Pi * float64(k) / 3)
			p = append(p, geom.Vec{X: math.Sin(r) * c, Y: -math.Sin(r) * s, Z: math.Cos(r)})
		}
		return p
	}()
	for _, c := range []struct {
		name   string
		eye    geom.Vec
		target geom.Polygon
		want   float64
		tol    float64
	}{
		{"an eighth of the sphere (SolidAngleR)", geom.Vec{}, geom.Polygon{{Z: 1}, {Y: 1}, {X: 1}}, 4 * math.Pi * 0.125, 1e-12},
		{"sides of one radian (OEIS A243710)", geom.Vec{}, side, 0.4955948957339647506988579129, 1e-12},
		{"corner rectangle 1 x 2 at 0.5 (Howell B-106)", geom.Vec{Z: .5}, geom.Rect(geom.World, 0, 0, 1, 2), 4 * math.Pi * 0.0836, 4 * math.Pi * 5e-5},
		{"the same, derived", geom.Vec{Z: .5}, geom.Rect(geom.World, 0, 0, 1, 2), 1.05060044, 1e-8},
		{"face of a cube, derived", geom.Vec{Z: 1}, geom.Rect(geom.World, -1, -1, 1, 1), 4 * math.Pi / 6, 1e-12},
		{"corner 1 x 1 at 1, derived", geom.Vec{Z: 1}, geom.Rect(geom.World, 0, 0, 1, 1), math.Pi / 6, 1e-12},
		{"24 x 36 in at 60 in, derived", at(0, 0, 60), wall(-12, -18, 12, 18), 0.225533707, 1e-9},
		{"24 x 36 in at 120 in, derived", at(0, 0, 120), wall(-12, -18, 12, 18), 0.059043851, 1e-9},
		{"x 12..36, y -6..30 in at 60 in, derived", at(0, 0, 60), wall(12, -6, 36, 30), 0.176052116, 1e-9},
	} {
		var g Gaze
		s := g.See(c.eye, c.target, nil, -1)
		near(t, c.name, s.SolidAngle, c.want, c.tol)
		near(t, c.name+": all of it is seen", s.Visible, 1, 0)
	}
	var g Gaze
	tall := g.See(at(36, 0, 120), wall(-12, -18, 12, 18), nil, -1).SolidAngle
	wide := g.See(at(36, 0, 120), wall(-18, -12, 18, 12), nil, -1).SolidAngle
	if math.Abs(tall-0.052048213) > 1e-9 && math.Abs(wide-0.052048213) > 1e-9 {
		t.Errorf("24 x 36 in, 36 in to the side at 120 in: got %.9f or %.9f, want 0.052048213 (derived)", tall, wide)
	}
}

// A solid that crosses its target's middle leaves two pieces whose angles add up.
func TestSolidAngleOfPieces(t *testing.T) {
	var g Gaze
	eye, target := at(0, 60, 120), wall(-12, 48, 12, 72)
	s := g.See(eye, target, []Solid{NewSolid(box(-.5, 0, 60, .5, 120, 60), 0)}, -1)
	sum := wall(-12, 48, -1, 72).SolidAngle(eye) + wall(1, 48, 12, 72).SolidAngle(eye)
	near(t, "two strips beside a pole", s.SolidAngle, sum, 1e-13)
	area := 0.0
	for _, p := range g.Pieces() {
		area += p.Area()
		if p.Normal().Dot(target.Normal()) < 0.999999 {
			t.Errorf("piece %v does not face as its target does", p)
		}
	}
	near(t, "area of the pieces", area, 22*24*inch*inch, 1e-14)
}

func TestTurned(t *testing.T) {
	var g Gaze
	target := geom.Rect(geom.World, -1, -1, 1, 1)
	for _, c := range []struct {
		eye             geom.Vec
		turned, visible float64
	}{
		{geom.Vec{Z: 2}, math.Pi / 2, 1},
		{geom.Vec{X: 2, Z: 2}, math.Pi / 4, 1},
		{geom.Vec{X: 3}, 0, 0},
		{geom.Vec{X: .5, Y: .2}, 0, 0},
		{geom.Vec{Y: 1, Z: -1}, -math.Pi / 4, 0},
		{geom.Vec{}, 0, 0},
	} {
		s := g.See(c.eye, target, nil, -1)
		near(t, "turned", s.Turned, c.turned, 1e-12)
		near(t, "visible", s.Visible, c.visible, 0)
	}
}

// The places that a projection of corners has trouble with.
func TestEyeAnywhere(t *testing.T) {
	eye := geom.Vec{Y: 1, Z: 2}
	target := geom.Rect(geom.World, -1, 0, 1, 2)
	world := func(x0, y0, z0, x1, y1, z1 float64) geom.Convex {
		return geom.Box(geom.World, geom.Vec{X: x0, Y: y0, Z: z0}, geom.Vec{X: x1, Y: y1, Z: z1})
	}
	for _, c := range []struct {
		name  string
		solid geom.Convex
		want  float64
	}{
		{"solid holds the eye", world(-.1, .9, 1.9, .1, 1.1, 2.1), 0},
		{"eye on its face, solid before it", world(-5, -5, 1.5, 5, 5, 2), 0},
		{"eye on its face, solid behind it", world(-5, -5, 2, 5, 5, 3), 1},
		{"eye on its side, half the world hidden", world(0, -5, 1, 5, 5, 3), .5},
		{"eye on its edge, a quarter hidden", world(0, 1, -1, 5, 5, 3), .75},
		{"beside the eye and behind it: its front edge points at the target's edge", world(.5, -5, 1, 2, 5, 9), 1},
		{"the same, nearer by half", world(.25, -5, 1, 2, 5, 9), .75},
		{"beam over the eye, from behind it to the wall", world(-9, 1.5, 0, 9, 1.6, 9), .75},
		{"through the wall: above its top the wall is seen", world(-5, -5, -3, 5, .5, 1), .75},
		{"slab through the target's plane", world(-.5, -9, -1, .5, 9, 1e-8), .5},
		{"coplanar neighbour over the target hides nothing", world(-.5, .5, -1, .5, 1.5, 0), 1},
		{"coplanar neighbour beside it", world(1, 0, -1, 3, 2, 0), 1},
		{"all behind the target", world(-9, -9, -3, 9, 9, -1), 1},
		{"all behind the eye", world(-9, -9, 2.5, 9, 9, 3), 1},
		{"level with the eye, but no more", world(1, .9, 2, 3, 1.1, 3), 1},
		{"no thickness, seen from its edge", world(-9, 1, 0, 9, 1, 1), 1},
		{"no thickness, square on", world(-.25, .75, 1, .25, 1.25, 1), .75},
		{"edges that point at the eye", world(-.25, 1, .5, 0, 1.25, 1), 1 - .25/4},
	} {
		var g Gaze
		s := g.See(eye, target, []Solid{NewSolid(c.solid, 0)}, -1)
		near(t, c.name, s.Visible, c.want, 1e-8)
		hidden := 0.0
		for _, h := range s.Hidden {
			hidden += h.Part
		}
		near(t, c.name+": parts", s.Visible+hidden, 1, 1e-12)
	}
}

func TestNearestIsToBlame(t *testing.T) {
	front, far := NewSolid(box(-4, 0, 80, 4, 120, 81), 7), NewSolid(box(-8, 0, 40, 8, 120, 41), 2)
	eye, target := at(0, 60, 120), wall(-24, 48, 24, 72)
	for _, solids := range [][]Solid{{front, far}, {far, front}} {
		var g Gaze
		s := g.See(eye, target, solids, -1)
		// 4 in at 39 in (its far side is narrower than its near side) and 8 in at 79 in: 2*4*120/39 and the same of 8.
		a, b := 2*4*120/39./48, 2*8*120/79./48
		if len(s.Hidden) != 1 || s.Hidden[0].Owner != 7 || a < b {
			t.Fatalf("the near one covers the far one's shadow: got %v, want owner 7 alone", s.Hidden)
		}
		near(t, "near", s.Hidden[0].Part, a, 1e-12)
		skipped := g.See(eye, target, solids, 7)
		near(t, "the far one alone", skipped.Hidden[0].Part, b, 1e-12)
	}
	// Two of the same owner are one entry; equal shares go by the owner's number.
	l, m, r := NewSolid(box(-10, 0, 60, -8, 120, 61), 9), NewSolid(box(-1, 0, 60, 1, 120, 61), 4), NewSolid(box(8, 0, 60, 10, 120, 61), 9)
	var g Gaze
	s := g.See(eye, wall(-30, 48, 30, 72), []Solid{l, m, r}, -1)
	if len(s.Hidden) != 2 || s.Hidden[0].Owner != 9 || s.Hidden[1].Owner != 4 {
		t.Errorf("got %v, want owner 9 with two posts, then owner 4", s.Hidden)
	}
}

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
		want := g.See(eye, target, front, -1)
		far.Look(eye, directions, front, -1)
		area := 0.0
		far.Each(func(p []geom.Vec, by int) {
			if by < 0 {
				area += geom.Polygon(p).Area()
			}
		})
		near(t, "visible", area/target.Area(), want.Visible, 1e-12)
	}
}

func TestVeilComesLast(t *testing.T) {
	veil, post := NewSolid(box(-20, 0, 80, 20, 120, 81), 0), NewSolid(box(-2, 0, 40, 2, 120, 41), 1)
	veil.Veil = true
	var g Gaze
	s := g.See(at(0, 60, 120), wall(-24, 48, 24, 72), []Solid{veil, post}, -1)
	if len(s.Hidden) != 2 || s.Hidden[1].Owner != 1 {
		t.Fatalf("got %v, want the veil and, where it stands, the post behind it", s.Hidden)
	}
	near(t, "post", s.Hidden[1].Part, 2*2*120/79./48, 1e-12)
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
	b.ReportMetric(float64(len(g.seen.pieces)), "pieces")
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
	b.ReportMetric(float64(len(g.seen.pieces)), "pieces")
}
