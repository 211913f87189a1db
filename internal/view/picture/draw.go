package picture

import (
	"image"
	"math"
	"math/bits"
	"slices"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Draw is the picture of the view: opaque, sRGB.
func (s *Stage) Draw(v booth.View, o Options) *image.NRGBA {
	return DrawEach([]*Stage{s}, v, o)[0]
}

// DrawEach draws the same view of several stages of one plan, of which each has much in common with the one before: only
// the tiles in which something changed are drawn anew.
func DrawEach(stages []*Stage, v booth.View, o Options) []*image.NRGBA {
	if len(stages) == 0 {
		return nil
	}
	c := cameraFor(v, stages[0].filled(o))
	return drawEach(stages, c, o.pattern(), left(v, o), o.exposure(), func(s *Stage) []rgb { return s.backdrop(c, o.exposure()) })
}

func drawEach(stages []*Stage, c lens, p *pattern, leave func(*booth.Part) bool, brighter [3]float32, backdrop func(*Stage) []rgb) []*image.NRGBA {
	var out []*image.NRGBA
	var last *frame
	for i, s := range stages {
		f := s.frame(c, p, leave)
		f.brighter = brighter
		if len(stages) == 1 && c.focal > 0 { // neither in pictures of the set-up, nor in a drawing to scale
			f.glaze(s, leave)
		}
		m, changed := image.NewNRGBA(image.Rect(0, 0, f.width, f.height)), f.all()
		if i > 0 {
			copy(m.Pix, out[i-1].Pix)
			changed = slices.DeleteFunc(changed, func(k int) bool { return f.shows(last, k) })
		}
		f.draw(m, changed, backdrop(s))
		out, last = append(out, m), f
	}
	return out
}

// shows is whether a tile has the same triangles, in the same light, as in another frame of the same camera.
func (f *frame) shows(g *frame, tile int) bool {
	return slices.EqualFunc(f.in(tile), g.in(tile), func(i, j uint32) bool {
		t, u := &f.triangles[i], &g.triangles[j]
		return t.number == u.number && &t.surface.vertices[0] == &u.surface.vertices[0]
	})
}

// DrawFlat is a drawing to scale: the rectangle of the frame's XY plane from (0, 0) to (width, height) metres, seen from
// the frame's front, without perspective. Only what lies between back and front, in metres along the frame's Z, is
// drawn: for an elevation of a wall, the wall's frame and what hangs before it; for a plan from above, a frame that
// faces up. Parts for which leave is true are left out; nil leaves none. What shows nothing is white.
func (s *Stage) DrawFlat(f geom.Frame, width, height, pixelsPerMetre, back, front float64, leave func(*booth.Part) bool) *image.NRGBA {
	return DrawEachFlat([]*Stage{s}, f, width, height, pixelsPerMetre, back, front, leave)[0]
}

// DrawEachFlat is DrawFlat of stages that differ little from one to the next.
func DrawEachFlat(stages []*Stage, f geom.Frame, width, height, pixelsPerMetre, back, front float64, leave func(*booth.Part) bool) []*image.NRGBA {
	size := [2]int{int(width*pixelsPerMetre + 0.5), int(height*pixelsPerMetre + 0.5)}
	rows := make([]rgb, size[1])
	for i := range rows {
		rows[i] = rgb{1, 1, 1}
	}
	return drawEach(stages, flat(f, width, height, size, back, front), &fine, leave, Options{}.exposure(), func(*Stage) []rgb { return rows })
}

// left is what the picture leaves out.
func left(v booth.View, o Options) func(*booth.Part) bool {
	if !v.Bare && !o.Alone {
		return nil
	}
	return func(p *booth.Part) bool { return v.Bare && (p.Dressing || p.Beyond) || o.Alone && p.Moving }
}

// IDs is which part the middle of every pixel of the view's picture shows: its number in Plan.Parts, row by row from
// the upper left; -1 where there is none.
func (s *Stage) IDs(v booth.View, o Options) []int {
	f := s.frame(cameraFor(v, s.filled(o)), &middle, left(v, o))
	ids := make([]int, f.width*f.height)
	f.paint(f.all(), func(l *slate, x0, y0 int) {
		for y := y0; y < min(y0+tile, f.height); y++ {
			for x := x0; x < min(x0+tile, f.width); x++ {
				id := -1
				if n := l.whole[(y-y0)*tile+x-x0]; n != 0 {
					id = f.triangles[n].surface.part
				}
				ids[y*f.width+x] = id
			}
		}
	})
	return ids
}

// weave is an 8 × 8 square of shares of a level, in 256ths, each step far from the last (ordered dither, after B. Bayer,
// IEEE International Conference on Communications, 1973). They are kept from 0 and 256, so that an image's own bytes
// come out as they are.
var weave = func() (w [8][8]uint8) {
	for y := range 8 {
		for x := range 8 {
			rank := 0
			for bit := range 3 {
				a, b := x>>bit&1, y>>bit&1
				rank = rank<<2 | (a^b)<<1 | b
			}
			w[y][x] = uint8(33 + 3*rank)
		}
	}
	return w
}()

// alike is by how much, as a share, the distances of pixels side by side may differ for what a step of a pixel is on an image to
// be calculated once for them.
const alike = 1.0 / 20

// draw paints tiles of the frame before a background that has one colour a row.
func (f *frame) draw(m *image.NRGBA, tiles []int, background []rgb) {
	f.eachRow(tiles, background, func(x0, y int, row []rgb) {
		pix := m.Pix[y*m.Stride+4*x0:][:4*len(row)]
		for x := range row {
			c, share := &row[x], weave[y%8][(x0+x)%8]
			pix[0], pix[1], pix[2], pix[3] = colour.Dithered(c.r, share), colour.Dithered(c.g, share), colour.Dithered(c.b, share), 255
			pix = pix[4:]
		}
	})
}

// eachRow visits the rows of pixels of tiles, in linear light.
func (f *frame) eachRow(tiles []int, background []rgb, visit func(x0, y int, row []rgb)) {
	f.paint(tiles, func(l *slate, x0, y0 int) {
		var row [tile]rgb
		for y := y0; y < min(y0+tile, f.height); y++ {
			whole := l.whole[(y-y0)*tile:][:min(tile, f.width-x0)]
			for x := 0; x < len(whole); {
				n, end := whole[x], x+1
				switch n {
				case 0:
					row[x] = background[y]
				case mixed:
					row[x] = l.blend(f, (y-y0)*tile+x, x0+x, y, background[y])
				default:
					for end < len(whole) && whole[end] == n {
						end++
					}
					l.shade(f, row[x:end], &f.triangles[n], float64(x0+x)+0.5, float64(y)+0.5)
				}
				x = end
			}
			visit(x0, y, row[:len(whole)])
		}
	})
}

// blend is the mean of a mixed pixel's samples. Each triangle is shaded once, in the middle of its samples, or one for all that
// go on from it.
func (l *slate) blend(f *frame, p, x, y int, background rgb) (sum rgb) {
	each := 1 / float32(len(l.x))
	px, py := float64(x)+0.5, float64(y)+0.5
	for left, i := l.all(), 0; left != 0; i++ {
		q := l.parts[p][i]
		if q.samples &= left; q.samples == 0 {
			continue // another one was shaded for it
		}
		c := background
		if q.triangle != 0 {
			var one [1]rgb
			q = l.goingOn(f, l.parts[p][i:], left, px, py)
			mx, my := l.middle(q.samples)
			l.shade(f, one[:], &f.triangles[q.triangle], px+mx, py+my)
			c = one[0]
		}
		left &^= q.samples
		sum = sum.plus(c, each*float32(bits.OnesCount32(q.samples)))
	}
	return sum
}

// goingOn is the first of the parts of the pixel about px, py together with those, of the samples that are left, in which it goes
// on, and the triangle that the middle of all of them is on. If none is there, it is the first part alone.
func (l *slate) goingOn(f *frame, parts []part, left uint32, px, py float64) part {
	first := part{parts[0].triangle, parts[0].samples & left}
	all, t := first.samples, &f.triangles[first.triangle]
	for i, rest := 1, left&^all; rest != 0; i++ {
		if of := parts[i].samples & rest; of != 0 && t.goesOn(&f.triangles[parts[i].triangle]) {
			all |= of
		}
		rest &^= parts[i].samples
	}
	if all == first.samples {
		return first
	}
	x, y := l.middle(all)
	for i, rest := 0, all; rest != 0; i++ {
		if parts[i].samples&rest != 0 && f.triangles[parts[i].triangle].holds(px+x, py+y) {
			return part{parts[i].triangle, all}
		}
		rest &^= parts[i].samples
	}
	return first
}

// middle is the mean place of some samples, from the middle of the pixel.
func (l *slate) middle(samples uint32) (x, y float64) {
	count := float64(bits.OnesCount32(samples))
	for ; samples != 0; samples &= samples - 1 {
		s := bits.TrailingZeros32(samples)
		x, y = x+l.x[s], y+l.y[s]
	}
	return x / count, y / count
}

// dimSun is the sun's light that is not looked for: a thousandth of what open level ground gets from the sky.
const dimSun = 1e-3

// shade sets the light that the triangle sends to the eye at places on the screen: x, y and the next ones to the right, a pixel
// apart.
func (l *slate) shade(f *frame, out []rgb, t *triangle, x, y float64) {
	p, last := t.pane(x, y), x+float64(len(out)-1)
	perW := p.perW.along(y)
	if half := len(out) / 2; half > 0 && (t.pane(last, y) != p || math.Abs(perW.x)*(last-x) > alike*perW.at(x)) {
		l.shade(f, out[:half], t, x, y)
		l.shade(f, out[half:], t, x+float64(half), y)
		return
	}
	u, v := p.u.along(y), p.v.along(y)
	light := [3]line{p.light[0].along(y), p.light[1].along(y), p.light[2].along(y)}
	im, tx := t.surface.image, t.surface.texture
	if im != nil || tx != nil {
		middle := (x + last) / 2
		w := 1 / perW.at(middle)
		u, v := u.at(middle)*w, v.at(middle)*w
		g := footprint{ // the quotient rule
			ux: (p.u.x - u*p.perW.x) * w, vx: (p.v.x - v*p.perW.x) * w,
			uy: (p.u.y - u*p.perW.y) * w, vy: (p.v.y - v*p.perW.y) * w,
		}
		if tx != nil {
			l.filter.set(tx, g)
		} else {
			l.window.set(im, g, l.texels)
		}
	}
	var before *glazed
	if f.panes != nil && t.surface.glass.Mirrors() {
		before = f.panes[t.surface.part]
	}
	var piece *piece
	for i := range out {
		w := 1 / perW.at(x)
		c := rgb{float32(light[0].at(x) * w), float32(light[1].at(x) * w), float32(light[2].at(x) * w)}
		if p.mosaic != nil {
			c, piece = p.mosaic.at(c.g, c.b, piece)
		}
		if f.sun != nil {
			if sun := p.sun.at(x, y) * w; sun > dimSun {
				s := float32(sun * f.sun.Open(f.spot(x, y, w), t.surface.part, f.left))
				c = rgb{c.r + s, c.g + s, c.b + s}
			}
		}
		c = f.factor(t.surface, c)
		switch {
		case tx != nil:
			c = c.times(l.filter.at(u.at(x)*w, v.at(x)*w))
		case im != nil:
			c = c.times(l.window.at(u.at(x)*w, v.at(x)*w))
		}
		if before != nil {
			c = before.over(c, f, t.surface, x, y, w)
		}
		out[i] = c
		x++
	}
}
