package job_test

import (
	"bytes"
	"strings"
	"testing"

	"boothmock/internal/geom"
	"boothmock/internal/job"
	"boothmock/internal/light"
	"boothmock/internal/order"
	"boothmock/internal/page"
)

// A page that is too large to send is written whole, and it is said.
func TestALargePageIsTold(t *testing.T) {
	if raced {
		t.Skip("slow")
	}
	m := demo(t)
	if n := m.Notes(); len(n) > 0 {
		t.Errorf("of the demo it is said: %q", n)
	}
	plan := *m.Plan
	plan.Views = nil // no pictures: this is about the model
	mesh := geom.Grid(300, 300, func(u, v float64) (geom.Vec, float64, float64) { return geom.Vec{X: u, Y: v}, u, v })
	large := light.Surface{Part: 0, Mesh: mesh, Light: make([][3]float32, len(mesh.Vertices))}
	big := &job.Made{Plan: &plan, Report: m.Report, Sheet: m.Sheet, Stage: m.Stage, SetUp: order.Rehearsal{}, Lit: &light.Lit{Surfaces: append(m.Lit.Surfaces[:len(m.Lit.Surfaces):len(m.Lit.Surfaces)], large)}}
	var b bytes.Buffer
	if err := job.WritePage(big, &b); err != nil {
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
