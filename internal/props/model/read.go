package model

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"
)

const (
	exportHint = "export it again as a .glb, glTF binary 2.0, without compression"
	fewerHint  = "reduce it in the program that it was made with, where that is called decimate, simplify or reduce"
)

var errOut = errors.New("a part of the file is said to lie outside of it")

// source is what a model is read from, ready what came of it.
type source struct {
	file [sha256.Size]byte
	name string
}

type ready struct {
	Model
	err error
}

// Load is the model of a file in a folder: what was kept of a file with the same bytes is taken over. An error is a fault.Fault without a
// place.
func Load(fsys fs.FS, name string, kept *answer.Kept) (Model, error) {
	if !strings.EqualFold(path.Ext(name), ".glb") {
		return Model{}, bad("export it as a .glb, glTF binary 2.0", "%s is no .glb", name)
	}
	file, err := disk.Read(fsys, name, MaxBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return Model{}, bad(missingHint(fsys, name), "there is no file %s", name)
	case errors.Is(err, disk.ErrLarge):
		return Model{}, bad("make its pictures smaller, or export less of it", "the file %s has more than the %d MB that can be read", name, MaxBytes/1_000_000)
	case err != nil:
		return Model{}, bad("check that it can be opened", "the file %s cannot be read: %s", name, disk.Why(err))
	}
	r := answer.Of(kept, source{sha256.Sum256(file), name}, func() (ready, int) {
		m, err := Read(file, name)
		return ready{m, err}, m.Bytes()
	})
	return r.Model, r.err
}

// missingHint is the .glb of the folder that was most likely meant.
func missingHint(fsys fs.FS, name string) string {
	var names []string
	entries, _ := fs.ReadDir(fsys, path.Dir(name))
	for _, e := range entries {
		if strings.EqualFold(path.Ext(e.Name()), ".glb") {
			names = append(names, path.Join(path.Dir(name), e.Name()))
		}
	}
	if near, ok := fault.Nearest(name, names); ok {
		return "did you mean " + near + "?"
	}
	return "names start from the scene's folder"
}

// Read is what the .glb of a name holds. An error is a fault.Fault without a place.
func Read(file []byte, name string) (m Model, err error) {
	words, data, err := chunks(file, name)
	if err != nil {
		return m, err
	}
	defer func() {
		// The library reads what strangers wrote: should it stumble, the file is at fault and the program goes on.
		if recover() != nil {
			m, err = Model{}, bad(exportHint, "%s is damaged: it contradicts itself", name)
		}
	}()
	d := new(gltf.Document)
	if err := json.Unmarshal(words, d); err != nil {
		return m, bad(exportHint, "%s is damaged: what it says of itself cannot be read", name)
	}
	r := &reader{doc: d, name: name, images: map[[2]int]picture{}}
	if err := r.check(data); err != nil {
		return m, err
	}
	if err := r.gather(); err != nil {
		return m, err
	}
	for _, u := range r.used {
		p, err := r.piece(u)
		if err != nil {
			return m, err
		}
		if len(p.Mesh.Triangles) > 0 {
			m.Pieces = append(m.Pieces, p)
		}
	}
	m.Sum = sha256.Sum256(file)
	return m, m.stood(name)
}

// chunks are the JSON of a .glb and its binary data (glTF 2.0, 4.4).
func chunks(file []byte, name string) (words, data []byte, err error) {
	const magic, version, isJSON, isBinary = 0x46546c67, 2, 0x4e4f534a, 0x004e4942
	at := func(i int) uint64 { return uint64(binary.LittleEndian.Uint32(file[i:])) }
	switch {
	case len(file) >= 12 && at(0) == magic && at(4) != version:
		return nil, nil, bad(exportHint, "%s is glTF of version %d, and only version 2 can be read", name, at(4))
	case len(file) > 0 && file[0] == '{':
		return nil, nil, bad("export it as a .glb, which is all in one file", "%s is a .gltf, which needs other files beside it", name)
	case len(file) < 20 || at(0) != magic || at(16) != isJSON:
		return nil, nil, bad(exportHint, "%s is no .glb", name)
	}
	n := at(12)
	switch {
	case at(8) > uint64(len(file)) || 20+n > uint64(len(file)):
		return nil, nil, bad("copy it again", "%s is cut short: its end is missing", name)
	case n > mostWords:
		return nil, nil, bad(fewerHint, "%s is too large: it lists more things than can be read", name)
	}
	words, rest := file[20:20+n], file[20+n:]
	if len(rest) < 8 {
		return words, nil, nil
	}
	size := uint64(binary.LittleEndian.Uint32(rest))
	if binary.LittleEndian.Uint32(rest[4:]) != isBinary {
		return words, nil, nil
	}
	if 8+size > uint64(len(rest)) {
		return nil, nil, bad("copy it again", "%s is cut short: its end is missing", name)
	}
	return words, rest[8 : 8+size], nil
}

// reader is a file on its way.
type reader struct {
	doc       *gltf.Document
	name      string
	used      []use
	triangles int
	vertices  int
	visited   []bool
	images    map[[2]int]picture // that were read, by texture and whether they need to be opaque
}

// use is a primitive where a node puts it.
type use struct {
	of *gltf.Primitive
	at geom.Frame // affine: its axes are neither of length 1 nor square to each other
}

// check refuses what the file needs and cannot have, and gives its one buffer what is in it.
func (r *reader) check(data []byte) error {
	for _, need := range r.doc.ExtensionsRequired {
		if !strings.HasPrefix(need, "KHR_materials_") {
			return bad(exportHint, "%s needs %s, which cannot be read", r.name, short(need))
		}
	}
	for i, b := range r.doc.Buffers {
		switch {
		case b.URI != "":
			return bad("export it as a .glb, which is all in one file", "%s is not whole: a part of it is in another file", r.name)
		case i > 0 || b.ByteLength < 0 || b.ByteLength > len(data):
			return bad(exportHint, "%s is damaged: %v", r.name, errOut)
		}
		b.Data = data[:b.ByteLength]
	}
	for _, v := range r.doc.BufferViews {
		if v.Buffer < 0 || v.Buffer >= len(r.doc.Buffers) || v.ByteOffset < 0 || v.ByteLength < 0 || v.ByteStride < 0 || v.ByteStride > 252 ||
			v.ByteOffset > len(r.doc.Buffers[v.Buffer].Data)-v.ByteLength {
			return bad(exportHint, "%s is damaged: %v", r.name, errOut)
		}
	}
	return nil
}

// short is a word of the file as a message can have it.
func short(s string) string {
	s = strings.Map(func(c rune) rune {
		if c == '_' || c >= '0' && c <= '9' || c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' {
			return c
		}
		return -1
	}, s)
	return s[:min(len(s), 40)]
}

// gather finds the primitives that the file's scene shows, and counts their triangles.
func (r *reader) gather() error {
	d := r.doc
	r.visited = make([]bool, len(d.Nodes))
	n := 0
	if d.Scene != nil {
		n = *d.Scene
	}
	if n < 0 || n >= len(d.Scenes) {
		return bad("look at it in a viewer of .glb files first", "%s shows nothing: it has no scene", r.name)
	}
	for _, root := range d.Scenes[n].Nodes {
		if err := r.visit(root, geom.World, 0); err != nil {
			return err
		}
	}
	return nil
}

func (r *reader) visit(n int, above geom.Frame, deep int) error {
	if n < 0 || n >= len(r.doc.Nodes) || r.visited[n] || deep > mostNodes {
		return bad(exportHint, "%s is damaged: its parts are not in one tree", r.name)
	}
	r.visited[n] = true
	node := r.doc.Nodes[n]
	at := placed(node, above)
	if node.Mesh != nil {
		if *node.Mesh < 0 || *node.Mesh >= len(r.doc.Meshes) {
			return bad(exportHint, "%s is damaged: %v", r.name, errOut)
		}
		for _, p := range r.doc.Meshes[*node.Mesh].Primitives {
			if p.Mode != gltf.PrimitiveTriangles && p.Mode != gltf.PrimitiveTriangleStrip && p.Mode != gltf.PrimitiveTriangleFan {
				continue // points and lines
			}
			corners, err := r.corners(p)
			if err != nil {
				return err
			}
			if p.Mode == gltf.PrimitiveTriangles {
				corners /= 3
			}
			if r.triangles += corners; r.triangles > MaxTriangles {
				return bad(fewerHint, "%s has more than the %d triangles that can be drawn", r.name, MaxTriangles)
			}
			if r.used = append(r.used, use{p, at}); len(r.used) > mostNodes {
				return bad(fewerHint, "%s has more than %d parts", r.name, mostNodes)
			}
		}
	}
	for _, c := range node.Children {
		if err := r.visit(c, at, deep+1); err != nil {
			return err
		}
	}
	return nil
}

// corners is how many corners the triangles of a primitive have. What it reads is no larger than the file and no more than can be drawn.
func (r *reader) corners(p *gltf.Primitive) (n int, err error) {
	for _, i := range p.Attributes {
		if _, err := r.accessor(i); err != nil {
			return 0, err
		}
	}
	i, ok := p.Attributes[gltf.POSITION]
	if !ok {
		return 0, nil
	}
	n = r.doc.Accessors[i].Count
	if r.vertices += n; r.vertices > mostVertices {
		return 0, bad(fewerHint, "%s has more corners than can be read", r.name)
	}
	if p.Indices != nil {
		if _, err = r.accessor(*p.Indices); err != nil {
			return 0, err
		}
		n = r.doc.Accessors[*p.Indices].Count
	}
	return n, nil
}

// accessor is one of the file's, whose numbers all lie within it. The library makes room for them before it looks.
func (r *reader) accessor(i int) (*gltf.Accessor, error) {
	if i < 0 || i >= len(r.doc.Accessors) {
		return nil, bad(exportHint, "%s is damaged: %v", r.name, errOut)
	}
	a := r.doc.Accessors[i]
	if a.Sparse != nil || a.BufferView == nil {
		return nil, bad(exportHint, "%s keeps numbers in a way that cannot be read", r.name)
	}
	if a.Count > 3*MaxTriangles {
		return nil, bad(fewerHint, "%s has more than the %d triangles that can be drawn", r.name, MaxTriangles)
	}
	if *a.BufferView < 0 || *a.BufferView >= len(r.doc.BufferViews) || a.Count < 1 || a.ByteOffset < 0 {
		return nil, bad(exportHint, "%s is damaged: %v", r.name, errOut)
	}
	v := r.doc.BufferViews[*a.BufferView]
	size := gltf.SizeOfElement(a.ComponentType, a.Type)
	stride := max(size, v.ByteStride)
	if v.ByteStride > 0 && v.ByteStride < size || a.ByteOffset > v.ByteLength-size-stride*(a.Count-1) {
		return nil, bad(exportHint, "%s is damaged: %v", r.name, errOut)
	}
	return a, nil
}

// placed is where a node puts what is in it (glTF 2.0, 3.5.3).
func placed(n *gltf.Node, above geom.Frame) geom.Frame {
	if m := n.MatrixOrDefault(); m != gltf.DefaultMatrix {
		column := func(i int) geom.Vec { return above.Turn(geom.Vec{X: m[i], Y: m[i+1], Z: m[i+2]}) }
		return geom.Frame{Origin: above.At(geom.Vec{X: m[12], Y: m[13], Z: m[14]}), X: column(0), Y: column(4), Z: column(8)}
	}
	q, s, t := n.RotationOrDefault(), n.ScaleOrDefault(), n.Translation
	axis := geom.Vec{X: q[0], Y: q[1], Z: q[2]}
	turned := func(v geom.Vec, by float64) geom.Vec { // v + 2w(q × v) + 2q × (q × v)
		c := axis.Cross(v)
		return above.Turn(v.Add(c.Mul(2 * q[3])).Add(axis.Cross(c).Mul(2)).Mul(by))
	}
	return geom.Frame{
		Origin: above.At(geom.Vec{X: t[0], Y: t[1], Z: t[2]}),
		X:      turned(geom.Vec{X: 1}, s[0]), Y: turned(geom.Vec{Y: 1}, s[1]), Z: turned(geom.Vec{Z: 1}, s[2]),
	}
}

// piece is a primitive as a surface.
func (r *reader) piece(u use) (Piece, error) {
	p := Piece{Colour: [3]uint8{0xc8, 0xc4, 0xbc}}
	at, ok := u.of.Attributes[gltf.POSITION]
	if !ok {
		return p, nil
	}
	damaged := bad(exportHint, "%s is damaged: its numbers cannot be read", r.name)
	positions, err := modeler.ReadPosition(r.doc, r.doc.Accessors[at], nil)
	if err != nil {
		return p, damaged
	}
	vertices := make([]geom.Vertex, len(positions))
	for i, v := range positions {
		if vertices[i].P = u.at.At(geom.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])}); !finite(vertices[i].P) {
			return p, damaged
		}
	}
	mirrored := u.at.X.Cross(u.at.Y).Dot(u.at.Z) < 0
	if err := r.normals(u, vertices, mirrored); err != nil {
		return p, damaged
	}
	if err := r.finish(&p, u.of, vertices); err != nil {
		return p, err
	}
	triangles, err := r.corner(u.of, len(vertices))
	if err != nil {
		return p, damaged
	}
	if mirrored {
		for i := range triangles {
			slices.Reverse(triangles[i][:])
		}
	}
	p.Mesh = sound(vertices, triangles)
	return p, nil
}

// normals reads those of a primitive; where there are none they are left out.
func (r *reader) normals(u use, vertices []geom.Vertex, mirrored bool) error {
	n, ok := u.of.Attributes[gltf.NORMAL]
	if !ok {
		return nil
	}
	normals, err := modeler.ReadNormal(r.doc, r.doc.Accessors[n], nil)
	if err != nil || len(normals) < len(vertices) {
		return errOut
	}
	// Those of what is stretched are turned by the inverse of the transpose, which the axes' cross products are, but for their length.
	f := geom.Frame{X: u.at.Y.Cross(u.at.Z), Y: u.at.Z.Cross(u.at.X), Z: u.at.X.Cross(u.at.Y)}
	for i := range vertices {
		v := f.Turn(geom.Vec{X: float64(normals[i][0]), Y: float64(normals[i][1]), Z: float64(normals[i][2])})
		if mirrored {
			v = v.Neg()
		}
		if v.Finite() {
			vertices[i].N = v.Unit()
		}
	}
	return nil
}

// corner are the triangles of a primitive by the numbers of their corners.
func (r *reader) corner(p *gltf.Primitive, vertices int) (out [][3]int, err error) {
	var of []int
	if p.Indices == nil {
		for i := range vertices {
			of = append(of, i)
		}
	} else {
		numbers, err := modeler.ReadIndices(r.doc, r.doc.Accessors[*p.Indices], nil)
		if err != nil {
			return nil, err
		}
		for _, i := range numbers {
			if int(i) >= vertices {
				return nil, errOut
			}
			of = append(of, int(i))
		}
	}
	for i := 0; i+2 < len(of); i++ {
		switch {
		case p.Mode == gltf.PrimitiveTriangleFan:
			out = append(out, [3]int{of[0], of[i+1], of[i+2]})
		case p.Mode == gltf.PrimitiveTriangleStrip && i%2 == 1:
			out = append(out, [3]int{of[i+1], of[i], of[i+2]})
		case p.Mode == gltf.PrimitiveTriangleStrip || i%3 == 0:
			out = append(out, [3]int{of[i], of[i+1], of[i+2]})
		}
	}
	return out, nil
}

// sound is the triangles that have an area, with the vertices that they need. One whose corners have no direction of their own, or a
// wrong one, is flat.
func sound(vertices []geom.Vertex, triangles [][3]int) (m geom.Mesh) {
	number := make([]int, len(vertices)) // plus one
	for _, t := range triangles {
		a, b, c := vertices[t[0]].P, vertices[t[1]].P, vertices[t[2]].P
		n := b.Sub(a).Cross(c.Sub(a))
		if long := max(a.Dist(b), b.Dist(c), c.Dist(a)); n.Len() <= 1e-9*long*long {
			continue
		}
		n = n.Unit()
		for k, i := range t {
			v := vertices[i]
			if flat := v.N.Dot(n) < 0.05; flat || number[i] == 0 {
				if flat {
					v.N = n
				}
				m.Vertices = append(m.Vertices, v)
				t[k] = len(m.Vertices) - 1
				if !flat {
					number[i] = len(m.Vertices)
				}
				continue
			}
			t[k] = number[i] - 1
		}
		m.Triangles = append(m.Triangles, t)
	}
	return m
}
