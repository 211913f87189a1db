package check

import (
	"math"
	"slices"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

const (
	sole      = 0.001                    // metres: what is lower is the ground itself; the foot of a tent's leg is 6 mm high
	lowest    = 0.5 * float64(unit.Inch) // metres: what is lower is stepped over without noticing (a carpet's edge)
	neighbour = 3.0                      // metres of a neighbour's ground that count as closed
)

// floor is the ground with everything that a visitor cannot walk through. Other visitors move out of the way.
func (p *Pass) floor() *way.Floor {
	if p.ground == nil {
		p.ground, p.outlined = p.floorOf(p.closed(func(part *booth.Part) bool { return !part.Moving }))
	}
	return p.ground
}

// floorOf is a floor with these obstacles on it, with what was measured on it in a version before; and the sum of what it is.
func (p *Pass) floorOf(obstacles []way.Obstacle) (*way.Floor, answer.Sum) {
	var s answer.Summing
	if p.kept != nil {
		for _, o := range obstacles {
			s.Count(o.Owner, len(o.Shape))
			for _, q := range o.Shape {
				s.Add(q.X, q.Z)
			}
		}
	}
	type floor answer.Sum
	sum, n := s.Done(), len(obstacles)
	return answer.Of(p.kept, floor(sum), func() (*way.Floor, int) { return way.NewFloor(obstacles), 40 * n * n }), sum
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
// those parts that count, and the neighbours beyond the closed sides. What hangs higher is for the check of headroom. Cloth
// counts as it is drawn: a drape out to its outermost folds, a table's cloth out to its hem all round; and a tent's legs with
// their feet. People count with one outline each, and so does all cloth where there is so much of it that the ways would
// take too long.
func (p *Pass) closed(counts func(*booth.Part) bool) []way.Obstacle {
	const most = 600 // outlines: the gaps between them are measured each with each
	neighbours := append(p.neighbours(), p.storeGrounds()...)
	out := slices.Clone(neighbours)
	feet := map[int][]way.Shape{}
	for i := range p.Plan.Parts {
		part := &p.Plan.Parts[i]
		if part.Flat || !counts(part) {
			continue
		}
		feet[i] = p.feet(i)
	}
	crowded := false
	for i := 0; i < len(p.Plan.Parts); i++ {
		part, shapes := &p.Plan.Parts[i], feet[i]
		switch {
		case len(shapes) < 2 || part.Blocks == nil && !part.Moving:
		case part.Moving || part.Cloth != nil || crowded:
			shapes = []way.Shape{plainer(way.Hull(slices.Concat(shapes...)))}
		default:
			shapes = p.outlines(i, shapes)
		}
		for _, s := range shapes {
			out = append(out, way.Obstacle{Shape: s, Owner: i})
		}
		if len(out) > most && !crowded { // again, and coarser
			crowded, out, i = true, slices.Clone(neighbours), -1
		}
	}
	return outermost(out)
}

// stride is a part as somebody meets it who walks, whose eye is so many metres above the ground.
type stride struct {
	body answer.Sum
	eye  float64
}

// feet are the shapes on the floor of the solids of part number i.
func (p *Pass) feet(i int) []way.Shape {
	type feet stride
	return answer.Of(p.kept, feet{p.body(i), p.usual().Height}, func() (out []way.Shape, bytes int) {
		for _, c := range p.Plan.Parts[i].Solids {
			if s := way.Footprint(c, sole, p.usual().Height); s != nil {
				out, bytes = append(out, s), bytes+24+16*len(s)
			}
		}
		return out, bytes
	})
}

// outlines are these shapes, joined.
func (p *Pass) outlines(i int, shapes []way.Shape) []way.Shape {
	type outlines stride
	return answer.Of(p.kept, outlines{p.body(i), p.usual().Height}, func() (out []way.Shape, bytes int) {
		out = joined(shapes)
		for _, s := range out {
			bytes += 24 + 16*len(s)
		}
		return out, bytes
	})
}

// joined puts one outline around as many folds in a row as one can without anybody feeling much of it who goes by: there are
// hundreds.
func joined(shapes []way.Shape) (out []way.Shape) {
	const felt = 0.375 * float64(unit.Inch) // metres
	for len(shapes) > 0 {
		n, all := 1, shapes[0]
		for n < len(shapes) {
			more := way.Hull(append(slices.Clone(all), shapes[n]...))
			if sag(more, shapes[:n+1]) > felt {
				break
			}
			n, all = n+1, more
		}
		out, shapes = append(out, plainer(all)), shapes[n:]
	}
	return out
}

// plainer is the outline without the corners that stand out by less than a millimetre.
func plainer(s way.Shape) way.Shape {
	const hair = 0.001 // metres
	out := slices.Clone(s)
	for i := 0; i < len(out) && len(out) > 4; {
		a, b := out[(i+len(out)-1)%len(out)], out[(i+1)%len(out)]
		if _, d := (way.Shape{a, b}).Nearest(out[i]); d < hair {
			out = slices.Delete(out, i, i+1)
			i++ // its neighbour stays, or a round outline would wither away
			continue
		}
		i++
	}
	return out
}

// sag is how much nearer than to the outline a round thing of some 32 in, the narrowest that comes by, gets to the shapes in it,
// in metres.
func sag(outline way.Shape, shapes []way.Shape) float64 {
	const radius, step, short = 0.4, 0.04, 0.02 // metres: of the round thing, from try to try, and of a side that needs none
	most := 0.0
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		l := a.Dist(b)
		if l < short {
			continue
		}
		ux, uz := (b.X-a.X)/l, (b.Z-a.Z)/l
		n := int(l/step) + 1
		for k := 1; k <= n; k++ {
			at, least := l*float64(k)/float64(n+1), math.Inf(1)
			for _, s := range shapes {
				for j, p := range s {
					q := s[(j+1)%len(s)]
					px, py := float64((p.X-a.X)*ux)+float64((p.Z-a.Z)*uz), float64((p.Z-a.Z)*ux)-float64((p.X-a.X)*uz) // along the side, and in from it
					qx, qy := float64((q.X-a.X)*ux)+float64((q.Z-a.Z)*uz), float64((q.Z-a.Z)*ux)-float64((q.X-a.X)*uz)
					if d := at - px; math.Abs(d) < radius {
						least = min(least, py+radius-math.Sqrt(float64(radius*radius)-float64(d*d)))
					}
					if (px < at) != (qx < at) {
						least = min(least, py+float64((qy-py)*(at-px)/(qx-px)))
					}
				}
			}
			if most = max(most, least); most > 1 {
				return most
			}
		}
	}
	return most
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

// storeGrounds are the grounds behind walls that visitors do not walk on; each counts as a part of its wall.
func (p *Pass) storeGrounds() (out []way.Obstacle) {
	for _, s := range p.Plan.Stores {
		for i := range p.Plan.Parts {
			if p.Plan.Parts[i].ID == s.Wall {
				out = append(out, way.Obstacle{Shape: way.Hull(flat(s.Ground...)), Owner: i})
			}
		}
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
