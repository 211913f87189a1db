package art

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"io/fs"
	"path"
	"runtime"
	"slices"
	"strings"
	"sync"

	"boothmock/internal/fault"

	"golang.org/x/image/draw"
)

// Limits of what is taken in. A 100-megapixel camera passes; a file that only claims to be huge does not.
const (
	MaxBytes  = 200_000_000 // of the file
	MaxPixels = 120_000_000 // width times height, read from the file's head before anything is decoded
	MaxSide   = 2048        // pixels of the longer side of an Image: a larger photograph is shrunk
	quality   = 90          // of the JPEG that a photograph is written as when its pixels had to change
)

// format is a kind of picture file.
type format struct {
	mime   string
	magic  string // how the file begins
	config func(io.Reader) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
	end    string                   // what stands at its end
	exif   func(file []byte) []byte // the EXIF block (a TIFF head and what follows), or nil
	colour func(file []byte) []byte // the colour profile, or nil
	embeds bool                     // a .glb and a page may hold the file as it is
}

var formats = []format{
	{"image/jpeg", "\xff\xd8\xff", jpeg.DecodeConfig, jpeg.Decode, "\xff\xd9", jpegExif, jpegProfile, true},
	{"image/png", "\x89PNG\r\n\x1a\n", png.DecodeConfig, png.Decode, "IEND", pngExif, pngProfile, true},
}

// Load reads the picture in the file: upright, as its EXIF orientation says, in sRGB, as its colour profile says, and at
// most MaxSide pixels on its longer side. Viewers of a .glb heed neither; so a file that needs no change is kept byte for
// byte in Encoded, and any other is written again.
//
// An error is a fault.Fault without a place: the caller knows where the scene speaks of the file.
func Load(fsys fs.FS, name string) (*Image, error) {
	file, err := read(fsys, name)
	if err != nil {
		return nil, err
	}
	return decode(name, file)
}

// LoadAll loads the files at once, each distinct name one time. Image i or error i is that of name i; equal names share
// one image.
func LoadAll(fsys fs.FS, names []string) ([]*Image, []error) {
	first := make(map[string]int, len(names)) // the place of a name's first mention, which is the one that loads
	images, errs := make([]*Image, len(names)), make([]error, len(names))
	work := make(chan int, len(names))
	for i, name := range names {
		if _, seen := first[name]; !seen {
			first[name] = i
			work <- i
		}
	}
	close(work)
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(first)) {
		wg.Go(func() {
			for i := range work {
				images[i], errs[i] = Load(fsys, names[i])
			}
		})
	}
	wg.Wait()
	for i, name := range names {
		images[i], errs[i] = images[first[name]], errs[first[name]]
	}
	return images, errs
}

// bad is an error about a picture.
func bad(hint, text string, args ...any) error {
	return fault.Fault{Text: fmt.Sprintf(text, args...), Hint: hint}
}

const exportHint = "save it from your photo program as a JPEG or PNG"

func read(fsys fs.FS, name string) ([]byte, error) {
	if !fs.ValidPath(name) {
		return nil, bad("write it as it stands in the scene's folder, such as photos/heron.jpg", "%q is not a file name that can be used", name)
	}
	info, err := fs.Stat(fsys, name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, bad(missingHint(fsys, name), "there is no file %s", name)
	case errors.Is(err, fs.ErrPermission):
		return nil, bad("check that you may open it", "the file %s may not be read", name)
	case err != nil:
		return nil, bad("check that it can be opened", "the file %s cannot be read: %v", name, err)
	case info.IsDir():
		return nil, bad("name the photograph inside it, such as "+name+"/heron.jpg", "%s is a folder, not a picture", name)
	case info.Size() == 0:
		return nil, bad("copy it from the camera or the backup again", "the file %s is empty", name)
	case info.Size() > MaxBytes:
		return nil, bad(exportHint+" of ordinary size", "the file %s has %d MB, more than the %d MB that can be read",
			name, info.Size()/1_000_000, MaxBytes/1_000_000)
	}
	file, err := fs.ReadFile(fsys, name)
	if err != nil {
		return nil, bad("check that it can be opened", "the file %s cannot be read: %v", name, err)
	}
	return file, nil
}

// missingHint looks for a file that was most likely meant: other capitals, another ending, a slip of the keyboard.
func missingHint(fsys fs.FS, name string) string {
	dir := path.Dir(name)
	entries, err := fs.ReadDir(fsys, dir)
	if err != nil {
		return "there is no folder " + dir + " either; names start from the scene's folder"
	}
	stem := func(s string) string { return strings.ToLower(strings.TrimSuffix(s, path.Ext(s))) }
	var names []string
	for _, e := range entries {
		if e.IsDir() {
			continue
		}
		if stem(e.Name()) == stem(path.Base(name)) {
			return "did you mean " + path.Join(dir, e.Name()) + "?"
		}
		names = append(names, e.Name())
	}
	if near, ok := fault.Nearest(path.Base(name), names); ok {
		return "did you mean " + path.Join(dir, near) + "?"
	}
	return "names start from the scene's folder"
}

func decode(name string, file []byte) (_ *Image, err error) {
	n := slices.IndexFunc(formats, func(f format) bool { return bytes.HasPrefix(file, []byte(f.magic)) })
	if n < 0 {
		return nil, bad(exportHint, "%s is not a picture that can be read: %s", name, looksLike(file))
	}
	f := formats[n]
	damaged := func(why any) error {
		if tail := file[max(0, len(file)-1000):]; !bytes.Contains(tail, []byte(f.end)) {
			return bad("copy it from the camera or the backup again", "the picture %s is cut short: its end is missing", name)
		}
		return bad("open it in a photo program and save it again as a JPEG or PNG", "the picture %s is damaged: %v", name, why)
	}
	defer func() {
		// The decoders read what strangers wrote: should one of them stumble, the file is at fault and the program goes on.
		if p := recover(); p != nil {
			err = damaged(p)
		}
	}()
	c, err := f.config(bytes.NewReader(file))
	if err != nil {
		return nil, damaged(err)
	}
	if c.Width < 1 || c.Height < 1 {
		return nil, damaged("it says that it has no pixels")
	}
	if c.Width > MaxPixels/c.Height {
		return nil, bad(exportHint+" of at most 4000 pixels a side", "the picture %s is %d x %d pixels, more than the %d megapixels that can be read",
			name, c.Width, c.Height, MaxPixels/1_000_000)
	}
	m, err := f.decode(bytes.NewReader(file))
	if err != nil {
		return nil, damaged(err)
	}
	turn := orientation(f.exif(file))
	pixels, shrunk := fit(m)
	pixels = upright(pixels, turn)
	_, cmyk := m.(*image.CMYK) // printing colours, which no viewer of a .glb knows; their profile would be of no use here
	wide, converted := newColours(f.colour(file))
	if converted = converted && !cmyk; converted {
		wide.apply(pixels)
	}
	im := &Image{Name: name, Width: pixels.Rect.Dx(), Height: pixels.Rect.Dy(), MIME: f.mime, Encoded: file, Pixels: pixels}
	if shrunk || turn > 1 || cmyk || converted || !f.embeds {
		im.MIME, im.Encoded, err = encode(pixels)
	}
	return im, err
}

// encode writes a photograph as a JPEG, or as a PNG if one can see through it somewhere.
func encode(m *image.NRGBA) (mime string, file []byte, err error) {
	var b bytes.Buffer
	if !m.Opaque() {
		err = png.Encode(&b, m)
		return "image/png", b.Bytes(), err
	}
	// Opaque NRGBA and RGBA have the same bytes, and the encoder has a fast way for RGBA.
	err = jpeg.Encode(&b, &image.RGBA{Pix: m.Pix, Stride: m.Stride, Rect: m.Rect}, &jpeg.Options{Quality: quality})
	return "image/jpeg", b.Bytes(), err
}

// fit is the picture as NRGBA with its corner at (0, 0), shrunk if its longer side has more than MaxSide pixels.
func fit(m image.Image) (_ *image.NRGBA, shrunk bool) {
	s := m.Bounds().Size()
	if max(s.X, s.Y) <= MaxSide {
		return nrgba(m), false
	}
	t := s
	if s.X >= s.Y {
		t = image.Pt(MaxSide, max(1, (s.Y*MaxSide+s.X/2)/s.X))
	} else {
		t = image.Pt(max(1, (s.X*MaxSide+s.Y/2)/s.Y), MaxSide)
	}
	return shrink(m, t), true
}

// nrgba copies the picture; the colours are exactly those of package color.
func nrgba(m image.Image) *image.NRGBA {
	r := m.Bounds()
	out := image.NewNRGBA(image.Rectangle{Max: r.Size()})
	switch m := m.(type) {
	case *image.NRGBA:
		for y := range r.Dy() {
			copy(out.Pix[y*out.Stride:][:4*r.Dx()], m.Pix[m.PixOffset(r.Min.X, r.Min.Y+y):])
		}
	case *image.NRGBA64, *image.Paletted: // see-through colours must not be weakened on the way, as RGBA would
		for y := range r.Dy() {
			for x := range r.Dx() {
				out.SetNRGBA(x, y, color.NRGBAModel.Convert(m.At(r.Min.X+x, r.Min.Y+y)).(color.NRGBA))
			}
		}
	default: // opaque: JPEG's YCbCr, Gray and CMYK, PNG's RGBA, Gray, Gray16 and RGBA64
		draw.Draw(&image.RGBA{Pix: out.Pix, Stride: out.Stride, Rect: out.Rect}, out.Rect, m, r.Min, draw.Src)
	}
	return out
}
