package start

import (
	"cmp"
	"slices"

	"boothmock/internal/basis/unit"
)

// standard is a booth of the usual sizes, which are common practice without a source.
type standard struct {
	sys          unit.System
	wall         unit.Length // width of a wall between the legs
	top, bottom  unit.Length // of what a hook holds on to
	centre       unit.Length // of a single row
	least, usual unit.Length // clear space between works, and at the ends of a wall, where a neighbour stands out
	low          unit.Length // below which no lower row reaches
	loose        unit.Length // a gap so wide that the row is drawn together
	alike        unit.Length // by how much the widths of a pair may differ
	desk         unit.Length // of the left wall, from the front, that the desk stands before
	lines        []string    // of the scene, without works
}

var booths = map[unit.System]standard{
	unit.Inches: {
		sys: unit.Inches, wall: 117 * unit.Inch, top: 82 * unit.Inch, bottom: 6 * unit.Inch, centre: 58 * unit.Inch,
		least: 5 * unit.Inch, usual: 6 * unit.Inch, low: 20 * unit.Inch, loose: 10 * unit.Inch, alike: 4 * unit.Inch, desk: 42 * unit.Inch,
		lines: []string{
			"pitch: {width: 10ft, depth: 10ft, aisle: 10ft, ground: grass, neighbours: {}}", "",
			"tent: {eave: 89, peak: 128, leg: 1 1/2}", "",
			"# Cloth on three sides, with mesh behind it to hook on to.",
			`drapes: {walls: [left, back, right], cloth: "#8b8f94", top: 84}`, "",
			"walls:",
			"  - {side: left, hang on: mesh, spacing: 2, top: 82, bottom: 6}",
			"  - {side: back, hang on: mesh, spacing: 2, top: 82, bottom: 6}",
			"  - {side: right, hang on: mesh, spacing: 2, top: 82, bottom: 6}", "",
			"tables:",
			"  - {name: desk, size: 30 x 20, height: 30, cloth: linen, against: left, from front: 8}",
		},
	},
	unit.Centimetres: {
		sys: unit.Centimetres, wall: 2.92, top: 2.10, bottom: 0.15, centre: 1.47,
		least: 0.13, usual: 0.15, low: 0.5, loose: 0.25, alike: 0.1, desk: 1.05,
		lines: []string{
			"pitch: {width: 3m, depth: 3m, aisle: 3m, ground: grass, neighbours: {}}", "",
			"tent: {eave: 226, peak: 325, leg: 4}", "",
			"# Cloth on three sides, with mesh behind it to hook on to.",
			`drapes: {walls: [left, back, right], cloth: "#8b8f94", top: 213}`, "",
			"walls:",
			"  - {side: left, hang on: mesh, spacing: 5, top: 210, bottom: 15}",
			"  - {side: back, hang on: mesh, spacing: 5, top: 210, bottom: 15}",
			"  - {side: right, hang on: mesh, spacing: 5, top: 210, bottom: 15}", "",
			"tables:",
			"  - {name: desk, size: 75 x 50, height: 75, cloth: linen, against: left, from front: 20}",
		},
	},
}

// row is works side by side on a wall.
type row struct {
	wall     string
	from     unit.Length // width left free at the wall's left end
	room     unit.Length
	low      bool        // the lower of two
	double   bool        // one of two, one above the other
	highest  unit.Length // that a work in it may be
	taken    unit.Length // by works and the least gaps
	works    []*work
	centre   unit.Length
	set      bool // its works are in their places
	together bool // with usual gaps in the middle, instead of evenly over the whole room
}

func (r *row) takes(b standard, w *work) bool {
	return w.outer().A <= r.highest && r.taken+w.outer().B+b.least <= r.room
}

func (r *row) add(b standard, w *work) {
	r.taken += w.outer().B + b.least
	r.works = append(r.works, w)
}

// hang finds places as a painter would: the largest work in the middle of the back wall, on the eye line, with pairs of nearly one
// width beside it; the others on the side walls, largest first, families together. Walls get two rows one above the other, the right one first and the
// back one last, as long as more of what there is to see hangs then. What has no room waits: the smaller works.
func (b standard) hang(works []*work) (best []*row, unhung []*work) {
	bySize := slices.Clone(works)
	slices.SortStableFunc(bySize, func(a, c *work) int { return cmp.Compare(c.area(), a.area()) })
	most := -1.0
	for doubles := range 4 {
		rows, left := b.fill(bySize, doubles)
		shown := 0.0
		for _, r := range rows {
			shown += r.area()
		}
		if shown > most+1e-9 {
			best, unhung, most = rows, left, shown
		}
		if len(left) == 0 {
			break
		}
	}
	best = slices.DeleteFunc(best, func(r *row) bool { return len(r.works) == 0 })
	for _, r := range best {
		b.finish(r)
	}
	return best, unhung
}

// area is that of a work with its frame, in square metres.
func (w *work) area() float64 { return w.outer().A.M() * w.outer().B.M() }

func (r *row) area() (sum float64) {
	for _, w := range r.works {
		sum += w.area()
	}
	return sum
}

// fill hangs works, the largest first, with so many walls of two rows.
func (b standard) fill(works []*work, doubles int) (rows []*row, left []*work) {
	full := b.wall - b.least
	for i, wall := range []string{"back", "left", "right"} {
		if i < 3-doubles {
			rows = append(rows, &row{wall: wall, room: full, highest: b.top - b.bottom})
			continue
		}
		lower := &row{wall: wall, room: full, low: true, double: true, highest: b.centre - b.least/2 - b.low}
		if wall == "left" { // the desk would hide it
			lower.from, lower.room = b.desk, full-b.desk
		}
		rows = append(rows, lower, &row{wall: wall, room: full, double: true, highest: b.top - b.centre - b.least/2})
	}
	if doubles < 3 {
		works = b.middle(rows[0], works)
	}
	for len(works) > 0 {
		w := works[0]
		works = works[1:]
		to := b.roomFor(rows, w)
		if to == nil {
			var out []*work
			if to, out = b.instead(rows, w); to == nil {
				left = append(left, w)
				continue
			}
			works = append(works, out...)
		}
		to.add(b, w)
	}
	slices.SortStableFunc(left, func(a, c *work) int { return cmp.Compare(c.area(), a.area()) })
	b.heavyLow(rows)
	return rows, left
}

// middle hangs the largest work that the back wall holds in its middle, and beside it pairs, the largest that are alike; what is left is
// for the other walls.
func (b standard) middle(back *row, works []*work) []*work {
	at := slices.IndexFunc(works, func(w *work) bool { return back.takes(b, w) })
	if at < 0 {
		return works
	}
	centre, rest := works[at], slices.Delete(slices.Clone(works), at, at+1)
	back.add(b, centre)
	back.set = true
	for again := 0; again < 2*len(rest); again++ { // first for pairs of one family, which is not parted then
		i, any := again%len(rest), again >= len(rest)
		a := rest[i]
		with := slices.IndexFunc(rest[i+1:], func(c *work) bool {
			apart := max(a.outer().B-c.outer().B, c.outer().B-a.outer().B)
			return (any || a.row.Family == c.row.Family) && apart <= b.alike && max(a.outer().A, c.outer().A) <= back.highest &&
				back.taken+a.outer().B+c.outer().B+apart+2*b.least <= back.room
		}) + i + 1
		if with == i {
			continue
		}
		c := rest[with]
		if a.outer().B > c.outer().B { // the narrower one at the left, where the row can begin later
			a, c = c, a
		}
		back.from += c.outer().B - a.outer().B
		back.room -= c.outer().B - a.outer().B
		back.taken += a.outer().B + c.outer().B + 2*b.least
		back.works = slices.Concat([]*work{a}, back.works, []*work{c})
		rest, again = slices.Delete(slices.Delete(rest, with, with+1), i, i+1), -1
	}
	return rest
}

// roomFor is the row that a work hangs in: where its family is, else the emptiest, a lower row before an upper one.
func (b standard) roomFor(rows []*row, w *work) (to *row) {
	family := func(r *row) bool {
		return w.row.Family != "" && slices.ContainsFunc(r.works, func(o *work) bool { return o.row.Family == w.row.Family })
	}
	for _, r := range rows {
		switch {
		case r.set || !r.takes(b, w):
		case to == nil, family(r) && !family(to):
			to = r
		case family(to) && !family(r):
		case r.room-r.taken > to.room-to.taken+b.least, r.low && !to.low && r.wall == to.wall:
			to = r
		}
	}
	return to
}

// instead is a row in which a work has room if smaller ones leave it that are less to see than the work.
func (b standard) instead(rows []*row, w *work) (*row, []*work) {
	for _, r := range rows {
		if r.set || w.outer().A > r.highest {
			continue
		}
		out, less := slices.Clone(r.works), 0.0
		slices.SortStableFunc(out, func(a, c *work) int { return cmp.Compare(a.area(), c.area()) })
		room := r.room - r.taken
		for n, o := range out {
			room, less = room+o.outer().B+b.least, less+o.area()
			if less >= w.area()-1e-9 {
				break
			}
			if room >= w.outer().B+b.least {
				out = out[:n+1]
				r.works = slices.DeleteFunc(r.works, func(o *work) bool { return slices.Contains(out, o) })
				r.taken = r.room - room
				return r, out
			}
		}
	}
	return nil, nil
}

// heavyLow changes works of two rows one above the other, until none can be changed that is heavier than the one below.
func (b standard) heavyLow(rows []*row) {
	for i := 0; i+1 < len(rows); i++ {
		lower, upper := rows[i], rows[i+1]
		if !lower.low || upper.wall != lower.wall {
			continue
		}
		for u, a := range upper.works {
			for l, c := range lower.works {
				wider := a.outer().B - c.outer().B
				if a.row.Weight > c.row.Weight && c.row.Weight > 0 && a.outer().A <= lower.highest && c.outer().A <= upper.highest &&
					lower.taken+wider <= lower.room && upper.taken-wider <= upper.room {
					upper.works[u], lower.works[l] = c, a
					upper.taken, lower.taken = upper.taken-wider, lower.taken+wider
					a = c
				}
			}
		}
	}
}

// finish sets the height of a row and puts its largest works into the middle.
func (b standard) finish(r *row) {
	highest := unit.Length(0)
	for _, w := range r.works {
		highest = max(highest, w.outer().A)
	}
	switch {
	case r.low:
		r.centre = b.centre - b.least/2 - highest/2
	case r.double:
		r.centre = b.centre + b.least/2 + highest/2
	default:
		r.centre = max(b.bottom+highest/2, min(b.centre, b.top-highest/2))
	}
	if !r.set {
		r.works = inMiddle(r.works)
	}
	total := unit.Length(0)
	for _, w := range r.works {
		total += w.outer().B
	}
	r.together = (r.room-total)/unit.Length(len(r.works)+1) > b.loose
}

// inMiddle has the largest work in the middle of a row, and works of one family side by side.
func inMiddle(works []*work) (out []*work) {
	works = slices.Clone(works)
	slices.SortStableFunc(works, func(a, c *work) int { return cmp.Compare(c.area(), a.area()) })
	var groups [][]*work // the one with the largest work first
	for _, w := range works {
		at := slices.IndexFunc(groups, func(g []*work) bool { return w.row.Family != "" && g[0].row.Family == w.row.Family })
		if at < 0 {
			groups = append(groups, []*work{w})
			continue
		}
		groups[at] = append(groups[at], w)
	}
	width := func(works []*work) (sum unit.Length) {
		for _, w := range works {
			sum += w.outer().B
		}
		return sum
	}
	var before, after []*work // of the middle, from there outwards
	for i, g := range groups {
		if i == 0 {
			out, g = g[:1], g[1:]
			for _, w := range g {
				if width(after) > width(before) {
					before = append(before, w)
				} else {
					after = append(after, w)
				}
			}
			continue
		}
		if width(after) > width(before) {
			before = append(before, g...)
		} else {
			after = append(after, g...)
		}
	}
	slices.Reverse(before)
	return slices.Concat(before, out, after)
}
