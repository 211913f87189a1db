package wind

import "math"

// Sail is cloth that the wind meets square on: its area in m² and the height of its middle in metres.
type Sail struct{ Area, Height float64 }

// Tent is what a wind from one direction meets.
type Tent struct {
	Sails    []Sail
	Base     float64 // metres from the windward legs to the leeward ones
	Roof     float64 // m² of ground that the canopy covers, for the lift under it
	Lift     float64 // net upward pressure under the canopy as a share of the wind's; 0 leaves it out
	Friction float64 // of the feet and weights on the ground
	Factor   float64 // Kz × Kd × G × Cf: everything between the speed's own pressure and the force
	Counted  float64 // share of the weight that may be counted on: see Counted
}

// Counted is the share of a dead load that holds against wind in allowable stress design: 0.6 D + W (ASCE 7-05).
const Counted = 0.6

// Area is all that the wind meets, in m².
func (t Tent) Area() float64 {
	sum := 0.0
	for _, s := range t.Sails {
		sum += s.Area
	}
	return sum
}

// Height is the height in metres of the middle of that area; 0 where the wind meets nothing.
func (t Tent) Height() float64 {
	sum, area := 0.0, t.Area()
	for _, s := range t.Sails {
		sum += float64(s.Area * s.Height)
	}
	if area == 0 {
		return 0
	}
	return sum / area
}

// Force is the sideways force in newtons of a gust in m/s.
func (t Tent) Force(speed float64) float64 { return Pressure(speed, 1, 1) * t.Factor * t.Area() }

// Overturning is the moment in newton metres of the sideways force about the leeward legs on the ground.
func (t Tent) Overturning(speed float64) float64 { return t.Force(speed) * t.Height() }

// Uplift is the force in newtons that lifts the canopy.
func (t Tent) Uplift(speed float64) float64 { return Pressure(speed, 1, 1) * t.Lift * t.Roof }

// SlideWeight is the weight in kilograms, tent and all ballast, at which friction just holds the tent in the gust.
func (t Tent) SlideWeight(speed float64) float64 {
	return (t.Force(speed)/t.Friction + t.Uplift(speed)) / t.Counted / Gravity
}

// TipWeight is the weight in kilograms, tent and all ballast, spread evenly over the legs, at which the tent just does
// not tip over its leeward legs.
func (t Tent) TipWeight(speed float64) float64 {
	return (2*t.Overturning(speed)/t.Base + t.Uplift(speed)) / t.Counted / Gravity
}

// SlideSpeed is the gust in m/s at which a tent of so many kilograms begins to slide; infinite if no wind can move it.
// Every force grows with the square of the speed.
func (t Tent) SlideSpeed(weight float64) float64 { return speedFor(weight, t.SlideWeight(1)) }

// TipSpeed is the gust in m/s at which a tent of so many kilograms begins to tip; infinite if no wind can.
func (t Tent) TipSpeed(weight float64) float64 { return speedFor(weight, t.TipWeight(1)) }

func speedFor(weight, atOne float64) float64 {
	if atOne <= 0 {
		return math.Inf(1)
	}
	return math.Sqrt(weight / atOne)
}
