package picture

import (
	"math"
	"slices"

	"github.com/fogleman/fauxgl"

	"boothmock/internal/basis/geom"
	"boothmock/internal/view/light"
)

// What is seen is decided on whole triangles; the light on them may be divided much more finely, and curve. So such light is
// looked up where a pixel needs it, as an image is: however fine it is, the picture takes no longer.

// mosaic is the light on one triangle on which it is not even. Places on it are given by the shares that its second and third
// corner have of them. A grid of cells over both shares leads to the pieces that lie in a cell.
type mosaic struct {
	side   int
	cells  []uint32 // cells[k] up to cells[k+1] are the places in list of cell k's pieces; row by row
	list   []uint32
	pieces []piece
}

// piece is one part of the triangle: the shares of its own second and third corner at u, v are p0·u + p1·v + p2 and so on.
// Light goes through its corners and the middles of its sides (the quadratic triangle with six nodes of finite elements):
// bend is four times what the middle of each side has more than the mean of its ends.
type piece struct {
	p, q        [3]float32
	light, bend [3]rgb
}

// at is the light at a place, and the piece that it is on. A piece where it may well be, if one is given, is tried first.
func (m *mosaic) at(u, v float32, likely *piece) (rgb, *piece) {
	if u < 0 {
		u = 0
	}
	if v < 0 {
		v = 0
	}
	if sum := u + v; sum > 1 {
		u, v = u/sum, v/sum
	}
	if likely != nil {
		if s, t := likely.shares(u, v); s >= 0 && t >= 0 && s+t <= 1 {
			return likely.mix(s, t), likely
		}
	}
	side := float32(m.side)
	k := min(int(v*side), m.side-1)*m.side + min(int(u*side), m.side-1)
	near := m.list[m.cells[k]:m.cells[k+1]]
	for _, i := range near {
		p := &m.pieces[i]
		if s, t := p.shares(u, v); s >= 0 && t >= 0 && s+t <= 1 {
			return p.mix(s, t), p
		}
	}
	// Rounding can leave a hair between pieces.
	best, most := &m.pieces[near[0]], float32(math.Inf(-1))
	for _, i := range near {
		p := &m.pieces[i]
		s, t := p.shares(u, v)
		if least := min(s, t, 1-s-t); least > most {
			best, most = p, least
		}
	}
	return best.mix(best.shares(u, v)), best
}

func (p *piece) shares(u, v float32) (s, t float32) {
	return p.p[0]*u + p.p[1]*v + p.p[2], p.q[0]*u + p.q[1]*v + p.q[2]
}

func (p *piece) mix(s, t float32) rgb {
	r := 1 - s - t
	rs, st, tr := r*s, s*t, t*r
	a, b, c := &p.light[0], &p.light[1], &p.light[2]
	d, e, f := &p.bend[0], &p.bend[1], &p.bend[2]
	return rgb{
		r*a.r + s*b.r + t*c.r + rs*d.r + st*e.r + tr*f.r,
		r*a.g + s*b.g + t*c.g + rs*d.g + st*e.g + tr*f.g,
		r*a.b + s*b.b + t*c.b + rs*d.b + st*e.b + tr*f.b,
	}
}

// newMosaic is the light on the triangle of a surface's mesh with these corners, of which the parts are given by their
// numbers. It is nil for a triangle without area.
func newMosaic(s *light.Surface, corner [3]int, parts []int) *mosaic {
	at := func(v int) geom.Vec { return s.Mesh.Vertices[v].P.Sub(s.Mesh.Vertices[corner[0]].P) }
	e, f := at(corner[1]), at(corner[2])
	ee, ef, ff := e.Dot(e), e.Dot(f), f.Dot(f)
	area := ee*ff - ef*ef
	if !(area > 0) {
		return nil
	}
	m := &mosaic{side: int(math.Ceil(math.Sqrt(2 * float64(len(parts)))))}
	var boxes [][4]int // cells that a piece may touch
	for _, part := range parts {
		var u, v [3]float64
		var p piece
		for i, n := range s.Mesh.Triangles[part] {
			d := at(n)
			de, df := d.Dot(e), d.Dot(f)
			u[i], v[i] = (ff*de-ef*df)/area, (ee*df-ef*de)/area
			p.light[i] = lit(s.Light[n])
		}
		p.bend = bends(s, part)
		twice := (u[1]-u[0])*(v[2]-v[0]) - (u[2]-u[0])*(v[1]-v[0])
		if twice == 0 {
			continue
		}
		// The share of corner i is twice the area of the place and the other two corners over that of all three.
		share := func(j, k int) [3]float32 {
			return [3]float32{float32((v[j] - v[k]) / twice), float32((u[k] - u[j]) / twice), float32((u[j]*v[k] - u[k]*v[j]) / twice)}
		}
		p.p, p.q = share(2, 0), share(0, 1)
		m.pieces = append(m.pieces, p)
		cell := func(x float64) int { return min(max(int(x*float64(m.side)), 0), m.side-1) }
		const loose = 1e-4 // more than rounding can move a place
		boxes = append(boxes, [4]int{cell(min(u[0], u[1], u[2]) - loose), cell(max(u[0], u[1], u[2]) + loose),
			cell(min(v[0], v[1], v[2]) - loose), cell(max(v[0], v[1], v[2]) + loose)})
	}
	m.cells, m.list = binned(m.side*m.side, func(put func(cell, piece int)) {
		for i, b := range boxes {
			for y := b[2]; y <= b[3]; y++ {
				for x := b[0]; x <= b[1]; x++ {
					put(y*m.side+x, i)
				}
			}
		}
	})
	return m
}

// bends are the bends of a triangle of a surface's mesh.
func bends(s *light.Surface, number int) (out [3]rgb) {
	if s.Middles == nil {
		return out
	}
	t := s.Mesh.Triangles[number]
	for i, c := range s.Middles[number] {
		a, b := s.Light[t[i]], s.Light[t[(i+1)%3]]
		for k := range c {
			c[k] = 4 * (c[k] - (a[k]+b[k])/2)
		}
		out[i] = lit(c)
	}
	return out
}

// even is whether none of the bends shows.
func even(bends [3]rgb) bool {
	const most = 4 * 1e-4 // of linear light: a third of a step of 255 where it is darkest
	for _, b := range bends {
		if max(b.r, b.g, b.b) > most || min(b.r, b.g, b.b) < -most {
			return false
		}
	}
	return true
}

// assemble makes a surface's triangles out of its mesh, whose vertices are given with their light.
func (u *surface) assemble(s *light.Surface, vertices []fauxgl.Vertex) {
	whole, parts := s.Whole, make([][]int, len(s.Whole))
	if s.Whole == nil {
		whole, parts = s.Mesh.Triangles, make([][]int, len(s.Mesh.Triangles))
	}
	for i, of := range s.Of {
		parts[of] = append(parts[of], i)
	}
	for _, a := range s.Across {
		parts[a[1]] = append(parts[a[1]], a[0])
	}
	places := map[int]int{} // of vertices that are kept
	for i, w := range whole {
		var m *mosaic
		if n := len(parts[i]); n > 1 || n == 1 && !even(bends(s, parts[i][0])) {
			m = newMosaic(s, w, parts[i])
		}
		var t [3]int
		for k, v := range w {
			if m != nil { // its corners have their shares in the place of light
				c := vertices[v]
				c.Color = fauxgl.Color{G: [3]float64{0, 1, 0}[k], B: [3]float64{0, 0, 1}[k], A: c.Color.A}
				t[k] = len(u.vertices)
				u.vertices = append(u.vertices, c)
				continue
			}
			n, ok := places[v]
			if !ok {
				n = len(u.vertices)
				places[v] = n
				u.vertices = append(u.vertices, vertices[v])
			}
			t[k] = n
		}
		smooth := false // with one of the facet before
		if n := len(u.facets) - 1; n >= 0 {
			q := &u.facets[n]
			a, b, ok := shared(whole[i-1], w)
			if ok && q.sides == 3 {
				q.sides, q.corners, q.mosaics[1] = 4, [2][3]int{turned(q.corners[0], a), turned(t, b)}, m
				q.smooth = q.smooth || n > 0 && u.facets[n-1].borders(whole[:i-1], w)
				continue
			}
			smooth = q.borders(whole[:i], w)
		}
		u.facets = append(u.facets, facet{3, [2][3]int{t}, [2]*mosaic{m}, smooth})
	}
}

// facet is a triangle of a surface, or two that share an edge: a quadrilateral, flat or not, of corners 0, 1, 2 and corners 0, 2, 3.
// Each half has its own vertices, as a mosaic's corners have their shares of a place in their Color.
type facet struct {
	sides   int
	corners [2][3]int
	mosaics [2]*mosaic // the light on one that was divided
	smooth  bool       // it has an edge in common with the one before, and its light there
}

// borders is whether a triangle has an edge in common with the facet whose own are the last ones of those before.
func (q *facet) borders(before [][3]int, t [3]int) bool {
	return slices.ContainsFunc(before[len(before)-q.sides+2:], func(o [3]int) bool {
		_, _, ok := shared(o, t)
		return ok
	})
}

// shared is from which of their corners on two triangles are the halves of a facet.
func shared(one, two [3]int) (a, b int, ok bool) {
	for a := range 3 {
		for b := range 3 {
			if o, t := turned(one, a), turned(two, b); o[0] == t[0] && o[2] == t[1] {
				return a, b, true
			}
		}
	}
	return 0, 0, false
}

// turned is the triangle with another of its corners first.
func turned(t [3]int, by int) [3]int { return [3]int{t[by], t[(by+1)%3], t[(by+2)%3]} }
