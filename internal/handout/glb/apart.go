package glb

import (
	"math"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/view/light"
)

// clothThick is how far apart the two sides of cloth are, in metres: as thick as its solids are. Each side is divided for its
// own light, and where a cell is cut along its other diagonal one would come through the other by up to 0.75 mm.
const clothThick = 0.002

// corner is a place, in tenths of a micrometre, on the back of a part's cloth.
type corner struct {
	part int
	at   [3]int64
}

func cornerOf(s *light.Surface, p geom.Vec) corner {
	const grain = 1e7
	return corner{s.Part, [3]int64{int64(math.Round(p.X * grain)), int64(math.Round(p.Y * grain)), int64(math.Round(p.Z * grain))}}
}

// apart moves the backs of cloth, which the light has in the place of its fronts, behind them: who lights them anew, with shadows,
// would have each darken the other. Where pieces of cloth meet at an angle, they still do.
func apart(surfaces []light.Surface) []light.Surface {
	normals := map[corner][]geom.Vec{}
	for i := range surfaces {
		s := &surfaces[i]
		if !s.Back {
			continue
		}
		for _, v := range s.Mesh.Vertices {
			c := cornerOf(s, v.P)
			if !slices.ContainsFunc(normals[c], func(n geom.Vec) bool { return n.Dist(v.N) < 1e-6 }) {
				normals[c] = append(normals[c], v.N)
			}
		}
	}
	out := slices.Clone(surfaces)
	for i := range out {
		s := &out[i]
		if !s.Back {
			continue
		}
		s.Mesh.Vertices = slices.Clone(s.Mesh.Vertices)
		for k := range s.Mesh.Vertices {
			v := &s.Mesh.Vertices[k]
			v.P = v.P.Add(mitre(normals[cornerOf(s, v.P)]).Mul(clothThick))
		}
	}
	return out
}

// mitre is where a corner goes when every piece of cloth that meets there, of these normals, goes out by 1 or more: farther than
// 1 where they meet at an angle, but never more than 3.
func mitre(normals []geom.Vec) geom.Vec {
	var sum geom.Vec
	for _, n := range normals {
		sum = sum.Add(n)
	}
	least := math.Inf(1)
	for _, n := range normals {
		least = min(least, sum.Dot(n))
	}
	if sum.Len() < 1e-6 {
		return geom.Vec{} // they lie back to back
	}
	return sum.Mul(1 / max(least, sum.Len()/3))
}
