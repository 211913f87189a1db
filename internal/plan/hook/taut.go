package hook

import "math"

// Taut is a picture wire pulled tight over one hook, or over two hooks side by side. Its rings are level.
//
// A point that a wire between two rings can reach lies on an ellipse with the rings as its foci: the two lengths of
// wire add up to the whole. The hook of a work that hangs straight is at the top of that ellipse. Two hooks take the
// piece of wire between them out of both the wire and the spacing; what is left is the same ellipse.
type Taut struct {
	Spacing float64 // metres from ring to ring
	Length  float64 // metres of wire
	Apart   float64 // metres from hook to hook; 0 for one hook
}

// Sag is how far the rings are below the hooks, in metres: the small half-axis of the ellipse. It is 0 for a wire that
// is no longer than the spacing.
func (t Taut) Sag() float64 {
	l, s := t.Length-t.Apart, t.Spacing-t.Apart
	return float64(math.Sqrt(max(0, float64(l*l)-float64(s*s))) / 2)
}

// Angle is the angle of the wire above the level at its rings, in radians.
func (t Taut) Angle() float64 { return math.Atan2(t.Sag(), (t.Spacing-t.Apart)/2) }

// Tension is the pull in the wire of a work of so much weight, in the unit of the weight: T = W / (2 sin a), from the
// balance of the upright forces.
func (t Taut) Tension(weight float64) float64 { return weight / (2 * math.Sin(t.Angle())) }

// Inward is the force that pulls each of two hooks towards the other, in the unit of the weight.
func (t Taut) Inward(weight float64) float64 {
	if t.Apart == 0 {
		return 0
	}
	return t.Tension(weight) * (1 - math.Cos(t.Angle()))
}

// LeastAngle is the angle in radians below which a wire that may be pulled with capacity is overloaded by the weight;
// a right angle if no angle will do.
func LeastAngle(weight, capacity float64) float64 {
	if weight >= 2*capacity {
		return math.Pi / 2
	}
	return math.Asin(weight / (2 * capacity))
}

// Share is what two supports, at 0 and at s, carry of a weight at x between them: the balance of moments.
func Share(weight, x, s float64) (first, second float64) {
	second = weight * x / s
	return weight - second, second
}
