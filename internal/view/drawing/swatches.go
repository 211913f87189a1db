package drawing

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"boothmock/internal/plan/booth"
)

// Swatch is a colour and what it is called.
type Swatch struct {
	Name   string
	Colour booth.Colour
}

// Swatches is a page of colours, column by column, each with its name and its six digits.
func Swatches(list []Swatch, o Options) *image.NRGBA {
	const columns, margin, gap = 5, 2.0, 0.5 // margin and gap in ems
	p := blank(o.filled())
	rows := int(math.Ceil(float64(len(list)) / columns))
	wide := (float64(p.Rect.Dx()) - 2*margin*p.em) / columns
	high := (float64(p.Rect.Dy()) - 2*margin*p.em) / float64(max(1, rows))
	for i, s := range list {
		a := spot{margin*p.em + wide*float64(i/rows), margin*p.em + high*float64(i%rows)}
		b := spot{a.x + 0.42*wide, a.y + high - gap*p.em}
		p.fill(color.NRGBA{s.Colour[0], s.Colour[1], s.Colour[2], 255}, []spot{a, {b.x, a.y}, b, {a.x, b.y}})
		p.box(faint, 1, a, b)
		text := spot{b.x + gap*p.em, (a.y + b.y) / 2}
		p.write(face(true), ink, 0.95, text, s.Name)
		p.write(face(false), faint, 0.8, text.add(spot{0, 1.15 * p.em}), fmt.Sprintf("#%02x%02x%02x", s.Colour[0], s.Colour[1], s.Colour[2]))
	}
	return p.NRGBA
}
