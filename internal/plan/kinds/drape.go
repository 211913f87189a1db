package kinds

import (
	"fmt"
	"math"
	"slices"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/material"
)

// Drape is cloth on a pipe along some sides.
type Drape struct {
	Walls    []string     `yaml:"walls" doc:"what is draped: the sides left, back and right, and walls that stand elsewhere, by their names"`
	Cloth    Colour       `yaml:"cloth" doc:"colour of the cloth"`
	Pattern  *Pattern     `yaml:"pattern" doc:"a photograph of the cloth itself, in place of its colour"`
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
	tucked    = 0.04         // metres at each end over which the cloth goes back to what is behind it
	wholeFold = 0.025        // metres: a fold that bulges less is one solid
)

func buildDrapes(s *Site, entries []entry[Drape]) {
	for _, en := range entries {
		it, e := en.item, en.says
		if e.Bottom >= e.Top {
			it.Fault("top", "", "the pipe is not above the cloth's lower edge")
			continue
		}
		for k, name := range e.Walls {
			side, ok := sideNames[name]
			if !ok { // a wall that is still to be built
				field := fmt.Sprintf("walls.%d", k)
				if _, twice := s.faceDrapes[name]; twice {
					it.Fault(field, "name it once", "%q is draped already", name)
				}
				s.faceDrapes[name] = faceDrape{e, it, field}
				continue
			}
			f, width := s.inner(side)
			s.drapes[side], s.drapeOf[side] = booth.ID("drape/"+name), e
			deep := s.hangCloth(piped{e, it, "drape/" + name, "the " + name + " drape", side, false}, f.Moved(geom.Vec{Z: slack}), width)
			s.cloth[side], s.face[side] = deep, s.leg+slack+deep
		}
	}
}

// hanging is all that cloth in folds is made from: where it hangs, and in metres but for the fullness, how. See folds.
type hanging struct {
	f                                           geom.Frame
	width, bottom, top, fullness, fold, deepest float64
}

// folds is the function, asked once for all versions of the scene.
func (s *Site) folds(h hanging) (geom.Mesh, []geom.Convex, float64) {
	type cloth struct {
		mesh   geom.Mesh
		solids []geom.Convex
		deep   float64
	}
	c := answer.Of(s.kept, h, func() (cloth, int) {
		var c cloth
		c.mesh, c.solids, c.deep = folds(h.f, h.width, h.bottom, h.top, h.fullness, h.fold, h.deepest)
		return c, c.mesh.Bytes() + geom.Bytes(c.solids)
	})
	return c.mesh, slices.Clip(c.solids), c.deep
}

// piped is a cloth on its pipe that is still to be hung.
type piped struct {
	Drape
	it       scene.Item
	id, name string
	side     booth.Side
	free     bool // it hangs within the booth
}

// hangCloth adds the part of a cloth so wide, before the frame, and gives the depth in metres that it takes.
func (s *Site) hangCloth(e piped, f geom.Frame, width float64) (deep float64) {
	fold := usualFold
	if e.Fold != nil {
		fold = e.Fold.M()
	}
	mesh, cloth, deep := s.folds(hanging{f, width, e.Bottom.M(), e.Top.M(), e.Fullness, fold, wholeFold})
	slab := geom.Box(f, geom.Vec{Y: e.Bottom.M()}, geom.Vec{X: width, Y: e.Top.M(), Z: deep})
	at := geom.Vec{Y: e.Top.M() - pipe - 0.002, Z: pipeAt(deep)} // just under the cloth's upper edge, and behind it
	look := s.woven(e.it, e.Pattern, booth.Colour(e.Cloth), material.Drape)
	look.TwoSided = true
	rod := geom.Rod(f.At(at), f.At(at.Add(geom.Vec{X: width})), pipe, 8)
	per := wallGrams
	if e.Grammage > 0 {
		per = e.Grammage
	}
	s.add(booth.Part{
		ID: booth.ID(e.id), Kind: "drapes", Name: e.name, At: e.it.At(""), Frame: f.Moved(geom.Vec{X: width / 2}),
		Heft: grams(math.Round(width*(e.Top-e.Bottom).M()*e.Fullness*per + width*pipeGrams)), Taken: true,
		Cloth: &booth.Cloth{
			Side: e.side, Width: width, Bottom: e.Bottom.M(), Top: e.Top.M(), Fullness: e.Fullness,
			Bolt: e.Bolt.M(), Sheet: e.Sheet, Grammage: e.Grammage, Pipe: true, Holds: e.Holds, Free: e.free,
		},
		Solids: append(cloth, rod), Blocks: []geom.Convex{slab},
		Surfaces: []booth.Surface{
			{Mesh: mesh, Look: look},
			block(metal, rod),
		},
	})
	return deep
}

// folds is cloth of the given fullness in folds between the frame's z = 0 and the depth that it returns, and the solids that
// it is made of, none of which bulges more than deepest. Its lower edge is fullness times as long as it is wide, so the cloth drawn is the cloth to buy. Folds are
// of uneven depth and spacing and lean a little, as cloth does; at the top they are drawn together before the pipe, and at
// both ends the cloth is tucked back. The mesh's columns run along the folds.
func folds(f geom.Frame, width, bottom, top, fullness, fold, deepest float64) (geom.Mesh, []geom.Convex, float64) {
	n := max(1, math.Round(width/fold+1e-9)) // half a fold is one, however the width was worked out
	cells := int(n) * 8
	phase := func(u, v float64) float64 { // in folds
		ends := math.Sin(math.Pi * u) // keeps the ends in place
		wander := float64(0.011*math.Sin(6*math.Pi*u)) + float64(0.006*math.Sin(14*math.Pi*u+1))
		lean := float64(0.4/n*math.Sin(4.6*math.Pi*u+0.6)) * (1 - v)
		return n * (u + float64(ends*(wander+lean)))
	}
	share := func(u float64) float64 { // of the deepest fold's depth
		return 0.8 + float64(0.12*math.Sin(2*math.Pi*0.37*n*u+1)) + float64(0.08*math.Sin(2*math.Pi*0.23*n*u+2.5))
	}
	depth := func(swing float64) float64 { return max(clothThick, 2*swing) }
	out := func(u, v, swing float64) float64 { // before the frame
		const kept = 0.3 // of the folds' depth, at the pipe
		deep := depth(swing)
		drawn := math.Pow(max(0, v-0.72)/0.28, 2) // 0 where the folds hang free, 1 at the top
		pipeFront := min(deep/2+float64(kept*swing)+0.002, deep-float64(kept*swing))
		z := deep/2 + float64(drawn*(pipeFront-deep/2)) + float64(swing*(1-float64((1-kept)*drawn))*share(u)*math.Sin(2*math.Pi*phase(u, v)))
		tuck := min(1, width*min(u, 1-u)/tucked)
		return min(max(z, 0), deep) * tuck * (2 - tuck)
	}
	heights := []float64{0, 0.4, 0.72, 0.89, 1}
	across := make([][]float64, len(heights)) // of each column, as a share of the width
	for k, v := range heights {
		across[k] = make([]float64, cells+1)
		for i := range across[k] {
			want := float64(i) / 8
			across[k][i] = halve(0, 1, func(u float64) bool { return phase(u, v) < want })
		}
		across[k][0], across[k][cells] = 0, 1
	}
	long := func(swing float64) (sum float64) { // the lower edge
		for i, u := range across[0][1:] {
			sum += math.Hypot(width*(u-across[0][i]), out(u, 0, swing)-out(across[0][i], 0, swing))
		}
		return sum
	}
	swing := halve(0, width, func(x float64) bool { return long(x) < fullness*width })
	rows := make([][]geom.Vec, len(heights))
	for k, v := range heights {
		for _, u := range across[k] {
			rows[k] = append(rows[k], geom.Vec{X: width * u, Y: bottom + float64((top-bottom)*v), Z: out(u, v, swing)})
		}
	}
	mesh := geom.Grid(cells, len(rows)-1, func(u, v float64) (geom.Vec, float64, float64) {
		p := rows[int(v*float64(len(rows)-1)+0.5)][int(u*float64(cells)+0.5)]
		return f.At(p), p.X * fullness, -p.Y
	})
	return mesh, pleats(f, rows, deepest), depth(swing)
}

// pipeAt is how far before the frame the middle of the pipe is: its front is in the middle of folds so deep.
func pipeAt(deep float64) float64 { return deep/2 - pipe }

// halve finds, between lo and hi, where more turns from true to false.
func halve(lo, hi float64, more func(float64) bool) float64 {
	for range 50 {
		if mid := (lo + hi) / 2; more(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}
