package film

import (
	"bytes"
	"image"
	"image/gif"
	"io"

	"boothmock/internal/basis/imprint"
)

const (
	delay = 100 / PerSecond // hundredths of a second that a picture is shown
	rest  = 150             // the last one, before the film begins again
)

// weave is a 4 × 4 square of steps, each far from the last (ordered dither, after B. Bayer, IEEE International
// Conference on Communications, 1973): it stays where it is on the screen, so that flat cloth does not crawl.
var weave = [4][4]int{{0, 8, 2, 10}, {12, 4, 14, 6}, {3, 11, 1, 9}, {15, 7, 13, 5}}

// strength is how many levels of 255 the dither moves a channel, from end to end. More hides steps in even cloth better
// and makes the file larger.
const strength = 8

// Most is the size in bytes above which a film is written again without dither: what mails carry without complaint is
// common practice, no source.
const Most = 6 << 20

// WriteGIF writes the frames, all of one size, as an animated GIF that is shown again and again. The same frames give the
// same bytes. There must be one at least.
func WriteGIF(w io.Writer, frames []*image.NRGBA) error {
	t := newTable(count(frames), 256)
	var b bytes.Buffer
	for _, dither := range []int{strength, 0} {
		b.Reset()
		if err := t.write(&b, frames, dither); err != nil {
			return err
		}
		if b.Len() <= Most {
			break
		}
	}
	file, err := imprint.InGIF(b.Bytes())
	if err != nil {
		return err
	}
	_, err = w.Write(file)
	return err
}

func (t *table) write(w io.Writer, frames []*image.NRGBA, dither int) error {
	g := gif.GIF{Image: make([]*image.Paletted, len(frames)), Delay: make([]int, len(frames))}
	each(len(frames), func(i int) {
		g.Image[i], g.Delay[i] = t.paint(frames[i], dither), delay
	})
	g.Delay[len(frames)-1] = rest
	g.Config = image.Config{ColorModel: t.colours, Width: frames[0].Rect.Dx(), Height: frames[0].Rect.Dy()}
	return gif.EncodeAll(w, &g)
}

func (t *table) paint(m *image.NRGBA, dither int) *image.Paletted {
	out := image.NewPaletted(m.Rect, t.colours)
	for y := range m.Rect.Dy() {
		from, to := m.Pix[y*m.Stride:], out.Pix[y*out.Stride:]
		for x := range m.Rect.Dx() {
			d := (2*weave[y%4][x%4] - 15) * dither / 32
			to[x] = t.of[cell(moved(from[4*x], d), moved(from[4*x+1], d), moved(from[4*x+2], d))]
		}
	}
	return out
}

func moved(v uint8, by int) uint8 { return uint8(min(max(int(v)+by, 0), 255)) }
