package kinds

import (
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/lettering"
)

// Tags are the price tags of all works on walls.
type Tags struct {
	Size   unit.Size   `yaml:"size" range:"1/2in..1ft" doc:"height x width"`
	Beside string      `yaml:"beside" oneof:"right below" doc:"where a tag is: right of the work at its lower edge, or below it"`
	Gap    unit.Length `yaml:"gap" range:"0in..1ft" doc:"clear space between work and tag"`
	Ink    Colour      `yaml:"ink" doc:"colour of the letters"`
	Paper  Colour      `yaml:"paper" doc:"colour of the card"`
}

var tagKind = one("tags", "A price tag for every work on a wall, with its title, medium, size and price. `tags: {}` takes the usual ones.",
	Tags{Size: unit.Size{A: 2 * unit.Inch, B: 3.5 * unit.Inch}, Beside: "below", Gap: 0.75 * unit.Inch, Ink: Colour{0x2b, 0x2f, 0x36}, Paper: Colour{0xfb, 0xf9, 0xf3}}, buildTags)

// tagPixels is how many pixels all tags may have together: beyond a hundred works each is drawn coarser.
const tagPixels = 16_000_000

func buildTags(s *Site, entries []entry[Tags]) {
	if len(entries) == 0 {
		return
	}
	it, e := entries[0].item, entries[0].says
	s.Plan.Tag = e.Size
	h, w, gap := e.Size.A.M(), e.Size.B.M(), e.Gap.M()
	hung := 0
	for _, work := range s.order {
		if work.hung != nil {
			hung++
		}
	}
	for _, work := range s.order {
		if work.hung == nil {
			continue
		}
		wall := s.Plan.Part(work.hung.Wall)
		x, y := work.hung.X0+w/2, work.hung.Y0-gap-h/2
		if e.Beside == "right" {
			x, y = work.hung.X1+gap+w/2, work.hung.Y0+h/2
		}
		art := s.artwork(work)
		medium := work.Medium
		if work.Edition != "" {
			medium += " " + work.Edition
		}
		if work.Year != "" {
			medium = strings.TrimPrefix(medium+", "+work.Year, ", ")
		}
		p := booth.Part{
			ID: id("tag", work.Name), Parent: wall.ID, Kind: "tags", Name: "the tag of " + work.Title, At: it.At(""), Dressing: true,
			Frame: wall.Frame.Moved(geom.Vec{X: x, Y: y, Z: 0.002}),
		}
		words := lettering.PriceTag(work.Title, medium, unit.AsIn(s.Plan.Currency, art.Sizes(s.file.Units)[0]), art.Amount(s.Plan.Currency))
		words.Ink, words.Paper, words.Most = e.Ink, e.Paper, tagPixels/hung
		s.board(&p, words, w, h, work.item.At("title"))
		s.add(p)
	}
}
