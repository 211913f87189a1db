package light

import (
	"sync"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
	"boothmock/internal/sight"
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

// bytes is about how much memory it takes.
func (g *gathered) bytes() int { return 70*len(g.numbers) + 4*cap(g.ends) + 16*cap(g.list) }

// found is what was found on the way to a booth's light.
type found struct {
	room  *room
	names namer

	lock  sync.Mutex
	sides map[partSide]partFound
}

// bytes is about how much memory it takes.
func (f *found) bytes() (n int) {
	for _, s := range f.sides {
		n += s.bytes()
	}
	return n
}

// gathers is at how many places light was gathered anew.
func (f *found) gathers() (n int) {
	for _, s := range f.sides {
		n += s.anew
	}
	return n
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

// known is what is known of one side of a part, that meets the room r, from before; what is found now is put into f.
func (f *found) known(before *found, of partSide, r *room) *known {
	k := &known{now: newGathered()}
	f.lock.Lock()
	f.sides[of] = partFound{r, k.now}
	f.lock.Unlock()
	if before == nil {
		return k
	}
	if was, ok := before.sides[of]; ok {
		k.before, k.moves = was.gathered, movesOf(was.room, r, before.names, f.names)
	}
	return k
}

// known is what was gathered in the version before, and what of it still holds.
type known struct {
	before, now *gathered // before is nil where the side is new
	*moves
}

// moves are the differences between the solids of two rooms.
type moves struct {
	now  []int32 // by number of a solid of the room before: its number now, or -1
	came []int   // numbers of those that are new
}

// namer is how parts are known in several versions of a booth.
type namer func(owner int) booth.ID

func names(p *booth.Plan) namer {
	return func(owner int) booth.ID {
		if owner == groundOwner {
			return ""
		}
		return p.Parts[owner].ID
	}
}

// movesOf compares two rooms. A solid stays if it has the same shape as the one before with its owner's name and number among
// the owner's.
func movesOf(before, now *room, was, is namer) *moves {
	type key struct {
		owner booth.ID
		nth   int
	}
	keys := func(r *room, name namer) (out []key) {
		counts := map[int]int{}
		for i := range r.solids {
			o := r.solids[i].Owner
			out = append(out, key{name(o), counts[o]})
			counts[o]++
		}
		return out
	}
	m := &moves{now: make([]int32, len(before.solids))}
	number := map[key]int{}
	for i, k := range keys(before, was) {
		m.now[i] = -1
		number[k] = i
	}
	for i, k := range keys(now, is) {
		if j, ok := number[k]; ok && same(&before.solids[j], &now.solids[i]) {
			m.now[j] = int32(i)
			continue
		}
		m.came = append(m.came, i)
	}
	return m
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
	if g.last == nil {
		return g.arrive(p, n, skip)
	}
	at, now := place{p, n}, g.last.now
	if number, ok := now.numbers[at]; ok {
		return now.of(number)
	}
	if g.last.before != nil {
		if number, ok := g.last.before.numbers[at]; ok && g.holds(p, n, skip, g.last.before.of(number)) {
			for _, t := range g.last.before.of(number) {
				if t.from >= 0 {
					t.from = g.last.moves.now[t.from]
				}
				now.list = append(now.list, t)
			}
			return now.closed(at)
		}
	}
	now.anew++
	now.list = append(now.list, g.arrive(p, n, skip)...)
	return now.closed(at)
}

// holds reports whether the transfers to p found in the version before, in its numbers of solids, still are what there is: none
// of their sources has moved, and nothing that came stands in their way.
func (g *gatherer) holds(p, n geom.Vec, skip int, before []transfer) bool {
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
