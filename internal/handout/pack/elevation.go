package pack

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
	"boothmock/internal/plan/booth"
)

// wall is a wall's page: its drawing with all measures, then the same as tables.
func (d *paper) wall(w hang.Wall) {
	sec := d.sheet.WallSection(w)
	d.begin(sec.Title)
	d.say(sec.Title, "B", 16, 0)
	d.y += 1
	for _, p := range sec.Intro {
		d.say(p, "", body, 0)
	}
	sec.Intro = nil
	d.elevation(w)
	d.rest(sec)
}

// drawing is a wall on paper: where its left end and the ground are, and its scale.
type drawing struct {
	*paper
	wall   hang.Wall
	x0, y0 float64
	mm     float64 // on paper for one metre
}

func (g drawing) x(m float64) float64 { return g.x0 + float64(m*g.mm) }
func (g drawing) y(m float64) float64 { return g.y0 - float64(m*g.mm) }

// elevation draws the wall as somebody facing it sees it.
func (d *paper) elevation(w hang.Wall) {
	const left, right, above, below = 12.0, 22.0, 17.0, 6.0
	tiers := tiersOf(w.Works)
	dims := 5.5 * float64(len(tiers))
	scale := d.scale(w.Width, w.Top, d.wide-2*margin-left-right, 135)
	g := drawing{paper: d, wall: w, mm: 1000 / scale}
	g.x0 = margin + left
	g.y0 = d.y + above + float64(w.Top*g.mm)
	g.ground(scale)
	g.middles()
	for _, work := range w.Works {
		g.work(work)
	}
	g.hooks()
	for i, tier := range tiers {
		g.chain(tier, g.y0+below+5.5*float64(i))
	}
	d.y = g.y0 + below + dims + 3
	d.letters("", small)
	d.scaleBar(margin+left, d.y+2, scale)
	d.pdf.Text(margin+left+48, d.y+2, "Circle: where the hook carries. Cross: where it holds on; the hole in the cloth.")
	d.y += 5
}

// ground draws the wall's outline, the ground and the heights at the left.
func (g drawing) ground(scale float64) {
	w := g.wall
	g.pdf.SetLineWidth(0.5)
	g.pdf.Line(g.x(0)-6, g.y0, g.x(w.Width)+6, g.y0)
	g.pdf.SetLineWidth(0.2)
	g.letters("B", small)
	g.pdf.Text(g.x(0), g.y0+3.6, unit.Capital(w.Name))
	g.wires()
	g.ink(120)
	g.pdf.Rect(g.x(0), g.y(w.Top), float64(w.Width*g.mm), float64((w.Top-w.Bottom)*g.mm), "D")
	g.ink(0)
	g.letters("", small)
	for _, h := range []float64{w.Top, w.Bottom} {
		s := g.short(h)
		g.pdf.Text(g.x(0)-1.5-g.pdf.GetStringWidth(s), g.y(h)+1.1, s)
	}
}

// wires draws what holds hooks: the lying wires of a mesh, or chains, where they are not too close to be seen apart.
func (g drawing) wires() {
	const apart = 0.8 // mm
	w := g.wall
	g.ink(215)
	g.pdf.SetLineWidth(0.1)
	switch {
	case w.Hold == booth.Mesh && w.Step*g.mm >= apart:
		for n := 0.0; w.Bottom+float64(n*w.Step) <= w.Top+1e-9; n++ {
			y := g.y(w.Bottom + float64(n*w.Step))
			g.pdf.Line(g.x(0), y, g.x(w.Width), y)
		}
	case w.Apart*g.mm >= apart:
		for n := 0.0; float64(n*w.Apart) <= w.Width+1e-9; n++ {
			g.pdf.Line(g.x(float64(n*w.Apart)), g.y(w.Top), g.x(float64(n*w.Apart)), g.y(w.Bottom))
		}
	}
	g.ink(0)
	g.pdf.SetLineWidth(0.2)
}

// middles draws a line at every height at which works have their middle.
func (g drawing) middles() {
	var heights []float64
	for _, work := range g.wall.Works {
		heights = append(heights, (work.Y0+work.Y1)/2)
	}
	slices.Sort(heights)
	heights = slices.CompactFunc(heights, func(a, b float64) bool { return math.Abs(a-b) < 0.005 })
	var at []float64
	for _, h := range heights {
		at = append(at, -g.y(h))
	}
	at = spread(at, 8.5, math.Inf(1))
	for i, h := range heights {
		g.ink(120)
		g.pdf.SetDashPattern([]float64{4, 1, 0.6, 1}, 0)
		g.pdf.Line(g.x(0), g.y(h), g.x(g.wall.Width)+2, g.y(h))
		g.pdf.SetDashPattern(nil, 0)
		g.ink(0)
		g.letters("", small)
		g.pdf.Text(g.x(g.wall.Width)+3, -at[i], "middle")
		g.letters("B", small)
		g.pdf.Text(g.x(g.wall.Width)+3, -at[i]+3.7, g.short(h))
	}
}

// work draws a work's outline with its title and size.
func (g drawing) work(w hang.Work) {
	x, y := g.x(w.X0), g.y(w.Y1)
	wide, high := float64((w.X1-w.X0)*g.mm), float64((w.Y1-w.Y0)*g.mm)
	g.pdf.SetFillColor(255, 255, 255)
	g.pdf.SetLineWidth(0.6)
	g.pdf.Rect(x, y, wide, high, "FD")
	g.pdf.SetFillColor(0, 0, 0)
	g.pdf.SetLineWidth(0.2)
	g.letters("B", small)
	const step = 3.7 // mm of a line
	hook := 4.5      // mm at the top, for the hooks' marks
	for _, h := range w.Hooks {
		hook = max(hook, float64((w.Y1-h.Y)*g.mm)+2)
	}
	text := g.lines(w.Title, wide-2)
	if float64(len(text))*step > high-hook || slices.ContainsFunc(text, func(s string) bool { return strings.HasSuffix(s, "…") }) {
		text = []string{fmt.Sprintf("work %d", w.Order)} // the table has the title
	}
	g.letters("", small)
	var sizes []string
	for _, s := range g.plan.Part(w.ID).Work.Sizes(g.plan.Units) {
		sizes = append(sizes, g.lines(s, wide-1)...)
	}
	n := len(text) + len(sizes)
	if float64(n)*step > high-hook || slices.ContainsFunc(sizes, func(s string) bool { return strings.HasSuffix(s, "…") }) {
		n, sizes = len(text), nil // the list of works has them
	}
	base := y + hook + (high-hook-float64(n)*step)/2 + 2.9
	if high > 30 {
		base = y + high/2 - float64(n)*step/2 + 2.9
	}
	g.letters("B", small)
	for i, l := range text {
		g.middle(x+wide/2, base+float64(i)*step, l)
	}
	g.letters("", small)
	for i, l := range sizes {
		g.middle(x+wide/2, base+float64(len(text)+i)*step, l)
	}
}

// hooks draws every hook, its distance from the left end above the wall, and its height below its work.
func (g drawing) hooks() {
	type mark struct {
		hang.Hook
		low, right float64 // lower and right edge of the work
	}
	var marks []mark
	for _, work := range g.wall.Works {
		for _, h := range work.Hooks {
			marks = append(marks, mark{h, work.Y0, work.X1})
		}
	}
	slices.SortStableFunc(marks, func(a, b mark) int { return cmp.Compare(a.X, b.X) })
	var at []float64
	for _, m := range marks {
		at = append(at, g.x(m.X))
	}
	labels := spread(at, 4.2, g.x(g.wall.Width)+6)
	line := g.y(g.wall.Top) - 4
	g.pdf.SetLineWidth(0.2)
	g.letters("", small)
	if len(marks) > 0 {
		g.pdf.Line(g.x(0), line, at[len(at)-1], line)
		g.tick(g.x(0), line)
		s := "0"
		g.pdf.Text(g.x(0)-1.5-g.pdf.GetStringWidth(s), line+1.1, s)
	}
	for i, m := range marks {
		g.tick(at[i], line)
		g.pdf.Line(at[i], line, labels[i], line-2)
		g.letters("B", small)
		g.turned(labels[i]+1.1, line-2.5, g.short(m.X))
		g.ink(140)
		g.pdf.SetDashPattern([]float64{0.6, 0.8}, 0)
		from := line
		for _, over := range g.wall.Works { // not through a work that hangs above
			if over.X0 < m.X && m.X < over.X1 && over.Y0 > m.Y {
				from = max(from, g.y(over.Y0))
			}
		}
		g.pdf.Line(at[i], from, at[i], g.y(m.Grip))
		g.pdf.SetDashPattern(nil, 0)
		g.ink(0)
		g.hook(m.Hook)
	}
	var taken []patch
	for _, m := range marks {
		taken = append(taken, patch{g.x(m.X) - 1.2, g.x(m.X) + 1.2, g.y(m.Y) - 1.2, g.y(m.Y) + 1.2})
	}
	for _, m := range marks {
		g.letters("B", small)
		number := fmt.Sprint(m.Number)
		p := numbered(g.x(m.X), g.y(m.Y), g.pdf.GetStringWidth(number), g.x(m.right), taken)
		taken = append(taken, p)
		g.pdf.Text(p.x0, p.y1, number)
	}
	// Heights stand below the works, where the wall is empty; two hooks above each other stand side by side.
	for i, m := range marks {
		x := labels[i]
		foot := g.y0
		top := g.y(m.low)
		if foot-top < 16 {
			continue // no room: the table has it
		}
		for _, work := range g.wall.Works { // a work hangs in between: begin below it
			if work.X0 < m.X && m.X < work.X1 && work.Y1 < m.low+1e-9 {
				top = max(top, g.y(work.Y0))
			}
		}
		if foot-top < 16 {
			continue
		}
		g.ink(140)
		g.pdf.Line(x, foot, x, top)
		g.ink(0)
		g.letters("", small)
		s := fmt.Sprintf("hook %d: ", m.Number)
		g.turned(x+1.1, foot-1.5, s)
		g.letters("B", small)
		high := g.short(m.Y)
		g.letters("", small)
		off := g.pdf.GetStringWidth(s)
		g.letters("B", small)
		g.turned(x+1.1, foot-1.5-off, high)
	}
}

// patch is a piece of paper, in mm: left, right, upper and lower edge.
type patch struct{ x0, x1, y0, y1 float64 }

func (p patch) meets(o patch) bool { return p.x0 < o.x1 && o.x0 < p.x1 && p.y0 < o.y1 && o.y0 < p.y1 }

// numbered is where the number of a hook at x and y is written: at its right, or at its left where its work ends at right, and
// where something is written there already, in the next free place around it.
func numbered(x, y, wide, right float64, taken []patch) patch {
	const high, off = 2.4, 1.8 // mm: of the figures; from the middle of the hook
	sides := []float64{x + off, x - off - wide}
	if x+off+wide > right-0.5 && x < right {
		slices.Reverse(sides)
	}
	for away := 0.0; ; away += high / 2 {
		for _, left := range append(sides, x-wide/2) {
			for _, base := range []float64{y + high/2 + away, y + high/2 - away} {
				p := patch{left, left + wide, base - high, base}
				if !slices.ContainsFunc(taken, p.meets) {
					return p
				}
			}
		}
	}
}

// hook draws where a hook carries and where it holds on.
func (g drawing) hook(h hang.Hook) {
	x := g.x(h.X)
	g.pdf.SetLineWidth(0.3)
	if grip := g.y(h.Grip); h.Grip-h.Y > 0.003 {
		g.pdf.Line(x-1.2, grip-1.2, x+1.2, grip+1.2)
		g.pdf.Line(x-1.2, grip+1.2, x+1.2, grip-1.2)
		g.pdf.Line(x, grip, x, g.y(h.Y))
	}
	g.pdf.SetFillColor(255, 255, 255)
	g.pdf.Circle(x, g.y(h.Y), 1.1, "FD")
	g.pdf.SetFillColor(0, 0, 0)
	g.pdf.Circle(x, g.y(h.Y), 0.35, "F")
}

// chain draws the gaps and widths of works side by side, from the wall's left end to its right one.
func (g drawing) chain(works []hang.Work, y float64) {
	g.pdf.SetLineWidth(0.2)
	ends := []float64{0}
	for _, w := range works {
		ends = append(ends, w.X0, w.X1)
	}
	ends = append(ends, g.wall.Width)
	g.pdf.Line(g.x(ends[0]), y, g.x(ends[len(ends)-1]), y)
	g.letters("", small)
	for i, e := range ends {
		g.tick(g.x(e), y)
		if i == 0 {
			continue
		}
		s := g.short(e - ends[i-1])
		mid := (g.x(ends[i-1]) + g.x(e)) / 2
		wide := g.pdf.GetStringWidth(s)
		if wide < g.x(e)-g.x(ends[i-1])-1 {
			g.pdf.SetFillColor(255, 255, 255)
			g.pdf.Rect(mid-wide/2-0.5, y-1.6, wide+1, 3.2, "F")
			g.pdf.SetFillColor(0, 0, 0)
			g.pdf.Text(mid-wide/2, y+1.1, s)
		} else if e-ends[i-1] > 0.003 {
			g.pdf.Text(mid-wide/2, y+4.1, s)
		}
	}
}

// tiersOf sorts works into rows of which no two overlap from side to side, upper ones first.
func tiersOf(works []hang.Work) [][]hang.Work {
	sorted := slices.Clone(works)
	slices.SortStableFunc(sorted, func(a, b hang.Work) int { return cmp.Compare(b.Y1, a.Y1) })
	var tiers [][]hang.Work
	for _, w := range sorted {
		k := slices.IndexFunc(tiers, func(t []hang.Work) bool {
			return !slices.ContainsFunc(t, func(o hang.Work) bool { return o.X0 < w.X1 && w.X0 < o.X1 })
		})
		if k < 0 {
			tiers, k = append(tiers, nil), len(tiers)
		}
		tiers[k] = append(tiers[k], w)
	}
	for _, t := range tiers {
		slices.SortFunc(t, func(a, b hang.Work) int { return cmp.Compare(a.X0, b.X0) })
	}
	return tiers
}
