package kinds

import (
	"fmt"
	"math"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
)

// Wall is something to hang works on: along a side of the pitch, or standing free.
type Wall struct {
	Side     string       `yaml:"side" oneof:"left back right front" doc:"the side that it stands along; left out, it stands free where from left, from front and turn say"`
	Name     string       `yaml:"name" doc:"what works call it; the side's name if left out. A run of panels are NAME 1, NAME 2 and so on; the other face of one with two faces is NAME back"`
	Hold     string       `yaml:"hang on" oneof:"mesh chains rail panel none" doc:"what a hook holds on to"`
	Spacing  unit.Length  `yaml:"spacing" range:"1/2in..4ft" doc:"from wire to wire of a mesh, or from chain to chain"`
	Top      unit.Length  `yaml:"top" range:"1ft..16ft" doc:"height of the highest place for a hook"`
	Bottom   unit.Length  `yaml:"bottom" range:"0in..10ft" doc:"height of the lowest place for a hook"`
	Width    *unit.Length `yaml:"width" range:"1ft..100ft" doc:"how wide it is; the whole side if left out"`
	Run      []string     `yaml:"run" most:"24" such:"[6ft, forward, 3ft, back, 6ft]" doc:"panels joined, from left to right as you face them: the width of each, and between two of them forward where the next comes towards you, or back where it goes away, by a right angle or by degrees such as forward 45"`
	Left     *unit.Length `yaml:"from left" doc:"where it starts, from the left end of its side as you face it from inside; of a free wall, clear distance from the left edge of the pitch"`
	Right    *unit.Length `yaml:"from right" doc:"of a free wall: clear distance from the right edge of the pitch"`
	Front    *unit.Length `yaml:"from front" doc:"of a free wall: clear distance from the front edge of the pitch"`
	Back     *unit.Length `yaml:"from back" doc:"of a free wall: clear distance from the back edge of the pitch"`
	Turn     unit.Angle   `yaml:"turn" range:"-360..360" doc:"of a free wall: how far it is turned, counterclockwise seen from above; unturned, it faces the front"`
	Distance unit.Length  `yaml:"distance" range:"0in..50ft" doc:"how far it stands before its side"`
	Closed   bool         `yaml:"closed" doc:"yes: what is behind it is your store. Visitors do not go there; a curtain closes what the wall leaves open, and through that you do"`
	Faces    string       `yaml:"faces" oneof:"in out both" doc:"which face works hang on: the one that looks into the booth, or, of a free wall, to the front before it is turned; the other one; or both"`
	Feet     *unit.Length `yaml:"feet" range:"0in..6ft" doc:"of a wall that stands by itself: how deep its feet are from front to back; 18 in if left out, none for a run with a corner"`
	Tied     bool         `yaml:"tied" doc:"yes: a wall that stands by itself is tied to the tent's frame or to what stands beside it"`
	Link     unit.Length  `yaml:"links" range:"1/8in..1ft" doc:"from link to link of a chain"`
	Weight   unit.Weight  `yaml:"weight" range:"1lb..5000lb" doc:"what each panel of it weighs, with whatever weighs its feet down; usual if left out"`
	Holds    unit.Weight  `yaml:"holds" doc:"what the maker says that the whole wall carries; unknown if left out"`
	Colour   Colour       `yaml:"colour" doc:"colour of a panel"`
}

var wallKind = many("walls", "Mesh, panels, chains or rails to hang works on: along a side, before it with a store behind, or free.",
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
		w := wallEntry{Wall: e, Site: s, it: it}
		var panels []panel
		var ok bool
		if e.Side == "" {
			panels, ok = w.free()
		} else {
			panels, ok = w.alongSide()
		}
		if !ok { // works that hang on it are not reported too
			s.unread["walls "+e.Name], s.unread["walls "+e.Name+" back"] = true, true
			for i := range e.Run {
				name := fmt.Sprintf("walls %s %d", e.Name, i+1)
				s.unread[name], s.unread[name+" back"] = true, true
			}
			continue
		}
		for _, p := range panels {
			w.build(p)
		}
		if e.Closed {
			w.store(panels[0])
		}
	}
	for _, name := range names(s.faceDrapes)() {
		d := s.faceDrapes[name]
		s.unknown(d.it, d.field, "side or wall", name, func() []string { return append(names(s.walls)(), "left", "back", "right") }, "walls")
	}
}

// wallEntry is an entry of walls on its way to its panels.
type wallEntry struct {
	Wall
	*Site
	it scene.Item
}

// panel is one straight piece of wall: its frame on the ground at its left end, on the plane of its back, Z to its face.
type panel struct {
	name  string
	f     geom.Frame
	width float64 // metres
	side  booth.Side
	free  bool // it stands by itself, not on the plane of a side
	feet  float64
	joins booth.ID
	bound bool // joined to another panel at an angle, or tied
}

func (w wallEntry) length(m float64) string { return unit.Length(m).Format(w.file.Units) }

// tall faults a wall whose top is not above its bottom.
func (w wallEntry) tall() bool {
	if w.Top <= w.Bottom {
		w.it.Fault("top", "both are heights above the ground", "the top of the wall is not above its bottom")
		return false
	}
	return true
}

// alongSide is the wall along its side, or at a distance before it.
func (w wallEntry) alongSide() ([]panel, bool) {
	for _, field := range []string{"run", "from right", "from front", "from back", "turn"} {
		if w.it.Has(field) {
			w.it.Fault(field, "leave side out, or take this away", "a wall along a side has no %q", field)
			return nil, false
		}
	}
	side := sideNames[w.Side]
	f, all := w.inner(side)
	start := 0.0
	if w.Left != nil {
		start = w.Left.M()
	}
	width := all - start
	_, deep := w.inner(booth.Side((int(side) + 1) % 4))
	switch {
	case !w.tall():
		return nil, false
	case width <= 0:
		w.it.Fault("from left", "the side is "+w.length(all)+" wide", "the wall starts beyond the end of its side")
		return nil, false
	case w.Width != nil && w.Width.M() > width+1e-9:
		w.it.Fault("width", "a wall of a tent runs between its legs: leave width out to take all that there is",
			"the wall is wider than its side: %s, and there are %s", w.length(w.Width.M()), w.length(width))
		return nil, false
	case w.Distance.M() > deep:
		w.it.Fault("distance", "the pitch is "+w.length(deep)+" deep from there", "the wall stands beyond the other side of the pitch")
		return nil, false
	case w.Closed && w.Distance < 6*unit.Inch:
		w.it.Fault("closed", "say the distance from its side, such as distance: 2ft", "there is no room behind the wall for a store")
		return nil, false
	case w.Width != nil:
		width = w.Width.M()
	}
	p := panel{name: w.Name, f: f.Moved(geom.Vec{X: start, Z: w.Distance.M()}), width: width, side: side, free: w.Distance > 0}
	if p.free {
		p.feet, p.bound = w.depthOfFeet(false), w.Tied
	}
	return []panel{p}, true
}

// depthOfFeet is how deep a wall's feet are, in metres; one that is held otherwise has none unless the scene says so.
func (w wallEntry) depthOfFeet(held bool) float64 {
	switch {
	case w.Feet != nil:
		return w.Feet.M()
	case held || w.Tied:
		return 0
	}
	return usualFeet
}

const usualFeet = 18 * 0.0254 // metres: common practice, no source

// free are the panels of a wall that stands free.
func (w wallEntry) free() ([]panel, bool) {
	for _, field := range []string{"distance", "closed"} {
		if w.it.Has(field) {
			w.it.Fault(field, "say the side", "a wall without a side has no %q", field)
			return nil, false
		}
	}
	if w.Name == "" {
		w.it.Fault("", "say the side that it stands along; or give it a name, and a width or a run of panels", "a wall has neither side nor name")
		return nil, false
	}
	spans, ok := w.spans()
	if !ok || !w.tall() {
		return nil, false
	}
	thick := w.thick()
	at := geom.Frame{X: geom.Vec{X: 1}, Y: geom.Up, Z: geom.Vec{Z: 1}}.Turned(float64(w.Turn))
	var panels []panel
	var corners []geom.Vec
	held := false
	for i, l := range spans {
		held = held || math.Abs(float64(l.turn)) >= 30*deg // less braces nothing: common practice, no source
		if i > 0 {
			hinge := geom.Vec{X: spans[i-1].width} // of the backs where it goes away, of the faces where it comes forward
			if l.turn < 0 {
				hinge.Z = thick
			}
			at = at.Moved(hinge).Turned(float64(l.turn))
			if l.turn < 0 {
				at = at.Moved(geom.Vec{Z: -thick})
			}
		}
		p := panel{name: w.Name, f: at, width: l.width, free: true}
		if len(spans) > 1 {
			p.name = fmt.Sprintf("%s %d", w.Name, i+1)
		}
		if i > 0 {
			p.joins = id("wall", panels[i-1].name)
		}
		panels = append(panels, p)
		for _, c := range []geom.Vec{{}, {X: l.width}, {Z: thick}, {X: l.width, Z: thick}} {
			corners = append(corners, at.At(c))
		}
	}
	lo, hi := geom.Bounds(corners)
	place := Placing{FromLeft: w.Left, FromRight: w.Right, FromFront: w.Front, FromBack: w.Back}
	w.oneOfTwo(w.it)
	move := w.place(place, lo, hi)
	for i := range panels {
		p := &panels[i]
		p.f.Origin = p.f.Origin.Add(move)
		p.side, p.feet, p.bound = facing(p.f.Z), w.depthOfFeet(held), held || w.Tied
	}
	return panels, true
}

// facing is the side that a wall would stand along which looks that way.
func facing(z geom.Vec) booth.Side {
	switch {
	case math.Abs(z.Z) >= math.Abs(z.X) && z.Z > 0:
		return booth.Back
	case math.Abs(z.Z) >= math.Abs(z.X):
		return booth.Front
	case z.X > 0:
		return booth.Left
	}
	return booth.Right
}

// span is one panel of a run, and by how much it is turned from the one before it, in radians: counterclockwise, seen from
// above, where it goes back.
type span struct {
	width float64 // metres
	turn  unit.Angle
}

// spans reads the run of a free wall; without one it is a single panel.
func (w wallEntry) spans() (spans []span, ok bool) {
	if len(w.Run) == 0 {
		if w.Width == nil {
			w.it.Fault("", "say its width, or a run such as [6ft, forward, 3ft]", "the free wall %q has no width", w.Name)
			return nil, false
		}
		return []span{{width: w.Width.M()}}, true
	}
	if w.Width != nil {
		w.it.Fault("width", "keep one of the two", "the run says how wide each panel is, and width: says otherwise")
		return nil, false
	}
	turn, stated := unit.Angle(0), true // the first panel stands as the wall does
	for i, word := range w.Run {
		field := fmt.Sprintf("run.%d", i)
		way, degrees, _ := strings.Cut(strings.TrimSpace(word), " ")
		if way == "forward" || way == "back" {
			a := unit.Angle(90 * deg)
			if degrees != "" {
				var err error
				if a, err = unit.ParseAngle(degrees); err != nil || a <= 0 || a > 90*deg {
					w.it.Fault(field, "write forward 45, or forward alone for a right angle", "%s is no turn of up to 90 degrees", unit.Quote(word))
					return nil, false
				}
			}
			if i == 0 || stated || i == len(w.Run)-1 {
				w.it.Fault(field, "write it between two widths", "nothing is joined at %s", unit.Quote(word))
				return nil, false
			}
			if turn, stated = a, true; way == "forward" {
				turn = -a
			}
			continue
		}
		l, err := unit.ParseLength(word, w.file.Units, w.file.UnitsStated)
		if err != nil || l < 6*unit.Inch || l > 100*unit.Foot {
			w.it.Fault(field, "write widths from 6in to 100ft, and forward or back between them", "%s is no width of a panel", unit.Quote(word))
			return nil, false
		}
		if !stated {
			turn = 0
		}
		spans, stated = append(spans, span{l.M(), turn}), false
	}
	return spans, true
}
