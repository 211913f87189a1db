package kinds

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// Belonging is a thing that stands in a booth and has no kind of its own.
type Belonging struct {
	Name    string      `yaml:"name" must:"yes" doc:"what it is called, and what things on it call it"`
	What    string      `yaml:"what" oneof:"box round crate easel rug bench cooler plant a-board umbrella spinner" doc:"its shape: a box, a round thing, or one of these that have a usual size. A work stands on an easel with on:"`
	Size    *unit.Size3 `yaml:"size" range:"1/8in..20ft" doc:"width x depth x height; usual for what it is if left out"`
	Colour  *Colour     `yaml:"colour" doc:"its colour; usual for what it is if left out"`
	Take    bool        `yaml:"for visitors" doc:"visitors take from it, as from a spinner with cards"`
	Resting `yaml:",squash"`
	Placing `yaml:",squash"`
}

var belongingKind = many("things", "Whatever else stands in the booth: a crate, an easel, a rug, a plant, a box of any size.",
	Belonging{What: "box"}, buildBelongings)

// made is what a thing is made of: solids of its own colour, wooden ones, of metal, of paper and of clay.
type made struct{ own, wood, metal, paper, clay []geom.Convex }

// shape is how a thing looks in a room w wide, d deep and h high, and what is usual of it: sizes are inches, common practice
// without a source.
type shape struct {
	size   [3]float64 // width, depth, height in inches
	colour Colour
	grams  float64 // of the usual size
	build  func(f geom.Frame, w, d, h float64) made
}

var shapes = map[string]shape{
	"box":      {[3]float64{16, 16, 16}, Colour{0xb9, 0xad, 0x98}, 4000, box},
	"round":    {[3]float64{16, 16, 24}, Colour{0xb9, 0xad, 0x98}, 4000, round},
	"crate":    {[3]float64{20, 14, 12}, Colour{0xb8, 0x96, 0x68}, 5000, crate},
	"easel":    {[3]float64{24, 28, 66}, Colour{0x8a, 0x64, 0x40}, 5000, easel},
	"rug":      {[3]float64{72, 48, 0.375}, Colour{0x7c, 0x6a, 0x5c}, 5000, box},
	"bench":    {[3]float64{42, 14, 18}, Colour{0xa8, 0x82, 0x57}, 9000, bench},
	"cooler":   {[3]float64{22, 14, 15}, Colour{0x6f, 0x7d, 0x86}, 6000, cooler},
	"plant":    {[3]float64{16, 16, 40}, Colour{0x60, 0x74, 0x4c}, 7000, plant},
	"a-board":  {[3]float64{24, 24, 36}, Colour{0x3c, 0x3d, 0x40}, 6000, aBoard},
	"umbrella": {[3]float64{78, 78, 96}, Colour{0xd8, 0xcb, 0xb0}, 25000, umbrella},
	"spinner":  {[3]float64{18, 18, 60}, Colour{0x4a, 0x4c, 0x4f}, 8000, spinner},
}

func buildBelongings(s *Site, entries []entry[Belonging]) {
	for _, en := range entries {
		it, e := en.item, en.says
		k := shapes[e.What]
		size := unit.Size3{A: unit.Length(k.size[0]) * unit.Inch, B: unit.Length(k.size[1]) * unit.Inch, C: unit.Length(k.size[2]) * unit.Inch}
		if e.Size != nil {
			size = *e.Size
		}
		if e.Colour != nil {
			k.colour = *e.Colour
		}
		w, d, h := size.A.M(), size.B.M(), size.C.M()
		p := booth.Part{
			ID: id("thing", e.Name), Kind: "things", Name: "the " + e.Name, At: it.At(""), Flat: e.What == "rug", Cradle: e.What == "easel", Handled: e.Take && e.On != "",
			Bring: bring(e.Name, size.Format(s.file.Units)),
		}
		if e.On != "" {
			var ok bool
			if p.Frame, p.Parent, ok = s.rest(it, e.Resting, e.Turn, w, d); !ok {
				s.unread["things "+e.Name] = true
				continue
			}
		} else {
			p.Frame = s.stand(it, e.Placing, w, d)
		}
		m := k.build(p.Frame, w, d, h)
		for _, of := range []struct {
			solids []geom.Convex
			look   func(...geom.Convex) booth.Surface
		}{
			{m.own, func(c ...geom.Convex) booth.Surface { return block(booth.Colour(k.colour), c...) }},
			{m.wood, func(c ...geom.Convex) booth.Surface { return boards(booth.Colour(k.colour), c...) }},
			{m.metal, func(c ...geom.Convex) booth.Surface { return block(metal, c...) }},
			{m.clay, func(c ...geom.Convex) booth.Surface { return block(booth.Colour{0xa8, 0x5e, 0x45}, c...) }},
			{m.paper, func(c ...geom.Convex) booth.Surface { return block(paper, c...) }},
		} {
			if len(of.solids) > 0 {
				p.Solids, p.Surfaces = append(p.Solids, of.solids...), append(p.Surfaces, of.look(of.solids...))
			}
		}
		s.add(p)
		s.setOut(p, e, k, w, d, h)
	}
}

// setOut is the task of a thing on the ground, and what can stand on it.
func (s *Site) setOut(p booth.Part, e Belonging, k shape, w, d, h float64) {
	if e.On == "" {
		usual := k.size[0] * k.size[1] * k.size[2] * 0.0254 * 0.0254 * 0.0254
		s.furnish(p, "Stand "+p.Name+" in its place", 1, rules.ThingTime.In(s.Plan.Rules), false, k.grams*math.Cbrt(float64(w*d*h)/usual))
		if t := &s.furniture[len(s.furniture)-1]; p.Flat {
			t.Name, t.Check, t.InTheWay = "Lay "+p.Name+" down, before anything stands there", "It lies flat, and its edges are taped or pinned: a raised edge trips people.", false
			t.Caution = "A loose edge trips people: tape it down all round, and look at it again during the day."
			s.rugs = append(s.rugs, p.ID)
		}
	}
	switch e.What {
	case "box", "round", "crate", "bench", "cooler":
		s.tops[e.Name] = top{p.ID, p.Frame.Moved(geom.Vec{Y: h}), w, d}
	case "easel":
		s.tops[e.Name] = top{p.ID, p.Frame.Moved(geom.Vec{Y: ledgeAt * h}), 2 * w, 0.1}
	}
}

func box(f geom.Frame, w, d, h float64) made {
	return made{own: []geom.Convex{geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})}}
}

const roundSides = 20

func round(f geom.Frame, w, d, h float64) made {
	return made{own: []geom.Convex{geom.Drum(f, roundSides, 0, w/2, d/2, h, w/2, d/2)}}
}

// crate is boards with gaps between them round a frame.
func crate(f geom.Frame, w, d, h float64) made {
	const slats, gap = 3, 0.012
	var m made
	thick := min(0.014, w/8, d/8)
	m.wood = append(m.wood, geom.Box(f, geom.Vec{X: -w/2 + thick, Z: -d/2 + thick}, geom.Vec{X: w/2 - thick, Y: h, Z: d/2 - thick}))
	high := h / slats
	for i := range slats {
		lo, hi := float64(i)*high, float64(i+1)*high-min(gap, high/4)
		if i == slats-1 {
			hi = h
		}
		for _, z := range []float64{-d / 2, d/2 - thick} {
			m.wood = append(m.wood, geom.Box(f, geom.Vec{X: -w / 2, Y: lo, Z: z}, geom.Vec{X: w / 2, Y: hi, Z: z + thick}))
		}
		for _, x := range []float64{-w / 2, w/2 - thick} {
			m.wood = append(m.wood, geom.Box(f, geom.Vec{X: x, Y: lo, Z: -d/2 + thick}, geom.Vec{X: x + thick, Y: hi, Z: d/2 - thick}))
		}
	}
	return m
}

// ledgeAt is where an easel's ledge is, as a share of its height; easelLean, in radians, is how far it and what stands on it
// lean back, as a work on a table does.
const (
	ledgeAt   = 0.45
	easelLean = 12 * math.Pi / 180
)

// easel is two uprights that lean back behind the work, a leg behind, and a ledge.
func easel(f geom.Frame, w, d, h float64) made {
	const bar = 0.022
	ledge := ledgeAt * h
	sin, cos := math.Sincos(easelLean)
	at := f.Moved(geom.Vec{Y: ledge}).Tilted(easelLean)
	down, up := (ledge-float64(bar*sin))/cos, (h-ledge)/cos
	var m made
	for _, x := range []float64{-w/2 + bar, w/2 - bar} {
		m.wood = append(m.wood, geom.Box(at, geom.Vec{X: x - bar, Y: -down, Z: -bar}, geom.Vec{X: x + bar, Y: 0.6 * up}))
	}
	m.wood = append(m.wood,
		geom.Box(at, geom.Vec{X: -bar, Y: -0.3 * down, Z: -bar}, geom.Vec{X: bar, Y: up}),
		geom.Box(at, geom.Vec{X: -w / 2, Y: 0.56 * up, Z: -2 * bar}, geom.Vec{X: w / 2, Y: 0.6 * up, Z: -bar}),
		geom.Box(f, geom.Vec{X: -w / 2, Y: ledge - bar, Z: -bar}, geom.Vec{X: w / 2, Y: ledge, Z: 0.05}),
		geom.Rod(at.At(geom.Vec{Y: 0.9 * up, Z: -bar}), f.At(geom.Vec{Y: bar, Z: -max(0.2, d-ledge*sin/cos)}), bar, 6))
	return m
}

func bench(f geom.Frame, w, d, h float64) made {
	const thick = 0.03
	var m made
	m.wood = append(m.wood, geom.Box(f, geom.Vec{X: -w / 2, Y: h - min(thick, h/2), Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2}))
	for _, x := range []float64{-0.42 * w, 0.42 * w} {
		m.wood = append(m.wood, geom.Box(f, geom.Vec{X: x - min(thick, w/8)/2, Z: -0.45 * d}, geom.Vec{X: x + min(thick, w/8)/2, Y: h - min(thick, h/2), Z: 0.45 * d}))
	}
	return m
}

func cooler(f geom.Frame, w, d, h float64) made {
	return made{
		own:   []geom.Convex{geom.Box(f, geom.Vec{X: -0.48 * w, Z: -0.48 * d}, geom.Vec{X: 0.48 * w, Y: 0.8 * h, Z: 0.48 * d})},
		paper: []geom.Convex{geom.Box(f, geom.Vec{X: -w / 2, Y: 0.8 * h, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})},
	}
}

// plant is a clipped tree in a pot, in a muted green.
func plant(f geom.Frame, w, d, h float64) made {
	const rings = 6
	x, z := w/2, d/2
	drum := func(y0, r0, y1, r1 float64) geom.Convex {
		return geom.Drum(f, roundSides, y0*h, r0*x, r0*z, y1*h, r1*x, r1*z)
	}
	m := made{
		clay: []geom.Convex{drum(0, 0.4, 0.22, 0.55), drum(0.22, 0.62, 0.27, 0.62)},
		wood: []geom.Convex{drum(0.27, 0.06, 0.5, 0.06)},
	}
	var ball []geom.Vec
	for i := range rings + 1 {
		out, up := math.Sincos(math.Pi * float64(i) / rings)
		for k := range roundSides {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / roundSides)
			ball = append(ball, f.At(geom.Vec{X: x * max(0.05, out) * cos, Y: h * (0.72 - float64(0.28*up)), Z: z * max(0.05, out) * sin}))
		}
	}
	const slack = 0.0005 // metres
	if leaves, ok := geom.Hull(ball, slack); ok {
		m.own = append(m.own, leaves)
	}
	return m
}

// aBoard is two boards that lean against each other.
func aBoard(f geom.Frame, w, d, h float64) made {
	const thick = 0.012
	lean := math.Atan2(d/2-thick, h)
	long := math.Hypot(d/2-thick, h) - float64(thick*math.Sin(lean))
	var m made
	for _, turn := range []float64{0, math.Pi} {
		at := f.Turned(turn).Moved(geom.Vec{Z: d/2 - thick}).Tilted(lean)
		m.own = append(m.own, geom.Box(at, geom.Vec{X: -w / 2}, geom.Vec{X: w / 2, Y: long, Z: thick}))
	}
	return m
}

func umbrella(f geom.Frame, w, d, h float64) made {
	x, z := w/2, d/2
	const pole = 0.02
	return made{
		metal: []geom.Convex{geom.Drum(f, roundSides, 0, 0.25, 0.25, 0.06, 0.22, 0.22), geom.Drum(f, 8, 0.06, pole, pole, h, pole, pole)},
		own:   []geom.Convex{geom.Drum(f, 8, 0.8*h, x, z, 0.98*h, 0.05*x, 0.05*z)},
	}
}

// spinner is a pole with cards on four sides, in tiers.
func spinner(f geom.Frame, w, d, h float64) made {
	const tiers = 4
	r := min(w, d) / 2
	m := made{metal: []geom.Convex{geom.Drum(f, roundSides, 0, r, r, 0.03, r, r), geom.Drum(f, 8, 0.03, 0.018, 0.018, h, 0.018, 0.018)}}
	from, step := 0.35*h, 0.65*h/tiers
	for i := range tiers {
		y := from + float64(i)*step
		for k := range 4 {
			at := f.Turned(float64(k) * math.Pi / 2).Moved(geom.Vec{Y: y, Z: 0.35 * r})
			m.paper = append(m.paper, geom.Box(at, geom.Vec{X: -0.45 * r}, geom.Vec{X: 0.45 * r, Y: 0.75 * step, Z: 0.4 * r}))
			m.own = append(m.own, geom.Box(at, geom.Vec{X: -0.55 * r, Z: 0.4 * r}, geom.Vec{X: 0.55 * r, Y: 0.25 * step, Z: 0.5 * r}))
		}
	}
	return m
}
