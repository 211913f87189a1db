package light

import (
	"math"
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

// finish is what a part's surfaces are, for the faces of the solids that stand for it.
type finish struct {
	triangles []faced // their part is the number of the colour, their area that of the triangle
	colours   []rgb   // linear
	passes    float64 // the share of light that cloth passes, on average: less where it lies double
}

func finishOf(p *booth.Part) (f finish) {
	cloth := 0.0 // m²
	for i, s := range p.Surfaces {
		f.colours = append(f.colours, material(s.Look))
		for _, t := range s.Mesh.Triangles {
			v := s.Mesh.Vertices
			n := v[t[1]].P.Sub(v[t[0]].P).Cross(v[t[2]].P.Sub(v[t[0]].P))
			if area := n.Len() / 2; area > 0 {
				f.triangles = append(f.triangles, faced{n: n.Mul(0.5 / area), part: i, area: area})
				if s.Look.Passes > 0 {
					cloth += area
					f.passes += (s.Look.Passes - f.passes) * area / cloth
				}
			}
		}
	}
	return f
}

// toward is the mean colour of what looks along n, by the area that it shows there: a framed work is paper before and wood aside. Cloth
// is the same on both sides. Where next to nothing does it is the mean of all.
func (f *finish) toward(n geom.Vec) rgb {
	var sum, all rgb
	total, whole := 0.0, 0.0
	for i := range f.triangles {
		t := &f.triangles[i]
		shown := t.n.Dot(n)
		if f.passes > 0 {
			shown = math.Abs(shown)
		}
		all, whole = all.plus(f.colours[t.part], t.area), whole+t.area
		if shown > 0.5 {
			sum, total = sum.plus(f.colours[t.part], shown*t.area), total+float64(shown*t.area)
		}
	}
	switch {
	case whole == 0:
		return rgb{0.5, 0.5, 0.5}
	case total < whole/1000:
		return rgb{}.plus(all, 1/whole)
	}
	return rgb{}.plus(sum, 1/total)
}

// folded is toward for cloth in folds, in which light goes back and forth before it leaves: where there is f times as much cloth as wall,
// a colour c gives back c/(f - c(f-1)) (the grey cavity of textbooks of radiation, as Sparrow and Cess, Radiation Heat Transfer; from memory).
func (f *finish) folded(n geom.Vec) rgb {
	area, shown := 0.0, 0.0
	for i := range f.triangles {
		t := &f.triangles[i]
		area, shown = area+t.area, shown+float64(math.Abs(t.n.Dot(n))*t.area)
	}
	c := f.toward(n)
	if shown > area/10 { // not at a hem
		for i := range c {
			c[i] /= area/shown - float64(c[i]*(area/shown-1))
		}
	}
	return c
}

// material is the linear colour of a look, with its image's mean.
func material(k booth.Look) rgb {
	c := rgb{float64(colour.Light(k.Colour[0])), float64(colour.Light(k.Colour[1])), float64(colour.Light(k.Colour[2]))}
	if k.Image == nil {
		return c
	}
	return c.times(rgb(k.Image.Mean()))
}
