package picture

import (
	"encoding/binary"
	"image"
	"math"

	"boothmock/internal/colour"
)

// pyramid is an image and its halves, quarters and so on, for looking up the mean colour under a pixel. All levels are
// sRGB bytes; all means are taken in linear light. Texel i of level k covers the 2^k texels from i·2^k of the image.
type pyramid struct {
	levels []level
}

type level struct {
	width, height, stride int
	pix                   []uint8 // red, green, blue and one byte unused
}

// newPyramid makes the pyramid. The image itself is level 0 and must not change; where it is not opaque, white shows
// through.
func newPyramid(m *image.NRGBA) pyramid {
	b := m.Bounds()
	top := level{b.Dx(), b.Dy(), m.Stride, m.Pix[m.PixOffset(b.Min.X, b.Min.Y):]}
	if !m.Opaque() {
		top = onWhite(top)
	}
	p := pyramid{[]level{top}}
	for l := top; l.width > 1 || l.height > 1; {
		l = half(l)
		p.levels = append(p.levels, l)
	}
	return p
}

func onWhite(l level) level {
	o := level{l.width, l.height, 4 * l.width, make([]uint8, 4*l.width*l.height)}
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
func half(l level) level {
	h := level{width: (l.width + 1) / 2, height: (l.height + 1) / 2}
	h.stride = 4 * h.width
	h.pix = make([]uint8, h.stride*h.height)
	for y := range h.height {
		up := l.pix[2*y*l.stride:]
		low := l.pix[min(2*y+1, l.height-1)*l.stride:]
		row := h.pix[y*h.stride : (y+1)*h.stride]
		for x := range h.width {
			i, j := 8*x, 4*min(2*x+1, l.width-1)
			for k := range 3 {
				row[4*x+k] = colour.Byte((colour.Light(up[i+k]) + colour.Light(up[j+k]) + colour.Light(low[i+k]) + colour.Light(low[j+k])) / 4)
			}
		}
	}
	return h
}

// footprint is how far a step of one pixel right (x) and down (y) goes on an image, in widths (u) and heights (v) of it.
type footprint struct{ ux, vx, uy, vy float64 }

// probes is how many, at most, are spent on one pixel.
const probes = 64

// blur is the variance, in twelfths of a squared texel of level k, that looking up between texels brings by itself, in
// the mean over where an edge falls: 1 for the level's texels being wide, 2 for the straight line between them, less
// what the image's own texels have of both.
func blur(k int) float64 { return 3 - 2*math.Ldexp(1, -2*k) }

// mean is the colour under one pixel: linear, from 0 to 1. The pixel's footprint, a parallelogram on the image, is
// covered evenly with probes, each the straight-line mix of four texels. The level is chosen so that the probes are not
// many, and the pixel, where it is narrow, is so many texels wide at least; how far they spread is reckoned so that with
// what the level adds, the blur (as variance) is that of the pixel itself. So nothing shimmers, nothing is softer than the
// pixel makes it, and levels do not show. From two texels to a pixel down to one, the smooth curve through the texels
// takes over.
func (p *pyramid) mean(u, v float64, g footprint, texels float64) rgb {
	w, h := float64(p.levels[0].width), float64(p.levels[0].height)
	x, y := min(max(u, -9), 9)*w, min(max(v, -9), 9)*h
	ax, ay, bx, by := g.ux*w, g.vx*h, g.uy*w, g.vy*h
	a, b := math.Sqrt(ax*ax+ay*ay), math.Sqrt(bx*bx+by*by)
	long := max(a, b)
	if long <= 1 {
		return p.levels[0].cubic(x, y)
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
	na, nb = min(na, probes), min(nb, probes)
	scale := math.Ldexp(1, -k)
	ax, ay, bx, by = ax*sa*scale, ay*sa*scale, bx*sb*scale, by*sb*scale
	l := &p.levels[k]
	fromX := x*scale - (float64(na-1)*ax+float64(nb-1)*bx)/2
	fromY := y*scale - (float64(na-1)*ay+float64(nb-1)*by)/2
	var sum rgb
	for i := range na {
		for j := range nb {
			l.mix(fromX+float64(i)*ax+float64(j)*bx, fromY+float64(i)*ay+float64(j)*by, &sum)
		}
	}
	n := 1 / float32(na*nb)
	sum = rgb{sum[0] * n, sum[1] * n, sum[2] * n}
	if long < 2 {
		return p.levels[0].cubic(x, y).toward(sum, long-1)
	}
	return sum
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

// mix adds to sum the straight-line mix of the four texels about x, y; beyond the border the border's texels go on.
func (l *level) mix(x, y float64, sum *rgb) {
	x0, tx := place(x)
	y0, ty := place(y)
	x1, y1 := held(x0+1, l.width), held(y0+1, l.height)
	x0, y0 = held(x0, l.width), held(y0, l.height)
	up, low := l.pix[y0*l.stride:], l.pix[y1*l.stride:]
	p00, p01 := binary.LittleEndian.Uint32(up[4*x0:]), binary.LittleEndian.Uint32(up[4*x1:])
	p10, p11 := binary.LittleEndian.Uint32(low[4*x0:]), binary.LittleEndian.Uint32(low[4*x1:])
	w11 := tx * ty
	w01, w10 := tx-w11, ty-w11
	w00 := 1 - tx - w10
	sum[0] += w00*colour.Light(uint8(p00)) + w01*colour.Light(uint8(p01)) + w10*colour.Light(uint8(p10)) + w11*colour.Light(uint8(p11))
	sum[1] += w00*colour.Light(uint8(p00>>8)) + w01*colour.Light(uint8(p01>>8)) + w10*colour.Light(uint8(p10>>8)) + w11*colour.Light(uint8(p11>>8))
	sum[2] += w00*colour.Light(uint8(p00>>16)) + w01*colour.Light(uint8(p01>>16)) + w10*colour.Light(uint8(p10>>16)) + w11*colour.Light(uint8(p11>>16))
}

// cubic is the smooth curve through the sixteen texels about x, y (Catmull and Rom's spline), held between the least
// and the most of the four nearest, so that no bright or dark lines appear beside edges.
func (l *level) cubic(x, y float64) rgb {
	x0, tx := place(x)
	y0, ty := place(y)
	wx, wy := spline(tx), spline(ty)
	lo, hi := rgb{1, 1, 1}, rgb{}
	var sum rgb
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
	return sum
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
