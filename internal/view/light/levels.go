package light

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Levels is how much light there is on works and around a visitor, without a mesh: by luminance; 1 is what open level ground gets
// from the whole sky.
type Levels struct {
	Works []Level
	Aisle float64 // mean cylindrical illuminance at the eye of whoever stands before the entrance
}

// Level is the mean light on one work.
type Level struct {
	Part  int // number in Plan.Parts
	Light float64
}

// Measure works out the light on the works of a plan.
func Measure(p *booth.Plan) Levels {
	r := newRoom(p, nil)
	r.settle()
	spots, lights := r.works(p)
	var l Levels
	area := 0.0
	for i, s := range spots {
		y := luminance(lights[i])
		if s.part < 0 {
			continue
		}
		if n := len(l.Works); n == 0 || l.Works[n-1].Part != s.part {
			l.Works, area = append(l.Works, Level{Part: s.part}), 0
		}
		w := &l.Works[len(l.Works)-1]
		area += s.area
		w.Light += (y - w.Light) * s.area / area
	}
	eye := geom.Vec{Y: 1.6, Z: 1.8}
	for _, v := range p.Views {
		if v.Before && v.Side == booth.Front && len(p.Eyes) > 0 {
			eye = v.From(p.Eyes[0])
		}
	}
	l.Aisle = luminance(r.around(eye))
	return l
}

// luminance is that of linear light: ITU-R BT.709.
func luminance(c rgb) float64 {
	return float64(0.2126*c[0]) + float64(0.7152*c[1]) + float64(0.0722*c[2])
}
