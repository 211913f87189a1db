package art

import (
	"bytes"
	"errors"
	"image"
	"io/fs"
	"os"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/fault"
)

// Whatever is called a photograph, and wherever its corners are said to be: a picture that is what it says of itself, or
// a fault in words.
func FuzzLoad(f *testing.F) {
	dir := os.DirFS("testdata")
	names, err := fs.Glob(dir, "*.*")
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range names {
		f.Add(asset(f, name), false, 0.0, 0.0, 20.0, 16.0)
	}
	small := photograph(9, 7)
	for _, file := range [][]byte{asJPEG(f, small), asPNG(f, small), nil, []byte("GIF89a"), []byte("%PDF-1.7"), []byte("RIFF\x04\x00\x00\x00WEBP")} {
		f.Add(file, true, 1.0, 1.0, 7.5, 5.0)
	}
	f.Fuzz(func(t *testing.T, file []byte, slant bool, x0, y0, x1, y1 float64) {
		wish := Wish{Name: "a", Side: 64}
		if slant {
			wish.Corners, wish.Shape = &Quad{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, 1.3
		}
		im, err := Load(fstest.MapFS{"a": {Data: file}}, wish)
		if err != nil {
			var why fault.Fault
			if !errors.As(err, &why) || why.Text == "" {
				t.Fatalf("%#v is no fault", err)
			}
			return
		}
		if b := im.Pixels().Rect; b.Dx() != im.Width || b.Dy() != im.Height || im.Width < 1 || im.Height < 1 || max(im.Width, im.Height) > MaxSide {
			t.Errorf("%d x %d, and the pixels are %v", im.Width, im.Height, b)
		}
		for _, out := range [][]byte{im.Encoded(), im.Shareable()} {
			c, kind, err := image.DecodeConfig(bytes.NewReader(out))
			if err != nil || "image/"+kind != im.MIME || c.Width != im.Width || c.Height != im.Height {
				t.Errorf("what would be embedded is %s of %d x %d (%v); it is said to be %s of %d x %d", kind, c.Width, c.Height, err, im.MIME, im.Width, im.Height)
			}
		}
	})
}
