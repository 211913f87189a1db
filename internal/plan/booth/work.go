package booth

import (
	"strings"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/glass"
	"boothmock/internal/basis/unit"
	"boothmock/internal/props/art"
)

// Work is an artwork. Sizes are metres, of the picture itself without a frame.
type Work struct {
	Title, Medium, Edition string
	Year                   string
	Height, Width, Depth   float64
	FramedHeight           float64     // over the frame; 0 without one
	FramedWidth            float64     //
	FrameStated            bool        // how wide the frame is: else it is drawn as most are, and no list says its size
	Weight                 unit.Weight // 0: not stated
	Price                  unit.Money  // 0: not stated
	Value                  unit.Money  // it is insured for; 0: its price
	Link                   string      // address of its page; empty: none
	Status                 string      // "from" its price, "on hold", "not for sale" or "on request"; empty: it is for sale
	Sold                   bool
	Glazing                glass.Kind // before the picture; empty: not stated
	Image                  *art.Image
	ImageAt                fault.Place
	Face                   geom.Polygon // the picture: lower left, lower right, upper right, upper left as it is looked at
	Hung                   *Hung        // nil for a work that stands on something
	Family                 string       // works of one family hang side by side; empty: none
	Pinned                 bool         // it keeps its row and its place in it
	Matters                float64      // how much it counts beside the others, when a better arrangement is sought
	Fixing                 Fixing
}

// Sizes are the work's size in words, height x width: the picture's, then the frame's if that is stated.
func (w *Work) Sizes(units unit.System) []string {
	size := func(h, w float64) string { return unit.Size{A: unit.Length(h), B: unit.Length(w)}.Format(units) }
	out := []string{size(w.Height, w.Width)}
	if w.FramedHeight > 0 && w.FrameStated {
		out = append(out, "framed "+size(w.FramedHeight, w.FramedWidth))
	}
	return out
}

// Size is Sizes in one line: "14 x 11 in, framed 20 1/2 x 17 1/2 in".
func (w *Work) Size(units unit.System) string { return strings.Join(w.Sizes(units), ", ") }

// Amount is what visitors read of its price: empty if none is stated and it is for sale.
func (w *Work) Amount(currency string) string {
	switch {
	case w.Sold:
		return "sold"
	case w.Status == "on request":
		return "price on request"
	case w.Status != "" && w.Status != "from":
		return w.Status
	case w.Price == 0:
		return ""
	case w.Status == "from":
		return "from " + w.Price.Format(currency)
	}
	return w.Price.Format(currency)
}

// Waiting is a work that hangs nowhere: a spare, that takes the place of one that sells.
type Waiting struct {
	ID   ID
	At   fault.Place
	Work Work // Hung and Face are empty
}

// Hung is where a work hangs on its wall, which is where hooks hold it: its outline with frame, in metres of the wall's
// frame.
type Hung struct {
	Wall           ID
	X0, Y0, X1, Y1 float64
	Depth          float64 // how far it stands out from the wall's face
	Moved          float64 // metres to the right of where the scene puts it
	Raised         float64 // metres above where the scene puts it
	Hooks          []Hook  // from left to right; none if nothing holds it
	Unheld         Unheld  // why nothing holds it, and it is where the scene puts it; empty otherwise
	Row            string  // the row that placed it; empty for a work placed by hand
	Under          ID      // the work that it hangs under; empty if it is none
	At             fault.Place
}

// Centre is the height of the work's middle above the ground, in metres.
func (h Hung) Centre() float64 { return (h.Y0 + h.Y1) / 2 }

// Hook is one hook of a work, in metres of its wall's frame.
type Hook struct {
	X    float64
	Y    float64 // where it carries
	Grip float64 // where it holds on: the mesh wire, the link, the place on a panel
	Loop float64 // tie loop, hung, between there and the S-hook; 0: none
}

// Unheld is why no hook holds a work.
type Unheld string

const (
	NoPlace Unheld = "no place"     // its wall has nothing for what is on its back
	PastEnd Unheld = "past the end" // its hooks would be past the end of the wall
)
