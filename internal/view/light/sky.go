package light

import (
	"math"

	"boothmock/internal/basis/geom"
)

// The sky is divided in nine, as planes through the eye divide it: overhead, and two toward each side. Within each its brightness changes
// evenly with direction, L = c0 + c·d, of which the light on a surface is exact (ring.factor, ring.moments). So what a place gets of a
// sky is 36 numbers that are the same for all skies and hours, as daylight coefficients are (Tregenza and Waters, "Daylight
// coefficients", Lighting Research and Technology 15, 1983). The CIE overcast sky is such a sky; others are fitted.
//
// Against the CIE's clear sky itself (type 12) faces in the open get 1.0 % less or more on average and 3.2 % at most, the sun 10° high or higher.

const (
	skyParts = 9
	skyTerms = 4
	skies    = skyParts * skyTerms // transfers
)

// skyCorners are those of the parts, counterclockwise seen from the eye: one overhead, then two to each side from +X on.
var skyCorners = func() (out [skyParts]ring) {
	out[0] = ring{{X: -1, Y: 1, Z: -1}, {X: 1, Y: 1, Z: -1}, {X: 1, Y: 1, Z: 1}, {X: -1, Y: 1, Z: 1}}
	for k := range skyParts - 1 {
		z := float64(k % 2)
		r := ring{{X: 1, Z: z - 1}, {X: 1, Z: z}, {X: 1, Y: 1, Z: z}, {X: 1, Y: 1, Z: z - 1}}
		for range k / 2 {
			for i, c := range r {
				r[i] = geom.Vec{X: -c.Z, Y: c.Y, Z: c.X}
			}
		}
		out[k+1] = r
	}
	return out
}()

// skyPlanes are the normals of the planes before which each part lies.
var skyPlanes = func() (out [skyParts][]geom.Vec) {
	for k, r := range skyCorners {
		for i, c := range r {
			out[k] = append(out[k], r.next(i).Cross(c))
		}
	}
	return out
}()

// weighed is what a place gets of a part of the sky as bright as 1, and as bright as each coordinate of the direction.
type weighed [skyTerms]float64

// dome is how bright the parts of a sky are: c0 and c of each. Open level ground gets 1 of it all.
type dome [skyParts]weighed

// firstSky is the transfer from the first part's first number; that from number k of them all is firstSky - k.
const firstSky = -10

// overcastSky is (1 + 2 sin elevation)/3 as bright as its zenith, of which 7 pi/9 arrive on open level ground.
var overcastSky = func() (d dome) {
	for k := range d {
		d[k] = weighed{3 / (7 * math.Pi), 0, 6 / (7 * math.Pi), 0}
	}
	return d
}()

// over is the sky over the room.
func (r *room) over() *dome {
	if r.dome == nil {
		return &overcastSky
	}
	return r.dome
}

// fit is the dome that is nearest to a sky of which bright says how bright it is in a direction: least squares over each part.
func fit(bright func(toward geom.Vec) float64) (d dome) {
	const n = 24 // places across a part
	level := 0.0
	for k, c := range skyCorners {
		var sums [4][5]float64
		for i := range n {
			for j := range n {
				p := c[0].Lerp(c[1], (float64(i)+0.5)/n).Lerp(c[3].Lerp(c[2], (float64(i)+0.5)/n), (float64(j)+0.5)/n)
				v, l := p.Unit(), p.Len()
				row := [5]float64{1, v.X, v.Y, v.Z, bright(v)}
				for a := range sums {
					for b := range row {
						sums[a][b] += row[a] * row[b] / float64(l*l*l) // the solid angle about p
					}
				}
			}
		}
		d[k] = solve(sums)
		mean := 0.0
		for i, c := range d[k] {
			mean += float64(c*sums[0][i]) / sums[0][0]
		}
		d[k].limit(c, mean)
		level += d.from(k, c.unit(), geom.Up)
	}
	for k := range d {
		for i := range d[k] {
			d[k][i] /= level
		}
	}
	return d
}

// limit makes a part's brightness change so much less about its mean that no corner is darker than nothing.
func (w *weighed) limit(corners ring, mean float64) {
	least := mean
	for _, c := range corners.unit() {
		least = min(least, w[0]+float64(w[1]*c.X)+float64(w[2]*c.Y)+float64(w[3]*c.Z))
	}
	if least >= 0 {
		return
	}
	f := mean / (mean - least)
	for i := range w {
		w[i] *= f
	}
	w[0] += float64(mean * (1 - f))
}

// from is the light of a ring, of unit vectors within part k, on a surface with normal n.
func (d *dome) from(k int, r ring, n geom.Vec) (sum float64) {
	w := r.weigh(n)
	for i := range w {
		sum += float64(w[i] * d[k][i])
	}
	return sum
}

// at is how bright it is in a direction: 1 is what, all over the sky, open level ground gets 1 of.
func (d *dome) at(v geom.Vec) float64 {
	k := partsOf(v)
	for i := range skyPlanes {
		if k&(1<<i) != 0 {
			c := &d[i]
			return max(0, math.Pi*(c[0]+float64(c[1]*v.X)+float64(c[2]*v.Y)+float64(c[3]*v.Z)))
		}
	}
	return 0
}

// weigh is what a surface with normal n gets of the ring, of unit vectors.
func (r ring) weigh(n geom.Vec) weighed {
	m := r.moments(n)
	return weighed{math.Pi * r.factor(n), m.X, m.Y, m.Z}
}

// unit makes unit vectors of the ring's corners.
func (r ring) unit() ring {
	out := make(ring, len(r))
	for i := range r {
		out[i] = r[i].Unit()
	}
	return out
}

// partsOf are the parts, as bits, in which a direction lies, borders included.
func partsOf(v geom.Vec) (bits int) {
	x, z := math.Abs(v.X), math.Abs(v.Z)
	if v.Y >= x && v.Y >= z {
		bits = 1
	}
	if v.Y > x && v.Y > z {
		return bits
	}
	for k, t := range [4][2]float64{{v.X, v.Z}, {v.Z, -v.X}, {-v.X, -v.Z}, {-v.Z, v.X}} {
		if t[0] < max(x, z) {
			continue
		}
		if t[1] <= 0 {
			bits |= 2 << (2 * k)
		}
		if t[1] >= 0 {
			bits |= 4 << (2 * k)
		}
	}
	return bits
}

// open adds what a surface with normal n gets of a piece of open sky. The corners become unit vectors.
func (s *skylight) open(r ring, n geom.Vec) {
	all, any := 1<<skyParts-1, 0
	for i := range r {
		r[i] = r[i].Unit()
		bits := partsOf(r[i])
		all, any = all&bits, any|bits
	}
	for k := range skyPlanes {
		switch {
		case all&(1<<k) != 0:
			s.add(k, r.weigh(n))
			return
		case all == 0:
			if in := s.clip(r, skyPlanes[k]); len(in) > 2 {
				s.add(k, in.weigh(n))
			}
		}
	}
}

// skylight is what a place gets of the parts of the sky.
type skylight struct {
	sums   [skyParts]weighed
	seen   int // parts, as bits
	buffer [2][]geom.Vec
}

func (s *skylight) add(k int, w weighed) {
	s.seen |= 1 << k
	for i := range w {
		s.sums[k][i] += w[i]
	}
}

// clip is what of a ring lies before some planes, of unit vectors; valid until the next call.
func (s *skylight) clip(r ring, planes []geom.Vec) ring {
	in := r
	for i, n := range planes {
		out := s.buffer[i%2][:0]
		for k, a := range in {
			b := in.next(k)
			x, y := n.Dot(a), n.Dot(b)
			if x >= 0 {
				out = append(out, a)
			}
			if (x > 0) != (y > 0) && x != 0 && y != 0 {
				out = append(out, a.Lerp(b, x/(x-y)).Unit())
			}
		}
		s.buffer[i%2] = out
		if in = out; len(in) < 3 {
			return nil
		}
	}
	return in
}

// onto appends what was seen of the sky to list.
func (s *skylight) onto(list []transfer) []transfer {
	for k := range skyPlanes {
		if s.seen&(1<<k) == 0 {
			continue
		}
		for i, w := range s.sums[k] {
			list = append(list, transfer{int32(firstSky - k*skyTerms - i), w})
		}
		s.sums[k] = weighed{}
	}
	s.seen = 0
	return list
}

// solve is x of A x = b, by Gauss and Jordan; b is the last column.
func solve(m [4][5]float64) (x weighed) {
	for i := range m {
		p := i
		for k := i + 1; k < len(m); k++ {
			if math.Abs(m[k][i]) > math.Abs(m[p][i]) {
				p = k
			}
		}
		m[i], m[p] = m[p], m[i]
		for k := range m {
			if f := m[k][i] / m[i][i]; k != i {
				for j := range m[k] {
					m[k][j] -= float64(f * m[i][j])
				}
			}
		}
	}
	for i := range x {
		x[i] = m[i][4] / m[i][i]
	}
	return x
}
