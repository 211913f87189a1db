package light

import (
	"math"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
)

// curve turns light, 1 being the works' mean, into the factor from 0 to 1 that a texel is multiplied by. It is even in the
// darks and closes in on top in the brights, as the eye that has got used to the booth sees what is outside of it.
type curve struct {
	mean     float64 // what the works' mean light becomes
	top      float64 // what no light goes beyond
	shoulder float64 // how late it bends
}

var (
	// A work in mean light keeps the colours of its photograph.
	ofWorks = curve{mean: 0.965, top: 1, shoulder: 5}
	// All else leaves room above: the works are what is exposed for.
	ofOther = curve{mean: 0.72, top: 0.97, shoulder: 2.3}
)

func (c curve) at(x float64) float64 {
	m := math.Pow(c.top/c.mean, c.shoulder) - 1 // from c.at(1) = c.mean
	return c.top * x / math.Pow(m+math.Pow(x, c.shoulder), 1/c.shoulder)
}

// tone is the exposure: the gain that brings the works' mean light to about 1 in each colour.
type tone struct{ gain rgb }

// of is the light on a work, or on anything else, as a factor for its texels.
func (t tone) of(l rgb, c curve) rgb {
	for i := range l {
		l[i] = c.at(l[i] * t.gain[i])
	}
	return l
}

// expose measures the light on the works, weighted by their area. Their mean light is neutral, whatever the colours of the
// canopy, the drapes and the ground.
func expose(r *room, p *booth.Plan) tone {
	type spot struct {
		p, n geom.Vec
		part int
		area float64
	}
	var spots []spot
	for i := range p.Parts {
		w := p.Parts[i].Work
		if w == nil {
			continue
		}
		const grid = 3
		for j := range grid {
			for k := range grid {
				f := w.Face
				u, v := (float64(j)+.5)/grid, (float64(k)+.5)/grid
				spots = append(spots, spot{f[0].Lerp(f[1], u).Lerp(f[3].Lerp(f[2], u), v), f.Normal(), i, f.Area() / grid / grid})
			}
		}
	}
	if len(spots) == 0 { // a booth without works: what would hang in the middle of it
		for _, n := range []geom.Vec{{X: 1}, {X: -1}, {Z: 1}} {
			spots = append(spots, spot{geom.Vec{Y: 1.5, Z: -p.Pitch.Depth / 2}, n, -1, 1})
		}
	}
	lights := make([]rgb, len(spots))
	r.each(len(spots), func(g *gatherer, i int) {
		q, _ := r.free(spots[i].p, spots[i].n, spots[i].part)
		lights[i] = g.light(q, spots[i].n, spots[i].part)
	})
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
	return t
}
