package booth

import (
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
)

// Hold is what a wall gives a hook to hold on to.
type Hold string

const (
	Mesh   Hold = "mesh"   // welded wire: a hook at any wire
	Chains Hold = "chains" // chains from the rail: fixed across, any link down
	Rail   Hold = "rail"   // wires from a rail: anywhere across, any height
	Panel  Hold = "panel"  // a board or padded panel: anywhere
	None   Hold = "none"   // bare cloth: nothing may hang on it
)

// MeshWire is how thick a wire of a mesh is, in metres; 8 gauge welded wire is 4.1 mm (wire gauge table, from memory).
const MeshWire = 0.004

// Wall is a surface to hang on. The part's Frame has its origin on the ground at the wall's left end as somebody
// facing it sees it, X to the right, Y up, Z out of the face that works touch.
type Wall struct {
	Called      string // by the scene's works and rows
	Side        Side
	Width       float64 // metres of usable width from the frame's origin
	Bottom, Top float64 // metres above the ground between which something can hold a work
	Hold        Hold
	Panels      int         // pieces that it comes in; 0: one
	Spacing     float64     // metres from wire to wire of a mesh, or from chain to chain; 0 where it has no meaning
	Link        float64     // metres from link to link of a chain
	Holds       unit.Weight // stated strength of the whole wall; 0: not stated
	Cover       ID          // the cloth in front of it that a hook must go through; empty for none
	Back        ID          // the wall whose other face it is; empty for one of its own
	Free        bool        // it stands by itself, not between the legs of a side
	Feet        float64     // metres that its feet are deep, of one that stands by itself; 0: it has none
	Joins       ID          // the panel on its left that it is joined to; empty for none
	Bound       bool        // of one that stands by itself: joined to others at an angle, or tied
	Tied        bool        // the latter
}

// Store is ground behind a wall that visitors do not walk on.
type Store struct {
	Wall     ID
	At       fault.Place
	Ground   geom.Polygon
	Curtains []ID // that close what the wall leaves open: whoever sells goes through them
}

// Cloth is a drape, a tent's side wall or a curtain: how much of it there is and where it hangs.
type Cloth struct {
	Side        Side
	Width       float64     // metres along the side
	Bottom, Top float64     // metres above the ground
	Fullness    float64     // metres of cloth for each metre of side
	Bolt        float64     // metres of width in which it is bought; 0 for cloth that is not bought by length
	Sheet       unit.Size   // height x width of a ready-made sheet; zero if none is used
	Grammage    float64     // grams a square metre; 0: not stated
	Pipe        bool        // it hangs from a pipe of its own
	Holds       unit.Weight // stated strength of that pipe; 0: not stated
	Rain        bool        // it hangs there only against rain
	Free        bool        // it hangs within the booth, not along a side
}
