package lettering

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/gofont/gosmallcaps"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Face is a style of letters.
type Face int

const (
	Regular Face = iota
	Bold
	Italic
	SmallCaps
)

// em is the size at which letters are measured: 2048 units, that of the Go fonts, so that nothing is rounded.
const em = 2048

// cut is a font that has been read, and a table of what was measured of it.
type cut struct {
	font    *sfnt.Font
	capital float64 // height of the I, in em
}

var cuts = [...]func() cut{
	Regular:   sync.OnceValue(func() cut { return newCut(goregular.TTF) }),
	Bold:      sync.OnceValue(func() cut { return newCut(gobold.TTF) }),
	Italic:    sync.OnceValue(func() cut { return newCut(goitalic.TTF) }),
	SmallCaps: sync.OnceValue(func() cut { return newCut(gosmallcaps.TTF) }),
}

func newCut(ttf []byte) cut {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic(err) // the font is a part of the program
	}
	c := cut{font: f}
	_, top := c.extent('I')
	c.capital = top
	return c
}

func (f Face) capital() float64 { return cuts[f]().capital }

// glyph is the number of the character's shape; 0 is the empty box of a character that the font does not have.
func (f Face) glyph(r rune) sfnt.GlyphIndex { return cuts[f]().glyph(r) }

func (c cut) glyph(r rune) sfnt.GlyphIndex {
	var b sfnt.Buffer
	g, err := c.font.GlyphIndex(&b, r)
	if err != nil {
		return 0
	}
	return g
}

// advance is how far a character moves the pen, in em.
func (c cut) advance(r rune) float64 {
	var b sfnt.Buffer
	a, err := c.font.GlyphAdvance(&b, c.glyph(r), fixed.I(em), font.HintingNone)
	if err != nil {
		return 0
	}
	return float64(a) / 64 / em
}

// extent is how far a character reaches below and above the line that it stands on, in em: bottom is negative for a p.
func (c cut) extent(r rune) (bottom, top float64) {
	var b sfnt.Buffer
	r2, _, err := c.font.GlyphBounds(&b, c.glyph(r), fixed.I(em), font.HintingNone)
	if err != nil {
		return 0, 0
	}
	return -float64(r2.Max.Y) / 64 / em, -float64(r2.Min.Y) / 64 / em
}

// width of a text in em, with spread between its letters.
func (f Face) width(text string, spread float64) float64 {
	c, w := cuts[f](), -spread
	for _, r := range text {
		w += c.advance(r) + spread
	}
	return max(0, w)
}

// extents is how far a text reaches below and above its line, in em.
func (f Face) extents(text string) (bottom, top float64) {
	c := cuts[f]()
	for _, r := range text {
		b, t := c.extent(r)
		bottom, top = min(bottom, b), max(top, t)
	}
	return bottom, top
}
