package check

import (
	"cmp"
	"math"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// How a thing can be moved, the easiest first: of two that are in each other's way the easier one is moved. A tag belongs
// beside its own work, so what is beside it is moved; tents, walls and cloth stay where they are.
const (
	walks = iota
	onTop
	onGround
	onWall
	tagged
	built
)

// course is a direction in which a thing can be moved, and how far until it would leave the pitch, its wall or its top.
type course struct {
	along geom.Vec // a unit direction
	words string
	room  float64 // metres
}

// move is a way to mend something.
type move struct {
	part  *booth.Part
	by    geom.Vec // metres
	words string   // "move the sales table 1 1/8 in to the left"
}

// ease is how easily a part is moved.
func (p *Pass) ease(part *booth.Part) int {
	switch {
	case part.Shell || part.Wall != nil || part.Cloth != nil || p.Plan.Part(p.root(part)).Tent != nil:
		return built
	case part.Moving:
		return walks
	case p.onWall(part) && part.Lettering != nil && part.Lettering.From == booth.Close:
		return tagged
	case p.onWall(part) || part.Clamped:
		return onWall
	case part.Parent != "":
		return onTop
	}
	return onGround
}

// courses are the ways to move a part: along its wall, left and right as somebody faces it; over the top that it stands on,
// as somebody stands before it; along the floor as a visitor at the entrance sees it; up and down if it hangs in the air.
func (p *Pass) courses(part *booth.Part) []course {
	lo, hi := extent(part)
	axis := func(f geom.Frame) (x, y, z geom.Vec) { return f.X, f.Y, f.Z }
	switch p.ease(part) {
	case built:
		return nil
	case onWall, tagged:
		wall := p.Plan.Part(part.Parent)
		lo, hi := part.In(wall.Frame)
		x, y, _ := axis(wall.Frame)
		return []course{
			{x.Neg(), "to the left", lo.X}, {x, "to the right", wall.Wall.Width - hi.X},
			{y, "up", wall.Wall.Top - hi.Y}, {y.Neg(), "down", lo.Y},
		}
	case onTop:
		top := p.Plan.Part(part.Parent)
		lo, hi := part.In(top.Frame)
		from, to := topOf(top)
		x, _, z := axis(top.Frame)
		before := ", as you stand before " + top.Name
		along := []course{{x.Neg(), "to the left" + before, lo.X - from.X}, {x, "to the right" + before, to.X - hi.X}}
		if part.Hangs {
			return along
		}
		return append(along, course{z, "to its front edge", to.Z - hi.Z}, course{z.Neg(), "to its back edge", lo.Z - from.Z})
	}
	x, y, z := axis(geom.World)
	w, d := p.Plan.Pitch.Width/2, p.Plan.Pitch.Depth
	out := []course{
		{x.Neg(), "to the left", lo.X + w}, {x, "to the right", w - hi.X},
	}
	if lo.Y > 2*lowest {
		return append(out, course{y, "up", math.Inf(1)}, course{y.Neg(), "down", lo.Y})
	}
	ahead := -hi.Z
	if part.Moving {
		ahead = math.Inf(1) // people stand in the aisle too
	}
	return append(out, course{z, "towards the front", ahead}, course{z.Neg(), "towards the back", lo.Z + d})
}

// extent are the lowest and the highest coordinates of a part's solids.
func extent(part *booth.Part) (lo, hi geom.Vec) { return part.In(geom.World) }

// topOf is what a table or pedestal has to stand things on, in its own frame: the rectangle about its highest corners.
func topOf(part *booth.Part) (lo, hi geom.Vec) {
	const level = 0.001 // metres
	_, high := part.In(part.Frame)
	var corners []geom.Vec
	for _, c := range part.Room() {
		for _, v := range c.Corners {
			if l := part.Frame.Local(v); l.Y > high.Y-level {
				corners = append(corners, l)
			}
		}
	}
	return geom.Bounds(corners)
}

func (p *Pass) sameWall(a, b *booth.Part) bool { return a.Parent == b.Parent && p.onWall(a) }

func (p *Pass) sameTop(a, b *booth.Part) bool {
	return a.Parent != "" && a.Parent == b.Parent && p.ease(a) == onTop && p.ease(b) == onTop && !a.Hangs && !b.Hangs
}

// rect is what a part takes of its wall, in metres of the wall's frame.
type rect struct{ lo, hi geom.Vec }

// rectOf is the rectangle of a part that hangs on a wall.
func (p *Pass) rectOf(part *booth.Part) rect {
	r, ok := p.rects[part]
	if !ok {
		r.lo, r.hi = part.In(p.Plan.Part(part.Parent).Frame)
		p.rects[part] = r
	}
	return r
}

// overlap is the least move along the wall that frees two rectangles from each other, in metres; 0 where they are free.
func (r rect) overlap(q rect) float64 {
	return max(0, min(r.hi.X-q.lo.X, q.hi.X-r.lo.X, r.hi.Y-q.lo.Y, q.hi.Y-r.lo.Y))
}

// give is how far two parts may reach into each other, in metres: cloth gives way, and leaning things are drawn stiff; but
// of thin things no more than half of the thicker one.
func (p *Pass) give(a, b *booth.Part) float64 {
	switch {
	case p.sameWall(a, b):
		return hair
	case p.sameTop(a, b) || p.ease(a) == built || p.ease(b) == built:
		return pressed
	}
	thick := func(part *booth.Part) (most float64) {
		for _, c := range part.Room() {
			if most = max(most, c.Thin()); most > 2*pressed {
				break
			}
		}
		return most
	}
	return min(pressed, max(thick(a), thick(b))/2)
}

// span are distances between from and to, in metres; negative ones lie backwards.
type span struct{ from, to float64 }

// meetings are the distances along a direction at which solids, moved, reach into others by more than give.
func meetings(moved, others []body, along geom.Vec, give float64) (out []span) {
	for _, c := range moved {
		for _, o := range others {
			if passes(c.lo, c.hi, o.lo, o.hi, along, give) {
				continue
			}
			if from, to := geom.Meeting(c.Mapped, o.Mapped, along, give); from < to {
				out = append(out, span{from, to})
			}
		}
	}
	return out
}

// passes reports whether a box that is moved along a direction, or back, keeps clear of another.
func passes(alo, ahi, blo, bhi, along geom.Vec, give float64) bool {
	off := func(alo, ahi, blo, bhi, speed float64) bool {
		return math.Abs(speed) < 1e-9 && (bhi-alo <= give || ahi-blo <= give)
	}
	return off(alo.X, ahi.X, blo.X, bhi.X, along.X) || off(alo.Y, ahi.Y, blo.Y, bhi.Y, along.Y) || off(alo.Z, ahi.Z, blo.Z, bhi.Z, along.Z)
}

// backwards are the spans as they are met on the way back.
func backwards(spans []span) []span {
	out := make([]span, len(spans))
	for i, s := range spans {
		out[i] = span{-s.to, -s.from}
	}
	return out
}

// first is the least distance, of those that on gives, that is in none of the spans.
func first(spans []span, on func(float64) float64) float64 {
	slices.SortFunc(spans, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	at := 0.0
	for _, s := range spans {
		if s.from < at+1e-9 && s.to > at+1e-9 {
			at = on(s.to)
		}
	}
	return at
}

// measured is a distance as it is.
func measured(m float64) float64 { return m }

// printable is the next longer distance that can be printed: whole eighths of an inch, or millimetres.
func (p *Pass) printable(m float64) float64 {
	step := float64(unit.Inch) / 8
	if p.Plan.Units == unit.Centimetres {
		step = 0.001
	}
	return math.Ceil(m/step-1e-4) * step
}

// depth is how far two parts reach into each other: the least move of either, in the directions that it can be moved in,
// that frees it from the other. It is 0 where they do not meet, and where nothing can be moved.
func (p *Pass) depth(a, b *booth.Part) float64 {
	if p.sameWall(a, b) {
		return p.rectOf(a).overlap(p.rectOf(b))
	}
	as, bs := p.shapes(a, b)
	least := math.Inf(1)
	var tried []geom.Vec
	for _, c := range append(p.courses(a), p.courses(b)...) {
		if slices.ContainsFunc(tried, func(d geom.Vec) bool { return d.Cross(c.along).Len() < 1e-9 }) {
			continue // to move the one is to move the other back
		}
		tried = append(tried, c.along)
		spans := meetings(as, bs, c.along, 0)
		least = min(least, first(spans, measured), first(backwards(spans), measured))
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// mend is the least move that frees two parts from each other, keeps so much clear space between them, and takes the moved
// one into nothing else and off nothing: of the one that is easier to move, or else of the other; false where there is none.
func (p *Pass) mend(a, b *booth.Part, keep float64) (move, bool) {
	movers := []*booth.Part{a, b}
	if p.ease(b) <= p.ease(a) {
		movers = []*booth.Part{b, a}
	}
	for i, part := range movers {
		if m, ok := p.free(part, movers[1-i], keep); ok {
			return m, true
		}
	}
	return move{}, false
}

// free is the least move of a part, with what stands on it, out of another.
func (p *Pass) free(part, from *booth.Part, keep float64) (move, bool) {
	best, least, left := move{}, math.Inf(1), math.Inf(1)
	oneSide := false // it is as far to the right as to the left
	var spans []span
	for k, c := range p.courses(part) {
		if k%2 == 0 {
			spans = p.inTheWay(part, from, c.along, keep)
		} else {
			spans = backwards(spans) // every second course is the way back
		}
		if c.room <= 0 {
			continue
		}
		at := first(spans, p.printable)
		if at == 0 || at > c.room+hair {
			continue
		}
		switch {
		case k == 0:
			left = at
		case k == 1 && math.Abs(at-left) < 1e-9:
			oneSide = true
		}
		if at < least-1e-9 {
			least, oneSide = at, oneSide && k == 1
			best = move{part: part, by: c.along.Mul(at), words: c.words}
		}
	}
	if math.IsInf(least, 1) {
		return move{}, false
	}
	if oneSide {
		best.words = "to one side"
	}
	best.words = "move " + part.Name + " " + p.length(least) + " " + best.words
	return best, true
}

// inTheWay are the distances along a direction at which a part, with what stands on it, is in something: in what it is to be
// freed from, with so much space to keep, or in a third thing.
func (p *Pass) inTheWay(part, from *booth.Part, along geom.Vec, keep float64) (spans []span) {
	group := p.with(part)
	for _, q := range group {
		for i := range p.Plan.Parts {
			o := &p.Plan.Parts[i]
			if slices.Contains(group, o) || o != from && (o.Flat || o.Moving || p.fitted(q, o)) {
				continue
			}
			give := hair // things that stand side by side may touch
			switch {
			case q == part && o == from:
				give = -keep
			case p.ease(o) == built:
				give = pressed
			}
			qs, os := p.shapes(q, o)
			spans = append(spans, meetings(qs, os, along, give)...)
		}
	}
	return spans
}

// with are a part and all that hangs or stands on it.
func (p *Pass) with(part *booth.Part) []*booth.Part {
	out := []*booth.Part{part}
	for i := range p.Plan.Parts {
		if o := &p.Plan.Parts[i]; p.carries(part, o) {
			out = append(out, o)
		}
	}
	return out
}
