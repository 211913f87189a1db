// Package glass is how much light a pane before a picture gives back, by the angle at which one looks at it.
package glass

import "math"

// Kind is what a work is glazed with.
type Kind string

// The kinds of pane. A frame without one, or of which nothing is said, mirrors nothing.
const (
	None          Kind = "none"
	Glass         Kind = "glass"
	Acrylic       Kind = "acrylic"
	LowReflection Kind = "low-reflection"
)

// Indices of refraction: textbook values for window glass and for acrylic.
var index = map[Kind]float64{Glass: 1.52, Acrylic: 1.49}

// straight is what a coated pane gives back at straight incidence, of both faces: under 1 % is common practice, no source.
const straight = 0.01

// Mirrors reports whether a pane mirrors at all.
func (k Kind) Mirrors() bool { return k != "" && k != None }

// Reflects is the share of unpolarised light that a pane gives back whose normal is at an angle, of the cosine cos, to the line of
// sight: Fresnel's equations at each face, and all that goes to and fro between the two, R = 2r/(1+r). A coated pane is after Schlick,
// "An inexpensive BRDF model for physically-based rendering", 1994.
func (k Kind) Reflects(cos float64) float64 {
	cos = max(0, min(math.Abs(cos), 1))
	n, plain := index[k]
	switch {
	case k == LowReflection:
		return straight + (1-straight)*math.Pow(1-cos, 5)
	case !plain:
		return 0
	}
	inside := math.Sqrt(1 - (1-float64(cos*cos))/float64(n*n)) // Snell
	across, along := (cos-float64(n*inside))/(cos+float64(n*inside)), (inside-float64(n*cos))/(inside+float64(n*cos))
	sum := 0.0
	for _, r := range [2]float64{across * across, along * along} { // each polarisation apart
		sum += r / (1 + r)
	}
	return sum
}
