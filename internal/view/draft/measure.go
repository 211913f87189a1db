package draft

import (
	"cmp"
	"fmt"
	"slices"

	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/hook"
)

// row is how high a row of upright numbers over the wall is, in ems.
func (w *Wall) row() float64 {
	var all []float64
	for _, h := range w.hooks {
		all = append(all, h.X, w.Part.Wall.Width-h.X)
	}
	return 1.2 + w.widest(all...)
}

// apart is how far upright labels stand from each other, in ems.
const apart = 1.3

// byPlace are the hooks from left to right, and where on the sheet their upright labels stand; ok is whether all find room.
func (w *Wall) byPlace() (hooks []hung, at []float64, ok bool) {
	hooks = slices.Clone(w.hooks)
	slices.SortStableFunc(hooks, func(a, b hung) int { return cmp.Compare(a.X, b.X) })
	lo, hi := w.At(0, 0).X+0.5*w.Em, w.At(w.Part.Wall.Width, 0).X+0.5*w.Em
	for _, h := range hooks {
		at = append(at, max(lo, w.At(h.X, 0).X))
	}
	at = spread(at, apart*w.Em, hi)
	return hooks, at, len(at) == 0 || at[0] >= lo-w.Em
}

// overWall writes over the wall how far each hook is from its left end, and over that from its right end.
func (w *Wall) overWall() {
	hooks, at, ok := w.byPlace()
	if !ok {
		w.Left += 2 * len(hooks)
		return
	}
	wide := w.Part.Wall.Width
	first := w.At(0, w.Top()+w.Beyond).Y - 0.4*w.Em
	second := first - float64(w.row()*w.Em)
	if len(hooks) == 0 {
		return
	}
	for i, y := range []float64{first, second} {
		a, b := w.At(0, 0).X, w.At(wide, 0).X
		w.line(Measure, 0, Point{a, y}, Point{b, y})
		w.tick(Point{a, y})
		w.tick(Point{b, y})
		head := words(w.At(wide+w.Beyond, 0).X+0.5*w.Em, y, []string{"from left", "from right"}[i])
		w.put(head)
	}
	for i, h := range hooks {
		x := w.At(h.X, 0).X
		w.tick(Point{x, first})
		w.line(Measure, 0, Point{x, first}, Point{at[i], first - 0.5*w.Em})
		for k, d := range []float64{h.X, wide - h.X} {
			m := words(at[i]+0.35*w.Em, []float64{first, second}[k]-0.65*w.Em, w.Length(d))
			m.Turned, m.Bold = true, k == 0
			w.put(m)
		}
		w.lead(h, first)
	}
}

// lead is a faint line from over the wall down to where a hook holds on, not through works above it.
func (w *Wall) lead(h hung, from float64) {
	for _, k := range w.Works {
		if o := k.Work.Hung; o.X0 < h.X && h.X < o.X1 && o.Y0 > h.Y {
			from = max(from, w.At(0, o.Y0).Y)
		}
	}
	if to := w.At(h.X, h.Grip); to.Y > from {
		w.line(Lead, 0, Point{to.X, from}, to)
	}
}

// underWorks writes, upright below each work where the wall is empty, how high its hooks carry, and on which wire they hang.
func (w *Wall) underWorks() {
	hooks, at, _ := w.byPlace()
	for i, h := range hooks {
		foot, top := w.At(0, 0).Y, w.At(0, h.work.Y0).Y
		for _, k := range w.Works { // a work hangs in between: begin below it
			if o := k.Work.Hung; o.X0 < h.X && h.X < o.X1 && o.Y1 < h.work.Y0+1e-9 {
				top = max(top, w.At(0, o.Y0).Y)
			}
		}
		long := fmt.Sprintf("hook %d: %s", h.number, w.Length(h.Y))
		texts := []string{long, w.Length(h.Y)}
		if on := hook.FromTop(w.Part.Wall, h.Grip); on != "" {
			texts = append([]string{long + ", " + on}, texts...)
		}
		done := false
		for _, text := range texts {
			m := words(at[i]+0.35*w.Em, foot-0.4*w.Em, text)
			m.Turned = true
			b := w.Box(m)
			if b.Y0 < top+0.3*w.Em || !w.free(b, 0) || w.onWork(0, b) {
				continue
			}
			w.put(m)
			w.line(Lead, 0, Point{w.At(h.X, 0).X, top}, Point{at[i], b.Y0 - 0.1*w.Em})
			done = true
			break
		}
		if !done {
			w.Left++
		}
	}
}

// tiers are the works in rows of which no two overlap from side to side, upper ones first, as many as are drawn.
func (w *Wall) tiers() [][]*booth.Hung {
	const most = 4
	var sorted []*booth.Hung
	for _, k := range w.Works {
		sorted = append(sorted, k.Work.Hung)
	}
	slices.SortStableFunc(sorted, func(a, b *booth.Hung) int { return cmp.Compare(b.Y1, a.Y1) })
	var tiers [][]*booth.Hung
	for _, h := range sorted {
		k := slices.IndexFunc(tiers, func(t []*booth.Hung) bool {
			return !slices.ContainsFunc(t, func(o *booth.Hung) bool { return o.X0 < h.X1 && h.X0 < o.X1 })
		})
		if k < 0 {
			tiers, k = append(tiers, nil), len(tiers)
		}
		tiers[k] = append(tiers[k], h)
	}
	for _, t := range tiers {
		slices.SortFunc(t, func(a, b *booth.Hung) int { return cmp.Compare(a.X0, b.X0) })
	}
	return tiers[:min(most, len(tiers))]
}

// chains draws below the ground the gaps and widths of works side by side, then the wall's whole width, then the scale.
func (w *Wall) chains() {
	y := w.At(0, 0).Y + 1.2*w.Em
	for _, t := range append(w.tiers(), nil) {
		ends := []float64{0}
		for _, h := range t {
			ends = append(ends, h.X0, h.X1)
		}
		ends = append(ends, w.Part.Wall.Width)
		w.line(Measure, 0, Point{w.At(0, 0).X, y}, Point{w.At(ends[len(ends)-1], 0).X, y})
		for i, e := range ends {
			p := Point{w.At(e, 0).X, y}
			w.tick(p)
			if i == 0 || e-ends[i-1] < 0.003 {
				continue
			}
			from := w.At(ends[i-1], 0).X
			m := words((from+p.X)/2, y+0.28*w.Em, w.Length(e-ends[i-1]))
			m.Held = 0.5
			under := m
			under.Path = []Point{{m.Path[0].X, y + 1.25*w.Em}}
			if w.Width(false, m.Text)*w.Em > p.X-from-0.6*w.Em {
				w.put(under)
			} else {
				w.put(m, under)
			}
		}
		y += 1.75 * w.Em
	}
	w.ruler(w.At(0, 0).X, w.High-(0.6+w.foot)*w.Em)
}

// ruler draws a foot, or half a metre, in steps that people count in.
func (w *Wall) ruler(x, y float64) {
	step, n, text := 0.3048, 3, "3 ft"
	if w.plan.Units.String() == "cm" {
		step, n, text = 0.25, 4, "1 m"
	}
	long, thick := float64(step*w.Scale), 0.3*w.Em
	for k := range n {
		left := x + float64(k)*long
		w.rect(Measure, 0, Box{left, y - thick, left + long, y}, []Fill{Ink, Hollow}[k%2])
	}
	if len(w.Scales) > 0 {
		text += fmt.Sprintf(" at 1:%.0f", 1000/w.Scale)
	}
	m := words(x+float64(n)*long+0.5*w.Em, y, text)
	w.put(m)
	b := w.Box(m)
	w.put(words(b.X1+1.5*w.Em, y, w.legend()))
}

// besideHooks writes the measures of each work beside its hooks: how far from either end of the wall, how high, and on which wire.
func (w *Wall) besideHooks() {
	foot := w.At(0, 0).Y
	for _, h := range w.hooks {
		p := w.At(h.X, h.Y)
		a, b := w.At(0, 0), w.At(w.Part.Wall.Width, 0)
		w.line(Lead, h.of, Point{a.X, p.Y}, Point{b.X, p.Y})
		w.line(Lead, h.of, p, Point{p.X, foot})
		of := "" // which of several hooks
		if len(w.Works[h.of-1].Work.Hung.Hooks) > 1 {
			of = fmt.Sprintf("%d: ", h.number)
		}
		m := Mark{Of: h.of, Bold: true}
		work := w.box(w.Works[h.of-1])
		w.beside(m, of+w.Length(h.X), Point{work.X0, p.Y - 0.3*w.Em}, 1)
		w.beside(m, of+w.Length(w.Part.Wall.Width-h.X), Point{work.X1, p.Y - 0.3*w.Em}, 0)
		w.beside(m, of+w.Length(h.Y), Point{p.X, foot - 0.5*w.Em}, 0)
		if on := hook.FromTop(w.Part.Wall, h.Grip); on != "" {
			w.beside(m, of+on, Point{p.X, work.Y0 - 0.5*w.Em}, 0)
		}
	}
}

// beside writes a label as near to a place as it finds room: at its left where held is 1, else at its right; on the other side only
// where that is far.
func (w *Wall) beside(m Mark, text string, p Point, held float64) {
	m.Text = text
	long, off := w.Width(true, text)*w.Em, 0.6*w.Em
	var tries []Mark
	for _, most := range []float64{5 * w.Em, w.High} {
		for _, h := range []float64{held, 1 - held} {
			for away := 0.0; away < most; away += 1.05 * w.Em {
				for _, y := range []float64{p.Y - away, p.Y + away} {
					x := p.X + off - float64(2*h*off)
					x = min(max(x, long*h+0.1), w.Wide-long*(1-h)-0.1) // within the sheet
					m.Held, m.Path = h, []Point{{x, y}}
					tries = append(tries, m)
				}
			}
		}
	}
	w.put(tries...)
}
