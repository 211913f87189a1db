package job_test

import (
	"bytes"
	"cmp"
	"math"
	"slices"
	"testing"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"

	"boothmock/internal/basis/geom"
	"boothmock/internal/handout/glb"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
)

// facet is a triangle of a .glb and the part that it belongs to, by its number in the plan.
type facet struct {
	a, b, c geom.Vec
	part    int
}

// shapes are the triangles of the booth's .glb as a viewer of it reads them, in even light: light does not move a surface.
func shapes(t *testing.T, p *booth.Plan) []facet {
	t.Helper()
	lit := light.Even(p)
	for i := range lit.Surfaces {
		lit.Surfaces[i].Straight = lit.Surfaces[i].Light
	}
	var file bytes.Buffer
	if err := glb.Write(&file, p, lit, glb.Motion{}); err != nil {
		t.Fatal(err)
	}
	d := new(gltf.Document)
	if err := gltf.NewDecoder(&file).Decode(d); err != nil {
		t.Fatal(err)
	}
	number := map[string]int{}
	for i := range p.Parts {
		number[string(p.Parts[i].ID)] = i
	}
	var out []facet
	for name, n := range standing(t, d) {
		part, ok := number[name]
		if !ok || n.Mesh == nil {
			continue
		}
		for _, prim := range d.Meshes[*n.Mesh].Primitives {
			at, err := modeler.ReadPosition(d, d.Accessors[prim.Attributes[gltf.POSITION]], nil)
			if err != nil {
				t.Fatal(err)
			}
			of, err := modeler.ReadIndices(d, d.Accessors[*prim.Indices], nil)
			if err != nil {
				t.Fatal(err)
			}
			v := func(k uint32) geom.Vec {
				return n.at.At(geom.Vec{X: float64(at[k][0]), Y: float64(at[k][1]), Z: float64(at[k][2])})
			}
			for i := 0; i+2 < len(of); i += 3 {
				out = append(out, facet{v(of[i]), v(of[i+1]), v(of[i+2]), part})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b facet) int { return cmp.Compare(a.part, b.part) }) // nodes come as a map has them
	return out
}

// nearest is the point of the triangle nearest to p (Ericson, "Real-time collision detection", 2005, 5.1.5).
func (f *facet) nearest(p geom.Vec) geom.Vec {
	ab, ac, ap := f.b.Sub(f.a), f.c.Sub(f.a), p.Sub(f.a)
	d1, d2 := ab.Dot(ap), ac.Dot(ap)
	if d1 <= 0 && d2 <= 0 {
		return f.a
	}
	bp := p.Sub(f.b)
	d3, d4 := ab.Dot(bp), ac.Dot(bp)
	if d3 >= 0 && d4 <= d3 {
		return f.b
	}
	if vc := d1*d4 - d3*d2; vc <= 0 && d1 >= 0 && d3 <= 0 {
		return f.a.Add(ab.Mul(d1 / (d1 - d3)))
	}
	cp := p.Sub(f.c)
	d5, d6 := ab.Dot(cp), ac.Dot(cp)
	if d6 >= 0 && d5 <= d6 {
		return f.c
	}
	if vb := d5*d2 - d1*d6; vb <= 0 && d2 >= 0 && d6 <= 0 {
		return f.a.Add(ac.Mul(d2 / (d2 - d6)))
	}
	if va := d3*d6 - d5*d4; va <= 0 && d4-d3 >= 0 && d5-d6 >= 0 {
		return f.b.Lerp(f.c, (d4-d3)/((d4-d3)+(d5-d6)))
	}
	vb, vc, va := d5*d2-d1*d6, d1*d4-d3*d2, d3*d6-d5*d4
	return f.a.Add(ab.Mul(vb / (va + vb + vc))).Add(ac.Mul(vc / (va + vb + vc)))
}

// beyond is how far a point is outside of a solid: exact beside a face, and never too much.
func beyond(c geom.Convex, p geom.Vec) float64 {
	d := math.Inf(-1)
	for i := range c.Faces {
		f := c.Face(i)
		d = max(d, p.Sub(f[0]).Dot(f.Normal()))
	}
	return d
}
