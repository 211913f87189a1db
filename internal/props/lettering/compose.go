package lettering

import (
	"image"
	"image/draw"
	"math"
	"strings"
	"unicode"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
	"golang.org/x/text/unicode/norm"
)

// box is a rectangle in pixels, y down.
type box struct{ x0, y0, x1, y1 float64 }

// paragraph is a line that has been cleaned and measured.
type paragraph struct {
	Line
	face  Face
	scale float64
	text  string
	parts [][]word // words between line feeds
	space float64  // width between two words, in em
}

type word struct {
	text        string
	width       float64 // em, as all of these
	bottom, top float64 // how far it reaches below and above its line
}

func newParagraph(l Line) paragraph {
	p := paragraph{Line: l, face: l.Face, scale: l.Scale}
	if p.scale == 0 {
		p.scale = 1
	}
	// Composed letters (NFC) are what the fonts have; marks of direction and of emoji style have no shape at all.
	p.text = strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\r':
			return ' '
		case unicode.In(r, unicode.Cf, unicode.Variation_Selector) || r != '\n' && unicode.IsControl(r):
			return -1
		}
		return r
	}, norm.NFC.String(l.Text))
	p.space = p.face.width(" ", 0) + 2*l.Spread
	for part := range strings.SplitSeq(p.text, "\n") {
		var words []word
		for w := range strings.SplitSeq(part, " ") { // a no-break space is no place to break
			if w != "" {
				bottom, top := p.face.extents(w)
				words = append(words, word{w, p.face.width(w, l.Spread), bottom, top})
			}
		}
		if words != nil {
			p.parts = append(p.parts, words)
		}
	}
	return p
}

// wrap breaks the paragraph into rows of at most limit em; a single word may be wider.
func (p paragraph) wrap(limit float64) (rows []word) {
	for _, words := range p.parts {
		row := words[0]
		for _, w := range words[1:] {
			if row.width+p.space+w.width > limit {
				rows, row = append(rows, row), w
				continue
			}
			row = word{row.text + " " + w.text, row.width + p.space + w.width, min(row.bottom, w.bottom), max(row.top, w.top)}
		}
		rows = append(rows, row)
	}
	return rows
}

// balanced breaks the paragraph into as few rows as limit allows, and makes those rows as equal as they can be.
func (p paragraph) balanced(limit float64) []word {
	rows := p.wrap(limit)
	lo, hi := 0.0, limit
	for range 20 {
		mid := (lo + hi) / 2
		if r := p.wrap(mid); len(r) == len(rows) && widest(r) <= limit {
			hi, rows = mid, r
		} else {
			lo = mid
		}
	}
	return rows
}

func widest(rows []word) float64 {
	w := 0.0
	for _, r := range rows {
		w = max(w, r.width)
	}
	return w
}

// setting is a text with its place in the picture.
type setting struct {
	size float64 // pixels of an em at scale 1
	rows []row
}

type row struct {
	of   paragraph
	text string
	x, y float64 // where the pen starts, on the line that the letters stand on
}

// stack breaks the paragraphs at the given size and puts them under each other from y = 0. ok is false if a row is too
// wide.
func stack(ps []paragraph, size, width float64, breaks bool) (rows []row, ink box, ok bool) {
	y, before := 0.0, 0.0
	ink.x1 = width
	for _, p := range ps {
		px := size * p.scale
		limit := width / px
		if !breaks {
			limit = math.Inf(1)
		}
		for i, r := range p.wrap(limit) {
			if r.width*px > width {
				return nil, ink, false
			}
			switch {
			case rows == nil:
				y = r.top * px
			case i > 0: // the next row of one line of text
				y += 1.2 * px
			default:
				y += 0.5*before + (0.8+p.Gap)*px
			}
			before = px
			ink.y1 = max(ink.y1, y-r.bottom*px)
			rows = append(rows, row{of: p, text: r.text, y: y})
		}
	}
	return rows, ink, true
}

// largest is the largest size at which the paragraphs fit into the box.
func largest(ps []paragraph, b box, breaks bool) float64 {
	lo, hi := 0.0, 2*max(b.x1-b.x0, b.y1-b.y0)
	for range 30 {
		mid := (lo + hi) / 2
		if _, ink, ok := stack(ps, mid, b.x1-b.x0, breaks); ok && ink.y1 <= b.y1-b.y0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// size is the size at which the paragraphs are set in the box, and whether rows are broken for it: only where that
// makes the letters a fifth larger, for an unbroken line reads best.
func size(ps []paragraph, b box) (px float64, breaks bool) {
	whole, broken := largest(ps, b, false), largest(ps, b, true)
	if broken > 1.2*whole {
		return broken, true
	}
	return whole, false
}

// compose sets the paragraphs in the middle of the box.
func compose(ps []paragraph, b box, left bool) setting {
	px, breaks := size(ps, b)
	rows, ink, _ := stack(ps, px, b.x1-b.x0, breaks)
	s := setting{size: px, rows: rows}
	if len(rows) == 0 {
		return s
	}
	// Equal rows read better than a full one and a rest; their number, and so their height, stays.
	k := 0
	for _, p := range ps {
		limit := math.Inf(1)
		if breaks {
			limit = (b.x1 - b.x0) / (px * p.scale)
		}
		lines := p.wrap(limit)
		if breaks {
			lines = p.balanced(limit)
		}
		for _, r := range lines {
			rows[k].text = r.text
			rows[k].x = b.x0
			if !left {
				rows[k].x = (b.x0 + b.x1 - r.width*px*p.scale) / 2
			}
			k++
		}
	}
	// The middle of a text is felt between the top of its capitals and its last line: tails below weigh little.
	last := rows[len(rows)-1]
	tail := ink.y1 - last.y
	down := b.y0 + (b.y1-b.y0-ink.y1)/2
	down += min(tail/3, down-b.y0)
	for i := range rows {
		rows[i].y += down
	}
	return s
}

// draw fills the letters into the mask.
func (s setting) draw(mask *image.Alpha) {
	var z vector.Rasterizer
	for _, r := range s.rows {
		c, px, x := cuts[r.of.face](), s.size*r.of.scale, r.x
		band := image.Rect(0, int(r.y-1.2*px), mask.Rect.Dx(), int(r.y+0.5*px)+1).Intersect(mask.Rect)
		z.Reset(band.Dx(), band.Dy())
		z.DrawOp = draw.Src
		for _, ch := range r.text {
			c.outline(&z, c.glyph(ch), px, x, r.y-float64(band.Min.Y))
			step := c.advance(ch) + r.of.Spread
			if ch == ' ' {
				step = r.of.space - r.of.Spread
			}
			x += step * px
		}
		letters := image.NewAlpha(image.Rectangle{Max: band.Size()})
		z.Draw(letters, letters.Rect, image.Opaque, image.Point{})
		strength := 255
		if r.of.Soft {
			strength = softness
		}
		out := mask.Pix[mask.PixOffset(0, band.Min.Y):]
		for i, a := range letters.Pix {
			if a != 0 { // a tail may reach into the row below
				out[i] = max(out[i], uint8(int(a)*strength/255))
			}
		}
	}
}

// outline adds a letter's outline at (x, y), px pixels an em.
func (c cut) outline(z *vector.Rasterizer, g sfnt.GlyphIndex, px, x, y float64) {
	var b sfnt.Buffer
	segments, err := c.font.LoadGlyph(&b, g, fixed.I(em), nil)
	if err != nil {
		return // a shape that cannot be loaded leaves a gap
	}
	at := func(p fixed.Point26_6) (float32, float32) {
		return float32(x + float64(p.X)/64/em*px), float32(y + float64(p.Y)/64/em*px)
	}
	for _, s := range segments {
		ax, ay := at(s.Args[0])
		bx, by := at(s.Args[1])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			z.ClosePath()
			z.MoveTo(ax, ay)
		case sfnt.SegmentOpLineTo:
			z.LineTo(ax, ay)
		case sfnt.SegmentOpQuadTo:
			z.QuadTo(ax, ay, bx, by)
		case sfnt.SegmentOpCubeTo:
			cx, cy := at(s.Args[2])
			z.CubeTo(ax, ay, bx, by, cx, cy)
		}
	}
	z.ClosePath()
}
