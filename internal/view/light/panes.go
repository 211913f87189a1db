package light

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/glass"
	"boothmock/internal/plan/booth"
)

// Panes is what the panes before works mirror: the booth as it is seen from the eye mirrored in the pane, through the work as a window.
type Panes struct {
	g     *gatherer
	plan  *booth.Plan
	light map[int]float64 // of each work, on average
}

// Panes are those of the booth in this light.
func (l Levels) Panes() *Panes {
	out := &Panes{newGatherer(l.found.room), l.found.plan, map[int]float64{}}
	out.g.gaze.Least = 0 // nothing is too small to be mirrored
	for _, w := range l.Works {
		out.light[w.Part] = w.Light
	}
	return out
}

// Mirrored is what an eye sees mirrored in a pane, as shares of the pane.
type Mirrored struct {
	Lost  float64 // where dark parts of the picture do not read any more
	Most  Source  // of that, what takes most of it
	Lamps []int   // numbers of the parts whose lamps are mirrored
}

// Source is what is mirrored: a part's number, or one of the two below.
type Source int

// What is no part.
const (
	OpenSky    Source = -1 // a hall's ceiling or its far walls, indoors
	OpenGround Source = -2
)

// veiled is how bright, beside white on the work, what is mirrored must be for black, which gives back 4 % (common practice, no source),
// not to be 4.5 times darker than white any more: the least contrast of WCAG 2.1, 1.4.3 for what is to be read.
// (1 + v)/(0.04 + v) = 4.5.
const veiled = (1 - 4.5*0.04) / 3.5

// Look is what an eye sees mirrored in the pane of work number own, if that were at face.
func (s *Panes) Look(eye geom.Vec, face geom.Polygon, own int, kind glass.Kind) (m Mirrored) {
	n := face.Normal()
	d := n.Dot(face.Centre())
	high := n.Dot(eye) - d
	if high <= 1e-3 || !kind.Mirrors() {
		return m
	}
	from := eye.Sub(n.Mul(2 * high)) // the mirrored eye
	window := make(geom.Polygon, 0, len(face))
	for i := len(face) - 1; i >= 0; i-- { // facing it
		window = append(window, face[i].Sub(from).Mul(reach/high))
	}
	whole := window.Area()
	s.g.which = s.before(s.g.which[:0], n, d, own)
	white := s.light[own]
	lost := map[Source]float64{}
	var buffer [2][12]geom.Vec
	for i, open := range [2]int32{sky, field} {
		half := above(window, buffer[i][:0], float64(1-2*i))
		if len(half) < 3 {
			continue
		}
		s.g.gaze.Look(from, half, s.g.solids, s.g.which)
		s.g.gaze.Each(func(piece []geom.Vec, by int) {
			to := geom.Polygon(piece).Centre().Unit()
			what, bright := s.what(open, by, from, to)
			if kind.Reflects(to.Dot(n))*bright > veiled*white {
				share := geom.Polygon(piece).Area() / whole
				m.Lost += share
				lost[what] += share
			}
		})
	}
	for _, k := range append([]Source{OpenSky, OpenGround}, s.numbers()...) {
		if lost[k] > lost[m.Most] || lost[m.Most] == 0 {
			m.Most = k
		}
	}
	m.Lamps = s.lampsIn(from, face, n, own)
	return m
}

// numbers are those of all parts.
func (s *Panes) numbers() []Source {
	out := make([]Source, len(s.plan.Parts))
	for i := range out {
		out[i] = Source(i)
	}
	return out
}

// before are the numbers of the solids that a plane mirrors: those before it. What is of a neighbour and stands on both sides of it is
// left out.
func (s *Panes) before(out []int, n geom.Vec, d float64, own int) []int {
	const least, back = 0.01, 0.3 // metres
	for k := range s.g.solids {
		o := &s.g.solids[k]
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, c := range o.Convex.Corners {
			h := n.Dot(c) - d
			lo, hi = min(lo, h), max(hi, h)
		}
		beyond := o.Owner != groundOwner && s.plan.Parts[o.Owner].Beyond
		if o.Owner != own && hi > least && !(beyond && lo < -back) {
			out = append(out, k)
		}
	}
	return out
}

// what is mirrored in a direction, and how bright it is.
func (s *Panes) what(open int32, by int, from, to geom.Vec) (Source, float64) {
	switch {
	case by >= 0 && s.g.solids[by].Owner == groundOwner:
		return OpenGround, luminance(s.g.bright(int32(by), from))
	case by >= 0:
		return Source(s.g.solids[by].Owner), luminance(s.g.bright(int32(by), from))
	case open == field:
		return OpenGround, luminance(s.g.openGround)
	case s.g.indoor:
		return OpenSky, luminance(s.g.sky)
	}
	return OpenSky, luminance(s.g.sky) * s.g.over().at(to)
}

// lampsIn are the lamps whose openings are mirrored to the eye.
func (s *Panes) lampsIn(from geom.Vec, face geom.Polygon, n geom.Vec, own int) (out []int) {
	for k := range s.g.lamps {
		l := &s.g.lamps[k]
		d := l.At.Sub(from)
		up, gone := d.Dot(n), face.Centre().Sub(from).Dot(n)
		if s.g.off || up <= gone {
			continue
		}
		at := from.Add(d.Mul(gone / up)) // where it is mirrored
		within := true
		for i, a := range face {
			within = within && face[(i+1)%len(face)].Sub(a).Cross(at.Sub(a)).Dot(n) >= 0
		}
		if !within || at.Sub(l.At).Dot(l.Toward) <= 0 || l.Candela(at) < l.Beam.Lumens/1000 {
			continue
		}
		stopped := false
		for i := range s.g.solids {
			o := &s.g.solids[i]
			stopped = stopped || o.Owner != own && o.Owner != l.owner && o.Stops(at.Add(n.Mul(0.002)), l.At)
		}
		if !stopped {
			out = append(out, l.owner)
		}
	}
	return out
}
