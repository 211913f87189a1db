package arrange

import (
	"math"

	"boothmock/internal/plan/booth"
)

// faults is how far the house rules are broken, rule by rule. None may be broken more than it is now.
type faults struct {
	length float64 // metres: rows too wide, works too high or low, too near each other
	load   float64 // kg more than walls hold
	unheld int     // works that no hook holds
	split  int     // works that hang apart from their family
}

// outline is a work on its wall.
type outline struct {
	wall       booth.ID
	row, piece int     // -1 for a work that no row placed
	least      float64 // metres of clear space to the next work of its row
	box
	tag box
}

// attempt is a layout with what the score and the rules need of it kept row by row, so that a change of two rows works out
// only these.
type attempt struct {
	h       *Hall
	l       layout
	rows    []filled
	missing [][]float64 // by two rows, the later one first: metres of clear space that are missing between their works
	aside   []float64   // by row: the same to works that no row placed
	work    int         // works hung and pairs of them compared so far
	widths  []float64   // these three are kept to be used again
	at      []place
	known   []bool
}

// filled is a row with its works where their hooks let them hang.
type filled struct {
	all     []outline
	seen    float64 // steradians times what each work matters, as if works never hid each other
	length  float64 // metres that it is too wide, or its works too high or low
	kg      float64
	unheld  int
	covered float64 // metres of wall that its works take
	askew   float64 // metres from the middle of its room to that of its works, by their area
	uneven  float64 // metres by which works differ in height and width from those that mirror them in the row, and by half in height from their neighbours
}

// begin works out a layout.
func (h *Hall) begin(l layout) *attempt {
	n := len(h.rows)
	a := &attempt{h: h, l: l.clone(), rows: make([]filled, n), missing: make([][]float64, n), aside: make([]float64, n), known: make([]bool, len(h.pieces)+1)}
	for r := range n {
		a.missing[r] = make([]float64, r+1)
	}
	for r := range n {
		a.fill(r)
	}
	return a
}

// fill works out a row again, and what is missing between it and the others.
func (a *attempt) fill(r int) {
	if r >= len(a.rows) { // those that wait hang nowhere
		return
	}
	a.hang(r)
	for q := range a.rows {
		if a.h.walled[q] == a.h.walled[r] {
			hi, lo := max(q, r), min(q, r)
			a.missing[hi][lo] = a.crowded(a.rows[hi].all, a.rows[lo].all)
		}
	}
	a.aside[r] = a.crowded(a.rows[r].all, a.h.aside)
}

// hang puts the works of a row where their hooks let them hang.
func (a *attempt) hang(r int) {
	h, f, works := a.h, &a.rows[r], a.l[r]
	row, wall := h.rows[r], h.walls[r].Wall
	*f = filled{all: f.all[:0]}
	gap := row.Least
	if row.Gap >= 0 {
		gap = row.Gap
	}
	a.widths = a.widths[:0]
	for _, i := range works {
		a.widths = append(a.widths, h.pieces[i].width)
		f.covered += h.pieces[i].width
	}
	least := max(0, h.margin-row.Left) + max(0, h.margin-(h.span[r]-row.Left-row.Room))
	f.length = max(0, f.covered+gap*float64(len(works)-1)-(row.Room-least))
	area, moment := 0.0, 0.0
	row.SpreadIn(a.widths)
	for k, i := range works {
		p := &h.pieces[i]
		a.at = h.hang(a.at[:0], r, i, a.widths[k]+p.width/2)
		for n := range p.members {
			m, at := &p.members[n], a.at[n]
			b := outline{row.Wall, r, i, gap, box{at.x - m.w/2, at.y - m.h/2, at.x + m.w/2, at.y + m.h/2}, m.tag.moved(at.x, at.y)}
			f.length += high(wall, b.y0, b.y1)
			f.all = append(f.all, b)
			f.kg += m.weight
			if !at.held {
				f.unheld++
			}
			if h.of != nil { // before the survey nothing is known of what is seen
				f.seen += m.matters * h.at(r, i, n, at.y, at.x-m.fw/2, at.x+m.fw/2)
			}
			area += m.w * m.h
			moment += m.w * m.h * (at.x - row.Left - row.Room/2)
		}
	}
	if area > 0 {
		f.askew = math.Abs(moment / area)
	}
	for k := range works {
		p, o := &h.pieces[works[k]], &h.pieces[works[len(works)-1-k]]
		if k < len(works)/2 {
			f.uneven += math.Abs(p.members[0].h-o.members[0].h) + math.Abs(p.width-o.width)
		}
		if k > 0 {
			f.uneven += math.Abs(p.members[0].h-h.pieces[works[k-1]].members[0].h) / 2
		}
	}
	a.work += len(f.all)
}

// high is how far a work between two heights is out of its wall's.
func high(w *booth.Wall, y0, y1 float64) float64 {
	return max(0, y1-w.Top) + max(0, -y0) + max(0, w.Bottom-y1)
}

// crowded is how much clear space is missing between works of two rows of a wall, or within one, in metres. Works of one row
// may be as near as the row says; chains can bring them nearer. Heights count to within the level tolerance.
func (a *attempt) crowded(all, others []outline) (missing float64) {
	usual, level := a.h.usual, a.h.level
	one := len(all) > 0 && len(others) > 0 && &all[0] == &others[0]
	for i := range all {
		p := &all[i]
		if one {
			others = all[:i]
		}
		for k := range others {
			q := &others[k]
			if p.wall != q.wall || p.row == q.row && p.piece == q.piece {
				continue
			}
			least := usual
			if p.row == q.row {
				least = min(least, p.least)
			}
			dx, dy := max(p.x0-q.x1, q.x0-p.x1), max(p.y0-q.y1, q.y0-p.y1)
			missing += max(0, min(least-dx, least-level-dy))
			if max(dx, dy) < 2*a.h.hangs { // tags may be near, but not over each other or a work
				missing += p.tag.over(q.box) + q.tag.over(p.box) + p.tag.over(q.tag)
			}
		}
		a.work += len(others)
	}
	return missing
}

// take makes two rows as they are in another attempt.
func (a *attempt) take(from *attempt, changed [2]int) {
	for _, r := range changed {
		a.l[r] = append(a.l[r][:0], from.l[r]...)
		if r == len(a.rows) {
			continue
		}
		all := append(a.rows[r].all[:0], from.rows[r].all...)
		a.rows[r] = from.rows[r]
		a.rows[r].all = all
		a.aside[r] = from.aside[r]
		copy(a.missing[r], from.missing[r])
		for q := r + 1; q < len(a.rows); q++ {
			a.missing[q][r] = from.missing[q][r]
		}
	}
}

// faults is how far the layout breaks the rules.
func (a *attempt) faults() (f faults) {
	h := a.h
	for r := range a.rows {
		f.length += a.rows[r].length + a.aside[r]
		for _, m := range a.missing[r] {
			f.length += m
		}
		f.unheld += a.rows[r].unheld
		if wall := h.walls[r].Wall; h.walled[r] == r && wall.Holds > 0 { // a wall counts once
			kg := h.laden[r]
			for q := range a.rows {
				if h.walled[q] == r {
					kg += a.rows[q].kg
				}
			}
			f.load += max(0, kg-wall.Holds.Kg())
		}
	}
	f.split = a.split(func(p *piece) int { return p.family })
	return f
}

// seen is the score, as if works never hid each other.
func (a *attempt) seen() (sum float64) {
	for r := range a.rows {
		sum += a.rows[r].seen
	}
	return sum
}

// split counts works that hang with none of their family at their left although some of it hangs elsewhere.
func (a *attempt) split(family func(*piece) int) (apart int) {
	clear(a.known)
	for _, works := range a.l[:len(a.rows)] {
		before := 0
		for _, i := range works {
			f := family(&a.h.pieces[i])
			if f > 0 && a.known[f] && f != before {
				apart++
			}
			a.known[f], before = true, f
		}
	}
	return apart
}

const hair = 1e-9

// within is whether no rule is broken more than is allowed.
func (f faults) within(allowed faults) bool {
	return f.length <= allowed.length+hair && f.load <= allowed.load+hair && f.unheld <= allowed.unheld && f.split <= allowed.split
}

// fine is what breaking rules costs in the search, in steradians, so that it finds its way back.
func (f faults) fine(allowed faults) float64 {
	return 2*max(0, f.length-allowed.length) + 0.2*max(0, f.load-allowed.load) + 0.05*float64(max(0, f.split-allowed.split)+max(0, f.unheld-allowed.unheld))
}

// broken is how far a layout breaks the rules.
func (h *Hall) broken(l layout) faults { return h.begin(l).faults() }

// keeps is whether a layout breaks no rule more than now.
func (h *Hall) keeps(l layout) bool { return h.broken(l).within(h.allowed) }

// places are the left edges of a row's pieces.
func (h *Hall) places(r int, works []int) []float64 {
	widths := make([]float64, len(works))
	for k, i := range works {
		widths[k] = h.pieces[i].width
	}
	return h.rows[r].Spread(widths)
}
