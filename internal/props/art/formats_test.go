package art

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

var patches = [3]color.NRGBA{{200, 60, 40, 255}, {40, 140, 60, 255}, {50, 70, 190, 255}}

// checkPatches compares the middles of three upright stripes with the patches.
func checkPatches(t *testing.T, name string, m *image.NRGBA, slack int) {
	t.Helper()
	for i, want := range patches {
		p := m.NRGBAAt(m.Rect.Dx()*(2*i+1)/6, m.Rect.Dy()/2)
		for k, d := range [3]int{int(p.R) - int(want.R), int(p.G) - int(want.G), int(p.B) - int(want.B)} {
			if d < -slack || d > slack {
				t.Errorf("%s: stripe %d is %v, want %v (channel %d)", name, i, p, want, k)
			}
		}
	}
}

// The files in testdata were written by ImageMagick 6.9, cwebp 1.2, heif-enc 1.15 and avifenc 0.11.
func TestFormats(t *testing.T) {
	for _, c := range []struct {
		name  string
		w, h  int
		slack int
	}{
		{"lossy.webp", 48, 32, 4}, {"lossless.webp", 48, 32, 3}, {"lzw.tif", 48, 32, 3}, {"deep.tif", 48, 32, 3},
		{"phone.heic", 240, 160, 3}, {"small.avif", 48, 32, 4}, {"deep.avif", 48, 32, 4},
	} {
		im := load(t, asset(t, c.name))
		if im.Width != c.w || im.Height != c.h || im.MIME != "image/jpeg" {
			t.Errorf("%s: %d x %d, %s", c.name, im.Width, im.Height, im.MIME)
		}
		checkPatches(t, c.name, im.Pixels(), c.slack)
		if p := im.Pixels().NRGBAAt(0, 0); p.R < 180 || p.G > 80 { // where the decoder of HEIC and AVIF leaves its own marks
			t.Errorf("%s: the first pixel is %v", c.name, p)
		}
	}
	if im := load(t, asset(t, "turned.tif")); im.Width != 32 || im.Height != 48 { // Orientation 6: a quarter turn
		t.Errorf("turned.tif: %d x %d", im.Width, im.Height)
	} else if p := im.Pixels().NRGBAAt(16, 8); p.R < 190 {
		t.Errorf("turned.tif: %v at the top, want red, the left stripe", p)
	}
	if im := load(t, asset(t, "alpha.webp")); im.MIME != "image/png" || im.Pixels().NRGBAAt(8, 16) != (color.NRGBA{201, 60, 40, 128}) {
		t.Errorf("alpha.webp: %s, %v", im.MIME, im.Pixels().NRGBAAt(8, 16))
	}
	for name, want := range map[string]string{
		"cmyk.tif": "is a kind of TIFF that cannot be read", "jpeg.tif": "is a kind of TIFF that cannot be read", "tiny.heic": "pixels (save it",
	} {
		if _, err := (Wish{Name: name}).decode(asset(t, name), nil); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", name, err, want)
		}
	}
	// A camera's raw file begins with the directory of a thumbnail (TIFF 6.0: NewSubfileType 1).
	raw := []byte("II*\x00\x08\x00\x00\x00\x01\x00\xfe\x00\x04\x00\x01\x00\x00\x00\x01\x00\x00\x00\x00\x00\x00\x00")
	if _, err := (Wish{Name: "a.nef"}).decode(raw, nil); err == nil || !strings.Contains(err.Error(), "camera's raw file") {
		t.Errorf("a raw file: %v", err)
	}
}

// ITU-R BT.601-7 and BT.709-6: red, green and blue become Y, Cb and Cr by their weights; so the same colour written in
// either way, in either range, must come out as itself.
func TestColoursOfVideo(t *testing.T) {
	for _, c := range []struct {
		kr, kb float64
		video  bool
		fix    func(*image.YCbCr)
	}{
		{0.299, 0.114, true, stretch},
		{0.2126, 0.0722, false, from709},
		{0.2126, 0.0722, true, func(m *image.YCbCr) { stretch(m); from709(m) }},
	} {
		for _, want := range append(patches[:], color.NRGBA{200, 100, 50, 255}, color.NRGBA{128, 128, 128, 255}, color.NRGBA{255, 255, 255, 255}) {
			r, g, b := float64(want.R), float64(want.G), float64(want.B)
			y := c.kr*r + (1-c.kr-c.kb)*g + c.kb*b
			cb, cr := (b-y)/(2-2*c.kb), (r-y)/(2-2*c.kr)
			if c.video {
				y, cb, cr = 16+y*219/255, cb*224/255, cr*224/255
			}
			m := image.NewYCbCr(image.Rect(0, 0, 2, 2), image.YCbCrSubsampleRatio420)
			for i := range m.Y {
				m.Y[i] = level(y)
			}
			m.Cb[0], m.Cr[0] = level(128+cb), level(128+cr)
			c.fix(m)
			got := color.NRGBAModel.Convert(m.At(0, 0)).(color.NRGBA)
			for _, d := range []int{int(got.R) - int(want.R), int(got.G) - int(want.G), int(got.B) - int(want.B)} {
				if d < -3 || d > 3 {
					t.Errorf("Kr %g, video %v: %v became %v", c.kr, c.video, want, got)
				}
			}
		}
	}
}

// tool is a program of another project, or the test is skipped, unless all tools must be there.
func tool(t *testing.T, names ...string) string {
	for _, n := range names {
		if path, err := exec.LookPath(n); err == nil {
			return path
		}
	}
	if os.Getenv("REQUIRE_TOOLS") != "" {
		t.Fatalf("%s is not installed", strings.Join(names, " or "))
	}
	t.Skipf("%s is not installed", strings.Join(names, " or "))
	return ""
}

func run(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
	return out
}

// What other programs make of a photograph, and what ours makes of the same file, must look the same.
func TestAsOtherProgramsSeeIt(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	m := image.NewNRGBA(image.Rect(0, 0, 240, 160)) // smooth: colours and places are compared, not how each program blurs grain
	for y := range 160 {
		for x := range 240 {
			m.SetNRGBA(x, y, color.NRGBA{uint8(40 + x/2), uint8(60 + y), uint8(200 - x/2), 255})
		}
	}
	if err := os.WriteFile(at("a.png"), asPNG(t, m), 0o600); err != nil {
		t.Fatal(err)
	}
	same := func(file, reference string, slack float64) {
		t.Helper()
		got, err := os.ReadFile(at(file))
		if err != nil {
			t.Fatal(err)
		}
		ref, err := os.ReadFile(at(reference))
		if err != nil {
			t.Fatal(err)
		}
		want, err := png.Decode(bytes.NewReader(ref))
		if err != nil {
			t.Fatal(err)
		}
		im := load(t, got)
		if im.Pixels().Rect.Size() != want.Bounds().Size() {
			t.Errorf("%s: %v, the other program has %v", file, im.Pixels().Rect, want.Bounds())
		} else if d := difference(im.Pixels(), nrgba(want)); d > slack {
			t.Errorf("%s: %.2f levels off from the other program", file, d)
		}
	}
	t.Run("webp", func(t *testing.T) {
		run(t, tool(t, "cwebp"), "-quiet", "-q", "95", at("a.png"), "-o", at("a.webp"))
		run(t, tool(t, "dwebp"), "-quiet", at("a.webp"), "-o", at("webp.png"))
		same("a.webp", "webp.png", 3)
	})
	t.Run("heic", func(t *testing.T) {
		run(t, tool(t, "heif-enc"), "-q", "95", at("a.png"), "-o", at("a.heic"))
		run(t, tool(t, "heif-convert", "heif-dec"), at("a.heic"), at("heic.png"))
		same("a.heic", "heic.png", 3)
	})
	t.Run("avif", func(t *testing.T) {
		run(t, tool(t, "avifenc"), "--min", "5", "--max", "10", at("a.png"), at("a.avif"))
		run(t, tool(t, "avifdec"), at("a.avif"), at("avif.png"))
		same("a.avif", "avif.png", 3)
	})
	t.Run("magick", func(t *testing.T) {
		convert := tool(t, "convert-im6.q16", "magick")
		for file, args := range map[string][]string{
			"plain.jpg": {"-quality", "95"}, "progressive.jpg": {"-quality", "95", "-interlace", "JPEG"},
			"lzw.tif": {"-compress", "LZW"}, "zip.tif": {"-compress", "Zip"}, "deep.tif": {"-depth", "16"}, "deep.png": {"-depth", "16"},
		} {
			run(t, convert, append(append([]string{at("a.png")}, args...), at(file))...)
			run(t, convert, at(file), "PNG32:"+at("magick.png"))
			same(file, "magick.png", 3)
		}
		for _, o := range []string{"TopLeft", "TopRight", "BottomRight", "BottomLeft", "LeftTop", "RightTop", "RightBottom", "LeftBottom"} {
			run(t, convert, at("a.png"), "-compress", "LZW", "-orient", o, at("turned.tif"))
			run(t, convert, at("turned.tif"), "-auto-orient", "PNG32:"+at("magick.png"))
			same("turned.tif", "magick.png", 3)
		}
	})
	t.Run("littlecms", func(t *testing.T) {
		convert := tool(t, "convert-im6.q16", "magick")
		const adobe, srgb = "/usr/share/color/icc/compatibleWithAdobeRGB1998.icc", "/usr/share/color/icc/sRGB.icc"
		profile, err := os.ReadFile(adobe)
		if err != nil && os.Getenv("REQUIRE_TOOLS") == "" {
			t.Skip("the profiles of icc-profiles-free are not installed")
		} else if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(at("wide.png"), withPNGProfile(asPNG(t, m), profile), 0o600); err != nil {
			t.Fatal(err)
		}
		run(t, convert, at("wide.png"), "-intent", "Relative", "-profile", srgb, "-strip", "PNG32:"+at("magick.png")) // by littlecms
		same("wide.png", "magick.png", 3)
	})
}

// A photograph in the room of a decoder: 12 megapixels of each kind, if the programs that write them are there.
func BenchmarkFormats(b *testing.B) {
	for _, file := range []string{"12.jpg", "12p.jpg", "48.jpg", "12.png", "12.webp", "12.tif", "12.heic", "12.avif"} {
		data, err := os.ReadFile(filepath.Join(os.Getenv("PHOTOGRAPHS"), file))
		if err != nil {
			continue
		}
		b.Run(file, func(b *testing.B) {
			for b.Loop() {
				if _, err := (Wish{Name: file, Side: 1500}).decode(data, nil); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(math.Round(peak()), "MB-peak")
		})
	}
}

// peak is the most memory, in MB, that the process has had so far; 0 where the system does not say.
func peak() (mb float64) {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0
	}
	for _, line := range strings.Split(string(status), "\n") {
		if rest, ok := strings.CutPrefix(line, "VmHWM:"); ok {
			for _, d := range strings.Fields(rest)[0] {
				mb = mb*10 + float64(d-'0')
			}
			return mb / 1024
		}
	}
	return 0
}

// What a reader in WebAssembly says when it stops, with its list of calls, is not what people are told; nor is a panic.
func TestReaderThatStumbles(t *testing.T) {
	says := errors.New("wasm error: unreachable\nwasm stack trace:\n\t.$117(i32,i32) i32")
	if _, err := mended(func(io.Reader) (image.Image, error) { return nil, says })(nil); err == nil || inside.MatchString(err.Error()) {
		t.Errorf("%v", err)
	}
	kept := formats[0].decode
	defer func() { formats[0].decode = kept }()
	formats[0].decode = func(io.Reader) (image.Image, error) { var none []int; return nil, fmt.Errorf("%d", none[len(none)]) }
	_, err := (Wish{Name: "a.jpg"}).decode(asJPEG(t, image.NewNRGBA(image.Rect(0, 0, 8, 8))), nil)
	const want = "the picture a.jpg is damaged: the part of the program that reads such pictures cannot make sense of it (copy it again"
	if err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Errorf("%v", err)
	}
}
