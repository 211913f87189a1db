// Package glb writes a booth as one binary glTF 2.0 file (ISO/IEC 12113), for any viewer of 3D models: every part is a
// node named by its ID, every view a camera, every image embedded once, and the daylight baked into the vertex colours.
//
// glTF's axes are the booth's own (metres, right-handed, +Y up, front +Z), so nothing is turned. The same booth gives
// the same bytes.
package glb

import (
	"bytes"
	"io"
	"math"

	"boothmock/internal/basis/imprint"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
	"boothmock/internal/view/light"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/ext/unlit"
)

// Write writes the booth p in the light l, which must be p's own, with what moves, for any viewer, also one that lights it
// anew. It fails if an image is not an embeddable file or if w fails.
func Write(w io.Writer, p *booth.Plan, l *light.Lit, m Motion) error {
	b := &builder{plan: p, surfaces: nearby(p, apart(l.Surfaces)), normals: true}
	return b.write(w, m)
}

// WritePlain is Write for the page's own viewer, which lights nothing and has the whole ground before its sky: nothing moves,
// and there are no normals, which would add a third to the meshes.
func WritePlain(w io.Writer, p *booth.Plan, l *light.Lit) error {
	b := &builder{plan: p, surfaces: l.Surfaces}
	return b.write(w, Motion{})
}

// WriteLinked is WritePlain with every image at an address of its own, which link gives: so that who draws one version of a booth
// after the other need not have its photographs again.
func WriteLinked(w io.Writer, p *booth.Plan, l *light.Lit, link func(*art.Image) string) error {
	b := &builder{plan: p, surfaces: l.Surfaces, link: link}
	return b.write(w, Motion{})
}

func (b *builder) write(w io.Writer, m Motion) error {
	b.materials, b.nodes = map[material]int{}, map[booth.ID]int{}
	b.doc.Asset = gltf.Asset{Version: "2.0", Generator: imprint.Name}
	b.doc.Scene = gltf.Index(0)
	b.doc.Scenes = []*gltf.Scene{{Name: b.plan.Event, Nodes: []int{0}}}
	if err := b.tree(); err != nil {
		return err
	}
	b.move(m)
	if len(b.doc.Materials) > 0 {
		b.doc.ExtensionsUsed = []string{unlit.ExtensionName}
	}
	b.pack()
	// The encoder does not look at every error of its writer: let it write to memory.
	var file bytes.Buffer
	if err := gltf.NewEncoder(&file).Encode(&b.doc); err != nil {
		return err
	}
	_, err := w.Write(file.Bytes())
	return err
}

// builder is a document on its way.
type builder struct {
	doc       gltf.Document
	plan      *booth.Plan
	surfaces  []light.Surface
	normals   bool                    // are written
	link      func(*art.Image) string // address of an image; nil: they are embedded
	streams   []stream                // one a buffer view, in the same order
	images    []embedded
	materials map[material]int
	nodes     map[booth.ID]int // of the parts
}

// round rounds to a thousand-millionth, a nanometre for lengths: it keeps the text short, and the same on processors
// whose last bit differs.
func round(x float64) float64 {
	return math.Round(float64(x*1e9))/1e9 + 0 // + 0 makes 0 of -0
}
