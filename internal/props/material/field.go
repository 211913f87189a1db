package material

import (
	"math"
	"math/rand/v2"
)

// field is a square of numbers that goes on at its far edge where it begins at the near one.
type field struct {
	side int
	v    []float32
}

func root(x float64) float64 { return math.Sqrt(max(0, x)) }

// chance is a source of numbers that are always the same.
func chance(n uint64) *rand.Rand { return rand.New(rand.NewPCG(n, 0x6d617465)) }

// noise is a field of chance numbers from -1 to 1.
func noise(side int, r *rand.Rand) field {
	f := field{side, make([]float32, side*side)}
	for i := range f.v {
		f.v[i] = float32(int32(r.Uint32())) / (1 << 31)
	}
	return f
}

// soft is noise whose grains are about 2·x + 1 pixels wide and 2·y + 1 high, of mean 0 and standard deviation 1.
func soft(side int, r *rand.Rand, x, y int) field {
	f := noise(side, r)
	for range 2 {
		f.along(x)
		f.down(y)
	}
	f.even()
	return f
}

// along makes every number the mean of those up to n pixels to its left and right.
func (f field) along(n int) {
	if n == 0 {
		return
	}
	row := make([]float32, f.side)
	share := 1 / float32(2*n+1)
	for y := range f.side {
		v := f.v[y*f.side : (y+1)*f.side]
		copy(row, v)
		sum := float32(0)
		for x := -n; x <= n; x++ {
			sum += row[x&(f.side-1)]
		}
		for x := range v {
			v[x] = sum * share
			sum += row[(x+n+1)&(f.side-1)] - row[(x-n)&(f.side-1)]
		}
	}
}

// down makes every number the mean of those up to n pixels above and below.
func (f field) down(n int) {
	if n == 0 {
		return
	}
	from := append([]float32(nil), f.v...)
	row := func(y int) []float32 { y &= f.side - 1; return from[y*f.side : (y+1)*f.side] }
	sum := make([]float32, f.side)
	for y := -n; y <= n; y++ {
		for x, v := range row(y) {
			sum[x] += v
		}
	}
	share := 1 / float32(2*n+1)
	for y := range f.side {
		in, out := row(y+n+1), row(y-n)
		v := f.v[y*f.side : (y+1)*f.side]
		for x := range v {
			v[x] = sum[x] * share
			sum[x] += in[x] - out[x]
		}
	}
}

// even gives the field the mean 0 and the standard deviation 1.
func (f field) even() {
	sum, squares := 0.0, 0.0
	for _, v := range f.v {
		sum += float64(v)
		squares += float64(float64(v) * float64(v))
	}
	n := float64(len(f.v))
	m := sum / n
	scale := float32(1 / root(squares/n-float64(m*m)))
	for i := range f.v {
		f.v[i] = (f.v[i] - float32(m)) * scale
	}
}

// layer is a field and how strong it is.
type layer struct {
	field
	share float32
}

// grey is light of mean 1 that differs from it by the sum of the layers.
func grey(layers ...layer) tones {
	out := make([]float32, len(layers[0].v))
	for i := range out {
		out[i] = 1
	}
	for _, l := range layers {
		for i, v := range l.v {
			out[i] += float32(v * l.share)
		}
	}
	for i := range out {
		out[i] = max(out[i], 0)
	}
	return tones{out, 1}
}
