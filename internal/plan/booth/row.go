package booth

import (
	"slices"

	"boothmock/internal/basis/fault"
)

// Row is works hung side by side on a wall, their middles level. Lengths are metres, along the wall from its left end.
type Row struct {
	Name   string // "row 1"
	Number int    // among the scene's rows, from 0
	Wall   ID
	Works  []ID    // from left to right
	Centre float64 // height of the middles above the ground
	Left   float64 // where its room begins
	Room   float64 // how wide that is
	Gap    float64 // stated clear space between neighbours, the row in the middle of its room; negative: even over all of it
	Least  float64 // least clear space between neighbours
	At     fault.Place
}

// Spread is where the left edges of works so wide are. A row that is too wide keeps its gaps and stands out at both ends,
// where the checks find it.
func (r Row) Spread(widths []float64) []float64 {
	out := slices.Clone(widths)
	r.SpreadIn(out)
	return out
}

// SpreadIn spaces the works evenly, or by the gap that is asked for: the only place where the gaps of a row are worked out. The left edges
// take the place of the widths.
func (r Row) SpreadIn(widths []float64) {
	total := 0.0
	for _, w := range widths {
		total += w
	}
	gap := max(r.Least, (r.Room-total)/float64(len(widths)+1))
	if r.Gap >= 0 {
		gap = r.Gap
	}
	x := r.Left + (r.Room-total-float64(gap*float64(len(widths)-1)))/2
	for i, w := range widths {
		widths[i] = x
		x += w + gap
	}
}
