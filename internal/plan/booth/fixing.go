package booth

import (
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
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
