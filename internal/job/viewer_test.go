package job_test

import (
	"context"
	"encoding/json"
	"image"
	"image/draw"
	"image/png"
	"io"
	"math"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"testing"
	"time"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/picture"
)

const (
	chromium = "/usr/bin/chromium"
	modules  = "../../.ci/node_modules"
)

// engines are the viewers that the .glb is opened in, each with its page in testdata, and the packages that it needs.
var engines = []struct{ page, needs string }{{"three", "three"}, {"babylon", "babylonjs-loaders"}}

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

// shot is a picture that an engine is asked for.
type shot struct {
	Name   string     `json:"name"`
	Width  int        `json:"width"`
	Height int        `json:"height"`
	Camera *camera    `json:"camera"` // nil: the file's own camera From
	From   string     `json:"from"`
	Play   string     `json:"play"` // an animation, "first" or "all"; empty: none
	At     float64    `json:"at"`   // seconds
	Relit  bool       `json:"relit"`
	Sun    [3]float64 `json:"sun"` // the direction that it shines from
}

// installed skips the test, or fails it in .ci/run, if the files are not there.
func installed(t *testing.T, files ...string) {
	t.Helper()
	if raced || testing.Short() {
		t.Skip("slow")
	}
	for _, need := range files {
		if _, err := os.Stat(need); err != nil {
			if os.Getenv("REQUIRE_TOOLS") != "" {
				t.Fatalf("%s is not there: .ci/run installs it", need)
			}
			t.Skipf("%s is not there", need)
		}
	}
}

// TestViewers opens booth.glb in engines that are not ours. Whatever a viewer does with animations when it opens a file, it shows
// the booth finished, and the set-up plays when asked. From the pictures' cameras, and in the pictures' part of what the
// file's own cameras see, the works are as in the pictures: their mean difference (CIEDE2000) is at most 3. Lit anew, with shadows, it is about as bright.
func TestViewers(t *testing.T) {
	for _, e := range engines {
		t.Run(e.page, func(t *testing.T) {
			installed(t, chromium, modules+"/"+e.needs)
			m := demo(t)
			file := write(t, m, "booth.glb")
			size := picture.Options{Width: 960, Height: 540, Eye: m.Plan.Eyes[0]}
			over := camera{Eye: [3]float64{4, 4, 6}, Ahead: [3]float64{-4, -2.8, -7.5}, Left: -0.02, Right: 0.02, Top: 0.015, Bottom: -0.015, Near: 0.05}
			small := func(name, play string, at float64, relit bool) shot {
				return shot{Name: name, Width: 480, Height: 360, Camera: &over, Play: play, At: at, Relit: relit, Sun: [3]float64{3, 8, 6}}
			}
			end := float64(len(m.SetUp().Steps)) + 6 // with three seconds of the finished booth at both ends
			shots := []shot{small("rest", "", 0, false)}
			for _, v := range m.Plan.Views {
				if v.Name == "entrance" || v.Name == "aisle-right" || v.Name == "inside" {
					c := cameraOf(v, size.Eye, size.Width, size.Height)
					shots = append(shots, shot{Name: v.Name, Width: size.Width, Height: size.Height, Camera: &c}, ownShot(t, file, v, size))
				}
			}
			shots = append(shots, small("opened", "first", 0, false), small("opened a second ago", "first", 1, false),
				small("all", "all", 0, false), small("nothing is there", "set-up", 3.5, false), small("half is there", "set-up", end/2, false),
				small("set-up begins", "set-up", 1, false), small("set-up ends", "set-up", end, false), small("relit", "set-up", end, true))
			got := shown(t, e.page, file, shots)
			for _, s := range shots {
				d := difference(got["rest"], got[s.Name])
				switch s.Name {
				case "opened", "opened a second ago", "all", "set-up begins", "set-up ends":
					if d > 0.01 {
						t.Errorf("%s: the booth is not finished, the picture differs by %.2f", s.Name, d)
					}
				case "nothing is there", "half is there":
					if t.Logf("%s: %.1f", s.Name, d); d < 1 {
						t.Errorf("%s: the set-up does not play", s.Name)
					}
				}
			}
			if d := difference(got["nothing is there"], got["half is there"]); d < 1 {
				t.Errorf("nothing appears in the set-up: %.2f", d)
			}
			was, is := brightness(got["rest"]), brightness(got["relit"])
			if t.Logf("lit anew: L* %.1f instead of %.1f", is, was); is < 0.7*was {
				t.Errorf("lit anew, the booth is dark: L* %.1f instead of %.1f", is, was)
			}
			for _, v := range m.Plan.Views {
				if theirs := got[v.Name]; theirs != nil {
					likeOurs(t, m, v, size, theirs)
					likeOurs(t, m, v, size, framed(got["view/"+v.Name], v, size))
				}
			}
		})
	}
}

// ownShot is a picture by the file's own camera for a view, as wide as size and as high as that camera sees at that width.
func ownShot(t *testing.T, file []byte, v booth.View, size picture.Options) shot {
	for _, c := range readable(t, file).Cameras {
		if c.Name == "view/"+v.Name {
			return shot{Name: c.Name, From: c.Name, Width: size.Width, Height: int(math.Round(float64(size.Width) / *c.Perspective.AspectRatio))}
		}
	}
	t.Fatalf("booth.glb has no camera for %s", v.Name)
	return shot{}
}

// framed is the part of such a picture that ours has: the lower one if our lens is shifted down.
func framed(m image.Image, v booth.View, size picture.Options) image.Image {
	at := image.Point{}
	if v.Look.Y < v.From(size.Eye).Y {
		at.Y = m.Bounds().Dy() - size.Height
	}
	out := image.NewNRGBA(image.Rect(0, 0, size.Width, size.Height))
	draw.Draw(out, out.Rect, m, at, draw.Src)
	return out
}

// likeOurs compares the works of a view's picture with another viewer's.
func likeOurs(t *testing.T, m *job.Mockup, v booth.View, size picture.Options, theirs image.Image) {
	t.Helper()
	ours := m.Stage().Draw(v, size)
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

// difference is the mean over all pixels of two pictures of one size.
func difference(a, b image.Image) float64 {
	if a.Bounds() != b.Bounds() {
		return math.NaN()
	}
	sum, n := 0.0, 0
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			sum += colour.Difference(labAt(a, x, y), labAt(b, x, y))
			n++
		}
	}
	return sum / float64(n)
}

// brightness is the mean L* of a picture.
func brightness(m image.Image) float64 {
	sum, b := 0.0, m.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			sum += labAt(m, x, y).L
		}
	}
	return sum / float64(b.Dx()*b.Dy())
}

func labAt(m image.Image, x, y int) colour.Lab {
	r, g, b, _ := m.At(x, y).RGBA()
	return colour.LabOf(uint8(r>>8), uint8(g>>8), uint8(b>>8))
}

// shown are the pictures, by name, that an engine's page in testdata makes of the file.
func shown(t *testing.T, page string, glb []byte, shots []shot) map[string]image.Image {
	t.Helper()
	out := map[string]image.Image{}
	ended := make(chan string, 1)
	mux := http.NewServeMux()
	mux.Handle("GET /modules/", http.StripPrefix("/modules/", http.FileServer(http.Dir(modules))))
	mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) { http.ServeFile(w, r, "testdata/"+page+".html") })
	mux.HandleFunc("GET /shots.json", func(w http.ResponseWriter, r *http.Request) { json.NewEncoder(w).Encode(shots) })
	mux.HandleFunc("GET /booth.glb", func(w http.ResponseWriter, r *http.Request) { w.Write(glb) })
	mux.HandleFunc("POST /picture", func(w http.ResponseWriter, r *http.Request) { // one after the other
		m, err := png.Decode(r.Body)
		if err != nil {
			t.Errorf("%s: %v", r.URL.Query().Get("name"), err)
		}
		out[r.URL.Query().Get("name")] = m
	})
	mux.HandleFunc("POST /done", func(w http.ResponseWriter, r *http.Request) { ended <- "" })
	mux.HandleFunc("POST /failed", func(w http.ResponseWriter, r *http.Request) {
		b, _ := io.ReadAll(r.Body)
		ended <- string(b)
	})
	server := httptest.NewServer(mux)
	defer server.Close()

	ctx, stop := context.WithTimeout(context.Background(), 5*time.Minute)
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
	case why := <-ended:
		if why != "" {
			t.Fatalf("the viewer failed: %s", why)
		}
	case <-ctx.Done():
		t.Fatal("the viewer did not answer")
	}
	for _, s := range shots {
		if out[s.Name] == nil {
			t.Fatalf("the viewer made no picture %q", s.Name)
		}
	}
	return out
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
