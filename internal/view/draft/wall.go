package draft

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/hook"
)

// Wall is a wall's elevation: the wall as somebody facing it sees it.
type Wall struct {
	Sheet
	Part  *booth.Part
	Works []*booth.Part // that hang on it, in the order in which they are counted
	plan  *booth.Plan
	hooks []hung
	foot  float64 // ems below everything, to say there what found no room
}

// hung is a hook with its number on its wall, and which work it holds.
type hung struct {
	booth.Hook
	number, of int
	work       *booth.Hung
}

// Of lays a wall's elevation out. Labels that find no room are counted below it, but where measures are seen one by one.
func Of(p *booth.Plan, part *booth.Part, set Setting) *Wall {
	w := laid(p, part, set, 0)
	if w.Left > 0 && !set.OneByOne {
		w = laid(p, part, set, 1.3)
		w.Marks = append(w.Marks, words(w.Em, w.High-0.4*w.Em, w.Missing()))
	}
	return w
}

func laid(p *booth.Plan, part *booth.Part, set Setting, foot float64) *Wall {
	w := &Wall{Sheet: Sheet{Setting: set}, Part: part, Works: hook.OnWall(p, part.ID), plan: p, foot: foot}
	for i, k := range w.Works {
		for _, h := range k.Work.Hung.Hooks {
			w.hooks = append(w.hooks, hung{h, len(w.hooks) + 1, i + 1, k.Work.Hung})
		}
	}
	w.settle()
	w.ground()
	w.holds()
	w.heights()
	for i, k := range w.Works {
		if !set.Seen {
			w.rect(Work, i+1, w.box(k), White)
		}
	}
	for _, h := range w.hooks {
		w.hook(h)
	}
	for _, h := range w.hooks {
		w.number(h)
	}
	if set.OneByOne {
		w.besideHooks()
	} else {
		for i, k := range w.Works {
			w.caption(i+1, k)
		}
		w.overWall()
		w.underWorks()
		w.chains()
	}
	slices.SortStableFunc(w.Marks, func(a, b Mark) int { return min(1, len(a.Text)) - min(1, len(b.Text)) }) // letters lie on lines
	return w
}

// Name is the wall's name, without its article.
func (w *Wall) Name() string { return unit.Capital(strings.TrimPrefix(w.Part.Name, "the ")) }

// Top is how high the drawing must reach, in metres.
func (w *Wall) Top() float64 {
	top := w.Part.Wall.Top
	for _, k := range w.Works {
		top = max(top, k.Work.Hung.Y1)
	}
	return top
}

// settle finds scale and place of the wall between the rows of measures around it.
func (w *Wall) settle() {
	wide, high := w.Part.Wall.Width+2*w.Beyond, w.Top()+w.Beyond
	if w.OneByOne {
		w.Scale = 100
		w.Origin = Point{(w.Wide - float64(w.Part.Wall.Width*w.Scale)) / 2, w.High - 0.6*w.Em}
	} else {
		left, right := 1.6+w.widest(w.Part.Wall.Top, w.Part.Wall.Bottom), 1.2+max(w.Width(false, "from right"), w.Width(false, w.middles("60 1/2")))
		above, below := 2.4+2*w.row(), 1+1.75*float64(len(w.tiers())+1)+2.2+w.foot
		inWide, inHigh := w.Wide-float64((left+right)*w.Em), w.High-float64((above+below)*w.Em)
		w.fit(min(inWide/wide, inHigh/high))
		if len(w.Scales) > 0 { // what a round scale leaves over is given back
			w.Wide = min(w.Wide, max(w.Wide-inWide+float64(wide*w.Scale), w.least()))
			w.High -= inHigh - float64(high*w.Scale)
			inWide = w.Wide - float64((left+right)*w.Em)
		}
		w.Origin = Point{float64(left*w.Em) + (inWide-float64(wide*w.Scale))/2 + float64(w.Beyond*w.Scale), w.High - float64(below*w.Em)}
	}
	name := words(w.Em, 1.6*w.Em, w.Name())
	name.Bold = true
	w.put(name)
	if !w.OneByOne {
		w.put(words(w.Box(name).X1+w.Em, 1.6*w.Em, "square on; lengths in "+map[unit.System]string{unit.Inches: "inches", unit.Centimetres: "centimetres"}[w.plan.Units]))
	}
}

// least is how wide a sheet is below whose wall all is said.
func (w *Wall) least() float64 {
	said := w.Width(false, "3 ft at 1:40"+w.legend()) + 6
	if w.foot > 0 {
		said = max(said, w.Width(false, manyMissing(999))+1.5)
	}
	return w.Em*said + w.Scale // the ruler is at most 1 m
}

// legend says what hooks are drawn as.
func (w *Wall) legend() string {
	if slices.ContainsFunc(w.hooks, hung.crossed) {
		return "Circle: the hook carries. Cross: it holds on."
	}
	return "Circle: the hook."
}

// crossed is whether a hook holds on above where it carries.
func (h hung) crossed() bool { return h.Grip-h.Y > 0.003 }

// widest is how wide the widest of some lengths in words is, in ems.
func (w *Wall) widest(lengths ...float64) (wide float64) {
	for _, l := range lengths {
		wide = max(wide, w.Width(true, w.Length(l)))
	}
	return wide
}

// Outline is the outline of work k of the wall, from 0, on the sheet.
func (w *Wall) Outline(k int) Box { return w.box(w.Works[k]) }

// box is a work's outline on the sheet.
func (w *Wall) box(k *booth.Part) Box {
	h := k.Work.Hung
	a, b := w.At(h.X0, h.Y1), w.At(h.X1, h.Y0)
	return Box{a.X, a.Y, b.X, b.Y}
}

// ground draws the ground and the wall's outline.
func (w *Wall) ground() {
	wall := w.Part.Wall
	a, b := w.At(-w.Beyond, 0), w.At(wall.Width+w.Beyond, 0)
	if !w.Seen {
		if c := w.plan.Part(wall.Cover); c != nil && c.Cloth != nil {
			w.cloth(c.Cloth)
		}
		p, q := w.At(0, wall.Top), w.At(wall.Width, wall.Bottom)
		w.rect(Edge, 0, Box{p.X, p.Y, q.X, q.Y}, Hollow)
	}
	w.line(Ground, 0, a, b)
}

// cloth draws the cloth before the wall: its sides and hem, and that it falls in folds.
func (w *Wall) cloth(c *booth.Cloth) {
	const fold, deep = 0.25, 0.12 // metres, from fold to fold and how far up they are drawn
	x1 := min(c.Width, w.Part.Wall.Width)
	w.line(Cloth, 0, w.At(0, c.Top), w.At(0, c.Bottom), w.At(x1, c.Bottom), w.At(x1, c.Top))
	for x := fold; x < x1; x += fold {
		w.line(Cloth, 0, w.At(x, c.Bottom), w.At(x, min(c.Top, c.Bottom+deep)))
	}
}

// holds draws what holds hooks: the lying wires of a mesh, or chains, where they are not too close to be seen apart.
func (w *Wall) holds() {
	wall, apart := w.Part.Wall, 0.25*w.Em
	if w.Seen {
		return
	}
	switch {
	case wall.Hold == booth.Mesh && wall.Spacing*w.Scale >= apart:
		for n := 0.0; wall.Bottom+float64(n*wall.Spacing) <= wall.Top+1e-9; n++ {
			y := wall.Bottom + float64(n*wall.Spacing)
			w.line(Wire, 0, w.At(0, y), w.At(wall.Width, y))
		}
	case wall.Hold == booth.Chains && wall.Spacing*w.Scale >= apart:
		for n := 0.0; float64(n*wall.Spacing) <= wall.Width+1e-9; n++ {
			x := float64(n * wall.Spacing)
			w.line(Wire, 0, w.At(x, wall.Top), w.At(x, wall.Bottom))
		}
	}
}

// heights draws the lines that lie across the wall: middles of works, the visitor's eyes, tables before it; each with its height.
func (w *Wall) heights() {
	wall := w.Part.Wall
	type level struct {
		Pen
		y, x0, x1 float64
		text      string
	}
	var levels []level
	for _, k := range w.Works {
		h := k.Work.Hung.Centre()
		if !slices.ContainsFunc(levels, func(l level) bool { return math.Abs(l.y-h) < 0.005 }) {
			levels = append(levels, level{Centre, h, 0, wall.Width, w.middles(w.Length(h))})
		}
	}
	if len(w.plan.Eyes) > 0 {
		levels = append(levels, level{Eye, w.plan.Eyes[0].Height, 0, wall.Width, "eyes " + w.Length(w.plan.Eyes[0].Height)})
	}
	for i := range w.plan.Parts {
		if x0, x1, y, ok := w.before(&w.plan.Parts[i]); ok {
			levels = append(levels, level{Table, y, x0, x1, "table " + w.Length(y)})
		}
	}
	slices.SortStableFunc(levels, func(a, b level) int { return cmp.Compare(a.y, b.y) })
	last := math.Inf(1)
	for _, l := range levels {
		a, b := w.At(l.x0, l.y), w.At(l.x1, l.y)
		m := words(b.X, b.Y-0.3*w.Em, l.text)
		if w.OneByOne {
			w.along(m, l.Pen, a, b)
		} else {
			end := w.At(wall.Width+w.Beyond, l.y)
			y := min(end.Y+0.3*w.Em, last-1.15*w.Em)
			m.Path[0] = Point{end.X + 0.5*w.Em, y}
			if w.put(m) {
				last = y
				w.line(Lead, 0, b, Point{end.X + 0.3*w.Em, y - 0.3*w.Em})
			}
		}
		w.across(l.Pen, a, b)
	}
	if !w.OneByOne {
		x := w.At(-w.Beyond, 0).X - 0.5*w.Em
		w.line(Measure, 0, Point{x, w.At(0, 0).Y}, Point{x, w.At(0, wall.Top).Y})
		for _, h := range []float64{0, wall.Bottom, wall.Top} {
			p := Point{x, w.At(0, h).Y}
			w.tick(p)
			m := words(x-0.5*w.Em, p.Y+0.3*w.Em, w.Length(h))
			m.Held = 1
			if h > 0 {
				w.put(m)
			}
		}
	}
}

func (w *Wall) middles(height string) string { return "middle " + height }

// along writes a label on or under a level line, beside the works, from its right end on; or else over or under them at its end.
func (w *Wall) along(m Mark, pen Pen, a, b Point) {
	var tries []Mark
	try := func(x, y float64) {
		m.Path = []Point{{x, y}}
		if !w.onWork(0, w.Box(m)) {
			tries = append(tries, m)
		}
	}
	m.Held = 1
	for x := b.X - 0.3*w.Em; x > a.X; x -= 0.5 * w.Em {
		try(x, b.Y-0.3*w.Em)
		try(x, b.Y+1.1*w.Em)
	}
	near := len(tries)
	step := 0.5 * w.Em
	if pen == Eye {
		step = -step
	}
	for k := 1.0; k < 40; k++ {
		try(b.X-0.3*w.Em, b.Y+k*step)
	}
	if !w.put(tries...) {
		return
	}
	if p := w.Marks[len(w.Marks)-1].Path[0]; near == 0 || math.Abs(p.Y-b.Y) > 1.2*w.Em {
		w.line(Lead, 0, Point{b.X - 0.15*w.Em, b.Y}, Point{b.X - 0.15*w.Em, p.Y})
	}
}

// across draws a level line; over a picture only where it is not on a work.
func (w *Wall) across(p Pen, a, b Point) {
	var on []Box
	for _, k := range w.Works {
		if o := w.box(k); w.Seen && o.Y0 < a.Y && a.Y < o.Y1 {
			on = append(on, o)
		}
	}
	slices.SortFunc(on, func(a, b Box) int { return cmp.Compare(a.X0, b.X0) })
	for _, o := range append(on, Box{X0: b.X, X1: b.X}) {
		if o.X0 > a.X {
			w.line(p, 0, a, Point{min(o.X0, b.X), a.Y})
		}
		a.X = max(a.X, o.X1)
	}
}

// before is where a table stands before the wall: from where to where along it, and how high its top is.
func (w *Wall) before(part *booth.Part) (x0, x1, y float64, ok bool) {
	const far = 1 // metres: what stands further off is not before a wall
	if part.Top == nil || part.Beyond || part.Work != nil {
		return 0, 0, 0, false
	}
	if len(part.Room()) == 0 {
		return 0, 0, 0, false
	}
	lo, hi := part.In(w.Part.Frame)
	x0, x1 = max(0, lo.X), min(w.Part.Wall.Width, hi.X)
	return x0, x1, *part.Top, x1 > x0 && hi.Z > 0 && lo.Z > -0.1 && lo.Z < far
}

// hook draws where a hook carries, a circle, and where it holds on, a cross.
func (w *Wall) hook(h hung) {
	r := 0.33 * w.Em
	p, grip := w.At(h.X, h.Y), w.At(h.X, h.Grip)
	if h.crossed() {
		w.line(Hook, h.of, Point{p.X - r, grip.Y - r}, Point{p.X + r, grip.Y + r})
		w.line(Hook, h.of, Point{p.X - r, grip.Y + r}, Point{p.X + r, grip.Y - r})
		w.line(Hook, h.of, grip, p)
	}
	w.Marks = append(w.Marks, Mark{Pen: Hook, Of: h.of, Path: []Point{p}, Round: r, Fill: White}, Mark{Pen: Hook, Of: h.of, Path: []Point{p}, Round: 0.3 * r, Fill: Ink})
	w.take(Box{p.X - r, min(p.Y, grip.Y) - r, p.X + r, p.Y + r}, h.of)
}

// number writes a hook's number beside it, where it can be not over its work's edge.
func (w *Wall) number(h hung) {
	edge := w.box(w.Works[h.of-1])
	var clear, over []Mark
	for _, m := range w.around(Mark{Of: h.of, Text: fmt.Sprint(h.number), Bold: true}, w.At(h.X, h.Y), 0.6*w.Em) {
		if b := w.Box(m); b.Meets(edge) && !b.Within(edge) {
			over = append(over, m)
		} else {
			clear = append(clear, m)
		}
	}
	w.put(append(clear[:min(6, len(clear))], append(over, clear...)...)...)
}

// caption writes a work's title and sizes: within its outline, or on a picture below it. Where all of it finds no room it is the title,
// then the work's number, which the tables begin with, unless its only hook has that number too.
func (w *Wall) caption(n int, k *booth.Part) {
	b := w.box(k)
	most := max((b.X1-b.X0)/w.Em-0.3, 0)
	if w.Seen {
		most = max(6, most)
	}
	title, all := Caption(w.plan, k, func(s string) bool { return w.Width(true, s) <= most })
	texts := [][]string{all, all[:title], {fmt.Sprintf("work %d", n)}}
	told := len(k.Work.Hung.Hooks) == 1 && slices.ContainsFunc(w.hooks, func(h hung) bool { return h.of == n && h.number == n })
	if !told {
		texts = append(texts, []string{fmt.Sprint(n)})
	}
	for _, lines := range texts {
		if w.block(n, b, lines, min(title, len(lines)), most) {
			return
		}
	}
	if !told {
		w.Left++
	}
}

// block writes lines one below the other where they find room.
func (w *Wall) block(n int, b Box, lines []string, title int, most float64) bool {
	high, wide := 1.2*float64(len(lines))*w.Em, 0.0
	for i, l := range lines {
		wide = max(wide, w.Width(i < title, l))
	}
	if wide > most && !w.Seen {
		return false
	}
	x := (b.X0 + b.X1) / 2
	tops := []float64{b.Y1 + 0.3*w.Em, b.Y1 - 0.2*w.Em - high}
	if !w.Seen {
		tops = nil
		for t := (b.Y0+b.Y1-high)/2 + 1e-9; t+high < b.Y1; t += 0.3 * w.Em {
			tops = append(tops, t)
		}
	}
	for _, top := range tops {
		box := Box{x - wide*w.Em/2, top, x + wide*w.Em/2, top + high}
		if top < b.Y0 && !w.Seen || !w.free(box, n) || w.Seen && top > b.Y1 && w.onWork(n, box) {
			continue
		}
		w.take(box, n)
		for i, l := range lines {
			m := words(x, top+(0.95+1.2*float64(i))*w.Em, l)
			m.Of, m.Held, m.Bold = n, 0.5, i < title
			w.Marks = append(w.Marks, m)
		}
		return true
	}
	return false
}

// onWork reports whether a box lies on another work than the nth.
func (w *Wall) onWork(n int, b Box) bool {
	for i, k := range w.Works {
		if i+1 != n && w.box(k).Meets(b) {
			return true
		}
	}
	return false
}

// Caption are what is written at a work in so many lines, its title first, and how many of them that takes.
func Caption(plan *booth.Plan, k *booth.Part, fits func(string) bool) (title int, lines []string) {
	text := k.Work.Title
	if text == "" {
		text = strings.TrimPrefix(k.Name, "the ")
	}
	lines = wrapped(text, fits)
	title = len(lines)
	for _, s := range k.Work.Sizes(plan.Units) {
		s = unit.AsIn(plan.Currency, s)
		lines = append(lines, wrapped(unit.Unbroken(s), fits)...)
	}
	if k.Work.Hung.Unheld != "" { // it is drawn where the scene puts it
		lines = append(lines, "nothing holds it")
	}
	return title, lines
}

// wrapped breaks a text between words into lines that fit; a word alone may be wider.
func wrapped(text string, fits func(string) bool) (lines []string) {
	line := ""
	for _, word := range strings.Split(text, " ") {
		if line != "" && !fits(line+" "+word) {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimSpace(line + " " + word)
	}
	return append(lines, line)
}
