package check

import (
	"slices"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

var fit = Check{
	Name: "fit", Doc: "Every work fits on its wall, with a margin at the wall's ends; signs, tags and banner are on what they hang on; nothing is in the ground.",
	Source: rules.WallMargin.Source,
	Run: func(p *Pass) {
		for _, w := range p.Works {
			if wall := p.wallOf(w); wall != nil {
				p.fitWork(w, wall)
			}
		}
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			if part.Flat || part.Beyond || part.Sheet || len(part.Solids) == 0 || part.Work != nil && part.Work.Hung != nil {
				continue
			}
			if lo, _ := extent(part); lo.Y < -hair && !(p.ease(part) == tagged && p.worksPast(part.Parent, func(h *booth.Hung) bool { return h.Y0 < -hair })) {
				p.report(Fail, part, Finding{Figure: metres(lo.Y, 0), Source: practice}, "%s reaches %s into the ground", unit.Capital(part.Name), p.length(-lo.Y))
			}
			switch on := p.Plan.Part(part.Parent); {
			case p.onWall(part):
				p.fitFlat(part, on)
			case on != nil && part.Hangs && !part.Clamped && len(on.Solids) > 0:
				from, to := topOf(on)
				lo, hi := part.In(on.Frame)
				p.pastEnds(part, on, lo.X-from.X, to.X-hi.X, hi.X-lo.X)
				if lo.Y > to.Y+hair {
					p.report(Fail, part, Finding{Figure: metres(lo.Y, to.Y), Source: practice, With: on.ID}, "%s hangs wholly above %s", unit.Capital(part.Name), on.Name)
				}
			}
		}
	},
}

// fitWork tells how a work fits on its wall.
func (p *Pass) fitWork(w Work, wall *booth.Part) {
	margin, h := p.rule(rules.WallMargin), w.Work.Hung
	if h.Y0 < -hair {
		p.report(Fail, w.Part, Finding{At: placeOf(w.Part), Figure: metres(h.Y0, 0), Source: rules.WallMargin.Source},
			"%s reaches %s into the ground", w.Name, p.length(-h.Y0))
	}
	for _, end := range []struct {
		name string
		room float64
	}{{"left", h.X0}, {"right", wall.Wall.Width - h.X1}} {
		f := Finding{At: placeOf(w.Part), Figure: metres(end.room, margin), Source: rules.WallMargin.Source, With: wall.ID}
		switch {
		case end.room < -hair:
			p.report(Fail, w.Part, f, "%s sticks out %s past the %s end of %s", w.Name, p.length(-end.room), end.name, wall.Name)
		case end.room < margin-hair:
			p.report(Caution, w.Part, f, "%s hangs %s from the %s end of %s; %s is usual", w.Name, p.length(end.room), end.name, wall.Name, p.length(margin))
		}
	}
}

// fitFlat tells how a sign, a tag or a banner fits on its wall. A tag is pinned beside its work, which needs the hooks: where
// works stick out, that is told, and not of their tags too.
func (p *Pass) fitFlat(part, wall *booth.Part) {
	lo, hi := part.In(wall.Frame)
	left, right := lo.X, wall.Wall.Width-hi.X
	if p.ease(part) == tagged {
		if p.worksPast(wall.ID, func(h *booth.Hung) bool { return h.X0 < -hair }) {
			left = 0
		}
		if p.worksPast(wall.ID, func(h *booth.Hung) bool { return h.X1 > wall.Wall.Width+hair }) {
			right = 0
		}
		p.pastEnds(part, wall, left, right, hi.X-lo.X)
		return
	}
	p.pastEnds(part, wall, left, right, hi.X-lo.X)
	f := Finding{Source: practice, With: wall.ID}
	switch low, high := wall.Wall.Bottom, wall.Wall.Top; {
	case hi.Y < low-hair:
		f.Figure = metres(hi.Y, low)
		p.report(Fail, part, f, "%s hangs wholly below %s, which holds things from %s above the ground", unit.Capital(part.Name), wall.Name, p.length(low))
	case lo.Y > high+hair:
		f.Figure = metres(lo.Y, high)
		p.report(Fail, part, f, "%s hangs wholly above %s, which holds things up to %s", unit.Capital(part.Name), wall.Name, p.length(high))
	case hi.Y > high+hair:
		f.Figure = metres(hi.Y, high)
		p.report(Caution, part, f, "The upper edge of %s is %s above the highest place for a hook on %s", part.Name, p.length(hi.Y-high), wall.Name)
	}
}

// worksPast reports whether a work of the wall stands out somewhere itself.
func (p *Pass) worksPast(wall booth.ID, out func(*booth.Hung) bool) bool {
	return slices.ContainsFunc(p.Works, func(w Work) bool { return w.Work.Hung != nil && w.Work.Hung.Wall == wall && out(w.Work.Hung) })
}

// pastEnds tells of what hangs flat and sticks out past an end of what it hangs on, with so much room at the left and the
// right: less than half of it can still be fastened.
func (p *Pass) pastEnds(part, on *booth.Part, left, right, width float64) {
	level, f := Caution, Finding{Figure: metres(min(left, right), 0), Source: practice, With: on.ID}
	if -min(left, right) > width/2+hair {
		level = Fail
	}
	switch {
	case left < -hair && right < -hair:
		p.report(level, part, f, "%s is %s wider than %s", unit.Capital(part.Name), p.length(-left-right), on.Name)
	case left < -hair:
		p.report(level, part, f, "%s sticks out %s past the left end of %s", unit.Capital(part.Name), p.length(-left), on.Name)
	case right < -hair:
		p.report(level, part, f, "%s sticks out %s past the right end of %s", unit.Capital(part.Name), p.length(-right), on.Name)
	}
}
