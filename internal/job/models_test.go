package job_test

import (
	"bytes"
	"maps"
	"math"
	"slices"
	"sync"
	"testing"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"
)

// ringModel is the .glb of a ring that stands upright, 16 x 16 x 4 in as ten times larger, bumpy all round.
var ringModel = sync.OnceValue(func() []byte {
	const along, across = 48, 16
	var at [][3]float32
	var of []uint16
	for i := range along {
		for k := range across {
			s, c := math.Sincos(2 * math.Pi * float64(i) / along)
			y, x := math.Sincos(2 * math.Pi * float64(k) / across)
			thick := 5 + 0.6*math.Sin(7*2*math.Pi*float64(i)/along)
			at = append(at, [3]float32{float32((15 + thick*x) * c), float32((15 + thick*x) * s), float32(thick * y)})
			j, l := (i+1)%along*across, (k+1)%across
			a, b, d, e := uint16(i*across+k), uint16(j+k), uint16(j+l), uint16(i*across+l)
			of = append(of, a, b, d, a, d, e)
		}
	}
	d := gltf.NewDocument()
	d.Meshes = []*gltf.Mesh{{Primitives: []*gltf.Primitive{{
		Indices: gltf.Index(modeler.WriteIndices(d, of)), Attributes: gltf.PrimitiveAttributes{gltf.POSITION: modeler.WritePosition(d, at)},
	}}}}
	d.Nodes = []*gltf.Node{{Mesh: gltf.Index(0), Scale: [3]float64{0.1, 0.1, 0.1}}}
	d.Scenes[0].Nodes = []int{0}
	var b bytes.Buffer
	if err := gltf.NewEncoder(&b).Encode(d); err != nil {
		panic(err)
	}
	return b.Bytes()
})

// A thing and a work that have their shape from a file hide what they are drawn to hide, by rays through the triangles of the booth's
// .glb, and their solids are where they are drawn.
func TestModelsAreDrawn(t *testing.T) {
	p, err := build(`units: in
pitch: {width: 10ft, depth: 10ft, neighbours: none}
walls: [{side: back}]
pedestals: [{name: plinth, size: 14 x 14, height: 30}, {name: low, size: 14 x 14, height: 20, from left: 20, from front: 20}]
things:
  - {name: ring, model: ring.glb, size: 40 x 10 x 40, on: plinth}
  - {name: gate, model: ring.glb, size: 60 x 15 x 60, from left: 70, from front: 10, turn: 30}
works:
  - {name: wheel, model: ring.glb, size: 16 x 16 x 4, on: low, turn: -40}
  - {name: a, image: a.png, size: 30 x 30, wall: back, left: 45, centre: 50}
  - {name: b, image: a.png, size: 30 x 30, wall: back, left: 80, centre: 50}
`)
	if err != nil {
		t.Fatal(err)
	}
	kinds := map[string]worst{}
	solidsOf(t, p, "rings", kinds)
	for _, kind := range slices.Sorted(maps.Keys(kinds)) {
		t.Logf("%-10s vertices up to %.2f mm outside, corners up to %.2f mm off", kind, 1000*kinds[kind].out, 1000*kinds[kind].off)
	}
	off, blame := map[string][]float64{}, []float64{}
	sightlinesOf(t, p, "rings", 10, 60, 4, off, &blame)
	t.Log(spread("things", off["things"]))
	for _, d := range off["things"] {
		if d > 0.01 { // a hollow is filled by up to 4 mm
			t.Errorf("a sightline past a model is %.1f points off", 100*d)
		}
	}
	if len(off["things"]) < 6 {
		t.Errorf("only %d sightlines lead past a model", len(off["things"]))
	}
}
