// Package art takes in pictures: an artwork's photograph from disk, or lettering that was drawn.
package art

import (
	"image"
	"sync"
)

// Image is a picture that can be laid on a surface.
type Image struct {
	Name   string // file name or what it shows; two images with one name are the same image
	Width  int    // pixels
	Height int    // pixels
	MIME   string // "image/jpeg" or "image/png", of Encoded
	*Content
}

// Content is what an image shows, as a file and as pixels, each made when it is first asked for: checks ask for neither. Images
// with the same Content are alike.
type Content struct {
	file   func() []byte
	pixels func() *image.NRGBA
}

// Ready is an image whose pixels and file are made. The MIME type is that of the file.
func Ready(name, mime string, file []byte, pixels *image.NRGBA) *Image {
	return Later(name, mime, pixels.Rect.Size(), func() []byte { return file }, func() *image.NRGBA { return pixels })
}

// Later is an image of a size in pixels whose file and pixels are made once each, when they are asked for. Both are asked from several
// goroutines.
func Later(name, mime string, size image.Point, file func() []byte, pixels func() *image.NRGBA) *Image {
	return &Image{name, size.X, size.Y, mime, &Content{sync.OnceValue(file), sync.OnceValue(pixels)}}
}

// Encoded is the file, ready to be embedded.
func (c *Content) Encoded() []byte { return c.file() }

// Pixels are decoded, upright, sRGB, opaque unless the picture is not.
func (c *Content) Pixels() *image.NRGBA { return c.pixels() }

// Bytes is about how much memory the picture takes when both its file and its pixels are made.
func (im *Image) Bytes() int { return 5 * im.Width * im.Height }
