package check

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

// How two parts are held against each other.
const (
	asTheyAre = iota
	onOneWall // by their outlines, however thin they are
	onOneTop  // by the ground below them, as easels and stands have feet
)

// body is one of the solids that a part is held against others by.
type body struct {
	geom.Mapped
	lo, hi geom.Vec
}

// held is a part, held against others in one way.
type held struct {
	part *booth.Part
	how  int
}

// shapes are the solids in which two parts are held against each other.
func (p *Pass) shapes(a, b *booth.Part) (as, bs []body) {
	how := asTheyAre
	switch {
	case p.sameWall(a, b):
		how = onOneWall
	case p.sameTop(a, b):
		how = onOneTop
	}
	return p.bodiesOf(held{a, how}), p.bodiesOf(held{b, how})
}

// bodiesOf leaves out of a part as it is what lies so low that people step over it, and cloth falls over it, as over a leg's foot.
func (p *Pass) bodiesOf(s held) []body {
	if known, ok := p.held[s]; ok {
		return known
	}
	var out []body
	for _, c := range s.part.Room() {
		switch s.how {
		case onOneWall:
			c = outlineOn(p.Plan.Part(s.part.Parent).Frame, c)
		case onOneTop:
			c = shadow(c)
		}
		if lo, hi := c.Bounds(); s.how != asTheyAre || hi.Y > lowest {
			out = append(out, body{geom.Map(c), lo, hi})
		}
	}
	p.held[s] = out
	return out
}

// outlineOn is the outline of a solid on a wall, a metre deep.
func outlineOn(f geom.Frame, c geom.Convex) geom.Convex {
	var points []way.Point
	for _, v := range c.Corners {
		l := f.Local(v)
		points = append(points, way.Point{X: l.X, Z: l.Y})
	}
	var base geom.Polygon
	for _, q := range way.Hull(points) {
		base = append(base, f.At(geom.Vec{X: q.X, Y: q.Z}))
	}
	return geom.Prism(base, f.Z.Neg())
}

// shadow is the ground below a solid, a metre high.
func shadow(c geom.Convex) geom.Convex {
	var base geom.Polygon
	for _, q := range way.Hull(flat(c.Corners...)) {
		base = append(base, geom.Vec{X: q.X, Z: q.Z})
	}
	return geom.Prism(base, geom.Up)
}
