package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/image/webp"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/imprint"
)

// noise is a picture in which neither runs nor copies are long.
func noise(width, height int) *image.NRGBA {
	r := rand.New(rand.NewPCG(1, 2))
	m := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			m.SetNRGBA(x, y, color.NRGBA{uint8(x*3 + r.IntN(8)), uint8(y * 2), uint8(r.IntN(256)), 255})
		}
	}
	return m
}

// The extension decides, whatever its case; what no picture is written as is refused by its name.
func TestFileNamed(t *testing.T) {
	for name, want := range map[string]string{
		"a.png": "PNG", "a.PNG": "PNG", "b/c.jpg": "JPEG", "d.Jpeg": "JPEG", "e.webp": "WebP", "a.png.webp": "WebP",
	} {
		if f, err := FileNamed(name); err != nil || f.Name != want {
			t.Errorf("%s is %q (%v), want %s", name, f.Name, err, want)
		}
	}
	for name, want := range map[string]string{
		"booth.yaml": "booth.yaml: no picture is written as .yaml (end the name in .png, .jpg or .webp: a picture is written as PNG, JPEG or WebP)",
		"a.gif":      "no picture is written as .gif", "a.jpg.pdf": "no picture is written as .pdf", "folder.png/a": "folder.png/a does not say", "a.": "does not say",
	} {
		if _, err := FileNamed(name); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", name, err, want)
		}
	}
}

// Every kind gives the picture back, exactly or nearly, from any size and from the inside of a larger picture, and the same
// bytes again.
func TestFiles(t *testing.T) {
	inside := noise(90, 70).SubImage(image.Rect(11, 7, 75, 55)).(*image.NRGBA)
	for _, m := range []*image.NRGBA{noise(160, 90), noise(16, 16), noise(17, 300), inside} {
		for _, f := range Files {
			var a, b bytes.Buffer
			if err := f.Write(&a, m); err != nil {
				t.Fatalf("%s: %v", f.Name, err)
			}
			f.Write(&b, m)
			if !bytes.Equal(a.Bytes(), b.Bytes()) {
				t.Errorf("%s: written twice, the bytes differ", f.Name)
			}
			if what, ours := imprint.Of(a.Bytes()); !ours || !strings.Contains(what, f.Name) {
				t.Errorf("the imprint of %s says %s, ours %t", f.Name, what, ours)
			}
			var back image.Image
			var err error
			exact := true
			switch f.Name {
			case "PNG":
				back, err = png.Decode(&a)
			case "JPEG":
				back, err = jpeg.Decode(&a)
				exact = false
			case "WebP":
				back, err = webp.Decode(&a)
			}
			if err != nil || back.Bounds().Size() != m.Rect.Size() {
				t.Fatalf("%s: %v, %v", f.Name, back, err)
			}
			sum := 0
			for y := range m.Rect.Dy() {
				for x := range m.Rect.Dx() {
					r, g, b, _ := back.At(x, y).RGBA()
					c := m.NRGBAAt(m.Rect.Min.X+x, m.Rect.Min.Y+y)
					if exact && (uint8(r>>8) != c.R || uint8(g>>8) != c.G || uint8(b>>8) != c.B) {
						t.Fatalf("%s of %v: %d, %d is %v, want %v", f.Name, m.Rect, x, y, back.At(x, y), c)
					}
					sum += max(int(g>>8)-int(c.G), int(c.G)-int(g>>8))
				}
			}
			if n := m.Rect.Dx() * m.Rect.Dy(); sum > 10*n {
				t.Errorf("%s of %v: green is off by %d levels in %d pixels", f.Name, m.Rect, sum, n)
			}
		}
	}
}

// Each file says that it is sRGB where its standard wants it: before the picture's data.
func TestFilesSaySRGB(t *testing.T) {
	m := noise(32, 24)
	var p, j, w bytes.Buffer
	if err := WritePNG(&p, m); err != nil {
		t.Fatal(err)
	}
	if err := WriteJPEG(&j, m, 80); err != nil {
		t.Fatal(err)
	}
	if err := WriteWebP(&w, m); err != nil {
		t.Fatal(err)
	}
	// PNG third edition, section 11.3.2.5: the values of gAMA and cHRM that go with an sRGB chunk.
	marks := []struct {
		name string
		data []uint32
	}{{"gAMA", []uint32{45455}}, {"cHRM", []uint32{31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000}}}
	data := bytes.Index(p.Bytes(), []byte("IDAT"))
	if at := bytes.Index(p.Bytes(), []byte("\x00\x00\x00\x01sRGB\x00")); at < 0 || at > data {
		t.Errorf("PNG: the chunk sRGB is at %d, the data at %d", at, data)
	}
	for _, c := range marks {
		at := bytes.Index(p.Bytes(), []byte(c.name))
		if at < 0 || at > data {
			t.Fatalf("PNG: %s is at %d, the data at %d", c.name, at, data)
		}
		for i, n := range c.data {
			if got := binary.BigEndian.Uint32(p.Bytes()[at+4+4*i:]); got != n {
				t.Errorf("PNG: %s has %d at %d, want %d", c.name, got, i, n)
			}
		}
	}
	profile := colour.Profile()
	app2 := append([]byte{0xff, 0xd8, 0xff, 0xe2, byte((16 + len(profile)) >> 8), byte(16 + len(profile))}, "ICC_PROFILE\x00\x01\x01"...)
	if !bytes.HasPrefix(j.Bytes(), append(app2, profile...)) {
		t.Errorf("JPEG begins with % x", j.Bytes()[:30])
	}
	b := w.Bytes()
	// RFC 9649, section 2.7: VP8X of ten bytes with the bits for a profile and for XMP, 32 x 24 less one; then ICCP, then the picture.
	head := "WEBPVP8X\x0a\x00\x00\x00\x24\x00\x00\x00\x1f\x00\x00\x17\x00\x00ICCP"
	if n := binary.LittleEndian.Uint32(b[4:]); int(n) != len(b)-8 || string(b[8:8+len(head)]) != head || !bytes.HasPrefix(b[8+len(head)+4:], profile) {
		t.Errorf("WebP of %d bytes, its head says %d: %q", len(b), n, b[:50])
	}
}

// Programs of other projects find the profile and the same pixels (libwebp's dwebp and webpinfo, ImageMagick).
func TestFilesElsewhere(t *testing.T) {
	tool := func(names ...string) string {
		for _, n := range names {
			if p, err := exec.LookPath(n); err == nil {
				return p
			}
		}
		if os.Getenv("REQUIRE_TOOLS") != "" {
			t.Fatalf("none of %v is here", names)
		}
		t.Skipf("needs one of %v", names)
		return ""
	}
	dir := t.TempDir()
	m := noise(160, 90)
	for _, f := range Files {
		var b bytes.Buffer
		if err := f.Write(&b, m); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "a"+f.Extensions[0]), b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	run := func(name string, args ...string) string {
		c := exec.Command(name, args...)
		c.Dir = dir
		out, err := c.CombinedOutput()
		if err != nil {
			t.Fatalf("%s %v: %v\n%s", name, args, err, out)
		}
		return string(out)
	}
	if out := run(tool("webpinfo"), "a.webp"); !strings.Contains(out, "ICCP") || !strings.Contains(out, "No error detected") {
		t.Errorf("webpinfo says %s", out)
	}
	run(tool("dwebp"), "a.webp", "-o", "b.png")
	file, err := os.ReadFile(filepath.Join(dir, "b.png"))
	if err != nil {
		t.Fatal(err)
	}
	back, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	for i := range 160 * 90 {
		if r, g, b, _ := back.At(i%160, i/160).RGBA(); (color.NRGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), 255}) != m.NRGBAAt(i%160, i/160) {
			t.Fatalf("dwebp reads %v at pixel %d, want %v", back.At(i%160, i/160), i, m.NRGBAAt(i%160, i/160))
		}
	}
	convert := tool("convert-im6.q16", "magick")
	run(convert, "a.jpg", "profile.icc")
	got, err := os.ReadFile(filepath.Join(dir, "profile.icc"))
	if err != nil || !bytes.Equal(got, colour.Profile()) {
		t.Errorf("ImageMagick finds %d bytes of a profile in the JPEG (%v)", len(got), err)
	}
	if out := run(convert, "a.png", "-format", "%[colorspace] %[gamma]", "info:"); !strings.HasPrefix(out, "sRGB 0.4545") {
		t.Errorf("ImageMagick takes the PNG for %s", out)
	}
}
