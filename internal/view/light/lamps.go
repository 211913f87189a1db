package light

import (
	"math"
	"reflect"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/lamp"
	"boothmock/internal/plan/booth"
)

// A lamp lights a place by the inverse square of its distance and the cosine, as far as its opening, a disc, is open to the place: so
// shadows are as soft as the disc is large. What arrives is kept in lux by lamp, as a transfer: a lamp that is switched off, and
// another time of day, cost no new light.

// source is a lamp as light meets it.
type source struct {
	booth.Lamp
	owner int
	id    booth.ID
	tint  rgb // of luminance 1, to an eye that takes daylight, or a hall's light, for white
}

// firstLamp is the transfer from lamp number 0; that from number k is firstLamp - k.
const firstLamp = firstSky - skies

// faintest is the light of a lamp, in lux, that is not looked for.
const faintest = 0.2

// What the eye takes for white: the middle of daylight; the white of most halls' lamps, common practice, no source. Kelvin.
const (
	daylightWhite = 6500
	hallWhite     = 4000
)

// addLamps takes in the lamps of a plan.
func (r *room) addLamps(p *booth.Plan) {
	white := float64(daylightWhite)
	if r.indoor {
		white = hallWhite
	}
	for i := range p.Parts {
		if l := p.Parts[i].Lamp; l != nil {
			r.lamps = append(r.lamps, source{*l, i, p.Parts[i].ID, rgb(lamp.Tint(l.Kelvin, white))})
		}
	}
}

// onto is the light of a lamp at p on a surface with normal n, in lux, with nothing in the way.
func (l *source) onto(p, n geom.Vec) float64 {
	d := l.At.Sub(p)
	cos := d.Dot(n)
	if cos <= 0 {
		return 0
	}
	far := d.Dot(d)
	if far < 1e-6 {
		return 0
	}
	return l.Candela(p) * cos / float64(far*math.Sqrt(far))
}

// lamplight appends to list what lamps give p, past every solid but the owner skip's.
func (g *gatherer) lamplight(list []transfer, p, n geom.Vec, skip int) []transfer {
	for k := range g.lamps {
		l := &g.lamps[k]
		lux := l.onto(p, n)
		if lux < faintest {
			continue
		}
		if lux *= g.open(l, p, skip); lux >= faintest {
			list = append(list, transfer{int32(firstLamp - k), lux})
		}
	}
	return list
}

// discSides are those of the polygon that stands for a lamp's opening.
const discSides = 8

// open is the share of a lamp's opening, turned to p, that p sees.
func (g *gatherer) open(l *source, p geom.Vec, skip int) float64 {
	f := facing(p.Sub(l.At).Unit())
	r := l.Radius * math.Sqrt(2*math.Pi/discSides/math.Sin(2*math.Pi/discSides)) // of the same area
	disc := make(geom.Polygon, 0, discSides)
	for k := range discSides {
		s, c := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / discSides)
		disc = append(disc, l.At.Add(f.X.Mul(r*c)).Add(f.Y.Mul(r*s)))
	}
	return g.spy.SeePast(p, disc, g.crowd, func(owner int) bool { return owner == l.owner || owner == skip }).Visible
}

// sameLamps reports whether the lamps of two rooms are the same, in the same order.
func sameLamps(a, b *room) bool {
	if len(a.lamps) != len(b.lamps) {
		return false
	}
	for i := range a.lamps {
		if x, y := &a.lamps[i], &b.lamps[i]; x.id != y.id || !reflect.DeepEqual(x.Lamp, y.Lamp) {
			return false
		}
	}
	return true
}

// shineLamps works out what lamps give each face, on average over it.
func (r *room) shineLamps(list []*face) {
	if len(r.lamps) == 0 || r.off {
		return
	}
	const step = 0.25 // metres from place to place on a face
	r.each(len(list), nil, func(g *gatherer, i int) {
		f := list[i]
		spots := patches(f.outline, step)
		f.lamps = rgb{}
		for _, s := range spots {
			q := s.Centre()
			for _, t := range g.lamplight(g.list[:0], q.Add(f.n.Mul(0.001)), f.n, -1) {
				f.lamps = f.lamps.plus(r.plain(t.from), t.share/float64(len(spots)))
			}
		}
	})
}

// glow is how bright a lamp's opening is: as bright all over, and from everywhere.
func (r *room) glow(owner int) rgb {
	for k := range r.lamps {
		if l := &r.lamps[k]; l.owner == owner {
			return rgb{}.plus(r.bright(int32(firstLamp-k), geom.Vec{}), l.Beam.Lumens/(math.Pi*l.Radius*l.Radius))
		}
	}
	return rgb{}
}

// shift is by how much the light that lamps give p may have changed from one room to the next, in lux.
func (m *moves) shift(p, n geom.Vec) (lux float64) {
	for _, list := range [2][]source{m.darkened, m.lit} {
		for k := range list {
			lux += list[k].onto(p, n)
		}
	}
	return lux
}

// compareLamps says on the moves which lamps changed.
func (m *moves) compareLamps(before, now *room) {
	m.still = len(m.list) == 0 && sameLamps(before, now)
	if sameLamps(before, now) {
		return
	}
	differ := func(of []source, from []source) (out []source) {
	next:
		for i := range of {
			for k := range from {
				if of[i].id == from[k].id && reflect.DeepEqual(of[i].Lamp, from[k].Lamp) {
					continue next
				}
			}
			out = append(out, of[i])
		}
		return out
	}
	m.darkened, m.lit = differ(before.lamps, now.lamps), differ(now.lamps, before.lamps)
}
