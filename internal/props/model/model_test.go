package model

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/geom"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"
)

// cube is a document with a cube of 2 in the file, 20 wide, 60 high and 40 deep where its node puts it, with a picture on it if there is one.
func cube(picture []byte) *gltf.Document {
	d := gltf.NewDocument()
	var at [][3]float32
	var on [][2]float32
	var of []uint16
	m := geom.Solids(geom.Box(geom.World, geom.Vec{X: -1, Y: -1, Z: -1}, geom.Vec{X: 1, Y: 1, Z: 1}))
	for i, v := range m.Vertices {
		at, on = append(at, [3]float32{float32(v.P.X), float32(v.P.Y), float32(v.P.Z)}), append(on, [2]float32{float32(i%2) * 3, 0.5})
	}
	for _, t := range m.Triangles {
		of = append(of, uint16(t[0]), uint16(t[1]), uint16(t[2]))
	}
	p := &gltf.Primitive{Indices: gltf.Index(modeler.WriteIndices(d, of)), Attributes: gltf.PrimitiveAttributes{gltf.POSITION: modeler.WritePosition(d, at)}, Material: gltf.Index(0)}
	colour := &gltf.PBRMetallicRoughness{BaseColorFactor: &[4]float64{1, 0, 0, 1}}
	d.Materials = []*gltf.Material{{PBRMetallicRoughness: colour, DoubleSided: true}}
	if picture != nil {
		p.Attributes[gltf.TEXCOORD_0] = modeler.WriteTextureCoord(d, on)
		n, err := modeler.WriteImage(d, "skin", "image/png", bytes.NewReader(picture))
		if err != nil {
			panic(err)
		}
		d.Textures = []*gltf.Texture{{Source: gltf.Index(n)}}
		colour.BaseColorTexture = &gltf.TextureInfo{}
	}
	d.Meshes = []*gltf.Mesh{{Primitives: []*gltf.Primitive{p}}}
	turn := math.Sqrt2 / 2 // a quarter about Y: width and depth change places
	d.Nodes = []*gltf.Node{{Children: []int{1}, Rotation: [4]float64{0, turn, 0, turn}}, {Mesh: gltf.Index(0), Scale: [3]float64{-20, 30, 10}, Translation: [3]float64{7, 8, 9}}}
	d.Scenes[0].Nodes = []int{0}
	return d
}

func written(d *gltf.Document) []byte {
	var b bytes.Buffer
	if err := gltf.NewEncoder(&b).Encode(d); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func checks(alpha uint8) []byte {
	m := image.NewNRGBA(image.Rect(0, 0, 6, 4))
	for i := range 24 {
		m.SetNRGBA(i%6, i/6, color.NRGBA{uint8(40 * (i % 6)), 90, 30, alpha})
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// Nodes scale, turn, mirror and move what is in them (glTF 2.0, 3.5.3); the model stands on the ground, is as large as the scene says, and
// is closed, so nobody sees its inside. A picture that goes on beyond its edges is a square.
func TestRead(t *testing.T) {
	m, err := Read(written(cube(checks(255))), "cube.glb")
	if err != nil {
		t.Fatal(err)
	}
	if want := (geom.Vec{X: 20, Y: 60, Z: 40}); m.Size.Dist(want) > 1e-4 {
		t.Errorf("%v, want %v", m.Size, want)
	}
	if s := m.Stretched(2, 4, 3); math.Abs(s-2) > 1e-6 {
		t.Errorf("half as high as it should be, and stretched %v times", s)
	}
	pieces, solids, blocks := m.Scaled(0.2, 0.4, 0.6)
	if len(pieces) != 1 || len(solids) != 1 || len(blocks) != 1 {
		t.Fatalf("%d pieces, %d solids, %d blocks", len(pieces), len(solids), len(blocks))
	}
	lo, hi := solids[0].Bounds()
	if lo.Dist(geom.Vec{X: -0.1, Z: -0.2}) > 1e-6 || hi.Dist(geom.Vec{X: 0.1, Y: 0.6, Z: 0.2}) > 1e-6 {
		t.Errorf("it reaches from %v to %v", lo, hi)
	}
	if v, _ := solids[0].Mass(); math.Abs(v-0.048) > 1e-6 {
		t.Errorf("%v m³, want 0.2 x 0.4 x 0.6", v)
	}
	p := pieces[0]
	if err := p.Mesh.Check(); err != nil || len(p.Mesh.Triangles) != 12 {
		t.Errorf("%d triangles: %v", len(p.Mesh.Triangles), err)
	}
	for _, tr := range p.Mesh.Triangles {
		a, b, c := p.Mesh.Vertices[tr[0]], p.Mesh.Vertices[tr[1]], p.Mesh.Vertices[tr[2]]
		n := b.P.Sub(a.P).Cross(c.P.Sub(a.P)).Unit()
		if out := a.P.Sub(geom.Vec{Y: 0.3}); n.Dot(out) <= 0 || n.Dot(a.N) < 0.99 {
			t.Errorf("a side at %v faces %v, its light %v", a.P, n, a.N)
		}
	}
	if p.TwoSided || !p.Repeats || p.Image.Width != p.Image.Height || p.Colour != [3]uint8{255, 0, 0} {
		t.Errorf("two sides: %v, repeats: %v, %d x %d, colour %v", p.TwoSided, p.Repeats, p.Image.Width, p.Image.Height, p.Colour)
	}
}

// Whatever is wrong with a file is told in words, with a hint, before there is room for what it claims to hold.
func TestHostile(t *testing.T) {
	good := written(cube(checks(255)))
	change := func(do func(d *gltf.Document)) []byte {
		d := cube(checks(255))
		do(d)
		return written(d)
	}
	words := func(old, new string) []byte { // of the JSON, as long as before
		n := binary.LittleEndian.Uint32(good[12:])
		out := bytes.Replace(good[:20+n], []byte(old), []byte(new), 1)
		if len(out) != int(20+n) || bytes.Equal(out, good[:20+n]) {
			t.Fatalf("%q is not in %s", old, good[20:20+n])
		}
		return append(out, good[20+n:]...)
	}
	for name, c := range map[string]struct {
		file []byte
		says string
	}{
		"empty":              {nil, "is no .glb"},
		"a picture":          {checks(255), "is no .glb"},
		"a .gltf":            {[]byte(`{"asset": {}}`), "is a .gltf"},
		"version 1":          {append([]byte("glTF\x01\x00\x00\x00"), good[8:]...), "glTF of version 1"},
		"cut short":          {good[:len(good)/2], "cut short"},
		"a head alone":       {good[:20], "cut short"},
		"no JSON":            {words(`"asset"`, `"asset{`), "cannot be read"},
		"millions":           {words(`"count":36`, `"count":3e`), "cannot be read"},
		"compressed":         {change(func(d *gltf.Document) { d.ExtensionsRequired = []string{"KHR_draco_mesh_compression"} }), "KHR_draco_mesh_compression"},
		"odd words":          {change(func(d *gltf.Document) { d.ExtensionsRequired = []string{"X\x1b[31m<b>"} }), "needs X31mb,"},
		"a buffer elsewhere": {change(func(d *gltf.Document) { d.Buffers[0].URI = "https://example.org/a.bin" }), "in another file"},
		"a picture elsewhere": {change(func(d *gltf.Document) {
			d.Images[0].BufferView, d.Images[0].URI = nil, "../secret.png"
		}), "picture of it is in another file"},
		"see-through":    {written(seeThrough()), "see-through"},
		"many triangles": {change(func(d *gltf.Document) { d.Accessors[0].Count = 3_000_000 }), "triangles"},
		"many copies": {change(func(d *gltf.Document) {
			for range 5000 {
				d.Nodes[0].Children = append(d.Nodes[0].Children, len(d.Nodes))
				d.Nodes = append(d.Nodes, &gltf.Node{Mesh: gltf.Index(0)})
			}
		}), "triangles"},
		"a ring of nodes":     {change(func(d *gltf.Document) { d.Nodes[1].Children = []int{0} }), "one tree"},
		"two parents":         {change(func(d *gltf.Document) { d.Nodes[0].Children = []int{1, 1} }), "one tree"},
		"no node":             {change(func(d *gltf.Document) { d.Scenes[0].Nodes = []int{-1} }), "one tree"},
		"no scene":            {change(func(d *gltf.Document) { d.Scenes = nil }), "shows nothing"},
		"no mesh":             {change(func(d *gltf.Document) { d.Nodes[1].Mesh = gltf.Index(9) }), "outside of it"},
		"nothing":             {change(func(d *gltf.Document) { d.Nodes[1].Mesh = nil }), "shows nothing"},
		"lines":               {change(func(d *gltf.Document) { d.Meshes[0].Primitives[0].Mode = gltf.PrimitiveLines }), "shows nothing"},
		"past the end":        {change(func(d *gltf.Document) { d.Accessors[1].ByteOffset = 1 << 40 }), "outside of it"},
		"before the start":    {change(func(d *gltf.Document) { d.Accessors[1].ByteOffset = -4 }), "outside of it"},
		"a view past the end": {change(func(d *gltf.Document) { d.BufferViews[0].ByteOffset = math.MaxInt64 - 3 }), "outside of it"},
		"no view":             {change(func(d *gltf.Document) { d.Accessors[0].BufferView = gltf.Index(77) }), "outside of it"},
		"no numbers":          {change(func(d *gltf.Document) { d.Accessors[0].BufferView = nil }), "cannot be read"},
		"no accessor":         {change(func(d *gltf.Document) { d.Meshes[0].Primitives[0].Indices = gltf.Index(-2) }), "outside of it"},
		"a wrong kind":        {change(func(d *gltf.Document) { d.Accessors[1].Type = gltf.AccessorVec2 }), "cannot be read"},
		"no material":         {change(func(d *gltf.Document) { d.Meshes[0].Primitives[0].Material = gltf.Index(4) }), "outside of it"},
		"no texture":          {change(func(d *gltf.Document) { d.Materials[0].PBRMetallicRoughness.BaseColorTexture.Index = 3 }), "picture of it is missing"},
		"flat":                {change(func(d *gltf.Document) { d.Nodes[1].Scale = [3]float64{1, 1e-12, 1} }), "flat"},
		"endless":             {change(func(d *gltf.Document) { d.Nodes[1].Scale = [3]float64{1e300, 1, 1} }), "damaged"},
		"no number": {change(func(d *gltf.Document) {
			copy(d.Buffers[0].Data[d.BufferViews[1].ByteOffset:], "\xff\xff\xff\xff")
		}), "damaged"},
		"a corner that is not there": {change(func(d *gltf.Document) {
			copy(d.Buffers[0].Data[d.BufferViews[0].ByteOffset:], "\xf0\xf0")
		}), "damaged"},
	} {
		_, err := Read(c.file, "thing.glb")
		if err == nil || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), "thing.glb") || !strings.HasSuffix(err.Error(), ")") {
			t.Errorf("%s: %v, want %q and a hint", name, err, c.says)
		}
	}
}

func seeThrough() *gltf.Document {
	d := cube(checks(40))
	d.Materials[0].AlphaMode = gltf.AlphaMask
	return d
}

// A file that is not there is one whose name is alike, if there is one.
func TestMissing(t *testing.T) {
	files := fstest.MapFS{"art/vase.glb": {Data: written(cube(nil))}, "art/vase.jpg": {}}
	for name, says := range map[string]string{"art/vace.glb": "did you mean art/vase.glb?", "art/vase.jpg": "is no .glb", "none/a.glb": "names start from"} {
		if _, err := Load(files, name, nil); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want %q", name, err, says)
		}
	}
	if m, err := Load(files, "art/vase.glb", nil); err != nil || m.Pieces[0].Colour != [3]uint8{255, 0, 0} {
		t.Error(err)
	}
}

// No bytes at all make the reader stumble, and what it reads is sound.
func FuzzRead(f *testing.F) {
	f.Add(written(cube(nil)))
	f.Add(written(cube(checks(255))))
	for _, do := range []func(d *gltf.Document){
		func(d *gltf.Document) { d.Meshes[0].Primitives[0].Mode = gltf.PrimitiveTriangleStrip },
		func(d *gltf.Document) { d.Meshes[0].Primitives[0].Indices = nil },
		func(d *gltf.Document) { d.BufferViews[1].ByteStride = 24 },
	} {
		d := cube(checks(255))
		do(d)
		f.Add(written(d))
	}
	f.Fuzz(func(t *testing.T, file []byte) {
		m, err := Read(file, "a.glb")
		if err != nil {
			return
		}
		n := 0
		for _, p := range m.Pieces {
			if n += len(p.Mesh.Triangles); n > MaxTriangles {
				t.Fatal("more triangles than may be")
			}
			if err := p.Mesh.Check(); err != nil {
				t.Fatal(err)
			}
		}
		if n > 200 || m.Stretched(1, 1, 1) > 100 {
			return
		}
		_, solids, _ := m.Scaled(1, 1, 1)
		for _, c := range solids {
			for _, v := range c.Corners {
				if !v.Finite() {
					t.Fatal("a solid without a place")
				}
			}
		}
	})
}
