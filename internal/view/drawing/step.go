package drawing

import (
	"image"
	"image/color"
	"image/draw"

	"golang.org/x/image/vector"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/way"
	"boothmock/internal/props/lettering"
)

// Lens is where a point of the booth falls on a picture, in pixels; ok is false for one that is not before the eye.
type Lens func(geom.Vec) (x, y float64, ok bool)

// Fresh makes a picture paler except where the solids are, so that what is new stands out in black and white too.
func Fresh(img *image.NRGBA, at Lens, solids []geom.Convex) {
	const pale = 165 // of 255, that white covers of what is not new
	mask := shadow(img.Rect, at, solids)
	for i, m := range mask.Pix {
		mask.Pix[i] = uint8(int(255-m) * pale / 255)
	}
	draw.DrawMask(img, img.Rect, image.White, image.Point{}, mask, image.Point{}, draw.Over)
}

// shadow is where solids are on a picture.
func shadow(r image.Rectangle, at Lens, solids []geom.Convex) *image.Alpha {
	var z vector.Rasterizer
	z.Reset(r.Dx(), r.Dy())
	for _, s := range solids {
		var points []way.Point
		for _, c := range s.Corners {
			if x, y, ok := at(c); ok {
				points = append(points, way.Point{X: x, Z: y})
			}
		}
		for i, q := range way.Hull(points) {
			if i == 0 {
				z.MoveTo(float32(q.X), float32(q.Z))
			} else {
				z.LineTo(float32(q.X), float32(q.Z))
			}
		}
		z.ClosePath()
	}
	mask := image.NewAlpha(image.Rect(0, 0, r.Dx(), r.Dy()))
	z.Draw(mask, mask.Rect, image.Opaque, image.Point{})
	return mask
}

// Leaves puts a broken line around what goes away, as drawings of demolition do, and beside it and the things an arrow that leads off.
func Leaves(img *image.NRGBA, at Lens, solids []geom.Convex, things []Thing) {
	const gap, thick, dash = 4, 2, 8 // pixels
	mask := shadow(img.Rect, at, solids)
	var box image.Rectangle
	for i, m := range mask.Pix {
		if m > 127 {
			box = box.Union(image.Rect(0, 0, 1, 1).Add(image.Pt(i%mask.Stride, i/mask.Stride)))
		}
	}
	within := func(x, y, r int) bool { // the ring so far off
		for _, q := range [][2]int{{0, 0}, {-r, 0}, {r, 0}, {0, -r}, {0, r}, {-r, -r}, {r, -r}, {-r, r}, {r, r}} {
			if mask.AlphaAt(x+q[0], y+q[1]).A > 127 {
				return true
			}
		}
		return false
	}
	for y := box.Min.Y - gap - thick; y < box.Max.Y+gap+thick; y++ {
		for x := box.Min.X - gap - thick; x < box.Max.X+gap+thick; x++ {
			if max(0, x+y)/dash%2 == 0 && within(x, y, gap+thick) && !within(x, y, gap) && !within(x, y, gap/2) {
				img.Set(x, y, ink)
			}
		}
	}
	for _, t := range things {
		if len(t.Line) == 1 { // words
			continue
		}
		for _, v := range append(t.Solid.Corners, t.Line...) {
			if x, y, ok := at(v); ok {
				box = box.Union(image.Rect(int(x), int(y), int(x)+1, int(y)+1).Intersect(img.Rect))
			}
		}
	}
	const long, half, off = 56, 16, 12 // pixels
	x, y := float64(box.Max.X+off), float64(box.Min.Y+box.Max.Y)/2
	if last := float64(img.Rect.Dx() - long - off); x > last { // no room beside it
		x, y = last, max(half+off, float64(box.Min.Y)-half-off)
	}
	p := newPaper(img)
	arrow := []spot{{x, y - half/2}, {x + long/2, y - half/2}, {x + long/2, y - half}, {x + long, y}, {x + long/2, y + half}, {x + long/2, y + half/2}, {x, y + half/2}}
	p.fill(color.White, arrow)
	p.line(ink, 3, append(arrow, arrow[0])...)
}

// Thing is something that is no part of the booth: a box on a trolley, a weight, a ladder, a hook.
type Thing struct {
	Solid  geom.Convex
	Colour color.NRGBA
	Line   []geom.Vec // a bar through places; of one place only, where the words stand
	Ring   *geom.Vec  // a mark on a wall
	Words  string     // over the ring, or on the middle of the solid
}

// Draw draws the thing as it is seen by an eye over whatever is in the picture.
func (t Thing) Draw(img *image.NRGBA, at Lens, eye geom.Vec) {
	p := newPaper(img)
	p.em *= 1.4 // pictures of steps are small
	place := func(points []geom.Vec) (out []spot) {
		for _, q := range points {
			if x, y, ok := at(q); ok {
				out = append(out, spot{x, y})
			}
		}
		return out
	}
	var middle geom.Vec
	for _, f := range t.Solid.Faces {
		var face geom.Polygon
		for _, i := range f {
			face = append(face, t.Solid.Corners[i])
			middle = middle.Add(t.Solid.Corners[i].Mul(1 / float64(len(f)*len(t.Solid.Faces))))
		}
		n := face.Normal()
		if n.Dot(eye.Sub(face.Centre())) <= 0 {
			continue
		}
		c, shade := t.Colour, 0.72+0.28*max(0, n.Y)-0.12*max(0, n.X)
		c.R, c.G, c.B = uint8(float64(c.R)*shade), uint8(float64(c.G)*shade), uint8(float64(c.B)*shade)
		if s := place(face); len(s) == len(face) {
			p.fill(c, s)
			p.line(ink, 1, append(s, s[0])...)
		}
	}
	if s := place(t.Line); len(s) > 1 {
		p.line(color.White, 4, s...)
		p.line(ink, 2, s...)
	}
	if t.Ring != nil {
		if s := place([]geom.Vec{*t.Ring}); len(s) == 1 {
			p.fill(color.White, ring(s[0], 5))
			p.line(red, 2, append(ring(s[0], 4), ring(s[0], 4)[0])...)
			if t.Words != "" {
				p.label(ink, 1, s[0].add(spot{0, -1.5 * p.em}), 1, t.Words)
			}
		}
	} else if t.Words != "" && len(t.Line) == 1 {
		p.label(ink, 1.1, place(t.Line)[0], 1, t.Words)
	} else if s := place([]geom.Vec{middle}); len(s) == 1 && t.Words != "" {
		p.middle(lettering.Bold, ink, 2.2, s[0].add(spot{0, 0.8 * p.em}), t.Words)
	}
}
