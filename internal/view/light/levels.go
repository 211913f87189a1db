package light

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Levels is how much light there is on works and around a visitor, without a mesh: by luminance; 1 is Lux.
type Levels struct {
	Works []Level
	Aisle float64 // mean cylindrical illuminance at the eye of whoever stands before the entrance
	Lux   float64 // what 1 is

	found *found // on the way there
}

// Level is the light on one work.
type Level struct {
	Part   int     // number in Plan.Parts
	Light  float64 // on average
	Least  float64 // of nine places on it
	Most   float64
	Beside float64 // on the wall, a hand's breadth to its left and right; 0 where something else is there
}

// Measure works out the light on the works of a plan.
func Measure(p *booth.Plan, day Daylight) Levels { return Levels{}.Next(p, day) }

// Next is Measure for another version of the booth, or another hour: the same to the last bit, and the quicker the less was moved.
func (b Levels) Next(p *booth.Plan, day Daylight) Levels {
	r := newRoom(p, nil, people)
	r.under(p, day)
	if b.found != nil && b.found.room.indoor != r.indoor {
		b.found = nil
	}
	l := Levels{Lux: r.lux, found: newFound(p, r)}
	on := baking{plan: p, room: r, wish: wish{keep: true}, before: b.found, found: l.found}
	on.settle()
	spots, lights := r.works(p, on.known)
	area := 0.0
	for i, s := range spots {
		y := luminance(lights[i])
		if s.part < 0 {
			continue
		}
		if n := len(l.Works); n == 0 || l.Works[n-1].Part != s.part {
			l.Works, area = append(l.Works, Level{Part: s.part, Least: y}), 0
		}
		w := &l.Works[len(l.Works)-1]
		area += s.area
		w.Light += (y - w.Light) * s.area / area
		w.Least, w.Most = min(w.Least, y), max(w.Most, y)
	}
	if len(r.lamps) > 0 {
		r.each(len(l.Works), nil, func(g *gatherer, i int) { l.Works[i].Beside = g.beside(&p.Parts[l.Works[i].Part]) })
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

// beside is the light on the wall on both sides of a work that hangs.
func (g *gatherer) beside(p *booth.Part) float64 {
	const hand, before = 0.1, 0.02 // metres: off the work, off its back
	if p.Work.Hung == nil {
		return 0
	}
	sum, n := 0.0, 0.0
	half := (p.Work.Hung.X1-p.Work.Hung.X0)/2 + hand
	for _, x := range [2]float64{-half, half} {
		if q, ok := g.free(p.Frame.At(geom.Vec{X: x, Z: before}), p.Frame.Z, -1); ok {
			sum, n = sum+luminance(g.light(q, p.Frame.Z, -1)), n+1
		}
	}
	return sum / max(n, 1)
}

// luminance is that of linear light: ITU-R BT.709.
func luminance(c rgb) float64 {
	return float64(0.2126*c[0]) + float64(0.7152*c[1]) + float64(0.0722*c[2])
}
