package light

import (
	"boothmock/internal/booth"
	"boothmock/internal/geom"
)

// Bake gives every surface of the plan its daylight.
func Bake(p *booth.Plan) *Lit {
	lit := &Lit{}
	for i := range p.Parts {
		for _, s := range p.Parts[i].Surfaces {
			out := Surface{Part: i, Look: s.Look, Mesh: s.Mesh}
			for _, v := range s.Mesh.Vertices {
				out.Light = append(out.Light, plain(v.N, s.Look.Passes))
			}
			lit.Surfaces = append(lit.Surfaces, out)
		}
	}
	return lit
}

// plain is the light on a surface that nothing shades: mostly from above and from the front, and what cloth lets through.
func plain(n geom.Vec, passes float64) [3]float32 {
	e := min(1, 0.62+0.2*n.Y+0.16*n.Z+passes)
	return [3]float32{float32(e), float32(e), float32(e)}
}
