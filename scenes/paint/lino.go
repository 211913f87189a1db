package main

import (
	"math"
	"math/rand/v2"
)

// print is a sheet of cream paper and the blocks pulled on it, one flat ink each. It is
// drawn at twice the size and averaged down, so cut edges stay crisp.
type print struct {
	w, h   int
	a      float64
	blocks []*block
	rnd    *rand.Rand
}

// block is one cut piece of lino: 1 where it prints.
type block struct {
	ink  rgb
	w, h int
	mask []float32
}

// lino makes a printmaker of a design.
func lino(design func(*print)) func(Work) *canvas {
	return func(w Work) *canvas {
		pw, ph := w.pixels()
		p := &print{w: 2 * pw, h: 2 * ph, a: float64(pw) / float64(ph), rnd: rand.New(rand.NewPCG(w.seed(), 11))}
		design(p)
		return p.pull(pw, ph)
	}
}

func (p *print) between(lo, hi float64) float64 { return lo + (hi-lo)*p.rnd.Float64() }

// block adds an uncut block for an ink; later blocks print over earlier ones.
func (p *print) block(ink uint32) *block {
	b := &block{ink: hex(ink), w: p.w, h: p.h, mask: make([]float32, p.w*p.h)}
	p.blocks = append(p.blocks, b)
	return b
}

// leave makes the shape print; cut carves it away. Both follow an unsteady hand.
func (b *block) leave(sh shape) { b.carve(sh, 1) }
func (b *block) cut(sh shape)   { b.carve(sh, 0) }

func (b *block) carve(sh shape, to float32) {
	px := 1 / float64(b.h)
	x0, x1 := max(0, int((sh.x0-0.01)/px)), min(b.w-1, int((sh.x1+0.01)/px))
	y0, y1 := max(0, int((sh.y0-0.01)/px)), min(b.h-1, int((sh.y1+0.01)/px))
	for py := y0; py <= y1; py++ {
		for p := x0; p <= x1; p++ {
			x, y := float64(p)*px, float64(py)*px
			d := sh.d(x, y)
			if d < 0.004 && d+0.0012*noise(3, x*90, y*90) < 0 {
				b.mask[py*b.w+p] = to
			}
		}
	}
}

// margin is the inked rectangle inside the paper's border.
func (p *print) margin(m float64) shape {
	return outline(points([]float64{m, m, p.a - m, m + 0.001, p.a - m - 0.001, 1 - m*1.25, m + 0.001, 1 - m*1.25}))
}

// gouges clears with rows of tapered cuts that follow flow(x, y), leaving ridges between:
// the chatter of a hand-cut ground. Only points where in(x, y) holds are cut.
func (p *print) gouges(b *block, gap, long, wide float64, flow func(x, y float64) float64, in func(x, y float64) bool) {
	for y := gap / 2; y < 1; y += gap {
		for x := 0.0; x < p.a; x += long * 0.92 {
			cx := x + p.between(-0.5, 0.5)*long
			cy := y + p.between(-0.35, 0.35)*gap
			l := long * p.between(0.55, 1.1)
			path := make([]pt, 7)
			a := flow(cx, cy)
			path[3] = pt{cx, cy}
			for i := 4; i < 7; i++ {
				q := path[i-1]
				d := flow(q.x, q.y)
				path[i] = pt{q.x + l/6*math.Cos(d), q.y + l/6*math.Sin(d)}
			}
			for i := 2; i >= 0; i-- {
				q := path[i+1]
				d := flow(q.x, q.y)
				path[i] = pt{q.x - l/6*math.Cos(d), q.y - l/6*math.Sin(d)}
			}
			ok := in(cx, cy) && !math.IsNaN(a)
			for _, q := range path {
				ok = ok && in(q.x, q.y)
			}
			if ok {
				b.cut(ribbon(path, lens(wide*p.between(0.6, 1.15))))
			}
		}
	}
}

// pull prints the blocks in order on cream paper, with the faint mottle of rolled ink.
func (p *print) pull(w, h int) *canvas {
	c := newCanvas(w, h, hex(0xf1e8d3))
	for i := range c.col {
		c.col[i] = hex(0xf1e8d3).shift(0.012*fbm(21, float64(i%w)/30, float64(i/w)/30, 3), 0)
	}
	for n, b := range p.blocks {
		for y := range h {
			for x := range w {
				j := 2*y*p.w + 2*x
				m := float64(b.mask[j]+b.mask[j+1]+b.mask[j+p.w]+b.mask[j+p.w+1]) / 4
				if m == 0 {
					continue
				}
				mottle := 0.94 - 0.09*max(0, fbm(30+n, float64(x)/8, float64(y)/8, 2)) - 0.22*smooth(0.42, 0.6, fbm(40+n, float64(x)/9, float64(y)/9, 3))
				i := y*w + x
				c.col[i] = c.col[i].mix(b.ink, m*mottle)
			}
		}
	}
	return c
}
