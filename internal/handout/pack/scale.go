package pack

import (
	"slices"

	"boothmock/internal/view/draft"
)

// Sizes of letters, in points: those that type founders cast (from memory). Nothing is printed in any other, and nothing in
// smaller ones: 9 points are read at arm's length.
const (
	caption = 9.0  // tables, drawings, the foot of a page
	body    = 10.0 // paragraphs
	lead    = 12.0 // the name of a table, of a work on a list
	head    = 14.0 // of a section
	title   = 18.0 // of a paper; and what is called large print, common practice, no source
	display = 24.0 // of a paper in large print
	poster  = 36.0 // read from across the van
)

var sizes = []float64{caption, body, lead, head, title, display, poster}

// larger is the size so many further on in the scale, smaller if less than none; there is none beyond its ends.
func larger(size float64, by int) float64 {
	return sizes[min(max(slices.Index(sizes, size)+by, 0), len(sizes)-1)]
}

const (
	point   = 25.4 / 72 // mm
	leading = 1.3       // from line to line, in letters
)

// line is how high a line of letters of a size is, in mm.
func line(size float64) float64 { return size * point * leading }

// Widths of lines, in mm: those of the drawings.
const (
	thin  = draft.Thin * caption * point  // between rows, measures, to cut along
	plain = draft.Plain * caption * point // what is drawn
	bold  = draft.Bold * caption * point  // what stands out
)

// White space, in mm.
const (
	near  = 1.0 // between what belongs together
	apart = 2.0 // between paragraphs and tables
	far   = 4.0 // before what is another thing
)
