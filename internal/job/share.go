package job

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/draw"
	"image/jpeg"
	"io"
	"math"
	"slices"

	"boothmock/internal/find/order"
	"boothmock/internal/handout/glb"
	"boothmock/internal/handout/page"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
	"boothmock/internal/view/light"
)

// Sizes of what the page holds, in pixels, and the quality of its JPEGs: sharp on a phone, and small enough to send.
const (
	pageWidth, pageHeight       = 1120, 630
	previewWidth, previewHeight = 1200, 630 // as messages show a picture of a link (the Open Graph protocol, common practice)
	thumbSide                   = 320
	thumbWorks                  = 60 // with more works, all their small pictures together have no more pixels than those of so many
	pageQuality                 = 78
	thinQuality                 = 65 // of the smaller pictures of a page that is too large
)

// Preview is the name of the picture beside the page of a build, that messages show.
const Preview = "share.jpg"

// WritePage writes the page to hand over, with the picture of that name beside it and a .glb made for its viewer. The pictures on its surfaces are as large as
// somebody sees them who walks on a phone, and smaller until the page keeps within page.Limit, or, where it would be larger without any picture, as with hundreds
// of works, within page.Most, for which those of works and steps become smaller too; of that a note is made.
func WritePage(m *Mockup, w io.Writer, preview string) error {
	v, err := pageValues(m)
	if err != nil {
		return err
	}
	v.Preview = preview
	var b bytes.Buffer
	limit := page.Limit
	for _, side := range []int{768, 512, 384, 256, 192, 128, 96} {
		images := 0
		if v.Model, images, err = model(m, side); err != nil {
			return err
		}
		b.Reset()
		if err := page.Write(&b, v); err != nil {
			return err
		}
		if b.Len()-base64.StdEncoding.EncodedLen(images) > page.Limit {
			limit = page.Most
		}
		if b.Len() <= limit {
			break
		}
	}
	if b.Len() > limit {
		if err := thin(&v); err != nil {
			return err
		}
		b.Reset()
		if err := page.Write(&b, v); err != nil {
			return err
		}
	}
	if n := b.Len(); n > page.Limit {
		m.note(fmt.Sprintf("The page to share has %d MB; %d MB is what goes by mail and message everywhere. It works all the same: hand it over on a memory stick or by a link, or make a scene with fewer works.",
			(n+500_000)/1_000_000, page.Limit/1_000_000))
	}
	_, err = b.WriteTo(w)
	return err
}

// WritePreview writes the picture that messages show beside the page: the first view, as JPEG.
func WritePreview(m *Mockup, w io.Writer) error {
	if len(m.Plan.Views) == 0 {
		return fmt.Errorf("the booth has no view to make a picture of")
	}
	whole := m.opening(previewWidth, previewWidth*9/16)
	strip := image.Rect(0, 0, previewWidth, previewHeight).Add(image.Pt(0, (whole.Rect.Dy()-previewHeight)/2))
	file, err := asJPEG(whole.SubImage(strip).(*image.NRGBA), 85)
	if err != nil {
		return err
	}
	_, err = w.Write(file)
	return err
}

// model is the booth's .glb for the page, and how many bytes of it are pictures. They have at most so many pixels along their longer side.
func model(m *Mockup, side int) (file []byte, images int, err error) {
	var b bytes.Buffer
	small := map[*art.Image]*art.Image{}
	lit := &light.Lit{Surfaces: slices.Clone(m.Lit().Surfaces)}
	for i := range lit.Surfaces {
		s := &lit.Surfaces[i]
		if s.Look.Image == nil {
			continue
		}
		if small[s.Look.Image] == nil {
			one, err := smaller(s.Look.Image, side)
			if err != nil {
				return nil, 0, err
			}
			small[s.Look.Image] = one
			images += len(one.Encoded())
		}
		s.Look.Image = small[s.Look.Image]
	}
	err = glb.WritePlain(&b, m.Plan, lit)
	return b.Bytes(), images, err
}

// smaller is the image with at most so many pixels along its longer side; an image that is small already stays.
func smaller(i *art.Image, side int) (*art.Image, error) {
	if i.Width <= side && i.Height <= side || !i.Pixels().Opaque() {
		return i, nil
	}
	img := shrunk(i.Pixels(), side)
	file, err := asJPEG(img, 82)
	return art.Ready(i.Name, "image/jpeg", file, img), err
}

func shrunk(from *image.NRGBA, side int) *image.NRGBA {
	size := from.Rect.Size()
	long := max(size.X, size.Y)
	if long <= side {
		return from
	}
	return art.Shrink(from, image.Pt(max(1, size.X*side/long), max(1, size.Y*side/long)))
}

// thin makes the pictures of works and steps two thirds as wide.
func thin(v *page.Values) error {
	smaller := func(file []byte) ([]byte, error) {
		if file == nil {
			return nil, nil
		}
		m, err := jpeg.Decode(bytes.NewReader(file))
		if err != nil {
			return nil, err
		}
		size := m.Bounds().Size()
		pixels := image.NewNRGBA(image.Rectangle{Max: size})
		draw.Draw(pixels, pixels.Rect, m, m.Bounds().Min, draw.Src)
		return asJPEG(art.Shrink(pixels, size.Mul(2).Div(3)), thinQuality)
	}
	var err error
	for id, file := range v.Works {
		if v.Works[id], err = smaller(file); err != nil {
			return err
		}
	}
	steps := map[order.Which][][]byte{} // those of the mock-up stay as they are
	for which, files := range v.Steps {
		for _, file := range files {
			if file, err = smaller(file); err != nil {
				return err
			}
			steps[which] = append(steps[which], file)
		}
	}
	v.Steps = steps
	return nil
}

// pageValues is everything on the page but the model.
func pageValues(m *Mockup) (page.Values, error) {
	p := m.Plan
	v := page.Values{
		Plan: p, Report: m.Report(), Checks: m.Checks(), Sheet: m.Sheet(), Lists: []order.Rehearsal{m.SetUp(), m.Night(), m.Strike()}, Behind: m.Stage().Behind(), Sales: m.salesOnPage(), Works: map[booth.ID][]byte{},
	}
	for _, d := range Pictures(p) {
		if !onPage(d) {
			continue
		}
		file, err := asJPEG(art.Shrink(m.picture(d), image.Pt(pageWidth, pageHeight)), pageQuality)
		if err != nil {
			return v, err
		}
		v.Pictures = append(v.Pictures, page.Picture{Name: d.Name, Doc: d.Doc, View: d.View != nil, JPEG: file})
	}
	steps, err := m.StepFiles()
	if err != nil {
		return v, err
	}
	v.Steps = steps
	if v.Day, err = m.dayOnPage(); err != nil {
		return v, err
	}
	side := int(thumbSide * math.Sqrt(min(1, thumbWorks/float64(max(1, p.Works())))))
	for _, part := range p.Parts {
		if part.Work == nil || part.Work.Image == nil {
			continue
		}
		file, err := asJPEG(shrunk(part.Work.Image.Pixels(), side), pageQuality)
		if err != nil {
			return v, err
		}
		v.Works[part.ID] = file
	}
	return v, nil
}
