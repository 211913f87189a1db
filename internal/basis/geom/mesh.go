package geom

import (
	"fmt"
	"math"
)

// Vertex is a corner of a mesh: place, unit normal, and texture coordinates with (0, 0) at the image's upper left.
type Vertex struct {
	P, N Vec
	U, V float64
}

// Mesh is a list of triangles. Each triangle is three numbers of vertices, counterclockwise seen from its front.
type Mesh struct {
	Vertices  []Vertex
	Triangles [][3]int
}

// Add appends o's triangles to m.
func (m *Mesh) Add(o Mesh) {
	base := len(m.Vertices)
	m.Vertices = append(m.Vertices, o.Vertices...)
	for _, t := range o.Triangles {
		m.Triangles = append(m.Triangles, [3]int{t[0] + base, t[1] + base, t[2] + base})
	}
}

// AddPolygon appends a flat convex polygon, with texture coordinates in metres along its first side and up from it.
func (m *Mesh) AddPolygon(p Polygon) {
	n := p.Normal()
	x := p[1].Sub(p[0]).Unit()
	y := n.Cross(x)
	base := len(m.Vertices)
	for _, q := range p {
		d := q.Sub(p[0])
		m.Vertices = append(m.Vertices, Vertex{q, n, d.Dot(x), -d.Dot(y)})
	}
	for i := 1; i+1 < len(p); i++ {
		m.Triangles = append(m.Triangles, [3]int{base, base + i, base + i + 1})
	}
}

// AddSolid appends the faces of a convex solid.
func (m *Mesh) AddSolid(c Convex) {
	for i := range c.Faces {
		m.AddPolygon(c.Face(i))
	}
}

// Solids is the mesh of some convex solids, flat-shaded.
func Solids(cs ...Convex) Mesh {
	var m Mesh
	for _, c := range cs {
		m.AddSolid(c)
	}
	return m
}

// ImageRect is a rectangle that shows a whole image: p's corners are its lower left, lower right, upper right and
// upper left.
func ImageRect(p Polygon) Mesh {
	n := p.Normal()
	return Mesh{
		Vertices:  []Vertex{{p[0], n, 0, 1}, {p[1], n, 1, 1}, {p[2], n, 1, 0}, {p[3], n, 0, 0}},
		Triangles: [][3]int{{0, 1, 2}, {0, 2, 3}},
	}
}

// Grid is a curved sheet of nu by nv cells: at(u, v) for u and v from 0 to 1 gives its points; its front is the side
// from which u runs right and v runs up. Normals follow the surface; texture coordinates are metres times scale as at
// gives them in uv.
func Grid(nu, nv int, at func(u, v float64) (p Vec, tu, tv float64)) Mesh {
	var m Mesh
	pt := make([]Vec, (nu+1)*(nv+1))
	for j := range nv + 1 {
		for i := range nu + 1 {
			p, tu, tv := at(float64(i)/float64(nu), float64(j)/float64(nv))
			pt[j*(nu+1)+i] = p
			m.Vertices = append(m.Vertices, Vertex{P: p, U: tu, V: tv})
		}
	}
	for j := range nv + 1 {
		for i := range nu + 1 {
			du := pt[j*(nu+1)+min(i+1, nu)].Sub(pt[j*(nu+1)+max(i-1, 0)])
			dv := pt[min(j+1, nv)*(nu+1)+i].Sub(pt[max(j-1, 0)*(nu+1)+i])
			m.Vertices[j*(nu+1)+i].N = du.Cross(dv).Unit()
		}
	}
	for j := range nv {
		for i := range nu {
			a := j*(nu+1) + i
			b, c, d := a+1, a+nu+2, a+nu+1
			m.Triangles = append(m.Triangles, [3]int{a, b, c}, [3]int{a, c, d})
		}
	}
	return m
}

// Bytes is about how much memory the mesh takes.
func (m Mesh) Bytes() int { return 64*len(m.Vertices) + 24*len(m.Triangles) }

// Check says what is wrong with the mesh, if anything: for tests, on everything that is built.
func (m Mesh) Check() error {
	for i, v := range m.Vertices {
		if !v.P.Finite() || math.IsNaN(v.U+v.V) || math.IsInf(v.U+v.V, 0) {
			return fmt.Errorf("vertex %d is not finite: %+v", i, v)
		}
		if d := math.Abs(v.N.Len() - 1); !(d < 1e-9) {
			return fmt.Errorf("vertex %d: normal %v is not of unit length", i, v.N)
		}
	}
	for i, t := range m.Triangles {
		for _, k := range t {
			if k < 0 || k >= len(m.Vertices) {
				return fmt.Errorf("triangle %d: no vertex %d", i, k)
			}
		}
		if a := (Polygon{m.Vertices[t[0]].P, m.Vertices[t[1]].P, m.Vertices[t[2]].P}).Area(); a == 0 {
			return fmt.Errorf("triangle %d has no area", i)
		}
	}
	return nil
}
