package arrange

import (
	"math"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// layout is which pieces hang in each row, from left to right, by their numbers; and last, which of them wait.
type layout [][]int

func (l layout) clone() layout {
	out := make(layout, len(l))
	for i := range l {
		out[i] = slices.Clone(l[i])
	}
	return out
}

func (l layout) copy(from layout) {
	for i := range l {
		l[i] = append(l[i][:0], from[i]...)
	}
}

// piece is a work that a row places, with the works that hang under it.
type piece struct {
	part    int // number among the plan's parts
	width   float64
	members []member
	family  int  // number of its family among those of the booth; 0: none
	kin     int  // the same, or where the booth has no families, of its medium
	stays   bool // it cannot wait: it is pinned, or others hang under it
	pinned  bool
	row     int // where it hangs now; the number after the last row's while it waits
	at      int
}

// member is a work of a piece: its own one first, then those that hang under one before them. Lengths are metres.
type member struct {
	part    int
	under   int     // number of the member that it hangs under; -1 for the piece's own work
	gap     float64 // that the scene wants between the two
	off     float64 // of its middle from that work's, or from the piece's: of a part of a work
	rise    float64 // of its middle over the row's
	w, h    float64 // with frame
	fw, fh  float64 // of the picture
	fz      float64 // of the picture before the wall
	matters float64
	weight  float64 // kg
	fixing  booth.Fixing
	tag     box // its price tag, from its middle; none: a point
}

// box is a rectangle on a wall, in metres.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) moved(x, y float64) box { return box{b.x0 + x, b.y0 + y, b.x1 + x, b.y1 + y} }

// over is by how much two rectangles overlap, the lesser way.
func (b box) over(o box) float64 {
	return max(0, min(min(b.x1, o.x1)-max(b.x0, o.x0), min(b.y1, o.y1)-max(b.y0, o.y0)))
}

// tagOf is the price tag of a work.
func tagOf(work booth.ID) booth.ID { return booth.ID("tag/" + string(work)[len("work/"):]) }

// tag is where the price tag of a work hangs, from the middle of the work. It has a point there if there is none.
func (h *Hall) tag(part *booth.Part) (b box) {
	hung := part.Work.Hung
	t, wall := h.plan.Part(tagOf(part.ID)), h.plan.Part(hung.Wall)
	if t == nil {
		return b
	}
	at := wall.Frame.Local(t.Frame.Origin)
	x, y := at.X-(hung.X0+hung.X1)/2, at.Y-hung.Centre()
	up, across := h.plan.Tag.A.M()/2, h.plan.Tag.B.M()/2
	b = box{x - across, y - up, x + across, y + up}
	h.hangs = max(h.hangs, (hung.Y0-hung.Y1)/2-b.y0, b.x1-(hung.X1-hung.X0)/2)
	return b
}

// Hall is the booth as the search sees it.
type Hall struct {
	plan    *booth.Plan
	rows    []booth.Row
	walls   []*booth.Part // by row
	margin  float64       // house rules, in metres: least space at a wall's end, between neighbours, and how far a work may hang off its height
	usual   float64
	level   float64
	pieces  []piece
	moving  []bool // by part: it belongs to a piece, as its tag does
	solids  [][]sight.Solid
	screens []sight.Screen // wires of mesh and chains
	eyes    []geom.Vec
	others  []int       // works that no row placed
	aside   []outline   // those of them that hang, on the walls of rows
	walled  []int       // by row: the first row on its wall
	laden   []float64   // by row: kg that others put on its wall
	allowed faults      // what is broken now and need not be better
	covered float64     // metres of wall that works of rows take now
	hangs   float64     // metres by which tags stand out from their works at most
	ground  []strip     // the survey: see survey
	of      [][][][]int // of[row][piece][member] are numbers in ground: of the heights at which it can come to hang
	span    []float64   // by row: width of the wall
	settled [][]settled // by row and piece
}

// counts is whether a view counts: that of somebody who passes along an aisle or stands before the booth.
func counts(v booth.View) bool { return v.Passing }

// newHall makes a plan ready for the search. The spares hang in its rows too, so that their measures are known, and wait.
func newHall(plan *booth.Plan, spares ...booth.ID) *Hall {
	h := &Hall{plan: plan, rows: plan.Rows, moving: make([]bool, len(plan.Parts))}
	h.margin, h.usual, h.level = rules.WallMargin.In(plan.Rules), rules.Gap.In(plan.Rules), rules.LevelSlack.In(plan.Rules)
	number := map[booth.ID]int{}
	for i := range plan.Parts {
		number[plan.Parts[i].ID] = i
	}
	for _, v := range plan.Views {
		if counts(v) && len(plan.Eyes) > 0 {
			h.eyes = append(h.eyes, v.From(plan.Eyes[0]))
		}
	}
	h.rowsOf(number, spares)
	for i := range plan.Parts {
		part := &plan.Parts[i]
		if parent, ok := number[part.Parent]; ok && h.moving[parent] {
			h.moving[i] = true // a tag goes with its work
		} else if part.Work != nil && !h.moving[i] {
			h.others = append(h.others, i)
		}
		var s []sight.Solid
		if !part.SeeThrough && !part.Moving { // visitors come and go
			for _, c := range part.Solids {
				s = append(s, sight.NewSolid(c, i))
			}
		}
		h.solids = append(h.solids, s)
		for _, w := range part.Screen {
			h.screens = append(h.screens, sight.NewScreen(w, i))
		}
	}
	h.settle()
	h.putAside()
	h.related()
	return h
}

// rowsOf makes the pieces of all rows, with what hangs under them.
func (h *Hall) rowsOf(number map[booth.ID]int, spares []booth.ID) {
	plan := h.plan
	below := map[booth.ID][]int{} // works by the one that they hang under, or that they are a further part of
	for i := range plan.Parts {
		switch w := plan.Parts[i].Work; {
		case w == nil || w.Hung == nil:
		case w.Part > 1:
			below[w.Whole.ID] = append(below[w.Whole.ID], i)
		case w.Hung.Under != "":
			below[w.Hung.Under] = append(below[w.Hung.Under], i)
		}
	}
	for r, row := range plan.Rows {
		wall := plan.Part(row.Wall)
		h.walls, h.span = append(h.walls, wall), append(h.span, wall.Wall.Width)
		for k, id := range row.Works {
			main := number[id]
			hung, work := plan.Parts[main].Work.Hung, plan.Parts[main].Work
			if work.Whole != nil {
				hung = work.Whole.Work.Hung
			}
			p := piece{part: main, width: hung.X1 - hung.X0, pinned: work.Pinned, row: r, at: k}
			for _, i := range h.stack(main, below) {
				p.members = append(p.members, h.member(p.members, i))
				h.moving[i] = true
			}
			p.stays = p.pinned || len(p.members) > 1
			if slices.Contains(spares, id) {
				p.row = len(plan.Rows)
			} else {
				h.covered += p.width
			}
			h.pieces = append(h.pieces, p)
		}
	}
}

// putAside keeps what hangs on the walls of rows and is in none.
func (h *Hall) putAside() {
	h.walled, h.laden = make([]int, len(h.rows)), make([]float64, len(h.rows))
	for r := range h.rows {
		h.walled[r] = slices.IndexFunc(h.rows, func(o booth.Row) bool { return o.Wall == h.rows[r].Wall })
	}
	for _, i := range h.others {
		w := h.plan.Parts[i].Work
		if w.Hung == nil {
			continue
		}
		for r := range h.rows {
			if h.rows[r].Wall == w.Hung.Wall {
				h.laden[r] += w.Weight.Kg()
			}
		}
		at := box{w.Hung.X0, w.Hung.Y0, w.Hung.X1, w.Hung.Y1}
		h.aside = append(h.aside, outline{w.Hung.Wall, -1, -1, 0, at, h.tag(&h.plan.Parts[i]).moved((at.x0+at.x1)/2, w.Hung.Centre())})
	}
}

// related numbers the families; where no work states one, works of one medium are each other's kin.
func (h *Hall) related() {
	number := func(of func(*booth.Work) string) (out []int) {
		known := map[string]int{"": 0}
		for _, p := range h.pieces {
			name := of(h.plan.Parts[p.part].Work)
			if _, ok := known[name]; !ok {
				known[name] = len(known)
			}
			out = append(out, known[name])
		}
		return out
	}
	family := number(func(w *booth.Work) string { return w.Family })
	kin := family
	if !slices.ContainsFunc(family, func(f int) bool { return f > 0 }) {
		kin = number(func(w *booth.Work) string { return w.Medium })
	}
	for i := range h.pieces {
		h.pieces[i].family, h.pieces[i].kin = family[i], kin[i]
	}
}

// stack are a work and those that hang under it, directly or not, an upper one before the one under it.
func (h *Hall) stack(main int, below map[booth.ID][]int) []int {
	all := []int{main}
	for k := 0; k < len(all); k++ {
		all = append(all, below[h.plan.Parts[all[k]].ID]...)
	}
	return all
}

// member is a part as a member of a piece whose earlier members are there.
func (h *Hall) member(earlier []member, part int) member {
	p := &h.plan.Parts[part]
	w, hung := p.Work, p.Work.Hung
	m := member{
		part: part, under: -1, w: hung.X1 - hung.X0, h: hung.Y1 - hung.Y0, fixing: w.Fixing,
		fw: w.Width, fh: w.Height, fz: p.Frame.Local(w.Face[0]).Z, matters: w.Matters, weight: w.Weight.Kg(), tag: h.tag(p),
	}
	if hung.Under != "" {
		m.under = slices.IndexFunc(earlier, func(e member) bool { return h.plan.Parts[e.part].ID == hung.Under })
	}
	asked := (hung.X0+hung.X1)/2 - hung.Moved
	switch {
	case m.under >= 0:
		above := h.plan.Part(hung.Under).Work
		m.gap = above.Hung.Y0 - (hung.Y1 - hung.Raised)
		if w.Whole != nil || above.Whole != nil {
			m.off = asked - (above.Hung.X0+above.Hung.X1)/2
		}
	case w.Whole != nil:
		all := w.Whole.Work.Hung
		m.off = asked - ((all.X0+all.X1)/2 - all.Moved)
		if rise := hung.Centre() - hung.Raised - (all.Centre() - all.Raised); math.Abs(rise) > 1e-6 { // of parts that are stacked
			m.rise = rise
		}
	}
	return m
}

func (h *Hall) viewNames() (names []string) {
	for _, v := range h.plan.Views {
		if counts(v) {
			names = append(names, v.Name)
		}
	}
	return names
}

// present is the layout as it is.
func (h *Hall) present() layout {
	l := make(layout, len(h.rows)+1)
	for i, p := range h.pieces {
		l[p.row] = append(l[p.row], i)
	}
	return l
}

// pinnedStay is whether works that must stay do: pinned ones in their place, and those with others under them on a wall.
func (h *Hall) pinnedStay(l layout) bool {
	for i := range h.pieces {
		if p := &h.pieces[i]; p.pinned && (p.at >= len(l[p.row]) || l[p.row][p.at] != i) {
			return false
		}
	}
	for _, i := range l[len(h.rows)] {
		if h.pieces[i].stays {
			return false
		}
	}
	return true
}
