package colour

import (
	"encoding/binary"
	"math"
	"unicode/utf16"
)

// white is D50, the white of every profile (ICC.1:2022, section 7.2.16), and primaries are those of sRGB beside it, as
// X, Y, Z: the chromaticities of IEC 61966-2-1 beside D65, brought to D50 by toD50.
var (
	white     = [3]float64{0.9642, 1, 0.8249}
	primaries = [3][3]float64{{0.436066, 0.222488, 0.013916}, {0.385147, 0.716873, 0.097076}, {0.143066, 0.060608, 0.714096}}
)

// toD50 is Bradford's adaptation of the eye from D65 to D50 (ICC.1:2022, annex E).
var toD50 = [3][3]float64{{1.047882, 0.022919, -0.050201}, {0.029587, 0.990479, -0.017059}, {-0.009232, 0.015076, 0.751678}}

// Profile is sRGB as an ICC profile of version 4.4 (ICC.1:2022): what a picture file carries so that every program knows
// what its numbers mean. The numbers of the curve are exact, so all programs come to the same colours.
func Profile() []byte {
	// Of a parametric curve of type 3 (section 10.18): (a·v + b)^g from d on, and c·v below.
	curve := fixedPoints([]byte("para\x00\x00\x00\x00\x00\x03\x00\x00"), gamma, 1/(1+offset), offset/(1+offset), 1/slope, knee)
	xyz := func(c [3]float64) []byte { return fixedPoints([]byte("XYZ \x00\x00\x00\x00"), c[:]...) }
	adapted := []byte("sf32\x00\x00\x00\x00")
	for _, row := range toD50 {
		adapted = fixedPoints(adapted, row[:]...)
	}
	tags := []struct { // those that section 8.3.3 asks of a display with three primaries
		name string
		data []byte
	}{
		{"desc", written("sRGB")}, {"cprt", written("No copyright")}, {"wtpt", xyz(white)}, {"chad", adapted},
		{"rXYZ", xyz(primaries[0])}, {"gXYZ", xyz(primaries[1])}, {"bXYZ", xyz(primaries[2])},
		{"rTRC", curve}, {"gTRC", curve}, {"bTRC", curve},
	}
	head := 128 + 4 + 12*len(tags)
	table := binary.BigEndian.AppendUint32(nil, uint32(len(tags)))
	var body []byte
	at := map[string]int{}
	for _, t := range tags {
		from, ok := at[string(t.data)] // the same data is kept once
		if !ok {
			from = head + len(body)
			at[string(t.data)] = from
			body = append(body, t.data...)
			body = append(body, make([]byte, -len(body)&3)...)
		}
		table = append(table, t.name...)
		table = binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(table, uint32(from)), uint32(len(t.data)))
	}
	out := make([]byte, 128, head+len(body))
	binary.BigEndian.PutUint32(out, uint32(head+len(body)))
	copy(out[8:], "\x04\x40\x00\x00mntrRGB XYZ \x07\xe6\x00\x05\x00\x01") // version, a display, RGB to XYZ, May 2022
	copy(out[36:], "acsp")
	copy(out[68:], fixedPoints(nil, white[:]...))
	return append(append(out, table...), body...)
}

// fixedPoints adds numbers of 16 bits before and 16 after the point (section 4.2, s15Fixed16Number).
func fixedPoints(to []byte, numbers ...float64) []byte {
	for _, x := range numbers {
		to = binary.BigEndian.AppendUint32(to, uint32(int32(math.Round(x*65536))))
	}
	return to
}

// written is a text in one language (section 10.15, multiLocalizedUnicodeType).
func written(text string) []byte {
	letters := utf16.Encode([]rune(text))
	out := []byte("mluc\x00\x00\x00\x00\x00\x00\x00\x01\x00\x00\x00\x0cenUS")
	out = binary.BigEndian.AppendUint32(out, uint32(2*len(letters)))
	out = binary.BigEndian.AppendUint32(out, 28) // where the letters begin
	for _, l := range letters {
		out = binary.BigEndian.AppendUint16(out, l)
	}
	return out
}
