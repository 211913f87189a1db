package light

import (
	"sync"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// means works out the mean of every picture on some parts, several at once.
func means(p *booth.Plan, parts []int) {
	var wait sync.WaitGroup
	for _, i := range parts {
		for _, s := range p.Parts[i].Surfaces {
			if s.Look.Image != nil {
				wait.Go(func() { s.Look.Image.Mean() })
			}
		}
	}
	wait.Wait()
}

// finish is a part's mean colour, linear, by the area of its surfaces, and the greatest share of light that they pass.
func finish(p *booth.Part) (rgb, float64) {
	var sum rgb
	total, passes := 0.0, 0.0
	for _, s := range p.Surfaces {
		area := 0.0
		for _, t := range s.Mesh.Triangles {
			v := s.Mesh.Vertices
			area += geom.Polygon{v[t[0]].P, v[t[1]].P, v[t[2]].P}.Area()
		}
		sum, total = sum.plus(material(s.Look), area), total+area
		passes = max(passes, s.Look.Passes)
	}
	if total == 0 {
		return rgb{0.5, 0.5, 0.5}, passes
	}
	return rgb{}.plus(sum, 1/total), passes
}

// material is the linear colour of a look, with its image's mean.
func material(k booth.Look) rgb {
	c := rgb{float64(colour.Light(k.Colour[0])), float64(colour.Light(k.Colour[1])), float64(colour.Light(k.Colour[2]))}
	if k.Image == nil {
		return c
	}
	return c.times(rgb(k.Image.Mean()))
}
