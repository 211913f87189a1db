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
	desk         unit.Length // of the left wall, from the front, that the desk stands before
	lines        []string    // of the scene, without works
}

var booths = map[unit.System]standard{
	unit.Inches: {
		sys: unit.Inches, wall: 117 * unit.Inch, top: 82 * unit.Inch, bottom: 6 * unit.Inch, centre: 58 * unit.Inch,
		least: 5 * unit.Inch, usual: 6 * unit.Inch, low: 20 * unit.Inch, loose: 10 * unit.Inch, desk: 42 * unit.Inch,
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
		least: 0.13, usual: 0.15, low: 0.5, loose: 0.25, desk: 1.05,
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
	together bool // with usual gaps in the middle, instead of evenly over the whole room
}

func (r *row) takes(b standard, w *work) bool {
	return w.outer().A <= r.highest && r.taken+w.outer().B+b.least <= r.room
}

func (r *row) add(b standard, w *work) {
	r.taken += w.outer().B + b.least
	r.works = append(r.works, w)
}

// hang finds a place for as many works as fit, the largest on the back wall. First one row a wall is tried; where that is
// too little, the walls get two rows one above the other, the right wall first and the back wall last.
func (b standard) hang(works []*work) (best []*row, unhung []*work) {
	area := func(w *work) float64 { return w.outer().A.M() * w.outer().B.M() }
	bySize := slices.Clone(works)
	slices.SortStableFunc(bySize, func(a, c *work) int { return cmp.Compare(area(c), area(a)) })
	most := -1
	for doubles := range 4 {
		rows, left := b.fill(bySize, doubles)
		if n := len(works) - len(left); n > most {
			best, unhung, most = rows, left, n
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

// fill hangs works, the largest first, with so many walls of two rows.
func (b standard) fill(works []*work, doubles int) (rows []*row, left []*work) {
	for i, wall := range []string{"back", "left", "right"} {
		full := b.wall - b.least
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
	for _, w := range works {
		var to *row
		for _, r := range rows {
			if !r.takes(b, w) {
				continue
			}
			// The back wall first; then the emptier of the others, a lower row before an upper one.
			if to == nil || to.wall != "back" && (r.room-r.taken > to.room-to.taken+b.least || r.low && !to.low && r.wall == to.wall) {
				to = r
			}
		}
		if to == nil {
			left = append(left, w)
			continue
		}
		to.add(b, w)
	}
	b.heavyLow(rows)
	return rows, left
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
	var middle []*work
	for i, w := range r.works { // largest first: each goes to the end that is the shorter one's turn
		if i%2 == 0 {
			middle = append(middle, w)
		} else {
			middle = append([]*work{w}, middle...)
		}
	}
	r.works = middle
	total := unit.Length(0)
	for _, w := range r.works {
		total += w.outer().B
	}
	r.together = (r.room-total)/unit.Length(len(r.works)+1) > b.loose
}
