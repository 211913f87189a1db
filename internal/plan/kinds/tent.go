package kinds

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/lettering"
	"boothmock/internal/props/material"
)

// Tent is a frame on legs with a canopy.
type Tent struct {
	Eave      unit.Length `yaml:"eave" range:"5ft..16ft" doc:"height of the rails that the canopy's edge lies on"`
	Peak      unit.Length `yaml:"peak" range:"5ft..30ft" doc:"height of the highest point"`
	Roof      string      `yaml:"roof" oneof:"peak ridge flat" doc:"one point in the middle, a ridge from front to back, or flat"`
	Leg       unit.Length `yaml:"leg" range:"1/2in..8in" doc:"thickness of a leg"`
	Valance   unit.Length `yaml:"valance" range:"0in..3ft" doc:"height of the cloth that hangs down from the canopy's edge; 0 for none"`
	Canopy    Colour      `yaml:"canopy" doc:"colour of the canopy"`
	Passes    unit.Share  `yaml:"light through" range:"0%..90%" doc:"share of daylight that comes through the canopy"`
	Text      string      `yaml:"valance text" doc:"words on the front valance"`
	Sidewalls []string    `yaml:"sidewalls" doc:"sides closed with the tent's own cloth: left, right, back"`
	Weight    unit.Weight `yaml:"weight" doc:"what one tent weighs, frame and canopy; unknown if left out"`
	Ballast   unit.Weight `yaml:"ballast" doc:"weight on each leg; unknown if left out"`
	Stake     unit.Weight `yaml:"stakes hold" doc:"what a stake at each leg holds when it is pulled, as you tried it in such ground; stakes are in the plan only with it, and where the fair allows them"`
	Across    int         `yaml:"tents across" range:"1..6" doc:"how many tents stand side by side"`
}

var tentKind = one("tent", "A frame on legs with a canopy over the pitch. Leave it out indoors.",
	Tent{
		Eave: 84 * unit.Inch, Peak: 124 * unit.Inch, Roof: "peak", Leg: 1.5 * unit.Inch, Valance: 9 * unit.Inch,
		Canopy: Colour{0xf4, 0xf3, 0xee}, Passes: 0.25, Across: 1,
	}, buildTent)

const (
	clothThick = 0.002 // metres: canopy and valance as they meet light
	overhang   = 0.04  // metres that the canopy's edge stands out over the legs
)

func buildTent(s *Site, entries []entry[Tent]) {
	if len(entries) == 0 {
		return
	}
	it, e := entries[0].item, entries[0].says
	if e.Peak < e.Eave {
		it.Fault("peak", "the peak is the highest point of the canopy", "the peak is lower than the eave")
		return
	}
	if e.Stake > 0 && !s.Plan.Pitch.Soft {
		it.Fault("stakes hold", "write ballast: for weights on each leg", "no stake is driven into such ground")
	}
	s.leg, s.eave = e.Leg.M(), e.Eave.M()
	s.face = [4]float64{s.leg, s.leg, s.leg, s.leg}
	p := s.Plan.Pitch
	w := p.Width / float64(e.Across)
	for k := range e.Across {
		id := booth.ID("tent")
		if e.Across > 1 {
			id = booth.ID(fmt.Sprintf("tent/%d", k+1))
		}
		centre := -p.Width/2 + w*(float64(k)+0.5)
		of := tentNamed(k, e.Across)
		s.frame(id, of, e, it.At(""), centre, w, p.Depth, k)
		s.canopy(id, of, e, it.At(""), centre, w, p.Depth, k)
	}
	s.sidewalls(it.At("sidewalls"), e)
}

// tentNamed says which of several tents side by side a thing is of: " of the right tent"; nothing for the only one.
func tentNamed(number, across int) string {
	switch {
	case across == 1:
		return ""
	case number == 0:
		return " of the left tent"
	case number == across-1:
		return " of the right tent"
	case across == 3:
		return " of the middle tent"
	}
	return fmt.Sprintf(" of tent %d from the left", number+1)
}

// frame adds legs and rails; of says which tent it is. Tents that stand side by side share the legs between them.
func (s *Site) frame(id booth.ID, of string, e Tent, at fault.Place, cx, w, d float64, number int) {
	t := e.Leg.M()
	rise := e.Peak.M() - e.Eave.M()
	front, side := float64(w*rise)/2, float64(d*rise)/2
	switch e.Roof {
	case "ridge":
		side = d * rise
	case "flat":
		front, side = 0, 0
	}
	legs := 4
	if number > 0 {
		legs = 2
	}
	s.add(booth.Part{
		ID: id, Kind: "tent", Name: "the frame" + cmp.Or(of, " of the tent"), At: at, Frame: geom.World.Moved(geom.Vec{X: cx, Z: -d / 2}),
		Bring: "tent with canopy, " + unit.Length(w).FormatFeet(s.file.Units) + " x " + unit.Length(d).FormatFeet(s.file.Units),
		Tent: &booth.Tent{
			Width: w, Depth: d, Eave: e.Eave.M(), Peak: e.Peak.M(), Valance: e.Valance.M(), RoofFront: front, RoofSide: side,
			Weight: e.Weight, Ballast: e.Ballast, Stake: e.Stake, Legs: legs,
		},
	})
	for _, c := range []struct {
		name string
		x, z float64
	}{
		{"front-left", cx - w/2 + t/2, -t / 2}, {"front-right", cx + w/2 - t/2, -t / 2},
		{"back-left", cx - w/2 + t/2, -d + t/2}, {"back-right", cx + w/2 - t/2, -d + t/2},
	} {
		if number > 0 && c.x < cx {
			continue
		}
		f := geom.World.Moved(geom.Vec{X: c.x, Z: c.z})
		leg := geom.Box(f, geom.Vec{X: -t / 2, Z: -t / 2}, geom.Vec{X: t / 2, Y: e.Eave.M(), Z: t / 2})
		foot := geom.Box(f, geom.Vec{X: -t, Z: -t}, geom.Vec{X: t, Y: 0.006, Z: t})
		s.add(booth.Part{
			ID: id + "/leg-" + booth.ID(c.name), Parent: id, Kind: "tent", Name: "the " + strings.ReplaceAll(c.name, "-", " ") + " leg" + of, At: at, Frame: f,
			Solids: []geom.Convex{leg, foot}, Blocks: []geom.Convex{leg}, Surfaces: []booth.Surface{block(metal, leg, foot)},
		})
	}
	bar := t * 0.7
	rail := func(a, b geom.Vec) geom.Convex { return geom.Rod(a, b, bar/2*math.Sqrt2, 4) }
	corners := tentCorners(cx, w-t, d, e.Eave.M()-bar/2, -t/2)
	var rails []geom.Convex
	for i, c := range corners {
		if number > 0 && i == 3 {
			continue // the neighbour's rail serves both
		}
		rails = append(rails, rail(c, corners[(i+1)%4]))
	}
	if e.Roof == "peak" {
		top := geom.Vec{X: cx, Y: e.Peak.M() - 0.03, Z: -d / 2}
		for _, c := range corners {
			rails = append(rails, rail(c, top))
		}
	}
	s.add(booth.Part{
		ID: id + "/rails", Parent: id, Kind: "tent", Name: "the rails" + cmp.Or(of, " of the tent"), At: at, Frame: geom.World.Moved(geom.Vec{X: cx, Y: e.Eave.M(), Z: -d / 2}),
		Solids: rails, Surfaces: []booth.Surface{block(metal, rails...)},
	})
}

// tentCorners are the four corners at height y, inset from the front and back by -dz: front left, front right, back
// right, back left.
func tentCorners(cx, w, d, y, dz float64) []geom.Vec {
	return []geom.Vec{
		{X: cx - w/2, Y: y, Z: dz}, {X: cx + w/2, Y: y, Z: dz},
		{X: cx + w/2, Y: y, Z: -d - dz}, {X: cx - w/2, Y: y, Z: -d - dz},
	}
}

// look is the canopy's cloth.
func (e Tent) look() booth.Look {
	k := bothSides(booth.Colour(e.Canopy), material.Canopy)
	k.Passes = float64(e.Passes)
	return k
}

// canopy adds the roof and the valance; of says which tent it is.
func (s *Site) canopy(id booth.ID, of string, e Tent, at fault.Place, cx, w, d float64, number int) {
	y, peak := e.Eave.M(), e.Peak.M()
	corners := tentCorners(cx, w+2*overhang, d, y, overhang)
	var slopes []geom.Polygon
	switch {
	case e.Roof == "flat" || peak-y < 0.01:
		slopes = []geom.Polygon{{corners[0], corners[1], corners[2], corners[3]}}
	case e.Roof == "ridge":
		a, b := geom.Vec{X: cx, Y: peak, Z: overhang}, geom.Vec{X: cx, Y: peak, Z: -d - overhang}
		slopes = []geom.Polygon{{corners[3], corners[0], a, b}, {corners[1], corners[2], b, a}, {corners[0], corners[1], a}, {corners[2], corners[3], b}}
	default:
		top := geom.Vec{X: cx, Y: peak, Z: -d / 2}
		for i, c := range corners {
			slopes = append(slopes, geom.Polygon{c, corners[(i+1)%4], top})
		}
	}
	look := e.look()
	roof := booth.Part{ID: id + "/canopy", Parent: id, Kind: "tent", Name: "the canopy" + of, At: at, Frame: geom.World.Moved(geom.Vec{X: cx, Y: y, Z: -d / 2})}
	var strips [][]strip
	for _, p := range slopes {
		strips = append(strips, roofStrips(p, y))
		roof.Solids = append(roof.Solids, geom.Prism(p, p.Normal().Mul(-sheetThick)))
		roof.Blocks = append(roof.Blocks, geom.Prism(p, p.Normal().Mul(-clothThick)))
	}
	roof.Surfaces = sewn(look, slopes, strips)
	s.add(roof)
	if e.Valance == 0 {
		return
	}
	for i, side := range []booth.Side{booth.Front, booth.Right, booth.Back, booth.Left} {
		if (number > 0 && side == booth.Left) || (number < e.Across-1 && side == booth.Right) {
			continue // between two tents there is no valance
		}
		a, b := corners[i], corners[(i+1)%4]
		f := geom.Upright(a, geom.Up.Cross(b.Sub(a)).Neg())
		width, h := a.Dist(b), e.Valance.M()
		cloth := func(thick float64) []geom.Convex {
			return []geom.Convex{geom.Box(f, geom.Vec{Y: -h, Z: -thick}, geom.Vec{X: width})}
		}
		part := booth.Part{
			ID: id + "/valance-" + booth.ID(side.String()), Parent: id, Kind: "tent", Name: "the " + side.String() + " valance" + of, At: at, Frame: f,
			Solids: cloth(sheetThick), Blocks: cloth(clothThick),
		}
		face := geom.Rect(f, 0, -h, width, 0)
		hem := [][]strip{{{face[0], geom.Up, min(hemWide, h/3)}}}
		if side == booth.Front && e.Text != "" {
			words := lettering.Valance(e.Text)
			words.Ink, words.Paper = [3]uint8{0x2f, 0x33, 0x38}, e.Canopy
			img := s.letter(words, &part, face, width, h, at)
			if part.Lettering != nil {
				part.Lettering.From = booth.Aisle
			}
			written, back := look, look
			written.Image, written.Tile, written.Colour, written.TwoSided = img, 0, booth.Colour{255, 255, 255}, false
			back.TwoSided = false
			inner := geom.Rect(f.Moved(geom.Vec{Z: -clothThick}), 0, -h, width, 0)
			behind := geom.Polygon{inner[1], inner[0], inner[3], inner[2]}
			part.Surfaces = append(sewn(back, []geom.Polygon{behind}, hem), booth.Surface{Mesh: geom.ImageRect(face), Look: written})
		} else {
			part.Surfaces = sewn(look, []geom.Polygon{face}, hem)
		}
		s.add(part)
	}
}

// sidewalls adds the tent's own cloth on the sides that are closed with it, outside the legs.
func (s *Site) sidewalls(at fault.Place, e Tent) {
	for _, name := range e.Sidewalls {
		side, ok := sideNames[name]
		if !ok || side == booth.Front {
			s.file.Faults().Add(at, "write left, right or back", "%q is not a side that a tent wall can close", name)
			continue
		}
		s.closed[side] = true
		f, width := s.edge(side)
		cloth := geom.Box(f, geom.Vec{Z: 0.001}, geom.Vec{X: width, Y: e.Eave.M() - 0.02, Z: 0.001 + clothThick})
		var m geom.Mesh
		m.AddPolygon(geom.Rect(f.Moved(geom.Vec{Z: 0.002}), 0, 0, width, e.Eave.M()-0.02))
		s.add(booth.Part{
			ID: "sidewall/" + booth.ID(name), Kind: "tent", Name: "the " + name + " tent wall", At: at, Frame: f.Moved(geom.Vec{X: width / 2}),
			Bring:    name + " tent wall",
			Cloth:    &booth.Cloth{Side: side, Width: width, Top: e.Eave.M() - 0.02, Fullness: 1},
			Solids:   []geom.Convex{cloth},
			Surfaces: []booth.Surface{{Mesh: m, Look: e.look()}},
		})
	}
}
