package light

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Even is a booth in even light, for drawings to scale: each part is lit from before it, a little from the upper right, so
// that folds are seen, and works are as bright as their images. Nothing shades anything else, so what a drawing leaves out
// leaves no shadow either.
func Even(p *booth.Plan) *Lit {
	const dim, lamp = 0.6, 0.36
	from := geom.Vec{X: 0.45, Y: 0.45, Z: 0.77}.Unit() // in the part's own frame
	lit := &Lit{}
	for i := range p.Parts {
		part := &p.Parts[i]
		for _, s := range part.Surfaces {
			light := make([][3]float32, len(s.Mesh.Vertices))
			for k, v := range s.Mesh.Vertices {
				n := geom.Vec{X: v.N.Dot(part.Frame.X), Y: v.N.Dot(part.Frame.Y), Z: v.N.Dot(part.Frame.Z)}
				l := float32(dim + float64(lamp*max(0, n.Dot(from))))
				if part.Work != nil && n.Z > 0.99 {
					l = 1
				}
				light[k] = [3]float32{l, l, l}
			}
			lit.Surfaces = append(lit.Surfaces, Surface{Part: i, Look: s.Look, Mesh: s.Mesh, Light: light, Straight: light})
		}
	}
	return lit
}
