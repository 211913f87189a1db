package way

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"boothmock/internal/basis/geom"
)

const in = 0.0254

// inches is a rectangle in inches.
func inches(x0, z0, x1, z1 float64) Shape {
	return Rect(Point{x0 * in, z0 * in}, Point{x1 * in, z1 * in})
}

func at(x, z float64) Point { return Point{x * in, z * in} }

// booth10 are the neighbours on three sides of a pitch 120 in wide and deep, its front open.
func booth10() []Shape {
	return []Shape{inches(-240, -120, -60, 0), inches(60, -120, 240, 0), inches(-60, -240, 60, -120)}
}

func floor(shapes ...Shape) *Floor {
	o := make([]Obstacle, len(shapes))
	for i, s := range shapes {
		o[i] = Obstacle{s, i}
	}
	return NewFloor(o)
}

// turned is a board of length l and depth d about (x, z), turned by degrees; all in inches.
func turned(x, z, l, d, degrees float64) Shape {
	s, c := math.Sincos(degrees * math.Pi / 180)
	var p []Point
	for _, q := range [4][2]float64{{-l, -d}, {l, -d}, {l, d}, {-l, d}} {
		u, v := q[0]/2, q[1]/2
		p = append(p, at(x+u*c-v*s, z+u*s+v*c))
	}
	return Hull(p)
}

func TestWidestByHand(t *testing.T) {
	aisle, inside := at(0, 70), at(0, -60)
	for _, c := range []struct {
		name string
		add  []Shape
		to   Point
		want float64 // inches
	}{
		// Booth arithmetic of published-values section 13 (derived).
		{"empty: a 120 in opening", nil, inside, 120},
		{"6 ft table across the front at one side leaves 48", []Shape{inches(-60, -30, 12, 0)}, inside, 48},
		{"6 ft table centred leaves 24 and 24", []Shape{inches(-36, -30, 36, 0)}, inside, 24},
		{"30 in deep table on a side wall leaves 90", []Shape{inches(-60, -96, -30, -24)}, at(15, -60), 90},
		// Worked here.
		{"two gaps in series: the narrower counts", []Shape{inches(-60, -20, 10, 0), inches(-20, -60, 60, -50)}, at(0, -90), 30 * math.Hypot(1, 1) / math.Sqrt2},
		{"two ways round an island: the wider counts", []Shape{inches(-25, -80, 20, -50)}, at(0, -100), 40},
		{"a pole in the opening", []Shape{inches(-10, -1, -8, 1)}, inside, 68},
		{"a pole in the aisle is in nobody's way", []Shape{inches(-10, 140, -8, 142)}, inside, 120},
		{"two tables that touch are one", []Shape{inches(-60, -30, 0, 0), inches(0, -30, 22, 0)}, inside, 38},
		{"two tables that overlap are one", []Shape{inches(-60, -30, 0, 0), inches(-10, -40, 22, -10)}, inside, 38},
		{"a wall right across: no way", []Shape{inches(-60, -10, 60, -8)}, inside, 0},
		{"a chain of three across: no way", []Shape{inches(-60, -10, -20, -8), inches(-22, -30, 30, -9), inches(28, -12, 60, -10)}, inside, 0},
		{"the place itself is tight", nil, at(0, -110), 20},
		{"a line as thin as a rope", []Shape{{at(-60, -5), at(20, -5)}}, inside, 40},
		{"a slanted table: its corner counts", []Shape{turned(-60, -70, 130, 2, 45)}, at(20, -80), 60 - (-60 + 65/math.Sqrt2 + 1/math.Sqrt2)},
	} {
		f := floor(append(booth10(), c.add...)...)
		got := f.Widest(aisle, c.to)
		if math.Abs(got.Width/in-c.want) > 0.001/in {
			t.Errorf("%s: %.3f in, want %.3f (between %d and %d)", c.name, got.Width/in, c.want, got.A, got.B)
		}
	}
}

func TestNothingNarrows(t *testing.T) {
	if g := floor().Widest(at(0, 0), at(9, 9)); !math.IsInf(g.Width, 1) {
		t.Errorf("an empty floor: %v", g)
	}
	if g := floor(inches(0, 0, 9, 9)).Widest(at(5, 5), at(99, 99)); g.Width != 0 {
		t.Errorf("from inside a table: %v", g)
	}
}

func TestNarrowestPlaceIsNamed(t *testing.T) {
	f := floor(append(booth10(), inches(-60, -30, 12, 0))...)
	g := f.Widest(at(0, 70), at(0, -60))
	if g.A != 1 || g.B != 3 {
		t.Errorf("between %d and %d, want the right neighbour 1 and the table 3", g.A, g.B)
	}
	if math.Abs(g.AtA.X-60*in) > 1e-12 || math.Abs(g.AtB.X-12*in) > 1e-12 || g.AtA.Z != g.AtB.Z {
		t.Errorf("at %v and %v", g.AtA, g.AtB)
	}
	g = f.Widest(at(0, 70), at(0, -75), g)
	if math.Abs(g.Width-90*in) > 1e-9 {
		t.Errorf("with that gap let through the way is %.2f in wide, want 90 between the table and the back", g.Width/in)
	}
}

// reach is how wide and how deep a shape is, in inches.
func reach(s Shape) (x, z float64) {
	lo, hi := s[0], s[0]
	for _, p := range s {
		lo = Point{min(lo.X, p.X), min(lo.Z, p.Z)}
		hi = Point{max(hi.X, p.X), max(hi.Z, p.Z)}
	}
	return (hi.X - lo.X) / in, (hi.Z - lo.Z) / in
}

func TestThroat(t *testing.T) {
	for _, c := range []struct {
		name string
		a, b Shape
		want float64
	}{
		{"two boards 33 in apart, face to face for 24", inches(0, 0, 30, 10), inches(6, 43, 90, 50), 24},
		{"a leg and a table", inches(0, 0, 2, 2), inches(-30, 35, 30, 60), 2},
		{"corner to corner", turned(0, 0, 10*math.Sqrt2, 10*math.Sqrt2, 45), turned(0, 53, 10*math.Sqrt2, 10*math.Sqrt2, 45), 3},
		// 33 in at its point, 36 in 3 in to one side and 6 in to the other.
		{"a wedge that rises by 1 in 1 and by 1 in 2", inches(-50, 0, 50, 10), Hull([]Point{at(0, 43), at(10, 53), at(-20, 53)}), 9},
		{"the same, turned round", inches(-50, 43, 50, 50), Hull([]Point{at(0, 10), at(10, 0), at(-20, 0)}), 9},
		{"a slope of 1 in 10 from 33 in up", inches(0, 0, 100, 10), Hull([]Point{at(0, 43), at(100, 53), at(0, 60), at(100, 60)}), 30},
	} {
		f := floor(c.a, c.b)
		g := f.gaps()[0]
		ground, got := f.Throat(g, 36*in)
		got /= in
		if across, up := reach(ground); math.Abs(across-c.want) > 1e-6 && math.Abs(up-c.want) > 1e-6 {
			t.Errorf("%s: the ground %v is %.4f by %.4f in", c.name, ground, across, up)
		}
		if math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s: narrower than 36 in for %.4f in, want %.4f (gap %.4f)", c.name, got, c.want, g.Width/in)
		}
	}
}

// A doorway of 90 cm with a post of 10 cm in it leaves 45 and 35 cm; let the wider pass, and what stops a disc is the doorway, as if there
// were no post. A gap that is let is no obstacle, so the gap across it counts, though the post stands in it.
func TestLetThrough(t *testing.T) {
	f := floor(Rect(Point{-2, -3}, Point{-1.9, 0}), Rect(Point{1.9, -3}, Point{2, 0}), Rect(Point{-2, -3.1}, Point{2, -3}),
		Rect(Point{-2, 0}, Point{-0.45, 0.1}), Rect(Point{0.45, 0}, Point{2, 0.1}), Rect(Point{0, 0}, Point{0.1, 0.1}))
	from, to := Point{0, 5}, Point{0, -1.5}
	g := f.Widest(from, to)
	if math.Abs(g.Width-0.45) > 1e-12 {
		t.Fatalf("beside the post: %+v", g)
	}
	if g = f.Widest(from, to, g); math.Abs(g.Width-0.9) > 1e-12 {
		t.Errorf("the doorway: %+v", g)
	}
}

// A jamb of two boards, whose corners meet where the doorway is narrowest: neither stands in the gap to the other.
func TestCornersThatMeet(t *testing.T) {
	f := floor(Rect(Point{-2, -3}, Point{-1.9, 0}), Rect(Point{1.9, -3}, Point{2, 0}), Rect(Point{-2, -3.1}, Point{2, -3}),
		Rect(Point{-2, 0}, Point{-0.45, 0.1}), Rect(Point{-2, -0.1}, Point{-0.45, 0}), Hull([]Point{{0.45, 0}, {2, 0.1}, {2, -0.1}}))
	if g := f.Widest(Point{0, 5}, Point{0, -1.5}); math.Abs(g.Width-0.9) > 1e-12 {
		t.Errorf("%+v", g)
	}
}

// layout is a random floor inside a 3 m square with closed sides, and two places on it.
func layout(r *rand.Rand) (shapes []Shape, from, to Point) {
	shapes = []Shape{Rect(Point{-1, -1}, Point{0, 4}), Rect(Point{3, -1}, Point{4, 4}), Rect(Point{-1, -1}, Point{4, 0}), Rect(Point{-1, 3}, Point{4, 4})}
	for range 6 + r.IntN(9) {
		c := Point{3 * r.Float64(), 3 * r.Float64()}
		var p []Point
		for range 1 + r.IntN(6) {
			p = append(p, c.add(Point{r.NormFloat64() * 0.3, r.NormFloat64() * 0.3}))
		}
		shapes = append(shapes, Hull(p))
	}
	if r.IntN(4) == 0 { // a rope right across
		shapes = append(shapes, Hull([]Point{{-0.1, 3 * r.Float64()}, {3.1, 3 * r.Float64()}}))
	}
	f := floor(shapes...)
	place := func() (p Point) {
		for range 100 {
			p = Point{3 * r.Float64(), 3 * r.Float64()}
			if f.Clearance(p).Width > 0.2 {
				break
			}
		}
		return p
	}
	return shapes, place(), place()
}

func TestMovingTurningMirroringReordering(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for n := range 100 {
		shapes, from, to := layout(r)
		want := floor(shapes...).Widest(from, to).Width
		s, c := math.Sincos(2 * math.Pi * r.Float64())
		flip := float64(1 - 2*(n%2))
		move := func(p Point) Point { return Point{flip*(p.X*c-p.Z*s) + 7, p.X*s + p.Z*c - 3} }
		var moved []Shape
		for _, i := range r.Perm(len(shapes)) {
			var p []Point
			for _, q := range shapes[i] {
				p = append(p, move(q))
			}
			moved = append(moved, Hull(p))
		}
		if got := floor(moved...).Widest(move(to), move(from)).Width; math.Abs(got-want) > 1e-9 {
			t.Errorf("layout %d: %.12f m, moved and back to front %.12f m", n, want, got)
		}
	}
}

func TestClosest(t *testing.T) {
	for _, c := range []struct {
		a, b Shape
		want float64
	}{
		{inches(0, 0, 1, 1), inches(4, 5, 6, 6), 5},                 // corner to corner, 3-4-5
		{inches(0, 0, 10, 1), inches(2, 4, 3, 9), 3},                // face to face
		{inches(0, 0, 10, 10), inches(2, 2, 3, 3), 0},               // one in the other
		{inches(0, 4, 10, 6), inches(4, 0, 6, 10), 0},               // crossed, no corner inside
		{inches(0, 0, 1, 1), inches(1, 1, 2, 2), 0},                 // at a corner
		{inches(0, 0, 1, 1), inches(1, 0, 2, 1), 0},                 // along a side
		{Shape{at(0, 0)}, Shape{at(3, 4)}, 5},                       // spots
		{Shape{at(0, 0), at(10, 0)}, Shape{at(5, 2)}, 2},            // line and spot
		{Shape{at(0, 0), at(10, 0)}, Shape{at(5, -2), at(5, 2)}, 0}, // lines that cross
		{Shape{at(0, 0), at(10, 0)}, Shape{at(5, 0), at(5, 2)}, 0},  // a T
	} {
		pa, pb, d := Closest(c.a, c.b)
		if math.Abs(d/in-c.want) > 1e-9 || math.Abs(pa.Dist(pb)-d) > 1e-12 {
			t.Errorf("%v to %v: %.4f in at %v %v, want %.4f", c.a, c.b, d/in, pa, pb, c.want)
		}
		for _, q := range [2]struct {
			s Shape
			p Point
		}{{c.a, pa}, {c.b, pb}} {
			if _, off := q.s.Nearest(q.p); off > 1e-12 {
				t.Errorf("%v is not in %v", q.p, q.s)
			}
		}
	}
}

func TestLargestByHand(t *testing.T) {
	pitch := inches(-60, -120, 60, 0)
	for _, c := range []struct {
		name string
		add  []Shape
		want float64
	}{
		{"an empty 10 x 10 ft pitch", nil, 120},
		{"30 in deep table along a side wall: a 60 in circle fits (published-values section 13)", []Shape{inches(-60, -120, -30, 0)}, 90},
		{"tables on both sides leave exactly the turning circle of ADA 304.3.1", []Shape{inches(-60, -120, -30, 0), inches(30, -120, 60, 0)}, 60},
		{"a spot in the middle: 1.5 - sqrt(2)/2 ... of the side", []Shape{{at(0, -60)}}, 2 * 60 * math.Sqrt2 / (1 + math.Sqrt2)},
		{"a diagonal rope: the inscribed circle of a right triangle, r = (a+b-c)/2", []Shape{{at(-60, -120), at(60, 0)}}, 240 - 120*math.Sqrt2},
		{"no room", []Shape{inches(-70, -130, 70, 10)}, 0},
	} {
		got := floor(c.add...).Largest(pitch)
		if math.Abs(got.Diameter-c.want*in) > 1e-5 {
			t.Errorf("%s: %.4f in, want %.4f", c.name, got.Diameter/in, c.want)
		}
	}
}

func TestLargestIsClearAndNoneIsLarger(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	within := Rect(Point{0, 0}, Point{3, 3})
	for n := range 40 {
		shapes, _, _ := layout(r)
		f := floor(shapes...)
		c := f.Largest(within)
		if d := f.Clearance(c.Centre).Width; math.Abs(2*d-c.Diameter) > 1e-9 {
			t.Errorf("layout %d: diameter %.6f m, but the room there is %.6f m", n, c.Diameter, 2*d)
		}
		if c.Diameter > 0 && len(c.Touches) < 2 {
			t.Errorf("layout %d: touches %v", n, c.Touches)
		}
		for range 4000 {
			p := Point{3 * r.Float64(), 3 * r.Float64()}
			if d := f.Clearance(p).Width; 2*d > c.Diameter+1e-5 {
				t.Errorf("layout %d: %.6f m, but there is %.6f m at %v", n, c.Diameter, 2*d, p)
			}
		}
	}
}

func BenchmarkFloor(b *testing.B) {
	for _, n := range []int{20, 60, 120} {
		r := rand.New(rand.NewPCG(7, 8))
		var o []Obstacle
		for i := range n {
			o = append(o, Obstacle{turned(120*r.Float64(), 120*r.Float64(), 20*r.Float64(), 2, 360*r.Float64()), i})
		}
		b.Run(fmt.Sprintf("measure/%d", n), func(b *testing.B) {
			for b.Loop() {
				NewFloor(o).gaps()
			}
		})
		f := NewFloor(o)
		b.Run(fmt.Sprintf("widest/%d", n), func(b *testing.B) {
			for b.Loop() {
				f.Widest(at(-30, -30), at(150, 150))
			}
		})
		b.Run(fmt.Sprintf("largest/%d", n), func(b *testing.B) {
			for b.Loop() {
				f.Largest(inches(0, 0, 120, 120))
			}
		})
	}
}

// A drawn way starts and ends where it should and keeps the width that Widest found, to within the grid.
func TestRouteKeepsItsDistance(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	found := 0
	for n := range 60 {
		shapes, from, to := layout(r)
		f := floor(shapes...)
		w := f.Widest(from, to).Width
		line := f.Route(from, to, w)
		if w < 0.12 {
			continue
		}
		if len(line) < 2 || line[0] != from || line[len(line)-1] != to {
			t.Errorf("layout %d, %.3f m wide: %v", n, w, line)
			continue
		}
		found++
		for i := 1; i < len(line); i++ {
			for k, s := range shapes {
				if _, _, d := Closest(s, Shape{line[i-1], line[i]}); d < w/2-2*side {
					t.Errorf("layout %d: piece %d comes within %.3f m of obstacle %d, the way is %.3f m wide", n, i, d, k, w)
				}
			}
		}
	}
	if found < 30 {
		t.Errorf("only %d ways", found)
	}
	// Nothing comes within 2 m, less 4 cm, of a way 4 m wide: it goes around a post that the straight line passes 1.5 m from.
	post := Rect(Point{1.5, -0.05}, Point{1.6, 0.05})
	line := floor(post).Route(Point{0, -4}, Point{0, 4}, 4)
	for i := 1; i < len(line); i++ {
		if _, _, d := Closest(post, Shape{line[i-1], line[i]}); d < 2-side-1e-9 {
			t.Errorf("a way 4 m wide comes within %v m of a post: %v", d, line)
		}
	}
	if line := floor(Hull([]Point{{-9, 1}, {9, 1}, {0, 1.1}})).Route(Point{0, 0}, Point{0, 2}, 0); line != nil {
		t.Errorf("through a wall: %v", line)
	}
}

func BenchmarkRoute(b *testing.B) {
	var shapes []Shape
	shapes = append(append(shapes, booth10()...), inches(-36, -30, 60, 0), inches(-60, -90, 20, -60))
	f := floor(shapes...)
	w := f.Widest(at(0, 70), at(40, -100)).Width
	for b.Loop() {
		f.Route(at(0, 70), at(40, -100), w)
	}
}

// By hand: a frustum of 4 x 4 in and 2 x 2 in on top, 2 in higher, is 3 x 3 in at 1 in; on the ground and 5 in above it.
func TestFootprintByHand(t *testing.T) {
	ring := func(half, y float64) []geom.Vec {
		return []geom.Vec{{X: -half, Y: y, Z: half}, {X: half, Y: y, Z: half}, {X: half, Y: y, Z: -half}, {X: -half, Y: y, Z: -half}}
	}
	for _, up := range []float64{0, 5} {
		f := geom.NewConvex(append(ring(2, up), ring(1, up+2)...), [][]int{{0, 3, 2, 1}, {4, 5, 6, 7}, {0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}})
		for _, c := range []struct{ lo, hi, half float64 }{{-1, 3, 2}, {0, 2, 2}, {0, 0.5, 2}, {1, 3, 1.5}, {1, 1.5, 1.5}, {1.5, 2, 1.25}, {2, 3, 0}, {-1, 0, 0}, {4, 5, 0}} {
			reach := 0.0
			for _, p := range Footprint(f, c.lo+up, c.hi+up) {
				reach = max(reach, math.Abs(p.X), math.Abs(p.Z))
			}
			if !(math.Abs(reach-c.half) <= 1e-12) { // nor is it no number
				t.Errorf("from %v to %v above its foot it reaches %v from its middle, want %v", c.lo, c.hi, reach, c.half)
			}
		}
	}
}
