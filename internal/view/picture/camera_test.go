package picture

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// upright is straight with an angle of view that makes 1080 rows 60 degrees high.
func upright() (booth.View, Options) {
	v := straight
	v.Across = 2 * math.Atan(math.Tan(math.Pi/6)*1920/1080)
	return v, Options{Width: 1920, Height: 1080}
}

func TestProjectPinhole(t *testing.T) {
	s := new(stand).stage()
	v, o := upright()
	// Worked out from x = f·X/Z: 1080 rows over 60 degrees make f 935.3074361 pixels and the width 91.49284 degrees.
	if got := v.Across * 180 / math.Pi; math.Abs(got-91.49284) > 5e-6 {
		t.Errorf("the width is %.5f degrees", got)
	}
	for _, c := range []struct {
		p    geom.Vec
		x, y float64 // pixels right and up of the middle
	}{
		{geom.Vec{X: 1, Y: 0.5, Z: -5}, 187.0615, 93.5307},
		{geom.Vec{X: 1, Z: -1}, 935.3074361, 0},
		{geom.Vec{X: -1, Y: -1, Z: -2}, -467.6537, -467.6537},
	} {
		x, y, depth, ok := s.Project(v, o, c.p.Add(geom.Vec{Y: 1.5}))
		if !ok || math.Abs(x-960-c.x) > 5e-5 || math.Abs(540-y-c.y) > 5e-5 || math.Abs(depth+c.p.Z) > 1e-9 {
			t.Errorf("%v is at %.4f, %.4f from the middle at depth %v (%v), want %v, %v", c.p, x-960, 540-y, depth, ok, c.x, c.y)
		}
	}
	if _, _, _, ok := s.Project(v, o, geom.Vec{Y: 1.5, Z: 1}); ok {
		t.Error("a point behind the eye was placed")
	}
}

// The angles that a 24 in and a 36 in width fill, square on: 2·atan(w/2d).
func TestProjectAngles(t *testing.T) {
	s := new(stand).stage()
	for _, c := range []struct{ width, away, degrees float64 }{
		{24, 120, 11.42119}, {36, 120, 17.06153}, {24, 60, 22.61986}, {36, 60, 33.39849},
	} {
		const inch = 0.0254
		v := straight
		v.Across = c.degrees * math.Pi / 180
		o := Options{Width: 1000, Height: 400}
		l, _, _, _ := s.Project(v, o, geom.Vec{X: -c.width / 2 * inch, Y: 1.5, Z: -c.away * inch})
		r, _, _, _ := s.Project(v, o, geom.Vec{X: c.width / 2 * inch, Y: 1.5, Z: -c.away * inch})
		if math.Abs(l) > 1e-3 || math.Abs(r-1000) > 1e-3 {
			t.Errorf("%v in at %v in fills pixels %.4f to %.4f of 1000", c.width, c.away, l, r)
		}
	}
}

// Ken Perlin's worked example of perspective (New York University, course notes of spring 2012, "perspective"): with
// the picture's plane at z = 0 and the eye at z = f, x appears at f·x/(f-z): z = -f halves it, z = f/2 doubles it.
func TestProjectPerlin(t *testing.T) {
	s := new(stand).stage()
	const f, x = 2.0, 0.3
	v := booth.View{Stand: geom.Vec{Z: f}, Height: 1, Look: geom.Vec{Y: 1}, Across: math.Pi / 2}
	o := Options{Width: 2000, Height: 1000} // at z = 0 the picture is 2f wide: 500 pixels a metre
	for _, c := range []struct{ z, times float64 }{{0, 1}, {-f, 0.5}, {f / 2, 2}} {
		px, _, _, ok := s.Project(v, o, geom.Vec{X: x, Y: 1, Z: c.z})
		if got := (px - 1000) / 500; !ok || math.Abs(got-x*c.times) > 1e-9 {
			t.Errorf("at z %v: %v, want %v", c.z, got, x*c.times)
		}
	}
}

// What is drawn is where Project says: the pixels that a square covers are those whose middles are inside of its
// projected corners.
func TestDrawnWhereProjected(t *testing.T) {
	s := new(stand)
	s.add(booth.Part{ID: "far"}, flatMesh(quad(-2.1, 0.4, 1.3, 2.7, -5)), booth.Look{}, full)
	s.add(booth.Part{ID: "near"}, flatMesh(quad(0.5, 1.2, 1, 2, -2)), booth.Look{}, full)
	st := s.stage()
	for _, look := range []geom.Vec{{Y: 1.5, Z: -1}, {X: 0.2, Y: 1.7, Z: -1}, {X: -0.5, Y: 1.1, Z: -2}} {
		v, o := upright()
		v.Look = look
		o.Width, o.Height = 480, 270
		ids := st.IDs(v, o)
		seen := [2]int{}
		var corner [2][4]geom.Vec
		for k, u := range s.lit.Surfaces {
			for e := range 4 {
				corner[k][e].X, corner[k][e].Y, _, _ = st.Project(v, o, u.Mesh.Vertices[e].P)
			}
		}
		for i, id := range ids {
			x, y := float64(i%480)+0.5, float64(i/480)+0.5
			want, onEdge := -1, false
			for k, c := range corner {
				nearest := math.Inf(1) // pixels from the edges, positive inside
				for e, a := range c {
					b := c[(e+1)%4]
					nearest = min(nearest, ((b.Y-a.Y)*(x-a.X)-(b.X-a.X)*(y-a.Y))/b.Dist(a))
				}
				if nearest > 0 {
					want = k
				}
				onEdge = onEdge || math.Abs(nearest) < 1.0/grid
			}
			if id != want && !onEdge {
				t.Fatalf("looking at %v: pixel %d, %d shows part %d, want %d", look, i%480, i/480, id, want)
			}
			if id >= 0 {
				seen[id]++
			}
		}
		if seen[0] < 1000 || seen[1] < 1000 {
			t.Errorf("looking at %v: pixels of each part %v", look, seen)
		}
	}
}

// A level camera: the point looked at is in the middle, and upright edges are upright in the picture.
func TestLevelCamera(t *testing.T) {
	s := new(stand).stage()
	v := booth.View{Stand: geom.Vec{X: 0.4, Z: 3}, Height: 1.6, Look: geom.Vec{X: -0.2, Y: 2.3, Z: -1}, Across: 1.2}
	o := Options{Width: 800, Height: 600}
	if x, y, _, ok := s.Project(v, o, v.Look); !ok || math.Abs(x-400) > 1e-9 || math.Abs(y-300) > 1e-9 {
		t.Errorf("the point looked at is at %v, %v", x, y)
	}
	for _, p := range []geom.Vec{{X: 1, Z: 0.5}, {X: -1.4, Z: -2}} {
		x0, y0, _, _ := s.Project(v, o, p)
		x1, y1, _, _ := s.Project(v, o, p.Add(geom.Vec{Y: 2}))
		if math.Abs(x0-x1) > 1e-9 || y1 >= y0 {
			t.Errorf("a pole at %v leans: %v, %v to %v, %v", p, x0, y0, x1, y1)
		}
	}
	for _, look := range []geom.Vec{{X: 0.4, Z: 3}, {X: 0.4, Y: 5, Z: 3}, {X: 0.4, Y: 0, Z: 2.5}} { // down, up, at one's feet
		v.Look = look
		if x, y, _, ok := s.Project(v, o, look); !ok || math.Abs(x-400) > 1e-6 || math.Abs(y-300) > 1e-6 {
			t.Errorf("looking at %v, it is at %v, %v (%v)", look, x, y, ok)
		}
	}
}

func TestUsualOptions(t *testing.T) {
	s := new(stand)
	s.plan.Eyes = []booth.Eye{{Name: "adult", Height: 1.58}, {Name: "child", Height: 1.04}}
	v := booth.View{Look: geom.Vec{Y: 1.58, Z: -3}, Across: 1}
	if m := s.stage().Draw(v, Options{}); m.Rect.Dx() != 1920 || m.Rect.Dy() != 1080 {
		t.Errorf("the usual picture is %v", m.Rect)
	}
	for _, c := range []struct {
		eye booth.Eye
		y   float64
	}{{booth.Eye{}, 540}, {s.plan.Eyes[1], 540}} {
		// The point looked at stays in the middle for every eye; one level with the eye is at the horizon.
		if _, y, _, _ := s.stage().Project(v, Options{Eye: c.eye}, v.Look); math.Abs(y-c.y) > 1e-6 {
			t.Errorf("eye %v: the point is at row %v", c.eye, y)
		}
	}
	_, y, _, _ := s.stage().Project(v, Options{Eye: s.plan.Eyes[1]}, geom.Vec{Y: 1.04, Z: -3})
	if want := 540 + 0.54/3*960/math.Tan(0.5); math.Abs(y-want) > 1e-6 {
		t.Errorf("the child's horizon is at row %v, want %v", y, want)
	}
}
