package shade

import (
	"math"
	"time"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// What the sun does to a face is made from the face, the sun's course, and the parts that a ray to the sun comes near: it is taken
// over by the next version of the booth as long as those are the same.

// ray is where the sun is at a time, in the booth's axes, and its light on a surface square to it.
type ray struct {
	toward, inverse geom.Vec // the second has the inverse of each component
	lux             float64
}

// rays are those of some times at which the sun shines.
func (c Course) rays(times []time.Time) (out []ray) {
	for _, t := range times {
		if toward, lux := c.at(t); lux > 0 && toward.Y > 0 {
			out = append(out, ray{toward, geom.Vec{X: inverse(toward.X), Y: inverse(toward.Y), Z: inverse(toward.Z)}, lux})
		}
	}
	return out
}

// inverse of next to nothing is a finite number.
func inverse(x float64) float64 {
	const least = 1e-30
	if math.Abs(x) < least {
		return 1 / least
	}
	return 1 / x
}

// sum is what a face's light is made from, if the sun is followed along some rays and may be up to aside radians beside them.
func (h *hall) sum(face geom.Polygon, own int, rays []ray, aside float64) answer.Sum {
	if h.kept == nil {
		return answer.Sum{}
	}
	var s answer.Summing
	for _, v := range face {
		s.Add(v.X, v.Y, v.Z)
	}
	n := face.Normal()
	var before []ray // from where it shines on the face
	for _, r := range rays {
		s.Add(r.toward.X, r.toward.Y, r.toward.Z, r.lux)
		if n.Dot(r.toward) > -math.Sin(aside) {
			before = append(before, r)
		}
	}
	lo, hi := geom.Bounds(face)
	centre, half := lo.Lerp(hi, 0.5), hi.Sub(lo).Mul(0.5)
	for i := range h.bounds {
		b := &h.bounds[i]
		if b.owner != own && b.near(centre, half, before, aside) {
			s.Sum(b.body)
		}
	}
	if h.hung < 0 {
		for _, v := range h.sheets[-1-h.hung].Corners {
			s.Add(v.X, v.Y, v.Z)
		}
	}
	return s.Done()
}

// bounds are those of a part.
type bounds struct {
	owner        int
	centre, half geom.Vec
	body         answer.Sum
}

func boundsOf(part *booth.Part, owner int, body answer.Sum) (b bounds, ok bool) {
	var ends []geom.Vec
	for _, c := range part.Solids {
		lo, hi := c.Bounds()
		ends = append(ends, lo, hi)
	}
	for _, w := range part.Screen {
		r := geom.Vec{X: w.Radius, Y: w.Radius, Z: w.Radius}
		for _, i := range [2]int{0, w.Count - 1} {
			p, q := w.Ends(i)
			ends = append(ends, p.Sub(r), p.Add(r), q.Sub(r), q.Add(r))
		}
	}
	lo, hi := geom.Bounds(ends)
	return bounds{owner, lo.Lerp(hi, 0.5), hi.Sub(lo).Mul(0.5), body}, len(ends) > 0
}

// near reports whether a ray from a box, along one of those given or up to aside radians beside it, may meet the part.
func (b *bounds) near(centre, half geom.Vec, rays []ray, aside float64) bool {
	d := b.centre.Sub(centre)
	wide := b.half.Add(half)
	more := math.Tan(aside)*(d.Len()+wide.Len()) + 1e-6
	wide = wide.Add(geom.Vec{X: more, Y: more, Z: more})
	for i := range rays { // each is cut to what is within the bounds (Kay and Kajiya, Computer Graphics 20(4), 1986)
		v := &rays[i].inverse
		x0, x1 := (d.X-wide.X)*v.X, (d.X+wide.X)*v.X
		y0, y1 := (d.Y-wide.Y)*v.Y, (d.Y+wide.Y)*v.Y
		z0, z1 := (d.Z-wide.Z)*v.Z, (d.Z+wide.Z)*v.Z
		if max(0, min(x0, x1), min(y0, y1), min(z0, z1)) <= min(max(x0, x1), max(y0, y1), max(z0, z1)) {
			return true
		}
	}
	return false
}
