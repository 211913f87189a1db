package art

import (
	"image"
	"math"
)

// Go's image.YCbCr is that of JPEG: BT.601 over the full range of a byte. WebP and many HEIC files use the range of
// video, and some the weights of BT.709 (ITU-R BT.601-7, BT.709-6). Both are brought to JPEG's in place, which takes no
// memory and no time to speak of.

// videoRange makes the full range of a WebP's colours; it has BT.601 in the range of video (RFC 6386, section 9.2).
func videoRange(m image.Image, _ []byte) {
	switch m := m.(type) {
	case *image.YCbCr:
		stretch(m)
	case *image.NYCbCrA:
		stretch(&m.YCbCr)
	}
}

// stretch takes 16..235 for the light and 16..240 for the colours to 0..255.
func stretch(m *image.YCbCr) {
	var light, colour [256]uint8
	for i := range 256 {
		light[i] = level(float64(i-16) * 255 / 219)
		colour[i] = level(128 + float64(i-128)*255/224)
	}
	for i, v := range m.Y {
		m.Y[i] = light[v]
	}
	for _, plane := range [][]uint8{m.Cb, m.Cr} {
		for i, v := range plane {
			plane[i] = colour[v]
		}
	}
}

// from709 turns full-range BT.709 into full-range BT.601: the same red, green and blue, differently weighed.
func from709(m *image.YCbCr) {
	// Rows of M601 · M709⁻¹, with Kr, Kb = 0.299, 0.114 and 0.2126, 0.0722.
	const (
		yb, yr = 0.101579, 0.196076
		bb, br = 0.989854, -0.110653
		rb, rr = -0.072453, 0.983398
	)
	for y := range m.Rect.Dy() {
		for x := range m.Rect.Dx() {
			c := m.COffset(m.Rect.Min.X+x, m.Rect.Min.Y+y)
			b, r := float64(m.Cb[c])-128, float64(m.Cr[c])-128
			p := &m.Y[m.YOffset(m.Rect.Min.X+x, m.Rect.Min.Y+y)]
			*p = level(float64(*p) + float64(yb*b) + float64(yr*r))
		}
	}
	for i := range m.Cb {
		b, r := float64(m.Cb[i])-128, float64(m.Cr[i])-128
		m.Cb[i], m.Cr[i] = level(128+float64(bb*b)+float64(br*r)), level(128+float64(rb*b)+float64(rr*r))
	}
}

func level(v float64) uint8 { return uint8(math.Round(max(0, min(255, v)))) }
