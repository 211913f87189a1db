package light

import (
	"slices"

	"boothmock/internal/basis/geom"
)

// bounces is how often light goes from face to face before the surfaces gather it. What is left out is less than a thousandth of the
// light where faces give back half of what they get.
const bounces = 12

// settle works out how bright the faces are: what each gets from the sky, and from every other face, is gathered once,
// and then light goes from face to face.
func (r *room) settle() { r.settleAfter(nil) }

// settleAfter is settle, which takes over what was gathered in a version before as far as it still holds: m is how the solids differ
// from those of that version.
func (r *room) settleAfter(m *moves) {
	var list []*face
	var owners, solids []int
	first := make([]int, len(r.faces)) // numbers of the solids' first faces
	var bright []rgb                   // of all faces
	for k, fs := range r.faces {
		first[k] = len(bright)
		for i := range fs {
			bright = append(bright, fs[i].bright)
			if len(fs[i].points) > 0 && (r.solids[k].Owner != groundOwner || fs[i].n.Y > 0) {
				list, owners, solids = append(list, &fs[i]), append(owners, r.solids[k].Owner), append(solids, k)
			}
		}
	}
	sources := make([][]seen, len(list))
	places, arrivals := make([][]place, len(list)), make([][][]transfer, len(list))
	r.each(len(list), nil, func(g *gatherer, i int) {
		if m != nil && g.last == nil {
			g.last = &known{moves: m}
		}
		var clear []geom.Vec
		for _, p := range list[i].points {
			if q, ok := r.free(p, list[i].n, owners[i]); ok {
				clear = append(clear, q)
			}
		}
		for _, q := range clear {
			all := g.arriveAfter(place{q, list[i].n})
			places[i], arrivals[i] = append(places[i], place{q, list[i].n}), append(arrivals[i], all)
			for _, a := range all {
				a.share /= float64(len(clear))
				sources[i] = append(sources[i], r.see(a, q, first))
			}
		}
	})
	r.arrived = map[place][]transfer{}
	for i := range places {
		for k, p := range places[i] {
			r.arrived[p] = arrivals[i][k]
		}
	}
	r.shine()
	r.shineLamps(list, solids)
	r.bounce(list, sources, bright)
}

// bounce lets light go from face to face. The sources are those of the faces of the list; bright is of all faces, one beside the
// other in memory, as they are looked up often.
func (r *room) bounce(list []*face, sources [][]seen, bright []rgb) {
	for range bounces {
		for i, f := range list {
			f.light = rgb{f.sun, f.sun, f.sun}.plus(f.lamps, 1)
			for k := range sources[i] {
				s := &sources[i][k]
				f.light = f.light.plus(s.look(bright), s.share)
			}
		}
		first := 0
		for k, fs := range r.faces {
			mean, total := rgb{}, 0.0
			for i := range fs {
				f := &fs[i]
				f.bright = f.colour.times(crossed(f.light, fs[f.back].light, f.colour, f.passes))
				if len(f.points) > 0 {
					mean, total = mean.plus(f.bright, f.area), total+f.area
				}
			}
			for i := range fs {
				if len(fs[i].points) == 0 && total > 0 && r.solids[k].Owner != groundOwner {
					fs[i].bright = rgb{}.plus(mean, 1/total)
				}
				bright[first+i] = fs[i].bright
			}
			first += len(fs)
		}
	}
}

// seen is a transfer, with what room.bright asks about its source worked out once for all bounces.
type seen struct {
	transfer
	sides []counted // of the solid that it is from
	plain rgb       // how bright it looks that is from no solid
}

// counted is a face by its number among all, and how much it counts.
type counted struct {
	face   int
	weight float64
}

// see is the transfer as p sees its source; the faces of the solids begin at the numbers first.
func (r *room) see(t transfer, p geom.Vec, first []int) seen {
	s := seen{transfer: t}
	if t.from < 0 {
		s.plain = r.plain(t.from)
		return s
	}
	faces := r.faces[t.from]
	s.sides = make([]counted, 0, min(3, len(faces))) // of a box no more are seen
	for i := range faces {
		if w := faces[i].fills(p); w > 0 {
			s.sides = append(s.sides, counted{first[t.from] + i, w})
		}
	}
	return s
}

// look is room.bright.
func (s *seen) look(bright []rgb) rgb {
	if s.from < 0 {
		return s.plain
	}
	var sum rgb
	total := 0.0
	for _, o := range s.sides {
		sum, total = sum.plus(bright[o.face], o.weight), total+o.weight
	}
	if total > 0 {
		sum = rgb{}.plus(sum, 1/total)
	}
	return sum
}

// arriveAfter is arrive at a point of a face, taken over from the version before where that still holds. The result stays valid.
func (g *gatherer) arriveAfter(at place) []transfer {
	if g.last != nil {
		if list, ok := g.last.arrived[at]; ok && g.holds(at.p, at.n, -1, list) {
			list = slices.Clone(list)
			for i := range list {
				if list[i].from >= 0 {
					list[i].from = g.last.moves.now[list[i].from]
				}
			}
			return list
		}
	}
	g.anew.Add(1)
	return slices.Clone(g.arrive(at.p, at.n, -1))
}

// through is the factor by which light from behind counts on cloth of the given colour, so that the share passes of it
// comes through in the cloth's own hue.
func through(c rgb, passes float64) float64 {
	return passes / max(c[0], c[1], c[2], 0.05)
}

// crossed is the light on cloth of the given colour that counts on one side, of what arrives there and behind it: what passes through
// is not sent back too, so cloth gives back no more than it gets.
func crossed(light, behind, c rgb, passes float64) rgb {
	return rgb{}.plus(light, 1-passes).plus(behind, through(c, passes))
}
