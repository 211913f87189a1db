package kinds

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// Pedestal is a box to show something on.
type Pedestal struct {
	Name    string      `yaml:"name" doc:"what things on it call it"`
	Size    unit.Size   `yaml:"size" range:"4in..6ft" doc:"width x depth"`
	Height  unit.Length `yaml:"height" range:"4in..6ft" doc:"height"`
	Colour  Colour      `yaml:"colour" doc:"its colour"`
	Weight  unit.Weight `yaml:"weight" range:"1lb..1000lb" doc:"what it weighs, with what you put in it against the wind; usual if left out"`
	Placing `yaml:",squash"`
}

var pedestalKind = many("pedestals", "Boxes to stand a work or a sign on.",
	Pedestal{Size: unit.Size{A: 12 * unit.Inch, B: 12 * unit.Inch}, Height: 36 * unit.Inch, Colour: Colour{0xec, 0xea, 0xe4}}, buildPedestals)

func buildPedestals(s *Site, entries []entry[Pedestal]) {
	for _, en := range entries {
		it, e := en.item, en.says
		w, d, h := e.Size.A.M(), e.Size.B.M(), e.Height.M()
		f := s.stand(it, e.Placing, w, d)
		box := geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})
		p := booth.Part{
			ID: en.id("pedestal", e.Name), Kind: "pedestals", Name: "the pedestal", At: it.At(""), Frame: f, Heft: e.Weight,
			Solids: []geom.Convex{box}, Surfaces: []booth.Surface{block(booth.Colour(e.Colour), box)},
		}
		if e.Name != "" {
			p.Name = called(e.Name, "pedestal")
		}
		p.Bring = bring(p.Name, e.Size.Format(s.file.Units)+" and "+e.Height.Format(s.file.Units)+" high")
		s.add(p)
		s.furnish(p, "Stand "+p.Name+" in its place", 1, rules.ThingTime.In(s.Plan.Rules), false, pedestalGrams*w*d)
		s.tops[e.Name] = top{id: p.ID, at: f.Moved(geom.Vec{Y: h}), w: w, d: d}
	}
}
