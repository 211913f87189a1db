package picture

import (
	"image"
	"math"
	"math/bits"

	"boothmock/internal/colour"
)

// texture is a square image that goes on and on, and its halves, quarters and so on, in linear light. Textures cover most of a
// picture and hold nothing that must be sharp, so they are looked up more quickly, and a little less exactly, than a
// pyramid is.
type texture struct {
	levels []weft
	hued   bool // else all of it is grey, and there is one number a texel
}

// weft is one level of a texture: side × side texels, of one number, or of three.
type weft struct {
	shift int // side is 1 << shift
	light []float32
}

// newTexture makes a texture of an opaque square image whose side is a power of two.
func newTexture(m *image.NRGBA) texture {
	var t texture
	side := m.Rect.Dx()
	for i := 0; i < len(m.Pix) && !t.hued; i += 4 {
		t.hued = m.Pix[i] != m.Pix[i+1] || m.Pix[i] != m.Pix[i+2]
	}
	count := t.count()
	top := weft{bits.Len(uint(side)) - 1, make([]float32, 0, count*side*side)}
	for y := range side {
		pix := m.Pix[y*m.Stride:]
		for x := range side {
			for k := range count {
				top.light = append(top.light, colour.Light(pix[4*x+k]))
			}
		}
	}
	t.levels = append(t.levels, top)
	for l := top; l.shift > 0; {
		l = l.halved(count)
		t.levels = append(t.levels, l)
	}
	return t
}

func (t *texture) count() int {
	if t.hued {
		return 3
	}
	return 1
}

func (l weft) halved(count int) weft {
	h := weft{l.shift - 1, make([]float32, 0, len(l.light)/4)}
	side := 1 << h.shift
	row := count << l.shift
	for y := range side {
		up, low := l.light[2*y*row:], l.light[(2*y+1)*row:]
		for x := range side {
			for k := range count {
				i, j := 2*x*count+k, (2*x+1)*count+k
				h.light = append(h.light, (up[i]+up[j]+low[i]+low[j])/4)
			}
		}
	}
	return h
}

// mean is the texture's mean colour, linear.
func (t *texture) mean() rgb {
	last := t.levels[len(t.levels)-1].light
	return rgb{last[0], last[len(last)/2], last[len(last)-1]}
}

// under is the colour under one pixel: linear, from 0 to 1. It is a mix of the two levels next to the pixel's width, each
// the straight-line mix of four texels; for a pixel that slants, the mean of two or four such places along it. Nothing
// here needs a division or a root.
func (t *texture) under(u, v float64, g footprint) (c rgb) {
	side := float64(int(1) << t.levels[0].shift)
	ax, ay, bx, by := g.ux*side, g.vx*side, g.uy*side, g.vy*side
	long, other := ax*ax+ay*ay, bx*bx+by*by // squared
	area := ax*by - ay*bx
	if long < other {
		long, ax, ay = other, bx, by
	}
	n, part := 1, 1.0
	if area *= area; long > 1 { // long²/area is the square of length over width
		switch long *= long; {
		case long > 9*area:
			n, part = 4, 0.25
		case long > 2.25*area:
			n, part = 2, 0.5
		}
		long = (ax*ax + ay*ay) * part * part
	}
	// The square of the width of a place is (1 + 3·share)·4^k, with share from 0 to before 1.
	k, share := 0, 0.0
	if long > 1 {
		b := math.Float64bits(long)
		e := (int(b>>52) - 1023) >> 1
		k = min(e, len(t.levels)-1)
		share = (long*math.Float64frombits(uint64(1023-2*e)<<52) - 1) / 3
	}
	var upper float32
	switch { // near a level's own width, that level alone will do
	case share > 0.8:
		k++
	case share > 0.2:
		upper = float32(share-0.2) / 0.6
	}
	if k >= len(t.levels)-1 {
		return t.mean()
	}
	scale := side * unit * math.Float64frombits(uint64(1023-k)<<52)
	x, y := u*scale, v*scale
	scale *= part / side
	ax, ay = ax*scale, ay*scale
	x, y = x-float64(n-1)*ax/2, y-float64(n-1)*ay/2
	lower := float32(part) * (1 - upper)
	upper *= float32(part)
	for range n {
		t.levels[k].knit(t.hued, int(x)-centre, int(y)-centre, lower, &c)
		if upper > 0 {
			t.levels[k+1].knit(t.hued, int(x/2)-centre, int(y/2)-centre, upper, &c)
		}
		x, y = x+ax, y+ay
	}
	if !t.hued {
		c[1], c[2] = c[0], c[0]
	}
	return c
}

// unit is a texel in the whole numbers that places on a level are counted in.
const (
	places = 12
	unit   = 1 << places
	centre = unit / 2 // of a texel
)

// knit adds to sum a share of the straight-line mix of the four texels about a place: all of sum, or its first number
// where the level is grey.
func (l *weft) knit(hued bool, x, y int, share float32, sum *rgb) {
	mask := 1<<l.shift - 1
	tx, ty := float32(x&(unit-1))*(1.0/unit), float32(y&(unit-1))*(1.0/unit)
	x, y = x>>places, y>>places
	up, low := (y&mask)<<l.shift, ((y+1)&mask)<<l.shift
	x0, x1 := x&mask, (x+1)&mask
	if !hued {
		a, b := l.light[up+x0], l.light[low+x0]
		a += (l.light[up+x1] - a) * tx
		b += (l.light[low+x1] - b) * tx
		sum[0] += share * (a + (b-a)*ty)
		return
	}
	p, q := l.light[3*(up+x0):][:3], l.light[3*(up+x1):][:3]
	r, s := l.light[3*(low+x0):][:3], l.light[3*(low+x1):][:3]
	for k := range sum {
		a, b := p[k], r[k]
		a += (q[k] - a) * tx
		b += (s[k] - b) * tx
		sum[k] += share * (a + (b-a)*ty)
	}
}
