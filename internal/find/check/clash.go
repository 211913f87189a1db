package check

import (
	"cmp"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

// pressed is how far two things may reach into each other, in metres: cloth gives way, and leaning things are drawn stiff.
const pressed = 0.375 * float64(unit.Inch)

var clash = Check{
	Name: "two in one place", Doc: "No two things take the same room, and no two things overlap on a wall or on a top, however thin they are. " +
		"Left, right, front and back are as you look in from the aisle; on a wall, as you face it; on a top, as you stand before it.",
	Source: practice,
	Run: func(p *Pass) {
		p.eachClash(p.tellClash)
	},
}

// tellClash tells of two parts in one place, and how to mend it.
func (p *Pass) tellClash(a, b *booth.Part) {
	if p.ease(a) < p.ease(b) { // the one that is easier to move is reported
		a, b = b, a
	}
	level := Fail
	if a.Moving || b.Moving {
		level = Caution // people move on, but they hide what the picture is to show
	}
	p.report(level, b, Finding{Figure: metres(p.depth(a, b), 0), Source: practice, With: a.ID}, "%s%s",
		later(func() string { return p.meeting(a, b) }), later(func() string {
			if m, ok := p.mend(a, b, 0); ok {
				return ": " + m.words
			}
			return "; no place beside it is free"
		}))
}

// meeting says where two things are in one place, and how much of it they share.
func (p *Pass) meeting(a, b *booth.Part) string {
	both := unit.Capital(b.Name) + " and " + a.Name
	switch {
	case p.sameWall(a, b):
		wall := p.Plan.Part(a.Parent)
		return both + " overlap by " + p.shared(a, b, wall.Frame, func(v geom.Vec) (x, y float64) { return v.X, v.Y }) + " on " + wall.Name
	case p.sameTop(a, b):
		top := p.Plan.Part(a.Parent)
		return both + " share " + p.shared(a, b, top.Frame, func(v geom.Vec) (x, y float64) { return v.X, v.Z }) + " of the top of " + top.Name
	}
	return both + " take the same room"
}

// shared is the size of what two things have in common, in two of a frame's coordinates.
func (p *Pass) shared(a, b *booth.Part, f geom.Frame, of func(geom.Vec) (x, y float64)) string {
	shape := func(c geom.Convex) way.Shape {
		var points []way.Point
		for _, v := range c.Corners {
			x, y := of(f.Local(v))
			points = append(points, way.Point{X: x, Z: y})
		}
		return way.Hull(points)
	}
	var common []way.Point
	for _, c := range a.Room() {
		for _, d := range b.Room() {
			common = append(common, way.Common(shape(c), shape(d))...)
		}
	}
	lo, hi := way.Shape(common).Bounds()
	return unit.Size{A: unit.Length(hi.X - lo.X), B: unit.Length(hi.Z - lo.Z)}.Format(p.Plan.Units)
}

// eachClash visits the couples that are in one place, those on walls first. Of things that clash with all that stands on them,
// they alone are reported, and of the parts of tents that a thing is in, the one that it is deepest in.
func (p *Pass) eachClash(visit func(a, b *booth.Part)) {
	const near = 0.05 // metres: on a wall things overlap though one stands out before the other
	var found []couple
	lower := map[[2]*booth.Part]bool{}
	deepest := map[*booth.Part]couple{} // of the things that are in tents
	p.near(near, func(part *booth.Part) bool { return !part.Flat && !part.Beyond }, func(c couple) {
		a, b := p.couple(c)
		switch {
		case !p.inOnePlace(a, b):
		case p.sameWall(a, b):
			visit(a, b)
		default:
			found = append(found, c)
			lower[[2]*booth.Part{a, b}], lower[[2]*booth.Part{b, a}] = true, true
			if t := p.inTent(a, b); t != nil {
				if d, ok := deepest[t]; !ok || p.depth(a, b) > p.depth(p.couple(d))+1e-9 {
					deepest[t] = c
				}
			}
		}
	})
	for _, c := range found {
		a, b := p.couple(c)
		if t := p.inTent(a, b); (t == nil || deepest[t] == c) && !p.standOn(a, b, lower) {
			visit(a, b)
		}
	}
}

func (p *Pass) couple(c couple) (a, b *booth.Part) { return &p.Plan.Parts[c.a], &p.Plan.Parts[c.b] }

// inTent is the one of a couple that is in a tent's part; nil where neither part is a tent's.
func (p *Pass) inTent(a, b *booth.Part) *booth.Part {
	switch {
	case p.Plan.Part(p.root(a)).Tent != nil:
		return b
	case p.Plan.Part(p.root(b)).Tent != nil:
		return a
	}
	return nil
}

// standOn reports whether one of the couples is what the two stand on, or one of them and what the other stands on.
func (p *Pass) standOn(a, b *booth.Part, couples map[[2]*booth.Part]bool) bool {
	for i, a := range p.below(a) {
		for k, b := range p.below(b) {
			if i+k > 0 && couples[[2]*booth.Part{a, b}] {
				return true
			}
		}
	}
	return false
}

// inOnePlace reports whether two parts are in one place that are not made to be. Of works on one wall the check of their gaps
// tells.
func (p *Pass) inOnePlace(a, b *booth.Part) bool {
	if p.sameWall(a, b) {
		return (a.Work == nil || b.Work == nil) && p.depth(a, b) > p.give(a, b)+hair
	}
	return !p.fitted(a, b) && p.meet(a, b) && p.depth(a, b) > p.give(a, b)+hair
}

// below are a part and what it stands on, down to the ground; of feet the wall, as a finding about it is about them too.
func (p *Pass) below(part *booth.Part) (out []*booth.Part) {
	for part != nil && len(out) < 8 { // deeper than anything is stacked
		out, part = append(out, part), p.Plan.Part(cmp.Or(part.Parent, part.FeetOf))
	}
	return out
}

// meet reports whether two parts reach into each other at all. What touches at an angle to the pitch's axes may do so by a
// rounding.
func (p *Pass) meet(a, b *booth.Part) bool {
	const touch = 1e-9 // metres
	as, bs := p.shapes(a, b)
	for _, c := range as {
		for _, d := range bs {
			if space(c.lo, c.hi, d.lo, d.hi) < 0 && geom.Overlap(c.Mapped, d.Mapped) > touch {
				return true
			}
		}
	}
	return false
}

// fitted reports whether two parts are made to go into each other.
func (p *Pass) fitted(a, b *booth.Part) bool {
	return a.Sheet || b.Sheet || p.carries(a, b) || p.carries(b, a) || p.ease(a) == built && p.ease(b) == built || stowed(a, b) || stowed(b, a)
}

// stowed reports whether something stands under a table, behind its cloth, as crates do. A table's cloth is drawn hollow; its Blocks are all of it.
func stowed(part, table *booth.Part) bool {
	const board = 0.05 // metres: the table's top, and a finger's room to slide the thing under it; common practice, no source
	if part.Parent != "" || part.Moving || table.Top == nil || len(table.Blocks) != 1 {
		return false
	}
	lo, hi := part.In(table.Frame)
	from, to := table.In(table.Frame)
	return lo.X >= from.X && hi.X <= to.X && lo.Z >= from.Z && hi.Z <= to.Z && hi.Y <= to.Y-board
}

// carries reports whether b hangs or stands on a, directly or not.
func (p *Pass) carries(a, b *booth.Part) bool {
	for b != nil && b.Parent != "" {
		if b.Parent == a.ID {
			return true
		}
		b = p.Plan.Part(b.Parent)
	}
	return false
}
