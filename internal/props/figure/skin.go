package figure

import (
	"math"
	"sync"

	"boothmock/internal/basis/geom"
)

// faces is a closed surface: points, and triangles counterclockwise from outside.
type faces struct {
	points    []geom.Vec
	triangles [][3]int
}

// skin covers a shape inside the box lo..hi with small faces, by surface nets (Gibson, "Constrained elastic surface
// nets", 1998): a point in every cell of a grid that the skin passes, a square across every edge of it.
func skin(s shape, lo, hi geom.Vec, cell float64) faces {
	g := sampled(s, lo, hi, cell)
	var f faces
	point := make([]int32, len(g.d)) // of the cell whose lowest corner this is, plus one
	for j := range g.ny - 1 {
		for k := range g.nz - 1 {
			for i := range g.nx - 1 {
				if p, ok := g.crossing(i, j, k); ok {
					f.points = append(f.points, lo.Add(p.Mul(cell)))
					point[g.at(i, j, k)] = int32(len(f.points))
				}
			}
		}
	}
	// Each edge of the grid goes up from i, j, k along one axis; around it are four cells.
	for j := 1; j < g.ny-1; j++ {
		for k := 1; k < g.nz-1; k++ {
			for i := 1; i < g.nx-1; i++ {
				in := g.d[g.at(i, j, k)] < 0
				if in != (g.d[g.at(i+1, j, k)] < 0) {
					f.square(in, point[g.at(i, j-1, k-1)], point[g.at(i, j, k-1)], point[g.at(i, j, k)], point[g.at(i, j-1, k)])
				}
				if in != (g.d[g.at(i, j+1, k)] < 0) {
					f.square(in, point[g.at(i-1, j, k-1)], point[g.at(i-1, j, k)], point[g.at(i, j, k)], point[g.at(i, j, k-1)])
				}
				if in != (g.d[g.at(i, j, k+1)] < 0) {
					f.square(in, point[g.at(i-1, j-1, k)], point[g.at(i, j-1, k)], point[g.at(i, j, k)], point[g.at(i-1, j, k)])
				}
			}
		}
	}
	return f
}

// square adds a square across an edge of the grid, of points counted from 1, in two triangles.
func (f *faces) square(inside bool, a, b, c, e int32) {
	if a == 0 || b == 0 || c == 0 || e == 0 {
		return // on the border of the box, which the shape does not reach
	}
	q := [4]int{int(a) - 1, int(b) - 1, int(c) - 1, int(e) - 1}
	if !inside {
		q[1], q[3] = q[3], q[1]
	}
	// Split along the shorter diagonal.
	if f.points[q[0]].Dist(f.points[q[2]]) <= f.points[q[1]].Dist(f.points[q[3]]) {
		f.triangles = append(f.triangles, [3]int{q[0], q[1], q[2]}, [3]int{q[0], q[2], q[3]})
	} else {
		f.triangles = append(f.triangles, [3]int{q[0], q[1], q[3]}, [3]int{q[1], q[2], q[3]})
	}
}

// grid is a shape's distances at the corners of cells, below 0 inside of it.
type grid struct {
	nx, ny, nz int
	d          []float64
}

func (g *grid) at(i, j, k int) int { return (j*g.nz+k)*g.nx + i }

// sampled asks a shape at the corners of cells. Blocks of cells that the skin cannot pass are asked once: their corners are
// far inside or outside.
func sampled(s shape, lo, hi geom.Vec, cell float64) *grid {
	const block = 6
	count := func(a, b float64) int { return int(math.Ceil((b-a)/cell)) + 1 }
	g := &grid{nx: count(lo.X, hi.X), ny: count(lo.Y, hi.Y), nz: count(lo.Z, hi.Z)}
	g.d = make([]float64, g.nx*g.ny*g.nz)
	corner := func(i, j, k int) geom.Vec {
		return lo.Add(geom.Vec{X: float64(i), Y: float64(j), Z: float64(k)}.Mul(cell))
	}
	ask := func(i, j, k int) {
		far := s(corner(i, j, k).Add(geom.Vec{X: 1, Y: 1, Z: 1}.Mul(cell * (block - 1) / 2)))
		near := math.Abs(far) < 2.2*cell*block
		for jj := j; jj < min(j+block, g.ny); jj++ {
			for kk := k; kk < min(k+block, g.nz); kk++ {
				for ii := i; ii < min(i+block, g.nx); ii++ {
					g.d[g.at(ii, jj, kk)] = far
					if near {
						g.d[g.at(ii, jj, kk)] = s(corner(ii, jj, kk))
					}
				}
			}
		}
	}
	var wg sync.WaitGroup
	for j := 0; j < g.ny; j += block {
		wg.Go(func() {
			for k := 0; k < g.nz; k += block {
				for i := 0; i < g.nx; i += block {
					ask(i, j, k)
				}
			}
		})
	}
	wg.Wait()
	return g
}

// crossing is the mean of the places where the skin cuts the edges of a cell, in cells from the grid's lowest corner.
func (g *grid) crossing(i, j, k int) (p geom.Vec, ok bool) {
	var v [8]float64
	mask := 0
	for c := range v {
		v[c] = g.d[g.at(i+c&1, j+c>>1&1, k+c>>2)]
		if v[c] < 0 {
			mask |= 1 << c
		}
	}
	if mask == 0 || mask == 255 {
		return p, false
	}
	n := 0.0
	for a := range 8 {
		for axis := range 3 {
			b := a | 1<<axis
			if a == b || v[a] < 0 == (v[b] < 0) {
				continue
			}
			t := v[a] / (v[a] - v[b])
			q := [3]float64{float64(a & 1), float64(a >> 1 & 1), float64(a >> 2)}
			q[axis] = t
			p = p.Add(geom.Vec{X: q[0], Y: q[1], Z: q[2]})
			n++
		}
	}
	return p.Mul(1 / n).Add(geom.Vec{X: float64(i), Y: float64(j), Z: float64(k)}), true
}

// laidOn moves the points onto the skin, but for those whose triangles would turn over: in a fold, the nearest skin may
// be that of the other side.
func (f faces) laidOn(s shape) faces {
	out := faces{make([]geom.Vec, len(f.points)), f.triangles}
	for i, p := range f.points {
		out.points[i] = s.onSkin(p)
	}
	for range 3 { // a point put back may turn a neighbour
		for i := range f.triangles {
			if out.area(i).Dot(f.area(i)) <= 0 {
				for _, k := range f.triangles[i] {
					out.points[k] = f.points[k]
				}
			}
		}
	}
	return out
}

// area is the direction that triangle i faces, as long as twice its area.
func (f faces) area(i int) geom.Vec {
	t := f.triangles[i]
	return f.points[t[1]].Sub(f.points[t[0]]).Cross(f.points[t[2]].Sub(f.points[t[0]]))
}

// mesh is the surface with the smooth normals of the shape that it covers; in a fold, where that has none, with the
// mean of the triangles' own.
func (f faces) mesh(s shape) geom.Mesh {
	mean := make([]geom.Vec, len(f.points))
	for i, t := range f.triangles {
		a := f.area(i)
		for _, k := range t {
			mean[k] = mean[k].Add(a)
		}
	}
	var m geom.Mesh
	for i, p := range f.points {
		n, own := s.slope(p).Unit(), mean[i].Unit()
		if n.Dot(own) < 0.7 {
			n = own
		}
		m.Vertices = append(m.Vertices, geom.Vertex{P: p, N: n, U: p.X, V: -p.Y})
	}
	m.Triangles = f.triangles
	return m
}
