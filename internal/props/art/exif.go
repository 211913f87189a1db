package art

import (
	"bytes"
	"encoding/binary"
	"image"
)

// jpegSegments calls visit with the segments before a JPEG's picture, until visit returns false.
func jpegSegments(file []byte, visit func(marker byte, body []byte) bool) {
	for p := file[2:]; len(p) >= 4 && p[0] == 0xff; {
		if p[1] == 0xff { // a fill byte before a marker
			p = p[1:]
			continue
		}
		marker, n := p[1], int(binary.BigEndian.Uint16(p[2:])) // the length counts its own two bytes
		if marker == 0xda || n < 2 || 2+n > len(p) || !visit(marker, p[4:2+n]) {
			return
		}
		p = p[2+n:]
	}
}

// jpegExif finds the EXIF block of a JPEG: the segment APP1 that begins with "Exif" (Exif 2.32, section 4.7.2).
func jpegExif(file []byte) (exif []byte) {
	jpegSegments(file, func(marker byte, body []byte) bool {
		block, ok := bytes.CutPrefix(body, []byte("Exif\x00\x00"))
		if ok && marker == 0xe1 {
			exif = block
		}
		return exif == nil
	})
	return exif
}

// pngChunk is what stands in the first chunk of the kind, or nil.
func pngChunk(file []byte, kind string) []byte {
	for p := file[8:]; len(p) >= 12; {
		n := int(binary.BigEndian.Uint32(p))
		if n > len(p)-12 {
			return nil
		}
		if string(p[4:8]) == kind {
			return p[8 : 8+n]
		}
		p = p[12+n:]
	}
	return nil
}

// pngExif finds the chunk eXIf of a PNG (PNG third edition, section 11.3.3.3).
func pngExif(file []byte) []byte { return pngChunk(file, "eXIf") }

// orientation is the value of the tag Orientation (0x0112) in an EXIF block, which is a TIFF without a picture: 1 to 8, or
// 0 if there is none.
func orientation(exif []byte) int {
	if v := tiffTag(exif, 0x0112); len(v) == 2 { // one 16-bit number
		if o := tiffOrder(exif).Uint16(v); o <= 8 {
			return int(o)
		}
	}
	return 0
}

// upright turns a stored picture the way that an EXIF orientation says it is looked at.
func upright(m *image.NRGBA, orientation int) *image.NRGBA {
	if orientation < 2 {
		return m
	}
	w, h := m.Rect.Dx(), m.Rect.Dy()
	// The stored first row is the side of the upright picture named first, the stored first column the side named second.
	mirrorX := orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8
	mirrorY := orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7
	swap := orientation >= 5
	size := image.Pt(w, h)
	if swap {
		size = image.Pt(h, w)
	}
	out := image.NewNRGBA(image.Rectangle{Max: size})
	for y := range size.Y {
		for x := range size.X {
			sx, sy := x, y
			if swap {
				sx, sy = y, x
			}
			if mirrorX {
				sx = w - 1 - sx
			}
			if mirrorY {
				sy = h - 1 - sy
			}
			*(*[4]uint8)(out.Pix[out.PixOffset(x, y):]) = *(*[4]uint8)(m.Pix[m.PixOffset(sx, sy):])
		}
	}
	return out
}
