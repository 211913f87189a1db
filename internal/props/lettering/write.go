package lettering

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"
)

// Write writes one line of text onto a picture: the pen starts at x, y, on the line that the letters stand on, with px
// pixels an em. It returns how far the pen has moved.
func (f Face) Write(m draw.Image, x, y, px float64, text string, ink color.Color) float64 {
	c, wide := cuts[f](), f.Width(px, text)
	at := image.Rect(int(math.Floor(x-px/4)), int(math.Floor(y-1.2*px)), int(math.Ceil(x+wide+px/4)), int(math.Ceil(y+px/2)))
	var z vector.Rasterizer
	z.Reset(at.Dx(), at.Dy())
	pen := x - float64(at.Min.X)
	for _, r := range text {
		c.outline(&z, c.glyph(r), px, pen, y-float64(at.Min.Y))
		pen += c.advance(r) * px
	}
	z.Draw(m, at, image.NewUniform(ink), image.Point{})
	return wide
}

// Width is how many pixels a line of text takes, with px pixels an em.
func (f Face) Width(px float64, text string) float64 { return f.width(text, 0) * px }

// Capital is the height in pixels of a capital letter, with px pixels an em.
func (f Face) Capital(px float64) float64 { return f.capital() * px }
