package light

import (
	"math"

	"boothmock/internal/basis/geom"
)

// touch is the gap, in metres, up to which two things count as touching.
const touch = 0.005

// contacts cuts the sheets of part own along the outlines of the other things that touch them: light breaks off there,
// and under them nobody sees it. A triangle is cut right across by the plane of a side of the other thing, if the line of
// the cut runs along that side within the triangle. So each line ends a triangle later than the side does, and two
// lines that meet in a corner of an outline do so in a vertex.
func (m *seams) contacts(sheets []*sheet, r *room, own int) {
	var all []geom.Vec
	for _, s := range sheets {
		for _, l := range s.spots {
			all = append(all, l.at)
		}
	}
	lo, hi := geom.Bounds(all)
	m.cutting = true
	for _, solid := range r.solids {
		if solid.Owner == own || solid.Owner == groundOwner {
			continue
		}
		from, to := solid.Convex.Bounds()
		if apart(lo, hi, from, to) {
			continue
		}
		var sides []face
		for i := range solid.Convex.Faces {
			p := solid.Convex.Face(i)
			sides = append(sides, face{at: p.Centre(), n: p.Normal()})
		}
		for i := range sides {
			any := false
			for _, s := range sheets {
				any = s.cut(sides, i, from, to, m) || any
			}
			if any {
				m.divide(sheets)
			}
		}
	}
	m.cutting = false
}

// apart reports whether two boxes are farther from each other than what touches is.
func apart(lo, hi, from, to geom.Vec) bool {
	return lo.X > to.X+touch || lo.Y > to.Y+touch || lo.Z > to.Z+touch || hi.X < from.X-touch || hi.Y < from.Y-touch || hi.Z < from.Z-touch
}

// cut marks the sides in which the plane of one of the faces of a solid, which reaches from lo to hi, cuts triangles.
func (s *sheet) cut(faces []face, i int, lo, hi geom.Vec, m *seams) bool {
	const near = 0.0005 // metres from a corner of a triangle to a cut that may as well go through it
	any := false
	for _, t := range s.triangles {
		a, b, c := &s.spots[t.v[0]], &s.spots[t.v[1]], &s.spots[t.v[2]]
		if !a.seen && !b.seen && !c.seen && !a.covered && !b.covered && !c.covered {
			continue
		}
		corners := [3]geom.Vec{a.at, b.at, c.at}
		if l, h := geom.Bounds(corners[:]); apart(l, h, lo, hi) {
			continue
		}
		if n := b.at.Sub(a.at).Cross(c.at.Sub(a.at)).Unit(); math.Abs(n.Dot(faces[i].n)) > 0.9 {
			continue
		}
		var above [3]float64
		for j, p := range corners {
			if above[j] = p.Sub(faces[i].at).Dot(faces[i].n); math.Abs(above[j]) < near {
				above[j] = 0
			}
		}
		var ends [3]geom.Vec // of the cut, one of them twice if it goes through a corner
		n := 0
		for j := range 3 {
			if x, y := above[j], above[(j+1)%3]; x*y < 0 || x*y == 0 && x+y != 0 {
				ends[n] = corners[j].Lerp(corners[(j+1)%3], x/(x-y))
				n++
			}
		}
		if n == 3 && ends[0].Dist(ends[2]) > ends[0].Dist(ends[1]) {
			ends[1] = ends[2]
		}
		if n < 2 || !along(faces, i, ends[0], ends[1]) {
			continue
		}
		for j := range 3 {
			x, y := above[j], above[(j+1)%3]
			e := &s.sides[t.s[j]]
			if x*y >= 0 || e.length <= 2*near {
				continue
			}
			if f := x / (x - y); f*e.length > near && (1-f)*e.length > near {
				if e.a != t.v[j] {
					f = 1 - f
				}
				any = m.mark(e.seam, f) || any
			}
		}
	}
	return any
}

// along reports whether the line from a to b in the plane of face i of a solid runs along the solid, most of it or for long.
func along(faces []face, i int, a, b geom.Vec) bool {
	from, to := 0.0, 1.0
	d := b.Sub(a)
	for k := range faces {
		if k == i {
			continue
		}
		f := &faces[k]
		switch h, v := a.Sub(f.at).Dot(f.n)-touch, d.Dot(f.n); {
		case v > 0:
			to = min(to, -h/v)
		case v < 0:
			from = max(from, -h/v)
		case h > 0:
			return false
		}
	}
	return to-from > 0.5 || (to-from)*d.Len() > touch
}
