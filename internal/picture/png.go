package picture

import (
	"image"
	"image/png"
	"io"
)

// WritePNG writes the picture; the same picture always gives the same bytes.
func WritePNG(w io.Writer, m image.Image) error {
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	return e.Encode(w, m)
}
