package camera

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
)

// golden are places in pictures, worked out in another language by the camera matrix K [R | t] (Hartley and Zisserman, 2nd ed.,
// equation 6.8). The page's script is held to the same file, at the aspect that its pictures are made for or wider than high.
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

func TestThePagesCamera(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("REQUIRE_TOOLS") != "" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	text, err := os.ReadFile("../../handout/page/scripts/camera.js")
	if err != nil {
		t.Fatal(err)
	}
	script := strings.ReplaceAll(string(text), "\nexport ", "\n")
	const held = `
		let held = 0;
		for (const g of JSON.parse(require('fs').readFileSync('testdata/golden.json'))) {
			if (!g.level || g.aspect < 1) continue;
			const eye = {x: g.eye[0], y: g.eye[1], z: g.eye[2], half: Math.tan(g.across / 2)};
			lookAt(eye, g.look);
			const m = matrix(eye, g.aspect);
			for (const s of g.seen) {
				const p = [...s.point, 1], row = (i) => p.reduce((sum, v, k) => sum + m[4 * k + i] * v, 0);
				const x = row(0) / row(3), y = row(1) / row(3);
				if (Math.abs(x - s.x) + Math.abs(y - s.y) + Math.abs(row(3) - s.depth) > 1e-5)
					throw g.name + ': ' + s.point + ' is at ' + [x, y, row(3)] + ', not at ' + [s.x, s.y, s.depth];
				const ray = rayThrough(eye, g.aspect, s.x, s.y);
				g.eye.forEach((v, k) => { if (Math.abs(v + ray[k] * s.depth - s.point[k]) > 1e-9) throw g.name + ': the ray passes ' + s.point + ' by'; });
				held++;
			}
		}
		console.log(held);`
	if out, err := exec.Command(node, "-e", script+held).CombinedOutput(); err != nil || string(out) != "12\n" {
		t.Errorf("%v\n%s", err, out)
	}
}
