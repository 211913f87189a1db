// Package art takes in pictures: an artwork's photograph from disk, or lettering that was drawn.
package art

import (
	"image"
	"sync"

	"boothmock/internal/basis/colour"
)

// Image is a picture that can be laid on a surface.
type Image struct {
	Name   string // file name or what it shows; two images with one name are the same image
	Width  int    // pixels
	Height int    // pixels
	MIME   string // "image/jpeg" or "image/png", of Encoded
	*Content
}

// Content is what an image shows, as a file, as pixels and on average, each made when it is first asked for: checks ask for no pixels.
// Images with the same Content are alike.
type Content struct {
	file   func() []byte
	pixels func() *image.NRGBA
	mean   func() Mean
}

// Mean is a colour in linear light, 0 to 1 each of red, green, blue.
type Mean [3]float64

// Ready is an image whose pixels and file are made. The MIME type is that of the file.
func Ready(name, mime string, file []byte, pixels *image.NRGBA) *Image {
	return Later(name, mime, pixels.Rect.Size(), func() []byte { return file }, func() *image.NRGBA { return pixels })
}

// Later is an image of a size in pixels whose file and pixels are made once each, when they are asked for. Both are asked from several
// goroutines.
func Later(name, mime string, size image.Point, file func() []byte, pixels func() *image.NRGBA) *Image {
	pixels = sync.OnceValue(pixels)
	return &Image{name, size.X, size.Y, mime, &Content{sync.OnceValue(file), pixels, sync.OnceValue(func() Mean { return mean(pixels()) })}}
}

// Encoded is the file, ready to be embedded.
func (c *Content) Encoded() []byte { return c.file() }

// Pixels are decoded, upright, sRGB, opaque unless the picture is not.
func (c *Content) Pixels() *image.NRGBA { return c.pixels() }

// Mean is the average of the pixels, known without them where a photograph was read through before.
func (c *Content) Mean() Mean { return c.mean() }

// mean is the average over places in a grid.
func mean(m *image.NRGBA) Mean {
	const grid = 24
	b := m.Bounds()
	var sum Mean
	for i := range grid {
		for j := range grid {
			px := m.NRGBAAt(b.Min.X+(2*i+1)*b.Dx()/(2*grid), b.Min.Y+(2*j+1)*b.Dy()/(2*grid))
			for k, v := range [3]uint8{px.R, px.G, px.B} {
				sum[k] += float64(colour.Light(v))
			}
		}
	}
	for k := range sum {
		sum[k] *= 1.0 / (grid * grid)
	}
	return sum
}

// Bytes is about how much memory the picture takes when both its file and its pixels are made.
func (im *Image) Bytes() int { return 5 * im.Width * im.Height }
