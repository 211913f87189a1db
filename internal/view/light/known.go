package light

import (
	"math"
	"sync"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/plan/booth"
)

// Nearly all of the time that light takes goes into finding transfers, and a transfer changes only where something moved into
// the way, or out of it. So a booth's light keeps them, for the next version of the booth.

// place is where light is gathered: a point, and the normal of the surface there.
type place struct{ p, n geom.Vec }

// gathered are the transfers at the places of one side of a part.
type gathered struct {
	numbers map[place]int32
	anew    int     // of them, how many were not taken over
	ends    []int32 // by number: where its transfers end in list; they begin where those of the number before end
	list    []transfer
}

func newGathered() *gathered { return &gathered{numbers: map[place]int32{}} }

func (g *gathered) of(number int32) []transfer {
	from := int32(0)
	if number > 0 {
		from = g.ends[number-1]
	}
	return g.list[from:g.ends[number]]
}

// closed says that the transfers at the end of list, from the last place's on, are those of p.
func (g *gathered) closed(p place) []transfer {
	n := int32(len(g.ends))
	g.numbers[p] = n
	g.ends = append(g.ends, int32(len(g.list)))
	return g.of(n)
}

// found is what was found on the way to a booth's light.
type found struct {
	plan *booth.Plan
	room *room

	lock  sync.Mutex
	sides map[partSide]partFound
}

// partSide is one side of a part, as every version of the booth knows it.
type partSide struct {
	part booth.ID
	back bool
}

// partFound is what was found on the way to the light of one side of a part.
type partFound struct {
	room *room // as that side meets it
	*gathered
}

func newFound(p *booth.Plan, r *room) *found {
	return &found{plan: p, room: r, sides: map[partSide]partFound{}}
}

// settle settles the room, after the version before if there is one.
func (b *baking) settle() {
	if b.before != nil {
		b.moves = movesOf(b.before.room, b.room, b.before.plan, b.plan)
	}
	b.room.settleAfter(b.moves)
}

// known is what is known of one side of a part, which meets the room r, from before; what is found now is kept, if anything is.
func (b *baking) known(of partSide, r *room) *known {
	if b.before == nil && !b.keep {
		return nil
	}
	k := &known{now: newGathered(), stands: b.stands}
	if b.keep {
		b.found.lock.Lock()
		b.found.sides[of] = partFound{r, k.now}
		b.found.lock.Unlock()
	}
	if b.before != nil {
		if was, ok := b.before.sides[of]; ok {
			k.before, k.moves = was.gathered, b.moves
			if was.room != b.before.room || r != b.room {
				k.moves = movesOf(was.room, r, b.before.plan, b.plan)
			}
		}
	}
	return k
}

// known is what was gathered in the version before, and what of it still holds.
type known struct {
	before, now *gathered // before is nil where the side is new
	stands      float64   // share of the light that may have moved in what still counts as holding; 0: none
	*moves
}

// moves are the differences between the solids of two rooms.
type moves struct {
	now     []int32 // by number of a solid of the room before: its number now, or -1
	instead []int32 // the same, and where it has moved, or has another shape, the number of the one that stands for it
	came    []int   // numbers of those that are new
	list    []move
	arrived map[place][]transfer // at the faces of the room before

	lux      float64  // what 1 is
	still    bool     // nothing moved, and no lamp is another: what lamps light is the same
	darkened []source // lamps that were, and are not so any more
	lit      []source // lamps that are new, or are otherwise than they were
}

// move is a solid that was in one place and is in another: nil where it was not, or is not any more.
type move struct {
	was, is *sight.Solid
	far     float64 // metres
}

// movesOf compares the rooms of two plans. A solid stays if it has the same shape as the one before with its owner's ID and number
// among the owner's.
func movesOf(before, now *room, was, is *booth.Plan) *moves {
	type key struct {
		owner booth.ID
		nth   int
	}
	keys := func(r *room, p *booth.Plan) (out []key) {
		counts := map[int]int{}
		for i := range r.solids {
			o := r.solids[i].Owner
			k := key{nth: counts[o]}
			if o != groundOwner {
				k.owner = p.Parts[o].ID
			}
			out = append(out, k)
			counts[o]++
		}
		return out
	}
	m := &moves{now: make([]int32, len(before.solids)), instead: make([]int32, len(before.solids))}
	number := map[key]int{}
	for i, k := range keys(before, was) {
		m.now[i], m.instead[i] = gone, gone
		number[k] = i
	}
	for i, k := range keys(now, is) {
		s := &now.solids[i]
		j, ok := number[k]
		switch {
		case !ok:
			m.came, m.list = append(m.came, i), append(m.list, move{is: s})
		case same(&before.solids[j], s):
			m.now[j], m.instead[j] = int32(i), int32(i)
		default:
			m.came, m.instead[j] = append(m.came, i), int32(i)
			m.list = append(m.list, move{&before.solids[j], s, before.solids[j].Shift(s)})
		}
	}
	for j := range before.solids {
		if m.instead[j] == gone {
			m.list = append(m.list, move{was: &before.solids[j]})
		}
	}
	m.lux, m.arrived = now.lux, before.arrived
	m.compareLamps(before, now)
	return m
}

// stir is about how much of the light at p moved, as a share of what a surface there with normal n sees: each solid's part of the view,
// and of that the less the less far it went.
func (m *moves) stir(p, n geom.Vec) float64 {
	sum := 0.0
	for i := range m.list {
		v := &m.list[i]
		share, near := 0.0, math.Inf(1)
		for _, s := range [2]*sight.Solid{v.was, v.is} {
			if s != nil {
				f, d := s.Fills(p, n)
				share, near = max(share, f), min(near, d)
			}
		}
		if v.was != nil && v.is != nil {
			share *= min(1, 2*v.far/max(near, 1e-3))
		}
		sum += share
	}
	return sum
}

func same(a, b *sight.Solid) bool {
	if a.Veil != b.Veil || len(a.Convex.Corners) != len(b.Convex.Corners) || len(a.Convex.Faces) != len(b.Convex.Faces) {
		return false
	}
	for i, v := range a.Convex.Corners {
		if v != b.Convex.Corners[i] {
			return false
		}
	}
	for i, f := range a.Convex.Faces {
		if len(f) != len(b.Convex.Faces[i]) {
			return false
		}
		for k, n := range f {
			if n != b.Convex.Faces[i][k] {
				return false
			}
		}
	}
	return true
}

// transfers are what arrive finds, taken from what is known if that still holds.
func (g *gatherer) transfers(p, n geom.Vec, skip int) []transfer {
	if g.ctx != nil && g.ctx.Err() != nil {
		return nil
	}
	if g.last == nil {
		g.list = g.lamplight(g.arrive(p, n, skip), p, n, skip)
		return g.list
	}
	at, now := place{p, n}, g.last.now
	if number, ok := now.numbers[at]; ok {
		return now.of(number)
	}
	if g.last.before != nil {
		if number, ok := g.last.before.numbers[at]; ok && g.holds(p, n, skip, g.last.before.of(number)) {
			for _, t := range g.last.before.of(number) {
				if t.from >= 0 {
					t.from = g.last.instead[t.from]
				}
				if t.from != gone && (t.from > firstLamp || g.last.still) {
					now.list = append(now.list, t)
				}
			}
			if !g.last.still {
				now.list = g.lamplight(now.list, p, n, skip)
			}
			return now.closed(at)
		}
	}
	now.anew++
	now.list = g.lamplight(append(now.list, g.arrive(p, n, skip)...), p, n, skip)
	return now.closed(at)
}

// holds reports whether the transfers to p found in the version before, in its numbers of solids, still are what there is: none
// of their sources has moved, and nothing that came stands in their way; or little enough of them.
func (g *gatherer) holds(p, n geom.Vec, skip int, before []transfer) bool {
	if g.last.stands > 0 {
		return g.last.stir(p, n) < g.last.stands
	}
	for _, t := range before {
		if t.from >= 0 && g.last.moves.now[t.from] < 0 {
			return false
		}
	}
	for _, k := range g.last.came {
		s := &g.solids[k]
		if (skip < 0 || s.Owner != skip) && s.Counts(p, n, g.least) && !g.covered(p, s, before) {
			return false
		}
	}
	return true
}

// covered reports whether one of the sources stands before a solid as p sees it, all over: then that hides nothing.
func (g *gatherer) covered(p geom.Vec, s *sight.Solid, sources []transfer) bool {
	const little = 0.02 // of the light: what gives less is too small, most likely
	for _, t := range sources {
		if t.from >= 0 && t.share > little && g.solids[g.last.moves.now[t.from]].Covers(p, s) {
			return true
		}
	}
	return false
}
