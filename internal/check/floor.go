package check

import (
	"boothmock/internal/booth"
	"boothmock/internal/geom"
	"boothmock/internal/unit"
	"boothmock/internal/way"
)

const (
	lowest    = 0.5 * float64(unit.Inch) // metres: what is lower is stepped over without noticing (a carpet's edge)
	neighbour = 3.0                      // metres of a neighbour's ground that count as closed
)

// floor is the ground with everything that a visitor cannot walk through. Other visitors move out of the way.
func (p *Pass) floor() *way.Floor {
	if p.ground == nil {
		p.ground = way.NewFloor(p.closed(func(part *booth.Part) bool { return !part.Moving }))
	}
	return p.ground
}

// Closed are the outlines on the floor that nobody can walk through who looks round in the booth: everything that is in
// the way of visitors, and they themselves.
func Closed(plan *booth.Plan) []way.Shape {
	p := &Pass{Plan: plan}
	var out []way.Shape
	for _, o := range p.closed(func(*booth.Part) bool { return true }) {
		out = append(out, o.Shape)
	}
	return out
}

// closed is the ground that is not free: under what stands between the ground and the height of the usual visitor's eye, of
// those parts that count, and the neighbours beyond the closed sides. What hangs higher is for the check of headroom.
func (p *Pass) closed(counts func(*booth.Part) bool) []way.Obstacle {
	out := p.neighbours()
	for i := range p.Plan.Parts {
		part := &p.Plan.Parts[i]
		if part.Flat || !counts(part) {
			continue
		}
		for _, c := range part.Solids {
			if s := way.Footprint(c, lowest, p.usual().Height); s != nil {
				out = append(out, way.Obstacle{Shape: s, Owner: i})
			}
		}
	}
	return outermost(out)
}

// neighbours are the grounds beyond the closed sides of the pitch.
func (p *Pass) neighbours() []way.Obstacle {
	var out []way.Obstacle
	for side, open := range p.Plan.Pitch.Open {
		if open {
			continue
		}
		a, b := p.Plan.Pitch.Edge(booth.Side(side))
		away := geom.Up.Cross(b.Sub(a)).Unit().Mul(neighbour)
		if a.Add(away).Len() < a.Len() {
			away = away.Neg()
		}
		out = append(out, way.Obstacle{Shape: way.Hull(flat(a, b, a.Add(away), b.Add(away))), Owner: -1 - side})
	}
	return out
}

// outermost leaves out obstacles that stand within another one: things under a table, prints in a bin.
func outermost(obstacles []way.Obstacle) []way.Obstacle {
	var out []way.Obstacle
	for i, o := range obstacles {
		within := false
		for j, other := range obstacles {
			if i != j && covers(other.Shape, o.Shape) && (!covers(o.Shape, other.Shape) || j < i) {
				within = true
				break
			}
		}
		if !within {
			out = append(out, o)
		}
	}
	return out
}

func covers(s, t way.Shape) bool {
	for _, q := range t {
		if !s.Holds(q) {
			return false
		}
	}
	return true
}

func flat(vs ...geom.Vec) []way.Point {
	out := make([]way.Point, len(vs))
	for i, v := range vs {
		out[i] = way.Point{X: v.X, Z: v.Z}
	}
	return out
}
