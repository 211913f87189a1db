package art

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"sync"
)

// Box is a rectangle of a picture as shares of its width and height, from its upper left corner.
type Box struct{ X0, Y0, X1, Y1 float64 }

func (b Box) in(size image.Point) image.Rectangle {
	at := func(share float64, of int) int { return int(float64(share*float64(of)) + 0.5) }
	r := image.Rect(at(b.X0, size.X), at(b.Y0, size.Y), at(b.X1, size.X), at(b.Y1, size.Y)).Intersect(image.Rectangle{Max: size})
	if r.Empty() {
		return image.Rect(0, 0, 1, 1)
	}
	return r
}

// Cut is a piece of a picture: a part of a work that was photographed as a whole.
func Cut(m *Image, b Box) *Image {
	r := b.in(image.Pt(m.Width, m.Height))
	name := fmt.Sprintf("%s, %d x %d at %d, %d", m.Name, r.Dx(), r.Dy(), r.Min.X, r.Min.Y)
	return Drawn(name, r.Size(), func(to *image.NRGBA) { draw.Draw(to, to.Rect, m.Pixels(), r.Min, draw.Over) })
}

// Beside is several pictures as one of a size in pixels, each in its box: a work in parts as it hangs.
func Beside(name string, size image.Point, parts []*Image, at []Box) *Image {
	return Drawn(name, size, func(to *image.NRGBA) {
		for i, m := range parts {
			r := at[i].in(size)
			draw.Draw(to, r, Shrink(m.Pixels(), r.Size()), image.Point{}, draw.Over)
		}
	})
}

// Drawn is a picture on the colour of paper that is drawn when it is asked for.
func Drawn(name string, size image.Point, by func(*image.NRGBA)) *Image {
	pixels := sync.OnceValue(func() *image.NRGBA {
		to := image.NewNRGBA(image.Rectangle{Max: size})
		draw.Draw(to, to.Rect, image.NewUniform(color.NRGBA{0xf1, 0xee, 0xe6, 255}), image.Point{}, draw.Src)
		by(to)
		return to
	})
	file := func() []byte {
		b, _ := encode(pixels()) // into memory, and of a size that a JPEG can have
		return b
	}
	return Later(name, "image/jpeg", size, file, pixels)
}
