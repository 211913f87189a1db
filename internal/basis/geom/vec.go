// Package geom holds the shapes that everything is made of: vectors, frames, flat polygons, convex solids and meshes.
//
// Lengths are metres. Axes are right-handed with +Y up; the booth faces +Z and the middle of its front edge, on the
// ground, is the origin. Products are cast with float64(), which keeps the compiler from fusing a multiply and an add,
// so that every processor gives the same numbers.
package geom

import "math"

// Vec is a point or a direction, in metres.
type Vec struct{ X, Y, Z float64 }

// Up is the direction away from the ground.
var Up = Vec{0, 1, 0}

func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }
func (a Vec) Neg() Vec      { return Vec{-a.X, -a.Y, -a.Z} }

// Mul is a stretched by s.
func (a Vec) Mul(s float64) Vec { return Vec{float64(a.X * s), float64(a.Y * s), float64(a.Z * s)} }

func (a Vec) Dot(b Vec) float64 {
	return float64(a.X*b.X) + float64(a.Y*b.Y) + float64(a.Z*b.Z)
}

func (a Vec) Cross(b Vec) Vec {
	return Vec{
		float64(a.Y*b.Z) - float64(a.Z*b.Y),
		float64(a.Z*b.X) - float64(a.X*b.Z),
		float64(a.X*b.Y) - float64(a.Y*b.X),
	}
}

func (a Vec) Len() float64              { return math.Sqrt(a.Dot(a)) }
func (a Vec) Dist(b Vec) float64        { return a.Sub(b).Len() }
func (a Vec) Lerp(b Vec, t float64) Vec { return a.Add(b.Sub(a).Mul(t)) }

// Unit is a scaled to length 1; the zero vector stays zero.
func (a Vec) Unit() Vec {
	l := a.Len()
	if l == 0 {
		return a
	}
	return Vec{a.X / l, a.Y / l, a.Z / l}
}

// Finite reports whether no coordinate is infinite or not a number.
func (a Vec) Finite() bool {
	return !math.IsNaN(a.X+a.Y+a.Z) && !math.IsInf(a.X, 0) && !math.IsInf(a.Y, 0) && !math.IsInf(a.Z, 0)
}

// Frame is a place and a right-handed set of unit axes: for a wall, X runs to the right of somebody facing it, Y up
// and Z out of it towards them.
type Frame struct {
	Origin  Vec
	X, Y, Z Vec
}

// World is the frame of the booth itself.
var World = Frame{X: Vec{1, 0, 0}, Y: Vec{0, 1, 0}, Z: Vec{0, 0, 1}}

// Upright is the frame at o whose Z axis points along facing, laid level, with Y straight up.
func Upright(o, facing Vec) Frame {
	z := Vec{facing.X, 0, facing.Z}.Unit()
	return Frame{Origin: o, X: Up.Cross(z), Y: Up, Z: z}
}

// Along is a frame at a whose Y axis points to b.
func Along(a, b Vec) Frame {
	y := b.Sub(a).Unit()
	x := Vec{1, 0, 0}
	if math.Abs(y.X) > 0.9 {
		x = Vec{0, 0, 1}
	}
	z := x.Cross(y).Unit()
	return Frame{a, y.Cross(z), y, z}
}

// At is the point of the frame's coordinates p in the booth.
func (f Frame) At(p Vec) Vec { return f.Origin.Add(f.Turn(p)) }

// Turn is the direction of the frame's direction d in the booth.
func (f Frame) Turn(d Vec) Vec { return f.X.Mul(d.X).Add(f.Y.Mul(d.Y)).Add(f.Z.Mul(d.Z)) }

// Local is the booth's point p in the frame's coordinates: the inverse of At.
func (f Frame) Local(p Vec) Vec {
	d := p.Sub(f.Origin)
	return Vec{d.Dot(f.X), d.Dot(f.Y), d.Dot(f.Z)}
}

// Moved is the frame with its origin at the frame's own coordinates p.
func (f Frame) Moved(p Vec) Frame {
	f.Origin = f.At(p)
	return f
}

// Turned is the frame turned about its own Y axis by angle radians, counterclockwise seen from above.
func (f Frame) Turned(angle float64) Frame {
	s, c := math.Sincos(angle)
	return Frame{f.Origin, f.Turn(Vec{c, 0, -s}), f.Y, f.Turn(Vec{s, 0, c})}
}

// Tilted is the frame turned about its own X axis by angle radians: a positive angle leans the top back, away from +Z.
func (f Frame) Tilted(angle float64) Frame {
	s, c := math.Sincos(angle)
	return Frame{f.Origin, f.X, f.Turn(Vec{0, c, -s}), f.Turn(Vec{0, s, c})}
}

// Solid is c, which is in the frame's coordinates, in the booth.
func (f Frame) Solid(c Convex) Convex {
	corners := make([]Vec, len(c.Corners))
	for i, v := range c.Corners {
		corners[i] = f.At(v)
	}
	return Convex{Corners: corners, Edges: c.Edges, Faces: c.Faces}
}

// Mesh is m, which is in the frame's coordinates, in the booth.
func (f Frame) Mesh(m Mesh) Mesh {
	vertices := make([]Vertex, len(m.Vertices))
	for i, v := range m.Vertices {
		vertices[i] = Vertex{f.At(v.P), f.Turn(v.N), v.U, v.V}
	}
	return Mesh{Vertices: vertices, Triangles: m.Triangles}
}
