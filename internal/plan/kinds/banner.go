package kinds

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/props/lettering"
)

// Banner is a long board or cloth with a name.
type Banner struct {
	Text  string       `yaml:"text" must:"yes" doc:"the words"`
	Size  unit.Size    `yaml:"size" must:"yes" range:"3in..30ft" doc:"height x width"`
	Top   *unit.Length `yaml:"top" range:"1ft..16ft" doc:"height of its upper edge; the tent's eave, or the table's top, if left out"`
	On    string       `yaml:"on" doc:"the table before which it hangs; over the front edge of the pitch if left out"`
	Wall  string       `yaml:"wall" doc:"the wall that it hangs on"`
	Ink   Colour       `yaml:"ink" doc:"colour of the letters"`
	Paper Colour       `yaml:"paper" doc:"colour of the cloth"`
}

var bannerKind = one("banner", "A banner with your name: over the entrance, before a table or on a wall.",
	Banner{Ink: Colour{0x2b, 0x2f, 0x36}, Paper: Colour{0xf7, 0xf4, 0xec}}, buildBanner)

func buildBanner(s *Site, entries []entry[Banner]) {
	if len(entries) == 0 {
		return
	}
	it, e := entries[0].item, entries[0].says
	h, w := e.Size.A.M(), e.Size.B.M()
	p := booth.Part{ID: "banner", Kind: "banner", Name: "the banner", At: it.At("")}
	var top float64
	switch {
	case e.On != "":
		t, ok := s.tops[e.On]
		if !ok {
			s.unknown(it, "on", "table", e.On, names(s.tops), "tables")
			return
		}
		p.Frame, p.Parent, p.Hangs, top = t.at, t.id, true, t.at.Origin.Y
		p.Frame.Origin = t.at.At(geom.Vec{Z: t.d/2 + t.folds})
	case e.Wall != "":
		wall := s.wall(it, "wall", e.Wall)
		if wall == nil {
			return
		}
		p.Frame, p.Parent = wall.Frame.Moved(geom.Vec{X: wall.Wall.Width / 2}), wall.ID
		top = rules.HangingCentre.In(s.Plan.Rules) + h/2
	default:
		if s.eave == 0 && e.Top == nil {
			it.Fault("", "say top: and a height, or on: and a table", "without a tent the banner has nothing to hang from")
			return
		}
		p.Frame, top = geom.Upright(geom.Vec{Z: 2 * overhang}, geom.Vec{Z: 1}), s.eave
	}
	if e.Top != nil {
		top = e.Top.M()
	}
	p.Frame.Origin.Y = top - h/2
	p.Bring = bring(p.Name, e.Size.Format(s.file.Units))
	words := lettering.Banner(e.Text)
	words.Ink, words.Paper = e.Ink, e.Paper
	s.board(&p, words, w, h, it.At("text"))
	if p.Lettering != nil {
		p.Lettering.From = booth.Aisle
	}
	s.add(p)
}
