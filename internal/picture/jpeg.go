package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"io"
	"slices"

	"boothmock/internal/colour"
	"boothmock/internal/imprint"
)

// WriteJPEG writes an opaque picture with the profile of sRGB in it (a segment APP2; ICC.1:2022, annex B.4). Quality is from
// 1 to 100.
func WriteJPEG(w io.Writer, m *image.NRGBA, quality int) error {
	var b bytes.Buffer
	// An opaque picture is the same as RGBA, which the encoder reads more quickly.
	if err := jpeg.Encode(&b, &image.RGBA{Pix: m.Pix, Stride: m.Stride, Rect: m.Rect}, &jpeg.Options{Quality: quality}); err != nil {
		return err
	}
	profile := append([]byte("ICC_PROFILE\x00\x01\x01"), colour.Profile()...) // the first part of one
	start := binary.BigEndian.AppendUint16([]byte("\xff\xd8\xff\xe2"), uint16(2+len(profile)))
	if _, err := w.Write(slices.Concat(start, profile, []byte(imprint.JPEG))); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes()[2:]) // what follows its own mark of the beginning
	return err
}
