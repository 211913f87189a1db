package light

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/plan/booth"
)

// Daylight is the sky, or a hall's own light, and the sun over a booth. The zero value is an even sky of a usual day without a sun, or
// what the hall has.
type Daylight struct {
	Toward geom.Vec // to the sun
	Direct float64  // the sun's light on a face square to it; 1 is what open level ground gets from the sky alone
	Radius float64  // radians: half the angle across which the sun is seen
	Lux    float64  // that open level ground gets from the sky alone; negative: it is night
	Off    bool     // the booth's lamps are switched off

	Sky func(toward geom.Vec) float64 // how bright the sky is in a direction, in any unit; nil: as the CIE overcast sky
}

func (d Daylight) shines() bool { return d.Direct > 0 && d.Toward.Y > 0 }

// Sun is what the sun's direct light is drawn by: the outlines of all that stands in its way.
type Sun struct {
	Toward geom.Vec
	*sight.Outlines
}

// What 1 is, in lux.
const (
	greyDay = 15_000 // open level ground gets under an overcast sky with the sun half-way up: IES 1984, as in package sun
	dim     = 100    // at least, so that there is a scale by night
)

// under sets the room under a sky, or in the light of a hall, and under a sun.
func (r *room) under(p *booth.Plan, day Daylight) {
	lux := float64(greyDay)
	switch {
	case r.indoor:
		lux = p.Pitch.Ceiling
	case day.Lux != 0:
		lux = max(0, day.Lux)
	}
	r.lux, r.off = max(lux, dim), day.Off
	r.sky = rgb{}.plus(white, lux/r.lux)
	if r.dome = nil; day.Sky != nil && !r.indoor {
		d := fit(day.Sky)
		r.dome = &d
	}
	r.openGround = r.ground.times(r.sky) // all of the sky's light, less what the ground keeps
	r.day = Daylight{}
	if r.indoor || !day.shines() {
		return
	}
	r.day = day
	r.openGround = r.openGround.plus(r.openGround, day.Direct*day.Toward.Y)
}

// shine works out how much of each face the sun shines on: exactly, by what an eye at the sun sees of it.
func (r *room) shine() {
	if !r.day.shines() {
		return
	}
	crowd := sight.NewCrowd(r.solids)
	var gaze sight.Gaze
	for _, fs := range r.faces {
		for i := range fs {
			f := &fs[i]
			if cos := f.n.Dot(r.day.Toward); cos > 0 {
				f.sun = r.day.Direct * cos * gaze.SeeAlong(r.day.Toward, f.outline, crowd, func(int) bool { return false }).Visible
			}
		}
	}
}

// shine gives the surfaces the sun's direct light, as what is drawn stands in its way.
func (l *Lit) shine(p *booth.Plan, day Daylight, without func(*booth.Part) bool) {
	if p.Pitch.Indoor || !day.shines() {
		return
	}
	var solids []sight.Solid
	for i := range p.Parts {
		if part := &p.Parts[i]; !part.SeeThrough && !without(part) {
			for _, c := range part.Solids {
				solids = append(solids, sight.NewSolid(c, i))
			}
		}
	}
	l.Sun = &Sun{day.Toward, sight.NewOutlines(day.Toward, math.Tan(day.Radius), solids)}
	for i := range l.Surfaces {
		s := &l.Surfaces[i]
		behind := 0.0
		if s.Look.Passes > 0 {
			behind = through(material(s.Look), s.Look.Passes)
		}
		s.Sun = make([]float32, len(s.Mesh.Vertices))
		away := turnedAway(&s.Mesh, day.Toward)
		for k, v := range s.Mesh.Vertices {
			cos := v.N.Dot(day.Toward)
			lit := float64(behind * max(0, -cos))
			if !away {
				lit += float64((1 - s.Look.Passes) * max(0, cos))
			}
			s.Sun[k] = float32(day.Direct * lit)
		}
	}
}

// turnedAway reports whether a surface that looks one way as a whole, such as one side of a drape, looks away from the sun: then
// it does not shine on the folds that look aside either, as it would have to come through the cloth.
func turnedAway(m *geom.Mesh, toward geom.Vec) bool {
	var sum geom.Vec
	area := 0.0
	for _, t := range m.Triangles {
		a, b, c := m.Vertices[t[0]].P, m.Vertices[t[1]].P, m.Vertices[t[2]].P
		n := b.Sub(a).Cross(c.Sub(a))
		sum, area = sum.Add(n), area+n.Len()
	}
	const oneWay = 0.5 // of its area, at least, looks that way on balance
	return sum.Len() > oneWay*area && sum.Dot(toward) <= 0
}
