package picture

import (
	"slices"

	"github.com/fogleman/fauxgl"
)

// Piece is a part of a booth that is not finished: in the light of a stage of the same plan, and so many metres lower
// than that stage has it.
type Piece struct {
	From *Stage
	Low  float64
}

// Standing is a stage of the same plan on which only the pieces stand, by their numbers in Plan.Parts.
func (s *Stage) Standing(pieces map[int]Piece) *Stage {
	out := &Stage{plan: s.plan, ground: s.ground, sun: s.sun, dusk: s.dusk}
	for number := range s.plan.Parts {
		p, ok := pieces[number]
		if !ok {
			continue
		}
		for _, u := range p.From.surfaces {
			if u.part != number {
				continue
			}
			if p.Low != 0 {
				u.vertices = slices.Clone(u.vertices)
				for i := range u.vertices {
					at := u.vertices[i].Position
					u.vertices[i].Position = fauxgl.Vector{X: at.X, Y: at.Y - p.Low, Z: at.Z}
				}
			}
			out.surfaces = append(out.surfaces, u)
		}
	}
	return out
}
