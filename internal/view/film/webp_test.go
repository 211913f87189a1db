//go:build !js

package film

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"image"
	"math"
	"testing"

	"github.com/tetratelabs/wazero"
	"golang.org/x/image/webp"

	"boothmock/internal/basis/imprint"
)

// moving are pictures made with whole numbers alone, so that they are the same everywhere.
func moving(n int) (out []*image.NRGBA) {
	for i := range n {
		m := image.NewNRGBA(image.Rect(0, 0, 161, 90)) // an odd width: of chunks, some have odd lengths
		for k := range 161 * 90 {
			x, y := k%161, k/161
			copy(m.Pix[4*k:], []byte{byte(40 + x + 3*i), byte(60 + 2*y), byte(120 + (x+y+5*i)/3%60), 255})
		}
		out = append(out, m)
	}
	return out
}

// A film has its head, its frames for their times and its ends, by RFC 9649, and each frame, read by another decoder
// (golang.org/x/image/webp, that reads no films), is the picture that it was.
func TestWebPIsTheFrames(t *testing.T) {
	frames := moving(3)
	var b bytes.Buffer
	if err := WriteWebP(&b, frames); err != nil {
		t.Fatal(err)
	}
	file := b.Bytes()
	if string(file[:4]) != "RIFF" || string(file[8:12]) != "WEBP" || int(binary.LittleEndian.Uint32(file[4:])) != len(file)-8 {
		t.Fatalf("it begins with % x", file[:12])
	}
	if what, ours := imprint.Of(file); !ours {
		t.Errorf("it is %s that says nothing of who made it", what)
	}
	names, times := "", []int{}
	for rest := file[12:]; len(rest) > 0; {
		n := int(binary.LittleEndian.Uint32(rest[4:]))
		data := rest[8 : 8+n]
		names += string(rest[:4]) + " "
		switch string(rest[:4]) {
		case "VP8X":
			if data[0] != 0b100110 || data[4] != 160 || data[7] != 89 {
				t.Errorf("the head is %v", data)
			}
		case "ANMF":
			times = append(times, int(data[12])|int(data[13])<<8)
			one := append([]byte("RIFF\x00\x00\x00\x00WEBP"), data[16:]...)
			binary.LittleEndian.PutUint32(one[4:], uint32(len(one)-8))
			m, err := webp.Decode(bytes.NewReader(one))
			if err != nil {
				t.Fatal(err)
			}
			if d := noise(t, m, frames[len(times)-1]); d < 32 {
				t.Errorf("frame %d: %.1f dB", len(times), d)
			}
		}
		rest = rest[8+n+n&1:]
	}
	if names != "VP8X ICCP ANIM ANMF ANMF ANMF XMP  " || times[0] != 100 || times[1] != 100 || times[2] != 1500 {
		t.Errorf("it holds %s, shown for %v ms", names, times)
	}
}

// noise is the peak signal-to-noise ratio in dB of luma as WebP has it (16 to 235).
func noise(t *testing.T, m image.Image, of *image.NRGBA) float64 {
	t.Helper()
	y, ok := m.(*image.YCbCr)
	if !ok || y.Rect != of.Rect {
		t.Fatalf("it is a %T of %v", m, m.Bounds())
	}
	sum := 0.0
	for k := range of.Rect.Dx() * of.Rect.Dy() {
		r, g, b := float64(of.Pix[4*k]), float64(of.Pix[4*k+1]), float64(of.Pix[4*k+2])
		want := 16 + (65.738*r+129.057*g+25.064*b)/256 // ITU-R BT.601
		d := want - float64(y.Y[k/of.Rect.Dx()*y.YStride+k%of.Rect.Dx()])
		sum += d * d
	}
	return 10 * math.Log10(255*255*float64(of.Rect.Dx()*of.Rect.Dy())/sum)
}

// The bytes are the same on every machine: those that were written once, and those of the machine that interprets where others compile.
func TestWebPIsTheSameEverywhere(t *testing.T) {
	frames := moving(2)
	slow, err := newEncoder(wazero.NewRuntimeConfigInterpreter())
	if err != nil {
		t.Fatal(err)
	}
	usual, err := shared()
	if err != nil {
		t.Fatal(err)
	}
	for name, e := range map[string]*encoder{"compiled": usual, "interpreted": slow} {
		var b bytes.Buffer
		if err := e.write(&b, frames); err != nil {
			t.Fatal(err)
		}
		sum := sha256.Sum256(b.Bytes())
		if got := hex.EncodeToString(sum[:8]); got != "beaaf5c61a36c781" {
			t.Errorf("%s: %d bytes, whose sum begins with %s", name, b.Len(), got)
		}
	}
}
