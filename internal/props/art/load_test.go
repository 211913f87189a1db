package art

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/fault"
)

// photograph is a picture with something in every corner: smooth colours, edges and grain.
func photograph(w, h int) *image.NRGBA {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	grain := rand.New(rand.NewPCG(1, 2))
	for y := range h {
		for x := range w {
			g := uint8(grain.IntN(12))
			c := color.NRGBA{uint8(200*x/w) + g, uint8(200*y/h) + g, uint8(120 + 60*(x*8/w%2) + int(g)), 255}
			m.SetNRGBA(x, y, c)
		}
	}
	return m
}

func asJPEG(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 90}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func asPNG(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func load(t *testing.T, file []byte) *Image {
	t.Helper()
	im, err := Load(fstest.MapFS{"a": {Data: file}}, Wish{Name: "a"})
	if err != nil {
		t.Fatal(err)
	}
	return im
}

func asset(t testing.TB, name string) []byte {
	b, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// The files in testdata were written by ImageMagick 6.9 with libjpeg-turbo: a reference outside Go.
func TestFilesOfAnotherProgram(t *testing.T) {
	patch := [3][3]int{{200, 60, 40}, {40, 140, 60}, {50, 70, 190}}
	for _, c := range []struct {
		name string
		keep bool
	}{{"baseline.jpg", true}, {"progressive.jpg", true}, {"cmyk.jpg", false}} {
		file := asset(t, c.name)
		im := load(t, file)
		if im.Width != 48 || im.Height != 32 || im.MIME != "image/jpeg" {
			t.Errorf("%s: %d x %d %s", c.name, im.Width, im.Height, im.MIME)
		}
		for i, want := range patch {
			p := im.Pixels().NRGBAAt(16*i+8, 8)
			for k, got := range []uint8{p.R, p.G, p.B} {
				if d := int(got) - want[k]; d < -4 || d > 4 {
					t.Errorf("%s: patch %d is %v, want %v", c.name, i, p, want)
				}
			}
		}
		if bytes.Equal(im.Encoded(), file) != c.keep {
			t.Errorf("%s: file kept = %v, want %v", c.name, !c.keep, c.keep)
		}
		if m, err := jpeg.Decode(bytes.NewReader(im.Encoded())); err != nil {
			t.Errorf("%s: what would be embedded: %v", c.name, err)
		} else if _, cmyk := m.(*image.CMYK); cmyk {
			t.Errorf("%s: what would be embedded is still in printing colours", c.name)
		}
	}
}

func TestPixelsAreThoseOfPackageColor(t *testing.T) {
	for ratio, name := range map[image.YCbCrSubsampleRatio]string{
		image.YCbCrSubsampleRatio444: "444", image.YCbCrSubsampleRatio422: "422", image.YCbCrSubsampleRatio420: "420",
		image.YCbCrSubsampleRatio440: "440", image.YCbCrSubsampleRatio411: "411", image.YCbCrSubsampleRatio410: "410",
	} {
		src := image.NewYCbCr(image.Rect(3, 5, 3+67, 5+41), ratio)
		r := rand.New(rand.NewPCG(3, uint64(ratio)))
		for _, plane := range [][]uint8{src.Y, src.Cb, src.Cr} {
			for i := range plane {
				plane[i] = uint8(r.Uint32())
			}
		}
		got := nrgba(src)
		for y := range 41 {
			for x := range 67 {
				if want := color.NRGBAModel.Convert(src.At(3+x, 5+y)); got.NRGBAAt(x, y) != want {
					t.Fatalf("%s: pixel %d,%d is %v, want %v", name, x, y, got.NRGBAAt(x, y), want)
				}
			}
		}
	}
	// Half see-through colours keep their strength.
	clear := image.NewPaletted(image.Rect(0, 0, 2, 1), color.Palette{color.NRGBA{200, 100, 50, 9}, color.NRGBA{0, 0, 0, 0}})
	if got := nrgba(clear).NRGBAAt(0, 0); got != (color.NRGBA{200, 100, 50, 9}) {
		t.Errorf("see-through palette colour became %v", got)
	}
}

// withJPEGExif puts an EXIF block with the orientation into a JPEG.
func withJPEGExif(file []byte, order binary.AppendByteOrder, orientation uint16) []byte {
	block := exifBlock(order, orientation)
	out := append([]byte{}, file[:2]...)
	out = append(out, 0xff, 0xe1)
	out = binary.BigEndian.AppendUint16(out, uint16(2+6+len(block)))
	out = append(append(out, "Exif\x00\x00"...), block...)
	return append(out, file[2:]...)
}

func withPNGExif(file []byte, order binary.AppendByteOrder, orientation uint16) []byte {
	block := exifBlock(order, orientation)
	const head = 8 + 25 // signature and IHDR
	out := append([]byte{}, file[:head]...)
	out = binary.BigEndian.AppendUint32(out, uint32(len(block)))
	chunk := append([]byte("eXIf"), block...)
	out = append(out, chunk...)
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
	return append(out, file[head:]...)
}

func exifBlock(order binary.AppendByteOrder, orientation uint16) []byte {
	b := []byte("II")
	if order == binary.AppendByteOrder(binary.BigEndian) {
		b = []byte("MM")
	}
	b = order.AppendUint32(order.AppendUint16(b, 42), 8)
	b = order.AppendUint16(b, 2) // two entries
	for _, e := range [][2]uint16{{0x0100, 7}, {0x0112, orientation}} {
		b = order.AppendUint32(order.AppendUint16(order.AppendUint16(b, e[0]), 3), 1)
		b = order.AppendUint16(order.AppendUint16(b, e[1]), 0)
	}
	return order.AppendUint32(b, 0)
}

// Exif 2.32 (CIPA DC-008), tag Orientation: the side of the picture, as it is looked at, at which the stored row 0 and
// the stored column 0 lie.
var exifSides = map[uint16][2]string{
	1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
	5: {"left", "top"}, 6: {"right", "top"}, 7: {"right", "bottom"}, 8: {"left", "bottom"},
}

func TestOrientation(t *testing.T) {
	const w, h = 37, 20 // as it is looked at
	want := photograph(w, h)
	for o, side := range exifSides {
		sw, sh := w, h
		if side[0] == "left" || side[0] == "right" {
			sw, sh = h, w
		}
		stored := image.NewNRGBA(image.Rect(0, 0, sw, sh))
		for row := range sh {
			for col := range sw {
				var at [2]int // x, y as it is looked at
				for k, s := range side {
					n := []int{row, col}[k]
					switch s {
					case "left":
						at[0] = n
					case "right":
						at[0] = w - 1 - n
					case "top":
						at[1] = n
					case "bottom":
						at[1] = h - 1 - n
					}
				}
				stored.Set(col, row, want.At(at[0], at[1]))
			}
		}
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			file := withPNGExif(asPNG(t, stored), order, o)
			im := load(t, file)
			if d := difference(im.Pixels(), want); im.Width != w || im.Height != h || o == 1 && d != 0 || d > 12 {
				t.Errorf("PNG, orientation %d: %d x %d, %.1f levels off", o, im.Width, im.Height, d)
			}
			if bytes.Equal(im.Encoded(), file) != (o == 1) {
				t.Errorf("PNG, orientation %d: the embedded file is wrong", o)
			}
			file = withJPEGExif(asJPEG(t, stored), order, o)
			im = load(t, file)
			if d := difference(im.Pixels(), want); im.Width != w || im.Height != h || d > 12 {
				t.Errorf("JPEG, orientation %d: %d x %d, %.1f levels off", o, im.Width, im.Height, d)
			}
			if bytes.Equal(im.Encoded(), file) != (o == 1) {
				t.Errorf("JPEG, orientation %d: the embedded file is wrong", o)
			}
			again, err := jpeg.Decode(bytes.NewReader(im.Encoded()))
			if err != nil {
				t.Fatal(err)
			}
			if o != 1 && difference(nrgba(again), want) > 16 {
				t.Errorf("JPEG, orientation %d: the embedded file is not upright", o)
			}
		}
	}
	if got := orientation(exifBlock(binary.LittleEndian, 9)); got != 0 {
		t.Errorf("orientation 9 does not exist, but was taken as %d", got)
	}
}

// difference is the mean difference of two pictures of one size, in levels.
func difference(a, b *image.NRGBA) float64 {
	sum := 0
	for i := range a.Pix {
		sum += max(int(a.Pix[i])-int(b.Pix[i]), int(b.Pix[i])-int(a.Pix[i]))
	}
	return float64(sum) / float64(len(a.Pix)) * 4 / 3
}

func TestLargePhotographsAreShrunk(t *testing.T) {
	for _, c := range []struct{ w, h, wantW, wantH int }{
		{2048, 600, 2048, 600}, {3000, 1000, 2048, 683}, {1000, 3000, 683, 2048}, {2049, 3, 2048, 3}, {5000, 1, 2048, 1},
	} {
		file := asJPEG(t, photograph(c.w, c.h))
		im := load(t, file)
		if im.Width != c.wantW || im.Height != c.wantH || im.Pixels().Rect.Size() != image.Pt(c.wantW, c.wantH) {
			t.Errorf("%d x %d became %d x %d", c.w, c.h, im.Width, im.Height)
		}
		if kept := bytes.Equal(im.Encoded(), file); kept != (c.w == c.wantW) {
			t.Errorf("%d x %d: file kept = %v", c.w, c.h, kept)
		}
		again, format, err := image.Decode(bytes.NewReader(im.Encoded()))
		if err != nil || "image/"+format != im.MIME || again.Bounds() != im.Pixels().Rect {
			t.Errorf("%d x %d: what would be embedded: %v %v %v", c.w, c.h, again.Bounds(), format, err)
		}
		if !bytes.Equal(im.Encoded(), load(t, file).Encoded()) {
			t.Errorf("%d x %d: different bytes the second time", c.w, c.h)
		}
	}
	glass := photograph(2100, 40)
	glass.SetNRGBA(5, 5, color.NRGBA{})
	if im := load(t, asPNG(t, glass)); im.MIME != "image/png" || im.Pixels().NRGBAAt(5, 5).A > 120 {
		t.Errorf("a picture with a hole became %s with alpha %d", im.MIME, im.Pixels().NRGBAAt(5, 5).A)
	}
}

func TestShrinkKeepsLightAndSlopes(t *testing.T) {
	plain := image.NewNRGBA(image.Rect(0, 0, 301, 207))
	ramp := image.NewNRGBA(plain.Rect)
	for y := range 207 {
		for x := range 301 {
			plain.SetNRGBA(x, y, color.NRGBA{200, 100, 50, 128})
			ramp.SetNRGBA(x, y, color.NRGBA{uint8(x * 250 / 300), uint8(y), 0, 255})
		}
	}
	s := Shrink(plain, image.Pt(100, 61))
	for y := range 61 {
		for x := range 100 {
			p := s.NRGBAAt(x, y)
			if p.A != 128 || p.R < 198 || p.R > 201 || p.G < 98 || p.G > 101 || p.B < 48 || p.B > 51 {
				t.Fatalf("a plain picture has %v at %d,%d", p, x, y)
			}
		}
	}
	s = Shrink(ramp, image.Pt(100, 69))
	for x := 4; x < 96; x++ { // a straight slope stays one: cubic convolution reproduces it
		want := (float64(x)+0.5)*3.01 - 0.5
		if got := float64(s.NRGBAAt(x, 30).R) * 300 / 250; got < want-2 || got > want+2 {
			t.Errorf("slope at %d: %.1f, want %.1f", x, got, want)
		}
	}
}

func TestErrorsSayWhatToDo(t *testing.T) {
	whole := asJPEG(t, photograph(120, 90))
	wholePNG := asPNG(t, photograph(120, 90))
	huge := append([]byte{}, wholePNG...)
	binary.BigEndian.PutUint32(huge[16:], 50000)
	binary.BigEndian.PutUint32(huge[20:], 50000)
	binary.BigEndian.PutUint32(huge[29:], crc32.ChecksumIEEE(huge[12:29]))
	hugeJPEG := append([]byte{}, whole...)
	sof := bytes.Index(hugeJPEG, []byte{0xff, 0xc0})
	binary.BigEndian.PutUint16(hugeJPEG[sof+5:], 50000)
	binary.BigEndian.PutUint16(hugeJPEG[sof+7:], 50000)
	fsys := fstest.MapFS{
		"empty.jpg":        {},
		"photos/heron.JPG": {Data: whole},
		"photos/alder.png": {Data: wholePNG},
		"half.jpg":         {Data: whole[:len(whole)/2]},
		"end.jpg":          {Data: whole[:len(whole)-2]},
		"head.jpg":         {Data: whole[:10]},
		"half.png":         {Data: wholePNG[:len(wholePNG)/2]},
		"notes.jpg":        {Data: []byte("Heron at the weir, 24 x 36, café")},
		"price.pdf":        {Data: []byte("%PDF-1.7\n%\xe2\xe3\xcf\xd3")},
		"phone.jpg":        {Data: []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00")},
		"page.png":         {Data: []byte("<!DOCTYPE html><p>not found")},
		"mark.svg":         {Data: []byte(`<?xml version="1.0"?><svg/>`)},
		"zero.jpg":         {Data: make([]byte, 5000)},
		"noise.jpg":        {Data: []byte("\x80\x81\xfe\x00\x13\x12\x80\x81\xfe\x00\x13\x12")},
		"huge.png":         {Data: huge},
		"huge.jpg":         {Data: hugeJPEG},
		"broken.png":       {Data: append(append(append([]byte{}, wholePNG[:100]...), 1, 2, 3), wholePNG[103:]...)},
	}
	for _, c := range []struct{ name, want string }{
		{"photos/heron.jpg", "no file photos/heron.jpg (did you mean photos/heron.JPG?)"},
		{"photos/alder.jpg", "did you mean photos/alder.png?"},
		{"photos/hreon.JPG", "did you mean photos/heron.JPG?"},
		{"photos/quay.jpg", "names start from the scene's folder"},
		{"foto/quay.jpg", "no folder foto"},
		{"../quay.jpg", "not a file name that can be used"},
		{"empty.jpg", "is empty"},
		{"photos", "is a folder"},
		{"half.jpg", "half.jpg is cut short"},
		{"end.jpg", "end.jpg is cut short"},
		{"head.jpg", "head.jpg is cut short"},
		{"half.png", "half.png is cut short"},
		{"notes.jpg", "it is a text"},
		{"price.pdf", "it is a PDF document (save it from your photo program as a JPEG or PNG)"},
		{"phone.jpg", "phone.jpg is cut short"},
		{"page.png", "it is a web page"},
		{"mark.svg", "it is an SVG drawing"},
		{"zero.jpg", "filled with zeros"},
		{"noise.jpg", "does not begin as any picture does"},
		{"huge.png", "50000 x 50000 pixels, more than the 120 megapixels"},
		{"huge.jpg", "50000 x 50000 pixels, more than the 120 megapixels"},
		{"broken.png", "is damaged"},
	} {
		im, err := Load(fsys, Wish{Name: c.name})
		var f fault.Fault
		if im != nil || !errors.As(err, &f) || f.Hint == "" || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want something with %q and a hint", c.name, err, c.want)
		}
	}
	if _, err := Load(bigFS{}, Wish{Name: "big.jpg"}); err == nil || !strings.Contains(err.Error(), "more than the 200 MB") {
		t.Errorf("a file of 300 MB: %v", err)
	}
}

// bigFS has one file, too large to be read.
type bigFS struct{}

func (bigFS) Open(string) (fs.File, error) { return bigFile{}, nil }

type bigFile struct{}

func (bigFile) Stat() (fs.FileInfo, error) { return bigInfo{}, nil }
func (bigFile) Read([]byte) (int, error)   { panic("the file was read") }
func (bigFile) Close() error               { return nil }

type bigInfo struct{}

func (bigInfo) Name() string       { return "big.jpg" }
func (bigInfo) Size() int64        { return 300_000_000 }
func (bigInfo) Mode() fs.FileMode  { return 0 }
func (bigInfo) ModTime() time.Time { return time.Time{} }
func (bigInfo) IsDir() bool        { return false }
func (bigInfo) Sys() any           { return nil }

func wishes(names []string) []Wish {
	out := make([]Wish, len(names))
	for i, n := range names {
		out[i].Name = n
	}
	return out
}

func TestLoadAllLoadsEachNameOnce(t *testing.T) {
	fsys := fstest.MapFS{}
	var names []string
	for i := range 9 {
		name := fmt.Sprintf("%d.jpg", i)
		fsys[name] = &fstest.MapFile{Data: asJPEG(t, photograph(20+i, 30))}
		names = append(names, name)
	}
	names = append(names, "3.jpg", "none.jpg", "0.jpg", "none.jpg")
	images, errs := LoadAll(fsys, wishes(names), nil)
	for i, name := range names {
		if (images[i] == nil) != (name == "none.jpg") || (errs[i] == nil) != (name != "none.jpg") {
			t.Fatalf("%s: %v, %v", name, images[i], errs[i])
		}
		if images[i] != nil && images[i].Name != name {
			t.Errorf("%s came out as %s", name, images[i].Name)
		}
	}
	if images[3] != images[9] || images[0] != images[11] || images[3].Width != 23 {
		t.Error("equal names do not share one image")
	}
	if images, errs := LoadAll(fsys, nil, nil); len(images)+len(errs) != 0 {
		t.Error("nothing asked, something given")
	}
}

// Whatever happens to a file, Load answers with an image or an error, and soon.
func TestMutatedFiles(t *testing.T) {
	small := photograph(40, 30)
	paletted := image.NewPaletted(image.Rect(0, 0, 33, 21), color.Palette{color.White, color.Black, color.NRGBA{9, 9, 9, 9}})
	seeds := [][]byte{
		asset(t, "baseline.jpg"), asset(t, "progressive.jpg"), asset(t, "cmyk.jpg"), asPNG(t, small), asPNG(t, paletted),
		withJPEGExif(asJPEG(t, small), binary.BigEndian, 6), withPNGExif(asPNG(t, small), binary.LittleEndian, 5),
		withJPEGProfile(asJPEG(t, small), profileOf(displayP3, srgbCurve)), withPNGProfile(asPNG(t, small), profileOf(displayP3, curv(64))),
	}
	for _, name := range []string{"lossy.webp", "lossless.webp", "alpha.webp", "lzw.tif", "deep.tif", "turned.tif"} {
		seeds = append(seeds, asset(t, name))
	}
	mutate(t, 8000, seeds)
}

// HEIC and AVIF are read by a machine within the machine, which takes a moment to start.
func TestMutatedPhoneFiles(t *testing.T) {
	mutate(t, 120, [][]byte{asset(t, "phone.heic"), asset(t, "small.avif"), asset(t, "deep.avif")})
}

// inside is what no message has: how the program is made.
var inside = regexp.MustCompile(`(?i)wasm|runtime error|goroutine|nil pointer|stack|\n`)

func mutate(t *testing.T, rounds int, seeds [][]byte) {
	r := rand.New(rand.NewPCG(5, 6))
	read, longest := 0, time.Duration(0)
	for i := range rounds {
		seed := seeds[i%len(seeds)]
		file := append([]byte{}, seed...)
		for range 1 + r.IntN(4) {
			at := r.IntN(len(file))
			if r.IntN(2) == 0 {
				at = r.IntN(min(len(file), 200)) // heads and tables, where the danger is
			}
			switch r.IntN(5) {
			case 0:
				file = file[:at+1]
			case 1:
				file = append(file[:at:at], file[min(len(file), at+1+r.IntN(9)):]...)
			case 2:
				file = append(file[:at:at], append([]byte{uint8(r.Uint32())}, file[at:]...)...)
			default:
				file[at] = []uint8{0, 0xff, uint8(r.Uint32())}[r.IntN(3)]
			}
			if len(file) == 0 {
				file = []byte{0}
			}
		}
		if seed[0] == 0x89 { // half of the PNGs get true checksums, or nothing past the checksums is ever reached
			if r.IntN(2) == 0 {
				mendChecksums(file)
			}
		}
		start := time.Now()
		im, err := Wish{Name: "a"}.decode(file, nil)
		longest = max(longest, time.Since(start))
		if err != nil && inside.MatchString(err.Error()) {
			t.Errorf("round %d says what means nothing to a painter: %v", i, err)
		}
		switch {
		case (im == nil) == (err == nil):
			t.Fatalf("neither image nor error, or both: %v", err)
		case im != nil:
			read++
			if im.Width != im.Pixels().Rect.Dx() || max(im.Width, im.Height) > MaxSide || len(im.Encoded()) == 0 {
				t.Fatalf("image %d x %d in %v", im.Width, im.Height, im.Pixels().Rect)
			}
		}
	}
	if read == 0 || read == rounds {
		t.Errorf("%d of %d could be read: the mutations do not reach the decoder", read, rounds)
	}
	if longest > 20*time.Second {
		t.Errorf("one file took %v", longest)
	}
	if mb := peak(); mb > 400 {
		t.Errorf("small files took %.0f MB", mb)
	}
	t.Logf("%d of %d could be read, the slowest took %v, at most %.0f MB", read, rounds, longest, peak())
}

func mendChecksums(file []byte) {
	for p := file[min(8, len(file)):]; len(p) >= 12; {
		n := int(binary.BigEndian.Uint32(p))
		if n > len(p)-12 {
			return
		}
		binary.BigEndian.PutUint32(p[8+n:], crc32.ChecksumIEEE(p[4:8+n]))
		p = p[12+n:]
	}
}

func BenchmarkLoadAll20(b *testing.B) {
	fsys := fstest.MapFS{}
	var names []string
	for i := range 20 {
		name := fmt.Sprintf("%d.jpg", i)
		fsys[name] = &fstest.MapFile{Data: asJPEG(b, photograph(1200, 800))}
		names = append(names, name)
	}
	for b.Loop() {
		LoadAll(fsys, wishes(names), nil)
	}
	b.ReportMetric(float64(len(fsys["0.jpg"].Data)), "bytes/file")
}

func BenchmarkLoad12Megapixels(b *testing.B) {
	fsys := fstest.MapFS{"a.jpg": {Data: asJPEG(b, photograph(4000, 3000))}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Load(fsys, Wish{Name: "a.jpg"}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkToNRGBA(b *testing.B) {
	m, err := jpeg.Decode(bytes.NewReader(asJPEG(b, photograph(1200, 800))))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		nrgba(m)
	}
}

// A photograph that has rested is not read again for the next version of a scene; one that was changed is.
func TestKeptPhotographs(t *testing.T) {
	read := 0
	old := time.Now().Add(-time.Hour)
	file := func(shade uint8) *fstest.MapFile {
		m := image.NewNRGBA(image.Rect(0, 0, 20, 10))
		for i := range m.Pix {
			m.Pix[i] = max(shade, uint8(i%4/3*255))
		}
		var b bytes.Buffer
		if err := png.Encode(&b, m); err != nil {
			t.Fatal(err)
		}
		return &fstest.MapFile{Data: b.Bytes(), ModTime: old}
	}
	files := fstest.MapFS{"a.png": file(10), "b.png": file(10)}
	var kept answer.Kept
	load := func(name string) *Image {
		t.Helper()
		images, errs := LoadAll(opened{files, &read}, []Wish{{Name: name}}, &kept)
		if errs[0] != nil {
			t.Fatal(errs[0])
		}
		return images[0]
	}
	first := load("a.png")
	if again := load("a.png"); again.Pixels() != first.Pixels() || read != 1 {
		t.Errorf("read %d times", read)
	}
	if other := load("b.png"); other.Pixels() != first.Pixels() || other.Name != "b.png" {
		t.Errorf("another file with the same bytes is another picture, or has the name %q", other.Name)
	}
	files["a.png"] = file(200)
	files["a.png"].ModTime = time.Now() // within the tick
	changed := load("a.png")
	if changed.Pixels() == first.Pixels() {
		t.Error("a changed file is taken for what it was")
	}
	before := read
	if load("a.png"); read == before {
		t.Error("a file that was just written is not read again")
	}
}

// opened counts the files that are read whole.
type opened struct {
	fs.FS
	read *int
}

func (o opened) Open(name string) (fs.File, error) {
	f, err := o.FS.Open(name)
	return counted{f, o.read}, err
}

type counted struct {
	fs.File
	read *int
}

func (c counted) Read(b []byte) (int, error) {
	n, err := c.File.Read(b)
	if err == io.EOF {
		*c.read++
	}
	return n, err
}
