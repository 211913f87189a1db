package booth

import (
	"fmt"
	"slices"
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
	Sheet                  unit.Size   // that it is printed on, where its margin is seen; zero: none
	FrameStated            bool        // how wide the frame is: else it is drawn as most are, and no list says its size
	Weight                 unit.Weight // 0: not stated
	Price                  unit.Money  // 0: not stated
	Value                  unit.Money  // it is insured for; 0: its price
	Link                   string      // address of its page; empty: none
	Status                 string      // "from" its price, "on hold", "not for sale" or "on request"; empty: it is for sale
	Sold                   bool
	Away                   string     // why it is not to come, by the list: "spare" or "elsewhere"; empty: it comes
	Glazing                glass.Kind // before the picture; empty: not stated
	Image                  *art.Image
	ImageAt                fault.Place
	Face                   geom.Polygon // the picture: lower left, lower right, upper right, upper left as it is looked at
	Hung                   *Hung        // nil for a work that stands on something
	Family                 string       // works of one family hang side by side; empty: none
	Pinned                 bool         // it keeps its row and its place in it
	Matters                float64      // how much it counts beside the others, when a better arrangement is sought
	Fixing                 Fixing
	Sculpture              bool        // it stands free, and its depth is a size like the others
	Round                  []geom.Vec  // corners of the box that a sculpture takes which is seen from all sides; none of one that has a front
	Part                   int         // which part of a work in parts, from the left; 0 of a work that is one thing
	Whole                  *Listed     // the work that it is a part of; nil for one that is one thing
	Each                   []unit.Size // height x width of each part, of a whole in parts
}

// Listed is a work as lists, tags and prices have it: once, however many parts it hangs in.
type Listed struct {
	ID   ID          // of a work in parts its first part's
	On   ID          // what it hangs or stands on; empty: it waits
	At   fault.Place //
	Work *Work       // of a work in parts the whole: Hung is the outline of all with all their hooks, and it has no Face
}

// PartID is the ID of a part of a work: the first has that of the work itself.
func PartID(work ID, part int) ID {
	if part <= 1 {
		return work
	}
	return ID(fmt.Sprintf("%s/%d", work, part))
}

// Itself is the work, or the whole of which it is a part.
func (w *Work) Itself() *Work {
	if w.Whole != nil {
		return w.Whole.Work
	}
	return w
}

// FaceTo is what an eye looks at: the picture; or of a sculpture that is seen from all sides its outline, as a card upright in its middle.
func (w *Work) FaceTo(eye geom.Vec) geom.Polygon {
	if w.Round == nil {
		return w.Face
	}
	lo, hi := geom.Bounds(w.Round)
	f := geom.Upright(lo.Lerp(hi, 0.5), eye.Sub(lo.Lerp(hi, 0.5)))
	if f.Z == (geom.Vec{}) { // straight above
		return w.Face
	}
	wide := 0.0
	for _, c := range w.Round {
		wide = max(wide, f.Local(c).X)
	}
	high := (hi.Y - lo.Y) / 2
	return geom.Rect(f, -wide, -high, wide, high)
}

// Stays is why a work that waits can not be proposed for a free place on a wall; empty where it can.
func (w *Work) Stays() string {
	switch {
	case w.Sold:
		return "it is sold"
	case w.Sculpture:
		return "it is a sculpture, and stands"
	case w.Status == "not for sale":
		return "it is not for sale"
	case w.Away == "elsewhere":
		return "it is elsewhere, the list says"
	}
	return ""
}

// Same is whether both are parts of one work.
func (w *Work) Same(o *Work) bool { return w.Whole != nil && w.Whole == o.Whole }

// Catalogue is every work once: those that hang or stand in the order of the scene, then those that wait.
func (p *Plan) Catalogue() (out []Listed) {
	for i := range p.Parts {
		switch part := &p.Parts[i]; {
		case part.Work == nil || part.Work.Part > 1:
		case part.Work.Whole != nil:
			out = append(out, *part.Work.Whole)
		default:
			on := part.Parent
			if on == "" { // a sculpture
				on = "ground"
			}
			out = append(out, Listed{part.ID, on, part.At, part.Work})
		}
	}
	for i := range p.Waiting {
		w := &p.Waiting[i]
		out = append(out, Listed{w.ID, "", w.At, &w.Work})
	}
	return out
}

// Sizes are the work's size in words, height x width: the picture's, then the frame's if that is stated. A whole in parts says the size of
// each, and that of all as they hang.
func (w *Work) Sizes(units unit.System) []string {
	size := func(h, w float64) string { return unit.Size{A: unit.Length(h), B: unit.Length(w)}.Format(units) }
	out := []string{size(w.Height, w.Width)}
	if w.Sculpture {
		return []string{unit.Size3{A: unit.Length(w.Height), B: unit.Length(w.Width), C: unit.Length(w.Depth)}.Format(units)}
	}
	if n := len(w.Each); n > 0 {
		var each []string
		for _, s := range w.Each {
			each = append(each, s.Format(units))
		}
		parts := unit.List(each, "and")
		if !slices.ContainsFunc(each, func(s string) bool { return s != each[0] }) {
			parts = "each " + each[0]
		}
		out = []string{fmt.Sprintf("%d parts, %s", n, parts), "together " + size(w.Height, w.Width)}
	}
	if w.Sheet.A > 0 {
		out = append(out, "sheet "+w.Sheet.Format(units))
	}
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

// Missing is a work of the list that is to be in the booth and is not.
type Missing struct {
	ID     ID          // of one that the scene has, and hangs nowhere
	At     fault.Place // of its row
	Number int         // of the row
	Row    string      // in words: row 4 of tab Prints
	Title  string
	Lack   Lack
	Why    string // of one that cannot be read: in words
}

// Lack is what keeps a work of the list out of the booth.
type Lack string

const (
	Unread   Lack = "unread"   // its row cannot be read
	Unsized  Lack = "unsized"  // it has no size that can be right
	Unplaced Lack = "unplaced" // no row, wall or top has it
)

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
