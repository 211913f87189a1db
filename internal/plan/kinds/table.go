package kinds

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/props/material"
)

// Table is a table, with or without a cloth to the ground.
type Table struct {
	Name    string      `yaml:"name" doc:"what things on it call it"`
	Size    unit.Size   `yaml:"size" must:"yes" range:"6in..20ft" doc:"length x depth of the top"`
	Height  unit.Length `yaml:"height" range:"6in..5ft" doc:"height of the top"`
	Cloth   *Colour     `yaml:"cloth" doc:"colour of a cloth that falls to the ground; none if left out"`
	Pattern *Pattern    `yaml:"pattern" doc:"a photograph of the cloth itself, in place of its colour"`
	Colour  Colour      `yaml:"colour" doc:"colour of the bare top"`
	Counter bool        `yaml:"counter" doc:"yes: you sell over it, and visitors stay in the aisle: no way in is asked for"`
	Placing `yaml:",squash"`
	OnTop   []Thing `yaml:"on top" doc:"things that stand on it"`
}

var tableKind = many("tables", "Tables, bare or with a cloth to the ground, and what stands on them.",
	Table{Height: 29 * unit.Inch, Colour: Colour(timber)}, buildTables)

const topThick = 0.03 // metres: thickness of a folding table's top; common practice, no source

func buildTables(s *Site, entries []entry[Table]) {
	for _, en := range entries {
		it, e := en.item, en.says
		w, d, h := e.Size.A.M(), e.Size.B.M(), e.Height.M()
		f := s.stand(it, e.Placing, w, d)
		name := "the table"
		if e.Name != "" {
			name = called(e.Name, "table")
		}
		if e.Pattern != nil && e.Cloth == nil {
			e.Cloth = &Colour{0xe4, 0xdc, 0xc8}
		}
		height := h
		s.Plan.Pitch.Counter = s.Plan.Pitch.Counter || e.Counter
		p := booth.Part{ID: en.id("table", e.Name), Kind: "tables", Name: name, At: it.At(""), Frame: f, Top: &height, Bring: bring(name, e.Size.Format(s.file.Units))}
		if e.Cloth != nil {
			p.Bring += ", with its cloth"
		}
		slab := geom.Box(f, geom.Vec{X: -w / 2, Y: h - topThick, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})
		if e.Cloth != nil {
			mesh, cloth := tableCloth(f, w, d, h, e.Against != "")
			p.Solids, p.Blocks = cloth, []geom.Convex{geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})}
			p.Surfaces = []booth.Surface{{Mesh: mesh, Look: s.woven(it, e.Pattern, booth.Colour(*e.Cloth), material.Linen)}}
		} else {
			legs := []geom.Convex{slab}
			for _, x := range []float64{-w/2 + 0.05, w/2 - 0.05} {
				for _, z := range []float64{-d/2 + 0.05, d/2 - 0.05} {
					legs = append(legs, geom.Box(f.Moved(geom.Vec{X: x, Z: z}), geom.Vec{X: -0.015, Z: -0.015}, geom.Vec{X: 0.015, Y: h - topThick, Z: 0.015}))
				}
			}
			p.Solids = legs
			p.Surfaces = []booth.Surface{boards(booth.Colour(e.Colour), slab), block(metal, legs[1:]...)}
		}
		s.add(p)
		do, crew := "Set up "+name, 1
		if e.Cloth != nil {
			do += " and let its cloth fall to the ground all round"
		}
		if w > longTable {
			crew = 2
		}
		s.furnish(p, do, crew, rules.TableTime.In(s.Plan.Rules), false, tableGrams*w*d)
		t := top{id: p.ID, at: f.Moved(geom.Vec{Y: h}), w: w, d: d, thick: topThick}
		if e.Cloth != nil {
			t.folds = clothFolds
		}
		s.tops[e.Name] = t
		for k, thing := range e.OnTop {
			s.thing(it, thing, e.Name, p.ID, k)
		}
	}
}
