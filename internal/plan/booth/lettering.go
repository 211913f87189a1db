package booth

import "boothmock/internal/basis/geom"

// Lettering is what there is to read on a part, and from where people are meant to read it.
type Lettering struct {
	From    Reader
	Face    geom.Polygon // what is written on, facing those who read it
	Largest float64      // metres: height of the capital I of its first line, which draws people
	Least   float64      // metres: that of its smallest line
	Code    float64      // metres: side of its square code without the clear border; 0: it has none
	Square  geom.Polygon // the square code on the face
}

// Reader is where somebody who reads stands.
type Reader int

const (
	Close    Reader = iota // right before it
	Entrance               // before the opening of the booth
	Aisle                  // on the far side of the aisle
)
