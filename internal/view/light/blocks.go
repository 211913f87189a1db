package light

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// blocks are the solids of a part as all other things meet them, which need not see every detail: one that fills a good
// part of its outline, as a framed work does, is one block; a row of sheets, as of prints in a bin, is one from the first
// to the last; a round rod is square; a body is a few boxes one above the other; and of the fair around a roof is one hull.
func blocks(p *booth.Part) []geom.Convex {
	solids := p.Room()
	if p.Moving {
		return bands(solids)
	}
	if p.Beyond {
		return roofed(solids)
	}
	if volume := 0.0; len(solids) > 1 && !p.Skinned {
		for _, s := range solids {
			volume += size(s)
		}
		if b := block(p); volume > 0.3*size(b) {
			return []geom.Convex{b}
		}
	}
	var out []geom.Convex
	for i := 0; i < len(solids); {
		k := i + 1
		for k < len(solids) && sheets(solids[k-1], solids[k]) {
			k++
		}
		joined := k > i+1
		if joined {
			b := row(solids[i], solids[k-1])
			if joined = b.Check() == nil; joined { // sheets that lie askew make no solid
				out = append(out, b)
			}
		}
		if !joined {
			for _, s := range solids[i:k] {
				out = append(out, squared(s))
			}
		}
		i = k
	}
	return out
}

// bands are boxes that stand for what of a body is at one height, from the ground up: round things, which seen from all round are as
// wide on average as a square of π/4 their width.
func bands(solids []geom.Convex) (out []geom.Convex) {
	const high = 0.45 // metres
	var at [][]geom.Vec
	for _, s := range solids {
		lo, hi := s.Bounds()
		k := int((lo.Y + hi.Y) / 2 / high)
		for k >= len(at) {
			at = append(at, nil)
		}
		at[k] = append(at[k], s.Corners...)
	}
	for _, corners := range at {
		if len(corners) > 0 {
			lo, hi := geom.Bounds(corners)
			less := hi.Sub(lo).Mul((1 - math.Pi/4) / 2)
			less.Y = 0
			out = append(out, geom.Box(geom.World, lo.Add(less), hi.Sub(less)))
		}
	}
	return out
}

// roofed are the solids of a tent with one hull for all that is over head height.
func roofed(solids []geom.Convex) (out []geom.Convex) {
	const head = 1.8 // metres
	var roof []geom.Vec
	for _, s := range solids {
		if lo, _ := s.Bounds(); lo.Y > head {
			roof = append(roof, s.Corners...)
		} else {
			out = append(out, squared(s))
		}
	}
	if c, ok := geom.Hull(roof, 0.001); ok {
		out = append(out, c)
	}
	return out
}

// sheets reports whether two solids are thin boxes beside each other with next to no room between them.
func sheets(a, b geom.Convex) bool {
	const thick, gap = 0.006, 0.03 // metres
	if !isBox(a) || !isBox(b) || a.Corners[0].Dist(a.Corners[4]) > thick || b.Corners[0].Dist(b.Corners[4]) > thick {
		return false
	}
	for k, p := range a.Corners[:4] {
		if p.Dist(b.Corners[k]) > 2*gap {
			return false
		}
	}
	return true
}

func isBox(c geom.Convex) bool { return len(c.Corners) == 8 && len(c.Faces) == 6 }

// row is the solid from the front of the first of a row of sheets to the back of the last, or the other way round.
func row(a, b geom.Convex) geom.Convex {
	ahead := a.Corners[0].Sub(a.Corners[4]) // from a sheet's back to its front
	if b.Corners[0].Sub(a.Corners[0]).Dot(ahead) > 0 {
		a, b = b, a
	}
	return geom.NewConvex(append(append([]geom.Vec(nil), a.Corners[:4]...), b.Corners[4:]...), a.Faces)
}

// squared is a rod of many sides as one of four, which seen from all round is as wide on average.
func squared(c geom.Convex) geom.Convex {
	n := len(c.Faces) - 2
	if n <= 4 || len(c.Corners) != 2*n {
		return c
	}
	foot, top := geom.Polygon(c.Corners[:n]).Centre(), geom.Polygon(c.Corners[n:]).Centre()
	y := top.Sub(foot)
	x := c.Corners[0].Sub(foot)
	r := x.Len()
	if y.Len() < 10*r || math.Abs(x.Dot(y)) > 1e-6*r || top.Dist(c.Corners[n])-r > 1e-6*r {
		return c
	}
	x, r = x.Unit(), r*math.Pi/4
	f := geom.Frame{Origin: foot, X: x, Y: y.Unit(), Z: x.Cross(y.Unit())}
	return geom.Box(f, geom.Vec{X: -r, Z: -r}, geom.Vec{X: r, Y: y.Len(), Z: r})
}

// block is the outline of a part in its own frame.
func block(p *booth.Part) geom.Convex {
	var corners []geom.Vec
	for _, s := range p.Room() {
		for _, v := range s.Corners {
			corners = append(corners, p.Frame.Local(v))
		}
	}
	lo, hi := geom.Bounds(corners)
	return geom.Box(p.Frame, lo, hi)
}

// size is a solid's volume in m³: that of the pyramids over its faces from its first corner.
func size(c geom.Convex) float64 {
	sum := 0.0
	for i := range c.Faces {
		p := c.Face(i)
		sum += p.Area() * p.Normal().Dot(p[0].Sub(c.Corners[0])) / 3
	}
	return sum
}
