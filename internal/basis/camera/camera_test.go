package camera

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"boothmock/internal/basis/geom"
)

// golden are places in pictures, worked out in another language by the camera matrix K [R | t] (Hartley and Zisserman, 2nd ed.,
// equation 6.8). The page's script is held to the same file (handout/page/scripts/walk.test.mjs), at the aspect that its pictures are made for or wider than high.
type golden struct {
	Name           string
	Eye, Look      [3]float64
	Across, Aspect float64
	Level          bool
	Seen           []struct {
		Point       [3]float64
		X, Y, Depth float64
	}
}

func cases(t *testing.T) (all []golden) {
	text, err := os.ReadFile("testdata/golden.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &all); err != nil || len(all) < 6 {
		t.Fatalf("%d cases, %v", len(all), err)
	}
	return all
}

func vec(v [3]float64) geom.Vec { return geom.Vec{X: v[0], Y: v[1], Z: v[2]} }

func TestCameraMatrix(t *testing.T) {
	for _, g := range cases(t) {
		c := At(vec(g.Eye), vec(g.Look), g.Across, g.Aspect)
		if x, y, _ := c.Project(vec(g.Look)); math.Abs(x)+math.Abs(y) > 1e-12 {
			t.Errorf("%s: what it looks at is at %v, %v, not in the middle", g.Name, x, y)
		}
		if level := c.Ahead.Y == 0; level != g.Level {
			t.Errorf("%s: level is %v", g.Name, level)
		}
		for _, s := range g.Seen {
			x, y, depth := c.Project(vec(s.Point))
			if math.Abs(x-s.X)+math.Abs(y-s.Y)+math.Abs(depth-s.Depth) > 1e-9 {
				t.Errorf("%s: %v is at %.9f, %.9f, %.9f; the matrix says %v", g.Name, s.Point, x, y, depth, s)
			}
			// The ray through that place meets the point again.
			if back := c.Eye.Add(c.Ray(x, y).Mul(depth)); back.Sub(vec(s.Point)).Len() > 1e-9 {
				t.Errorf("%s: the ray through %v, %v passes %v by at %v", g.Name, x, y, s.Point, back)
			}
		}
		if far := c.Eye.Add(geom.Vec{X: c.Ahead.X, Z: c.Ahead.Z}.Mul(1e9)); g.Name != "straight down" {
			if _, y, _ := c.Project(far); math.Abs(y-c.Horizon()) > 1e-6 {
				t.Errorf("%s: the horizon is at %v, a point far off at its height at %v", g.Name, c.Horizon(), y)
			}
		}
	}
}
