package picture

import (
	"image"
	"math"
	"math/bits"

	"boothmock/internal/basis/colour"
)

// texture is a square image that goes on and on, and its halves, quarters and so on, in linear light. Textures cover most of a
// picture and hold nothing that must be sharp, so they are looked up more quickly, and a little less exactly, than a
// pyramid is.
type texture struct {
	levels []weft
	hued   bool // else all of it is grey
	mean   rgb  // linear
}

// weft is one level of a texture: side × side texels. In a grey texture the numbers of a texel are the light of itself, of the
// one right of it, the one below and the one below right, so that a place between them is one look into memory.
type weft struct {
	shift  uint8 // side is 1 << shift
	mask   int   // side - 1
	texels []texel
}

// newTexture makes a texture of an opaque square image whose side is a power of two.
func newTexture(m *image.NRGBA) texture {
	var t texture
	side := m.Rect.Dx()
	for i := 0; i < len(m.Pix) && !t.hued; i += 4 {
		t.hued = m.Pix[i] != m.Pix[i+1] || m.Pix[i] != m.Pix[i+2]
	}
	light := make([]rgb, 0, side*side)
	for y := range side {
		pix := m.Pix[y*m.Stride:]
		for x := range side {
			light = append(light, rgb{colour.Light(pix[4*x]), colour.Light(pix[4*x+1]), colour.Light(pix[4*x+2])})
		}
	}
	for shift := bits.Len(uint(side)) - 1; shift >= 0; shift-- {
		t.levels = append(t.levels, woven(light, shift, t.hued))
		if shift > 0 {
			light = coarser(light, shift)
		}
	}
	t.mean = light[0]
	return t
}

// woven is the level of 1 << shift texels a side with this light.
func woven(light []rgb, shift int, hued bool) weft {
	l := weft{uint8(shift), 1<<shift - 1, make([]texel, len(light))}
	for i, c := range light {
		numbers := [4]float32{c.r, c.g, c.b}
		if !hued {
			x, y := i&l.mask, i>>shift<<shift
			right, below := (x+1)&l.mask, (y+1<<shift)%len(light)
			numbers = [4]float32{c.r, light[y+right].r, light[below+x].r, light[below+right].r}
		}
		for k, v := range numbers {
			l.texels[i] |= texelNumber(v) << (16 * k)
		}
	}
	return l
}

// coarser is the light of half as many texels a side as 1 << shift.
func coarser(light []rgb, shift int) []rgb {
	side := 1 << shift
	out := make([]rgb, 0, len(light)/4)
	for y := 0; y < len(light); y += 2 * side {
		up, low := light[y:][:side], light[y+side:][:side]
		for x := 0; x < side; x += 2 {
			a, b, c, d := up[x], up[x+1], low[x], low[x+1]
			out = append(out, rgb{(a.r + b.r + c.r + d.r) / 4, (a.g + b.g + c.g + d.g) / 4, (a.b + b.b + c.b + d.b) / 4})
		}
	}
	return out
}

// filter is how the colour under a pixel is found on a texture for one footprint. It is a mix of the two levels next to the
// pixel's width, each the straight-line mix of four texels; for a pixel that slants, the mean of two or four such places
// along it.
type filter struct {
	texture *texture
	count   int       // of places; 0 where the pixel is as wide as the whole texture
	levels  [2]*weft  // of which the second is half as fine
	shares  [2]uint64 // at each place
	side    float64   // of the texture, in units of the first level
	dx, dy  int       // from one place to the next, likewise
}

// set makes it ready for a footprint on a texture. Nothing here needs a division or a root.
func (w *filter) set(t *texture, g footprint) {
	w.texture, w.count = t, 0
	side := float64(int(1) << t.levels[0].shift)
	ax, ay, bx, by := g.ux*side, g.vx*side, g.uy*side, g.vy*side
	long, other := ax*ax+ay*ay, bx*bx+by*by // squared
	area := ax*by - ay*bx
	if long < other {
		long, ax, ay = other, bx, by
	}
	n, part := uint64(0), 1.0   // places, as a power of two, and what each is of the length
	if area *= area; long > 1 { // long²/area is the square of length over width
		switch long *= long; {
		case long > 9*area:
			n, part = 2, 0.25
		case long > 2.25*area:
			n, part = 1, 0.5
		}
		ax, ay = ax*part, ay*part
		long = ax*ax + ay*ay
	}
	// The square of the width of a place is (1 + 3·share)·4^k, with share from 0 to before 1.
	k, share := 0, 0.0
	if long > 1 {
		b := math.Float64bits(long)
		e := (int(b>>52) - 1023) >> 1
		k = min(e, len(t.levels)-1)
		share = (long*math.Float64frombits(uint64(1023-2*e)<<52) - 1) * (1.0 / 3)
	}
	upper := uint64(0)
	switch { // near a level's own width, that level alone will do
	case share > 0.8:
		k++
	case share > 0.2:
		upper = uint64((share-0.2)*(whole/0.6)) >> n
	}
	if k >= len(t.levels)-1 {
		return
	}
	scale := unit * math.Float64frombits(uint64(1023-k)<<52)
	w.count, w.side, w.dx, w.dy = 1<<n, side*scale, int(ax*scale), int(ay*scale)
	w.levels[0], w.levels[1] = &t.levels[k], &t.levels[k+1]
	w.shares[0], w.shares[1] = whole>>n-upper, upper
}

// at is the colour under a pixel whose middle is at a place: linear, from 0 to 1.
func (w *filter) at(u, v float64) rgb {
	if w.count == 0 {
		return w.texture.mean
	}
	x, y := int(u*w.side)-(w.count-1)*w.dx/2, int(v*w.side)-(w.count-1)*w.dy/2
	if !w.texture.hued {
		sum := uint64(0)
		for range w.count {
			sum += w.levels[0].grey(x-centre, y-centre) * w.shares[0]
			if w.shares[1] > 0 {
				sum += w.levels[1].grey(x>>1-centre, y>>1-centre) * w.shares[1]
			}
			x, y = x+w.dx, y+w.dy
		}
		c := float32(sum) * (1.0 / (65535 * whole * unit * unit))
		return rgb{c, c, c}
	}
	var sum blend
	for range w.count {
		w.levels[0].add(&sum, x-centre, y-centre, w.shares[0])
		if w.shares[1] > 0 {
			w.levels[1].add(&sum, x>>1-centre, y>>1-centre, w.shares[1])
		}
		x, y = x+w.dx, y+w.dy
	}
	return sum.light(whole)
}

// grey is the straight-line mix of the four texels about a place; 65535·unit² is all light.
func (l *weft) grey(x, y int) uint64 {
	right, below := uint64(x&(unit-1)), uint64(y&(unit-1))
	t := uint64(l.texels[(y>>places&l.mask)<<l.shift+x>>places&l.mask])
	rows := t&lanes*(unit-right) + t>>16&lanes*right // the upper two, and in the higher half the lower two
	return rows&math.MaxUint32*(unit-below) + rows>>32*below
}

// add adds a share of the straight-line mix of the four texels about a place.
func (l *weft) add(sum *blend, x, y int, share uint64) {
	x0, y0 := x>>places, y>>places
	x1, y1 := (x0+1)&l.mask, ((y0+1)&l.mask)<<l.shift
	x0, y0 = x0&l.mask, (y0&l.mask)<<l.shift
	sum.add(l.texels[y0+x0], l.texels[y0+x1], l.texels[y1+x0], l.texels[y1+x1], uint64(x&(unit-1)), uint64(y&(unit-1)), share)
}
