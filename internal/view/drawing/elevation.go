package drawing

import (
	"image"
	"image/draw"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/lettering"
	"boothmock/internal/view/picture"
)

// margin is how much beside and above a wall is drawn, in metres: its ends, and what it hangs from.
const margin = 0.15

// wall is an elevation on paper.
type wall struct {
	paper
	plan     *booth.Plan
	part     *booth.Part
	works    []*booth.Part
	corner   spot    // the wall's left end on the ground
	perMetre float64 // pixels
}

// at is the place of a point of the wall's own frame.
func (w wall) at(x, y float64) spot {
	return w.corner.add(spot{x * w.perMetre, -y * w.perMetre})
}

// elevation draws a wall as somebody facing it sees it, without perspective: the wall, what it is part of and what hangs
// on it. What stands before that, or reaches beyond it, is left out.
func elevation(plan *booth.Plan, part *booth.Part, s *picture.Stage, o Options, n Notes) *image.NRGBA {
	w := wall{paper: blank(o), plan: plan, part: part}
	front, top := 0.12, part.Wall.Top
	for i := range plan.Parts {
		k := &plan.Parts[i]
		if k.Work != nil && k.Work.Hung != nil && k.Work.Hung.Wall == part.ID {
			w.works = append(w.works, k)
			front, top = max(front, k.Work.Hung.Depth+0.01), max(top, k.Work.Hung.Y1)
		}
	}
	wide, high := part.Wall.Width+2*margin, top+margin
	above, below, beside := 3.2*w.em, 3.4*w.em, 8*w.em
	w.perMetre = scale(float64(o.Width)-2*beside, float64(o.Height)-above-below, wide, high)
	m := s.DrawFlat(part.Frame.Moved(geom.Vec{X: -margin}), wide, high, w.perMetre, -0.3, front, func(k *booth.Part) bool {
		return k.Dressing || k.Beyond || reaches(part.Frame, k, front)
	})
	corner := image.Pt((o.Width-m.Rect.Dx())/2, int(above))
	draw.Draw(w, m.Rect.Add(corner), m, image.Point{}, draw.Src)
	w.corner = spot{float64(corner.X) + margin*w.perMetre, float64(corner.Y) + high*w.perMetre}

	w.hatch(w.hidden(n.Hidden))
	w.ground()
	w.middles()
	for _, k := range w.works {
		w.caption(k)
	}
	title := unit.Capital(short(part.Name)) + ", seen square on"
	if n.Eye != "" {
		title += "; hatched: not seen by " + n.Eye
	}
	w.write(lettering.Bold, ink, 1.2, spot{w.em, 2 * w.em}, title)
	w.scaleBar(plan, spot{w.at(0, 0).x, float64(o.Height) - 1.1*w.em}, w.perMetre)
	return w.NRGBA
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
func (w wall) hidden(pieces []geom.Polygon) [][]spot {
	var out [][]spot
	for _, p := range pieces {
		c := w.part.Frame.Local(p.Centre())
		on := slices.ContainsFunc(w.works, func(k *booth.Part) bool {
			h := k.Work.Hung
			return c.X > h.X0 && c.X < h.X1 && c.Y > h.Y0 && c.Y < h.Y1 && math.Abs(c.Z) < h.Depth+0.01
		})
		if !on {
			continue
		}
		var s []spot
		for _, q := range p {
			l := w.part.Frame.Local(q)
			s = append(s, w.at(l.X, l.Y))
		}
		out = append(out, s)
	}
	return out
}

// ground draws the ground and the wall's width and height.
func (w wall) ground() {
	wide, top := w.part.Wall.Width, w.part.Wall.Top
	w.line(ink, 0.14*w.em, w.at(-margin, 0), w.at(wide+margin, 0))
	w.measure(w.at(0, 0).add(spot{0, 1.1 * w.em}), w.at(wide, 0).add(spot{0, 1.1 * w.em}), length(w.plan, wide))
	x := -margin - 4*w.em/w.perMetre
	w.measure(w.at(x, 0), w.at(x, top), length(w.plan, top))
}

// middles writes the heights at which works have their middle, beside the wall.
func (w wall) middles() {
	var heights []float64
	for _, k := range w.works {
		heights = append(heights, k.Work.Hung.Centre())
	}
	slices.Sort(heights)
	heights = slices.CompactFunc(heights, func(a, b float64) bool { return math.Abs(a-b) < 0.005 })
	last := math.Inf(1)
	for _, h := range heights {
		end := w.at(w.part.Wall.Width+margin, h)
		w.line(faint, max(1, 0.06*w.em), end.sub(spot{margin * w.perMetre, 0}), end.add(spot{0.5 * w.em, 0}))
		y := min(end.y+0.3*w.em, last-1.2*w.em)
		w.write(lettering.Regular, ink, 0.9, spot{end.x + 0.8*w.em, y}, "middle "+length(w.plan, h))
		last = y
	}
}

// caption writes a work's title and size below it, and whether nothing holds it; on its lower edge where another work hangs
// close below.
func (w wall) caption(k *booth.Part) {
	const size = 0.85
	h := k.Work.Hung
	wide := max(6*w.em, (h.X1-h.X0)*w.perMetre)
	lines, bold := words(w.plan, k, func(s string) bool { return lettering.Bold.Width(size*w.em, s) <= wide })
	high := tall(len(lines)) * size * w.em
	foot := w.at((h.X0+h.X1)/2, h.Y0)
	y := foot.y + 0.3*w.em + high/2
	low := h.Y0 - (high+0.6*w.em)/w.perMetre
	for _, o := range w.works {
		if oh := o.Work.Hung; o != k && oh.X0 < h.X1 && h.X0 < oh.X1 && oh.Y1 < h.Y0+1e-6 && oh.Y1 > low {
			y = foot.y - 0.2*w.em - high/2
		}
	}
	w.label(ink, size, spot{foot.x, y}, bold, lines...)
}

// words are what is written at a work, its title first, in so many lines.
func words(plan *booth.Plan, k *booth.Part, fits func(string) bool) (lines []string, title int) {
	text := k.Work.Title
	if text == "" {
		text = short(k.Name)
	}
	lines = wrapped(text, fits)
	title = len(lines)
	lines = append(lines, k.Work.Sizes(plan.Units)...)
	if k.Work.Hung.Unheld != "" { // it is drawn where the scene puts it
		lines = append(lines, "nothing holds it")
	}
	return lines, title
}

// wrapped breaks a text between words into lines that fit; a word alone may be wider.
func wrapped(text string, fits func(string) bool) (lines []string) {
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && !fits(line+" "+word) {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimSpace(line + " " + word)
	}
	return append(lines, line)
}
