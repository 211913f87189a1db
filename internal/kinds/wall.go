package kinds

import (
	"fmt"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
	"boothmock/internal/unit"
)

// Wall is something to hang works on along a side of the pitch.
type Wall struct {
	Side    string       `yaml:"side" must:"yes" oneof:"left back right front" doc:"the side that it stands along"`
	Name    string       `yaml:"name" doc:"what works call it; the side's name if left out"`
	Hold    string       `yaml:"hang on" oneof:"mesh chains rail panel none" doc:"what a hook holds on to"`
	Spacing unit.Length  `yaml:"spacing" range:"1/2in..4ft" doc:"from wire to wire of a mesh, or from chain to chain"`
	Top     unit.Length  `yaml:"top" range:"1ft..16ft" doc:"height of the highest place for a hook"`
	Bottom  unit.Length  `yaml:"bottom" range:"0in..10ft" doc:"height of the lowest place for a hook"`
	Start   unit.Length  `yaml:"from left" doc:"where it starts, from the left end of the side as you face it from inside"`
	Width   *unit.Length `yaml:"width" range:"1ft..100ft" doc:"how wide it is; the whole side if left out"`
	Faces   string       `yaml:"faces" oneof:"in out" doc:"which way the works on it look"`
	Link    unit.Length  `yaml:"links" range:"1/8in..1ft" doc:"from link to link of a chain"`
	Holds   unit.Weight  `yaml:"holds" doc:"what the maker says that the whole wall carries; unknown if left out"`
	Colour  Colour       `yaml:"colour" doc:"colour of a panel"`
}

var wallKind = many("walls", "Mesh, panels, chains or rails along a side, to hang works on.",
	Wall{Hold: "mesh", Spacing: 2 * unit.Inch, Top: 80 * unit.Inch, Bottom: 6 * unit.Inch, Faces: "in", Link: 1 * unit.Inch, Colour: Colour{0xd8, 0xd6, 0xd0}}, buildWalls)

// wallWords are what to load for a wall so and so wide.
var wallWords = map[booth.Hold]string{
	booth.Mesh: "mesh panels, %s", booth.Chains: "chains and their rail, %s", booth.Rail: "hanging rail with wires, %s",
	booth.Panel: "panels, %s", booth.None: "bare frame, %s",
}

const (
	wire       = booth.MeshWire            // metres: thickness of a wire, and of a chain as it is drawn
	panelThick = 1.0 * 0.0254              // metres
	slack      = 0.25 * float64(unit.Inch) // metres that hooks and mesh take behind the cloth
)

// edge is the frame of a side of the pitch: origin on the ground at its left end for somebody who stands inside and
// faces it, Z inwards; and the side's length in metres.
func (s *Site) edge(side booth.Side) (geom.Frame, float64) {
	a, b := s.Plan.Pitch.Edge(side)
	x := b.Sub(a).Unit()
	return geom.Upright(a, x.Cross(geom.Up)), a.Dist(b)
}

// inner is the frame of a side between the tent's legs, on the plane of the legs' inner faces, and its length.
func (s *Site) inner(side booth.Side) (geom.Frame, float64) {
	f, w := s.edge(side)
	return f.Moved(geom.Vec{X: s.leg, Z: s.leg}), w - 2*s.leg
}

func buildWalls(s *Site, entries []entry[Wall]) {
	for _, en := range entries {
		it, e := en.item, en.says
		if e.Name == "" {
			e.Name = e.Side
		}
		refuse := func(field, hint, text string) { // works that hang on it are not reported too
			it.Fault(field, hint, "%s", text)
			s.unread["walls "+e.Name] = true
		}
		side := sideNames[e.Side]
		f, all := s.inner(side)
		f = f.Moved(geom.Vec{X: e.Start.M()})
		width, length := all-e.Start.M(), func(m float64) string { return unit.Length(m).Format(s.file.Units) }
		switch {
		case e.Top <= e.Bottom:
			refuse("top", "both are heights above the ground", "the top of the wall is not above its bottom")
			continue
		case width <= 0:
			refuse("from left", "the side is "+length(all)+" wide", "the wall starts beyond the end of its side")
			continue
		case e.Width != nil && e.Width.M() > width+1e-9:
			refuse("width", "a wall of a tent runs between its legs: leave width out to take all that there is",
				fmt.Sprintf("the wall is wider than its side: %s, and there are %s", length(e.Width.M()), length(width)))
			continue
		case e.Width != nil:
			width = e.Width.M()
		}
		if e.Faces == "out" {
			f = geom.Frame{Origin: f.At(geom.Vec{X: width}), X: f.X.Neg(), Y: f.Y, Z: f.Z.Neg()}
		}
		hold := booth.Hold(e.Hold)
		thick := slack
		if hold == booth.Panel {
			thick = panelThick
		}
		face := f.Moved(geom.Vec{Z: thick})
		if e.Faces == "in" {
			face = face.Moved(geom.Vec{Z: s.cloth[side]})
			s.face[side] = max(s.face[side], s.leg+thick+s.cloth[side])
		}
		p := booth.Part{
			ID: id("wall", e.Name), Kind: "walls", Name: "the " + e.Name + " wall", At: it.At(""), Frame: face,
			Wall: &booth.Wall{Side: side, Width: width, Bottom: e.Bottom.M(), Top: e.Top.M(), Hold: hold, Holds: e.Holds},
		}
		if e.Faces == "in" {
			p.Wall.Cover = s.drapes[side]
		}
		slab := geom.Box(f, geom.Vec{Y: e.Bottom.M()}, geom.Vec{X: width, Y: e.Top.M(), Z: thick})
		switch hold {
		case booth.Panel:
			slab = geom.Box(f, geom.Vec{}, geom.Vec{X: width, Y: e.Top.M(), Z: thick})
			p.Solids = []geom.Convex{slab}
			p.Surfaces = []booth.Surface{block(booth.Colour(e.Colour), slab)}
		case booth.Mesh:
			p.Wall.Spacing = e.Spacing.M()
			p.SeeThrough, p.Solids = true, []geom.Convex{slab}
			screen(&p, meshWires(f, geom.Vec{Y: e.Bottom.M()}, geom.Vec{X: width, Y: e.Top.M(), Z: thick}, e.Spacing.M()), f.Z)
		case booth.Chains:
			p.Wall.Spacing, p.Wall.Link = e.Spacing.M(), e.Link.M()
			hung, wide := chains(f, width, e.Bottom.M(), e.Top.M(), e.Spacing.M(), thick)
			p.SeeThrough, p.Solids = true, []geom.Convex{geom.Box(f, geom.Vec{Y: e.Bottom.M(), Z: (thick - wire) / 2}, geom.Vec{X: wide, Y: e.Top.M(), Z: (thick + wire) / 2})}
			screen(&p, hung, f.Z)
		case booth.Rail:
			bar := geom.Box(f, geom.Vec{Y: e.Top.M() - 0.03}, geom.Vec{X: width, Y: e.Top.M(), Z: thick})
			p.Solids = []geom.Convex{bar}
			p.Surfaces = []booth.Surface{block(metal, bar)}
		}
		p.Bring = fmt.Sprintf(wallWords[hold], unit.Length(width).Format(s.file.Units)) + " for " + p.Name
		s.walls[e.Name] = p.ID
		s.add(p)
	}
}

// meshWires are the wires of a welded mesh that fills the room from lo to hi in the frame: standing ones before lying ones,
// pressed into each other as they are welded, with one of each along every edge.
func meshWires(f geom.Frame, lo, hi geom.Vec, spacing float64) []geom.Wires {
	r := wire / 2
	standing := geom.Vec{X: lo.X + r, Y: lo.Y, Z: hi.Z - r}
	lying := geom.Vec{X: lo.X, Y: lo.Y + r, Z: lo.Z + r}
	return append(row(f, standing, geom.Vec{Y: hi.Y - lo.Y}, geom.Vec{X: 1}, hi.X-lo.X-wire, spacing, true),
		row(f, lying, geom.Vec{X: hi.X - lo.X}, geom.Vec{Y: 1}, hi.Y-lo.Y-wire, spacing, true)...)
}

// chains hang from the top to the bottom, drawn as wires, and their room is so wide.
func chains(f geom.Frame, width, bottom, top, spacing, thick float64) (hung []geom.Wires, wide float64) {
	hung = row(f, geom.Vec{X: wire / 2, Y: bottom, Z: thick / 2}, geom.Vec{Y: top - bottom}, geom.Vec{X: 1}, width-wire, spacing, false)
	return hung, wire + float64(float64(hung[0].Count-1)*spacing)
}

// row is wires side by side, from at on over a length beside; if both, with one at the end of it too.
func row(f geom.Frame, at, along, beside geom.Vec, length, spacing float64, both bool) []geom.Wires {
	n := int(max(0, length)/spacing + 1e-9)
	wires := geom.Wires{From: f.At(at), Along: f.Turn(along), Step: f.Turn(beside.Mul(spacing)), Count: n + 1, Radius: wire / 2}
	if !both || length-float64(float64(n)*spacing) < wire {
		return []geom.Wires{wires}
	}
	return []geom.Wires{wires, {From: f.At(at.Add(beside.Mul(length))), Along: wires.Along, Count: 1, Radius: wire / 2}}
}

// screen makes the part one of wires: they are seen, and they are all that hides what is behind it.
func screen(p *booth.Part, wires []geom.Wires, front geom.Vec) {
	var m geom.Mesh
	for _, w := range wires {
		m.Add(w.Mesh(front))
	}
	p.Screen, p.Surfaces = wires, []booth.Surface{{Mesh: m, Look: plainLook(metal)}}
}
