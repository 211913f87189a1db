package geom

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.12g, want %.12g ± %g", what, got, want, tolerance)
	}
}

// Published and derived solid angles. Van Oosterom and Strackee 1983 is the formula under test; the rectangle on axis
// is also 4 atan(ab / 2d√(4d²+a²+b²)), an independent closed form.
func TestSolidAngle(t *testing.T) {
	octant := Polygon{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	near(t, "an octant's triangle is an eighth of the sphere (SolidAngleR documentation)", -octant.SolidAngle(Vec{}), math.Pi/2, 1e-12)

	rect := func(x0, y0, x1, y1, d float64) float64 {
		return Rect(Frame{Vec{0, 0, -d}, World.X, World.Y, World.Z}, x0, y0, x1, y1).SolidAngle(Vec{})
	}
	near(t, "2 x 2 at 1: a cube's face (derived)", rect(-1, -1, 1, 1, 1), 4*math.Pi/6, 1e-12)
	near(t, "1 x 2 from a corner at 0.5: configuration factor 0.0836 (Howell B-106)", rect(0, 0, 1, 2, 0.5)/(4*math.Pi), 0.0836, 5e-5)
	for _, c := range []struct {
		x0, y0, x1, y1, d, want float64
	}{ // inches; derived
		{-18, -12, 18, 12, 60, 0.225533707}, {-18, -12, 18, 12, 120, 0.059043851},
		{24, -18, 48, 18, 120, 0.052048213}, {12, -6, 36, 30, 60, 0.176052116},
	} {
		near(t, "a picture in inches", rect(c.x0, c.y0, c.x1, c.y1, c.d), c.want, 1e-9)
	}
	if w := rect(-1, -1, 1, 1, -1); w >= 0 {
		t.Errorf("a polygon seen from behind fills %g sr, want less than 0", w)
	}
}

func TestSolidsAreClosedAndOutward(t *testing.T) {
	f := Upright(Vec{1, 2, 3}, Vec{1, 0, -2}).Turned(0.4).Tilted(0.3)
	for name, c := range map[string]Convex{
		"box":   Box(f, Vec{-1, 0, -2}, Vec{1, 3, 4}),
		"drum":  Drum(f, 7, 0, 1, 2, 3, 1.5, 3),
		"rod":   Rod(Vec{0, 0, 0}, Vec{5, 0.1, 0}, 0.02, 5),
		"prism": Prism(Polygon{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}, Vec{0.2, 0.1, -1}),
		"moved": f.Solid(Drum(World, 5, 0, 1, 1, 1, 1, 1)),
	} {
		if err := c.Check(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := Solids(c).Check(); err != nil {
			t.Errorf("%s: mesh: %v", name, err)
		}
		// Euler: corners - edges + faces = 2.
		if e := len(c.Corners) - len(c.Edges) + len(c.Faces); e != 2 {
			t.Errorf("%s: corners - edges + faces = %d", name, e)
		}
	}
	near(t, "a box has its own volume's faces", Box(World, Vec{0, 0, 0}, Vec{1, 2, 3}).Face(0).Area(), 2, 1e-12)
}

func TestFrames(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 100 {
		f := Upright(Vec{r.Float64(), r.Float64(), r.Float64()}, Vec{r.Float64() - 0.5, 0, r.Float64() - 0.5}).Turned(r.Float64() * 6).Tilted(r.Float64() * 6)
		p := Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}
		near(t, "there and back", f.Local(f.At(p)).Dist(p), 0, 1e-12)
		near(t, "right-handed", f.X.Cross(f.Y).Dist(f.Z), 0, 1e-12)
	}
	// A visitor who faces the left wall has the back of the booth at the right hand.
	left := Upright(Vec{-1.5, 0, 0}, Vec{1, 0, 0})
	near(t, "X of the left wall runs to the back", left.X.Dist(Vec{0, 0, -1}), 0, 1e-12)
	near(t, "a quarter turn to the left", World.Turned(math.Pi/2).Z.Dist(Vec{1, 0, 0}), 0, 1e-12)
	if y := World.Tilted(0.1).Y; y.Z >= 0 {
		t.Errorf("a positive tilt leans the top back: Y is %v", y)
	}
}

func TestGrid(t *testing.T) {
	m := Grid(4, 3, func(u, v float64) (Vec, float64, float64) { return Vec{u, v, 0}, u, v })
	if err := m.Check(); err != nil {
		t.Fatal(err)
	}
	area := 0.0
	for _, tr := range m.Triangles {
		area += Polygon{m.Vertices[tr[0]].P, m.Vertices[tr[1]].P, m.Vertices[tr[2]].P}.areaVec().Z / 2
	}
	near(t, "a grid faces the side from which u runs right and v up", area, 1, 1e-12)
	if n := m.Vertices[5].N; n.Dist(Vec{0, 0, 1}) > 1e-12 {
		t.Errorf("normal %v", n)
	}
}

func TestOverlap(t *testing.T) {
	cube := Box(World, Vec{-1, -1, -1}, Vec{1, 1, 1})
	at := func(f Frame) Mapped { return Map(Box(f, Vec{-1, -1, -1}, Vec{1, 1, 1})) }
	near(t, "half an inch into each other", Overlap(Map(cube), at(World.Moved(Vec{2 - 0.0127, 0.3, 0.2}))), 0.0127, 1e-12)
	near(t, "only touching", Overlap(Map(cube), at(World.Moved(Vec{2, 0.3, 0.2}))), 0, 1e-12)
	if d := Overlap(Map(cube), at(World.Moved(Vec{2.1, 0, 0}))); d >= 0 {
		t.Errorf("apart by 0.1: overlap %g", d)
	}
	// A cube turned by an eighth reaches √2 out: its edge meets the other's face.
	near(t, "an edge into a face", Overlap(Map(cube), at(World.Moved(Vec{1 + math.Sqrt2 - 0.1, 0, 0}).Turned(math.Pi/4))), 0.1, 1e-12)
	// Two edges square to each other, both on the line between the middles: only the pair of edges tells them apart.
	roof := NewConvex([]Vec{{-1, 0, 0}, {1, 0, 0}, {0, -1, 1}, {0, -1, -1}}, [][]int{{0, 2, 1}, {1, 3, 0}, {0, 3, 2}, {2, 3, 1}})
	hull := NewConvex([]Vec{{0, 0.1, 1}, {0, 0.1, -1}, {1, 1.1, 0}, {-1, 1.1, 0}}, [][]int{{0, 1, 2}, {1, 0, 3}, {0, 2, 3}, {2, 1, 3}})
	if err := roof.Check(); err != nil {
		t.Fatal(err)
	}
	if err := hull.Check(); err != nil {
		t.Fatal(err)
	}
	near(t, "crossed edges 0.1 apart", Overlap(Map(roof), Map(hull)), -0.1, 1e-12)
}

// Prismatoids of random points are closed, hold all their points, and their corners are points; those over a line of points
// are as thick as they are asked to be.
func TestPrismatoid(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for k := range 2000 {
		var low, high []Vec
		n, bent := 2+r.IntN(9), []float64{0, 1e-6, 0.02, 0.3}[r.IntN(4)]
		lean, grow := r.NormFloat64()*0.1, []float64{1, 1, 0.3 + r.Float64()}[r.IntN(3)]
		for i := range n {
			u := float64(i) / float64(n-1)
			p := Vec{X: u, Z: bent * math.Sin(math.Pi*u)}
			if r.IntN(3) == 0 && bent > 0.01 {
				p = Vec{X: r.Float64(), Z: r.Float64()}
			}
			low = append(low, p)
			high = append(high, Vec{X: p.X*grow + lean, Y: 0.2 + 2*lean*lean, Z: p.Z * grow})
		}
		f := Upright(Vec{1, 2, 3}, Vec{r.NormFloat64(), 0, r.NormFloat64()})
		const thin = 0.001
		c := Prismatoid(f, low, high, thin)
		if err := c.Check(); err != nil {
			t.Fatalf("solid %d of %d points: %v", k, n, err)
		}
		if e := len(c.Corners) - len(c.Edges) + len(c.Faces); e != 2 {
			t.Fatalf("solid %d: corners - edges + faces = %d", k, e)
		}
		for _, p := range append(low, high...) {
			for i := range c.Faces {
				if d := f.At(p).Sub(c.Face(i)[0]).Dot(c.Face(i).Normal()); d > 1e-6 {
					t.Fatalf("solid %d: a point is %g m outside", k, d)
				}
			}
		}
		for _, v := range c.Corners {
			near := math.Inf(1)
			for _, p := range append(low, high...) {
				near = min(near, f.At(p).Dist(v))
			}
			if near > thin/2+1e-9 {
				t.Fatalf("solid %d: a corner is %g m from the points", k, near)
			}
		}
	}
	box := Prismatoid(World, []Vec{{0, 0, 0}, {1, 0, 0}}, []Vec{{0, 2, 0}, {1, 2, 0}}, 0.001)
	if len(box.Faces) != 6 || len(box.Corners) != 8 {
		t.Errorf("flat cloth is a box: %d faces, %d corners", len(box.Faces), len(box.Corners))
	}
}

// Hulls of random points are closed and convex, none of their points is more than the slack outside, and every corner is one.
func TestHull(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for k := range 300 {
		var points []Vec
		flat, slack := []float64{1, 0.05, 1e-3}[r.IntN(3)], []float64{0, 0, 0.01}[r.IntN(3)]
		for range 4 + r.IntN(80) {
			p := Vec{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}
			if k%3 == 0 {
				p = p.Unit()
			}
			p.Y *= flat
			points = append(points, p)
		}
		c, ok := Hull(points, slack)
		if err := c.Check(); !ok || err != nil {
			t.Fatalf("hull %d of %d points: %v", k, len(points), err)
		}
		for _, p := range points {
			for i := range c.Faces {
				if d := p.Sub(c.Face(i)[0]).Dot(c.Face(i).Normal()); d > slack+1e-9 {
					t.Fatalf("hull %d: a point is %g m outside", k, d)
				}
			}
		}
		for _, v := range c.Corners {
			if !slices.Contains(points, v) {
				t.Fatalf("hull %d: a corner is no point", k)
			}
		}
	}
	if _, ok := Hull([]Vec{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {1, 1, 0}}, 0); ok {
		t.Error("a square is no solid")
	}
	ring := Drum(Upright(Vec{1, 2, 3}, Vec{1, 0, 1}).Tilted(0.3), 20, 0, 1, 1, 0.1, 1, 1)
	c, ok := Hull(ring.Corners, 0)
	if err := c.Check(); !ok || err != nil || len(c.Corners) != 40 {
		t.Errorf("the hull of a disc has %d corners: %v", len(c.Corners), err)
	}
}
