package drawing

import (
	"image"
	"image/draw"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/lettering"
	"boothmock/internal/view/draft"
	"boothmock/internal/view/picture"
)

// margin is how much beside and above a wall is drawn, in metres: its ends, and what it hangs from.
const margin = 0.15

// elevation draws a wall as somebody facing it sees it, without perspective: the wall, what it is part of and what hangs
// on it. What stands before that, or reaches beyond it, is left out.
func elevation(plan *booth.Plan, part *booth.Part, s *picture.Stage, o Options, n Notes) *image.NRGBA {
	p := blank(o)
	set := setting(plan, o, p.em)
	set.Beyond = margin
	w := draft.Of(plan, part, set)
	front := 0.12
	for _, k := range w.Works {
		front = max(front, k.Work.Hung.Depth+0.01)
	}
	corner := w.At(-margin, w.Top()+margin)
	m := s.DrawFlat(part.Frame.Moved(geom.Vec{X: -margin}), part.Wall.Width+2*margin, w.Top()+margin, w.Scale, -0.3, front, func(k *booth.Part) bool {
		return k.Dressing || k.Beyond || reaches(part.Frame, k, front)
	})
	draw.Draw(p, m.Rect.Add(image.Pt(int(corner.X+0.5), int(corner.Y+0.5))), m, image.Point{}, draw.Src)
	p.hatch(hidden(w, n.Hidden))
	p.plot(w.Marks)
	if n.Eye != "" {
		p.write(lettering.Regular, red, 1, spot{p.em, 2.9 * p.em}, "hatched: not seen by "+n.Eye)
	}
	return p.NRGBA
}

// setting is how drawings are set that lie on a picture.
func setting(plan *booth.Plan, o Options, em float64) draft.Setting {
	return draft.Setting{
		Wide: float64(o.Width), High: float64(o.Height), Em: em, Seen: true,
		Width:  func(bold bool, text string) float64 { return face(bold).Width(1, text) },
		Length: func(m float64) string { return strings.TrimSuffix(length(plan, m), " "+plan.Units.String()) },
	}
}

// reaches reports whether any of the part is more than so far before the frame.
func reaches(f geom.Frame, part *booth.Part, far float64) bool {
	for _, s := range part.Surfaces {
		for _, v := range s.Mesh.Vertices {
			if f.Local(v.P).Z > far {
				return true
			}
		}
	}
	return false
}

// hidden are the pieces that lie on this wall's works, on paper.
func hidden(w *draft.Wall, pieces []geom.Polygon) [][]spot {
	var out [][]spot
	for _, p := range pieces {
		c := w.Part.Frame.Local(p.Centre())
		on := slices.ContainsFunc(w.Works, func(k *booth.Part) bool {
			h := k.Work.Hung
			return c.X > h.X0 && c.X < h.X1 && c.Y > h.Y0 && c.Y < h.Y1 && math.Abs(c.Z) < h.Depth+0.01
		})
		if !on {
			continue
		}
		var s []spot
		for _, q := range p {
			l := w.Part.Frame.Local(q)
			s = append(s, inked(w.At(l.X, l.Y)))
		}
		out = append(out, s)
	}
	return out
}
