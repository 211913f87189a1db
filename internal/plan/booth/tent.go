package booth

import (
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// Tent is a tent of the booth, or one of several side by side.
type Tent struct {
	Width, Depth float64     // metres
	Eave, Peak   float64     // metres above the ground
	Valance      float64     // metres
	RoofFront    float64     // m² of roof that a wind from the front or the back meets
	RoofSide     float64     // m² of roof that a wind from a side meets
	Weight       unit.Weight // 0: not stated
	Ballast      unit.Weight // on each leg; 0: not stated
	Stake        unit.Weight // that a stake at each leg holds, as the scene states it; 0: no stakes
	Legs         int         // its own: a leg that two tents share belongs to the first
}

// HeldBy is what stands at its legs, in words.
func (t *Tent) HeldBy() string {
	switch {
	case t.Stake > 0 && t.Ballast == 0:
		return "stakes"
	case t.Stake > 0:
		return "weights and stakes"
	}
	return "weights"
}

// StakeCaution is said wherever stakes are.
const StakeCaution = "What a stake holds depends on the ground, and is less after rain: try each one by pulling, and count only what the worst of them held. Ask the organiser whether stakes are allowed, and what lies below: pipes, cables, sprinklers. Cap their heads and mark the straps, where people walk."

// Weather is what the booth should stand up to.
type Weather struct {
	At       fault.Place
	Gust     float64 // m/s
	Stated   bool    // the scene states the gust; without it, it is a usual one
	FromDays bool    // it is the worst of those that the scene states for the fair's days
	Exposure string  // letter of ASCE 7: B, C or D
	Friction float64 // of feet and weights on the ground
	Assumed  bool    // the scene does not state the friction
	Lift     float64 // net upward pressure under the canopy as a share of the wind's pressure
	Rain     bool
	Curtain  unit.Size // height x width of a ready-made rain curtain
}
