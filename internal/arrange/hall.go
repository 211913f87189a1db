package arrange

import (
	"math"
	"slices"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
	"boothmock/internal/rules"
	"boothmock/internal/sight"
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

// member is a work of a piece, in metres from the middle of the piece's own work.
type member struct {
	part    int
	drop    float64 // of its middle below that of the piece
	w, h    float64 // with frame
	fw, fh  float64 // of the picture
	fz      float64 // of the picture before the wall
	matters float64
	weight  float64 // kg
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
	eyes    []geom.Vec
	others  []int     // works that no row placed
	allowed faults    // what is broken now and need not be better
	ground  []strip   // the survey: see survey
	of      [][][]int // of[row][piece][member] is a number in ground, or -1 where it cannot hang
	span    []float64 // by row: width of the wall
}

// counts is whether a view counts: the entrance and the aisle, by the eye of whoever walks there.
func counts(v booth.View) bool { return v.Height == 0 && !v.Bare && v.Stand.Z > 0 }

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
	for r, row := range plan.Rows {
		wall := plan.Part(row.Wall)
		h.walls, h.span = append(h.walls, wall), append(h.span, wall.Wall.Width)
		for k, id := range row.Works {
			main := number[id]
			hung := plan.Parts[main].Work.Hung
			p := piece{part: main, width: hung.X1 - hung.X0, family: plan.Parts[main].Work.Family, pinned: plan.Parts[main].Work.Pinned, row: r, at: k}
			for i := range plan.Parts { // those under it hang in the same row, middle below middle
				w := plan.Parts[i].Work
				if w == nil || w.Hung == nil || w.Hung.Wall != row.Wall || w.Hung.Row != hung.Row || i != main && slices.Contains(row.Works, plan.Parts[i].ID) ||
					math.Abs(w.Hung.X0+w.Hung.X1-hung.X0-hung.X1) > 1e-6 {
					continue
				}
				face := plan.Parts[i].Frame.Local(w.Face[0])
				p.members = append(p.members, member{
					part: i, drop: hung.Centre() - w.Hung.Centre(), w: w.Hung.X1 - w.Hung.X0, h: w.Hung.Y1 - w.Hung.Y0,
					fw: w.Width, fh: w.Height, fz: face.Z, matters: w.Matters, weight: w.Weight.Kg(),
				})
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
	}
	return h
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
	split  int     // works that hang apart from their family
}

// broken measures a layout.
func (h *hall) broken(l layout) (f faults) {
	type box struct {
		wall           booth.ID
		row            int
		x0, y0, x1, y1 float64
	}
	var boxes []box
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
			for _, m := range p.members {
				mid := x + p.width/2
				b := box{row.Wall, r, mid - m.w/2, row.Centre - m.drop - m.h/2, mid + m.w/2, row.Centre - m.drop + m.h/2}
				f.length += max(0, b.y1-wall.Top) + max(0, -b.y0) + max(0, wall.Bottom-b.y1)
				boxes = append(boxes, b)
				load[row.Wall] += m.weight
			}
		}
	}
	for _, i := range h.others {
		if w := h.plan.Parts[i].Work.Hung; w != nil {
			boxes = append(boxes, box{w.Wall, -1, w.X0, w.Y0, w.X1, w.Y1})
			load[w.Wall] += h.plan.Parts[i].Work.Weight.Kg()
		}
	}
	least := rules.Gap.In(h.plan.Rules)
	for i, a := range boxes {
		for _, b := range boxes[:i] {
			if a.wall == b.wall && (a.row != b.row) {
				dx, dy := max(a.x0-b.x1, b.x0-a.x1), max(a.y0-b.y1, b.y0-a.y1)
				f.length += max(0, least-max(dx, dy))
			}
		}
	}
	for r := range h.rows {
		if w := h.walls[r]; w.Wall.Holds > 0 {
			f.load += max(0, load[w.ID]-w.Wall.Holds.Kg())
			load[w.ID] = 0 // counted once
		}
	}
	f.split = h.split(l)
	return f
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
	return f.length <= h.allowed.length+hair && f.load <= h.allowed.load+hair && f.split <= h.allowed.split
}

// fine is what breaking rules costs a layout in the search, so that it finds its way back.
func (h *hall) fine(l layout) float64 {
	f := h.broken(l)
	return 2*max(0, f.length-h.allowed.length) + 0.2*max(0, f.load-h.allowed.load) + 0.05*float64(max(0, f.split-h.allowed.split))
}
