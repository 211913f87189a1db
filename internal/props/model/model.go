// Package model reads the shape of a thing from a .glb (glTF 2.0, ISO/IEC 12113:2022): triangles, their colours and pictures, at rest. The
// file may be anybody's: it is one file without links, and how much is in it is known before there is room for any of it.
//
// A model is in its own frame: metres, +Y up, its front towards +Z as glTF has it, the middle of its foot at the origin.
package model

import (
	"crypto/sha256"
	"fmt"
	"math"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/props/art"
)

// Limits of what is taken in.
const (
	MaxBytes     = 50_000_000 // of the file
	MaxTriangles = 20_000
	mostWords    = 1_000_000 // bytes of the file's JSON: what it becomes takes up to a hundred times that
	mostNodes    = 10_000
	mostVertices = 2_000_000 // of all primitives, as often as each of them reads some
	mostImages   = 16
	imageSide    = 1024 // pixels
	farthest     = 1e6  // metres from the file's origin
)

// Model is a thing as its file has it.
type Model struct {
	Size   geom.Vec // width, height and depth in metres
	Pieces []Piece
	Sum    [sha256.Size]byte // of the file
}

// Piece is a surface of one finish.
type Piece struct {
	Mesh     geom.Mesh // texture coordinates are shares of Image's width and height
	Colour   [3]uint8  // sRGB; multiplied with Image
	Image    *art.Image
	Repeats  bool // Image goes on beyond its edges: it is a square, its side a power of two
	TwoSided bool
}

// Solids that a model is wrapped in, as booth.Part wants them, and the room that it takes without small detail.
var (
	asDrawn = geom.Fit{Out: 0.004, Slack: 0.0008, Fewest: 2, Most: 240}
	asRoom  = geom.Fit{Out: 0.015, Slack: 0.003, Fewest: 2, Most: 24}
)

// Scaled is the model in a room w wide, d deep and h high, the solids that hide what it hides, and fewer that take its room. That should
// have its shape.
func (m Model) Scaled(w, d, h float64) (pieces []Piece, solids, blocks []geom.Convex) {
	by := geom.Vec{X: w / m.Size.X, Y: h / m.Size.Y, Z: d / m.Size.Z}
	var skin geom.Skin
	known := map[geom.Vec]int{}
	for _, p := range m.Pieces {
		vertices := make([]geom.Vertex, len(p.Mesh.Vertices))
		of := make([]int, len(vertices))
		for i, v := range p.Mesh.Vertices {
			v.P = geom.Vec{X: float64(v.P.X * by.X), Y: float64(v.P.Y * by.Y), Z: float64(v.P.Z * by.Z)}
			v.N = geom.Vec{X: v.N.X / by.X, Y: v.N.Y / by.Y, Z: v.N.Z / by.Z}.Unit()
			vertices[i] = v
			n, ok := known[v.P]
			if !ok {
				n = len(skin.Points)
				known[v.P], skin.Points = n, append(skin.Points, v.P)
			}
			of[i] = n
		}
		for _, t := range p.Mesh.Triangles {
			skin.Triangles = append(skin.Triangles, [3]int{of[t[0]], of[t[1]], of[t[2]]})
		}
		p.Mesh.Vertices = vertices
		pieces = append(pieces, p)
	}
	if closed(skin) {
		for i := range pieces {
			pieces[i].TwoSided = false // nobody sees its inside
		}
	}
	all := make([]int, len(skin.Triangles))
	for i := range all {
		all[i] = i
	}
	drawn, room := asDrawn, asRoom
	drawn.Rough = max(w, d, h) / 100
	room.Rough = drawn.Rough
	return pieces, skin.Wrapped(all, drawn), skin.Wrapped(all, room)
}

// closed is whether every edge of a skin is one of two triangles, once each way.
func closed(s geom.Skin) bool {
	edges := map[[2]int]int{}
	for _, t := range s.Triangles {
		for k := range 3 {
			edges[[2]int{t[k], t[(k+1)%3]}]++
		}
	}
	for e, n := range edges {
		if edges[[2]int{e[1], e[0]}] != n {
			return false
		}
	}
	return true
}

// Stretched is how many times longer the model becomes in one direction than in another in a room of that size, 1 in one of its shape.
func (m Model) Stretched(w, d, h float64) float64 {
	x, y, z := w/m.Size.X, h/m.Size.Y, d/m.Size.Z
	return max(x, y, z) / min(x, y, z)
}

// Bytes is about how much memory the model takes.
func (m Model) Bytes() (n int) {
	for _, p := range m.Pieces {
		if n += p.Mesh.Bytes(); p.Image != nil {
			n += p.Image.Bytes()
		}
	}
	return n
}

// stood puts the model's foot on the ground and takes its measures.
func (m *Model) stood(name string) error {
	var ends []geom.Vec
	for _, p := range m.Pieces {
		for _, v := range p.Mesh.Vertices {
			ends = append(ends, v.P)
		}
	}
	if len(ends) == 0 {
		return bad("look at it in a viewer of .glb files first", "%s shows nothing: there is no triangle in it", name)
	}
	lo, hi := geom.Bounds(ends)
	m.Size = hi.Sub(lo)
	if long := max(m.Size.X, m.Size.Y, m.Size.Z); min(m.Size.X, m.Size.Y, m.Size.Z) < 1e-6*long {
		return bad("give it a thickness in the program that it was made with", "%s is flat: it has no thickness", name)
	}
	foot := geom.Vec{X: (lo.X + hi.X) / 2, Y: lo.Y, Z: (lo.Z + hi.Z) / 2}
	for _, p := range m.Pieces {
		for i := range p.Mesh.Vertices {
			p.Mesh.Vertices[i].P = p.Mesh.Vertices[i].P.Sub(foot)
		}
	}
	return nil
}

// bad is a fault without a place: the caller knows where the scene speaks of the file.
func bad(hint, text string, args ...any) error {
	return fault.Fault{Text: fmt.Sprintf(text, args...), Hint: hint}
}

// finite is whether a place can be drawn.
func finite(v geom.Vec) bool {
	return v.Finite() && max(math.Abs(v.X), math.Abs(v.Y), math.Abs(v.Z)) < farthest
}
