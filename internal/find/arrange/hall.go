package arrange

import (
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// layout is which pieces hang in each row, from left to right, by their numbers.
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
	family  string
	pinned  bool
	row     int // where it hangs now
	at      int
}

// member is a work of a piece: its own one first, then those that hang under one before them. Lengths are metres.
type member struct {
	part    int
	under   int     // number of the member that it hangs under; -1 for the piece's own work
	gap     float64 // that the scene wants between the two
	w, h    float64 // with frame
	fw, fh  float64 // of the picture
	fz      float64 // of the picture before the wall
	matters float64
	weight  float64 // kg
	fixing  booth.Fixing
}

// hall is the booth as the search sees it.
type hall struct {
	plan    *booth.Plan
	rows    []booth.Row
	walls   []*booth.Part // by row
	margin  float64
	pieces  []piece
	moving  []bool // by part: it belongs to a piece, as its tag does
	solids  [][]sight.Solid
	screens []sight.Screen // wires of mesh and chains
	eyes    []geom.Vec
	others  []int       // works that no row placed
	allowed faults      // what is broken now and need not be better
	ground  []strip     // the survey: see survey
	of      [][][][]int // of[row][piece][member] are numbers in ground: of the heights at which it can come to hang
	span    []float64   // by row: width of the wall
	settled [][]settled // by row and piece
}

// counts is whether a view counts: that of somebody who passes along an aisle or stands before the booth.
func counts(v booth.View) bool { return v.Passing }

func newHall(plan *booth.Plan) *hall {
	h := &hall{plan: plan, rows: plan.Rows, margin: rules.WallMargin.In(plan.Rules), moving: make([]bool, len(plan.Parts))}
	number := map[booth.ID]int{}
	for i := range plan.Parts {
		number[plan.Parts[i].ID] = i
	}
	for _, v := range plan.Views {
		if counts(v) && len(plan.Eyes) > 0 {
			h.eyes = append(h.eyes, v.From(plan.Eyes[0]))
		}
	}
	below := map[booth.ID][]int{} // works by the one that they hang under
	for i := range plan.Parts {
		if w := plan.Parts[i].Work; w != nil && w.Hung != nil && w.Hung.Under != "" {
			below[w.Hung.Under] = append(below[w.Hung.Under], i)
		}
	}
	for r, row := range plan.Rows {
		wall := plan.Part(row.Wall)
		h.walls, h.span = append(h.walls, wall), append(h.span, wall.Wall.Width)
		for k, id := range row.Works {
			main := number[id]
			hung := plan.Parts[main].Work.Hung
			p := piece{part: main, width: hung.X1 - hung.X0, family: plan.Parts[main].Work.Family, pinned: plan.Parts[main].Work.Pinned, row: r, at: k}
			for _, i := range h.stack(main, below) {
				p.members = append(p.members, h.member(p.members, i))
				h.moving[i] = true
			}
			h.pieces = append(h.pieces, p)
		}
	}
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
	return h
}

// stack are a work and those that hang under it, directly or not, an upper one before the one under it.
func (h *hall) stack(main int, below map[booth.ID][]int) []int {
	all := []int{main}
	for k := 0; k < len(all); k++ {
		all = append(all, below[h.plan.Parts[all[k]].ID]...)
	}
	return all
}

// member is a part as a member of a piece whose earlier members are there.
func (h *hall) member(earlier []member, part int) member {
	p := &h.plan.Parts[part]
	w, hung := p.Work, p.Work.Hung
	m := member{
		part: part, under: -1, w: hung.X1 - hung.X0, h: hung.Y1 - hung.Y0, fixing: w.Fixing,
		fw: w.Width, fh: w.Height, fz: p.Frame.Local(w.Face[0]).Z, matters: w.Matters, weight: w.Weight.Kg(),
	}
	if hung.Under != "" {
		m.under = slices.IndexFunc(earlier, func(e member) bool { return h.plan.Parts[e.part].ID == hung.Under })
	}
	if m.under >= 0 {
		m.gap = h.plan.Part(hung.Under).Work.Hung.Y0 - (hung.Y1 - hung.Raised)
	}
	return m
}

func (h *hall) viewNames() (names []string) {
	for _, v := range h.plan.Views {
		if counts(v) {
			names = append(names, v.Name)
		}
	}
	return names
}

// present is the layout as it is.
func (h *hall) present() layout {
	l := make(layout, len(h.rows))
	for i, p := range h.pieces {
		l[p.row] = append(l[p.row], i)
	}
	return l
}

func (h *hall) pinnedStay(l layout) bool {
	for i, p := range h.pieces {
		if p.pinned && (p.at >= len(l[p.row]) || l[p.row][p.at] != i) {
			return false
		}
	}
	return true
}

// places are the left edges of a row's pieces.
func (h *hall) places(r int, works []int) []float64 {
	widths := make([]float64, len(works))
	for k, i := range works {
		widths[k] = h.pieces[i].width
	}
	return h.rows[r].Spread(widths)
}

// faults is how far the house rules are broken, rule by rule. None may be broken more than it is now.
type faults struct {
	length float64 // metres: rows too wide, works too high or low, too near each other
	load   float64 // kg more than walls hold
	unheld int     // works that no hook holds
	split  int     // works that hang apart from their family
}

// outline is a work on its wall.
type outline struct {
	wall           booth.ID
	row, piece     int     // -1 for a work that no row placed
	least          float64 // metres of clear space to the next work of its row
	x0, y0, x1, y1 float64
}

// broken measures a layout, with every work where its hooks let it hang.
func (h *hall) broken(l layout) (f faults) {
	all := make([]outline, 0, len(h.plan.Parts))
	var at []place
	load := map[booth.ID]float64{}
	for r, works := range l {
		row, wall := h.rows[r], h.walls[r].Wall
		gap := row.Least
		if row.Gap >= 0 {
			gap = row.Gap
		}
		need := gap * float64(len(works)-1)
		for _, i := range works {
			need += h.pieces[i].width
		}
		least := max(0, h.margin-row.Left) + max(0, h.margin-(h.span[r]-row.Left-row.Room))
		f.length += max(0, need-(row.Room-least))
		for k, x := range h.places(r, works) {
			p := &h.pieces[works[k]]
			at = h.hang(at[:0], r, works[k], x+p.width/2)
			for n, m := range p.members {
				b := outline{row.Wall, r, works[k], gap, at[n].x - m.w/2, at[n].y - m.h/2, at[n].x + m.w/2, at[n].y + m.h/2}
				f.length += high(wall, b.y0, b.y1)
				all = append(all, b)
				load[row.Wall] += m.weight
				if !at[n].held {
					f.unheld++
				}
			}
		}
	}
	for _, i := range h.others {
		if w := h.plan.Parts[i].Work.Hung; w != nil {
			all = append(all, outline{w.Wall, -1, -1, 0, w.X0, w.Y0, w.X1, w.Y1})
			load[w.Wall] += h.plan.Parts[i].Work.Weight.Kg()
		}
	}
	f.length += h.crowded(all)
	for r := range h.rows {
		if w := h.walls[r]; w.Wall.Holds > 0 {
			f.load += max(0, load[w.ID]-w.Wall.Holds.Kg())
			load[w.ID] = 0 // counted once
		}
	}
	f.split = h.split(l)
	return f
}

// high is how far a work between two heights is out of its wall's.
func high(w *booth.Wall, y0, y1 float64) float64 {
	return max(0, y1-w.Top) + max(0, -y0) + max(0, w.Bottom-y1)
}

// crowded is how much clear space is missing between works, in metres. Works of one row may be as near as the row says;
// chains can bring them nearer. Heights count to within the level tolerance.
func (h *hall) crowded(all []outline) (missing float64) {
	usual, level := rules.Gap.In(h.plan.Rules), rules.LevelSlack.In(h.plan.Rules)
	for i, a := range all {
		for _, b := range all[:i] {
			if a.wall != b.wall || a.row < 0 && b.row < 0 || a.row == b.row && a.piece == b.piece {
				continue
			}
			least := usual
			if a.row == b.row {
				least = min(least, a.least)
			}
			dx, dy := max(a.x0-b.x1, b.x0-a.x1), max(a.y0-b.y1, b.y0-a.y1)
			missing += max(0, min(least-dx, least-level-dy))
		}
	}
	return missing
}

// split counts works whose right-hand neighbour is not of their family although some of it hangs elsewhere.
func (h *hall) split(l layout) int {
	kin := map[string]int{}
	for _, p := range h.pieces {
		if p.family != "" {
			kin[p.family]++
		}
	}
	apart := 0
	for _, n := range kin {
		apart += n - 1
	}
	for _, works := range l {
		for k := 1; k < len(works); k++ {
			if f := h.pieces[works[k]].family; f != "" && f == h.pieces[works[k-1]].family {
				apart--
			}
		}
	}
	return apart
}

const hair = 1e-9

// keeps is whether no rule is broken more than it is now.
func (h *hall) keeps(l layout) bool {
	f := h.broken(l)
	return f.length <= h.allowed.length+hair && f.load <= h.allowed.load+hair && f.unheld <= h.allowed.unheld && f.split <= h.allowed.split
}

// fine is what breaking rules costs a layout in the search, so that it finds its way back.
func (h *hall) fine(l layout) float64 {
	f := h.broken(l)
	return 2*max(0, f.length-h.allowed.length) + 0.2*max(0, f.load-h.allowed.load) + 0.05*float64(max(0, f.split-h.allowed.split)+max(0, f.unheld-h.allowed.unheld))
}
