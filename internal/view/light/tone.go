package light

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// curve turns light, 1 being what the eye has got used to, into the factor from 0 to 1 that a texel is multiplied by. It is even
// in the darks and closes in on top in the brights, as the eye that has got used to the booth sees what is outside of it.
type curve struct {
	mean     float64 // what the light becomes that the eye has got used to
	top      float64 // what no light goes beyond
	shoulder float64 // how late it bends
	table    *[steps + 2]float32
}

// The curve is looked up by the root of the light, so that the darks have the most of the table; what is brighter than brightest is
// as good as top.
const (
	steps     = 2048
	brightest = 64
)

var (
	// A work in mean light keeps the colours of its photograph.
	ofWorks = newCurve(0.965, 1, 5)
	// All else leaves room above: the works are what is exposed for.
	ofOther = newCurve(0.72, 0.97, 2.3)
)

func newCurve(mean, top, shoulder float64) *curve {
	c := &curve{mean: mean, top: top, shoulder: shoulder, table: new([steps + 2]float32)}
	for i := range c.table {
		r := float64(i) / steps
		c.table[i] = float32(c.at(brightest * r * r))
	}
	return c
}

// look is at by the table, right to 2e-5.
func (c *curve) look(x float32) float32 {
	if !(x > 0) {
		return 0
	}
	r := float32(math.Sqrt(float64(min(x, brightest)*(1./brightest)))) * steps
	i := int(r)
	return c.table[i] + float32(r-float32(i))*(c.table[i+1]-c.table[i])
}

func (c *curve) at(x float64) float64 {
	m := math.Pow(c.top/c.mean, c.shoulder) - 1 // from c.at(1) = c.mean
	return c.top * x / math.Pow(m+math.Pow(x, c.shoulder), 1/c.shoulder)
}

// tone is the exposure: the gain that brings the works' mean light to about 1 in each colour.
type tone struct{ gain rgb }

// on is the tone of a work, or of anything else.
func (t tone) on(c *curve) *Tone { return &Tone{single(t.gain), c} }

// Tone turns light into the factor from 0 to 1 by which the linear colour of a surface is multiplied in a picture: the exposure
// for whoever stands in the booth, and the curve by which the eye, or a photograph, holds what is brighter.
type Tone struct {
	gain  [3]float32
	curve *curve
}

// Of is the factor for light that looks so many times brighter than it does to whoever stands in the booth.
func (t *Tone) Of(light, brighter [3]float32) [3]float32 {
	return [3]float32{
		t.curve.look(light[0] * t.gain[0] * brighter[0]),
		t.curve.look(light[1] * t.gain[1] * brighter[1]),
		t.curve.look(light[2] * t.gain[2] * brighter[2]),
	}
}

// Even is Of without the curve: how bright it really is beside what becomes 1, for what is mirrored.
func (t *Tone) Even(light, brighter [3]float32) [3]float32 {
	return [3]float32{light[0] * t.gain[0] * brighter[0], light[1] * t.gain[1] * brighter[1], light[2] * t.gain[2] * brighter[2]}
}

// of is Of for whoever stands in the booth.
func (t *Tone) of(l rgb) rgb {
	o := t.Of(single(l), [3]float32{1, 1, 1})
	return rgb{float64(o[0]), float64(o[1]), float64(o[2])}
}

// expose measures the light on the works, weighted by their area. Their mean light is neutral, whatever the colours of the
// canopy, the drapes and the ground.
func expose(r *room, p *booth.Plan) tone {
	spots, lights := r.works(p, nil)
	var mean rgb
	total := 0.0
	for i, s := range spots {
		mean, total = mean.plus(lights[i], s.area), total+s.area
	}
	var t tone
	shown := func(c int) float64 { // the works' mean in colour c, as they are shown
		sum := 0.0
		for i, s := range spots {
			sum += s.area * ofWorks.at(lights[i][c]*t.gain[c]) / total
		}
		return sum
	}
	target := 0.0
	for c := range 3 {
		t.gain[c] = total / max(mean[c], 1e-9)
		target += shown(c) / 3
	}
	// The curve bends the colours of bright and dark works differently; what it shows is made neutral, not what it is given.
	for c := range 3 {
		lo, hi := t.gain[c]/2, t.gain[c]*2
		for range 60 {
			if t.gain[c] = (lo + hi) / 2; shown(c) < target {
				lo = t.gain[c]
			} else {
				hi = t.gain[c]
			}
		}
	}
	return t.dark(r, luminance(mean)/total)
}

// darkest is the light, in lux on white, below which an eye that has got used to it still sees things as dark: some 3 cd/m², where
// seeing by day ends (CIE 191:2010 has 5 cd/m²; from memory).
const darkest = 10

// dark is the tone for an eye that cannot get used to so little light on the works.
func (t tone) dark(r *room, mean float64) tone {
	least := darkest / r.lux
	switch {
	case mean >= least:
	case mean < 1e-6:
		t.gain = rgb{}.plus(white, 1/least)
	default:
		t.gain = rgb{}.plus(t.gain, mean/least)
	}
	return t
}

// dusk is how much less bright a sky, or a hall, is drawn than by day.
func (r *room) dusk(t tone) float32 {
	const day = 2000 // lux
	if r.lux*r.sky[1] >= day || r.indoor && r.sky[1] == 1 {
		return 0
	}
	return 1 - t.on(ofOther).Of(single(r.sky), [3]float32{1, 1, 1})[1]/ofOther.table[steps]
}

// faced is a place on a work, and the area of it that it stands for.
type faced struct {
	p, n geom.Vec
	part int
	area float64
}

// works are places all over the works, and the light there, of which known says what is known of a work from before; it may be nil. A
// booth without works has three places: what would hang in the middle of it.
func (r *room) works(p *booth.Plan, known func(partSide, *room) *known) ([]faced, []rgb) {
	const grid = 3
	var spots []faced
	for i := range p.Parts {
		w := p.Parts[i].Work
		if w == nil {
			continue
		}
		for j := range grid {
			for k := range grid {
				f := w.Face
				u, v := (float64(j)+.5)/grid, (float64(k)+.5)/grid
				spots = append(spots, faced{f[0].Lerp(f[1], u).Lerp(f[3].Lerp(f[2], u), v), f.Normal(), i, f.Area() / grid / grid})
			}
		}
	}
	if len(spots) == 0 {
		for _, n := range []geom.Vec{{X: 1}, {X: -1}, {Z: 1}} {
			spots = append(spots, faced{geom.Vec{Y: 1.5, Z: -p.Pitch.Depth / 2}, n, -1, 1})
		}
	}
	lights := make([]rgb, len(spots))
	r.each((len(spots)+grid*grid-1)/(grid*grid), nil, func(g *gatherer, work int) {
		if g.last = nil; known != nil && spots[work*grid*grid].part >= 0 {
			g.last = known(partSide{part: p.Parts[spots[work*grid*grid].part].ID}, r)
		}
		for i := work * grid * grid; i < min((work+1)*grid*grid, len(spots)); i++ {
			q, _ := r.free(spots[i].p, spots[i].n, spots[i].part)
			lights[i] = g.light(q, spots[i].n, spots[i].part)
		}
	})
	return spots, lights
}
