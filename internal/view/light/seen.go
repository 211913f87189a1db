package light

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// eyes are the places from which a booth is looked at: those of its views, and others spread over all the ground that
// visitors walk on, each for the tallest and the shortest of them. Light that none of them sees needs no detail.
func eyes(p *booth.Plan) []geom.Vec {
	low, high := 1.1, 1.7
	for i, e := range p.Eyes {
		if i == 0 {
			low, high = e.Height, e.Height
		}
		low, high = min(low, e.Height), max(high, e.Height)
	}
	var out []geom.Vec
	stand := func(x, z float64) {
		out = append(out, geom.Vec{X: x, Y: high, Z: z}, geom.Vec{X: x, Y: low, Z: z})
	}
	w, d, aisle := p.Pitch.Width, p.Pitch.Depth, p.Pitch.Aisle
	for _, x := range [3]float64{0, -0.35, 0.35} {
		for _, z := range [3]float64{-0.5, -0.15, -0.85} {
			stand(x*w, z*d)
		}
		for _, z := range [3]float64{0.15, 0.5, 0.9} {
			stand(x*w, z*aisle)
		}
		for _, side := range [3]booth.Side{booth.Left, booth.Back, booth.Right} {
			if p.Pitch.Open[side] {
				a, b := p.Pitch.Edge(side)
				along := b.Sub(a)
				at := a.Add(along.Mul(0.5 + x)).Add(geom.Up.Cross(along).Unit().Mul(-0.4 * aisle))
				stand(at.X, at.Z)
			}
		}
	}
	for _, v := range p.Views {
		if v.Height > 0 {
			out = append(out, v.From(booth.Eye{}))
			continue
		}
		stand(v.Stand.X, v.Stand.Z)
	}
	return out
}

// seen reports whether one of the eyes sees the point p of a surface with normal n. It first tries the eye, and the
// solid, that decided the last time: neighbours are seen alike.
func (g *gatherer) seen(p, n geom.Vec) bool {
	const grazing = 0.01 // the sine of an angle under which nothing can be made out
	for i := range g.eyes {
		k := (g.eye + i) % len(g.eyes)
		d := g.eyes[k].Sub(p)
		if d.Dot(n) > grazing*d.Len() && !g.stopped(p, g.eyes[k]) {
			g.eye = k
			return true
		}
	}
	return false
}
