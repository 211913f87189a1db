package light

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// folds are the triangles of cloth that hangs in folds.
type folds struct {
	triangles []geom.Polygon
	places    *geom.Tree
}

func foldsOf(p *booth.Part) *folds {
	f := &folds{}
	for _, s := range p.Surfaces {
		for _, t := range s.Mesh.Triangles {
			v := s.Mesh.Vertices
			f.triangles = append(f.triangles, geom.Polygon{v[t[0]].P, v[t[1]].P, v[t[2]].P})
		}
	}
	f.places = geom.NewTree(len(f.triangles), func(i int) (lo, hi geom.Vec) { return geom.Bounds(f.triangles[i]) })
	return f
}

// hide is the share of what p, on the cloth with normal n, would see that the folds beside it take: as if they ran up and down without end,
// so that in the cloth's level section p sees from the highest on its left to the highest on its right, by the crossed strings of Hottel.
func (f *folds) hide(p, n geom.Vec) float64 {
	const wide = 0.25   // metres to the sides: no fold is wider
	const close = 0.002 // metres: what is nearer lies on the same straight piece
	n.Y = 0
	if n.Len() < 0.7 {
		return 0 // level: a table's top
	}
	n = n.Unit()
	across := geom.Up.Cross(n)
	left, right := 0.0, 0.0 // sines of how high the folds stand
	f.places.Each(func(lo, hi geom.Vec) bool {
		return p.Y >= lo.Y && p.Y <= hi.Y && p.X >= lo.X-wide && p.X <= hi.X+wide && p.Z >= lo.Z-wide && p.Z <= hi.Z+wide
	}, func(i int) {
		t := f.triangles[i]
		for k, a := range t {
			b := t[(k+1)%3]
			if (a.Y > p.Y) == (b.Y > p.Y) {
				continue
			}
			d := a.Lerp(b, (p.Y-a.Y)/(b.Y-a.Y)).Sub(p)
			x, z := d.Dot(across), d.Dot(n)
			if z <= 0 || math.Abs(x) < close || math.Hypot(x, z) > wide {
				continue
			}
			if up := z / math.Hypot(x, z); x > 0 {
				right = max(right, up)
			} else {
				left = max(left, up)
			}
		}
	})
	return 1 - (math.Sqrt(1-float64(left*left))+math.Sqrt(1-float64(right*right)))/2
}
