package arrange

import (
	"math"

	"boothmock/internal/booth"
	"boothmock/internal/geom"
	"boothmock/internal/sight"
)

// cellWidth is the width of the strips into which a wall is cut by the survey.
const cellWidth = 0.0254 / 4 // metres

// strip is a band along a wall, at a height and a distance from it: the solid angle, mean over the views, that is seen of
// each of its cells when no movable work is in the way. sum[k] is that of the first k cells.
type strip struct {
	wall      *booth.Part
	y0, y1, z float64
	sum       []float64
}

// survey measures every band in which the picture of a work could hang. As the sight kernel is exact, the cells of a band
// add up to what is seen of any part of it; so the sums both guide the search and bound what can be reached.
func (h *hall) survey() {
	type key struct {
		wall      booth.ID
		y0, y1, z float64
	}
	known := map[key]int{}
	round := func(v float64) float64 { return math.Round(v*1e6) / 1e6 }
	h.of = make([][][]int, len(h.rows))
	for r := range h.rows {
		h.of[r] = make([][]int, len(h.pieces))
		for i, p := range h.pieces {
			for _, m := range p.members {
				mid := h.rows[r].Centre - m.drop
				k := key{h.rows[r].Wall, round(mid - m.fh/2), round(mid + m.fh/2), round(m.fz)}
				n, ok := known[k]
				if !ok {
					n = len(h.ground)
					known[k] = n
					h.ground = append(h.ground, strip{wall: h.walls[r], y0: k.y0, y1: k.y1, z: k.z})
				}
				h.of[r][i] = append(h.of[r][i], n)
			}
		}
	}
	past := map[booth.ID][]sight.Solid{}
	for r := range h.rows {
		id := h.rows[r].Wall
		if _, ok := past[id]; ok {
			continue
		}
		past[id] = []sight.Solid{}
		for i := range h.solids {
			if !h.moving[i] && h.plan.Parts[i].ID != id {
				past[id] = append(past[id], h.solids[i]...)
			}
		}
	}
	each(len(h.ground), func(n int) {
		var g sight.Gaze
		s := &h.ground[n]
		f := s.wall.Frame.Moved(geom.Vec{Z: s.z})
		cells := int(math.Ceil(s.wall.Wall.Width/cellWidth)) + 1
		s.sum = make([]float64, cells+1)
		for k := range cells {
			face := geom.Rect(f, float64(k)*cellWidth, s.y0, float64(k+1)*cellWidth, s.y1)
			sr := 0.0
			for _, eye := range h.eyes {
				sr += g.See(eye, face, past[s.wall.ID], -1).SolidAngle
			}
			s.sum[k+1] = s.sum[k] + sr/float64(len(h.eyes))
		}
	})
}

// upTo is what is seen of a strip from its beginning to x, between cells in proportion.
func (s *strip) upTo(x float64) float64 {
	c := max(0, min(x/cellWidth, float64(len(s.sum)-1)))
	k := min(int(c), len(s.sum)-2)
	return s.sum[k] + (c-float64(k))*(s.sum[k+1]-s.sum[k])
}

// estimate is the score of the works in rows, as if they never hid each other.
func (h *hall) estimate(l layout) float64 {
	total := 0.0
	for r, works := range l {
		for k, x := range h.places(r, works) {
			i := works[k]
			p := &h.pieces[i]
			for n, m := range p.members {
				s := &h.ground[h.of[r][i][n]]
				left := x + (p.width-m.fw)/2
				total += m.matters * (s.upTo(left+m.fw) - s.upTo(left))
			}
		}
	}
	return total
}
