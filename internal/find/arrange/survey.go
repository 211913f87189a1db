package arrange

import (
	"math"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/plan/booth"
)

// cellWidth is the width of the strips into which a wall is cut by the survey.
const cellWidth = 0.0254 / 4 // metres

// strip is a band along a wall, at a height and a distance from it: the solid angle, mean over the views, that is seen of
// each of its cells when no movable work is in the way. sum[k] is that of the first k cells.
type strip struct {
	wall      *booth.Part
	y0, y1, z float64
	sum       []float64 // past solids alone: no less than what is seen, for the bound
	open      []float64 // past wires of mesh too, to guide the search
}

// survey measures every band in which the picture of a work could hang. As the sight kernel is exact, the cells of a band
// add up to what is seen of any part of it; so the sums both guide the search and bound what can be reached.
func (h *Hall) survey() {
	h.bands()
	var past []sight.Solid
	for i := range h.solids {
		if !h.moving[i] {
			past = append(past, h.solids[i]...)
		}
	}
	solid, veiled := sight.NewCrowd(past), sight.NewCrowd(past, h.screens...)
	each(len(h.ground), func(n int) { h.measure(&h.ground[n], solid, veiled) })
}

// bands are the strips in which the picture of each member of a piece can hang in each row.
func (h *Hall) bands() {
	type key struct {
		wall      booth.ID
		y0, y1, z float64
	}
	known := map[key]int{}
	round := func(v float64) float64 { return math.Round(v*1e6) / 1e6 }
	h.of = make([][][][]int, len(h.rows))
	for r := range h.rows {
		h.of[r] = make([][][]int, len(h.pieces))
		for i, p := range h.pieces {
			h.of[r][i] = make([][]int, len(p.members))
			h.heights(r, i, func(n int, y float64) {
				m := p.members[n]
				k := key{h.rows[r].Wall, round(y - m.fh/2), round(y + m.fh/2), round(m.fz)}
				s, ok := known[k]
				if !ok {
					s = len(h.ground)
					known[k] = s
					h.ground = append(h.ground, strip{wall: h.walls[r], y0: k.y0, y1: k.y1, z: k.z})
				}
				if !slices.Contains(h.of[r][i][n], s) {
					h.of[r][i][n] = append(h.of[r][i][n], s)
				}
			})
		}
	}
}

// measure is what is seen of a strip, cell by cell, past the solids, and past wires of mesh too.
func (h *Hall) measure(s *strip, solid, veiled *sight.Crowd) {
	var g sight.Gaze
	f := s.wall.Frame.Moved(geom.Vec{Z: s.z})
	cells := int(math.Ceil(s.wall.Wall.Width/cellWidth)) + 1
	s.sum, s.open = make([]float64, cells+1), make([]float64, cells+1)
	own := func(owner int) bool { return h.plan.Parts[owner].ID == s.wall.ID }
	for k := range cells {
		face := geom.Rect(f, float64(k)*cellWidth, s.y0, float64(k+1)*cellWidth, s.y1)
		sr, open := 0.0, 0.0
		for _, eye := range h.eyes {
			sr += g.SeePast(eye, face, solid, own).SolidAngle
			if len(h.screens) > 0 {
				open += g.SeePast(eye, face, veiled, own).SolidAngle
			}
		}
		if len(h.screens) == 0 {
			open = sr
		}
		s.sum[k+1] = s.sum[k] + sr/float64(len(h.eyes))
		s.open[k+1] = s.open[k] + open/float64(len(h.eyes))
	}
}

// heights calls height with every height at which members of a piece come to hang in a row.
func (h *Hall) heights(r, i int, height func(member int, y float64)) {
	h.sample(r, i, func(at []place) {
		for n, p := range at {
			height(n, p.y)
		}
	})
}

// sample calls visit with every place that hooks let the works of a piece have in a row, wherever the row has the piece; on
// walls with hooks anywhere across, with those at both ends and in the middle. On chains places are half a spacing apart at
// least, which is no less than a cell.
func (h *Hall) sample(r, i int, visit func([]place)) {
	low, high := h.reach(i, r)
	steps := 2
	if h.walls[r].Wall.Hold == booth.Chains {
		steps = max(steps, int(math.Ceil((high-low)/(cellWidth/2))))
	}
	var at []place
	for k := range steps + 1 {
		x := low + (high-low)*float64(k)/float64(steps) + h.pieces[i].width/2
		at = h.hang(at[:0], r, i, x)
		visit(at)
	}
}

// reach is between which places the left edge of a piece can be in a row without breaking more than is broken now.
func (h *Hall) reach(i, r int) (low, high float64) {
	row := h.rows[r]
	low = row.Left - h.allowed.length
	return low, row.Left + row.Room + h.allowed.length - h.pieces[i].width
}

// at is what is seen of a member of a piece in a row between two places along the wall, at the height nearest to y.
func (h *Hall) at(r, i, n int, y, from, to float64) float64 {
	var best *strip
	for _, k := range h.of[r][i][n] {
		if s := &h.ground[k]; best == nil || math.Abs(s.y0+s.y1-2*y) < math.Abs(best.y0+best.y1-2*y) {
			best = s
		}
	}
	return best.upTo(to) - best.upTo(from)
}

// upTo is what is seen of a strip from its beginning to x, between cells in proportion.
func (s *strip) upTo(x float64) float64 {
	c := max(0, min(x/cellWidth, float64(len(s.open)-1)))
	k := min(int(c), len(s.open)-2)
	return s.open[k] + (c-float64(k))*(s.open[k+1]-s.open[k])
}
