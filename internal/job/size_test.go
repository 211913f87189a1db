package job_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/find/order"
	"boothmock/internal/handout/glb"
	"boothmock/internal/handout/pack"
	"boothmock/internal/handout/page"
	"boothmock/internal/job"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
	"boothmock/scenes/crowd"
)

// A page that is too large to send is written whole, and it is said.
func TestALargePageIsTold(t *testing.T) {
	long(t)
	m := demo(t)
	if n := m.Notes(); len(n) > 0 {
		t.Errorf("of the demo it is said: %q", n)
	}
	plan := *m.Plan
	plan.Views = nil                                                              // no pictures: this is about the model
	mesh := geom.Grid(520, 520, func(u, v float64) (geom.Vec, float64, float64) { // as rough as what packs badly
		_, rough := math.Modf(43758.5453 * math.Sin(float64(12.9898*u)+float64(78.233*v)))
		return geom.Vec{X: u + rough/1000, Y: v + rough/2000, Z: rough}, u, v
	})
	large := light.Surface{Part: 0, Mesh: mesh, Light: make([][3]float32, len(mesh.Vertices))}
	big, err := job.New(&plan)
	if err != nil {
		t.Fatal(err)
	}
	big.Stage, big.SetUp = m.Stage, func() order.Rehearsal { return order.Rehearsal{} }
	few := m.Lit().Surfaces
	big.Lit = func() *light.Lit { return &light.Lit{Surfaces: append(few[:len(few):len(few)], large)} }
	var b bytes.Buffer
	if err := job.WritePage(big, &b, job.Preview); err != nil {
		t.Fatal(err)
	}
	if b.Len() <= page.Limit {
		t.Fatalf("the page has %d bytes, and was to be larger than %d", b.Len(), page.Limit)
	}
	if n := big.Notes(); len(n) != 1 || !strings.Contains(n[0], "6 MB is what goes by mail") {
		t.Errorf("of a page with %d bytes it is said: %q", b.Len(), n)
	}
	if !bytes.HasPrefix(carried(t, b.Bytes()), []byte("glTF")) {
		t.Error("the page carries no model")
	}
}

// A booth of three hundred works, and more than two hundred solids, goes through every reader. Photographs, tags and daylight are
// left out: they have tests of their own.
func TestThreeHundredWorks(t *testing.T) {
	if raced {
		t.Skip("slow")
	}
	text := regexp.MustCompile(` image: [^,]*,|tags: \{\}\n`).ReplaceAllString(crowd.Scene(300), "")
	scene := filepath.Join(t.TempDir(), "booth.yaml")
	if err := os.WriteFile(scene, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	p, err := job.Load(scene, job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	works, solids := p.Works(), 0
	lit := light.Even(p)
	for _, part := range p.Parts {
		solids += len(part.Solids)
	}
	if works != 300 || solids < 500 {
		t.Fatalf("%d works and %d solids", works, solids)
	}
	m, err := job.New(p)
	if err != nil {
		t.Fatal(err)
	}
	m.Lit, m.Stage = func() *light.Lit { return lit }, m.Even
	if n := len(m.Checks().Sightlines); n%works != 0 || n < 25*works {
		t.Errorf("%d sightlines of %d works", n, works)
	}
	if m.Report().Verdict == "fail" {
		t.Errorf("the booth is to pass: %v", m.Report().Findings)
	}
	hung := 0
	for _, w := range m.Sheet().Walls {
		hung += len(w.Works)
	}
	if hung != works || len(m.Sheet().Stock) != works {
		t.Errorf("%d works hang on the sheet and %d are in stock", hung, len(m.Sheet().Stock))
	}
	r, err := order.Of(p, order.Options{})
	if err != nil || len(r.Steps) < 50 || r.Length < r.Bound {
		t.Errorf("%d steps in %d minutes, %v", len(r.Steps), r.Length, err)
	}
	var b bytes.Buffer
	if err := pack.Write(&b, p, m.Sheet(), pack.Options{}); err != nil || bytes.Count(b.Bytes(), []byte("/Type /Page\n")) < 10 {
		t.Errorf("the pack has %d bytes: %v", b.Len(), err)
	}
	b.Reset()
	if err := glb.Write(&b, p, lit, glb.Motion{}); err != nil || strings.Count(b.String(), `"work/w`) < works {
		t.Errorf("the .glb has %d bytes: %v", b.Len(), err)
	}
	img := m.Stage().Draw(p.Views[0], picture.Options{Width: 160, Height: 90})
	if img.Rect.Dx() != 160 {
		t.Errorf("a picture %v", img.Rect)
	}
}
