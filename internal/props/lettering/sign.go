// Package lettering draws the texts of a booth (signs, banners, price tags, valances) and square codes as pictures that
// have the shape of the board they are for. It knows the Go fonts, which are built in, so that a sign looks the same on
// every computer.
package lettering

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"slices"
	"strings"
	"sync"

	"boothmock/internal/basis/fault"
	"boothmock/internal/props/art"
)

// Sign is what stands on a board. The letters are made as large as they can be: every line keeps its proportion to the
// others, and long lines are broken between words where that makes the letters clearly larger.
type Sign struct {
	Name          string  // of the image
	Width, Height float64 // metres of the board
	Ink, Paper    [3]uint8
	Lines         []Line
	Code          string // what a telephone reads from the square code, such as an address; empty for none
	Left          bool   // lines begin at the left; otherwise they are centred
	Most          int    // pixels that the picture may have; 0: as many as it takes to be sharp
}

// Line is one thought; a line feed in it breaks it.
type Line struct {
	Text   string
	Face   Face
	Scale  float64 // size of the letters beside those of a line with scale 1; 0 is 1
	Spread float64 // extra space between letters, in widths of an em
	Gap    float64 // extra space above, in the line's own size
	Soft   bool    // paler ink, for what is read second
}

// Drawn is a sign as a picture, and what can be measured on it.
type Drawn struct {
	Image   *art.Image
	Letters []float64 // for every line, the height of its capital I in metres
	Code    float64   // side of the square code in metres, without its quiet zone; 0 without a code
	At      Spot      // where it is
	Missing []rune    // characters that the fonts do not have, drawn as empty boxes
}

// Spot is a place on a sign, in shares of its width from the left and of its height from below.
type Spot struct{ Left, Low, Right, High float64 }

// Banner is one large line, such as a name.
func Banner(text string) Sign {
	return Sign{Lines: []Line{{Text: text, Face: Bold, Spread: 0.02}}}
}

// Valance is lettering for a long, low strip of cloth.
func Valance(text string) Sign {
	return Sign{Lines: []Line{{Text: text, Face: SmallCaps, Spread: 0.12}}}
}

// TableSign is a heading and what is said under it, with a square code beside or below if code is not empty.
func TableSign(heading string, lines []string, code string) Sign {
	s := Sign{Lines: []Line{{Text: heading, Face: Bold}}, Code: code}
	for i, l := range lines {
		gap := 0.25
		if i == 0 {
			gap = 0.35
		}
		s.Lines = append(s.Lines, Line{Text: l, Scale: 0.55, Gap: gap, Soft: true})
	}
	return s
}

// PriceTag is the label beside a work. What is not known is left empty and takes no room.
func PriceTag(title, medium, size, price string) Sign {
	s := Sign{Left: true, Lines: []Line{{Text: title, Face: Bold}}}
	for _, l := range []Line{
		{Text: medium, Face: SmallCaps, Scale: 0.66, Spread: 0.04, Gap: 0.2, Soft: true},
		{Text: size, Scale: 0.6, Soft: true},
		{Text: price, Scale: 0.9, Gap: 0.45},
	} {
		if l.Text != "" {
			s.Lines = append(s.Lines, l)
		}
	}
	return s
}

const (
	margin   = 0.09 // of the shorter side, empty on every side: common practice, no source
	softness = 184  // of 255, the ink of a soft line
	sharp    = 4000 // pixels a metre, enough for a sign half a metre from the eye
	shortest = 512  // pixels of the longer side
	longest  = 2048
)

// Draw makes the picture. An error is a fault.Fault without a place.
func (s Sign) Draw() (Drawn, error) {
	if !(s.Width > 0 && s.Height > 0) || math.IsInf(s.Width+s.Height, 0) {
		return Drawn{}, fault.Fault{Text: fmt.Sprintf("a sign cannot be %g x %g m", s.Width, s.Height), Hint: "give it a width and a height"}
	}
	var rows []paragraph
	for _, l := range s.Lines {
		rows = append(rows, newParagraph(l))
	}
	d := Drawn{Missing: missing(rows)}
	code, err := newCode(s.Code)
	if err != nil {
		return Drawn{}, err
	}
	w, h := pixels(s.Width, s.Height, code.modules(), s.Most)
	edge := margin * float64(min(w, h))
	side := max(edge, margin/2*float64(w)) // the ends of a long line want more air than its top
	space := box{side, edge, float64(w) - side, float64(h) - edge}
	text, at := space, image.Rectangle{}
	if code != nil {
		if text, at = code.place(rows, space); at.Empty() {
			return Drawn{}, fault.Fault{Text: "the address is too long for a square code on this sign", Hint: "use a shorter address or a larger sign"}
		}
	}
	set := compose(rows, text, s.Left)
	inked := sync.OnceValue(func() *image.Paletted {
		mask := image.NewAlpha(image.Rect(0, 0, w, h))
		set.draw(mask)
		paper := colourScale(s.Paper, s.Ink)
		m := image.NewPaletted(mask.Rect, paper)
		steps := len(paper) - 3 // the scale without its first colour, and without the black and white of the code
		for i, a := range mask.Pix {
			m.Pix[i] = uint8((int(a)*steps + 127) / 255)
		}
		code.draw(m, at, s.readable(), uint8(steps))
		return m
	})
	metres := s.Width / float64(w)
	for i := range s.Lines {
		d.Letters = append(d.Letters, set.size*rows[i].scale*rows[i].face.capital()*metres)
	}
	if code != nil {
		clear := float64(at.Dx()*quiet) / float64(code.modules()+2*quiet)
		d.Code = (float64(at.Dx()) - 2*clear) * metres
		d.At = Spot{(float64(at.Min.X) + clear) / float64(w), 1 - (float64(at.Max.Y)-clear)/float64(h), (float64(at.Max.X) - clear) / float64(w), 1 - (float64(at.Min.Y)+clear)/float64(h)}
	}
	d.Image = art.Later(s.Name, "image/png", image.Pt(w, h), func() []byte { return encoded(inked()) }, func() *image.NRGBA { return coloured(inked()) })
	return d, nil
}

// pixels is the size of the picture: sharp enough, of the board's shape as nearly as whole pixels allow, and if most is not
// 0 of about as many pixels.
func pixels(width, height float64, modules, most int) (w, h int) {
	long, short := max(width, height), min(width, height)
	want := max(shortest, min(longest, int(long*sharp)))
	if modules > 0 { // the code takes about two fifths of the shorter side: four pixels a module there
		want = max(want, min(longest, int(float64(4*(modules+2*quiet))/0.4*long/short)))
	}
	if most > 0 {
		want = max(1, min(want, int(math.Sqrt(float64(most)*long/short))))
	}
	best, off := want, math.Inf(1)
	for n := want; n <= want+want/16; n++ {
		exact := float64(n) * short / long
		if e := math.Abs(math.Round(exact)-exact) / exact; e < off-1e-12 {
			best, off = n, e
		}
	}
	other := max(1, int(math.Round(float64(best)*short/long)))
	if width >= height {
		return best, other
	}
	return other, best
}

// colourScale runs from paper to ink in 14 steps; black and white, which a code may need, follow. Sixteen colours make
// four bits a pixel.
func colourScale(paper, ink [3]uint8) color.Palette {
	p := make(color.Palette, 0, 16)
	for i := range 14 {
		var c [3]uint8
		for k := range c {
			c[k] = uint8((int(paper[k])*(13-i) + int(ink[k])*i + 6) / 13)
		}
		p = append(p, color.NRGBA{c[0], c[1], c[2], 255})
	}
	return append(p, color.NRGBA{0, 0, 0, 255}, color.NRGBA{255, 255, 255, 255})
}

// encoded is the picture as a PNG.
func encoded(m *image.Paletted) []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		panic(err) // memory does not refuse a write, and the size is ours
	}
	return b.Bytes()
}

// coloured are the picture's pixels.
func coloured(m *image.Paletted) *image.NRGBA {
	out := image.NewNRGBA(m.Rect)
	for i, k := range m.Pix {
		c := m.Palette[k].(color.NRGBA)
		*(*[4]uint8)(out.Pix[4*i:]) = [4]uint8{c.R, c.G, c.B, c.A}
	}
	return out
}

// Unknown says in words which characters could not be drawn, or nothing if all could.
func (d Drawn) Unknown() string {
	if len(d.Missing) == 0 {
		return ""
	}
	names := make([]string, len(d.Missing))
	for i, r := range d.Missing {
		names[i] = fmt.Sprintf("%c (U+%04X)", r, r)
	}
	return "the lettering has no " + strings.Join(names, ", ")
}

func missing(rows []paragraph) []rune {
	var out []rune
	for _, p := range rows {
		for _, r := range p.text {
			if r != '\n' && p.face.glyph(r) == 0 && !slices.Contains(out, r) {
				out = append(out, r)
			}
		}
	}
	return out
}
