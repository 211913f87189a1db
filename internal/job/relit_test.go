package job_test

import (
	"math"
	"slices"
	"testing"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// face is a triangle of a .glb, in the booth.
type face struct {
	geom.Polygon
	n        geom.Vec
	node     string
	material int
}

// faces are the triangles of a .glb. Every vertex has a normal of unit length; but for one of a thousand, where a figure is
// folded, it is on the side from which the triangle is seen.
func faces(t *testing.T, d *gltf.Document) (out []face) {
	t.Helper()
	vec := func(v [3]float32) geom.Vec { return geom.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])} }
	behind := 0
	for name, n := range standing(t, d) {
		if n.Mesh == nil {
			continue
		}
		for _, p := range d.Meshes[*n.Mesh].Primitives {
			if _, ok := p.Attributes[gltf.NORMAL]; !ok {
				t.Fatalf("%s has no normals", name)
			}
			at, err := modeler.ReadPosition(d, d.Accessors[p.Attributes[gltf.POSITION]], nil)
			if err != nil {
				t.Fatal(err)
			}
			normals, err := modeler.ReadNormal(d, d.Accessors[p.Attributes[gltf.NORMAL]], nil)
			if err != nil {
				t.Fatal(err)
			}
			index, err := modeler.ReadIndices(d, d.Accessors[*p.Indices], nil)
			if err != nil {
				t.Fatal(err)
			}
			for i := 0; i < len(index); i += 3 {
				f := face{node: name, material: *p.Material}
				for _, k := range index[i : i+3] {
					f.Polygon = append(f.Polygon, n.at.At(vec(at[k])))
				}
				f.n = f.Normal()
				for _, k := range index[i : i+3] {
					if n := vec(normals[k]); math.Abs(n.Len()-1) > 1e-6 {
						t.Fatalf("%s has a normal %v", name, n)
					} else if f.Area() > 1e-7 && f.n.Dot(n) < 0 {
						behind++
					}
				}
				out = append(out, f)
			}
		}
	}
	if behind > len(out)/1000 {
		t.Errorf("%d normals of %d triangles are on the wrong side", behind, len(out))
	}
	return out
}

// The two sides of cloth are apart: from the middle of no triangle is it less than 0.2 mm to one of the same cloth that faces the
// other way. Whoever lights the .glb anew, with shadows, would have the sides speckle each other.
func TestSidesOfClothAreApart(t *testing.T) {
	if raced || testing.Short() {
		t.Skip("slow")
	}
	const closest, next = 0.0002, 0.005 // metres
	const sliver = 1e-4                 // m²: what is smaller may be turned over between the sides, along a mitre
	m := demo(t)
	var all []face
	for _, f := range faces(t, readable(t, write(t, m, "booth.glb"))) {
		part := m.Plan.Part(booth.ID(f.node))
		if slices.ContainsFunc(part.Surfaces, func(s booth.Surface) bool { return s.Look.TwoSided }) {
			all = append(all, f)
		}
	}
	tree := geom.NewTree(len(all), func(i int) (lo, hi geom.Vec) {
		a, b, c := all[i].Polygon[0], all[i].Polygon[1], all[i].Polygon[2]
		return geom.Vec{X: min(a.X, b.X, c.X), Y: min(a.Y, b.Y, c.Y), Z: min(a.Z, b.Z, c.Z)},
			geom.Vec{X: max(a.X, b.X, c.X), Y: max(a.Y, b.Y, c.Y), Z: max(a.Z, b.Z, c.Z)}
	})
	tooClose, looked := 0, 0
	for _, f := range all {
		c := f.Centre()
		tree.Each(func(lo, hi geom.Vec) bool {
			return max(lo.X-c.X, c.X-hi.X, lo.Y-c.Y, c.Y-hi.Y, lo.Z-c.Z, c.Z-hi.Z) <= next
		}, func(k int) {
			o := &all[k]
			if o.node != f.node || o.material != f.material || o.n.Dot(f.n) > -0.7 || !o.under(c, next) {
				return
			}
			looked++
			if f.Area() > sliver && o.under(c, closest) {
				tooClose++
			}
		})
	}
	if tooClose > 0 || looked < 5000 {
		t.Errorf("%d of %d triangles lie next to the other side of their cloth", tooClose, looked)
	}
}

// under says whether the triangle lies under or over c, at most so far away.
func (f *face) under(c geom.Vec, reach float64) bool {
	if math.Abs(f.n.Dot(c.Sub(f.Polygon[0]))) > reach {
		return false
	}
	for i, a := range f.Polygon {
		if f.Polygon[(i+1)%3].Sub(a).Cross(c.Sub(a)).Dot(f.n) < 0 {
			return false
		}
	}
	return true
}
