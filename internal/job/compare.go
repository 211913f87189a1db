package job

import (
	"image"
	"image/color"
	"image/draw"
	"io"

	"boothmock/internal/find/compare"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/picture"
)

// Compare says how two booths differ.
func Compare(a, b *Mockup) compare.Result {
	side := func(m *Mockup) compare.Side {
		return compare.Side{Plan: m.Plan, Report: m.Report(), Checks: m.Checks(), Sheet: m.Sheet(), SetUp: m.SetUp()}
	}
	return compare.Of(side(a), side(b))
}

// Beside draws both booths from one place, the first at the left: both with the first one's camera. Width and height are of
// the whole, in pixels.
func Beside(a, b *Mockup, v booth.View, o Look) *image.NRGBA {
	gap := max(2, o.Width/160)
	half := o
	half.Width = (o.Width - gap) / 2
	out := image.NewNRGBA(image.Rect(0, 0, o.Width, o.Height))
	draw.Draw(out, out.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	for i, m := range []*Mockup{a, b} {
		img := m.Stage().Draw(v, half.Options)
		draw.Draw(out, img.Rect.Add(image.Pt(i*(o.Width-half.Width), 0)), img, image.Point{}, draw.Src)
	}
	return out
}

// WriteGlance writes what an eye sees of a booth, in the light of the preview, as a JPEG for a page.
func WriteGlance(m *Mockup, w io.Writer, v booth.View, e booth.Eye) error {
	const wide, high, quality = 960, 600, 85 // pixels; twice that of its place on a page of ordinary size
	return picture.WriteJPEG(w, m.Rough().Draw(v, picture.Options{Width: wide, Height: high, Eye: e}), quality)
}
