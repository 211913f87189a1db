package job_test

import (
	"bytes"
	"context"
	"encoding/json"
	"image"
	"image/png"
	"io"
	"math"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"testing"
	"time"

	"boothmock/internal/booth"
	"boothmock/internal/colour"
	"boothmock/internal/geom"
	"boothmock/internal/job"
	"boothmock/internal/picture"
)

const (
	chromium = "/usr/bin/chromium"
	three    = "../../.ci/node_modules/three"
)

// camera is a view's camera as the page in testdata needs it: level, with its lens shifted.
type camera struct {
	Width  int        `json:"width"`
	Height int        `json:"height"`
	Eye    [3]float64 `json:"eye"`
	Ahead  [3]float64 `json:"ahead"`
	Left   float64    `json:"left"`
	Right  float64    `json:"right"`
	Top    float64    `json:"top"`
	Bottom float64    `json:"bottom"`
	Near   float64    `json:"near"`
}

func cameraOf(v booth.View, e booth.Eye, width, height int) camera {
	eye := v.From(e)
	look := v.Look.Sub(eye)
	const near = 0.05
	half := math.Tan(v.Across/2) * near
	tall := half * float64(height) / float64(width)
	shift := look.Y / math.Hypot(look.X, look.Z) * near
	return camera{width, height, [3]float64{eye.X, eye.Y, eye.Z}, [3]float64{look.X, 0, look.Z}, -half, half, shift + tall, shift - tall, near}
}

// TestViewer holds the picture of the demo against booth.glb as three.js draws it in Chromium, from the same camera. Over
// the works' pixels the mean difference (CIEDE2000) is at most 3.
func TestViewer(t *testing.T) {
	if raced || testing.Short() {
		t.Skip("slow")
	}
	for _, need := range []string{chromium, three} {
		if _, err := os.Stat(need); err != nil {
			if os.Getenv("REQUIRE_TOOLS") != "" {
				t.Fatalf("%s is not there: install chromium, and run npm ci in .ci", need)
			}
			t.Skipf("%s is not there", need)
		}
	}
	m := demo(t)
	var glb bytes.Buffer
	for _, o := range job.Outputs(m) {
		if o.Name == "booth.glb" {
			if err := o.Write(m, &glb); err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, v := range m.Plan.Views {
		if v.Name != "entrance" && v.Name != "aisle-right" && v.Name != "inside" {
			continue
		}
		size := picture.Options{Width: 960, Height: 540, Eye: m.Plan.Eyes[0]}
		ours := m.Stage().Draw(v, size)
		theirs := viewed(t, glb.Bytes(), cameraOf(v, size.Eye, size.Width, size.Height))
		if theirs.Bounds() != ours.Bounds() {
			t.Fatalf("%s: the viewer's picture is %v", v.Name, theirs.Bounds())
		}
		sum, n := 0.0, 0
		for i, part := range m.Stage().IDs(v, size) {
			if part < 0 || m.Plan.Parts[part].Work == nil {
				continue
			}
			x, y := i%size.Width, i/size.Width
			sum += colour.Difference(labAt(ours, x, y), labAt(theirs, x, y))
			n++
		}
		if n < 10000 {
			t.Fatalf("%s: only %d pixels show works", v.Name, n)
		}
		t.Logf("%s: %.2f over %d pixels", v.Name, sum/float64(n), n)
		if sum/float64(n) > 3 {
			t.Errorf("%s: the works look different in another viewer: %.2f", v.Name, sum/float64(n))
		}
	}
}

func labAt(m image.Image, x, y int) colour.Lab {
	r, g, b, _ := m.At(x, y).RGBA()
	return colour.LabOf(uint8(r>>8), uint8(g>>8), uint8(b>>8))
}

// viewed is the file as three.js draws it.
func viewed(t *testing.T, glb []byte, c camera) image.Image {
	t.Helper()
	got, failed := make(chan []byte, 1), make(chan string, 1)
	mux := http.NewServeMux()
	mux.Handle("GET /three/", http.StripPrefix("/three/", http.FileServer(http.Dir(three))))
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) { http.ServeFile(w, r, "testdata/viewer.html") })
	mux.HandleFunc("GET /camera.json", func(w http.ResponseWriter, r *http.Request) { json.NewEncoder(w).Encode(c) })
	mux.HandleFunc("GET /booth.glb", func(w http.ResponseWriter, r *http.Request) { w.Write(glb) })
	mux.HandleFunc("POST /picture", func(w http.ResponseWriter, r *http.Request) {
		b, _ := io.ReadAll(r.Body)
		got <- b
	})
	mux.HandleFunc("POST /failed", func(w http.ResponseWriter, r *http.Request) {
		b, _ := io.ReadAll(r.Body)
		failed <- string(b)
	})
	server := httptest.NewServer(mux)
	defer server.Close()

	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	cmd := exec.CommandContext(ctx, chromium, "--headless", "--no-sandbox", "--enable-unsafe-swiftshader", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--no-first-run", "--hide-scrollbars", "--force-device-scale-factor=1",
		"--remote-debugging-port=0", "--user-data-dir="+t.TempDir(), server.URL)
	cmd.WaitDelay = 5 * time.Second
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	defer func() { stop(); cmd.Wait() }()
	select {
	case b := <-got:
		m, err := png.Decode(bytes.NewReader(b))
		if err != nil {
			t.Fatal(err)
		}
		return m
	case why := <-failed:
		t.Fatalf("the viewer failed: %s", why)
	case <-ctx.Done():
		t.Fatal("the viewer did not answer")
	}
	return nil
}

// The page's camera is that of the pictures: it puts points of the booth where Stage.Project does.
func TestCameraOf(t *testing.T) {
	m := demo(t)
	for _, v := range m.Plan.Views {
		o := picture.Options{Width: 960, Height: 540, Eye: m.Plan.Eyes[0]}
		c := cameraOf(v, o.Eye, o.Width, o.Height)
		back := geom.Vec{X: c.Ahead[0], Y: c.Ahead[1], Z: c.Ahead[2]}.Unit().Neg()
		right := geom.Up.Cross(back)
		for i := range m.Plan.Parts {
			if m.Plan.Parts[i].Work == nil {
				continue
			}
			for _, p := range m.Plan.Parts[i].Work.Face {
				x, y, depth, ok := m.Stage().Project(v, o, p)
				if !ok || depth < 0.3 {
					continue
				}
				d := p.Sub(geom.Vec{X: c.Eye[0], Y: c.Eye[1], Z: c.Eye[2]})
				far := -d.Dot(back)
				sx := (d.Dot(right)/far*c.Near - c.Left) / (c.Right - c.Left) * float64(c.Width)
				sy := (c.Top - d.Y/far*c.Near) / (c.Top - c.Bottom) * float64(c.Height)
				if math.Abs(sx-x) > 1e-6*max(1, math.Abs(x)) || math.Abs(sy-y) > 1e-6*max(1, math.Abs(y)) {
					t.Fatalf("%s: %v is at %v, %v; the page puts it at %v, %v", v.Name, p, x, y, sx, sy)
				}
			}
		}
	}
}
