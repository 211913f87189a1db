package geom

import (
	"fmt"
	"math"
)

// Convex is a convex solid: its corners, its edges and its flat faces. Faces are lists of corner numbers,
// counterclockwise seen from outside.
type Convex struct {
	Corners []Vec
	Edges   [][2]int
	Faces   [][]int
}

// NewConvex makes a solid from corners and faces; the edges follow from the faces.
func NewConvex(corners []Vec, faces [][]int) Convex {
	c := Convex{Corners: corners, Faces: faces}
	for _, f := range faces {
		for i, a := range f {
			// Every edge of a closed solid is walked once each way: keep the way that goes up in number.
			if b := f[(i+1)%len(f)]; a < b {
				c.Edges = append(c.Edges, [2]int{a, b})
			}
		}
	}
	return c
}

// Box is the solid from lo to hi in the frame's coordinates.
func Box(f Frame, lo, hi Vec) Convex {
	return Prism(Rect(f.Moved(Vec{0, 0, hi.Z}), lo.X, lo.Y, hi.X, hi.Y), f.Turn(Vec{0, 0, lo.Z - hi.Z}))
}

// Prism is the solid swept by the convex polygon base moved along sweep. base must face away from sweep.
func Prism(base Polygon, sweep Vec) Convex {
	n := len(base)
	top, bottom := make([]int, n), make([]int, n)
	faces := make([][]int, 0, n+2)
	corners := append([]Vec(nil), base...)
	for i, v := range base {
		corners = append(corners, v.Add(sweep))
		top[i], bottom[i] = i, n+n-1-i
	}
	faces = append(faces, top, bottom)
	for i := range n {
		j := (i + 1) % n
		faces = append(faces, []int{j, i, n + i, n + j})
	}
	return NewConvex(corners, faces)
}

// Drum is an upright solid of n sides about the frame's Y axis, from height y0 with radii rx0, rz0 to y1 with rx1, rz1:
// a pole, a limb, a vase. The two ellipses must be alike in shape (rx0/rz0 = rx1/rz1), or the sides would not be flat.
// The corners lie on the ellipses, so the solid is never larger than the round thing.
func Drum(f Frame, n int, y0, rx0, rz0, y1, rx1, rz1 float64) Convex {
	corners := make([]Vec, 0, 2*n)
	ring := func(y, rx, rz float64) {
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / float64(n))
			corners = append(corners, f.At(Vec{float64(rx * c), y, float64(-rz * s)}))
		}
	}
	ring(y0, rx0, rz0)
	ring(y1, rx1, rz1)
	low, high := make([]int, n), make([]int, n)
	faces := make([][]int, 0, n+2)
	for i := range n {
		low[i], high[i] = n-1-i, n+i
	}
	faces = append(faces, low, high)
	for i := range n {
		j := (i + 1) % n
		faces = append(faces, []int{i, j, n + j, n + i})
	}
	return NewConvex(corners, faces)
}

// Rod is a straight solid of n sides and radius r from a to b, whichever way it runs.
func Rod(a, b Vec, r float64, n int) Convex {
	return Drum(Along(a, b), n, 0, r, r, a.Dist(b), r, r)
}

// Face is face i as a polygon that faces outwards.
func (c Convex) Face(i int) Polygon {
	p := make(Polygon, len(c.Faces[i]))
	for k, n := range c.Faces[i] {
		p[k] = c.Corners[n]
	}
	return p
}

// Mass is the solid's volume in m³ and the middle of it, its centre of mass if it is of one stuff all through: the sum of
// the tetrahedra from its first corner over its faces.
func (c Convex) Mass() (volume float64, centre Vec) {
	o := c.Corners[0]
	for _, f := range c.Faces {
		a := c.Corners[f[0]].Sub(o)
		for i := 1; i+1 < len(f); i++ {
			b, d := c.Corners[f[i]].Sub(o), c.Corners[f[i+1]].Sub(o)
			v := a.Dot(b.Cross(d)) / 6
			volume += v
			centre = centre.Add(a.Add(b).Add(d).Mul(v / 4))
		}
	}
	if volume <= 0 {
		return 0, o
	}
	return volume, o.Add(centre.Mul(1 / volume))
}

// Thin is the least width of the solid, in metres, square to one of its faces.
func (c Convex) Thin() float64 {
	least := math.Inf(1)
	for i := range c.Faces {
		lo, hi := reach(c, c.Face(i).Normal())
		least = min(least, hi-lo)
	}
	return least
}

// Bounds are the lowest and the highest coordinates.
func (c Convex) Bounds() (lo, hi Vec) { return Bounds(c.Corners) }

// Bounds are the lowest and the highest coordinates of the points.
func Bounds(points []Vec) (lo, hi Vec) {
	inf := math.Inf(1)
	lo, hi = Vec{inf, inf, inf}, Vec{-inf, -inf, -inf}
	for _, p := range points {
		lo, hi = least(lo, p), greatest(hi, p)
	}
	return lo, hi
}

// BoundsOf are the lowest and the highest coordinates of some solids.
func BoundsOf(solids []Convex) (lo, hi Vec) {
	var ends []Vec
	for _, c := range solids {
		lo, hi := c.Bounds()
		ends = append(ends, lo, hi)
	}
	return Bounds(ends)
}

// Bytes is about how much memory some solids take.
func Bytes(solids []Convex) (n int) {
	for _, c := range solids {
		n += 72 + 24*len(c.Corners) + 16*len(c.Edges) + 24*len(c.Faces) + 16*len(c.Edges) // an edge is of two faces
	}
	return n
}

// Check says what is wrong with the solid, if anything: a face that is not flat, not convex or turned inwards, an open
// edge, a coordinate that is no number. It is for tests.
func (c Convex) Check() error {
	walked := map[[2]int]int{}
	size := 0.0
	for _, v := range c.Corners {
		if !v.Finite() {
			return fmt.Errorf("corner %v is not finite", v)
		}
		size = max(size, v.Dist(c.Corners[0]))
	}
	for i, f := range c.Faces {
		p := c.Face(i)
		n := p.Normal()
		if n == (Vec{}) {
			return fmt.Errorf("face %d has no area", i)
		}
		for k, v := range c.Corners {
			if d := v.Sub(p[0]).Dot(n); d > 1e-9*size {
				return fmt.Errorf("corner %d is %g m outside face %d", k, d, i)
			}
		}
		for k, v := range p {
			if d := v.Sub(p[0]).Dot(n); math.Abs(d) > 1e-9*size {
				return fmt.Errorf("face %d is not flat at its corner %d: %g m", i, k, d)
			}
			walked[[2]int{f[k], f[(k+1)%len(f)]}]++
		}
	}
	for e, n := range walked {
		if n != 1 || walked[[2]int{e[1], e[0]}] != 1 {
			return fmt.Errorf("edge %v is not shared by just two faces", e)
		}
	}
	return nil
}
