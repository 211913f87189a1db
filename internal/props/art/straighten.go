package art

import (
	"image"
	"math"
	"runtime"
	"sync"
)

// Spot is a place in a photograph as photo programs show it: pixels from its upper left corner to the right and down.
type Spot struct{ X, Y float64 }

// Quad is the corners of a work in a photograph: upper left, upper right, lower right, lower left, as the work hangs.
type Quad [4]Spot

// projective is a projective map of the plane: (x, y) goes to ((ax+by+c)/w, (dx+ey+f)/w) with w = gx+hy+1.
type projective struct{ a, b, c, d, e, f, g, h float64 }

// ontoQuad is the projective map that takes the corners (0,0), (1,0), (1,1) and (0,1) of the unit square to those of the
// quad (P. S. Heckbert, "Fundamentals of Texture Mapping and Image Warping", 1989, section 2.2.3).
func ontoQuad(q Quad) projective {
	sx, sy := q[0].X-q[1].X+q[2].X-q[3].X, q[0].Y-q[1].Y+q[2].Y-q[3].Y
	dx1, dy1 := q[1].X-q[2].X, q[1].Y-q[2].Y
	dx2, dy2 := q[3].X-q[2].X, q[3].Y-q[2].Y
	det := float64(dx1*dy2) - float64(dx2*dy1)
	g, h := (float64(sx*dy2)-float64(dx2*sy))/det, (float64(dx1*sy)-float64(sx*dy1))/det
	return projective{
		a: q[1].X - q[0].X + float64(g*q[1].X), b: q[3].X - q[0].X + float64(h*q[3].X), c: q[0].X,
		d: q[1].Y - q[0].Y + float64(g*q[1].Y), e: q[3].Y - q[0].Y + float64(h*q[3].Y), f: q[0].Y,
		g: g, h: h,
	}
}

func (m projective) at(x, y float64) Spot {
	w := float64(m.g*x) + float64(m.h*y) + 1
	return Spot{(float64(m.a*x) + float64(m.b*y) + m.c) / w, (float64(m.d*x) + float64(m.e*y) + m.f) / w}
}

// check says what is wrong with the corners of a work in a photograph of that size.
func (q Quad) check(name string, size image.Point) error {
	const hint = "give the corners as they lie in the upright photograph: upper left, upper right, lower right, lower left"
	turns := 0
	for i, p := range q {
		if !(p.X >= -1 && p.Y >= -1 && p.X <= float64(size.X)+1 && p.Y <= float64(size.Y)+1) {
			return bad(hint, "the corner %g %g is not in %s, which is %d x %d pixels", p.X, p.Y, name, size.X, size.Y)
		}
		b, c := q[(i+1)%4], q[(i+2)%4]
		switch cross := (b.X-p.X)*(c.Y-b.Y) - (b.Y-p.Y)*(c.X-b.X); {
		case cross > 1:
			turns++
		case cross < -1:
			turns--
		}
	}
	switch turns {
	case 4:
		return nil
	case -4:
		return bad(hint, "the corners in %s go round the wrong way: the work would be seen in a mirror", name)
	}
	return bad(hint, "the corners in %s are not those of a flat rectangle seen from the front", name)
}

// size is the largest size, with a side of at most side pixels, at which the work has no more pixels than the
// photograph has of it; shape is its width over its height.
func (q Quad) size(side int, shape float64) image.Point {
	edge := func(i, j int) float64 { return math.Hypot(q[i].X-q[j].X, q[i].Y-q[j].Y) }
	long := min(float64(side), math.Ceil(max(edge(0, 1), edge(1, 2), edge(2, 3), edge(3, 0))))
	w, h := long, long/shape
	if shape < 1 {
		w, h = long*shape, long
	}
	return image.Pt(max(1, int(math.Round(w))), max(1, int(math.Round(h))))
}

// stored is the place in the stored picture, of the given size, of a place in the upright one.
func (p Spot) stored(orientation int, size image.Point) Spot {
	if orientation >= 5 {
		p.X, p.Y = p.Y, p.X
	}
	switch orientation {
	case 2, 3, 7, 8:
		p.X = float64(size.X) - p.X
	}
	switch orientation {
	case 3, 4, 6, 7:
		p.Y = float64(size.Y) - p.Y
	}
	return p
}

// straighten draws what lies within the quad of a picture, whose corner is at (0, 0), as a rectangle of the given size.
//
// First the part that is needed is shrunk to about twice the pixels, by the same filter as any photograph; then each
// pixel is the mean of four points of that, each by cubic convolution. So no detail is left that the size cannot show,
// near or far, and memory is that of the result.
func straighten(m image.Image, q Quad, size image.Point) *image.NRGBA {
	lo, hi := q[0], q[0]
	for _, p := range q {
		lo.X, lo.Y, hi.X, hi.Y = min(lo.X, p.X), min(lo.Y, p.Y), max(hi.X, p.X), max(hi.Y, p.Y)
	}
	const rim = 4 // pixels around, for the filters
	part := image.Rect(int(lo.X)-rim, int(lo.Y)-rim, int(hi.X)+rim+1, int(hi.Y)+rim+1).Add(m.Bounds().Min).Intersect(m.Bounds())
	if sub, ok := m.(interface {
		SubImage(image.Rectangle) image.Image
	}); ok {
		m = sub.SubImage(part)
	} else {
		part = m.Bounds()
	}
	edge := func(i, j int) float64 { return math.Hypot(q[i].X-q[j].X, q[i].Y-q[j].Y) }
	across, down := max(edge(0, 1), edge(3, 2)), max(edge(0, 3), edge(1, 2))
	factor := min(1, 2*max(float64(size.X)/across, float64(size.Y)/down))
	var src *image.NRGBA
	if to := image.Pt(int(math.Ceil(float64(part.Dx())*factor)), int(math.Ceil(float64(part.Dy())*factor))); factor < 0.9 {
		src = Shrink(m, to)
	} else {
		src = nrgba(m)
	}
	fx, fy := float64(src.Rect.Dx())/float64(part.Dx()), float64(src.Rect.Dy())/float64(part.Dy())
	for i, p := range q {
		q[i] = Spot{(p.X - float64(part.Min.X)) * fx, (p.Y - float64(part.Min.Y)) * fy}
	}

	onto := ontoQuad(q)
	out := image.NewNRGBA(image.Rectangle{Max: size})
	row := func(y int) {
		for x := range size.X {
			var sum [4]float64
			for _, s := range [4][2]float64{{0.25, 0.25}, {0.75, 0.25}, {0.25, 0.75}, {0.75, 0.75}} {
				p := onto.at((float64(x)+s[0])/float64(size.X), (float64(y)+s[1])/float64(size.Y))
				c := cubic(src, p.X, p.Y)
				for k := range sum {
					sum[k] += c[k]
				}
			}
			to := out.Pix[out.PixOffset(x, y):]
			for k := range sum {
				to[k] = level(sum[k] / 4)
			}
		}
	}
	var wg sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for k := range workers {
		wg.Go(func() {
			for y := k; y < size.Y; y += workers {
				row(y)
			}
		})
	}
	wg.Wait()
	return out
}

// cubic is the colour at a place of a picture by cubic convolution (Keys 1981, a = -1/2); beyond its edges the picture
// goes on as it is there.
func cubic(m *image.NRGBA, x, y float64) (sum [4]float64) {
	w, h := m.Rect.Dx(), m.Rect.Dy()
	x0, y0 := math.Floor(x-0.5), math.Floor(y-0.5)
	wx, wy := keys(x-0.5-x0), keys(y-0.5-y0)
	for j, b := range wy {
		line := m.Pix[max(0, min(h-1, int(y0)-1+j))*m.Stride:]
		for i, a := range wx {
			p, f := line[4*max(0, min(w-1, int(x0)-1+i)):], float64(a*b)
			for k := range sum {
				sum[k] += float64(f * float64(p[k]))
			}
		}
	}
	return sum
}

// keys are the weights of four neighbours for a place t between the middle two.
func keys(t float64) [4]float64 {
	t2, t3 := float64(t*t), float64(t*t*t)
	return [4]float64{
		float64(-0.5*t3) + t2 - float64(0.5*t), float64(1.5*t3) - float64(2.5*t2) + 1,
		float64(-1.5*t3) + float64(2*t2) + float64(0.5*t), float64(0.5*t3) - float64(0.5*t2),
	}
}
