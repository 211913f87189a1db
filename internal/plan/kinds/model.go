package kinds

import (
	"fmt"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/model"
)

// shaped is a model at the size that the scene gives it, in its own frame.
type shaped struct {
	pieces         []model.Piece
	solids, blocks []geom.Convex
}

// scaled is what a shaped model is made from.
type scaled struct {
	file    string
	sum     answer.Sum // of what is in it
	w, d, h float64
}

// shape is the model of a .glb in a room w wide, d deep and h high, as the field of an entry names it. A file that cannot be used, or has
// another shape than the size, is a fault there.
func (s *Site) shape(it scene.Item, field, file string, w, d, h float64, size func(w, d, h unit.Length) string) (shaped, bool) {
	m, known := s.models[file]
	if !known {
		clean, err := scene.Inside(file)
		if err != nil {
			it.Fault(field, "keep it in the scene's own folder, or below it", "%s", err)
			return shaped{}, false
		}
		if m, err = model.Load(s.fsys, clean, s.kept); err != nil {
			s.refuse(it.At(field), err)
			return shaped{}, false
		}
		s.models[file] = m
	}
	const slack = 1.15 // measuring something round with a folding rule is no more exact
	if h == 0 {
		it.Fault(field, "say its size: "+size(unit.Length(m.Size.X), unit.Length(m.Size.Z), unit.Length(m.Size.Y))+" is what the file says, if it can be trusted", "the size of %s is missing", file)
		return shaped{}, false
	}
	if m.Stretched(w, d, h) > slack {
		by := h / m.Size.Y
		it.Fault("size", fmt.Sprintf("at that height it is %s; it must stand upright in the file, its front towards +Z", size(unit.Length(m.Size.X*by), unit.Length(m.Size.Z*by), unit.Length(h))),
			"%s has another shape than %s", file, size(unit.Length(w), unit.Length(d), unit.Length(h)))
		return shaped{}, false
	}
	return answer.Of(s.kept, scaled{file, m.Sum, w, d, h}, func() (shaped, int) {
		pieces, solids, blocks := m.Scaled(w, d, h)
		return shaped{pieces, solids, blocks}, m.Bytes() + geom.Bytes(solids) + geom.Bytes(blocks)
	}), true
}

// in makes a part of the model in the part's frame, in one colour if there is one.
func (m shaped) in(p *booth.Part, c *Colour) {
	p.Skinned = true
	for _, solid := range m.solids {
		p.Solids = append(p.Solids, p.Frame.Solid(solid))
	}
	for _, block := range m.blocks {
		p.Blocks = append(p.Blocks, p.Frame.Solid(block))
	}
	for _, o := range m.pieces {
		look := booth.Look{Colour: o.Colour, Image: o.Image, TwoSided: o.TwoSided}
		if o.Repeats {
			look.Tile = 1
		}
		if c != nil {
			look = booth.Look{Colour: booth.Colour(*c), TwoSided: o.TwoSided}
		}
		p.Surfaces = append(p.Surfaces, booth.Surface{Mesh: p.Frame.Mesh(o.Mesh), Look: look})
	}
}
