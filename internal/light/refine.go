package light

import (
	"math"

	"boothmock/internal/booth"
	"boothmock/internal/colour"
	"boothmock/internal/geom"
)

// A mesh is divided where the light between two corners is not what drawing it evenly from one to the other shows.
const (
	tolerance = 1.0 / 255 // of the sRGB signal, at the middle of a side
	wide      = 0.4       // metres: the tolerance holds for sides of this length; shorter ones may be off by more, in proportion
	finest    = 0.04      // metres: no shorter side is divided. Where things touch, light breaks off and no mesh follows it
	trusted   = 0.4       // metres: longer sides are looked at however even the light is around them
	glare     = 0.06      // light that the eye adds to the darkest crevice
	border    = 3.0 / 255 // taken for a side that is covered in part: it is divided until it is about a hand's breadth long
)

// sheet is a surface under division.
type sheet struct {
	vertices  []geom.Vertex
	light     []lamp
	place     []int // by vertex: number of its place
	triangles []triangle
	fresh     int // the triangles from this one on have not been looked at
	sides     []side
	numbers   map[[2]int]int // of sides, by their vertices, the lower first
	shade     func(geom.Vertex) lamp
}

// triangle has its vertices, the sides that start at each of them, and the number of the triangle that it is a part of.
type triangle struct {
	v, s [3]int
	of   int
}

// side is a side of one triangle, or of two that share its vertices.
type side struct {
	a, b   int // vertices
	length float64
	seam   int
	middle lamp    // the light there
	known  bool    // middle has been worked out
	off    float64 // how far the light is from even, as a signal; a guess if not known
	vertex int     // at its middle, once it was divided; else 0
}

// seams are the sides of all sheets of a part by where they are. Sides at one place are divided together, so that no gap
// opens between surfaces that meet there.
type seams struct {
	places map[[3]int64]int
	ends   map[[2]int]int
	marked []bool // to be divided
}

// place is the number of a point, to a tenth of a micrometre.
func (m *seams) place(p geom.Vec) int {
	const grain = 1e7
	k := [3]int64{int64(math.Round(p.X * grain)), int64(math.Round(p.Y * grain)), int64(math.Round(p.Z * grain))}
	return number(m.places, k)
}

// number is the number of a key, which is given the next one if it is new.
func number[K comparable](m map[K]int, k K) int {
	n, ok := m[k]
	if !ok {
		n = len(m)
		m[k] = n
	}
	return n
}

func ordered(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

// refine lights the meshes of one part, each with its own shade, and divides them.
func refine(meshes []geom.Mesh, shades []func(geom.Vertex) lamp, divide bool) []*sheet {
	m := &seams{places: map[[3]int64]int{}, ends: map[[2]int]int{}}
	var sheets []*sheet
	for i, mesh := range meshes {
		s := &sheet{numbers: map[[2]int]int{}, shade: shades[i]}
		for _, v := range mesh.Vertices {
			s.add(v, s.shade(v), m)
		}
		for i, t := range mesh.Triangles {
			s.triangles = append(s.triangles, s.triangle(t, i, 0, m))
		}
		sheets = append(sheets, s)
	}
	for more := divide; more; {
		more = false
		for _, s := range sheets {
			more = s.mark(m) || more
		}
		for spread := more; spread; {
			spread = false
			for _, s := range sheets {
				spread = s.longest(m) || spread
			}
		}
		if more {
			for _, s := range sheets {
				s.divide(m)
			}
			clear(m.marked)
		}
	}
	for _, s := range sheets {
		s.uncover()
	}
	return sheets
}

func (s *sheet) add(v geom.Vertex, l lamp, m *seams) int {
	s.vertices, s.light, s.place = append(s.vertices, v), append(s.light, l), append(s.place, m.place(v.P))
	return len(s.vertices) - 1
}

// triangle finds or makes the sides of a part of a triangle of the mesh; off is the guess for new ones.
func (s *sheet) triangle(v [3]int, of int, off float64, m *seams) triangle {
	t := triangle{v: v, of: of}
	for k, a := range v {
		t.s[k] = s.side(a, v[(k+1)%3], off, m)
	}
	return t
}

func (s *sheet) side(a, b int, off float64, m *seams) int {
	n := number(s.numbers, ordered(a, b))
	if n == len(s.sides) {
		e := side{a: min(a, b), b: max(a, b), off: off, length: s.vertices[a].P.Dist(s.vertices[b].P)}
		e.seam = number(m.ends, ordered(s.place[a], s.place[b]))
		if e.seam == len(m.marked) {
			m.marked = append(m.marked, false)
		}
		s.sides = append(s.sides, e)
	}
	return n
}

// mark looks at the sides of new triangles, marks those that must be divided, and reports whether there are any.
func (s *sheet) mark(m *seams) bool {
	any := false
	for _, t := range s.triangles[s.fresh:] {
		for _, k := range t.s {
			e := &s.sides[k]
			if e.length <= finest {
				continue
			}
			if !e.known && (e.off > allowed(e.length)/2 || e.length > trusted) {
				s.look(e)
			}
			if e.known && e.off > allowed(e.length) {
				m.marked[e.seam], any = true, true
			}
		}
	}
	s.fresh = len(s.triangles)
	return any
}

// allowed is how far the light at the middle of a side may be from even. A short side's error is out of sight sooner.
func allowed(length float64) float64 { return tolerance * max(1, wide/length) }

// look works out the light at the middle of a side. Where something covers one part of it and not the other, it is far
// from even.
func (s *sheet) look(e *side) {
	e.middle, e.known = s.shade(s.middle(e)), true
	a, b := s.light[e.a], s.light[e.b]
	switch {
	case a.covered && b.covered && e.middle.covered:
		e.off = 0
	case a.covered || b.covered || e.middle.covered:
		e.off = border
	default:
		e.off = unlike(e.middle.rgb, a.rgb, b.rgb)
	}
}

// unlike is how far the light in the middle is from the mean of the ends' as a signal, at the most of the three colours.
func unlike(middle, a, b rgb) float64 {
	most := 0.0
	for k := range 3 {
		most = max(most, math.Abs(colour.Signal(glare+middle[k])-colour.Signal(glare+(a[k]+b[k])/2)))
	}
	return most
}

// middle is the vertex halfway along a side.
func (s *sheet) middle(e *side) geom.Vertex {
	v, w := s.vertices[e.a], s.vertices[e.b]
	n := v.N.Add(w.N).Unit()
	if n == (geom.Vec{}) {
		n = v.N
	}
	return geom.Vertex{P: v.P.Lerp(w.P, 0.5), N: n, U: (v.U + w.U) / 2, V: (v.V + w.V) / 2}
}

// longest marks the longest side of every triangle that has a marked side, which keeps triangles from growing ever thinner
// (Rivara, Int. J. Numer. Meth. Eng. 20, 1984); it reports whether that was any more.
func (s *sheet) longest(m *seams) bool {
	more := false
	for _, t := range s.triangles {
		if !m.marked[s.sides[t.s[0]].seam] && !m.marked[s.sides[t.s[1]].seam] && !m.marked[s.sides[t.s[2]].seam] {
			continue
		}
		long := &s.sides[t.s[0]]
		for _, k := range t.s[1:] {
			if s.sides[k].length > long.length {
				long = &s.sides[k]
			}
		}
		if !m.marked[long.seam] {
			m.marked[long.seam], more = true, true
		}
	}
	return more
}

// divide splits every triangle with a marked side into two, three or four.
func (s *sheet) divide(m *seams) {
	var kept, parts []triangle
	for _, t := range s.triangles {
		var mid [3]int // the vertices at the middles of the sides; 0 for a side that stays
		n := 0
		off := 0.0
		for k, i := range t.s {
			off = max(off, s.sides[i].off)
			if m.marked[s.sides[i].seam] {
				mid[k] = s.halve(i, m)
				n++
			}
		}
		if n == 0 {
			kept = append(kept, t)
			continue
		}
		// Turn it so that side 0 is divided, and side 2 is not if there is one that is not.
		v := t.v
		for mid[0] == 0 || n < 3 && mid[2] != 0 {
			v, mid = [3]int{v[1], v[2], v[0]}, [3]int{mid[1], mid[2], mid[0]}
		}
		// A side inside the triangle is about half as long as those around it: even light is four times as even there.
		add := func(a, b, c int) { parts = append(parts, s.triangle([3]int{a, b, c}, t.of, off/4, m)) }
		switch {
		case n == 1:
			add(v[0], mid[0], v[2])
			add(mid[0], v[1], v[2])
		case n == 2 && s.apart(v[0], mid[1]) < s.apart(mid[0], v[2]):
			add(mid[0], v[1], mid[1])
			add(v[0], mid[0], mid[1])
			add(v[0], mid[1], v[2])
		case n == 2:
			add(mid[0], v[1], mid[1])
			add(v[0], mid[0], v[2])
			add(mid[0], mid[1], v[2])
		default:
			add(v[0], mid[0], mid[2])
			add(mid[0], v[1], mid[1])
			add(mid[2], mid[1], v[2])
			add(mid[0], mid[1], mid[2])
		}
	}
	s.fresh = len(kept)
	s.triangles = append(kept, parts...)
}

func (s *sheet) apart(a, b int) float64 { return s.vertices[a].P.Dist(s.vertices[b].P) }

// halve is the vertex in the middle of side i, made when it is first asked for.
func (s *sheet) halve(i int, m *seams) int {
	if v := s.sides[i].vertex; v != 0 {
		return v
	}
	e := s.sides[i]
	if !e.known {
		s.look(&e)
	}
	e.vertex = s.add(s.middle(&e), e.middle, m)
	s.sides[i] = e
	s.side(e.a, e.vertex, e.off/4, m)
	s.side(e.vertex, e.b, e.off/4, m)
	return e.vertex
}

// uncover gives vertices that something covers the light of their neighbours, so that no darkness that nobody could see
// bleeds out from under it.
func (s *sheet) uncover() {
	for more := true; more; {
		more = false
		sums, counts := map[int]rgb{}, map[int]float64{}
		for _, t := range s.triangles {
			for k, a := range t.v {
				for _, b := range [2]int{t.v[(k+1)%3], t.v[(k+2)%3]} {
					if s.light[a].covered && !s.light[b].covered {
						sums[a] = sums[a].plus(s.light[b].rgb, 1)
						counts[a]++
					}
				}
			}
		}
		for a, n := range counts {
			s.light[a], more = lamp{rgb{}.plus(sums[a], 1/n), false}, true
		}
	}
}

// surface is the sheet with its light; whole are the triangles before they were divided.
func (s *sheet) surface(part int, look booth.Look, whole [][3]int) Surface {
	out := Surface{Part: part, Look: look, Mesh: geom.Mesh{Vertices: s.vertices}, Whole: whole}
	for _, t := range s.triangles {
		out.Mesh.Triangles, out.Of = append(out.Mesh.Triangles, t.v), append(out.Of, t.of)
	}
	for _, l := range s.light {
		out.Light = append(out.Light, [3]float32{float32(l.rgb[0]), float32(l.rgb[1]), float32(l.rgb[2])})
	}
	return out
}
