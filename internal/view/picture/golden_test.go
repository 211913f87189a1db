package picture

import (
	"bytes"
	"flag"
	"image/png"
	"os"
	"testing"
)

var update = flag.Bool("update", false, "write the golden picture anew")

const golden = "testdata/fair.png"

// The whole small fair, as it was when somebody last looked at it: no channel of a pixel may differ by more than 2
// levels, but for one pixel in a thousand whose samples another processor's rounding may deal otherwise.
func TestGolden(t *testing.T) {
	m := fair(120).stage().Draw(entrance, Options{Width: 128, Height: 72})
	if *update {
		var b bytes.Buffer
		if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, m); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(golden, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	b, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if len(b) > 20<<10 {
		t.Errorf("%s has %d bytes", golden, len(b))
	}
	want, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	if want.Bounds() != m.Rect {
		t.Fatalf("the golden picture is %v", want.Bounds())
	}
	off, worst := 0, 0
	for y := range 72 {
		for x := range 128 {
			r, g, b, _ := want.At(x, y).RGBA()
			c := m.NRGBAAt(x, y)
			d := 0
			for _, p := range [][2]int{{int(c.R), int(r >> 8)}, {int(c.G), int(g >> 8)}, {int(c.B), int(b >> 8)}} {
				d = max(d, p[0]-p[1], p[1]-p[0])
			}
			worst = max(worst, d)
			if d > 2 {
				off++
			}
		}
	}
	t.Logf("%d pixels off, the worst by %d levels", off, worst)
	if off > 128*72/1000 {
		t.Errorf("%d pixels differ from %s, the worst by %d levels; if it is meant to, run with -update and look", off, golden, worst)
	}
}

func TestWritePNG(t *testing.T) {
	m := fair(40).stage().Draw(entrance, Options{Width: 160, Height: 90})
	var a, b bytes.Buffer
	for _, w := range []*bytes.Buffer{&a, &b} {
		if err := WritePNG(w, m); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("written twice, the bytes differ")
	}
	back, err := png.Decode(&a)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 160 * 90 {
		r, g, b, _ := back.At(i%160, i/160).RGBA()
		if c := m.NRGBAAt(i%160, i/160); r>>8 != uint32(c.R) || g>>8 != uint32(c.G) || b>>8 != uint32(c.B) {
			t.Fatalf("pixel %d read back is %v, want %v", i, back.At(i%160, i/160), c)
		}
	}
}
