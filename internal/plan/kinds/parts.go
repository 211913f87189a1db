package kinds

import (
	"fmt"
	"image"
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
	case n == 1:
		e.item.Fault("parts", "leave it out, or name the others too", "a work in parts has two of them at least")
		return
	case n > 1 && e.On != "":
		e.item.Fault("on", "hang it on a wall, or make each part a work of its own", "%q has parts, and those hang side by side", e.Name)
		return
	case n == 0 || e.unsized():
		return
	}
	if e.Apart == nil {
		e.Apart = new(unit.Length)
		*e.Apart = stocklist.Apart
	}
	bare := e.Size.B
	_, outer := e.outer()
	between := *e.Apart + unit.Length(outer) - bare // from picture to picture
	each := e.Size
	if !e.item.Has("size") && each.A > 0 {
		if each.B = (each.B - unit.Length(float64(unit.Length(n-1)*between))) / unit.Length(n); each.B < unit.Inch {
			e.item.Fault("apart", "say the size of each part here", "%d parts so far apart are wider than the %s that the sheet says", n, bare.Format(s.file.Units))
			return
		}
	}
	e.Size.Size = unit.Size{B: unit.Length(n-1) * between}
	area := 0.0
	for k, says := range e.Parts {
		p := &workEntry{Work: e.Work, item: e.item, part: k + 1}
		p.Title = fmt.Sprintf("%s, part %d of %d", e.Title, k+1, n)
		p.Parts, p.Image, p.Corners, p.Price, p.Value, p.Size = nil, says.Image, says.Corners, 0, 0, each
		if says.Size.A > 0 {
			p.Size.Size = says.Size
		}
		e.Size.A, e.Size.B = max(e.Size.A, p.Size.A), e.Size.B+p.Size.B
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

// piecesFrom are the parts of a work and where each begins, in metres, if the first does at left.
func (e *workEntry) piecesFrom(left float64, visit func(p *workEntry, left, width float64)) {
	for _, p := range e.pieces {
		_, w := p.outer()
		visit(p, left, w)
		left += w + e.Apart.M()
	}
}

// hangPieces hangs the parts of a work side by side.
func (s *Site) hangPieces(e *workEntry, wall *booth.Part, left, centre float64, as booth.Hung) {
	all := as
	e.piecesFrom(left, func(p *workEntry, left, _ float64) {
		s.hang(p, wall, left, centre, as)
		h := p.hung
		if p.part == 1 {
			all = *h
			all.Hooks = nil
		}
		all.X0, all.X1, all.Y0, all.Y1 = min(all.X0, h.X0), max(all.X1, h.X1), min(all.Y0, h.Y0), max(all.Y1, h.Y1)
		all.Hooks = append(all.Hooks, h.Hooks...)
		if all.Unheld == "" {
			all.Unheld = h.Unheld
		}
	})
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
	border := e.pieces[0].border()
	e.piecesFrom(-border, func(p *workEntry, left, _ float64) {
		h, w := p.Size.A.M()/high, p.Size.B.M()/wide
		x := (left + border) / wide
		box := art.Box{X0: x, X1: x + w, Y0: (1 - h) / 2, Y1: (1 + h) / 2}
		if p.image == nil && e.image != nil {
			p.image = answer.Of(s.kept, cut{e.image.Content, box}, func() (*art.Image, int) {
				m := art.Cut(e.image, box)
				return m, m.Bytes()
			})
		}
		if p.image != nil {
			images, boxes = append(images, p.image), append(boxes, box)
		}
	})
	if e.image == nil && len(images) == len(e.pieces) {
		const side = 1024 // pixels
		scale := side / max(high, wide)
		e.image = art.Beside(e.Title, image.Pt(max(1, int(wide*scale)), max(1, int(high*scale))), images, boxes)
	}
}

// border is the width of frame and mat on one side, in metres.
func (e *workEntry) border() float64 {
	_, w := e.outer()
	return (w - e.Size.B.M()) / 2
}
