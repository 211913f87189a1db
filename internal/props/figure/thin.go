package figure

import (
	"math"
	"slices"

	"boothmock/internal/basis/geom"
)

// quadric is the sum of the squared distances to planes, as a function of the point: xx, xy, xz, xw, yy, yz, yw, zz, zw, ww.
type quadric [10]float64

func (q *quadric) plane(n geom.Vec, w, weight float64) {
	v := [4]float64{n.X, n.Y, n.Z, w}
	k := 0
	for i := range 4 {
		for j := i; j < 4; j++ {
			q[k] += float64(float64(v[i]*v[j]) * weight)
			k++
		}
	}
}

func (q quadric) plus(o quadric) quadric {
	for i := range q {
		q[i] += o[i]
	}
	return q
}

func (q quadric) at(p geom.Vec) float64 {
	x, y, z := p.X, p.Y, p.Z
	return float64(q[0]*float64(x*x)) + float64(q[4]*float64(y*y)) + float64(q[7]*float64(z*z)) + q[9] +
		2*(float64(q[1]*float64(x*y))+float64(q[2]*float64(x*z))+float64(q[5]*float64(y*z))+float64(q[3]*x)+float64(q[6]*y)+float64(q[8]*z))
}

// lowest is the point at which the quadric is least, or near itself where there is no such point within reach.
func (q quadric) lowest(near geom.Vec, reach float64) geom.Vec {
	a, b, c := geom.Vec{X: q[0], Y: q[1], Z: q[2]}, geom.Vec{X: q[1], Y: q[4], Z: q[5]}, geom.Vec{X: q[2], Y: q[5], Z: q[7]}
	r := geom.Vec{X: -q[3], Y: -q[6], Z: -q[8]}
	bc := b.Cross(c)
	det := a.Dot(bc)
	if math.Abs(det) < 1e-6*a.Len()*b.Len()*c.Len() {
		return near
	}
	// The matrix is symmetric: its inverse has the cross products of its rows for rows.
	p := geom.Vec{X: r.Dot(bc), Y: r.Dot(c.Cross(a)), Z: r.Dot(a.Cross(b))}.Mul(1 / det)
	if !(p.Dist(near) < reach) {
		return near
	}
	return p
}

// collapse is an edge that may be drawn together to one point, and what that costs.
type collapse struct {
	cost   float64
	a, b   int32
	ma, mb int32 // how often a and b had been moved when the cost was calculated
}

func (c collapse) before(o collapse) bool {
	if c.cost != o.cost {
		return c.cost < o.cost
	}
	if c.a != o.a {
		return c.a < o.a
	}
	return c.b < o.b
}

// queue is a binary heap, the cheapest collapse first; container/heap would put every one of them on the heap by itself.
type queue []collapse

func (q *queue) push(c collapse) {
	h := append(*q, c)
	i := len(h) - 1
	for i > 0 && c.before(h[(i-1)/2]) {
		h[i] = h[(i-1)/2]
		i = (i - 1) / 2
	}
	h[i] = c
	*q = h
}

func (q *queue) pop() collapse {
	h := *q
	top, last := h[0], h[len(h)-1]
	h = h[:len(h)-1]
	*q = h
	i := 0
	for {
		k := 2*i + 1
		if k+1 < len(h) && h[k+1].before(h[k]) {
			k++
		}
		if k >= len(h) || !h[k].before(last) {
			break
		}
		h[i] = h[k]
		i = k
	}
	if len(h) > 0 {
		h[i] = last
	}
	return top
}

// thinned draws edges together until at most most triangles are left, the least visible first (Garland and Heckbert,
// "Surface simplification using quadric error metrics", 1997). weight says how much detail counts at a point.
func (f faces) thinned(most int, weight func(geom.Vec) float64) faces {
	s := newThinning(f, weight)
	for s.left > most && len(s.queue) > 0 {
		c := s.queue.pop()
		a, b := int(c.a), int(c.b)
		if s.moved[a] != c.ma || s.moved[b] != c.mb || c.ma < 0 {
			continue
		}
		// The ends may share two neighbours only, or the surface would touch itself.
		if to, _ := s.best(a, b); s.shared(a, b) == 2 && !flips(s.p, s.t, s.of[a], a, b, to) && !flips(s.p, s.t, s.of[b], b, a, to) {
			s.join(a, b, to)
		}
	}
	return compact(s.p, s.t, s.gone)
}

// thinning is a surface while edges are drawn together.
type thinning struct {
	weight func(geom.Vec) float64
	p      []geom.Vec
	t      [][3]int
	gone   []bool    // of the triangles
	left   int       // triangles that are not gone
	of     [][]int   // triangles of a point
	quad   []quadric // of a point
	moved  []int32   // how often a point was moved; -1: it is gone
	queue  queue
	mark   []int // of a point: the stamp when it was last met
	stamp  int
}

func newThinning(f faces, weight func(geom.Vec) float64) *thinning {
	n := len(f.points)
	s := &thinning{
		weight: weight, p: slices.Clone(f.points), t: slices.Clone(f.triangles), gone: make([]bool, len(f.triangles)), left: len(f.triangles),
		of: make([][]int, n), quad: make([]quadric, n), moved: make([]int32, n), mark: make([]int, n),
	}
	for i, v := range s.t {
		normal := s.p[v[1]].Sub(s.p[v[0]]).Cross(s.p[v[2]].Sub(s.p[v[0]]))
		u := normal.Unit()
		for _, k := range v {
			s.of[k] = append(s.of[k], i)
			s.quad[k].plane(u, -u.Dot(s.p[v[0]]), normal.Len()*weight(s.p[k]))
		}
	}
	for _, v := range s.t {
		for k := range 3 {
			if a, b := v[k], v[(k+1)%3]; a < b {
				s.offer(a, b)
			}
		}
	}
	return s
}

// best is where the ends of an edge would meet; a very small term prefers short edges where the surface is flat.
func (s *thinning) best(a, b int) (to geom.Vec, cost float64) {
	sum, length := s.quad[a].plus(s.quad[b]), s.p[a].Dist(s.p[b])
	cost = math.Inf(1)
	middle := s.p[a].Lerp(s.p[b], 0.5)
	for _, at := range [4]geom.Vec{sum.lowest(middle, length), middle, s.p[a], s.p[b]} {
		if c := sum.at(at) + float64(1e-7*length*s.weight(at)); c < cost {
			to, cost = at, c
		}
	}
	return to, cost
}

func (s *thinning) offer(a, b int) {
	if a > b {
		a, b = b, a
	}
	_, cost := s.best(a, b)
	s.queue.push(collapse{cost, int32(a), int32(b), s.moved[a], s.moved[b]})
}

// shared is how many neighbours two points have in common.
func (s *thinning) shared(a, b int) (n int) {
	s.stamp += 2
	for _, i := range s.of[a] {
		for _, k := range s.t[i] {
			s.mark[k] = s.stamp - 1
		}
	}
	for _, i := range s.of[b] {
		for _, k := range s.t[i] {
			if s.mark[k] == s.stamp-1 && k != a && k != b {
				n++
				s.mark[k] = s.stamp
			}
		}
	}
	return n
}

// join moves a to the place to, and gives it what b had.
func (s *thinning) join(a, b int, to geom.Vec) {
	keep := s.of[a][:0]
	for _, i := range s.of[a] {
		if slices.Contains(s.t[i][:], b) {
			s.gone[i] = true
			s.left--
			continue
		}
		keep = append(keep, i)
	}
	for _, i := range s.of[b] {
		if s.gone[i] {
			continue
		}
		s.t[i][slices.Index(s.t[i][:], b)] = a
		keep = append(keep, i)
	}
	s.of[a], s.of[b] = keep, nil
	s.p[a] = to
	s.quad[a] = s.quad[a].plus(s.quad[b])
	s.moved[a]++
	s.moved[b] = -1
	s.stamp++
	s.mark[a] = s.stamp
	for _, i := range keep {
		for _, k := range s.t[i] {
			if s.mark[k] != s.stamp {
				s.mark[k] = s.stamp
				s.of[k] = slices.DeleteFunc(s.of[k], func(i int) bool { return s.gone[i] })
				s.offer(a, k)
			}
		}
	}
}

// flips reports whether a triangle of point a would turn over, or become a sliver, if a moved to the place to.
func flips(p []geom.Vec, t [][3]int, of []int, a, b int, to geom.Vec) bool {
	for _, i := range of {
		v := t[i]
		k := 0
		for v[k] != a {
			k++
		}
		c, d := v[(k+1)%3], v[(k+2)%3]
		if c == b || d == b {
			continue
		}
		before := p[c].Sub(p[a]).Cross(p[d].Sub(p[a]))
		x, y, z := p[c].Sub(to), p[d].Sub(to), p[d].Sub(p[c])
		after := x.Cross(y)
		if before.Dot(after) < 0.3*before.Len()*after.Len() || after.Len() < 0.08*max(x.Dot(x), y.Dot(y), z.Dot(z)) {
			return true
		}
	}
	return false
}

// compact drops what is gone, and the points that nothing uses any more.
func compact(p []geom.Vec, t [][3]int, gone []bool) faces {
	var f faces
	number := make([]int, len(p))
	for i, v := range t {
		if gone[i] {
			continue
		}
		for k := range v {
			if number[v[k]] == 0 {
				f.points = append(f.points, p[v[k]])
				number[v[k]] = len(f.points)
			}
			v[k] = number[v[k]] - 1
		}
		f.triangles = append(f.triangles, v)
	}
	return f
}
