package art

import (
	"image"
	"math"

	"golang.org/x/image/draw"
)

// taps are the source pixels that make one pixel of a shrunk picture, and their weights in 1/one.
type taps struct {
	from   int
	weight []int64
}

const one = 1 << 14

// catmullRom is the weights that shrink n pixels to m: the Catmull-Rom cubic (Keys, "Cubic convolution interpolation
// for digital image processing", 1981, a = -1/2), widened so that every source pixel counts.
func catmullRom(n, m int) []taps {
	out := make([]taps, m)
	scale := float64(n) / float64(m)
	for i := range out {
		middle := float64((float64(i) + 0.5) * scale)
		lo, hi := max(0, int(middle-float64(2*scale))), min(n, int(math.Ceil(middle+float64(2*scale))))
		w := make([]float64, hi-lo)
		sum := 0.0
		for k := range w {
			t := math.Abs((float64(lo+k) + 0.5 - middle) / scale)
			switch {
			case t < 1:
				w[k] = float64(float64(float64(1.5*t)-2.5)*float64(t*t)) + 1
			case t < 2:
				w[k] = float64(float64(float64(float64(-0.5*t)+2.5)*t-4)*t) + 2
			}
			sum += w[k]
		}
		out[i] = taps{lo, make([]int64, hi-lo)}
		left, top := int64(one), 0
		for k := range w {
			out[i].weight[k] = int64(math.Round(w[k] / sum * one))
			left -= out[i].weight[k]
			if w[k] > w[top] {
				top = k
			}
		}
		out[i].weight[top] += left // the weights add up to one, so that plain colours stay as they are
	}
	return out
}

// pair is two sums that are calculated as one number: one in the lower 32 bits, one above. Both may be less than 0.
type pair int64

func paired(lower, upper int32) pair { return pair(lower) + pair(upper)<<32 }

func (p pair) parts() (lower, upper int32) {
	lower = int32(p)
	return lower, int32((p - pair(lower)) >> 32)
}

// Shrink scales the picture down to size. It goes down the picture once and holds only the rows that it needs, so that
// a photograph of 100 megapixels takes no more room than its decoder does.
func Shrink(m image.Image, size image.Point) *image.NRGBA {
	if o, ok := m.(*image.NRGBA); ok && o.Opaque() {
		m = &image.RGBA{Pix: o.Pix, Stride: o.Stride, Rect: o.Rect} // the same, and copied more quickly
	}
	r := m.Bounds()
	across, down := catmullRom(r.Dx(), size.X), catmullRom(r.Dy(), size.Y)
	most := 0
	for _, t := range down {
		most = max(most, len(t.weight))
	}
	ring, next := make([][]pair, most), 0 // row y of the source, premultiplied, is in ring[y%most]: red and blue, green and alpha
	for i := range ring {
		ring[i] = make([]pair, 2*r.Dx())
	}
	line := image.NewRGBA(image.Rect(0, 0, r.Dx(), 1))
	out := image.NewNRGBA(image.Rectangle{Max: size})
	row := make([]pair, 2*r.Dx())
	for y, t := range down {
		for ; next < t.from+len(t.weight); next++ {
			draw.Draw(line, line.Rect, m, image.Pt(r.Min.X, r.Min.Y+next), draw.Src)
			premultiplied(ring[next%most], line.Pix)
		}
		clear(row)
		for k := 0; k < len(t.weight); k += rowsAtOnce {
			var from [rowsAtOnce][]pair
			var weight [rowsAtOnce]pair
			for j := range from {
				from[j] = ring[t.from%most] // any, with the weight 0
				if k+j < len(t.weight) {
					from[j], weight[j] = ring[(t.from+k+j)%most], pair(t.weight[k+j])
				}
			}
			addRows(row, from, weight)
		}
		for i, v := range row {
			lower, upper := v.parts()
			row[i] = paired((lower+1<<5)>>6, (upper+1<<5)>>6) // 8 bits after the point are enough, and leave room for the second weight
		}
		for x := range across {
			t := &across[x]
			var rb, ga pair
			p := row[2*t.from:]
			for _, w := range t.weight {
				if len(p) < 2 { // never: it spares looking at each
					break
				}
				rb += pair(w) * p[0]
				ga += pair(w) * p[1]
				p = p[2:]
			}
			var s [4]int32
			s[0], s[2] = rb.parts()
			s[1], s[3] = ga.parts()
			store(out.Pix[out.PixOffset(x, y):], s)
		}
	}
	return out
}

// premultiplied are the pixels of a line as pairs.
func premultiplied(to []pair, pix []uint8) {
	for len(to) >= 2 && len(pix) >= 4 {
		to[0], to[1] = pair(pix[0])|pair(pix[2])<<32, pair(pix[1])|pair(pix[3])<<32
		to, pix = to[2:], pix[4:]
	}
}

// rowsAtOnce are the rows that are weighed in one pass over the sums: half of what makes a row where a photograph is halved.
const rowsAtOnce = 4

// addRows adds rows to one, each with its weight.
func addRows(row []pair, from [rowsAtOnce][]pair, weight [rowsAtOnce]pair) {
	a, b, c, d := from[0][:len(row)], from[1][:len(row)], from[2][:len(row)], from[3][:len(row)]
	wa, wb, wc, wd := weight[0], weight[1], weight[2], weight[3]
	for i := range row {
		row[i] += wa*a[i] + wb*b[i] + wc*c[i] + wd*d[i]
	}
}

// store writes a premultiplied pixel of 1/(256 one) as NRGBA; the cubic overshoots, so values are held to their range.
func store(to []uint8, s [4]int32) {
	a := max(0, min(255, (s[3]+1<<21)>>22))
	for i, v := range s[:3] {
		v = (v + 1<<21) >> 22
		if 0 < a && a < 255 {
			v = (v*255 + a/2) / a
		}
		to[i] = uint8(max(0, min(255, v)))
	}
	to[3] = uint8(a)
}
