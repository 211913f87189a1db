package drawing

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"

	"boothmock/internal/props/lettering"
)

var (
	ink   = color.NRGBA{30, 33, 38, 255}
	faint = color.NRGBA{120, 124, 130, 255}
	plate = color.NRGBA{255, 255, 255, 225} // behind letters
	red   = color.NRGBA{184, 28, 44, 255}   // what is wrong or not seen
	blue  = color.NRGBA{22, 84, 168, 255}   // the way
	clear = color.NRGBA{22, 84, 168, 48}
)

// spot is a place on the paper, in pixels right and down.
type spot struct{ x, y float64 }

func (p spot) add(q spot) spot           { return spot{p.x + q.x, p.y + q.y} }
func (p spot) sub(q spot) spot           { return spot{p.x - q.x, p.y - q.y} }
func (p spot) mul(k float64) spot        { return spot{p.x * k, p.y * k} }
func (p spot) len() float64              { return math.Hypot(p.x, p.y) }
func (p spot) to(q spot, t float64) spot { return p.add(q.sub(p).mul(t)) }

// paper is a picture that is drawn on. Everything on it is sized after em, the pixels of its plain letters.
type paper struct {
	*image.NRGBA
	em float64
}

func newPaper(m *image.NRGBA) paper {
	return paper{m, max(9, min(float64(m.Rect.Dx())/1.6, float64(m.Rect.Dy()))/52)}
}

// blank is white paper.
func blank(o Options) paper {
	m := image.NewNRGBA(image.Rect(0, 0, o.Width, o.Height))
	draw.Draw(m, m.Rect, image.White, image.Point{}, draw.Src)
	return newPaper(m)
}

// fill fills shapes, all in one: where two that turn the same way share an edge, no seam shows.
func (p paper) fill(c color.Color, shapes ...[]spot) {
	lo, hi := spot{math.Inf(1), math.Inf(1)}, spot{math.Inf(-1), math.Inf(-1)}
	for _, s := range shapes {
		for _, q := range s {
			lo, hi = spot{min(lo.x, q.x), min(lo.y, q.y)}, spot{max(hi.x, q.x), max(hi.y, q.y)}
		}
	}
	whole := p.Rect
	lo, hi = spot{max(lo.x, float64(whole.Min.X)), max(lo.y, float64(whole.Min.Y))}, spot{min(hi.x, float64(whole.Max.X)), min(hi.y, float64(whole.Max.Y))}
	if !(lo.x < hi.x && lo.y < hi.y) {
		return
	}
	at := image.Rect(int(lo.x), int(lo.y), int(math.Ceil(hi.x)), int(math.Ceil(hi.y)))
	var z vector.Rasterizer
	z.Reset(at.Dx(), at.Dy())
	for _, s := range shapes {
		for i, q := range s {
			x, y := float32(q.x-float64(at.Min.X)), float32(q.y-float64(at.Min.Y))
			if i == 0 {
				z.MoveTo(x, y)
			} else {
				z.LineTo(x, y)
			}
		}
		z.ClosePath()
	}
	z.Draw(p, at, image.NewUniform(c), image.Point{})
}

// bar is a straight line as a shape. All bars turn the same way.
func bar(a, b spot, width float64) []spot {
	d := b.sub(a)
	if d.len() == 0 {
		return nil
	}
	n := spot{-d.y, d.x}.mul(width / 2 / d.len())
	return []spot{a.add(n), a.sub(n), b.sub(n), b.add(n)}
}

// line draws a line through places.
func (p paper) line(c color.Color, width float64, places ...spot) {
	var shapes [][]spot
	for i := 1; i < len(places); i++ {
		shapes = append(shapes, bar(places[i-1], places[i], width))
		if i > 1 {
			shapes = append(shapes, ring(places[i-1], width/2)) // a round joint
		}
	}
	p.fill(c, shapes...)
}

// dashed draws a line in strokes of length on with spaces of length off.
func (p paper) dashed(c color.Color, width, on, off float64, places ...spot) {
	var shapes [][]spot
	at := 0.0 // how far into the stroke and space the pen is
	for i := 1; i < len(places); i++ {
		a, b := places[i-1], places[i]
		long := b.sub(a).len()
		for done := 0.0; done < long; {
			left := on - at
			if at >= on {
				left = on + off - at
			}
			step := min(left, long-done)
			if at < on {
				shapes = append(shapes, bar(a.to(b, done/long), a.to(b, (done+step)/long), width))
			}
			done += step
			if at += step; at >= on+off-1e-9 {
				at = 0
			}
		}
	}
	p.fill(c, shapes...)
}

// ring is a circle as a shape; it turns as bars do.
func ring(m spot, r float64) []spot {
	n := max(12, min(180, int(2*r)))
	out := make([]spot, n)
	for i := range out {
		s, c := math.Sincos(-2 * math.Pi * float64(i) / float64(n))
		out[i] = m.add(spot{c * r, s * r})
	}
	return out
}

// box draws the outline of a rectangle.
func (p paper) box(c color.Color, width float64, a, b spot) {
	p.line(c, width, a, spot{b.x, a.y}, b, spot{a.x, b.y}, a)
}

// write writes a line of text from a place on; middle with its middle there.
func (p paper) write(f lettering.Face, c color.Color, size float64, at spot, text string) {
	f.Write(p, at.x, at.y, size*p.em, text, c)
}

func (p paper) middle(f lettering.Face, c color.Color, size float64, at spot, text string) {
	at.x -= f.Width(size*p.em, text) / 2
	p.write(f, c, size, at, text)
}

// label writes lines of text, the first so many of them bold, on a light plate whose middle is at a place, kept on the
// paper.
func (p paper) label(c color.Color, size float64, at spot, bold int, lines ...string) {
	em, wide := size*p.em, 0.0
	for i, l := range lines {
		wide = max(wide, face(i < bold).Width(em, l))
	}
	half := spot{wide/2 + 0.35*em, tall(len(lines)) * em / 2}
	at.x = min(max(at.x, half.x), float64(p.Rect.Dx())-half.x)
	at.y = min(max(at.y, half.y), float64(p.Rect.Dy())-half.y)
	a, b := at.sub(half), at.add(half)
	p.fill(plate, []spot{a, {b.x, a.y}, b, {a.x, b.y}})
	for i, l := range lines {
		p.middle(face(i < bold), c, size, spot{at.x, a.y + (1.1+1.25*float64(i))*em}, l)
	}
}

// tall is the height of a label with so many lines, in its letters' em.
func tall(lines int) float64 { return 1.25*float64(lines) + 0.25 }

func face(bold bool) lettering.Face {
	if bold {
		return lettering.Bold
	}
	return lettering.Regular
}

// hatch covers convex shapes with slanted strokes, all on the same lines, so that pieces of one whole join.
func (p paper) hatch(shapes [][]spot) {
	step, width := 0.75*p.em, 0.12*p.em
	var under, over [][]spot
	for _, s := range shapes {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, q := range s {
			lo, hi = min(lo, q.x+q.y), max(hi, q.x+q.y)
		}
		for k := math.Ceil(lo / step); k*step < hi; k++ {
			if a, b, ok := chord(s, k*step); ok {
				under, over = append(under, bar(a, b, 2.4*width)), append(over, bar(a, b, width))
			}
		}
	}
	p.fill(color.NRGBA{255, 255, 255, 150}, under...)
	p.fill(red, over...)
}

// chord is where the line x + y = sum runs through a convex shape.
func chord(s []spot, sum float64) (a, b spot, ok bool) {
	n := 0
	for i, q := range s {
		r := s[(i+1)%len(s)]
		d, e := q.x+q.y-sum, r.x+r.y-sum
		if (d < 0) == (e < 0) {
			continue
		}
		if m := q.to(r, d/(d-e)); n == 0 {
			a, n = m, 1
		} else {
			b, n = m, 2
		}
	}
	if b.x < a.x {
		a, b = b, a
	}
	return a, b, n == 2
}

// arrow draws the head of an arrow that comes from a place.
func (p paper) arrow(c color.Color, from, tip spot) {
	d := tip.sub(from)
	if d.len() == 0 {
		return
	}
	d = d.mul(p.em / d.len())
	n := spot{-d.y, d.x}
	p.fill(c, []spot{tip, tip.sub(d).add(n.mul(0.45)), tip.sub(d.mul(0.8)), tip.sub(d).sub(n.mul(0.45))})
}
