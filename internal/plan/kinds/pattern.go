package kinds

import (
	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/art"
	"boothmock/internal/props/material"
)

// Pattern is a photograph of one's own cloth.
type Pattern struct {
	Image string      `yaml:"image" must:"yes" doc:"the photograph, in the scene's folder: the cloth laid flat, straight from above, in even light"`
	Width unit.Length `yaml:"width" must:"yes" range:"1in..20ft" doc:"how wide the piece of cloth is that the photograph shows"`
}

// repeat is a photograph of cloth as a tile, which is made from its content.
type repeat struct {
	tile  *art.Image // nil: the photograph cannot be used
	share float64    // of the photograph's width that the tile covers
}

type repeated struct{ of *art.Content }

// woven is the look of cloth of a colour, or as its photograph shows it.
func (s *Site) woven(it scene.Item, p *Pattern, c booth.Colour, t *material.Tile) booth.Look {
	look := finished(c, t)
	if p == nil {
		return look
	}
	r, known := s.patterns[p.Image]
	if !known {
		at := func() fault.Place { return it.At("pattern.image") }
		if m := s.images([]art.Wish{{Name: p.Image, Side: 2 * material.RepeatSide}}, []func() fault.Place{at})[0]; m != nil {
			r = answer.Of(s.kept, repeated{m.Content}, func() (repeat, int) {
				tile, share := material.Repeat(m)
				return repeat{tile, share}, tile.Bytes()
			})
		}
		s.patterns[p.Image] = r
	}
	if r.tile != nil {
		look.Colour, look.Image, look.Tile = booth.Colour{255, 255, 255}, r.tile, p.Width.M()*r.share
	}
	return look
}
