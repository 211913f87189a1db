package art

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"image"
	"io"
	"math"
	"strings"

	"boothmock/internal/basis/colour"
)

// jpegProfile puts together the colour profile of a JPEG from its segments APP2 (ICC.1:2022, annex B.4), or is nil.
func jpegProfile(file []byte) (profile []byte) {
	parts := map[byte][]byte{}
	jpegSegments(file, func(marker byte, body []byte) bool {
		if chunk, ok := bytes.CutPrefix(body, []byte("ICC_PROFILE\x00")); ok && marker == 0xe2 && len(chunk) > 2 {
			parts[chunk[0]] = chunk[2:]
		}
		return true
	})
	for n := range byte(255) {
		profile = append(profile, parts[n+1]...)
	}
	return profile
}

// pngProfile unpacks the chunk iCCP of a PNG (PNG third edition, section 11.3.2.3), or is nil.
func pngProfile(file []byte) []byte {
	_, packed, ok := strings.Cut(string(pngChunk(file, "iCCP")), "\x00")
	if !ok || packed == "" || packed[0] != 0 {
		return nil
	}
	r, err := zlib.NewReader(strings.NewReader(packed[1:]))
	if err != nil {
		return nil
	}
	profile, err := io.ReadAll(io.LimitReader(r, 4<<20))
	if err != nil {
		return nil
	}
	return profile
}

// colours turns the colours of one kind of camera or screen into sRGB.
type colours struct {
	light [3][256]float32 // of each component's level, linear
	mix   [3][3]float32   // to linear sRGB
}

// fromXYZ is linear sRGB from XYZ beside the white D50: the inverse of the primaries of IEC 61966-2-1, adapted by
// Bradford's method as ICC profiles are (values as B. Lindbloom publishes them; from memory).
var fromXYZ = [3][3]float64{
	{3.1338561, -1.6168667, -0.4906146},
	{-0.9787684, 1.9161415, 0.0334540},
	{0.0719453, -0.2289914, 1.4052427},
}

// newColours reads a profile with three primaries and three curves (ICC.1:2022, annex F.3), as cameras and telephones
// write. ok is false for any other, and for one that is sRGB already or so near that nobody could tell.
func newColours(profile []byte) (c colours, ok bool) {
	if len(profile) < 132 || string(profile[16:20]) != "RGB " {
		return c, false
	}
	tag := func(name string) []byte {
		entries := profile[132:]
		for range min(binary.BigEndian.Uint32(profile[128:]), 100) {
			if len(entries) < 12 {
				return nil
			}
			at, n := uint64(binary.BigEndian.Uint32(entries[4:])), uint64(binary.BigEndian.Uint32(entries[8:]))
			if string(entries[:4]) == name && at+n <= uint64(len(profile)) {
				return profile[at : at+n]
			}
			entries = entries[12:]
		}
		return nil
	}
	for k, name := range []string{"r", "g", "b"} {
		xyz, curve := tag(name+"XYZ"), newCurve(tag(name+"TRC"))
		if len(xyz) < 20 || curve == nil {
			return c, false
		}
		for row := range 3 {
			sum := 0.0
			for i := range 3 {
				sum += float64(fromXYZ[row][i] * fixed(xyz[8+4*i:]))
			}
			if c.mix[row][k] = float32(sum); !(math.Abs(sum) < 8) {
				return c, false // no light is like that: the profile is damaged
			}
		}
		for v := range 256 {
			l := curve(float64(v) / 255)
			if c.light[k][v] = float32(l); !(math.Abs(l) < 2) {
				return c, false
			}
		}
	}
	for _, p := range [][3]uint8{{255, 255, 255}, {128, 128, 128}, {30, 30, 30}, {220, 40, 40}, {40, 180, 40}, {40, 40, 200}, {200, 150, 60}} {
		q := c.convert(p)
		for k := range 3 {
			if d := int(p[k]) - int(q[k]); d < -2 || d > 2 {
				return c, true
			}
		}
	}
	return c, false
}

// fixed is a number of 16 bits before and 16 after the point.
func fixed(b []byte) float64 { return float64(int32(binary.BigEndian.Uint32(b))) / 65536 }

// newCurve reads a curve, from 0..1 to linear light (ICC.1:2022, sections 10.6 and 10.18), or is nil.
func newCurve(tag []byte) func(float64) float64 {
	if len(tag) < 12 {
		return nil
	}
	switch string(tag[:4]) {
	case "curv":
		n, table := int(binary.BigEndian.Uint32(tag[8:])), tag[12:]
		if n < 0 || n > len(table)/2 {
			return nil
		}
		at := func(i int) float64 { return float64(binary.BigEndian.Uint16(table[2*i:])) }
		switch n {
		case 0:
			return func(v float64) float64 { return v }
		case 1:
			return func(v float64) float64 { return math.Pow(v, at(0)/256) }
		}
		return func(v float64) float64 {
			x := v * float64(n-1)
			i := min(int(x), n-2)
			return (at(i) + float64((x-float64(i))*(at(i+1)-at(i)))) / 65535
		}
	case "para":
		kind := int(binary.BigEndian.Uint16(tag[8:]))
		if kind > 4 || len(tag) < 12+4*[]int{1, 3, 4, 5, 7}[kind] {
			return nil
		}
		p := [7]float64{1, 1} // g, a, b, c, d, e, f
		for i := range []int{1, 3, 4, 5, 7}[kind] {
			p[i] = fixed(tag[12+4*i:])
		}
		g, a, b, c, d, e, f := p[0], p[1], p[2], p[3], p[4], p[5], p[6]
		switch kind { // the kinds name their numbers differently: bring all to the last one's
		case 1:
			c, d = 0, -b/a
		case 2:
			c, d, e, f = 0, -b/a, c, c
		}
		return func(v float64) float64 {
			if v < d {
				return float64(c*v) + f
			}
			return math.Pow(max(0, float64(a*v)+b), g) + e
		}
	}
	return nil
}

// convert is one pixel in sRGB. Colours that sRGB does not have are held at its border.
func (c *colours) convert(p [3]uint8) (out [3]uint8) {
	r, g, b := c.light[0][p[0]], c.light[1][p[1]], c.light[2][p[2]]
	for k, m := range c.mix {
		out[k] = colour.Byte(float32(m[0]*r) + float32(m[1]*g) + float32(m[2]*b))
	}
	return out
}

// apply converts a picture in place.
func (c *colours) apply(m *image.NRGBA) {
	for p := m.Pix; len(p) >= 4; p = p[4:] {
		*(*[3]uint8)(p) = c.convert(*(*[3]uint8)(p))
	}
}
