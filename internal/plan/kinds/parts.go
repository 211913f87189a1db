package kinds

import (
	"fmt"
	"image"
	"math"
	"slices"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
	"boothmock/internal/props/stocklist"
)

// Piece is a part of a work in parts.
type Piece struct {
	Image   string    `yaml:"image" doc:"a photograph of this part"`
	Corners []Corner  `yaml:"corners" such:"[120 95, 1830 140, 1795 1320, 150 1290]" each:"^ *[^ ]*[0-9][^ ]* +[^ ]*[0-9][^ ]* *$" count:"4" doc:"where its corners are in its photograph, as those of a work"`
	Size    unit.Size `yaml:"size" range:"1in..20ft" doc:"height x width of this part, if it has another than the others"`
}

// unsized is whether nobody says how large a work is.
func (e *workEntry) unsized() bool {
	return e.Size.A == 0 && (len(e.Parts) == 0 || slices.ContainsFunc(e.Parts, func(p Piece) bool { return p.Size.A == 0 }))
}

// field is where the scene speaks of a field of a work, or of a part of one.
func (e *workEntry) field(key string) string {
	if e.part == 0 || e.Image == "" {
		return key
	}
	return fmt.Sprintf("parts.%d.%s", e.part-1, key)
}

// divide makes the parts of a work that has some. The size of the work becomes that over all, as it hangs; a list of works says that
// already.
func (s *Site) divide(e *workEntry) {
	n := len(e.Parts)
	switch {
	case n == 0 && e.Apart != nil:
		e.item.Fault("apart", "say its parts: too, or leave this out", "%q has no parts", e.Name)
		return
	case n == 0 && e.Stacked:
		e.item.Fault("stacked", "say its parts: too, or leave this out", "%q has no parts", e.Name)
		return
	case n == 1:
		e.item.Fault("parts", "leave it out, or name the others too", "a work in parts has two of them at least")
		return
	case n > 1 && e.On != "":
		e.item.Fault("on", "hang it on a wall, or make each part a work of its own", "%q has parts, and those hang together", e.Name)
		return
	case n == 0 || e.unsized():
		return
	}
	if e.Apart == nil {
		e.Apart = new(unit.Length)
		*e.Apart = stocklist.Apart
	}
	between := *e.Apart + unit.Length(2*e.border()) // from picture to picture
	each := e.Size
	if !e.item.Has("size") && each.A > 0 {
		of := e.along(&each.Size)
		whole := *of
		if *of = (*of - unit.Length(float64(unit.Length(n-1)*between))) / unit.Length(n); *of < unit.Inch {
			e.item.Fault("apart", "say the size of each part here", "%d parts so far apart are larger than the %s that the sheet says", n, whole.Format(s.file.Units))
			return
		}
	}
	e.Size.Size = unit.Size{}
	*e.along(&e.Size.Size) = unit.Length(n-1) * between
	area := 0.0
	for k, says := range e.Parts {
		p := &workEntry{Work: e.Work, item: e.item, part: k + 1}
		p.Title = fmt.Sprintf("%s, part %d of %d", e.Title, k+1, n)
		p.Parts, p.Image, p.Corners, p.Price, p.Value, p.Size = nil, says.Image, says.Corners, 0, 0, each
		if says.Size.A > 0 {
			p.Size.Size = says.Size
		}
		a, b := max(e.Size.A, p.Size.A), max(e.Size.B, p.Size.B)
		*e.along(&e.Size.Size) += *e.along(&p.Size.Size)
		if e.Stacked {
			e.Size.B = b
		} else {
			e.Size.A = a
		}
		area += p.area()
		alike := slices.IndexFunc(e.pieces, func(o *workEntry) bool { return o.Size == p.Size })
		if alike < 0 {
			p.fixing = s.fixing(p)
		} else {
			p.fixing = e.pieces[alike].fixing
		}
		e.pieces = append(e.pieces, p)
	}
	for _, p := range e.pieces {
		p.Weight = unit.Weight(float64(e.Weight) * p.area() / area)
	}
}

// area is how large a work's picture is, in square metres.
func (e *workEntry) area() float64 { return e.Size.A.M() * e.Size.B.M() }

// along is the length of a size in which the parts follow each other.
func (e *workEntry) along(s *unit.Size) *unit.Length {
	if e.Stacked {
		return &s.A
	}
	return &s.B
}

// gap is the clear space after part k on a wall, in metres. On chains each part has a chain of its own.
func (e *workEntry) gap(k int, wall *booth.Wall) float64 {
	apart := e.Apart.M()
	if e.Stacked || wall.Hold != booth.Chains {
		return apart
	}
	_, a := e.pieces[k].outer()
	_, b := e.pieces[k+1].outer()
	return float64(wall.Spacing*math.Ceil(((a+b)/2+apart)/wall.Spacing-1e-6)) - (a+b)/2
}

// wide is how wide a work is on a wall, in metres, with frame and mat.
func (e *workEntry) wide(wall *booth.Wall) float64 {
	_, w := e.outer()
	for k := range len(e.pieces) - 1 {
		w += e.gap(k, wall) - e.Apart.M()
	}
	return w
}

// hangPieces hangs the parts of a work side by side, or one under the other where the upper one really hangs.
func (s *Site) hangPieces(e *workEntry, wall *booth.Part, left, centre float64, as booth.Hung) {
	all, asked := as, left
	high, wide := e.outer()
	top := centre + high/2
	for k, p := range e.pieces {
		h, w := p.outer()
		if e.Stacked {
			s.hang(p, wall, left+(wide-w)/2, top-h/2, as)
			as.Under = booth.PartID(id("work", e.Name), p.part)
			top = p.hung.Y0 - e.Apart.M()
		} else {
			s.hang(p, wall, left, centre, as)
			if k > 0 && p.hung.X0 < e.pieces[k-1].hung.X1-1e-9 { // on chains, beside one with another fixing
				s.hang(p, wall, left+wall.Wall.Spacing, centre, as)
			}
			if moved := p.hung.X0 - asked; math.Abs(moved-p.hung.Moved) > 1e-9 { // by more than rounding
				p.hung.Moved = moved
			}
			asked += w + e.Apart.M()
			if k+1 < len(e.pieces) {
				left = p.hung.X1 + e.gap(k, wall.Wall)
			}
		}
		if k == 0 {
			all = *p.hung
			all.Hooks = nil
		}
		all.X0, all.X1, all.Y0, all.Y1 = min(all.X0, p.hung.X0), max(all.X1, p.hung.X1), min(all.Y0, p.hung.Y0), max(all.Y1, p.hung.Y1)
		all.Hooks = append(all.Hooks, p.hung.Hooks...)
		if all.Unheld == "" {
			all.Unheld = p.hung.Unheld
		}
	}
	all.Raised = all.Centre() - centre
	e.hung = &all
}

// hungParts makes the part of a work that hangs, or those of a work in parts.
func (s *Site) hungParts(e *workEntry) {
	all := e.pieces
	if all == nil {
		all = []*workEntry{e}
	} else {
		work := s.artwork(e)
		whole := &booth.Listed{ID: id("work", e.Name), On: e.hung.Wall, At: e.item.At(""), Work: &work}
		for _, p := range all {
			p.whole = whole
		}
	}
	wall := s.Plan.Part(e.hung.Wall)
	for _, p := range all {
		h, w := p.outer()
		s.workPart(p, wall.Frame.Moved(geom.Vec{X: p.hung.X0 + w/2, Y: p.hung.Y0 + h/2}), wall.ID)
	}
}

// cut is what a piece of a photograph is made from, joined what the photographs of parts together are.
type cut struct {
	of  *art.Content
	box art.Box
}

// picture gives the parts of a work their pieces of its photograph; or, where the parts have photographs, the work one of all as they
// hang.
func (s *Site) picture(e *workEntry) {
	if e.pieces == nil {
		return
	}
	var images []*art.Image
	var boxes []art.Box
	high, wide := e.Size.A.M(), e.Size.B.M()
	from := 0.0 // shares of the picture of all, from its left or upper edge
	for _, p := range e.pieces {
		h, w := p.Size.A.M()/high, p.Size.B.M()/wide
		box := art.Box{X0: from, X1: from + w, Y0: (1 - h) / 2, Y1: (1 + h) / 2}
		if e.Stacked {
			box = art.Box{X0: (1 - w) / 2, X1: (1 + w) / 2, Y0: from, Y1: from + h}
			from += h + (e.Apart.M()+2*e.border())/high
		} else {
			from += w + (e.Apart.M()+2*e.border())/wide
		}
		if p.image == nil && e.image != nil {
			p.image = answer.Of(s.kept, cut{e.image.Content, box}, func() (*art.Image, int) {
				m := art.Cut(e.image, box)
				return m, m.Bytes()
			})
		}
		if p.image != nil {
			images, boxes = append(images, p.image), append(boxes, box)
		}
	}
	if e.image == nil && len(images) == len(e.pieces) {
		const side = 1024 // pixels
		scale := side / max(high, wide)
		e.image = art.Beside(e.Title, image.Pt(max(1, int(wide*scale)), max(1, int(high*scale))), images, boxes)
	}
}

// border is the width of frame and mat on one side, in metres.
func (e *workEntry) border() float64 {
	if e.Frame == nil {
		return 0
	}
	return (e.Frame.Width + e.Frame.Mat).M()
}
