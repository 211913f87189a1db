package kinds

import (
	"math"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
	"boothmock/internal/material"
	"boothmock/internal/unit"
)

// Drape is cloth on a pipe along some sides.
type Drape struct {
	Walls    []string     `yaml:"walls" doc:"the sides that are draped: left, back, right"`
	Cloth    Colour       `yaml:"cloth" doc:"colour of the cloth"`
	Top      unit.Length  `yaml:"top" range:"1ft..16ft" doc:"height of the pipe that it hangs from"`
	Bottom   unit.Length  `yaml:"bottom" range:"0in..10ft" doc:"height of its lower edge above the ground"`
	Fullness float64      `yaml:"fullness" range:"1..3" doc:"width of cloth for each width of wall: 1 is flat, 2 is twice as much cloth"`
	Fold     *unit.Length `yaml:"fold" range:"1in..2ft" doc:"from one fold to the next"`
	Bolt     unit.Length  `yaml:"bolt" range:"1ft..20ft" doc:"width of the cloth as it is sold by length"`
	Sheet    unit.Size    `yaml:"sheets" range:"1ft..40ft" doc:"height x width of ready-made sheets, if you use those instead"`
	Grammage float64      `yaml:"grams" range:"10..2000" doc:"weight of the cloth in grams a square metre (1 oz a square yard is 34); unknown if left out"`
	Holds    unit.Weight  `yaml:"pipe holds" doc:"what the maker says that the pipe carries; unknown if left out"`
}

var drapeKind = many("drapes", "Cloth on a pipe before the mesh, in folds.",
	Drape{Walls: []string{"left", "back", "right"}, Cloth: Colour{0x8b, 0x8f, 0x94}, Top: 82 * unit.Inch, Bottom: 0.5 * unit.Inch, Fullness: 1.25, Bolt: 60 * unit.Inch}, buildDrapes)

const (
	usualFold = 4.5 * 0.0254 // metres from fold to fold: common practice, no source
	pipe      = 0.016        // metres: radius of the pipe
)

func buildDrapes(s *Site, entries []entry[Drape]) {
	for _, en := range entries {
		it, e := en.item, en.says
		if e.Bottom >= e.Top {
			it.Fault("top", "", "the pipe is not above the cloth's lower edge")
			continue
		}
		fold := usualFold
		if e.Fold != nil {
			fold = e.Fold.M()
		}
		for _, name := range e.Walls {
			side, ok := sideNames[name]
			if !ok {
				it.Fault("walls", "write left, back, right or front", "%q is not a side of the pitch", name)
				continue
			}
			f, width := s.inner(side)
			f = f.Moved(geom.Vec{Z: slack})
			mesh, deep := folds(f, width, e.Bottom.M(), e.Top.M(), e.Fullness, fold)
			s.cloth[side], s.face[side] = deep, s.leg+slack+deep
			slab := geom.Box(f, geom.Vec{Y: e.Bottom.M()}, geom.Vec{X: width, Y: e.Top.M(), Z: deep})
			rod := geom.Rod(f.At(geom.Vec{Y: e.Top.M(), Z: deep / 2}), f.At(geom.Vec{X: width, Y: e.Top.M(), Z: deep / 2}), pipe, 8)
			s.drapes[side] = booth.ID("drape/" + name)
			s.add(booth.Part{
				ID: s.drapes[side], Kind: "drapes", Name: "the " + name + " drape", At: it.At(""), Frame: f.Moved(geom.Vec{X: width / 2}),
				Cloth: &booth.Cloth{
					Side: side, Width: width, Bottom: e.Bottom.M(), Top: e.Top.M(), Fullness: e.Fullness,
					Bolt: e.Bolt.M(), Sheet: e.Sheet, Grammage: e.Grammage, Pipe: true, Holds: e.Holds,
				},
				Solids: []geom.Convex{slab},
				Surfaces: []booth.Surface{
					{Mesh: mesh, Look: bothSides(booth.Colour(e.Cloth), material.Drape)},
					block(metal, rod),
				},
			})
		}
	}
}

// folds is cloth of the given fullness in sine folds between the frame's z = 0 and the depth that it returns: the
// length of the curve is fullness times the width, so the cloth drawn is the cloth to buy. The spacing of the folds
// wanders by a few percent, as cloth does.
func folds(f geom.Frame, width, bottom, top, fullness, fold float64) (geom.Mesh, float64) {
	n := max(1, math.Round(width/fold))
	deep := max(clothThick, 2*slope(fullness)*width/(2*math.Pi*n))
	wander := func(u float64) float64 { // keeps 0 and 1 in place
		return u + 0.011*math.Sin(2*math.Pi*u*3)*math.Sin(math.Pi*u) + 0.006*math.Sin(2*math.Pi*u*7+1)*math.Sin(math.Pi*u)
	}
	mesh := geom.Grid(int(n)*10, 5, func(u, v float64) (geom.Vec, float64, float64) {
		x, y := width*u, bottom+(top-bottom)*v
		z := deep / 2 * (1 - math.Cos(2*math.Pi*n*wander(u)))
		return f.At(geom.Vec{X: x, Y: y, Z: z}), x * fullness, -y
	})
	return mesh, deep
}

// slope is the steepest slope of a sine whose curve is ratio times as long as its base, found by halving: the mean of
// sqrt(1 + slope² cos²) over a wave is the ratio.
func slope(ratio float64) float64 {
	lo, hi := 0.0, 20.0
	for range 60 {
		mid := (lo + hi) / 2
		sum := 0.0
		const n = 256
		for i := range n {
			sum += math.Hypot(1, mid*math.Cos(2*math.Pi*(float64(i)+0.5)/n))
		}
		if sum/n < ratio {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}
