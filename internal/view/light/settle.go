package light

import "slices"

// bounces is how often light goes from face to face before the surfaces gather it. What is left out is less than a thousandth of the
// light where faces give back half of what they get.
const bounces = 12

// settle works out how bright the faces are: what each gets from the sky, and from every other face, is gathered once,
// and then light goes from face to face.
func (r *room) settle() { r.settleAfter(nil) }

// settleAfter is settle, which takes over what was gathered in a version before as far as it still holds: m is how the solids differ
// from those of that version.
func (r *room) settleAfter(m *moves) {
	var all []*face
	var solids []int                   // of which each is a face
	first := make([]int, len(r.faces)) // numbers of the solids' first faces
	for k, fs := range r.faces {
		first[k] = len(all)
		for i := range fs {
			all, solids = append(all, &fs[i]), append(solids, k)
		}
	}
	places, arrivals := make([][]place, len(all)), make([][][]transfer, len(all))
	r.each(len(all), nil, func(g *gatherer, i int) {
		if m != nil && g.last == nil {
			g.last = &known{moves: m}
		}
		if r.solids[solids[i]].Owner == groundOwner && all[i].n.Y < 0 {
			return // nobody sees it
		}
		for _, p := range all[i].points() {
			if q, ok := r.free(p, all[i].n, r.solids[solids[i]].Owner); ok {
				at := place{q, all[i].n}
				places[i], arrivals[i] = append(places[i], at), append(arrivals[i], g.arriveAfter(at))
			}
		}
	})
	r.arrived = map[place][]transfer{}
	seen := make([][]glance, len(all))
	shares, fills := make([]float64, len(all)), []float64(nil)
	for i, f := range all {
		f.open, f.clear = rgb{}, f.area*float64(len(places[i]))/float64(len(f.points()))
		for k, at := range places[i] {
			r.arrived[at] = arrivals[i][k]
			for _, t := range arrivals[i][k] {
				share := t.share / float64(len(places[i]))
				if t.from < 0 {
					f.open = f.open.plus(r.plain(t.from), share)
					continue
				}
				faces, total := r.faces[t.from], 0.0
				fills = fills[:0]
				for j := range faces {
					fills = append(fills, faces[j].fills(at.p))
					total += fills[j]
				}
				for j, w := range fills {
					if w > 0 {
						n := first[t.from] + j
						if shares[n] == 0 {
							seen[i] = append(seen[i], glance{of: n})
						}
						shares[n] += share * w / total
					}
				}
			}
		}
		for k := range seen[i] {
			g := &seen[i][k]
			g.share, shares[g.of] = shares[g.of], 0
		}
	}
	r.shine()
	r.shineLamps(all)
	r.bounce(all, linked(seen).balance(all), r.ways(first))
}

// bounce lets light go from face to face, and through cloth.
func (r *room) bounce(all []*face, links exchange, ways []way) {
	light, bright := make([]rgb, len(all)), make([]rgb, len(all)) // one beside the other in memory, as they are looked up often
	for range bounces {
		for _, f := range all {
			f.light, f.behind = f.open.plus(f.lamps, 1).plus(white, f.sun).plus(f.bright, f.itself), rgb{}
		}
		for i, f := range all {
			light[i], bright[i] = f.light, f.bright
		}
		for i := range links {
			l := &links[i]
			light[l.a], light[l.b] = light[l.a].plus(bright[l.b], l.shares[0]), light[l.b].plus(bright[l.a], l.shares[1])
		}
		for i, f := range all {
			f.light = light[i]
		}
		for _, w := range ways {
			all[w.to].behind = all[w.to].behind.plus(all[w.from].light, w.share)
		}
		for _, f := range all {
			f.bright = f.colour.times(crossed(f.light, f.behind, f.colour, f.passes))
		}
	}
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
