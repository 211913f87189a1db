package kinds

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/material"
)

// blackest is black cotton as it looks by day, in sRGB: no cloth or ground is darker, or sends back nothing at all of a colour.
// Judged by eye, as TradeColours are.
const blackest = 0x22

// finished is the look of a surface of a material whose colour, in its mean, is c. Texture coordinates must be metres.
func finished(c booth.Colour, t *material.Tile) booth.Look {
	for i := range c {
		c[i] = max(c[i], blackest)
	}
	return booth.Look{Colour: t.Over(c), Image: t.Image(), Tile: t.Metres}
}

// bothSides is the look of cloth that is seen from both sides.
func bothSides(c booth.Colour, t *material.Tile) booth.Look {
	k := finished(c, t)
	k.TwoSided = true
	return k
}

// boards is the surface of some pieces of wood: on every face the grain runs along its longest side.
func boards(c booth.Colour, solids ...geom.Convex) booth.Surface {
	const on = 0.237 // metres along and across the tile from one face to the next, so that no two show the same grain
	var m geom.Mesh
	for _, s := range solids {
		for i := range s.Faces {
			p := s.Face(i)
			first := 0
			for k, a := range p {
				if a.Dist(p[(k+1)%len(p)]) > p[first].Dist(p[(first+1)%len(p)])+1e-9 {
					first = k
				}
			}
			from := len(m.Vertices)
			m.AddPolygon(append(append(geom.Polygon{}, p[first:]...), p[:first]...))
			for k := from; k < len(m.Vertices); k++ {
				m.Vertices[k].U += float64(on * float64(from))
				m.Vertices[k].V += float64(on * float64(from))
			}
		}
	}
	return booth.Surface{Mesh: m, Look: finished(c, material.Wood)}
}
