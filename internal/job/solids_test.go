package job_test

import (
	"fmt"
	"math"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// What the checks ask is what is drawn: no vertex of a part in the .glb is more than 2 mm outside of the part's solids, and no
// corner of a solid more than 2 mm from the part's triangles.
func TestSolidsAreDrawn(t *testing.T) {
	if raced {
		t.Skip("slow")
	}
	kinds, parts := map[string]worst{}, 0
	for seed := range booths(t, 2, 4) {
		p, err := build(randomScene(seeded(uint64(seed)), dialect{}))
		if err != nil {
			continue
		}
		parts += solidsOf(t, p, fmt.Sprint("booth ", seed), kinds)
	}
	t.Logf("%d parts", parts)
	for kind, w := range kinds {
		t.Logf("%-10s vertices up to %.2f mm outside, corners up to %.2f mm off", kind, 1000*w.out, 1000*w.off)
	}
}

// worst is how far what is drawn of a kind is outside of its solids, and corners of those from what is drawn, in metres.
type worst struct{ out, off float64 }

// solidsOf holds the solids of a booth's parts against what is drawn of them.
func solidsOf(t *testing.T, p *booth.Plan, name string, kinds map[string]worst) (parts int) {
	const most = 0.002 + 1e-6 // metres; a .glb has single precision
	of := map[int][]facet{}
	for _, f := range shapes(t, p) {
		of[f.part] = append(of[f.part], f)
	}
	for i := range p.Parts {
		part := &p.Parts[i]
		if len(of[i]) == 0 || part.Flat {
			continue
		}
		parts++
		kind := part.Kind
		w := kinds[kind]
		grid := newGrid(of[i])
		for _, c := range part.Solids {
			if err := c.Check(); err != nil {
				t.Errorf("%s: %s: %v", name, part.ID, err)
			}
			for _, v := range c.Corners {
				w.off = max(w.off, grid.distance(v))
			}
		}
		if w.off > most && kinds[kind].off <= most {
			t.Errorf("%s: a corner of a solid of %s is %.1f mm from what is drawn", name, part.ID, 1000*w.off)
		}
		for _, f := range of[i] {
			for _, v := range [3]geom.Vec{f.a, f.b, f.c} {
				d := pastWires(part.Screen, v)
				for _, c := range part.Solids {
					lo, hi := c.Bounds()
					if v.X > lo.X-d && v.X < hi.X+d && v.Y > lo.Y-d && v.Y < hi.Y+d && v.Z > lo.Z-d && v.Z < hi.Z+d || math.IsInf(d, 1) {
						d = min(d, beyond(c, v))
					}
					if d < 0.0005 {
						break
					}
				}
				w.out = max(w.out, d)
			}
		}
		if w.out > most && kinds[kind].out <= most {
			t.Errorf("%s: a vertex of %s is %.1f mm outside of its solids", name, part.ID, 1000*w.out)
		}
		kinds[kind] = w
	}
	return parts
}

// pastWires is how far a point is outside of the nearest of wires, in metres.
func pastWires(screens []geom.Wires, p geom.Vec) float64 {
	d := math.Inf(1)
	for _, w := range screens {
		for i := range w.Count {
			a, b := w.Ends(i)
			d = min(d, p.Dist(a.Lerp(b, max(0, min(1, p.Sub(a).Dot(w.Along)/w.Along.Dot(w.Along)))))-w.Radius)
		}
	}
	return d
}

// grid finds the triangles near a point.
type grid struct {
	tree   *geom.Tree
	facets []facet
}

func newGrid(f []facet) grid {
	return grid{geom.NewTree(len(f), func(i int) (lo, hi geom.Vec) { return geom.Bounds([]geom.Vec{f[i].a, f[i].b, f[i].c}) }), f}
}

// distance is how far the nearest triangle is from a point, in metres, as far as it is within 40 cm.
func (g grid) distance(p geom.Vec) float64 {
	d := 0.4
	g.tree.Each(func(lo, hi geom.Vec) bool {
		return p.X > lo.X-d && p.X < hi.X+d && p.Y > lo.Y-d && p.Y < hi.Y+d && p.Z > lo.Z-d && p.Z < hi.Z+d
	}, func(i int) { d = min(d, g.facets[i].nearest(p).Dist(p)) })
	return d
}
