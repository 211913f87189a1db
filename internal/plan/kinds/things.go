package kinds

import (
	"cmp"
	"math"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/art"
)

// Belonging is a thing that stands in a booth and has no kind of its own.
type Belonging struct {
	Name     string      `yaml:"name" must:"yes" doc:"what it is called, and what things on it call it"`
	What     string      `yaml:"what" oneof:"box round crate easel rug bench cooler plant a-board umbrella spinner mirror lamp-stand clothes-rail board frame bag-hooks tree shelf ledge" doc:"its shape: a box, a round thing, or one of these that have a usual size. A work stands on an easel, a shelf or a ledge with on:"`
	Model    string      `yaml:"model" doc:"instead of what: a .glb (glTF 2.0) in the scene's folder whose shape, colours and pictures it has, upright and facing +Z; then its size is needed"`
	Size     *unit.Size3 `yaml:"size" range:"1/8in..60ft" doc:"width x depth x height; usual for what it is if left out"`
	Image    string      `yaml:"image" doc:"a photograph on the front of a box, a board, a frame or an a-board, in the scene's folder; what is over of its width or height is cut off"`
	Colour   *Colour     `yaml:"colour" doc:"its colour; usual for what it is if left out"`
	Fixed    bool        `yaml:"fixed" doc:"yes: it belongs to the place, as a tree, a pillar or a lamp post does: nobody brings or moves it"`
	Weight   unit.Weight `yaml:"weight" range:"1oz..2000lb" doc:"what it weighs, with whatever weighs it down against the wind; usual for its size if left out"`
	Take     bool        `yaml:"for visitors" doc:"visitors take from it, as from a spinner with cards"`
	Fastened `yaml:",squash"`
	Resting  `yaml:",squash"`
	Placing  `yaml:",squash"`
}

var belongingKind = many("things", "Whatever else stands in the booth: a crate, an easel, a rug, a plant, a box of any size.",
	Belonging{What: "box"}, buildBelongings)

// made is what a thing is made of: solids of its own colour, wooden ones, with bark, of metal, of paper, of clay and of glass that shows
// no reflection; and its flat fronts, on which a picture may be, from the lower left corner on.
type made struct {
	own, wood, bark, metal, paper, clay, glass []geom.Convex

	fronts []geom.Polygon
}

// shape is how a thing looks in a room w wide, d deep and h high, and what is usual of it: sizes are inches, common practice
// without a source.
type shape struct {
	size   [3]float64 // width, depth, height in inches
	colour Colour
	grams  float64 // of the usual size
	build  func(f geom.Frame, w, d, h float64) made

	as     booth.Part // what is so of every one
	foot   float64    // share of its width and depth that it stands on; 0: all of it
	roofed bool       // it is a roof of eight sides over the ground
	shelf  bool       // it is fastened to a wall
	hangs  bool       // it can't stand
	top    surface    // where others stand on it; nil: nowhere
}

// surface is how high above its foot a thing holds others, and how wide and deep it is there.
type surface func(w, d, h float64) (up, wide, deep float64)

func onLid(w, d, h float64) (up, wide, deep float64) { return h, w, d }

var shapes = map[string]shape{
	"box":          {size: [3]float64{16, 16, 16}, colour: Colour{0xb9, 0xad, 0x98}, grams: 4000, build: box, top: onLid},
	"round":        {size: [3]float64{16, 16, 24}, colour: Colour{0xb9, 0xad, 0x98}, grams: 4000, build: round, top: onLid},
	"crate":        {size: [3]float64{20, 14, 12}, colour: Colour{0xb8, 0x96, 0x68}, grams: 5000, build: crate, top: onLid},
	"easel":        {size: [3]float64{24, 28, 66}, colour: Colour{0x8a, 0x64, 0x40}, grams: 5000, build: easel, top: onEasel, as: booth.Part{Cradle: true}},
	"rug":          {size: [3]float64{72, 48, 0.375}, colour: Colour{0x7c, 0x6a, 0x5c}, grams: 5000, build: box, as: booth.Part{Flat: true}},
	"bench":        {size: [3]float64{42, 14, 18}, colour: Colour{0xa8, 0x82, 0x57}, grams: 9000, build: bench, top: onLid},
	"cooler":       {size: [3]float64{22, 14, 15}, colour: Colour{0x6f, 0x7d, 0x86}, grams: 6000, build: cooler, top: onLid},
	"plant":        {size: [3]float64{16, 16, 40}, colour: Colour{0x60, 0x74, 0x4c}, grams: 7000, build: plant},
	"a-board":      {size: [3]float64{24, 24, 36}, colour: Colour{0x3c, 0x3d, 0x40}, grams: 6000, build: aBoard, as: booth.Part{Placard: true}},
	"umbrella":     {size: [3]float64{78, 78, 96}, colour: Colour{0xd8, 0xcb, 0xb0}, grams: 25000, build: umbrella, roofed: true},
	"mirror":       {size: [3]float64{18, 16, 60}, colour: Colour{0x6b, 0x50, 0x38}, grams: 7000, build: mirror},
	"lamp-stand":   {size: [3]float64{14, 14, 78}, colour: Colour{0x3c, 0x3d, 0x40}, grams: 4000, build: lampStand},
	"clothes-rail": {size: [3]float64{48, 20, 60}, colour: Colour{0x3c, 0x3d, 0x40}, grams: 6000, build: clothesRail},
	"board":        {size: [3]float64{24, 0.75, 36}, colour: Colour{0xb8, 0x96, 0x68}, grams: 4000, build: board},
	"bag-hooks":    {size: [3]float64{18, 3, 5}, colour: Colour{0xa8, 0x82, 0x57}, grams: 600, build: bagHooks, hangs: true},
	"frame":        {size: [3]float64{24, 1.5, 30}, colour: Colour{0x4a, 0x3a, 0x2c}, grams: 2000, build: emptyFrame},
	"shelf":        {size: [3]float64{36, 8, 0.75}, colour: Colour{0xb8, 0x96, 0x68}, grams: 2500, build: shelf, shelf: true, top: onLid},
	"ledge":        {size: [3]float64{36, 3.5, 1.75}, colour: Colour{0xb8, 0x96, 0x68}, grams: 1500, build: ledge, shelf: true, top: onLedge, as: booth.Part{Cradle: true}},
	"tree":         {size: [3]float64{180, 180, 236}, colour: Colour{0x60, 0x74, 0x4c}, build: tree, foot: trunk, as: booth.Part{Beyond: true}},
	"spinner":      {size: [3]float64{18, 18, 60}, colour: Colour{0x4a, 0x4c, 0x4f}, grams: 8000, build: spinner},
}

func buildBelongings(s *Site, entries []entry[Belonging]) {
	for _, en := range lowestFirst(entries) {
		if !s.buildBelonging(en.item, en.says) {
			s.unread["things "+en.says.Name] = true
		}
	}
}

func (s *Site) buildBelonging(it scene.Item, e Belonging) bool {
	k := shapes[e.What]
	size := unit.Size3{A: unit.Length(k.size[0]) * unit.Inch, B: unit.Length(k.size[1]) * unit.Inch, C: unit.Length(k.size[2]) * unit.Inch}
	if e.Size != nil {
		size = *e.Size
	}
	if e.Colour != nil {
		k.colour = *e.Colour
	}
	w, d, h := size.A.M(), size.B.M(), size.C.M()
	own, ok := s.ownShape(it, e)
	if !ok {
		return false
	}
	p := k.as
	p.ID, p.Kind, p.Name, p.At = id("thing", e.Name), "things", "the "+e.Name, it.At("")
	p.Heft, p.Taken, p.Handled, p.Bring = e.Weight, e.Weight == 0, e.Take && e.On != "", bring(e.Name, size.Format(s.file.Units))
	if k.roofed {
		p.Canopy = w * d / math.Sqrt2
	}
	if e.Fixed {
		p.Beyond = true
	}
	if p.Beyond {
		p.Bring = ""
	}
	if !s.put(it, e, k, &p, w, d, h) {
		return false
	}
	var fronts []geom.Polygon
	if len(p.Solids) > 0 { // cords that it hangs by
		p.Surfaces = []booth.Surface{block(metal, p.Solids...)}
	}
	if e.Model != "" {
		own.in(&p, e.Colour)
	} else {
		solids, surfaces, flat := k.built(p.Frame, w, d, h)
		p.Solids, p.Surfaces, fronts = append(p.Solids, solids...), append(p.Surfaces, surfaces...), flat
	}
	if e.Image != "" && !s.pasted(it, e, &p, fronts) {
		return false
	}
	s.add(p)
	s.setOut(p, e, k, w, d, h)
	return true
}

// put says on the part of a thing where it is: fastened to a wall, hung, on another thing, or on the ground.
func (s *Site) put(it scene.Item, e Belonging, k shape, p *booth.Part, w, d, h float64) (ok bool) {
	hangs := e.HangsOn != "" || e.HangsUnder != ""
	switch {
	case p.Beyond && e.On != "":
		it.Fault("on", "take one of the two away", "%s belongs to the place, and on: puts it on something of yours", p.Name)
		return false
	case !k.shelf && e.Wall != "":
		it.Fault("wall", "say hangs on: and the wall's name", "%s is no shelf that is fastened to a wall", p.Name)
		return false
	case !k.shelf && !hangs && (e.Left != nil || e.Height != nil):
		it.Fault("left", "say hangs on: or hangs under:, or from left: for one that stands", "left: and height: are of a thing that hangs, or of a shelf, and %s stands", p.Name)
		return false
	case k.hangs && !hangs:
		it.Fault("what", "say hangs on: and a table, or a wall", "%s hang nowhere", p.Name)
		return false
	case k.shelf:
		up, _, _ := k.top(w, d, h)
		p.Frame, p.Parent, ok = s.fasten(it, e, w, d, up)
		p.Bring += ", with what fastens it"
	case hangs:
		ok = s.suspend(it, e, p, w, d, h)
	case e.On != "":
		p.Frame, p.Parent, ok = s.rest(it, e.Resting, e.Turn, w, d)
		return ok
	default:
		foot := cmp.Or(k.foot, 1)
		p.Frame = s.stand(it, e.Placing, w*foot, d*foot)
		return true
	}
	p.Heft = cmp.Or(e.Weight, k.weighs(w, d, h)) // for who fastens or hangs it
	return ok
}

// ownShape is that of a thing from its file, if it has one.
func (s *Site) ownShape(it scene.Item, e Belonging) (shaped, bool) {
	if e.Model == "" {
		return shaped{}, true
	}
	if it.Has("what") {
		it.Fault("what", "keep one of the two", "%q has a shape from %s, and what: says otherwise", e.Name, e.Model)
		return shaped{}, false
	}
	var size unit.Size3
	if e.Size != nil {
		size = *e.Size
	}
	return s.shape(it, "model", e.Model, size.A.M(), size.B.M(), size.C.M(), func(w, d, h unit.Length) string {
		return unit.Size3{A: w, B: d, C: h}.Format(s.file.Units)
	})
}

// built is the thing in a frame.
func (k shape) built(f geom.Frame, w, d, h float64) (solids []geom.Convex, surfaces []booth.Surface, fronts []geom.Polygon) {
	m := k.build(f, w, d, h)
	for _, of := range []struct {
		solids []geom.Convex
		look   func(...geom.Convex) booth.Surface
	}{
		{m.own, func(c ...geom.Convex) booth.Surface { return block(booth.Colour(k.colour), c...) }},
		{m.wood, func(c ...geom.Convex) booth.Surface { return boards(booth.Colour(k.colour), c...) }},
		{m.bark, func(c ...geom.Convex) booth.Surface { return boards(booth.Colour{0x5f, 0x52, 0x45}, c...) }},
		{m.metal, func(c ...geom.Convex) booth.Surface { return block(metal, c...) }},
		{m.clay, func(c ...geom.Convex) booth.Surface { return block(booth.Colour{0xa8, 0x5e, 0x45}, c...) }},
		{m.glass, func(c ...geom.Convex) booth.Surface { return block(booth.Colour{0xb9, 0xc4, 0xc8}, c...) }},
		{m.paper, func(c ...geom.Convex) booth.Surface { return block(paper, c...) }},
	} {
		if len(of.solids) > 0 {
			solids, surfaces = append(solids, of.solids...), append(surfaces, of.look(of.solids...))
		}
	}
	return solids, surfaces, m.fronts
}

// weighs is what a thing of this shape and size is taken to weigh.
func (k shape) weighs(w, d, h float64) unit.Weight {
	usual := k.size[0] * k.size[1] * k.size[2] * 0.0254 * 0.0254 * 0.0254
	return grams(max(1, math.Round(k.grams*math.Cbrt(float64(w*d*h)/usual)/100)) * 100)
}

// setOut is the task of a thing on the ground, and what can stand on it.
func (s *Site) setOut(p booth.Part, e Belonging, k shape, w, d, h float64) {
	if p.Parent == "" && !p.Beyond && !p.Hangs {
		s.furnish(p, "Stand "+p.Name+" in its place", 1, rules.ThingTime.In(s.Plan.Rules), false, 1000*k.weighs(w, d, h).Kg())
		if t := &s.furniture[len(s.furniture)-1]; p.Flat {
			t.Name, t.Check, t.InTheWay = "Lay "+p.Name+" down, before anything stands there", "It lies flat, and its edges are taped or pinned: a raised edge trips people.", false
			t.Caution = "A loose edge trips people: tape it down all round, and look at it again during the day."
			s.rugs = append(s.rugs, p.ID)
		}
	}
	if k.top == nil {
		return
	}
	up, wide, deep := k.top(w, d, h)
	on := top{id: p.ID, at: p.Frame.Moved(geom.Vec{Y: up}), w: wide, d: deep, wall: k.shelf}
	if k.shelf {
		on.thick = up
	}
	s.tops[e.Name] = on
}

// lowestFirst are the entries so that what another stands on or hangs from comes before it, whatever their order in the file.
func lowestFirst(entries []entry[Belonging]) (out []entry[Belonging]) {
	byName, done := map[string]int{}, map[int]bool{}
	for i, en := range entries {
		byName[en.says.Name] = i
	}
	var add func(i int)
	add = func(i int) {
		if done[i] {
			return
		}
		done[i] = true
		for _, on := range []string{entries[i].says.On, entries[i].says.HangsOn, entries[i].says.HangsUnder} {
			if k, ok := byName[on]; ok {
				add(k)
			}
		}
		out = append(out, entries[i])
	}
	for i := range entries {
		add(i)
	}
	return out
}

// pasted puts a thing's photograph on its fronts, a hair before them, as much of it as has their shape.
func (s *Site) pasted(it scene.Item, e Belonging, p *booth.Part, fronts []geom.Polygon) bool {
	const hair, side = 0.001, 1024 // metres; pixels
	if len(fronts) == 0 {
		it.Fault("image", "say what: board, box, frame or a-board", "%s has no flat front for a picture", p.Name)
		return false
	}
	m := s.images([]art.Wish{{Name: e.Image, Side: side}}, []func() fault.Place{func() fault.Place { return it.At("image") }})[0]
	if m == nil {
		return false
	}
	for _, face := range fronts {
		for i, v := range face {
			face[i] = v.Add(face.Normal().Mul(hair))
		}
		u, v := 1.0, face[0].Dist(face[1])/face[0].Dist(face[3])*float64(m.Height)/float64(m.Width) // of the photograph: over v, the face is the wider one
		if v > 1 {
			u, v = 1, 1/v
		} else {
			u, v = v, 1
		}
		mesh := geom.ImageRect(face)
		for i := range mesh.Vertices {
			w := &mesh.Vertices[i]
			w.U, w.V = 0.5+float64((w.U-0.5)*u), 0.5+float64((w.V-0.5)*v)
		}
		p.Surfaces = append(p.Surfaces, booth.Surface{Mesh: mesh, Look: booth.Look{Colour: booth.Colour{255, 255, 255}, Image: m}})
	}
	return true
}
