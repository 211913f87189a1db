// Package material draws the small pictures that make a surface read as grass, gravel, cloth or wood. Each is a square
// tile without a seam, so that it can be laid over and over, and calm: it must never be looked at before an artwork.
// Tiles are drawn when they are first asked for, from fixed numbers: the same tile on every run and every machine.
package material

import (
	"bytes"
	"image"
	"image/jpeg"
	"sync"

	"boothmock/internal/basis/colour"
	"boothmock/internal/props/art"
)

// Tile is a material.
type Tile struct {
	Name   string
	Metres float64 // of the surface that one width of the tile covers

	side    int // pixels, a power of two
	quality int // of the JPEG file, 1 to 100
	draw    func(side int) tones
	once    sync.Once
	image   *art.Image
	mean    [3]float64
}

// tones are the light of each pixel, row by row: one number a pixel for a grey tile, three for a coloured one. Their
// scale does not matter.
type tones struct {
	light []float32
	count int // 1 or 3
}

// Image is the tile's picture.
func (t *Tile) Image() *art.Image {
	t.once.Do(t.make)
	return t.image
}

// Mean is the tile's mean light, linear red, green and blue from 0 to 1.
func (t *Tile) Mean() [3]float64 {
	t.once.Do(t.make)
	return t.mean
}

// Over is the sRGB colour that the tile must be multiplied with for the surface to be, in its mean, of the colour c. It
// is lighter than c by what the tile takes away; where that is beyond white, it is white and the surface a little darker.
func (t *Tile) Over(c [3]uint8) [3]uint8 {
	m := t.Mean()
	for k := range c {
		c[k] = colour.Byte(float32(float64(colour.Light(c[k])) / m[k]))
	}
	return c
}

// deviations is how many standard deviations above its mean the brightest pixel of a tile is; what is brighter still is
// held to it. More would make the tile, and with it the lightest cloth that it can show, darker.
const deviations = 2.2

func (t *Tile) make() {
	drawn := t.draw(t.side)
	lift(drawn)
	m := image.NewNRGBA(image.Rect(0, 0, t.side, t.side))
	grey := image.NewGray(m.Rect)
	for i := range t.side * t.side {
		for k := range 3 {
			b := colour.Byte(drawn.light[i*drawn.count+k%drawn.count])
			m.Pix[4*i+k] = b
			grey.Pix[i] = b
		}
		m.Pix[4*i+3] = 255
	}
	var file bytes.Buffer
	var from image.Image = &image.RGBA{Pix: m.Pix, Stride: m.Stride, Rect: m.Rect} // opaque, so the same numbers; quicker to encode
	if drawn.count == 1 {
		from = grey
	}
	if err := jpeg.Encode(&file, from, &jpeg.Options{Quality: t.quality}); err != nil {
		panic(err) // memory does not refuse a write, and the size is ours
	}
	t.mean = mean(m)
	t.image = art.Ready(t.Name, "image/jpeg", file.Bytes(), m)
}

// lift scales the light so that it fills what a picture can hold.
func lift(d tones) {
	n := float64(len(d.light) / d.count)
	for k := range d.count {
		sum, squares := 0.0, 0.0
		for i := k; i < len(d.light); i += d.count {
			v := float64(d.light[i])
			sum += v
			squares += float64(v * v)
		}
		m := sum / n
		top := m + float64(deviations*root(squares/n-float64(m*m)))
		for i := k; i < len(d.light); i += d.count {
			d.light[i] = min(max(float32(float64(d.light[i])/top), 0), 1)
		}
	}
}

// mean is the mean light of a picture.
func mean(m *image.NRGBA) (sum [3]float64) {
	for i := 0; i < len(m.Pix); i += 4 {
		for k := range 3 {
			sum[k] += float64(colour.Light(m.Pix[i+k]))
		}
	}
	for k := range sum {
		sum[k] /= float64(len(m.Pix) / 4)
	}
	return sum
}
