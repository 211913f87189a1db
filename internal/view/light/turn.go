package light

import (
	"math"

	"boothmock/internal/basis/geom"
)

// Where light changes one way only, as under a long edge, two triangles that make up a four-sided cell want to be divided
// across it: both long sides, and the diagonal too, which would put twice as many vertices there as are needed. So the
// diagonal is left whole, and then turned to lie between the two new vertices.

// user is a triangle that has a side, and which of its sides that is.
type user struct{ triangle, k int }

// diagonals finds the sides that are to be turned, and takes their marks away.
func (s *sheet) diagonals(m *seams) []int {
	users := map[int][]user{}
	var found []int
	for i, t := range s.triangles {
		for k, e := range t.s {
			if n := s.sides[e].seam; m.marked[n] > 0 && m.shared[n] == 1 {
				if users[e] == nil {
					found = append(found, e)
				}
				users[e] = append(users[e], user{i, k})
			}
		}
	}
	var out []int
	taken := map[int]bool{}
	for _, e := range found {
		u := users[e]
		if len(u) != 2 || taken[u[0].triangle] || taken[u[1].triangle] {
			continue
		}
		// The cell is a b c d, counterclockwise; the side runs from a to c in t, and from c to a in o.
		t, k, o, l := s.triangles[u[0].triangle], u[0].k, s.triangles[u[1].triangle], u[1].k
		cb, ba, ad, dc := &s.sides[t.s[(k+1)%3]], &s.sides[t.s[(k+2)%3]], &s.sides[o.s[(l+1)%3]], &s.sides[o.s[(l+2)%3]]
		if m.marked[cb.seam] > 0 {
			cb, ba, ad, dc = ba, cb, dc, ad
		}
		if m.marked[cb.seam] > 0 || m.marked[ad.seam] > 0 || m.marked[ba.seam] == 0 || m.marked[dc.seam] == 0 {
			continue
		}
		if _, ok := both(t.of, o.of); !ok {
			continue
		}
		p := func(t triangle, k int) geom.Vec { return s.vertices[t.v[k%3]].P }
		a, b, c, d := p(t, k), p(t, k+2), p(t, k+1), p(o, l+2)
		const flat = 0.0015 // metres that a corner of a flat cell may be out of the plane of the others
		if n := b.Sub(a).Cross(c.Sub(a)).Unit(); math.Abs(n.Dot(d.Sub(a))) > flat || a.Add(c).Sub(b).Sub(d).Len() > s.sides[e].length/2 {
			continue
		}
		out = append(out, e)
		taken[u[0].triangle], taken[u[1].triangle] = true, true
	}
	for _, e := range out {
		m.marked[s.sides[e].seam] = 0
	}
	return out
}

// turn makes each of some sides the other diagonal of its cell, which is two of the triangles.
func (s *sheet) turn(triangles []triangle, list []int, m *seams) {
	users := map[int][]user{}
	for _, e := range list {
		users[e] = nil
	}
	for i, t := range triangles {
		for k, e := range t.s {
			if u, ok := users[e]; ok {
				users[e] = append(u, user{i, k})
			}
		}
	}
	for _, e := range list {
		x, y := users[e][0], users[e][1]
		of, _ := both(triangles[x.triangle].of, triangles[y.triangle].of)
		t, o := triangles[x.triangle].v, triangles[y.triangle].v
		a, c, p, q := t[x.k], t[(x.k+1)%3], t[(x.k+2)%3], o[(y.k+2)%3]
		triangles[x.triangle] = s.triangle([3]int{q, c, p}, of, m)
		triangles[y.triangle] = s.triangle([3]int{a, q, p}, of, m)
	}
}

// both are the whole triangles that a cell of two triangles is of; it reports false if they are more than two.
func both(a, b [2]int) ([2]int, bool) {
	all := [2]int{a[0], a[1]}
	for _, n := range b {
		switch {
		case n == all[0] || n == all[1]:
		case all[0] == all[1]:
			all[1] = n
		default:
			return all, false
		}
	}
	return all, true
}
