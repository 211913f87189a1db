package job_test

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/base64"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/imprint"
	"boothmock/internal/handout/page"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/film"
)

// carried is the .glb in a page.
func carried(t *testing.T, text []byte) []byte {
	t.Helper()
	_, rest, ok := strings.Cut(string(text), `<script type="text/plain" id="model">`)
	in, _, end := strings.Cut(rest, "</script>")
	if !ok || !end {
		t.Fatal("the page carries no model")
	}
	z, err := gzip.NewReader(base64.NewDecoder(base64.StdEncoding, strings.NewReader(in)))
	if err != nil {
		t.Fatal(err)
	}
	glb, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return glb
}

// drawn is how many triangles each node of a .glb has.
func drawn(t *testing.T, file []byte) map[string]int {
	d := readable(t, file)
	out := map[string]int{}
	for _, n := range d.Nodes {
		if n.Mesh != nil {
			for _, p := range d.Meshes[*n.Mesh].Primitives {
				out[n.Name] += d.Accessors[*p.Indices].Count / 3
			}
		}
	}
	return out
}

// The demo is built: every file is there and whole, the page carries the model that lies beside it, and page and film are
// small enough to send.
func TestTheDemoIsBuilt(t *testing.T) {
	long(t)
	m := demo(t)
	dir := t.TempDir()
	var want, told []string
	for _, o := range job.Outputs(m) {
		want = append(want, o.Name)
	}
	if _, err := job.Build(context.Background(), m, dir, disk.Over{}, func(name string) { told = append(told, name) }); err != nil {
		t.Fatal(err)
	}
	got := slices.DeleteFunc(names(t, dir), func(name string) bool { return name == disk.ContentsFile })
	for _, list := range [][]string{want, told, got} {
		slices.Sort(list)
	}
	if !slices.Equal(got, want) || !slices.Equal(told, want) || len(want) < 40 {
		t.Fatalf("the files are %v, told are %v, want %v", got, told, want)
	}
	files := map[string][]byte{}
	for _, name := range want {
		if wrong := broken(filepath.Join(dir, name)); wrong != "" {
			t.Errorf("%s: %s", name, wrong)
		}
		b, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if what, ours := imprint.Of(b); !ours {
			t.Errorf("%s is %s that says nothing of who made it", name, what)
		}
		files[name] = b
	}
	if n := len(files["share.html"]); n > page.Limit {
		t.Errorf("the demo's page has %d bytes", n)
	}
	if n := len(files["walk-in.gif"]); n > film.Most {
		t.Errorf("the demo's film has %d bytes", n)
	}
	if n := len(files["walk-in.webp"]); n > len(files["walk-in.gif"])/3 {
		t.Errorf("as WebP the demo's film has %d bytes", n)
	}
	in, beside := drawn(t, carried(t, files["share.html"])), drawn(t, files["booth.glb"])
	for id, n := range beside {
		if part := m.Plan.Part(booth.ID(id)); in[id] != n && !part.Flat { // of the ground booth.glb has less
			t.Errorf("%s has %d triangles in booth.glb and %d in the page", id, n, in[id])
		}
	}
	for id := range in {
		if part := m.Plan.Part(booth.ID(id)); beside[id] == 0 && !part.Beyond { // of the fair around booth.glb has what stands beside the pitch
			t.Errorf("the page draws %s, booth.glb does not", id)
		}
	}
	if c, err := jpeg.DecodeConfig(bytes.NewReader(files["share.jpg"])); err != nil || c.Width != 1200 || c.Height != 630 {
		t.Errorf("the preview is %v, %v", c, err)
	}
}

// Thirty works with photographs that are hard to compress still make a page that can be sent.
func TestThirtyWorksFit(t *testing.T) {
	long(t)
	dir := t.TempDir()
	r := rand.New(rand.NewPCG(1, 2))
	photo := image.NewYCbCr(image.Rect(0, 0, 1500, 1000), image.YCbCrSubsampleRatio420)
	for i := range photo.Y {
		photo.Y[i] = byte(90 + i%1500/20 + r.IntN(60))
	}
	for i := range photo.Cb {
		photo.Cb[i], photo.Cr[i] = byte(118+r.IntN(20)), byte(118+r.IntN(20))
	}
	var works, rows strings.Builder
	for i := range 30 {
		photo.Y[i] = 255 // no two alike
		f, err := os.Create(filepath.Join(dir, fmt.Sprintf("w%d.jpg", i)))
		if err != nil {
			t.Fatal(err)
		}
		if err := jpeg.Encode(f, photo, &jpeg.Options{Quality: 90}); err != nil {
			t.Fatal(err)
		}
		f.Close()
		fmt.Fprintf(&works, "  - {name: w%d, title: Work %d, image: w%d.jpg, size: 8 x 12, weight: 2lb}\n", i, i, i)
	}
	for i, wall := range []string{"left", "back", "right"} {
		for k, centre := range []int{46, 64} {
			var names []string
			for n := range 5 {
				names = append(names, fmt.Sprintf("w%d", 10*i+5*k+n))
			}
			fmt.Fprintf(&rows, "  - {wall: %s, works: [%s], centre: %d}\n", wall, strings.Join(names, ", "), centre)
		}
	}
	scene := filepath.Join(dir, "fair.yaml")
	text := `units: in
pitch: {width: 10ft, depth: 10ft, aisle: 12ft, ground: grass, neighbours: none}
tent: {}
drapes: {walls: [left, back, right], cloth: "#8b8f94", top: 84}
walls:
  - {side: left, hang on: mesh, spacing: 2, top: 82}
  - {side: back, hang on: mesh, spacing: 2, top: 82}
  - {side: right, hang on: mesh, spacing: 2, top: 82}
works:
` + works.String() + "rows:\n" + rows.String()
	if err := os.WriteFile(scene, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	p, err := job.Load(scene, job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := job.New(p)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := job.WritePage(m, &b, job.Preview); err != nil {
		t.Fatal(err)
	}
	t.Logf("%d works: %d bytes, of which the model %d", len(m.Sheet().Stock), b.Len(), len(carried(t, b.Bytes())))
	if len(m.Sheet().Stock) != 30 || b.Len() > page.Limit {
		t.Errorf("%d works make %d bytes; at most %d can be sent", len(m.Sheet().Stock), b.Len(), page.Limit)
	}
}
