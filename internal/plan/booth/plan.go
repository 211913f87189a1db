// Package booth is the finished middle: a booth whose every part is placed, and the views of it. It is built once, by
// kinds, and never changed; checks, pictures and exports only read it. Everything is in the booth's own coordinates:
// metres, +Y up, the booth faces +Z, the origin is the middle of the front edge on the ground.
package booth

import (
	"slices"
	"strings"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/rules"
)

// ID names a part everywhere: in findings, on the hang sheet, as a node of the .glb. It reads "kind/name".
type ID string

// Plan is a booth, ready to be looked at, checked and exported.
type Plan struct {
	File        string   // the scene's file
	Inputs      []string // paths of everything that the booth is made from, the scene's own too; none for a scene inside the program
	Event       string
	Artist      string
	Electricity string // in the artist's own words; empty: not stated
	FlameLabels string // as above
	Units       unit.System
	Currency    string // sign before an amount, such as "$"
	Rules       rules.Book
	Pitch       Pitch
	Parts       []Part // in the order of kinds, then of the scene file
	Rows        []Row  // in file order
	Stores      []Store
	Waiting     []Waiting // works that hang nowhere, in file order
	Missing     []Missing // works of the list that are to be in the booth and are not, in the list's order
	Views       []View
	Eyes        []Eye // the first one is the usual visitor
	Hooks       Hooks
	Weather     Weather
	Fair        *Fair     // nil: the scene does not say when and where
	Tag         unit.Size // height x width of a price tag; zero: the scene has none
	Kit         []Extra   // the artist's own additions to the packing list
	SetUp       SetUp

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

// SetUpBy is the same plan with so many people to set it up instead of the scene's own.
func (p Plan) SetUpBy(people int) *Plan {
	p.SetUp.People = people
	return &p
}

// Works is how many artworks there are on view, one in parts counted once.
func (p *Plan) Works() int {
	n := 0
	for i := range p.Parts {
		if w := p.Parts[i].Work; w != nil && w.Part <= 1 {
			n++
		}
	}
	return n
}

// Measure is a length in metres in the plan's unit, with the decimal mark of its amounts: 61,5 cm beside 1.250,00 €.
func (p *Plan) Measure(m float64) string {
	return unit.AsIn(p.Currency, unit.Length(m).Format(p.Units))
}

// Feet is Measure in feet and inches, or metres.
func (p *Plan) Feet(m float64) string {
	return unit.AsIn(p.Currency, unit.Length(m).FormatFeet(p.Units))
}

// Tented reports whether there is a tent.
func (p *Plan) Tented() bool {
	return slices.ContainsFunc(p.Parts, func(part Part) bool { return part.Tent != nil })
}

// Title is what the booth is called: whose it is, and where.
func (p *Plan) Title() string {
	switch {
	case p.Artist != "" && strings.HasPrefix(strings.ToLower(p.Event), "the "):
		return p.Artist + " at " + p.Event
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
	Counter      bool    // visitors stay in the aisle and buy over a table
	Indoor       bool
	Soft         bool    // a stake can be driven into its ground
	Ceiling      float64 // lux that the hall's own light gives level ground; only indoors
}

// Edge is the side of the pitch as two corners on the ground, running to the right of somebody who stands inside and
// faces it.
func (p Pitch) Edge(s Side) (a, b geom.Vec) {
	w, d := p.Width/2, -p.Depth
	c := [4]geom.Vec{{X: w}, {X: -w}, {X: -w, Z: d}, {X: w, Z: d}}
	return c[s], c[(s+1)%4]
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

	Passing bool // somebody looks from here who has not stepped in
	Before  bool // and stands straight before an open side, where people step in
	Side    Side // the open side that is before them; it is the front of every other view
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

// Extra is a thing to bring that is not drawn.
type Extra struct {
	Name   string
	Count  int
	Weight unit.Weight // of one; 0: not stated
}
