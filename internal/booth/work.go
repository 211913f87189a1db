package booth

import (
	"boothmock/internal/art"
	"boothmock/internal/fault"
	"boothmock/internal/geom"
	"boothmock/internal/unit"
)

// Work is an artwork. Sizes are metres, of the picture itself without a frame.
type Work struct {
	Title, Medium, Edition string
	Height, Width, Depth   float64
	Weight                 unit.Weight // 0: not stated
	Price                  unit.Money  // 0: not stated
	Image                  *art.Image
	ImageAt                fault.Place
	Face                   geom.Polygon // the picture: lower left, lower right, upper right, upper left as it is looked at
	Hung                   *Hung        // nil for a work that stands on something
	Family                 string       // works of one family hang side by side; empty: none
	Pinned                 bool         // it keeps its row and its place in it
	Matters                float64      // how much it counts beside the others, when a better arrangement is sought
	Fixing                 Fixing
}

// Hung is where a work is on its wall: its outline with frame, in metres of the wall's frame.
type Hung struct {
	Wall           ID
	X0, Y0, X1, Y1 float64
	Depth          float64 // how far it stands out from the wall's face
	Row            string  // the row that placed it; empty for a work placed by hand
	At             fault.Place
}

// Centre is the height of the work's middle above the ground, in metres.
func (h Hung) Centre() float64 { return (h.Y0 + h.Y1) / 2 }
