package picture

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"slices"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/imprint"
)

// Qualities between which that of a JPEG of a limited size is sought: above the best a file only grows, and below the least
// the blocks of eight pixels show on plain walls; seen on the demo.
const (
	bestQuality  = 95
	leastQuality = 40
)

// WriteJPEGWithin writes the picture as WriteJPEG does, with the highest quality at which the file has no more than so many
// bytes. The error says how large it would be with the least quality that is worth looking at.
func WriteJPEGWithin(w io.Writer, m *image.NRGBA, most int) error {
	var best []byte
	smallest := 0
	for low, high := leastQuality, bestQuality; low <= high; { // of all qualities half each time, the lowest half if it is too large
		q := (low + high + 1) / 2
		if best == nil && low == leastQuality && high == bestQuality {
			q = bestQuality // mostly that will do
		}
		var b bytes.Buffer
		if err := WriteJPEG(&b, m, q); err != nil {
			return err
		}
		if b.Len() <= most {
			best, low = b.Bytes(), q+1
		} else {
			smallest, high = b.Len(), q-1
		}
	}
	if best == nil {
		return fmt.Errorf("as a JPEG of so many pixels it takes %d kB at least, more than %d kB: ask for fewer pixels with --size", (smallest+999)/1000, most/1000)
	}
	_, err := w.Write(best)
	return err
}

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
