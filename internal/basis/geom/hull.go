package geom

import "math"

// Hull is a convex solid whose corners are some of the points, so many that none of them is more than slack metres outside of
// it: their convex hull for 0. Its faces are triangles. It reports false for points that lie in one plane. (Quickhull: Barber,
// Dobkin and Huhdanpaa, ACM Trans. Math. Software 22(4), 1996: again and again the point farthest outside of a face
// becomes a corner.)
func Hull(points []Vec, slack float64) (Convex, bool) {
	start, ok := corner4(points)
	if !ok {
		return Convex{}, false
	}
	lo, hi := Bounds(points)
	slack = max(slack, 1e-10*lo.Dist(hi))
	h := hull{points: points, slack: slack}
	for k := range 4 {
		a, b, c := start[(k+1)%4], start[(k+2)%4], start[(k+3)%4]
		if h.side(a, b, c, points[start[k]]) > 0 {
			b, c = c, b
		}
		h.faces = append(h.faces, h.face(a, b, c))
	}
	all := make([]int, len(points))
	for i := range all {
		all[i] = i
	}
	for h.share(all, 0) { // a point near an edge may be farther outside of the faces that come next
		for i := 0; i < len(h.faces); i++ { // new faces come behind all others
			if f := &h.faces[i]; !f.gone && len(f.outside) > 0 {
				h.grow(f.outside[f.farthest])
			}
		}
	}
	return h.solid(), true
}

// hull is a convex hull under construction.
type hull struct {
	points []Vec
	slack  float64
	faces  []hullFace
}

// hullFace is the triangle of points a, b and c with the points outside of it that no earlier face has.
type hullFace struct {
	corner   [3]int
	n        Vec
	d        float64
	outside  []int
	farthest int // in outside
	gone     bool
}

func (h *hull) side(a, b, c int, p Vec) float64 {
	o := h.points[a]
	return h.points[b].Sub(o).Cross(h.points[c].Sub(o)).Dot(p.Sub(o))
}

func (h *hull) face(a, b, c int) hullFace {
	o := h.points[a]
	n := h.points[b].Sub(o).Cross(h.points[c].Sub(o)).Unit()
	return hullFace{corner: [3]int{a, b, c}, n: n, d: n.Dot(o)}
}

// share gives each point to the first face from number from on that it is outside of, and reports whether there was one.
func (h *hull) share(points []int, from int) (any bool) {
	far := make([]float64, len(h.faces))
	for _, p := range points {
		for i := from; i < len(h.faces); i++ {
			f := &h.faces[i]
			if d := f.n.Dot(h.points[p]) - f.d; d > h.slack && !f.gone {
				any = true
				if d > far[i] {
					far[i], f.farthest = d, len(f.outside)
				}
				f.outside = append(f.outside, p)
				break
			}
		}
	}
	return any
}

// grow makes point p a corner: the faces that it is outside of go, and new ones lead from the edge of that hole to it.
func (h *hull) grow(p int) {
	const flat = 1e-12 // metres: a face that p lies in goes too, if its neighbours do
	var homeless []int
	edges := map[[2]int]bool{}
	var order [][2]int
	for i := range h.faces {
		f := &h.faces[i]
		if f.gone || f.n.Dot(h.points[p])-f.d <= flat {
			continue
		}
		f.gone = true
		homeless = append(homeless, f.outside...)
		f.outside = nil
		for k, a := range f.corner {
			b := f.corner[(k+1)%3]
			edges[[2]int{a, b}] = true
			order = append(order, [2]int{a, b})
		}
	}
	from := len(h.faces)
	for _, e := range order {
		if !edges[[2]int{e[1], e[0]}] {
			h.faces = append(h.faces, h.face(e[0], e[1], p))
		}
	}
	h.share(homeless, from)
}

// solid is what has been built.
func (h *hull) solid() Convex {
	number := map[int]int{}
	var corners []Vec
	var faces [][]int
	for i := range h.faces {
		if h.faces[i].gone {
			continue
		}
		face := make([]int, 3)
		for k, c := range h.faces[i].corner {
			n, ok := number[c]
			if !ok {
				n = len(corners)
				number[c], corners = n, append(corners, h.points[c])
			}
			face[k] = n
		}
		faces = append(faces, face)
	}
	return NewConvex(corners, faces)
}

// corner4 are four points that lie well apart, in no plane.
func corner4(points []Vec) (out [4]int, ok bool) {
	best := func(far func(p Vec) float64) (at int, most float64) {
		for i, p := range points {
			if d := far(p); d > most {
				at, most = i, d
			}
		}
		return at, most
	}
	if len(points) < 4 {
		return out, false
	}
	const least = 1e-9 // metres
	var d [3]float64
	a, _ := best(func(p Vec) float64 { return p.Dist(points[0]) })
	b, far := best(func(p Vec) float64 { return p.Dist(points[a]) })
	d[0] = far
	along := points[b].Sub(points[a]).Unit()
	c, far := best(func(p Vec) float64 { return p.Sub(points[a]).Cross(along).Len() })
	d[1] = far
	n := along.Cross(points[c].Sub(points[a])).Unit()
	e, far := best(func(p Vec) float64 { return math.Abs(p.Sub(points[a]).Dot(n)) })
	d[2] = far
	return [4]int{a, b, c, e}, min(d[0], d[1], d[2]) > least
}
