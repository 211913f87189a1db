package main

import (
	"image"
	"image/color"
	"math"
)

// canvas is the paint as laid: colour and thickness at each pixel.
type canvas struct {
	w, h  int
	col   []rgb
	thick []float64
}

func newCanvas(w, h int, ground rgb) *canvas {
	c := &canvas{w: w, h: h, col: make([]rgb, w*h), thick: make([]float64, w*h)}
	for i := range c.col {
		x, y := float64(i%w), float64(i/w)
		c.col[i] = ground.shift(0.035*fbm(5, x/60, y/60, 3), 0.01*noise(6, x/90, y/90))
	}
	return c
}

// dab is one stroke of a flat brush: lengths in pixels, bent like a shallow arc, its
// colour wandering from a to b with the bristles.
type dab struct {
	x, y, angle, long, wide, bend float64
	a, b                          rgb
	body                          float64 // opacity 0..1
	dry                           float64 // how soon the brush runs out, 0..1
	lot                           float64 // which bristles
}

func (c *canvas) stroke(d dab) {
	ct, st := math.Cos(d.angle), math.Sin(d.angle)
	reach := d.long + d.wide + math.Abs(d.bend)
	ex := math.Abs(ct)*d.long + math.Abs(st)*(d.wide+math.Abs(d.bend)) + 1
	ey := math.Abs(st)*d.long + math.Abs(ct)*(d.wide+math.Abs(d.bend)) + 1
	ex, ey = min(ex, reach), min(ey, reach)
	bristles := clamp(d.wide/3, 1, 8)
	cap := min(d.wide*0.7, d.long)
	feather := clamp(1.2/d.wide, 0.12, 0.6)
	for py := max(0, int(d.y-ey)); py <= min(c.h-1, int(d.y+ey)+1); py++ {
		for px := max(0, int(d.x-ex)); px <= min(c.w-1, int(d.x+ex)+1); px++ {
			dx, dy := float64(px)-d.x, float64(py)-d.y
			along := dx*ct + dy*st
			u := along / d.long
			if u < -1 || u > 1 {
				continue
			}
			v := (dy*ct - dx*st - d.bend*(u*u-0.5)) / d.wide
			if v < -1 || v > 1 {
				continue
			}
			past := max(0, (math.Abs(along)-(d.long-cap))/cap)
			rim := max(math.Abs(v), math.Sqrt(v*v*0.7+past*past))
			n := noise(int(d.lot), v*bristles+d.lot*7.3, u*1.3+d.lot*3.1)
			alpha := d.body * (1 - smooth(1-feather, 1, rim+0.10*n*past))
			alpha *= smooth(-0.25, 0.25, n+1.15-d.dry*(1+u)-0.35*math.Abs(v))
			if alpha <= 0.004 {
				continue
			}
			i := py*c.w + px
			c.col[i] = c.col[i].mix(d.a.mix(d.b, 0.5+0.6*n), alpha)
			c.thick[i] += alpha * (0.55 + 0.35*n + 0.25*smooth(0.55, 0.9, rim) - c.thick[i])
		}
	}
}

// draw lays a mark with a small round brush, pressing from w0 to w1 (half-widths, px).
func (c *canvas) draw(path []pt, w0, w1 float64, col rgb, lot int) {
	n := float64(len(path) - 1)
	for i := range len(path) - 1 {
		a, b := path[i], path[i+1]
		l := length(b.x-a.x, b.y-a.y)
		for s := 0.0; s < l; s += max(0.6, lerp(w0, w1, float64(i)/n)*0.5) {
			t := (float64(i) + s/l) / n
			c.spot(lerp(a.x, b.x, s/l), lerp(a.y, b.y, s/l), lerp(w0, w1, t),
				col.shift(0.05*noise(lot, t*9, 0), 0.02*noise(lot+1, t*7, 0)), 0.6)
		}
	}
}

func (c *canvas) spot(x, y, r float64, col rgb, body float64) {
	r = max(r, 0.35)
	body *= min(1, r/0.8)
	reach := r + 1
	for py := max(0, int(y-reach)); py <= min(c.h-1, int(y+reach)+1); py++ {
		for px := max(0, int(x-reach)); px <= min(c.w-1, int(x+reach)+1); px++ {
			d := length(float64(px)-x, float64(py)-y)
			if a := body * (1 - smooth(r-0.7, r+0.9, d)); a > 0 {
				i := py*c.w + px
				c.col[i] = c.col[i].mix(col, a)
				c.thick[i] += a * (0.7 - c.thick[i])
			}
		}
	}
}

// varnish evens out what is finer than a bristle with a 1-2-1 blur each way.
func (c *canvas) varnish() {
	soften := func(p []rgb, n, stride int) {
		last := p[0]
		for i := range n {
			here, next := p[i*stride], p[min(i+1, n-1)*stride]
			p[i*stride] = here.mix(last.mix(next, 0.5), 0.5)
			last = here
		}
	}
	for y := range c.h {
		soften(c.col[y*c.w:], c.w, 1)
	}
	for x := range c.w {
		soften(c.col[x:], c.h, c.w)
	}
}

// image lights the paint's relief from the upper left and rounds to bytes.
func (c *canvas) image() image.Image {
	img := image.NewRGBA(image.Rect(0, 0, c.w, c.h))
	at := func(x, y int) float64 {
		return c.thick[max(0, min(c.h-1, y))*c.w+max(0, min(c.w-1, x))]
	}
	for y := range c.h {
		for x := range c.w {
			slope := at(x+1, y+1) - at(x-1, y-1) + 0.5*(at(x, y+1)-at(x, y-1))
			k := 1 + clamp(0.08*slope, -0.1, 0.1)
			p := c.col[y*c.w+x].times(k)
			img.SetRGBA(x, y, color.RGBA{byte8(p.r), byte8(p.g), byte8(p.b), 255})
		}
	}
	return img
}

func byte8(v float64) uint8 { return uint8(clamp(v, 0, 1)*255 + 0.5) }
