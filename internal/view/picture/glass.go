package picture

import (
	"github.com/fogleman/fauxgl"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// What a pane mirrors is the booth drawn once more, mirrored in the pane, by the same camera: so each pixel of the pane has what it
// mirrors at the same place of that picture.

// mirror is a plane: the places p with n·p = d, seen from where n looks.
type mirror struct {
	n geom.Vec
	d float64
}

// of is a point mirrored.
func (m *mirror) of(p geom.Vec) geom.Vec { return p.Sub(m.n.Mul(2 * (m.n.Dot(p) - m.d))) }

// behind are metres that a thing may stand back from a pane and still be mirrored: frames and mats.
const behind = 0.02

// cuts reports whether some of a facet of a surface is behind the plane, where it is not mirrored.
func (m *mirror) cuts(u *surface, facet int) bool {
	f := &u.facets[facet]
	for _, of := range f.corners[:f.sides-2] {
		for _, v := range of {
			p := u.vertices[v].Position
			if m.n.Dot(geom.Vec{X: p.X, Y: p.Y, Z: p.Z})-m.d < -behind {
				return true
			}
		}
	}
	return false
}

// matrix mirrors points.
func (m *mirror) matrix() fauxgl.Matrix {
	n := m.n
	return fauxgl.Matrix{
		X00: 1 - 2*n.X*n.X, X01: -2 * n.X * n.Y, X02: -2 * n.X * n.Z, X03: 2 * m.d * n.X,
		X10: -2 * n.Y * n.X, X11: 1 - 2*n.Y*n.Y, X12: -2 * n.Y * n.Z, X13: 2 * m.d * n.Y,
		X20: -2 * n.Z * n.X, X21: -2 * n.Z * n.Y, X22: 1 - 2*n.Z*n.Z, X23: 2 * m.d * n.Z,
		X33: 1,
	}
}

// glazed is what the panes in one plane mirror, over the pixels that they fill: how bright it really is, and not as the eye holds it.
type glazed struct {
	mirror
	x0, y0, width int
	row           []rgb
}

// over is what is seen of a colour behind a pane, at a place on the screen.
func (g *glazed) over(c rgb, f *frame, u *surface, x, y, w float64) rgb {
	i := (int(y)-g.y0)*g.width + int(x) - g.x0
	if i < 0 || i >= len(g.row) {
		return c
	}
	share := float32(u.glass.Reflects(f.eye.Sub(f.spot(x, y, w)).Unit().Dot(g.n)))
	c = rgb{}.plus(c, 1-share).plus(g.row[i], share)
	return rgb{min(c.r, 1), min(c.g, 1), min(c.b, 1)}
}

// factor is surface.factor; in what panes mirror, without the curve.
func (f *frame) factor(u *surface, c rgb) rgb {
	if f.mirror != nil && u.tone != nil {
		return lit(u.tone.Even(c.numbers(), f.brighter)).times(u.material)
	}
	return u.factor(c, f.brighter)
}

// glaze draws what the panes of the frame's works mirror; those in one plane share it.
func (f *frame) glaze(s *Stage, leave func(*booth.Part) bool) {
	const together = 0.01 // metres: panes so far behind each other mirror alike
	type group struct {
		mirror
		parts          []int
		x0, y0, x1, y1 int
	}
	var groups []*group
	boxes := map[int][4]int{}
	for i := range f.triangles[1:] {
		t := &f.triangles[i+1]
		if !t.surface.glass.Mirrors() {
			continue
		}
		b, ok := boxes[t.surface.part]
		if !ok {
			b = [4]int{t.x0, t.y0, t.x1, t.y1}
		}
		boxes[t.surface.part] = [4]int{min(b[0], t.x0), min(b[1], t.y0), max(b[2], t.x1), max(b[3], t.y1)}
	}
	for part := range s.plan.Parts {
		b, ok := boxes[part]
		if !ok || s.plan.Parts[part].Work == nil {
			continue
		}
		face := s.plan.Parts[part].Work.Face
		m := mirror{n: face.Normal(), d: face.Normal().Dot(face.Centre())}
		var g *group
		for _, o := range groups {
			if o.n.Dot(m.n) > 1-1e-9 && o.d-m.d < together && m.d-o.d < together {
				g = o
			}
		}
		if g == nil {
			g = &group{mirror: m, x0: b[0], y0: b[1]}
			groups = append(groups, g)
		}
		g.parts = append(g.parts, part)
		g.x0, g.y0, g.x1, g.y1 = min(g.x0, b[0]), min(g.y0, b[1]), max(g.x1, b[2]), max(g.y1, b[3])
	}
	for _, g := range groups {
		if f.panes == nil {
			f.panes = map[int]*glazed{}
		}
		drawn := f.mirrored(s, g.mirror, leave, g.x0, g.y0, g.x1, g.y1)
		for _, part := range g.parts {
			f.panes[part] = drawn
		}
	}
}

// mirrored is what a plane mirrors over some pixels.
func (f *frame) mirrored(s *Stage, m mirror, leave func(*booth.Part) bool, x0, y0, x1, y1 int) *glazed {
	c := f.lens
	c.mirror = &m
	c.matrix = c.matrix.Mul(m.matrix())
	g := s.frame(c, &coarse, leave)
	g.brighter = f.brighter
	out := &glazed{mirror: m, x0: x0, y0: y0, width: x1 - x0, row: make([]rgb, (x1-x0)*(y1-y0))}
	var tiles []int
	for _, k := range g.all() {
		if x, y := g.corner(k); x < x1 && y < y1 && x+tile > x0 && y+tile > y0 {
			tiles = append(tiles, k)
		}
	}
	g.eachRow(tiles, s.beyond(c, f.brighter), func(left, y int, row []rgb) {
		if y < y0 || y >= y1 {
			return
		}
		from, to := max(left, x0), min(left+len(row), x1)
		copy(out.row[(y-y0)*out.width+from-x0:], row[from-left:to-left])
	})
	return out
}

// beyond is the backdrop as bright as it really is: the open sky of a day is 1 before it is exposed, and so is a hall's ceiling.
func (s *Stage) beyond(c lens, brighter [3]float32) []rgb {
	rows := s.backdrop(c, brighter)
	for i := range s.surfaces {
		if t := s.surfaces[i].tone; t != nil {
			even := t.Even([3]float32{1, 1, 1}, brighter)[1] * (1 - s.dusk)
			for y := range rows {
				if float64(y) < c.horizon {
					rows[y] = rgb{}.plus(rows[y], max(1, even))
				}
			}
			break
		}
	}
	return rows
}
