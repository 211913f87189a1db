package kinds

import (
	"fmt"
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// Bin is a cradle of matted prints that people leaf through.
type Bin struct {
	Name    string     `yaml:"name" doc:"what it holds"`
	Size    unit.Size3 `yaml:"size" range:"6in..6ft" doc:"width x depth x height over all"`
	Prints  int        `yaml:"prints" range:"1..60" doc:"how many prints stand in it"`
	Colour  Colour     `yaml:"colour" doc:"colour of the wood"`
	Resting `yaml:",squash"`
	Placing `yaml:",squash"`
}

var binKind = many("bins", "Browse bins with matted prints, on the ground or on a table.",
	Bin{Size: unit.Size3{A: 18 * unit.Inch, B: 16 * unit.Inch, C: 34 * unit.Inch}, Prints: 12, Colour: Colour(timber)}, buildBins)

func buildBins(s *Site, entries []entry[Bin]) {
	for _, en := range entries {
		it, e := en.item, en.says
		w, d, h := e.Size.A.M(), e.Size.B.M(), e.Size.C.M()
		p := booth.Part{ID: en.id("bin", e.Name), Kind: "bins", Name: "the browse bin", At: it.At("")}
		if e.Name != "" {
			p.Name = called(e.Name, "bin")
		}
		p.Bring = bring(p.Name, e.Size.Format(s.file.Units)) + fmt.Sprintf(", with %d prints", e.Prints)
		legs := 0.0 // metres of leg under the cradle
		if e.On != "" {
			var ok bool
			if p.Frame, p.Parent, ok = s.rest(it, e.Resting, e.Turn, w, d); !ok {
				continue
			}
		} else {
			p.Frame = s.stand(it, e.Placing, w, d)
			legs = max(0, h-0.45)
		}
		f := p.Frame
		const board = 0.012
		at := func(lo, hi geom.Vec) geom.Convex { return geom.Box(f, lo, hi) }
		wood := []geom.Convex{
			at(geom.Vec{X: -w / 2, Y: legs, Z: -d / 2}, geom.Vec{X: w / 2, Y: legs + board, Z: d / 2}),
			at(geom.Vec{X: -w / 2, Y: legs, Z: d/2 - board}, geom.Vec{X: w / 2, Y: legs + (h-legs)*0.35, Z: d / 2}),
			at(geom.Vec{X: -w / 2, Y: legs, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: -d/2 + board}),
		}
		for _, side := range []float64{-1, 1} {
			x := side * (w/2 - board/2)
			wood = append(wood, at(geom.Vec{X: x - board/2, Y: legs, Z: -d / 2}, geom.Vec{X: x + board/2, Y: legs + (h-legs)*0.3, Z: d / 2}))
			if legs > 0 {
				for _, z := range []float64{-d/2 + 0.03, d/2 - 0.03} {
					wood = append(wood, at(geom.Vec{X: x - 0.015, Z: z - 0.015}, geom.Vec{X: x + 0.015, Y: legs, Z: z + 0.015}))
				}
			}
		}
		prints := e.sheets(f, w, d, legs+board, h)
		p.Surfaces = []booth.Surface{boards(booth.Colour(e.Colour), wood...), block(paper, prints...)}
		p.Solids = append(wood, prints...)
		s.add(p)
		if e.On == "" {
			s.furnish(p, fmt.Sprintf("Stand %s in its place and fill it with its %d prints", p.Name, e.Prints), 1, rules.TableTime.In(s.Plan.Rules), true, binGrams+printGrams*float64(e.Prints))
		}
	}
}

// sheets are the matted prints, leaning back against each other, with the last ones upright.
func (e Bin) sheets(f geom.Frame, w, d, bottom, top float64) []geom.Convex {
	const thick = 0.003
	room := d - 0.06
	var out []geom.Convex
	for i := range e.Prints {
		t := (float64(i) + 0.5) / float64(e.Prints)
		lean := 0.10 + 0.12*t // radians: those in front lean further
		foot := f.Moved(geom.Vec{Y: bottom, Z: -d/2 + 0.03 + room*0.25 + room*0.7*t}).Tilted(lean)
		height := (top - bottom) * (0.94 - 0.05*math.Abs(math.Sin(float64(i)*2.4)))
		out = append(out, geom.Box(foot, geom.Vec{X: -w/2 + 0.02}, geom.Vec{X: w/2 - 0.02, Y: height, Z: thick}))
	}
	return out
}
