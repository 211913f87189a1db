package glb

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"testing"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
	"boothmock/internal/view/light"

	"github.com/qmuntal/gltf"
)

// stripes is an image of its own for every width.
func stripes(width, height int) *image.NRGBA {
	m := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			m.Set(x, y, color.NRGBA{uint8(40 * (x % 5)), uint8(20 * (y % 9)), 90, 255})
		}
	}
	return m
}

func jpegImage(t testing.TB, name string, width, height int) *art.Image {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, stripes(width, height), nil); err != nil {
		t.Fatal(err)
	}
	return art.Ready(name, "image/jpeg", b.Bytes(), stripes(width, height))
}

func pngImage(t testing.TB, name string, width, height int) *art.Image {
	var b bytes.Buffer
	if err := png.Encode(&b, stripes(width, height)); err != nil {
		t.Fatal(err)
	}
	return art.Ready(name, "image/png", b.Bytes(), stripes(width, height))
}

// litUp gives every surface of the plan a light that differs from vertex to vertex, dark ones among them.
func litUp(p *booth.Plan) *light.Lit {
	l := &light.Lit{}
	for i, part := range p.Parts {
		for _, s := range part.Surfaces {
			ls := light.Surface{Part: i, Look: s.Look, Mesh: s.Mesh}
			for k := range s.Mesh.Vertices {
				x := float64(k%97) / 96
				ls.Straight = append(ls.Straight, [3]float32{float32(x), float32(x * x * x), float32(1 - x)})
			}
			l.Surfaces = append(l.Surfaces, ls)
		}
	}
	return l
}

// testBooth is a small booth of an invented fair that has every case of a part in it.
func testBooth(t testing.TB) *booth.Plan {
	at := func(line int) fault.Place {
		return fault.Place{File: "/home/odile/fair/booth.yaml", Line: line, Col: 5}
	}
	back := geom.Frame{Origin: geom.Vec{X: -1.524, Y: 0, Z: -3.048}, X: geom.Vec{X: 1}, Y: geom.Up, Z: geom.Vec{Z: 1}}
	heron, again := jpegImage(t, "heron.jpg", 30, 20), jpegImage(t, "heron.jpg", 30, 20)
	other := jpegImage(t, "heron.jpg", 31, 20) // another picture that has the same name
	grey := booth.Look{Colour: booth.Colour{64, 124, 231}}
	cloth := booth.Look{Colour: booth.Colour{0x8b, 0x8f, 0x94}, TwoSided: true}

	work := func(id booth.ID, x, y, w, h float64, i *art.Image) booth.Part {
		f := back.Moved(geom.Vec{X: x, Y: y, Z: 0.04})
		face := geom.Rect(f, -w/2, -h/2, w/2, h/2)
		return booth.Part{
			ID: id, Parent: "wall/back", Kind: "works", Name: "Heron at the weir", At: at(31), Frame: f,
			Surfaces: []booth.Surface{
				{Mesh: geom.ImageRect(face), Look: booth.Look{Colour: booth.Colour{255, 255, 255}, Image: i}},
				{Mesh: geom.Solids(geom.Box(f, geom.Vec{X: -w / 2, Y: -h / 2, Z: -0.038}, geom.Vec{X: w / 2, Y: h / 2, Z: -0.001})), Look: grey},
			},
			Work: &booth.Work{
				Title: "Heron at the weir", Medium: "oil on canvas", Edition: "3/20",
				Height: h, Width: w, Depth: 0.038, Price: 48050, Image: i, Face: face,
				Hung: &booth.Hung{Wall: "wall/back", X0: x - w/2, X1: x + w/2, Y0: y - h/2, Y1: y + h/2},
			},
		}
	}
	table := func(id booth.ID, x float64) booth.Part {
		f := geom.Upright(geom.Vec{X: x, Y: 0.1 + 0.2, Z: -1.0 / 3}, geom.Vec{X: 1, Z: 1})
		return booth.Part{ID: id, Kind: "tables", Name: "the print table", At: at(20), Frame: f,
			Surfaces: []booth.Surface{{Mesh: geom.Solids(geom.Box(f, geom.Vec{X: -.6, Z: -.3}, geom.Vec{X: .6, Y: .74, Z: .3})), Look: grey}}}
	}
	folds := geom.Grid(40, 3, func(u, v float64) (geom.Vec, float64, float64) {
		return back.At(geom.Vec{X: 3 * u, Y: 2 * v, Z: 0.02 + 0.02*math.Sin(60*u)}), u, v
	})
	sign := geom.ImageRect(geom.Rect(back.Moved(geom.Vec{X: 2, Y: 2.1, Z: 0.05}), -.3, -.1, .3, .1))
	for i := range sign.Vertices {
		sign.Vertices[i].U = float64(sign.Vertices[i].U*1.25) - 0.125 // the image smaller than the board
	}
	return &booth.Plan{
		File: "/home/odile/fair/booth.yaml", Event: "Lower Fennick Green Art Fair", Artist: "Odile Marrowby",
		Units: unit.Inches, Currency: "$",
		Parts: []booth.Part{
			{ID: "tent", Kind: "tent", Name: "the tent", At: at(5), Frame: geom.World, Surfaces: []booth.Surface{
				{Mesh: geom.Solids(geom.Box(geom.World, geom.Vec{X: -1.5, Z: -.05}, geom.Vec{X: -1.45, Y: 2.1})), Look: grey},
				{Look: cloth}, // a surface of nothing
			}},
			{ID: "wall/back", Kind: "walls", Name: "the back wall", At: at(9), Frame: back}, // nothing to see, but much hangs on it
			{ID: "wall/left", Kind: "walls", Name: "the left wall", At: at(10)},             // nothing to see and nothing on it
			{ID: "drape/back", Parent: "wall/back", Kind: "drapes", Name: "the back drape", Frame: back, Surfaces: []booth.Surface{{Mesh: folds, Look: cloth}}},
			table("table/prints", -0.7),
			table("table/till", 1.1),
			work("work/heron", 1.0, 1.4732, 0.9144, 0.6096, heron),
			work("work/heron-2", 2.2, 1.4732, 0.3, 0.2, again),
			work("work/heron-3", 2.7, 1.4732, 0.31, 0.2, other),
			{ID: "sign/name", Parent: "wall/back", Kind: "signs", Name: "the name board", Frame: back, Dressing: true,
				Surfaces: []booth.Surface{{Mesh: sign, Look: booth.Look{Colour: booth.Colour{255, 255, 255}, Image: pngImage(t, "name board", 8, 4)}}}},
		},
		Views: []booth.View{
			{Name: "entrance", Doc: "Standing before the opening.", Stand: geom.Vec{Z: 0.9}, Look: geom.Vec{Y: 1.45, Z: -3}, Across: 80 * math.Pi / 180},
			{Name: "aisle-left", Stand: geom.Vec{X: -2.5, Z: 1.8}, Look: geom.Vec{X: 0.4, Y: 1.2, Z: -2}, Across: 1.1},
			{Name: "seat", Stand: geom.Vec{X: 1, Z: -2.6}, Height: 1.19, Look: geom.Vec{X: 0, Y: 1.9, Z: 2}, Across: 1.2},
			{Name: "above", Stand: geom.Vec{Z: -1.5}, Height: 5, Look: geom.Vec{Z: -1.5}, Across: 0.9},
		},
		Eyes: []booth.Eye{{Name: "adult", Height: 1.57}, {Name: "tall", Height: 1.75}},
	}
}

func written(t testing.TB, p *booth.Plan) []byte {
	var b bytes.Buffer
	if err := Write(&b, p, litUp(p), Motion{}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func decode(t testing.TB, file []byte) *gltf.Document {
	var d gltf.Document
	if err := gltf.NewDecoder(bytes.NewReader(file)).Decode(&d); err != nil {
		t.Fatal(err)
	}
	return &d
}

// placed is a node, and where it stands in the booth.
type placed struct {
	node  *gltf.Node
	above string
	at    geom.Vec
}

// nodes are the nodes by name.
func nodes(t testing.TB, d *gltf.Document) map[string]placed {
	found := map[string]placed{}
	var walk func(i int, above string, at geom.Vec)
	walk = func(i int, above string, at geom.Vec) {
		n := d.Nodes[i]
		if n.Scale != gltf.DefaultScale || n.Matrix != gltf.DefaultMatrix {
			t.Errorf("node %s is stretched", n.Name)
		}
		at = at.Add(geom.Vec{X: n.Translation[0], Y: n.Translation[1], Z: n.Translation[2]})
		if _, ok := found[n.Name]; ok {
			t.Errorf("two nodes are named %s", n.Name)
		}
		found[n.Name] = placed{n, above, at}
		for _, c := range n.Children {
			walk(c, n.Name, at)
		}
	}
	for _, i := range d.Scenes[*d.Scene].Nodes {
		walk(i, "", geom.Vec{})
	}
	if len(found) != len(d.Nodes) {
		t.Errorf("%d of %d nodes are in the scene", len(found), len(d.Nodes))
	}
	return found
}
