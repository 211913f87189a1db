package picture

import (
	"image"
	"math"

	"boothmock/internal/basis/colour"
)

// pyramid is an image and its halves, quarters and so on, for looking up the mean colour under a pixel. All means are taken in
// linear light. Texel i of level k covers the 2^k texels from i·2^k of the image.
type pyramid struct {
	levels []level
}

// level is width × height texels. The image itself is level 0, as the bytes that it has; the others are made.
type level struct {
	width, height int
	stride        int
	pix           []uint8 // red, green, blue and one byte unused
	texels        []texel // row by row
}

// newPyramid makes the pyramid. The image must not change; where it is not opaque, white shows through.
func newPyramid(m *image.NRGBA) pyramid {
	b := m.Bounds()
	top := level{width: b.Dx(), height: b.Dy(), stride: m.Stride, pix: m.Pix[m.PixOffset(b.Min.X, b.Min.Y):]}
	if !m.Opaque() {
		top = onWhite(top)
	}
	p := pyramid{[]level{top}}
	for l := &top; l.width > 1 || l.height > 1; l = &p.levels[len(p.levels)-1] {
		p.levels = append(p.levels, half(l))
	}
	return p
}

func onWhite(l level) level {
	o := level{width: l.width, height: l.height, stride: 4 * l.width, pix: make([]uint8, 4*l.width*l.height)}
	for y := range l.height {
		for x := range l.width {
			from, to := l.pix[y*l.stride+4*x:], o.pix[y*o.stride+4*x:]
			a := float32(from[3]) / 255
			for k := range 3 {
				to[k] = colour.Byte(float32(colour.Light(from[k])*a) + 1 - a)
			}
		}
	}
	return o
}

// half is the level of half the size, rounded up.
func half(l *level) level {
	h := level{width: (l.width + 1) / 2, height: (l.height + 1) / 2}
	h.texels = make([]texel, 0, h.width*h.height)
	for y := range h.height {
		y0, y1 := 2*y, min(2*y+1, l.height-1)
		for x := range h.width {
			x0, x1 := 2*x, min(2*x+1, l.width-1)
			h.texels = append(h.texels, meanOf(l.at(x0, y0), l.at(x1, y0), l.at(x0, y1), l.at(x1, y1)))
		}
	}
	return h
}

// at is the texel x, y, which there must be.
func (l *level) at(x, y int) texel {
	if l.texels != nil {
		return l.texels[y*l.width+x]
	}
	c := l.pix[y*l.stride+4*x:][:3]
	return texelOf(c[0], c[1], c[2])
}

// footprint is how far a step of one pixel right (x) and down (y) goes on an image, in widths (u) and heights (v) of it.
type footprint struct{ ux, vx, uy, vy float64 }

// probes is how many, at most, are spent on one pixel.
const probes = 64

// blur is the variance, in twelfths of a squared texel of level k, that looking up between texels brings by itself, in
// the mean over where an edge falls: 1 for the level's texels being wide, 2 for the straight line between them, less
// what the image's own texels have of both.
func blur(k int) float64 { return 3 - 2*math.Ldexp(1, -2*k) }

// window is how the colour under a pixel is found on an image for one footprint. The footprint, a parallelogram on the image,
// is covered evenly with probes, each the straight-line mix of four texels. The level is chosen so that the probes are not
// many, and the pixel, where it is narrow, is so many texels wide at least; how far they spread is calculated so that with
// what the level adds, the blur (as variance) is that of the pixel itself. So nothing shimmers, nothing is softer than the
// pixel makes it, and levels do not show. From two texels to a pixel down to one, the smooth curve through the texels
// takes over.
type window struct {
	image          *level
	smooth         float64 // the share of that curve
	level          *level
	na, nb         int     // probes along and across
	ax, ay, bx, by int     // from one to the next, in units of the level
	width, height  float64 // of the image, in units of the level
}

// set makes it ready for a footprint on an image, with a pixel so many texels wide at least.
func (w *window) set(p *pyramid, g footprint, texels float64) {
	top := &p.levels[0]
	width, height := float64(top.width), float64(top.height)
	ax, ay, bx, by := g.ux*width, g.vx*height, g.uy*width, g.vy*height
	a, b := math.Sqrt(ax*ax+ay*ay), math.Sqrt(bx*bx+by*by)
	long := max(a, b)
	if long <= 1 {
		*w = window{image: top, smooth: 1}
		return
	}
	narrow := math.Abs(ax*by-ay*bx) / long
	k := 0
	for k+1 < len(p.levels) && narrow >= texels {
		k, narrow = k+1, narrow/2
	}
	var na, nb int
	var sa, sb float64
	for ; ; k++ {
		na, sa = spread(a, k)
		nb, sb = spread(b, k)
		if na*nb <= probes || k+1 == len(p.levels) {
			break
		}
	}
	scale := math.Ldexp(unit, -k)
	sa, sb = sa*scale, sb*scale
	*w = window{
		image: top, smooth: max(0, 2-long), level: &p.levels[k],
		na: min(na, probes), nb: min(nb, probes), ax: int(ax * sa), ay: int(ay * sa), bx: int(bx * sb), by: int(by * sb),
		width: width * scale, height: height * scale,
	}
}

// at is the colour under a pixel whose middle is at a place: linear, from 0 to 1.
func (w *window) at(u, v float64) rgb {
	u, v = min(max(u, -9), 9), min(max(v, -9), 9)
	if w.smooth == 1 {
		return w.image.cubic(u*float64(w.image.width), v*float64(w.image.height))
	}
	l := w.level
	x := int(u*w.width) - ((w.na-1)*w.ax+(w.nb-1)*w.bx)/2 - centre
	y := int(v*w.height) - ((w.na-1)*w.ay+(w.nb-1)*w.by)/2 - centre
	share := uint64(whole / (w.na * w.nb))
	var sum blend
	for range w.na {
		for i := range w.nb {
			x, y := x+i*w.bx, y+i*w.by
			x0, y0 := x>>places, y>>places
			x1, y1 := held(x0+1, l.width), held(y0+1, l.height)
			x0, y0 = held(x0, l.width), held(y0, l.height)
			sum.add(l.at(x0, y0), l.at(x1, y0), l.at(x0, y1), l.at(x1, y1), uint64(x&(unit-1)), uint64(y&(unit-1)), share)
		}
		x, y = x+w.ax, y+w.ay
	}
	c := sum.light(share * uint64(w.na*w.nb))
	if w.smooth > 0 {
		return c.toward(w.image.cubic(u*float64(w.image.width), v*float64(w.image.height)), w.smooth)
	}
	return c
}

// spread is how many probes on level k a side of the footprint, length texels of the image long, is given, and their
// distance as a share of it.
func spread(length float64, k int) (n int, step float64) {
	length = math.Ldexp(length, -k)
	wide := length*length - blur(k) // twelve times the variance that the probes must bring
	if wide <= 0 {
		return 1, 0
	}
	n = max(2, int(math.Ceil(math.Sqrt(wide)/1.2))) // so that they are never more than 1.4 texels apart
	// n probes a step apart have the variance step²(n²-1)/12.
	return n, math.Sqrt(wide/float64(n*n-1)) / length
}

// cubic is the smooth curve through the sixteen texels about x, y (Catmull and Rom's spline), held between the least
// and the most of the four nearest, so that no bright or dark lines appear beside edges.
func (l *level) cubic(x, y float64) rgb {
	x0, tx := place(x)
	y0, ty := place(y)
	wx, wy := spline(tx), spline(ty)
	lo, hi := [3]float32{1, 1, 1}, [3]float32{}
	var sum [3]float32
	for j := range 4 {
		for i := range 4 {
			pix := l.pix[held(y0+j-1, l.height)*l.stride+4*held(x0+i-1, l.width):]
			w := wx[i] * wy[j]
			inner := (i == 1 || i == 2) && (j == 1 || j == 2)
			for k := range 3 {
				v := colour.Light(pix[k])
				sum[k] += float32(w * v)
				if inner {
					lo[k], hi[k] = min(lo[k], v), max(hi[k], v)
				}
			}
		}
	}
	for k := range sum {
		sum[k] = min(max(sum[k], lo[k]), hi[k])
	}
	return rgb{sum[0], sum[1], sum[2]}
}

func spline(t float32) [4]float32 {
	return [4]float32{
		((2-t)*t - 1) * t / 2,
		((3*t-5)*t*t + 2) / 2,
		((4-3*t)*t + 1) * t / 2,
		(t - 1) * t * t / 2,
	}
}

// off makes rounding towards 0 a rounding down, for any place on an image that is not absurdly far beside it.
const off = 1 << 20

// place is the texel whose middle is at or before a coordinate, and how far on from there to the next it lies.
func place(x float64) (i int, t float32) {
	x += off - 0.5
	i = int(x)
	return i - off, float32(x - float64(i))
}

// held is the texel i of n, or the nearest one where there is none.
func held(i, n int) int { return min(max(i, 0), n-1) }
