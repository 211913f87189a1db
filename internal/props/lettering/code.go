package lettering

import (
	"image"

	"boothmock/internal/basis/fault"

	qr "github.com/piglig/go-qr"
)

// quiet is the empty border that a square code needs, in modules (ISO/IEC 18004).
const quiet = 4

type code struct{ *qr.QrCode }

// newCode makes a QR code that still reads with an eighth of it dirty or torn (level M); nil for an empty text.
func newCode(text string) (*code, error) {
	if text == "" {
		return nil, nil
	}
	c, err := qr.EncodeText(text, qr.Medium)
	if err != nil {
		return nil, fault.Fault{Text: "the address is too long for a square code", Hint: "use a shorter address"}
	}
	return &code{c}, nil
}

// Modules are the dark squares of a code, by row and column, for whoever draws it in lines: it needs four modules of clear
// paper all round.
func Modules(text string) ([][]bool, error) {
	c, err := newCode(text)
	if err != nil || c == nil {
		return nil, err
	}
	out := make([][]bool, c.Size())
	for y := range out {
		out[y] = make([]bool, c.Size())
		for x := range out[y] {
			out[y][x] = c.Module(x, y)
		}
	}
	return out, nil
}

// modules on a side; 0 without a code.
func (c *code) modules() int {
	if c == nil {
		return 0
	}
	return c.Size()
}

// place shares the space between the code and the text: the code goes beside or below it, whichever leaves both larger.
// The code's square, with its quiet zone, is whole pixels a module; empty if there is not even two for one.
func (c *code) place(ps []paragraph, b box) (text box, at image.Rectangle) {
	w, h := b.x1-b.x0, b.y1-b.y0
	n := c.modules() + 2*quiet
	square := func(room float64) (module int, side float64) {
		module = int(room) / n
		return module, float64(module * n)
	}
	if len(ps) == 0 {
		_, side := square(min(w, h))
		return b, squareAt((b.x0+b.x1-side)/2, (b.y0+b.y1-side)/2, side)
	}
	const gap = 0.04 // of the side that is shared; the quiet zone adds to it
	best := 0.0
	if m, side := square(min(h, 0.42*w)); m >= 2 {
		t := box{b.x0, b.y0, b.x1 - side - gap*w, b.y1}
		px, _ := size(ps, t)
		best, text, at = px*side, t, squareAt(b.x1-side, (b.y0+b.y1-side)/2, side)
	}
	if m, side := square(min(w, 0.45*h)); m >= 2 {
		t := box{b.x0, b.y0, b.x1, b.y1 - side - gap*h}
		if px, _ := size(ps, t); px*side > best {
			text, at = t, squareAt((b.x0+b.x1-side)/2, b.y1-side, side)
		}
	}
	return text, at
}

func squareAt(x, y, side float64) image.Rectangle {
	p := image.Pt(int(x), int(y))
	return image.Rectangle{p, p.Add(image.Pt(int(side), int(side)))}
}

// draw fills the square with the code: in the sign's own ink if readers can tell it from the paper, else in black on a
// white square. The palette is a colourScale whose ink has the number given.
func (c *code) draw(m *image.Paletted, at image.Rectangle, own bool, ink uint8) {
	if c == nil {
		return
	}
	dark, light := ink, uint8(0)
	if !own {
		dark, light = uint8(len(m.Palette)-2), uint8(len(m.Palette)-1)
	}
	n := c.modules() + 2*quiet
	module := at.Dx() / n
	for y := range at.Dy() {
		for x := range at.Dx() {
			k := light
			if mx, my := x/module-quiet, y/module-quiet; mx >= 0 && my >= 0 && mx < c.modules() && my < c.modules() && c.Module(mx, my) {
				k = dark
			}
			m.SetColorIndex(at.Min.X+x, at.Min.Y+y, k)
		}
	}
}

// readable reports whether the ink is dark and the paper light enough for a code in these colours: a difference of
// reflectance of 70 % (ISO/IEC 15415, symbol contrast of the best grade; from memory). Light codes on dark paper are not: many
// readers fail at them.
func (s Sign) readable() bool { return luminance(s.Paper)-luminance(s.Ink) >= 0.7 }

// luminance of an sRGB colour, 0 to 1, by the square that stands for the curve of IEC 61966-2-1 well enough here.
func luminance(c [3]uint8) float64 {
	l := func(v uint8) float64 { return float64(v) / 255 * float64(v) / 255 }
	return 0.2126*l(c[0]) + 0.7152*l(c[1]) + 0.0722*l(c[2])
}
