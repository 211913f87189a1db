package booth

import (
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/glass"
	"boothmock/internal/basis/unit"
	"boothmock/internal/props/art"
)

// Part is one thing in the booth. A reader never switches on Kind: what a reader needs to know has a field of its own.
type Part struct {
	ID     ID
	Parent ID          // the part that it hangs or stands on; empty for one that stands on the ground by itself
	Kind   string      // the scene's key that it came from
	Name   string      // what people call it: "Heron at the weir", "the print table"
	At     fault.Place // where the scene speaks of it
	Frame  geom.Frame  // its own place and axes, Z towards the front of the thing

	Surfaces []Surface     // what is seen
	Solids   []geom.Convex // what it is made of as it is drawn, fold by fold: nothing drawn is more than 2 mm outside of them, and no corner of theirs more than 2 mm from what is drawn
	Blocks   []geom.Convex // the room that it takes without its folds, where that is simpler than Solids; ask Room

	Screen []geom.Wires // of wire mesh and chains: what hides what is behind them

	SeeThrough bool // its solids stop nobody's view, only its screen does (wire mesh, bare chains)
	Moving     bool // a person: hides what is behind, but is never in the way of a route
	Flat       bool // lies on the ground and is walked on
	Skinned    bool // a body of any shape: its solids are pieces of its skin, and stand out of it a little where it is hollow
	Sheet      bool // a loose sheet over its parent and all that stands on it: gives way to anything
	Shell      bool // belongs to the booth's shell, as its walls, cloth and tent do: touches others of it, and is not moved by itself
	Cradle     bool // holds what stands on it from behind, as an easel does: nothing falls off
	Hangs      bool // before or under what it hangs from, and does not stand on it
	Placard    bool // a board that stands about to be read, whatever is on it
	Clamped    bool // a clamp holds it to its parent: it stands out from it as far as it likes, and does not fall
	Beyond     bool // of the fair around: it hides and shades, and is nobody's here to bring, check or move
	Dressing   bool // left out of the picture for a jury: people, tags, signs, chair

	Work   *Work       // set on an artwork
	Wall   *Wall       // set on anything that works hang on
	FeetOf ID          // the wall that these are the feet of
	Cloth  *Cloth      // set on drapes, side walls and rain curtains
	Tent   *Tent       // set on a tent's frame
	Lamp   *Lamp       // set on what gives light
	Bring  string      // what to load into the car for it, in words; empty for what comes with something else
	Heft   unit.Weight // what it weighs or is taken to weigh, of walls, cloth, shelves, what hangs and what stands on the ground; 0 otherwise
	Canopy float64     // m² of ground that its own roof covers, which wind lifts; 0 without one
	Taken  bool        // the scene does not state that weight: it is a usual one
	Top    *float64    // height in metres of a surface that people serve or write at

	Lettering *Lettering // set on anything with words or a code
	Handled   bool       // visitors take it or write in it
	Unwritten string     // in words, the characters of its lettering that no font here can draw; usually empty
}

// Room is the room that the part takes, without its folds and other small detail: for who asks what it stands on, hangs
// from or runs into, and for light. What is seen past it and how far it stands in the way, Solids say.
func (p *Part) Room() []geom.Convex {
	if p.Blocks != nil {
		return p.Blocks
	}
	return p.Solids
}

// In are the lowest and the highest coordinates of that room in a frame.
func (p *Part) In(f geom.Frame) (lo, hi geom.Vec) {
	var corners []geom.Vec
	for _, c := range p.Room() {
		for _, v := range c.Corners {
			corners = append(corners, f.Local(v))
		}
	}
	return geom.Bounds(corners)
}

// Middle is the middle of its weight, as if it were of one stuff.
func (p *Part) Middle() geom.Vec {
	var sum geom.Vec
	all := 0.0
	for _, c := range p.Room() {
		v, at := c.Mass()
		sum, all = sum.Add(at.Mul(v)), all+v
	}
	if all == 0 {
		return p.Frame.Origin
	}
	return sum.Mul(1 / all)
}

// Surface is a mesh and how it looks.
type Surface struct {
	Mesh geom.Mesh
	Look Look
}

// Colour is sRGB, 0 to 255.
type Colour [3]uint8

// Look is the finish of a surface.
type Look struct {
	Colour   Colour     // of the material; multiplied with Image
	Image    *art.Image // drawn over the surface by its texture coordinates; nil for plain
	Tile     float64    // if not 0, Image is a seamless square, its side a power of two, that covers so many metres over and over; texture coordinates then are metres
	TwoSided bool       // seen from behind too (cloth)
	Passes   float64    // share of daylight from behind that comes through, 0 to 1 (canopy cloth)
	Glass    glass.Kind // a pane lies before it
	Glows    bool       // the light of the part's lamp comes out of it
}
