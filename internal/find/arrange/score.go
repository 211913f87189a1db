package arrange

import (
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/plan/booth"
)

// Score is what visitors see of the works of a booth, in steradians: the mean, over the views from the entrance and the
// aisle by the usual visitor's eye, of the sum over works of what each matters times the solid angle that is seen of it.
// Visitors who stand in the scene do not hide anything; wires of mesh do, as in the checks. by is each work's own part, in the order of the plan's parts.
func Score(plan *booth.Plan) (total float64, by map[booth.ID]float64) {
	h := newHall(plan)
	by = map[booth.ID]float64{}
	if len(h.eyes) == 0 {
		return 0, by
	}
	var g sight.Gaze
	crowd := sight.NewCrowd(slices.Concat(h.solids...), h.screens...)
	for i := range plan.Parts {
		w := plan.Parts[i].Work
		if w == nil {
			continue
		}
		sr := h.seenPast(&g, i, w.Face, crowd, wallOf(w)) * w.Matters
		by[plan.Parts[i].ID] = sr
		total += sr
	}
	return total, by
}

func wallOf(w *booth.Work) booth.ID {
	if w.Hung == nil {
		return ""
	}
	return w.Hung.Wall
}

// seen is the mean solid angle that the views see of a face past the solids; the wall that it hangs on does not hide it, and
// wires hide nothing here: for a bound, that is on the safe side.
func (h *Hall) seen(g *sight.Gaze, part int, face geom.Polygon, solids [][]sight.Solid, wall booth.ID) float64 {
	var past []sight.Solid
	for k := range solids {
		if h.plan.Parts[k].ID != wall {
			past = append(past, solids[k]...)
		}
	}
	sum := 0.0
	for _, eye := range h.eyes {
		sum += g.See(eye, face, past, part).SolidAngle
	}
	return sum / float64(len(h.eyes))
}

// seenPast is the same past a crowd, wires of mesh and chains included, as the checks see it.
func (h *Hall) seenPast(g *sight.Gaze, part int, face geom.Polygon, crowd *sight.Crowd, wall booth.ID) float64 {
	skip := func(owner int) bool { return owner == part || h.plan.Parts[owner].ID == wall }
	sum := 0.0
	for _, eye := range h.eyes {
		sum += g.SeePast(eye, face, crowd, skip).SolidAngle
	}
	return sum / float64(len(h.eyes))
}

// exact is the score of a layout, by the works themselves moved to their places.
func (h *Hall) exact(l layout) float64 {
	if len(h.eyes) == 0 {
		return 0
	}
	solids := append([][]sight.Solid{}, h.solids...)
	faces := map[int]geom.Polygon{}
	walls := map[int]booth.ID{}
	var at []place
	for r, works := range l[:len(h.rows)] {
		for k, x := range h.places(r, works) {
			p := &h.pieces[works[k]]
			at = h.hang(at[:0], r, works[k], x+p.width/2)
			for n, m := range p.members {
				part := &h.plan.Parts[m.part]
				to := h.walls[r].Frame.Moved(geom.Vec{X: at[n].x, Y: at[n].y})
				faces[m.part], walls[m.part] = carry(part.Work.Face, part.Frame, to), h.rows[r].Wall
				var moved []sight.Solid
				for _, c := range part.Solids {
					c.Corners = carry(c.Corners, part.Frame, to)
					moved = append(moved, sight.NewSolid(c, m.part))
				}
				solids[m.part] = moved
			}
		}
	}
	for i := range solids { // tags are small and hang beside their works: left out, wherever those go
		if h.moving[i] && faces[i] == nil {
			solids[i] = nil
		}
	}
	var g sight.Gaze
	crowd := sight.NewCrowd(slices.Concat(solids...), h.screens...)
	total := 0.0
	for i := range h.plan.Parts {
		w := h.plan.Parts[i].Work
		if w == nil || h.moving[i] && faces[i] == nil { // it waits
			continue
		}
		face, wall := w.Face, wallOf(w)
		if f, ok := faces[i]; ok {
			face, wall = f, walls[i]
		}
		total += h.seenPast(&g, i, face, crowd, wall) * w.Matters
	}
	return total
}

// carry moves points with a frame.
func carry[P ~[]geom.Vec](points P, from, to geom.Frame) P {
	out := make(P, len(points))
	for i, p := range points {
		out[i] = to.At(from.Local(p))
	}
	return out
}
