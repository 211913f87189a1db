package sight

import (
	"math"
	"slices"
	"testing"

	"boothmock/internal/basis/geom"
)

// A slab of cloth 4 cm thick, 2 m wide and 2 m high.
var slab = NewSolid(geom.Box(geom.World, geom.Vec{}, geom.Vec{X: 2, Y: 2, Z: .04}), 1)

func TestWaysOut(t *testing.T) {
	type way struct {
		name      string
		p, toward geom.Vec
		want      geom.Vec
		in        bool
	}
	for _, c := range []way{
		{"ahead", geom.Vec{X: 1, Y: 1, Z: .03}, geom.Vec{Z: 1}, geom.Vec{Z: .011}, true},
		{"behind", geom.Vec{X: 1, Y: 1, Z: .03}, geom.Vec{Z: -1}, geom.Vec{Z: -.031}, true},
		{"the side of a fold, near the hem: through the front", geom.Vec{X: .05, Y: 1, Z: .02}, geom.Vec{X: -.8, Z: .6}, geom.Vec{Z: .021}, true},
		{"clear of it", geom.Vec{X: 1, Y: 1, Z: .05}, geom.Vec{Z: 1}, geom.Vec{}, false},
	} {
		got, in := slab.Leave(c.p, c.toward, .001)
		if in != c.in || got.Dist(c.want) > 1e-12 {
			t.Errorf("leaving %s: %v %v, want %v %v", c.name, got, in, c.want, c.in)
		}
	}
	// Within a margin of 1 cm of each face, inside and outside, one is led 1 cm clear of it; 2 cm away one is clear.
	for _, n := range []geom.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {Z: 1}, {Z: -1}} {
		face := geom.Vec{X: 1, Y: 1, Z: .02}.Add(geom.Vec{X: n.X, Y: n.Y, Z: .02 * n.Z})
		for _, deep := range []float64{-.005, .005, .02} {
			got, in := slab.Leave(face.Add(n.Mul(deep)), n, .01)
			if in != (deep < .01) || in && got.Dist(n.Mul(.01-deep)) > 1e-12 {
				t.Errorf("%v m past the face to %v: led by %v, %v", deep, n, got, in)
			}
		}
	}
	for _, c := range []way{
		{"by the near face", geom.Vec{X: 1, Y: 1, Z: .03}, geom.Vec{Z: 1}, geom.Vec{Z: .01}, true},
		{"not back", geom.Vec{X: 1, Y: 1, Z: .01}, geom.Vec{Z: 1}, geom.Vec{Z: .03}, true},
		{"sideways", geom.Vec{X: .001, Y: 1, Z: .02}, geom.Vec{Z: 1}, geom.Vec{X: -.001}, true},
	} {
		got, in := slab.Aside(c.p, c.toward, 0)
		if in != c.in || got.Dist(c.want) > 1e-12 {
			t.Errorf("aside %s: %v %v, want %v %v", c.name, got, in, c.want, c.in)
		}
	}
}

func TestStops(t *testing.T) {
	for _, c := range []struct {
		name string
		a, b geom.Vec
		want bool
	}{
		{"through", geom.Vec{X: 1, Y: 1, Z: -1}, geom.Vec{X: 1.2, Y: .8, Z: 1}, true},
		{"past its end", geom.Vec{X: 2.1, Y: 1, Z: -1}, geom.Vec{X: 2.1, Y: 1, Z: 1}, false},
		{"short of it", geom.Vec{X: 1, Y: 1, Z: 2}, geom.Vec{X: 1, Y: 1, Z: .05}, false},
		{"along its face", geom.Vec{X: -1, Y: 1, Z: .04}, geom.Vec{X: 3, Y: 1, Z: .04}, false},
		{"from inside", geom.Vec{X: 1, Y: 1, Z: .02}, geom.Vec{X: 1, Y: 1, Z: 1}, true},
	} {
		if slab.Stops(c.a, c.b) != c.want || slab.Stops(c.b, c.a) != c.want {
			t.Errorf("%s: want %v both ways", c.name, c.want)
		}
	}
}

// View factors. From afar: a convex body's shadow is on average a quarter of its skin (Cauchy 1841), so a cube of side a, d away straight
// ahead, fills 6a²/4 / πd²; one level with the surface comes out by a/2 only, and that part of d. Near: an endless strip w wide before a
// surface, g away, fills (sin α2 - sin α1)/2, which is w/2g for a narrow one (textbooks of radiation; Hottel's crossed strings), and a wall
// that comes out by h at most half of 1 - g/√(g²+h²).
func TestFills(t *testing.T) {
	cube := NewSolid(geom.Box(geom.World, geom.Vec{X: -.1, Y: -.1, Z: -.1}, geom.Vec{X: .1, Y: .1, Z: .1}), 0)
	strip := NewSolid(geom.Box(geom.World, geom.Vec{X: -50, Y: -.01, Z: -.001}, geom.Vec{X: 50, Y: .01, Z: .001}), 0)
	fence := NewSolid(geom.Box(geom.World, geom.Vec{X: -500, Y: -.3, Z: -.01}, geom.Vec{X: 500, Y: .3, Z: .01}), 0)
	for _, c := range []struct {
		name       string
		s          Solid
		p, n       geom.Vec
		share, far float64
		within     float64 // of the share
	}{
		{"a cube ahead", cube, geom.Vec{Z: -5}, geom.Vec{Z: 1}, 1.5 * .04 / (math.Pi * 25), 4.9, 1e-12},
		{"a cube beside", cube, geom.Vec{Z: -5}, geom.Vec{X: 1}, 1.5 * .04 / (math.Pi * 25) * .1 / 5, 4.9, 1e-12},
		{"a cube at a corner", cube, geom.Vec{X: 3.1, Y: 4.1}, geom.Vec{X: -1}, 1.5 * .04 / (math.Pi * (3.1*3.1 + 4.1*4.1)) * 3.2 / math.Hypot(3.1, 4.1), 5, 1e-12},
		{"a cube behind", cube, geom.Vec{Z: -5}, geom.Vec{Z: -1}, 0, 4.9, 0},
		{"a strip ahead, towards its end", strip, geom.Vec{X: -45, Z: -.501}, geom.Vec{Z: 1}, .02 / 2 / .5, .5, .02},
		{"a short strip ahead: w l / π g²", cube, geom.Vec{Z: -.1 - .0999}, geom.Vec{Z: 1}, .2 / 2 / .0999 * .2 / (.2 + math.Pi/2*.0999), .0999, 1},
		{"a fence beside, towards its end", fence, geom.Vec{X: -450, Y: -.3, Z: -.41}, geom.Vec{Y: 1}, (1 - .4/math.Hypot(.4, .6)) / 2, .4, 1e-9},
	} {
		share, far := c.s.Fills(c.p, c.n)
		if !(math.Abs(share-c.share) <= c.within*c.share) || math.Abs(far-c.far) > 1e-12 {
			t.Errorf("%s: fills %v, %v away, want %v and %v", c.name, share, far, c.share, c.far)
		}
		if least := c.share * 1.03; c.within <= .02 && (c.s.Counts(c.p, c.n, c.share*.97) != (share > 0) || share > 0 && c.s.Counts(c.p, c.n, least)) {
			t.Errorf("%s: counts at another share than it fills", c.name)
		}
	}
}

// What may hide a target is near: not what lies beside the view, behind the target or behind the eye, and nothing for an eye behind.
func TestNear(t *testing.T) {
	c := NewCrowd([]Solid{
		NewSolid(box(-5, 50, 60, 5, 70, 61), 1), NewSolid(box(200, 50, 60, 210, 70, 61), 2), NewSolid(box(-5, 50, -60, 5, 70, -59), 3), NewSolid(box(-5, 50, 160, 5, 70, 161), 4),
	}, NewScreen(geom.Wires{From: at(-5, 50, 30), Along: at(10, 0, 0), Step: at(0, 2, 0), Count: 9, Radius: .001}, 5), NewScreen(geom.Wires{From: at(-500, 50, 30), Along: at(10, 0, 0), Step: at(0, 2, 0), Count: 9, Radius: .001}, 6))
	for z, want := range map[float64][]int{120: {1, 5}, -120: nil, 0: nil} {
		var g Gaze
		var got []int
		g.Near(at(0, 60, z), wall(-12, 48, 12, 72), c, func(owner int) { got = append(got, owner) })
		if slices.Sort(got); !slices.Equal(slices.Compact(got), want) {
			t.Errorf("from %v in: %v, want %v", z, got, want)
		}
	}
}

// What just comes into the view from a side is near, however large it is.
func TestNearAtTheEdge(t *testing.T) {
	for _, b := range [][6]float64{{5.9, 0, 60, 500, 300, 61}, {-500, 0, 60, -5.9, 300, 61}, {-50, 65.9, 60, 50, 500, 61}, {-50, -500, 60, 50, 54.1, 61}} {
		for _, deep := range []float64{61, 119} { // thin, and up to the eye
			var g Gaze
			seen := false
			g.Near(at(0, 60, 120), wall(-12, 48, 12, 72), NewCrowd([]Solid{NewSolid(box(b[0], b[1], b[2], b[3], b[4], deep), 1)}), func(int) { seen = true })
			if !seen {
				t.Errorf("%v, up to %v in, is not near", b, deep)
			}
		}
		mesh := NewScreen(geom.Wires{From: at(b[0], b[1], 60), Along: at(b[3]-b[0], 0, 0), Step: at(0, (b[4]-b[1])/9, 0), Count: 10, Radius: .001}, 1)
		var g Gaze
		seen := false
		g.Near(at(0, 60, 120), wall(-12, 48, 12, 72), NewCrowd(nil, mesh), func(int) { seen = true })
		if !seen {
			t.Errorf("a mesh over %v is not near", b)
		}
	}
}

// What fills less of the view than the least that counts is passed over: a box of 4 x 4 in 60 in away fills about 16 / (60² π), times its
// mean shadow's 1 1/2.
func TestLeast(t *testing.T) {
	for least, want := range map[float64]float64{0: 1 - 64./576, 0.001: 1 - 64./576, 0.01: 1} {
		g := Gaze{Least: least}
		near(t, "past a box", g.See(at(0, 60, 120), wall(-12, 48, 12, 72), []Solid{NewSolid(box(-2, 58, 56, 2, 62, 60), 0)}, -1).Visible, want, 1e-9)
	}
}

// By hand: a wire of radius r aslant before a corner of the wall, halfway, p in off the line of sight to the middle, hides a triangle there.
// Its near side is seen at the angle atan(p/60) - asin(r/√(60²+p²)), so it meets the wall at 120 times the tangent of that.
func TestWireAcrossACorner(t *testing.T) {
	const r, p = 2, 14
	edge := 120 * math.Tan(math.Atan(p/60.)-math.Asin(r/math.Hypot(60, p)))
	leg := (36/math.Sqrt2 - edge) * math.Sqrt2
	crowd := NewCrowd(nil, NewScreen(geom.Wires{From: at(p/math.Sqrt2-100, 60+p/math.Sqrt2+100, 60), Along: at(200, -200, 0), Count: 1, Radius: r * inch}, 0))
	var g Gaze
	s := g.SeePast(at(0, 60, 120), wall(0, 48, 24, 72), crowd, func(int) bool { return false })
	near(t, "a corner", s.Visible, 1-leg*leg/2/(24*24), 1e-9)
}

// By hand: a wire of radius r that runs square to the wall, 10 in beside the eye, is seen as a strip between lines through the foot of the
// eye that are tan(asin(r/10)) steep, from where its near end is seen to where it meets the wall, at 10 in; what is of it behind the wall or
// beside the eye counts for nothing.
func TestWireThroughTheWall(t *testing.T) {
	const r = .1
	steep := math.Tan(math.Asin(r / 10))
	for _, c := range []struct{ near, far, outer float64 }{{60, 0, 20}, {60, -30, 20}, {150, -30, 24}, {30, -5, 40. / 3}, {-1, -30, 10}, {150, 125, 10}} {
		crowd := NewCrowd(nil, NewScreen(geom.Wires{From: at(10, 60, c.near), Along: at(0, 0, c.far-c.near), Count: 1, Radius: r * inch}, 0))
		var g Gaze
		s := g.SeePast(at(0, 60, 120), wall(0, 48, 24, 72), crowd, func(int) bool { return false })
		near(t, "a wire", s.Visible, 1-steep*(c.outer*c.outer-100)/(24*24), 1e-9)
	}
}

// A piece's circle is about the mean of its corners and reaches its furthest: of a right triangle of legs 3 and 6 that is (1, 2) and √17.
func TestWhole(t *testing.T) {
	g := Gaze{at: []point{{7, 7}, {0, 0}, {3, 0}, {0, 6}}}
	if pc := g.whole(1); math.Hypot(pc.centre.x-1, pc.centre.y-2) > 1e-12 || math.Abs(pc.radius-math.Sqrt(17)) > 1e-12 {
		t.Errorf("%+v", pc)
	}
}
