package kinds

import (
	"fmt"
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
)

// thick is how much room the wall takes from its back to its face, in metres.
func (w wallEntry) thick() float64 {
	if booth.Hold(w.Hold) == booth.Panel {
		return panelThick
	}
	return slack
}

// build makes one panel of a wall, with the face or faces that works hang on.
func (w wallEntry) build(p panel) {
	f, thick := p.f, w.thick()
	front := face{name: p.name, at: f.Moved(geom.Vec{Z: thick})}
	behind := face{name: p.name, at: turnedRound(f, p.width)}
	if w.Faces == "out" && !p.free { // mesh and chains of a side lie outside of the plane of the legs then
		f = turnedRound(f, p.width)
		behind.at = f.Moved(geom.Vec{Z: thick})
	}
	along := w.Faces != "out" && !p.free
	if along {
		w.clearOf(w.drapes[p.side], f.Z.Mul(thick-slack))
		front.at, front.cover = front.at.Moved(geom.Vec{Z: w.cloth[p.side]}), w.drapes[p.side]
		w.face[p.side] = max(w.face[p.side], w.leg+thick+w.cloth[p.side])
	} else if w.Closed {
		w.face[p.side] = max(w.face[p.side], w.leg+w.Distance.M()+thick)
	}
	faces := []face{front}
	switch w.Faces {
	case "out":
		faces = []face{behind}
	case "both":
		behind.name += " back"
		faces = []face{front, behind}
	}
	var first booth.ID
	for i, a := range faces {
		if !along || i > 0 {
			w.drapeFace(&a, p)
		}
		part := booth.Part{
			ID: id("wall", a.name), Kind: "walls", Name: called(a.name, "wall"), At: w.it.At(""), Frame: a.at,
			Wall: &booth.Wall{
				Called: a.name, Side: p.side, Width: p.width, Bottom: w.Bottom.M(), Top: w.Top.M(), Hold: booth.Hold(w.Hold), Panels: panelsOf(booth.Hold(w.Hold), p.width), Cover: a.cover,
				Free: p.free, Feet: p.feet, Bound: p.bound, Tied: w.Tied, Back: first, Joins: p.joins,
			},
		}
		w.spaced(part.Wall)
		if i == 0 {
			first, part.Wall.Holds = part.ID, w.Holds
			part.Heft, part.Taken = w.Weight, w.Weight == 0
			if part.Taken {
				part.Heft = grams(math.Round(p.width * (w.Top - w.Bottom).M() * holdGrams[part.Wall.Hold]))
			}
			w.body(&part, f, p.width)
			w.stands(p, part.Name)
		}
		w.walls[a.name] = part.ID
		w.add(part)
	}
}

// clearOf moves the cloth along a side before a wall that is thicker than what it was hung for.
func (s *Site) clearOf(drape booth.ID, by geom.Vec) {
	p := s.Plan.Part(drape)
	if p == nil || by == (geom.Vec{}) {
		return
	}
	to := geom.World.Moved(by)
	p.Frame.Origin = to.At(p.Frame.Origin)
	for _, solids := range [][]geom.Convex{p.Solids, p.Blocks} {
		for i, c := range solids {
			solids[i] = to.Solid(c)
		}
	}
	for i, o := range p.Surfaces {
		p.Surfaces[i].Mesh = to.Mesh(o.Mesh)
	}
}

// face is one side of a panel that works hang on: its frame on the plane that they touch, and the cloth before it.
type face struct {
	name  string
	at    geom.Frame
	cover booth.ID
}

// turnedRound is the frame of the other face of what is so wide.
func turnedRound(f geom.Frame, width float64) geom.Frame {
	return geom.Frame{Origin: f.At(geom.Vec{X: width}), X: f.X.Neg(), Y: f.Y, Z: f.Z.Neg()}
}

// spaced are the distances from wire to wire and from link to link.
func (w wallEntry) spaced(wall *booth.Wall) {
	switch wall.Hold {
	case booth.Mesh:
		wall.Spacing = w.Spacing.M()
	case booth.Chains:
		wall.Spacing, wall.Link = w.Spacing.M(), w.Link.M()
	}
}

// body is what a panel is made of, and what to bring for it; f is the frame of its back.
func (w wallEntry) body(p *booth.Part, f geom.Frame, width float64) {
	bottom, top, thick := w.Bottom.M(), w.Top.M(), w.thick()
	switch p.Wall.Hold {
	case booth.Panel:
		slab := geom.Box(f, geom.Vec{}, geom.Vec{X: width, Y: top, Z: thick})
		p.Solids = []geom.Convex{slab}
		p.Surfaces = []booth.Surface{block(booth.Colour(w.Colour), slab)}
	case booth.Mesh:
		p.SeeThrough, p.Solids = true, []geom.Convex{geom.Box(f, geom.Vec{Y: bottom}, geom.Vec{X: width, Y: top, Z: thick})}
		screen(p, meshWires(f, geom.Vec{Y: bottom}, geom.Vec{X: width, Y: top, Z: thick}, w.Spacing.M()), f.Z)
	case booth.Chains:
		hung, wide := chains(f, width, bottom, top, w.Spacing.M(), thick)
		p.SeeThrough, p.Solids = true, []geom.Convex{geom.Box(f, geom.Vec{Y: bottom, Z: (thick - wire) / 2}, geom.Vec{X: wide, Y: top, Z: (thick + wire) / 2})}
		screen(p, hung, f.Z)
	case booth.Rail:
		bar := geom.Box(f, geom.Vec{Y: top - 0.03}, geom.Vec{X: width, Y: top, Z: thick})
		p.Solids = []geom.Convex{bar}
		p.Surfaces = []booth.Surface{block(metal, bar)}
	}
	p.Bring = fmt.Sprintf(wallWords[p.Wall.Hold], w.length(width)) + " for " + p.Name
}

// Measures of what a wall that stands by itself stands on, in metres: common practice, no source.
const (
	footHigh = 0.03
	footWide = 0.05
	upright  = 0.025 // side of the posts of a wall that is no panel
)

// stands are the feet and posts of a wall that stands by itself, and the posts of one along a side without a tent.
func (w wallEntry) stands(p panel, name string) {
	if !p.free && w.eave > 0 {
		return
	}
	thick := w.thick()
	var pieces []geom.Convex
	for _, x := range []float64{footWide / 2, p.width - footWide/2} {
		f := p.f.Moved(geom.Vec{X: x, Z: thick / 2})
		if p.feet > 0 {
			pieces = append(pieces, geom.Box(f, geom.Vec{X: -footWide / 2, Z: -p.feet / 2}, geom.Vec{X: footWide / 2, Y: footHigh, Z: p.feet / 2}))
		}
		if booth.Hold(w.Hold) != booth.Panel {
			from := 0.0
			if p.feet > 0 {
				from = footHigh
			}
			deep := upright
			if !p.free { // within the pitch and behind the cloth
				deep = thick
			}
			pieces = append(pieces, geom.Box(f, geom.Vec{X: -upright / 2, Y: from, Z: -deep / 2}, geom.Vec{X: upright / 2, Y: w.Top.M(), Z: deep / 2}))
		}
	}
	if len(pieces) == 0 {
		return
	}
	part := booth.Part{
		ID: id("stand", p.name), Kind: "walls", Name: map[bool]string{true: "the feet of ", false: "the posts of "}[p.free] + name, At: w.it.At(""), Frame: p.f.Moved(geom.Vec{X: p.width / 2}), Shell: true, FeetOf: id("wall", p.name),
		Solids: pieces, Surfaces: []booth.Surface{block(metal, pieces...)},
	}
	w.standsOn[id("wall", p.name)] = part.ID
	w.add(part)
}

// store closes the ground behind a wall: visitors do not go there, a curtain hangs where the wall leaves it open.
func (w wallEntry) store(p panel) {
	f, all := w.inner(p.side)
	deep := w.Distance.M() + w.thick()
	at := func(x, z float64) geom.Vec { return f.At(geom.Vec{X: x, Z: z}) }
	store := booth.Store{
		Wall: id("wall", p.name), At: w.it.At("closed"), Ground: geom.Polygon{at(0, -w.leg), at(0, deep), at(all, deep), at(all, -w.leg)},
	}
	start := f.Local(p.f.Origin).X
	for _, gap := range []struct {
		end        string
		from, wide float64
	}{{"left", 0, start}, {"right", start + p.width, all - start - p.width}} {
		const least = 0.05 // metres: less needs no curtain
		if gap.wide < least {
			continue
		}
		e := drapeKind.Fields.(Drape)
		e.Top, e.Fullness = w.Top, 1.5
		if c, ok := w.drapeOf[p.side]; ok {
			e.Cloth, e.Pattern, e.Bolt, e.Grammage = c.Cloth, c.Pattern, c.Bolt, c.Grammage
		}
		if e.Bottom >= e.Top {
			e.Bottom = 0
		}
		h := piped{e, w.it, "curtain/" + last(id("wall", p.name)), "the curtain beside " + called(p.name, "wall"), p.side, true}
		if start >= least && all-start-p.width >= least {
			h.id, h.name = h.id+"-"+gap.end, "the "+gap.end+" curtain beside "+called(p.name, "wall")
		}
		w.hangCloth(h, f.Moved(geom.Vec{X: gap.from, Z: w.Distance.M()}), gap.wide)
		store.Curtains = append(store.Curtains, booth.ID(h.id))
	}
	w.Plan.Stores = append(w.Plan.Stores, store)
}

// drapeFace hangs the cloth before a face that some entry of drapes asks for by the wall's name, and moves the face out before it.
func (w wallEntry) drapeFace(a *face, p panel) {
	d, ok := w.faceDrapes[a.name]
	if !ok {
		return
	}
	delete(w.faceDrapes, a.name)
	if !d.it.Has("top") {
		d.says.Top = min(d.says.Top, w.Top)
	}
	h := piped{d.says, d.it, "drape/" + last(id("wall", a.name)), "the " + a.name + " drape", p.side, p.free}
	deep := w.hangCloth(h, a.at, p.width)
	a.at, a.cover = a.at.Moved(geom.Vec{Z: deep}), booth.ID(h.id)
}

// faceDrape is an entry of drapes for a wall that is called by its name.
type faceDrape struct {
	says  Drape
	it    scene.Item
	field string
}
