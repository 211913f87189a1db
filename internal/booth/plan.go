// Package booth is the finished middle: a booth whose every part is placed, and the views of it. It is built once, by
// kinds, and never changed; checks, pictures and exports only read it. Everything is in the booth's own coordinates:
// metres, +Y up, the booth faces +Z, the origin is the middle of the front edge on the ground.
package booth

import (
	"boothmock/internal/art"
	"boothmock/internal/fault"
	"boothmock/internal/geom"
	"boothmock/internal/rules"
	"boothmock/internal/unit"
)

// ID names a part everywhere: in findings, on the hang sheet, as a node of the .glb. It reads "kind/name".
type ID string

// Plan is a booth, ready to be looked at, checked and exported.
type Plan struct {
	File     string // the scene's file
	Event    string
	Artist   string
	Units    unit.System
	Currency string // sign before an amount, such as "$"
	Rules    rules.Book
	Pitch    Pitch
	Parts    []Part // in the order of kinds, then of the scene file
	Rows     []Row  // in file order
	Views    []View
	Eyes     []Eye // the first one is the usual visitor
	Hooks    Hooks
	Weather  Weather
	Tag      unit.Size // height x width of a price tag; zero: the scene has none
	Kit      []Extra   // the artist's own additions to the packing list
	SetUp    SetUp

	index map[ID]int // of the parts that Add took in: looking through thousands for each of thousands takes too long
}

// Add takes a part into the plan.
func (p *Plan) Add(part Part) {
	if p.index == nil {
		p.index = map[ID]int{}
	}
	p.index[part.ID] = len(p.Parts)
	p.Parts = append(p.Parts, part)
}

// Part returns the part with the ID, or nil.
func (p *Plan) Part(id ID) *Part {
	i, ok := p.index[id]
	switch {
	case ok && i < len(p.Parts) && p.Parts[i].ID == id:
		return &p.Parts[i]
	case !ok && len(p.index) == len(p.Parts):
		return nil
	}
	for i := range p.Parts { // a plan that was put together by hand
		if p.Parts[i].ID == id {
			return &p.Parts[i]
		}
	}
	return nil
}

// Works is how many artworks there are.
func (p *Plan) Works() int {
	n := 0
	for i := range p.Parts {
		if p.Parts[i].Work != nil {
			n++
		}
	}
	return n
}

// Title is what the booth is called: whose it is, and where.
func (p *Plan) Title() string {
	switch {
	case p.Artist != "" && p.Event != "":
		return p.Artist + " at the " + p.Event
	case p.Artist+p.Event != "":
		return p.Artist + p.Event
	}
	return "The booth"
}

// Side is a side of the pitch as a visitor at the entrance names it.
type Side int

const (
	Front Side = iota
	Left
	Back
	Right
)

func (s Side) String() string { return [...]string{"front", "left", "back", "right"}[s] }

// Pitch is the ground that the fair lets to the artist.
type Pitch struct {
	At           fault.Place
	Width, Depth float64 // metres
	Aisle        float64 // metres of walkway before the front edge, and along any other open side
	Open         [4]bool // by Side: no neighbour and no wall there, visitors pass. The front always is
	Indoor       bool
}

// Edge is the side of the pitch as two corners on the ground, running to the right of somebody who stands inside and
// faces it.
func (p Pitch) Edge(s Side) (a, b geom.Vec) {
	w, d := p.Width/2, -p.Depth
	c := [4]geom.Vec{{X: w}, {X: -w}, {X: -w, Z: d}, {X: w, Z: d}}
	return c[s], c[(s+1)%4]
}

// Part is one thing in the booth. A reader never switches on Kind: what a reader needs to know has a field of its own.
type Part struct {
	ID     ID
	Parent ID          // the part that it hangs or stands on; empty for one that stands on the ground by itself
	Kind   string      // the scene's key that it came from
	Name   string      // what people call it: "Heron at the weir", "the print table"
	At     fault.Place // where the scene speaks of it
	Frame  geom.Frame  // its own place and axes, Z towards the front of the thing

	Surfaces []Surface     // what is seen
	Solids   []geom.Convex // the room that it takes

	SeeThrough bool // its solids stop nobody's view (wire mesh, bare chains)
	Moving     bool // a person: hides what is behind, but is never in the way of a route
	Flat       bool // lies on the ground and is walked on
	Dressing   bool // left out of the picture for a jury: people, tags, signs, chair

	Work  *Work    // set on an artwork
	Wall  *Wall    // set on anything that works hang on
	Cloth *Cloth   // set on drapes, side walls and rain curtains
	Tent  *Tent    // set on a tent's frame
	Bring string   // what to load into the car for it, in words; empty for what comes with something else
	Top   *float64 // height in metres of a surface that people serve or write at

	Lettering *Lettering // set on anything with words or a code
	Handled   bool       // visitors take it or write in it
	Unwritten string     // in words, the characters of its lettering that no font here can draw; usually empty
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
}

// Work is an artwork. Sizes are metres, of the picture itself without a frame.
type Work struct {
	Title, Medium, Edition string
	Height, Width, Depth   float64
	Weight                 unit.Weight // 0: not stated
	Price                  unit.Money  // 0: not stated
	Image                  *art.Image
	ImageAt                fault.Place
	Face                   geom.Polygon // the picture: lower left, lower right, upper right, upper left as it is looked at
	Hung                   *Hung        // nil for a work that stands on something
	Family                 string       // works of one family hang side by side; empty: none
	Pinned                 bool         // it keeps its row and its place in it
	Matters                float64      // how much it counts beside the others, when a better arrangement is sought
	Fixing                 Fixing
}

// Hung is where a work is on its wall: its outline with frame, in metres of the wall's frame.
type Hung struct {
	Wall           ID
	X0, Y0, X1, Y1 float64
	Depth          float64 // how far it stands out from the wall's face
	Row            string  // the row that placed it; empty for a work placed by hand
	At             fault.Place
}

// Centre is the height of the work's middle above the ground, in metres.
func (h Hung) Centre() float64 { return (h.Y0 + h.Y1) / 2 }

// Hold is what a wall gives a hook to hold on to.
type Hold string

const (
	Mesh   Hold = "mesh"   // welded wire: a hook at any wire
	Chains Hold = "chains" // chains from the rail: fixed across, any link down
	Rail   Hold = "rail"   // wires from a rail: anywhere across, any height
	Panel  Hold = "panel"  // a board or padded panel: anywhere
	None   Hold = "none"   // bare cloth: nothing may hang on it
)

// Wall is a surface to hang on. The part's Frame has its origin on the ground at the wall's left end as somebody
// facing it sees it, X to the right, Y up, Z out of the face that works touch.
type Wall struct {
	Side        Side
	Width       float64 // metres of usable width from the frame's origin
	Bottom, Top float64 // metres above the ground between which something can hold a work
	Hold        Hold
	Spacing     float64     // metres from wire to wire of a mesh, or from chain to chain; 0 where it has no meaning
	Link        float64     // metres from link to link of a chain
	Holds       unit.Weight // stated strength of the whole wall; 0: not stated
	Cover       ID          // the cloth in front of it that a hook must go through; empty for none
}

// View is a place to look from. A picture and the sightlines of every eye are made from it.
type View struct {
	Name   string
	Doc    string   // one sentence for people
	Stand  geom.Vec // on the ground
	Height float64  // metres of the eye above the ground where the view itself sets it (a seat); 0: the visitor's own
	Look   geom.Vec // the point in the middle of the picture
	Across float64  // width of the picture as an angle, in radians
	Bare   bool     // dressing is left out
}

// From is the point that the eye of a visitor is at.
func (v View) From(e Eye) geom.Vec {
	h := e.Height
	if v.Height > 0 {
		h = v.Height
	}
	return geom.Vec{X: v.Stand.X, Y: h, Z: v.Stand.Z}
}

// Eye is a kind of visitor.
type Eye struct {
	Name   string
	Height float64 // metres above the ground
}
