package light

import (
	"math"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// A side is divided where the light in its middle is not what drawing it evenly from end to end shows. Pictures follow the
// curve through both ends and the middle, so they are off by a small part of that.
const (
	tolerance = 2.0 / 255     // of the picture's sRGB signal, at the middle of a side
	small     = 0.1           // metres: the side of a cell that may be off by so much; smaller ones fill less of a picture and may be off by more
	sooner    = 0.7           // of what it may be off by: from there on a side is divided if its neighbour is
	falling   = 0.2           // of what a side was off by, what its halves are taken to be off by until they are looked at
	trusted   = 0.25          // metres: longer sides are looked at in any case, times the slack
	hidden    = 0.25          // metres: of longer sides something may show between three places that nobody sees
	far       = 0.5           // metres: of longer sides from the outline of another thing the middle says little
	broken    = 3 * tolerance // what a side counts as off by that runs from the open to under another thing
)

// sheet is a surface under division.
type sheet struct {
	skin
	vertices  []geom.Vertex
	spots     []spot
	place     []int // by vertex: number of its place
	triangles []triangle
	parts     []triangle // of those that are being divided
	fresh     int        // the triangles from this one on have not been looked at
	sides     []side
	numbers   map[[2]int]int // of sides, by their vertices, the lower first
}

// triangle has its vertices, the sides that start at each of them, and the number of the triangle of the mesh that it is a
// part of, twice; or of the two that it lies across.
type triangle struct {
	v, s [3]int
	of   [2]int
}

// side is a side of one triangle, or of two that share its vertices.
type side struct {
	a, b   int // vertices, that of the lower place first
	length float64
	seam   int
	middle spot    // the light there
	known  bool    // middle has been worked out
	off    float64 // how far the light is from even, as a signal; a guess if not known
	vertex int     // where it was divided; else 0
}

// seams are the sides of all sheets of a part by where they are. Sides at one place are divided together, so that no gap
// opens between surfaces that meet there.
type seams struct {
	places  map[[3]int64]int
	ends    map[[2]int]int
	shared  []int     // by seam: how many sides it is of
	cutting bool      // along the outlines of other things
	marked  []float64 // where to divide it, as a share of the way from the lower place to the other; 0: not
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

// mark has a seam divided at a share of its length, and reports whether that is news.
func (m *seams) mark(seam int, at float64) bool {
	if m.marked[seam] > 0 {
		return false
	}
	m.marked[seam] = at
	return true
}

func (m *seams) divide(sheets []*sheet) {
	for _, s := range sheets {
		s.divide(m)
	}
	clear(m.marked)
}

// refine lights the meshes of part own, each with its skin, and divides them.
func refine(meshes []geom.Mesh, skins []skin, r *room, own int) []*sheet {
	m := &seams{places: map[[3]int64]int{}, ends: map[[2]int]int{}}
	var sheets []*sheet
	for i, mesh := range meshes {
		s := &sheet{skin: skins[i], numbers: map[[2]int]int{}}
		for _, v := range mesh.Vertices {
			s.add(v, s.spot(v), m)
		}
		for _, t := range mesh.Triangles {
			if s.spots[t[0]].seen || s.spots[t[1]].seen || s.spots[t[2]].seen {
				s.spots[t[0]].counts, s.spots[t[1]].counts, s.spots[t[2]].counts = true, true, true
			}
		}
		for i, v := range mesh.Vertices {
			if l := &s.spots[i]; !l.covered {
				s.light(l, v)
			}
		}
		for i, t := range mesh.Triangles {
			s.triangles = append(s.triangles, s.triangle(t, [2]int{i, i}, m))
		}
		sheets = append(sheets, s)
	}
	m.contacts(sheets, r, own)
	for _, s := range sheets {
		s.fresh = 0
	}
	for more := true; more; {
		more = false
		for _, s := range sheets {
			more = s.mark(m) || more
		}
		if more {
			m.divide(sheets)
		}
	}
	for _, s := range sheets {
		s.uncover()
	}
	return sheets
}

func (s *sheet) add(v geom.Vertex, l spot, m *seams) int {
	s.vertices, s.spots, s.place = append(s.vertices, v), append(s.spots, l), append(s.place, m.place(v.P))
	return len(s.vertices) - 1
}

// triangle finds or makes the sides of a part of the mesh's triangles of.
func (s *sheet) triangle(v [3]int, of [2]int, m *seams) triangle {
	t := triangle{v: v, of: of}
	for k, a := range v {
		t.s[k] = s.side(a, v[(k+1)%3], m)
	}
	return t
}

// side finds or makes the side between two vertices.
func (s *sheet) side(a, b int, m *seams) int {
	n := number(s.numbers, ordered(a, b))
	if n == len(s.sides) {
		if s.place[a] > s.place[b] {
			a, b = b, a
		}
		e := side{a: a, b: b, length: s.vertices[a].P.Dist(s.vertices[b].P)}
		e.seam = number(m.ends, [2]int{s.place[a], s.place[b]})
		if e.seam == len(m.marked) {
			m.marked, m.shared = append(m.marked, 0), append(m.shared, 0)
		}
		m.shared[e.seam]++
		s.sides = append(s.sides, e)
	}
	return n
}

// mark looks at the sides of new triangles, marks those that must be divided, and reports whether there are any. Beside the
// outline of another thing light falls off fast, and all sides are looked at. Next to those that are marked, others are divided
// sooner, so that a row of cells under an edge is divided all along and not here and there.
func (s *sheet) mark(m *seams) bool {
	any := false
	for _, t := range s.triangles[s.fresh:] {
		allowed := s.allowed(t)
		for _, k := range t.s {
			e := &s.sides[k]
			a, b := &s.spots[e.a], &s.spots[e.b]
			if !e.known && (e.off > allowed || e.length > trusted*s.slack || s.steep(e) || a.edge || b.edge || a.covered && b.covered) {
				s.look(e)
			}
			if e.known && e.off > allowed {
				any = m.mark(e.seam, 0.5) || any
			}
		}
	}
	for more := any; more; {
		more = false
		for _, t := range s.triangles[s.fresh:] {
			if m.marked[s.sides[t.s[0]].seam]+m.marked[s.sides[t.s[1]].seam]+m.marked[s.sides[t.s[2]].seam] > 0 {
				for _, k := range t.s {
					if e := &s.sides[k]; e.known && e.off > sooner*s.allowed(t) {
						more = m.mark(e.seam, 0.5) || more
					}
				}
			}
		}
	}
	s.fresh = len(s.triangles)
	return any
}

// allowed is how far the sides of a triangle may be off.
func (s *sheet) allowed(t triangle) float64 {
	a, b, c := s.vertices[t.v[0]].P, s.vertices[t.v[1]].P, s.vertices[t.v[2]].P
	return s.slack * tolerance * max(1, small/math.Sqrt(b.Sub(a).Cross(c.Sub(a)).Len()))
}

// look works out the light at the middle of a side, if anybody sees it.
func (s *sheet) look(e *side) {
	v := s.between(e, 0.5)
	e.middle, e.known = s.within(e, v), true
	a, b, c := &s.spots[e.a], &s.spots[e.b], &e.middle
	switch {
	case (a.covered || b.covered) && c.covered:
		e.off = 0
	case !a.seen && !b.seen && !c.seen && !(a.covered && b.covered) && (e.length <= hidden && !s.steep(e) || s.thin):
		e.off = 0
	case a.covered || b.covered || c.covered:
		e.off = broken
	default:
		s.light(c, v)
		e.off = s.unlike(c.rgb, a.rgb, b.rgb)
		if (a.edge || b.edge) && e.length > far { // light may rise and fall again before it
			e.off = broken
		}
		if e.length < 10*gap { // little is seen of what lies in a narrow gap; a longer side only runs past some of them
			e.off /= float64(1 + a.tight + b.tight + c.tight)
		}
	}
}

// steep is whether the light at the ends of a side, one of them seen, is so unlike that it hardly falls evenly from one to the other:
// into the gap between two sheets.
func (s *sheet) steep(e *side) bool {
	a, b := &s.spots[e.a], &s.spots[e.b]
	return s.nook != nil && e.length > 1.5*small && (a.seen || b.seen) && s.unlike(a.rgb, b.rgb, b.rgb) > 0.5
}

// within is the spot of a vertex between the ends of a side. If it is seen, the ends count.
func (s *sheet) within(e *side, v geom.Vertex) spot {
	l, a, b := s.spot(v), &s.spots[e.a], &s.spots[e.b]
	l.counts = l.seen || a.seen || b.seen || a.counts && b.counts
	for _, k := range [2]int{e.a, e.b} {
		if end := &s.spots[k]; l.seen && !end.counts && !end.covered {
			end.counts = true
			s.light(end, s.vertices[k])
		}
	}
	return l
}

// unlike is how far the light in the middle is from the mean of the ends', as a signal of the picture, in the colour in
// which that is most.
func (s *sheet) unlike(middle, a, b rgb) float64 {
	most := 0.0
	is, drawn := s.tone.of(middle), s.tone.of(rgb{}.plus(a, 0.5).plus(b, 0.5))
	for k, c := range s.paint {
		most = max(most, math.Abs(colour.Signal(c*is[k])-colour.Signal(c*drawn[k])))
	}
	return most
}

// between is the vertex at a share of the way along a side.
func (s *sheet) between(e *side, f float64) geom.Vertex {
	v, w := s.vertices[e.a], s.vertices[e.b]
	n := v.N.Lerp(w.N, f).Unit()
	if n == (geom.Vec{}) {
		n = v.N
	}
	return geom.Vertex{P: v.P.Lerp(w.P, f), N: n, U: v.U + float64((w.U-v.U)*f), V: v.V + float64((w.V-v.V)*f)}
}

// divide splits every triangle with a marked side into two, three or four.
func (s *sheet) divide(m *seams) {
	turns := s.diagonals(m)
	kept, parts := s.triangles[:0], s.parts[:0]
	for _, t := range s.triangles {
		var mid [3]int // the vertices on the sides; 0 for a side that stays
		n := 0
		for k, i := range t.s {
			if m.marked[s.sides[i].seam] > 0 {
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
		add := func(a, b, c int) { parts = append(parts, s.triangle([3]int{a, b, c}, t.of, m)) }
		switch n {
		case 1:
			add(v[0], mid[0], v[2])
			add(mid[0], v[1], v[2])
		case 2:
			add(mid[0], v[1], mid[1])
			if s.apart(v[0], mid[1]) < s.apart(mid[0], v[2]) {
				add(v[0], mid[0], mid[1])
				add(v[0], mid[1], v[2])
			} else {
				add(v[0], mid[0], v[2])
				add(mid[0], mid[1], v[2])
			}
		default:
			add(v[0], mid[0], mid[2])
			add(mid[0], v[1], mid[1])
			add(mid[2], mid[1], v[2])
			add(mid[0], mid[1], mid[2])
		}
	}
	s.turn(parts, turns, m)
	s.fresh = len(kept)
	s.triangles, s.parts = append(kept, parts...), parts
}

func (s *sheet) apart(a, b int) float64 { return s.vertices[a].P.Dist(s.vertices[b].P) }

// halve is the vertex where side i is marked, made when it is first asked for.
func (s *sheet) halve(i int, m *seams) int {
	if v := s.sides[i].vertex; v != 0 {
		return v
	}
	e := s.sides[i]
	f := m.marked[e.seam]
	v := s.between(&e, f)
	l := e.middle
	if f != 0.5 || !e.known {
		l = s.within(&e, v)
	}
	if !l.lit && !l.covered {
		s.light(&l, v)
	}
	l.edge = m.cutting || s.spots[e.a].edge && s.spots[e.b].edge
	e.vertex = s.add(v, l, m)
	s.sides[i] = e
	for _, end := range [2]int{e.a, e.b} {
		s.sides[s.side(end, e.vertex, m)].off = falling * e.off
	}
	return e.vertex
}

// straight is the factors of vertices moved so that what is drawn evenly between them is too bright in some places and too dark
// in others by the same, instead of always on one side of where light curves: it halves what that is off by.
func (s *sheet) straight() [][3]float32 {
	moves, counts := make([]rgb, len(s.spots)), make([]float64, len(s.spots))
	shown := make([]rgb, len(s.spots))
	for k, l := range s.spots {
		shown[k] = s.tone.of(l.rgb)
	}
	for _, t := range s.triangles {
		for _, i := range t.s {
			e := &s.sides[i]
			a, b := &s.spots[e.a], &s.spots[e.b]
			if a.covered || b.covered {
				continue
			}
			d := s.tone.of(s.middle(e)).plus(shown[e.a], -0.5).plus(shown[e.b], -0.5)
			for _, k := range [2]int{e.a, e.b} {
				moves[k] = moves[k].plus(d, e.length)
				counts[k] += e.length
			}
		}
	}
	out := make([][3]float32, len(s.spots))
	for k, l := range shown {
		if counts[k] > 0 {
			l = l.plus(moves[k], 0.5/counts[k])
		}
		for i, x := range l {
			out[k][i] = float32(max(0, min(x, 1)))
		}
	}
	return out
}

// middle is the light in the middle of a side: where it was not worked out, the mean of the ends'.
func (s *sheet) middle(e *side) rgb {
	if e.known && e.middle.lit {
		return e.middle.rgb
	}
	return rgb{}.plus(s.spots[e.a].rgb, 0.5).plus(s.spots[e.b].rgb, 0.5)
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
					if !s.spots[a].lit && s.spots[b].lit {
						sums[a] = sums[a].plus(s.spots[b].rgb, 1)
						counts[a]++
					}
				}
			}
		}
		for a, n := range counts {
			s.spots[a].rgb, s.spots[a].lit, more = rgb{}.plus(sums[a], 1/n), true, true
		}
	}
	for i := range s.spots {
		if !s.spots[i].lit {
			s.light(&s.spots[i], s.vertices[i])
		}
	}
}

// surface is the sheet with its light; whole are the triangles before they were divided.
func (s *sheet) surface(part int, look booth.Look, back bool, whole [][3]int) Surface {
	out := Surface{Part: part, Look: look, Back: back, Mesh: geom.Mesh{Vertices: s.vertices}, Whole: whole, Tone: s.tone, Straight: s.straight()}
	for i, t := range s.triangles {
		out.Mesh.Triangles, out.Of = append(out.Mesh.Triangles, t.v), append(out.Of, t.of[0])
		var middles [3][3]float32
		for k, i := range t.s {
			middles[k] = single(s.middle(&s.sides[i]))
		}
		out.Middles = append(out.Middles, middles)
		if t.of[1] != t.of[0] {
			out.Across = append(out.Across, [2]int{i, t.of[1]})
		}
	}
	for _, l := range s.spots {
		out.Light = append(out.Light, single(l.rgb))
	}
	return out
}

func single(c rgb) [3]float32 { return [3]float32{float32(c[0]), float32(c[1]), float32(c[2])} }
