package booth

import (
	"boothmock/internal/fault"
	"boothmock/internal/unit"
)

// Fixing is how a work hangs.
type Fixing struct {
	By      Hanger
	Assumed bool        // the scene does not say how the work hangs: these are usual measures, to be checked with a tape
	Spacing float64     // metres from ring to ring
	Wire    float64     // metres of wire from ring to ring
	Drop    float64     // metres from the work's upper edge down to the rings, the sawtooth or the cleat
	Hooks   int         // hooks that carry it: 1 or 2
	Holds   unit.Weight // stated strength of its wire; 0: not stated
	At      fault.Place
}

// Hanger is what a work has on its back.
type Hanger string

const (
	Wire     Hanger = "wire"     // a wire between two rings
	Rings    Hanger = "rings"    // two rings, each on a hook
	Sawtooth Hanger = "sawtooth" // a toothed plate in the middle of the upper bar
	Cleat    Hanger = "cleat"    // a bevelled strip that sits on one like it on the wall
)

// Hooks are what the artist hangs works with.
type Hooks struct {
	Drop  float64     // metres from where an S-hook holds on to where it carries
	Loop  float64     // metres: the shortest loop of cord that can be tied
	Holds unit.Weight // stated strength of one hook; 0: not stated
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
}

// Tent is a tent of the booth, or one of several side by side.
type Tent struct {
	Width, Depth float64     // metres
	Eave, Peak   float64     // metres above the ground
	Valance      float64     // metres
	RoofFront    float64     // m² of roof that a wind from the front or the back meets
	RoofSide     float64     // m² of roof that a wind from a side meets
	Weight       unit.Weight // 0: not stated
	Ballast      unit.Weight // on each leg; 0: not stated
	Legs         int         // its own: a leg that two tents share belongs to the first
}

// Weather is what the booth should stand up to.
type Weather struct {
	At       fault.Place
	Gust     float64 // m/s
	Exposure string  // letter of ASCE 7: B, C or D
	Friction float64 // of feet and weights on the ground
	Assumed  bool    // the scene does not state the friction
	Lift     float64 // net upward pressure under the canopy as a share of the wind's pressure
	Rain     bool
	Curtain  unit.Size // height x width of a ready-made rain curtain
}

// Extra is a thing to bring that is not drawn.
type Extra struct {
	Name   string
	Count  int
	Weight unit.Weight // of one; 0: not stated
}
