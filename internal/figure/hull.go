package figure

import (
	"math"
	"slices"

	"boothmock/internal/geom"
)

// directions are n unit vectors, spread evenly over the ball along a golden spiral.
func directions(n int) []geom.Vec {
	out := make([]geom.Vec, n)
	turn := math.Pi * (3 - math.Sqrt(5))
	for i := range out {
		y := 1 - float64(2*(float64(i)+0.5))/float64(n)
		s, c := math.Sincos(float64(turn * float64(i)))
		r := math.Sqrt(1 - float64(y*y))
		out[i] = geom.Vec{X: float64(r * c), Y: y, Z: float64(r * s)}
	}
	return out
}

// wrap is a convex solid around the points, none of which is further out of it than slack: the hull of those furthest
// out in each of some directions, and of those that it would leave out.
func wrap(points []geom.Vec, towards []geom.Vec, slack float64) geom.Convex {
	var corners []geom.Vec
	take := func(d geom.Vec, over float64) (more bool) {
		best := points[0]
		for _, p := range points {
			if p.Dot(d) > best.Dot(d) {
				best = p
			}
		}
		if best.Dot(d) <= over || slices.Contains(corners, best) {
			return false
		}
		corners = append(corners, best)
		return true
	}
	for _, d := range towards {
		take(d, math.Inf(-1))
	}
	for {
		c, more := hull(corners), false
		for i := range c.Faces {
			f := c.Face(i)
			n := f.Normal()
			if take(n, f[0].Dot(n)+slack) {
				more = true
			}
		}
		if !more {
			return c
		}
	}
}

// hull is the convex hull of points that are, but for rounding, all corners of it. Every plane through three points with all others on one
// side is a face; with some thirty points nothing cleverer is needed.
func hull(points []geom.Vec) geom.Convex {
	lo, hi := geom.Bounds(points)
	flat := 1e-10 * lo.Dist(hi)
	n := len(points)
	var faces [][]int
	var planes []geom.Polygon
	for i := range n {
		for j := range n {
			for k := range n {
				if i >= j || i >= k || j == k {
					continue // each triangle once for each side, from its lowest corner
				}
				t := geom.Polygon{points[i], points[j], points[k]}
				normal := t.Normal()
				if normal == (geom.Vec{}) {
					continue
				}
				on, outside := []int(nil), false
				for m, p := range points {
					d := p.Sub(points[i]).Dot(normal)
					if d > flat {
						outside = true
						break
					}
					if d > -flat {
						on = append(on, m)
					}
				}
				if outside || on[0] != i || on[1] != min(j, k) || slices.ContainsFunc(planes, func(o geom.Polygon) bool {
					return o.Normal().Dot(normal) > 1-1e-12 && math.Abs(o[0].Sub(points[i]).Dot(normal)) < flat
				}) {
					continue
				}
				planes = append(planes, t)
				faces = append(faces, around(points, on, normal))
			}
		}
	}
	return geom.NewConvex(points, faces)
}

// around puts the points of a face in order, counterclockwise seen from outside.
func around(points []geom.Vec, on []int, normal geom.Vec) []int {
	var middle geom.Vec
	for _, k := range on {
		middle = middle.Add(points[k])
	}
	middle = middle.Mul(1 / float64(len(on)))
	x := points[on[0]].Sub(middle).Unit()
	y := normal.Cross(x)
	angle := func(k int) float64 {
		d := points[k].Sub(middle)
		return math.Atan2(d.Dot(y), d.Dot(x))
	}
	slices.SortFunc(on, func(a, b int) int {
		if angle(a) < angle(b) {
			return -1
		}
		return 1
	})
	return on
}
