package drawing

import (
	"image"
	"image/color"
	"math"

	"boothmock/internal/view/draft"
)

func inked(p draft.Point) spot { return spot{p.X, p.Y} }

// plot draws what is laid out. Lines get a light edge, as they may lie on a picture; letters a light plate.
func (p paper) plot(marks []draft.Mark) {
	for _, m := range marks {
		if m.Text != "" {
			p.text(m)
			continue
		}
		pen := draft.Strokes[m.Pen]
		ink, width := color.NRGBA{pen.Grey, pen.Grey, pen.Grey, 255}, max(1, pen.Width*p.em)
		var path []spot
		for _, q := range m.Path {
			path = append(path, inked(q))
		}
		switch {
		case m.Round > 0:
			path = ring(path[0], m.Round)
			path = append(path, path[0])
		case m.Closed:
			path = append(path, path[0])
		}
		switch m.Fill {
		case draft.White:
			p.fill(color.White, path)
		case draft.Pale:
			p.fill(color.Gray{draft.PaleGrey}, path)
		case draft.Ink:
			p.fill(ink, path)
		}
		if pen.Dash != nil {
			p.line(halo, width+0.16*p.em, path...)
			p.dashed(ink, width, pen.Dash[0]*p.em, pen.Dash[1]*p.em, path...)
			continue
		}
		p.line(ink, width, path...)
	}
}

var halo = color.NRGBA{255, 255, 255, 110}

// text writes a line of text on its plate.
func (p paper) text(m draft.Mark) {
	em := p.em
	long := face(m.Bold).Width(em, m.Text)
	if m.Turned { // it is written level, and laid down turned
		wide, high := int(math.Ceil(long)), int(math.Ceil(1.1*em))
		level := blank(Options{wide, high})
		level.em = p.em
		level.write(face(m.Bold), ink, 1, spot{0, 0.84 * em}, m.Text)
		at := image.Pt(int(m.Path[0].X-0.84*em), int(m.Path[0].Y+long*m.Held-float64(wide)))
		for y := range high {
			for x := range wide {
				if q := at.Add(image.Pt(y, wide-1-x)); q.In(p.Rect) {
					p.Set(q.X, q.Y, level.NRGBAAt(x, y))
				}
			}
		}
		return
	}
	at := spot{m.Path[0].X - long*m.Held, m.Path[0].Y}
	a, b := at.add(spot{-0.15 * em, -0.85 * em}), at.add(spot{long + 0.15*em, 0.3 * em})
	p.fill(plate, []spot{a, {b.x, a.y}, b, {a.x, b.y}})
	p.write(face(m.Bold), ink, 1, at, m.Text)
}
