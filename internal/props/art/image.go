// Package art takes in pictures: an artwork's photograph from disk, or lettering that was drawn.
package art

import "image"

// Image is a picture that can be laid on a surface.
type Image struct {
	Name    string       // file name or what it shows; two images with one name are the same image
	Width   int          // pixels
	Height  int          // pixels
	MIME    string       // "image/jpeg" or "image/png", of Encoded
	Encoded []byte       // the file, ready to be embedded
	Pixels  *image.NRGBA // decoded, upright, sRGB, opaque unless the picture is not
}

// bytes is about how much memory the picture takes.
func (im *Image) bytes() int { return len(im.Encoded) + len(im.Pixels.Pix) }
