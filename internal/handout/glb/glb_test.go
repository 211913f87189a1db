package glb

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
	"boothmock/internal/view/light"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"
)

// A .glb is 12 bytes of header (the word glTF, version 2, length of the file) and two chunks on multiples of 4 bytes, JSON
// padded with spaces and BIN padded with zeros (glTF 2.0, "GLB File Format Specification").
func TestContainer(t *testing.T) {
	file := written(t, testBooth(t))
	u := func(at int) int { return int(binary.LittleEndian.Uint32(file[at:])) }
	if u(0) != 0x46546C67 || u(4) != 2 || u(8) != len(file) {
		t.Errorf("header % x of a file of %d bytes", file[:12], len(file))
	}
	if u(16) != 0x4E4F534A || u(12)%4 != 0 {
		t.Errorf("first chunk: type %x, %d bytes", u(16), u(12))
	}
	text, rest := file[20:20+u(12)], 20+u(12)
	if !json.Valid(text) || !bytes.HasSuffix(bytes.TrimRight(text, " "), []byte("}")) {
		t.Error("the first chunk is not JSON padded with spaces")
	}
	if n := regexp.MustCompile(`[:,\[]-0[,\]}]`).Find(text); n != nil {
		t.Errorf("the text has a minus zero: %s", n)
	}
	if u(rest+4) != 0x004E4942 || u(rest)%4 != 0 || rest+8+u(rest) != len(file) {
		t.Errorf("second chunk: type %x, %d bytes", u(rest+4), u(rest))
	}
}

func TestSameBytes(t *testing.T) {
	p := testBooth(t)
	first := written(t, p)
	for range 5 {
		if !bytes.Equal(first, written(t, testBooth(t))) {
			t.Fatal("the same booth gave two files")
		}
	}
	p.Parts[4].Frame.Origin.X += 0.01
	if bytes.Equal(first, written(t, p)) {
		t.Error("a table that was moved left the file as it was")
	}
}

func TestTree(t *testing.T) {
	found := nodes(t, decode(t, written(t, testBooth(t))))
	above := map[string]string{
		"booth": "", "tent": "booth",
		"wall/back": "booth", // the only wall that shows anything: no node to hold walls
		"table":     "booth", "table/prints": "table", "table/till": "table",
		"drape/back": "wall/back", "work/heron": "wall/back", "work/heron-2": "wall/back", "work/heron-3": "wall/back", "sign/name": "wall/back",
		"view": "booth", "view/entrance": "view", "view/aisle-left": "view", "view/seat": "view", "view/above": "view",
	}
	for name, want := range above {
		if n, ok := found[name]; !ok || n.above != want {
			t.Errorf("%s: below %q (there: %v), want below %q", name, n.above, ok, want)
		}
	}
	if len(found) != len(above) {
		t.Errorf("%d nodes, want %d", len(found), len(above))
	}
	want := geom.Vec{X: -1.524 + 1, Y: 1.4732, Z: -3.048 + 0.04}
	if at := found["work/heron"].at; at.Dist(want) > 1e-6 {
		t.Errorf("the heron's node stands at %v, want %v", at, want)
	}
}

// drawn are the numbers of one primitive as a viewer gets them.
type drawn struct {
	position [][3]float32
	colour   [][4]uint16
	coord    any
	index    []uint32
	material *gltf.Material
}

func read(t testing.TB, d *gltf.Document, p *gltf.Primitive) (r drawn) {
	array := func(name string) any {
		n, ok := p.Attributes[name]
		if !ok {
			return nil
		}
		data, err := modeler.ReadAccessor(d, d.Accessors[n], nil)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		return data
	}
	r.position = array(gltf.POSITION).([][3]float32)
	r.colour = array(gltf.COLOR_0).([][4]uint16)
	r.coord = array(gltf.TEXCOORD_0)
	var err error
	if r.index, err = modeler.ReadIndices(d, d.Accessors[*p.Indices], nil); err != nil {
		t.Fatal(err)
	}
	r.material = d.Materials[*p.Material]
	return r
}

// Every part that shows is there, and every vertex is where the plan has it, as near as a 32-bit number can say: half a
// unit of its last place, 2^-24 of it. Its colour is the light's to half a 65535th.
func TestSurfaces(t *testing.T) {
	p := testBooth(t)
	l := litUp(p)
	d := decode(t, written(t, p))
	found := nodes(t, d)
	primitives := 0
	for _, part := range p.Parts {
		n := found[string(part.ID)]
		k := 0
		for i, s := range part.Surfaces {
			if len(s.Mesh.Triangles) == 0 {
				continue
			}
			what := fmt.Sprintf("%s surface %d", part.ID, i)
			got := read(t, d, d.Meshes[*n.node.Mesh].Primitives[k])
			k++
			if len(got.position) != len(s.Mesh.Vertices) || len(got.index) != 3*len(s.Mesh.Triangles) {
				t.Fatalf("%s: %d vertices, %d indices", what, len(got.position), len(got.index))
			}
			ls := l.Surfaces[slices.IndexFunc(l.Surfaces, func(ls light.Surface) bool {
				return len(ls.Mesh.Vertices) > 0 && &ls.Mesh.Vertices[0] == &s.Mesh.Vertices[0]
			})].Straight
			for v, want := range s.Mesh.Vertices {
				local := geom.Vec{X: float64(got.position[v][0]), Y: float64(got.position[v][1]), Z: float64(got.position[v][2])}
				if off, most := n.at.Add(local).Dist(want.P), local.Len()*0x1p-24*math.Sqrt(3)+1e-12; off > most {
					t.Fatalf("%s vertex %d is %g m off, more than %g", what, v, off, most)
				}
				for c := range 3 {
					if off := math.Abs(float64(got.colour[v][c])/65535 - float64(ls[v][c])); off > 0.5000001/65535 {
						t.Fatalf("%s vertex %d colour %d is %g off", what, v, c, off)
					}
				}
				if got.colour[v][3] != 65535 {
					t.Fatalf("%s vertex %d is not opaque", what, v)
				}
				if s.Look.Image != nil {
					u, w := coord(got.coord, v)
					if math.Abs(u-want.U) > 0.5000001/65535 || math.Abs(w-want.V) > 0.5000001/65535 {
						t.Fatalf("%s vertex %d: texture at %g, %g, want %g, %g", what, v, u, w, want.U, want.V)
					}
				}
			}
			if (got.coord != nil) != (s.Look.Image != nil) || (got.material.PBRMetallicRoughness.BaseColorTexture != nil) != (s.Look.Image != nil) {
				t.Errorf("%s: texture and image do not go together", what)
			}
			if got.material.DoubleSided != s.Look.TwoSided {
				t.Errorf("%s: two-sided %v", what, got.material.DoubleSided)
			}
			for j, tri := range s.Mesh.Triangles {
				for c, v := range tri {
					if int(got.index[3*j+c]) != v {
						t.Fatalf("%s triangle %d has corners %v, want %v", what, j, got.index[3*j:3*j+3], tri)
					}
				}
			}
		}
		if k > 0 {
			if has := len(d.Meshes[*n.node.Mesh].Primitives); has != k {
				t.Errorf("%s: %d primitives, want %d", part.ID, has, k)
			}
		}
		primitives += k
	}
	if primitives != 11 {
		t.Errorf("%d primitives compared, want 11", primitives)
	}
}

func coord(a any, v int) (x, y float64) {
	switch a := a.(type) {
	case [][2]uint16:
		return float64(a[v][0]) / 65535, float64(a[v][1]) / 65535
	case [][2]float32:
		return float64(a[v][0]), float64(a[v][1])
	}
	return math.NaN(), math.NaN()
}

// A work's face is its catalogue size in metres, faces into the booth and shows its image upright: texture coordinates
// count from the image's upper left (glTF 2.0, "Images"), and the front is where corners run counterclockwise.
func TestWorkFace(t *testing.T) {
	d := decode(t, written(t, testBooth(t)))
	n := nodes(t, d)["work/heron"]
	got := read(t, d, d.Meshes[*n.node.Mesh].Primitives[0])
	corner := map[[2]float64]geom.Vec{}
	for v, p := range got.position {
		x, y := coord(got.coord, v)
		corner[[2]float64{x, y}] = n.at.Add(geom.Vec{X: float64(p[0]), Y: float64(p[1]), Z: float64(p[2])})
	}
	// 24 x 36 in is 0.6096 x 0.9144 m, by the international inch of 25.4 mm; its middle is 58 in above the ground.
	want := map[[2]float64]geom.Vec{
		{0, 0}: {X: -0.524 - 0.4572, Y: 1.4732 + 0.3048, Z: -3.008},
		{1, 0}: {X: -0.524 + 0.4572, Y: 1.4732 + 0.3048, Z: -3.008},
		{0, 1}: {X: -0.524 - 0.4572, Y: 1.4732 - 0.3048, Z: -3.008},
		{1, 1}: {X: -0.524 + 0.4572, Y: 1.4732 - 0.3048, Z: -3.008},
	}
	for at, w := range want {
		if g, ok := corner[at]; !ok || g.Dist(w) > 1e-6 {
			t.Errorf("the image's corner %v is at %v, want %v", at, g, w)
		}
	}
	at := func(i uint32) geom.Vec {
		return geom.Vec{X: float64(got.position[i][0]), Y: float64(got.position[i][1]), Z: float64(got.position[i][2])}
	}
	for i := 0; i < len(got.index); i += 3 {
		tri := geom.Polygon{at(got.index[i]), at(got.index[i+1]), at(got.index[i+2])}
		if tri.Normal().Dist(geom.Vec{Z: 1}) > 1e-6 {
			t.Errorf("triangle %d faces %v", i/3, tri.Normal())
		}
	}
}

func TestExtras(t *testing.T) {
	found := nodes(t, decode(t, written(t, testBooth(t))))
	for name, want := range map[string]string{
		"booth":         `{"artist":"Odile Marrowby","event":"Lower Fennick Green Art Fair","units":"in"}`,
		"tent":          `{"at":"booth.yaml:5","kind":"tent","name":"the tent"}`,
		"work/heron":    `{"at":"booth.yaml:31","centre_m":1.4732,"edition":"3/20","kind":"works","medium":"oil on canvas","name":"Heron at the weir","price":"$480.50","size":"24 x 36 in","title":"Heron at the weir","wall":"wall/back"}`,
		"view/entrance": `{"doc":"Standing before the opening.","eye":"adult","eye_m":1.57}`,
		"view/seat":     `{"eye":"adult","eye_m":1.19}`,
	} {
		got, err := json.Marshal(found[name].node.Extras) // read back as a map, whose keys are sorted
		if err != nil || string(got) != want {
			t.Errorf("%s:\n got %s\nwant %s", name, got, want)
		}
	}
}

// Indices are short up to 65535 vertices, and long above: the highest number of a type is not for use.
func TestManyVertices(t *testing.T) {
	for _, c := range []struct {
		nu, nv int
		want   gltf.ComponentType
	}{{254, 256, gltf.ComponentUshort}, {255, 255, gltf.ComponentUint}} { // 65535 and 65536 vertices
		p := &booth.Plan{Parts: []booth.Part{{ID: "ground", Kind: "pitch", Surfaces: []booth.Surface{{Mesh: sheet(c.nu, c.nv)}}}}}
		d := decode(t, written(t, p))
		prim := d.Meshes[0].Primitives[0]
		got := read(t, d, prim)
		if a, n := d.Accessors[*prim.Indices], slices.Max(got.index); a.ComponentType != c.want || int(n) != len(got.position)-1 {
			t.Errorf("%d vertices: indices of type %v up to %d", len(got.position), a.ComponentType, n)
		}
	}
}

func sheet(nu, nv int) geom.Mesh {
	return geom.Grid(nu, nv, func(u, v float64) (geom.Vec, float64, float64) { return geom.Vec{X: u, Z: -v}, u, v })
}

// 40,000 vertices, more than the demo has, take less than 1.9 MB without the images, a third less without normals.
func TestCompact(t *testing.T) {
	p := testBooth(t)
	p.Parts = append(p.Parts, booth.Part{ID: "ground", Kind: "pitch", Surfaces: []booth.Surface{{Mesh: sheet(199, 199)}}})
	if n := len(written(t, p)); n > 1_900_000 {
		t.Errorf("%d bytes", n)
	}
	var b bytes.Buffer
	if err := WritePlain(&b, p, litUp(p)); err != nil || b.Len() > 1_400_000 {
		t.Errorf("%d bytes without normals, %v", b.Len(), err)
	}
}

func TestEmptyBooth(t *testing.T) {
	d := decode(t, written(t, &booth.Plan{}))
	if len(d.Nodes) != 1 || d.Nodes[0].Name != "booth" || len(d.Buffers) != 0 {
		t.Errorf("%d nodes, %d buffers", len(d.Nodes), len(d.Buffers))
	}
}

type fullDisk struct{}

var errFull = errors.New("no space left")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

func TestFails(t *testing.T) {
	p := testBooth(t)
	if err := Write(fullDisk{}, p, litUp(p), Motion{}); !errors.Is(err, errFull) {
		t.Errorf("full disk: %v", err)
	}
	for _, i := range []*art.Image{art.Ready("empty.jpg", "image/jpeg", nil, stripes(1, 1)), art.Ready("odd.webp", "image/webp", []byte("RIFF"), stripes(1, 1))} {
		p.Parts[6].Surfaces[0].Look.Image = i
		if err := Write(&bytes.Buffer{}, p, litUp(p), Motion{}); err == nil || !strings.Contains(err.Error(), i.Name) {
			t.Errorf("%s: %v", i.Name, err)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	p := testBooth(b)
	p.Parts = append(p.Parts, booth.Part{ID: "ground", Kind: "pitch", Surfaces: []booth.Surface{{Mesh: sheet(199, 199)}}})
	l := litUp(p)
	var file bytes.Buffer
	for b.Loop() {
		file.Reset()
		if err := Write(&file, p, l, Motion{}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(file.Len()), "bytes")
}
