package light

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Who looks into a booth from the aisle has got used to the light there, and the booth is as dark as it is beside it. Who has
// stepped in gets used to the light inside within a step or two. That the eye goes by the light around it, and not by the booth
// before it, is common practice in setting up booths ("a dark tent is a cave from the aisle"), no source. How much light there is
// around it is the mean cylindrical illuminance at the eye, by which EN 12464-1 judges the light on people's faces.
const (
	within = 0.4 // metres behind an open side by which somebody is inside: common practice, no source
	sides  = 8   // of the upright prism that stands for the cylinder
)

// Brighter is how many times brighter all looks, by colour, to an eye that has got used to the light where it is than to whoever
// stands in the booth: less than 1 in an aisle that is brighter than the booth.
func (l *Lit) Brighter(p *booth.Plan, eye geom.Vec) [3]float32 {
	out := [3]float32{1, 1, 1}
	if l.found == nil {
		return out
	}
	in := inside(eye, geom.Vec{X: -p.Pitch.Width / 2, Y: -1, Z: -p.Pitch.Depth}, geom.Vec{X: p.Pitch.Width / 2, Y: 100}, 0)
	share := 0.0 // of the way in
	if in {
		share = min(1, depth(p, eye)/within)
	}
	if share == 1 {
		return out
	}
	around := l.found.room.around(eye)
	if l.Sun != nil { // over all directions round an upright cylinder, the cosine is one part in pi on average
		add := l.found.room.day.Direct * math.Hypot(l.Sun.Toward.X, l.Sun.Toward.Z) / math.Pi * l.Sun.Open(eye, -1, nil)
		around = around.plus(white, add)
	}
	for c := range out {
		mean := 1 / l.tone.gain[c]
		out[c] = float32(math.Pow(min(1, mean/max(around[c], 1e-6)), 1-share))
	}
	return out
}

// depth is how far a place in the pitch is from its nearest open side.
func depth(p *booth.Plan, q geom.Vec) float64 {
	d := math.Inf(1)
	for side, open := range p.Pitch.Open {
		if open {
			a, b := p.Pitch.Edge(booth.Side(side))
			d = min(d, math.Abs(b.Sub(a).Unit().Cross(geom.Up).Dot(q.Sub(a))))
		}
	}
	return d
}

// around is the mean cylindrical illuminance at a place: what falls on upright faces all round it.
func (r *room) around(q geom.Vec) (sum rgb) {
	g := newGatherer(r)
	for k := range sides {
		s, c := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / sides)
		sum = sum.plus(g.light(q, geom.Vec{X: c, Z: s}, -1), 1./sides)
	}
	return sum
}
