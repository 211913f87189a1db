package sight

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
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
