package art

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"runtime"
	"slices"

	"golang.org/x/image/draw"
	"golang.org/x/image/tiff"
)

// inHand is the room for photographs that are being read.
var inHand = newRoom(shared)

// decode makes the picture that is wished of a file. A file that was read through before, so that its mean is known, and need not be
// changed is decoded when its pixels are asked for.
func (w Wish) decode(file []byte, before *Mean) (_ *Image, err error) {
	n := slices.IndexFunc(formats, func(f format) bool { return f.begins(file) })
	if n < 0 {
		return nil, bad(exportHint, "%s is not a picture that can be read: %s", w.Name, looksLike(file))
	}
	f := formats[n]
	defer func() {
		// The decoders read what strangers wrote: should one of them stumble, the file is at fault and the program goes on.
		if recover() != nil {
			err = w.damaged(f, file, errStumbles)
		}
	}()
	c, room, err := w.header(f, file)
	if err != nil {
		return nil, err
	}
	turn := orientation(f.exif(file))
	cmyk := c.ColorModel == color.CMYKModel // printing colours, which no viewer of a .glb knows; their profile would be of no use here
	wide, converted := newColours(f.colour(file))
	converted = converted && !cmyk
	asItIs := f.embeds && turn <= 1 && !cmyk && !converted && w.Corners == nil && fits(c.Width, c.Height, w.side())
	if asItIs && before != nil {
		return w.later(file, c, f.mime, before), nil
	}
	free := inHand.take(room)
	defer free()
	m, err := f.decode(bytes.NewReader(file))
	if err != nil {
		return nil, w.damaged(f, file, err)
	}
	if f.plain != nil {
		f.plain(m, file)
	}
	if asItIs {
		return Ready(w.title(), f.mime, file, nrgba(m)), nil
	}
	var pixels *image.NRGBA
	if w.Corners == nil {
		pixels = upright(fit(m, w.side()), turn)
	} else if pixels, err = w.straight(m, turn); err != nil {
		return nil, err
	}
	m = nil
	if room > shared/16 {
		runtime.GC() // so that the next large photograph does not come on top of this one
	}
	if converted {
		wide.apply(pixels)
	}
	// What will be found on the shelf the next time is what is shown the first time too.
	encoded, err := encode(pixels)
	if err != nil {
		return nil, err
	}
	return w.small(encoded, nil)
}

// header is what a file says of its pixels, and the bytes that decoding them takes: what takes too many is refused.
func (w Wish) header(f format, file []byte) (c image.Config, room int64, err error) {
	const smaller = exportHint + " of at most 4000 pixels a side"
	if c, err = f.config(file); err != nil {
		return c, 0, w.damaged(f, file, err)
	}
	if c.Width < 1 || c.Height < 1 {
		return c, 0, w.damaged(f, file, "it says that it has no pixels")
	}
	if c.Width > MaxPixels/c.Height {
		return c, 0, bad(smaller, "the picture %s is %d x %d pixels, more than the %d megapixels that can be read", w.Name, c.Width, c.Height, MaxPixels/1_000_000)
	}
	most := int64(mostRoom)
	if f.name == "HEIC" || f.name == "AVIF" {
		most = mostWasm
	}
	if room = f.room(c, file); room > most {
		return c, 0, bad(smaller, "the picture %s is %d x %d pixels, more than can be read of this kind of %s", w.Name, c.Width, c.Height, f.name)
	}
	return c, room, nil
}

// damaged is why a file of a format cannot be read, in a painter's words.
func (w Wish) damaged(f format, file []byte, why any) error {
	if e, ok := why.(error); ok && unsupported(e) {
		return bad(exportHint, "%s is a kind of %s that cannot be read: %v", w.Name, f.name, why)
	}
	if !f.whole(file) {
		return bad("copy it from the camera or the backup again", "the picture %s is cut short: its end is missing", w.Name)
	}
	return bad("copy it again, or open it in a photo program and save it as a JPEG or PNG", "the picture %s is damaged: %v", w.Name, why)
}

// later is a picture whose file is known to be whole: that it can be decoded need not be tried before somebody looks. Its mean may be known
// too.
func (w Wish) later(file []byte, c image.Config, mime string, known *Mean) *Image {
	im := Later(w.title(), mime, image.Pt(c.Width, c.Height), func() []byte { return file }, func() *image.NRGBA {
		m, _, err := image.Decode(bytes.NewReader(file))
		if err != nil {
			panic(err) // it is not the file that was read before
		}
		return nrgba(m)
	})
	if known != nil {
		im.mean = func() Mean { return *known }
	}
	return im
}

// small is a picture as encode wrote it. Its mean may be known.
func (w Wish) small(file []byte, known *Mean) (*Image, error) {
	c, kind, err := image.DecodeConfig(bytes.NewReader(file))
	if err == nil && max(c.Width, c.Height) > MaxSide {
		err = errors.New("it is larger than anything that is kept")
	}
	if err != nil {
		return nil, err
	}
	return w.later(file, c, "image/"+kind, known), nil
}

// straight is the work within its corners in a stored photograph.
func (w Wish) straight(m image.Image, turn int) (*image.NRGBA, error) {
	stored := m.Bounds().Size()
	seen := stored
	if turn >= 5 {
		seen = image.Pt(stored.Y, stored.X)
	}
	q := *w.Corners
	if err := q.check(w.Name, seen); err != nil {
		return nil, err
	}
	size := q.size(w.side(), w.Shape)
	for i, p := range q {
		q[i] = p.stored(turn, stored)
	}
	return straighten(m, q, size), nil
}

// unsupported is whether the file is sound, but of a kind that its decoder does not know.
func unsupported(err error) bool {
	var t tiff.UnsupportedError
	var j jpeg.UnsupportedError
	var p png.UnsupportedError
	var own errUnsupported
	return errors.As(err, &t) || errors.As(err, &j) || errors.As(err, &p) || errors.As(err, &own)
}

// encode writes a photograph as a JPEG, or as a PNG if one can see through it somewhere.
func encode(m *image.NRGBA) (file []byte, err error) {
	var b bytes.Buffer
	if !m.Opaque() {
		err = png.Encode(&b, m)
		return b.Bytes(), err
	}
	// Opaque NRGBA and RGBA have the same bytes, and the encoder has a fast way for RGBA.
	err = jpeg.Encode(&b, &image.RGBA{Pix: m.Pix, Stride: m.Stride, Rect: m.Rect}, &jpeg.Options{Quality: quality})
	return b.Bytes(), err
}

// fits is whether a picture is small enough for the pixels that are wanted of its longer side.
func fits(width, height, side int) bool {
	long := max(width, height)
	return long <= side || long <= MaxSide && float64(long) <= spare*float64(side)
}

// fit is the picture, shrunk if it does not fit.
func fit(m image.Image, side int) *image.NRGBA {
	s := m.Bounds().Size()
	if fits(s.X, s.Y, side) {
		return nrgba(m)
	}
	t := image.Pt(side, max(1, (s.Y*side+s.X/2)/s.X))
	if s.X < s.Y {
		t = image.Pt(max(1, (s.X*side+s.Y/2)/s.Y), side)
	}
	return Shrink(m, t)
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
	case *image.NRGBA64, *image.Paletted, *image.NYCbCrA: // see-through colours must not be weakened on the way, as RGBA would
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
