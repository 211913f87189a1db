package art

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"
)

// Primaries beside D50 as the profiles of the named spaces hold them (from memory), red, green, blue.
var (
	displayP3 = [3][3]float64{{0.51512, 0.24120, -0.00105}, {0.29198, 0.69225, 0.04189}, {0.15710, 0.06657, 0.78407}}
	adobe1998 = [3][3]float64{{0.60974, 0.31111, 0.01947}, {0.20528, 0.62567, 0.06087}, {0.14919, 0.06322, 0.74457}}
	sRGB      = [3][3]float64{{0.43607, 0.22249, 0.01392}, {0.38515, 0.71687, 0.09708}, {0.14307, 0.06061, 0.71410}}
)

// profileOf builds a profile of three primaries and one curve.
func profileOf(primaries [3][3]float64, curve []byte) []byte {
	b := make([]byte, 128)
	copy(b[16:], "RGB XYZ ")
	copy(b[36:], "acsp")
	b = binary.BigEndian.AppendUint32(b, 6)
	at := uint32(132 + 6*12)
	var body []byte
	add := func(name string, tag []byte) {
		b = append(b, name...)
		b = binary.BigEndian.AppendUint32(b, at+uint32(len(body)))
		b = binary.BigEndian.AppendUint32(b, uint32(len(tag)))
		body = append(body, tag...)
	}
	for k, name := range []string{"r", "g", "b"} {
		xyz := []byte("XYZ \x00\x00\x00\x00")
		for _, v := range primaries[k] {
			xyz = binary.BigEndian.AppendUint32(xyz, uint32(int32(math.Round(v*65536))))
		}
		add(name+"XYZ", xyz)
		add(name+"TRC", curve)
	}
	return append(b, body...)
}

func para(kind uint16, numbers ...float64) []byte {
	b := binary.BigEndian.AppendUint16([]byte("para\x00\x00\x00\x00"), kind)
	b = append(b, 0, 0)
	for _, v := range numbers {
		b = binary.BigEndian.AppendUint32(b, uint32(int32(math.Round(v*65536))))
	}
	return b
}

// curv is a table of n steps of the sRGB curve; 1 is a plain power.
func curv(n int) []byte {
	b := binary.BigEndian.AppendUint32([]byte("curv\x00\x00\x00\x00"), uint32(n))
	if n == 1 {
		return binary.BigEndian.AppendUint16(b, 563) // 2.19921875
	}
	for i := range n {
		b = binary.BigEndian.AppendUint16(b, uint16(math.Round(65535*srgbLight(float64(i)/float64(n-1)))))
	}
	return b
}

func srgbLight(v float64) float64 { // IEC 61966-2-1
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

var srgbCurve = para(3, 2.4, 1/1.055, 0.055/1.055, 1/12.92, 0.04045)

func TestWideColours(t *testing.T) {
	for _, c := range []struct {
		name     string
		profile  []byte
		in, want [3]uint8
	}{
		// Converted with littlecms 2, a reference outside of this project.
		{"Display P3", profileOf(displayP3, srgbCurve), [3]uint8{200, 100, 50}, [3]uint8{215, 93, 31}},
		{"Display P3 by table", profileOf(displayP3, curv(1024)), [3]uint8{200, 100, 50}, [3]uint8{215, 93, 31}},
		// Greys stay grey: both whites are D65, the curves are the same.
		{"Display P3 grey", profileOf(displayP3, srgbCurve), [3]uint8{128, 128, 128}, [3]uint8{128, 128, 128}},
		{"Display P3 white", profileOf(displayP3, srgbCurve), [3]uint8{255, 255, 255}, [3]uint8{255, 255, 255}},
		// Adobe RGB (1998) has the white, the red and the blue of sRGB, and a green that sRGB does not reach; its level 219 of
		// red is sRGB's full red (derived from the two definitions).
		{"Adobe RGB white", profileOf(adobe1998, curv(1)), [3]uint8{255, 255, 255}, [3]uint8{255, 255, 255}},
		{"Adobe RGB green", profileOf(adobe1998, curv(1)), [3]uint8{0, 255, 0}, [3]uint8{0, 255, 0}},
		{"Adobe RGB red", profileOf(adobe1998, curv(1)), [3]uint8{219, 0, 0}, [3]uint8{255, 0, 0}},
	} {
		wide, ok := newColours(c.profile)
		if !ok {
			t.Errorf("%s: taken for sRGB", c.name)
		}
		got := wide.convert(c.in)
		for k := range 3 {
			if d := int(got[k]) - int(c.want[k]); d < -2 || d > 2 {
				t.Errorf("%s: %v became %v, want %v", c.name, c.in, got, c.want)
				break
			}
		}
	}
	for name, p := range map[string][]byte{
		"sRGB": profileOf(sRGB, srgbCurve), "sRGB by table": profileOf(sRGB, curv(256)), "none": nil, "short": make([]byte, 131),
		"no curves": profileOf(displayP3, nil), "cut off": profileOf(displayP3, srgbCurve)[:300],
	} {
		if _, ok := newColours(p); ok {
			t.Errorf("%s: would be converted", name)
		}
	}
}

// The inverse matrix, times the sRGB primaries, is one.
func TestMatrixOfSRGB(t *testing.T) {
	for i := range 3 {
		for k := range 3 {
			sum := 0.0
			for j := range 3 {
				sum += fromXYZ[i][j] * sRGB[k][j]
			}
			want := 0.0
			if i == k {
				want = 1
			}
			if math.Abs(sum-want) > 3e-4 {
				t.Errorf("row %d, primary %d: %.5f, want %.0f", i, k, sum, want)
			}
		}
	}
}

func TestCurves(t *testing.T) {
	for name, c := range map[string]struct {
		tag  []byte
		want func(float64) float64
	}{
		"power":  {para(0, 1.8), func(v float64) float64 { return math.Pow(v, 1.8) }},
		"kind 1": {para(1, 2, 0.9, 0.1), func(v float64) float64 { return math.Pow(0.9*v+0.1, 2) }},
		"kind 2": {para(2, 2, 0.8, 0.1, 0.05), func(v float64) float64 { return math.Pow(0.8*v+0.1, 2) + 0.05 }},
		"kind 3": {srgbCurve, srgbLight},
		"kind 4": {para(4, 2.4, 1/1.055, 0.055/1.055, 1/12.92, 0.04045, 0.01, 0.02), func(v float64) float64 {
			if v < 0.04045 {
				return v/12.92 + 0.02
			}
			return srgbLight(v) + 0.01
		}},
		"straight": {curv(0), func(v float64) float64 { return v }},
		"table":    {curv(4096), srgbLight},
	} {
		f := newCurve(c.tag)
		for i := range 256 {
			if v := float64(i) / 255; math.Abs(f(v)-c.want(v)) > 1e-4 {
				t.Errorf("%s: %.4f gives %.5f, want %.5f", name, v, f(v), c.want(v))
				break
			}
		}
	}
}

// withJPEGProfile puts a profile into a JPEG in two segments, the second first.
func withJPEGProfile(file, profile []byte) []byte {
	out := append([]byte{}, file[:2]...)
	half := len(profile) / 2
	for n, part := range [][]byte{profile[half:], profile[:half]} {
		out = append(out, 0xff, 0xe2)
		out = binary.BigEndian.AppendUint16(out, uint16(2+14+len(part)))
		out = append(append(out, "ICC_PROFILE\x00"...), byte(2-n), 2)
		out = append(out, part...)
	}
	return append(out, file[2:]...)
}

func withPNGProfile(file, profile []byte) []byte {
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	z.Write(profile)
	z.Close()
	const head = 8 + 25
	chunk := append([]byte("iCCPwide\x00\x00"), packed.Bytes()...)
	out := binary.BigEndian.AppendUint32(append([]byte{}, file[:head]...), uint32(len(chunk)-4))
	out = binary.BigEndian.AppendUint32(append(out, chunk...), crc32.ChecksumIEEE(chunk))
	return append(out, file[head:]...)
}

func TestPhotographsOfTelephones(t *testing.T) {
	plain := image.NewNRGBA(image.Rect(0, 0, 32, 32))
	for y := range 32 {
		for x := range 32 {
			plain.SetNRGBA(x, y, color.NRGBA{200, 100, 50, 255})
		}
	}
	wide, narrow := profileOf(displayP3, srgbCurve), profileOf(sRGB, srgbCurve)
	for name, c := range map[string]struct {
		file []byte
		want [3]int
		keep bool
	}{
		"wide JPEG": {withJPEGProfile(asJPEG(t, plain), wide), [3]int{215, 93, 31}, false},
		"wide PNG":  {withPNGProfile(asPNG(t, plain), wide), [3]int{215, 93, 31}, false},
		"sRGB JPEG": {withJPEGProfile(asJPEG(t, plain), narrow), [3]int{200, 100, 50}, true},
		"sRGB PNG":  {withPNGProfile(asPNG(t, plain), narrow), [3]int{200, 100, 50}, true},
	} {
		im := load(t, c.file)
		if bytes.Equal(im.Encoded(), c.file) != c.keep {
			t.Errorf("%s: file kept = %v", name, !c.keep)
		}
		m, _, err := image.Decode(bytes.NewReader(im.Encoded()))
		if err != nil {
			t.Fatal(err)
		}
		for what, p := range map[string]color.NRGBA{"pixels": im.Pixels().NRGBAAt(9, 9), "file": color.NRGBAModel.Convert(m.At(9, 9)).(color.NRGBA)} {
			for k, v := range []uint8{p.R, p.G, p.B} {
				if d := int(v) - c.want[k]; d < -4 || d > 4 {
					t.Errorf("%s: %s %v, want %v", name, what, p, c.want)
				}
			}
		}
	}
}

func TestMutatedProfiles(t *testing.T) {
	seeds := [][]byte{profileOf(displayP3, srgbCurve), profileOf(displayP3, curv(64)), profileOf(adobe1998, curv(1))}
	r := rand.New(rand.NewPCG(8, 9))
	wide := 0
	for i := range 20000 {
		p := append([]byte{}, seeds[i%3]...)
		for range 1 + r.IntN(3) {
			p[r.IntN(len(p))] = uint8(r.Uint32())
		}
		if c, ok := newColours(p[:len(p)-r.IntN(2)*r.IntN(len(p))]); ok {
			wide++
			c.convert([3]uint8{uint8(i), uint8(i >> 3), 255})
		}
	}
	if wide == 0 {
		t.Error("no mutated profile was used at all")
	}
}
