package check

import (
	"math"
	"slices"

	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

const practice = "common practice, no source"

// wallOf is the wall that a work hangs on, or nil.
func (p *Pass) wallOf(w Work) *booth.Part {
	if w.Work.Hung == nil {
		return nil
	}
	if wall := p.Plan.Part(w.Work.Hung.Wall); wall != nil && wall.Wall != nil {
		return wall
	}
	return nil
}

var gaps = Check{
	Name: "gaps", Doc: "Works do not overlap and keep some clear space between them; heights count to within the level tolerance.",
	Source: rules.Gap.Source,
	Run: func(p *Pass) {
		least, level := p.rule(rules.Gap), p.rule(rules.LevelSlack)
		// Works of one row are equally far apart: one finding a row for those that are only too close.
		type row struct {
			wall booth.ID
			name string
		}
		close, closest, told := map[row]int{}, map[row]float64{}, map[row]bool{}
		pairs := func(visit func(a, b Work, gap float64)) {
			hung := func(part *booth.Part) bool { return part.Work != nil && part.Work.Hung != nil }
			p.near(max(least, hair), hung, func(c couple) {
				a, b := Work{&p.Plan.Parts[c.a], c.a}, Work{&p.Plan.Parts[c.b], c.b}
				across, up := between(a, b)
				if g := max(across, up); across < least-hair && (up < least-level-hair || g < -hair) {
					visit(a, b, g)
				}
			})
		}
		rowOf := func(a, b Work) row {
			if h := a.Work.Hung; h.Row != "" && b.Work.Hung.Row == h.Row {
				return row{h.Wall, h.Row}
			}
			return row{}
		}
		pairs(func(a, b Work, gap float64) {
			if r := rowOf(a, b); r.name != "" && gap > -hair {
				if close[r]++; close[r] == 1 || gap < closest[r] {
					closest[r] = gap
				}
			}
		})
		pairs(func(a, b Work, gap float64) {
			one, other := a.Name, b.Name // from left to right
			if p.bearing(b.Work.Face.Centre()) < p.bearing(a.Work.Face.Centre()) {
				one, other = other, one
			}
			f := Finding{At: placeOf(b.Part), Figure: metres(gap, least), Source: rules.Gap.Source, With: a.ID}
			r := rowOf(a, b)
			switch {
			case gap < -hair:
				p.report(Fail, b.Part, f, "%s and %s overlap by %s%s", one, other, p.length(-gap), later(func() string {
					if m, ok := p.mend(a.Part, b.Part, least); ok {
						return ": " + m.words
					}
					return ""
				}))
			case close[r] > 1 && !told[r]:
				told[r] = true
				f.Figure = metres(closest[r], least)
				p.report(Caution, b.Part, f, "%s of the row %s hang only %s apart; %s is usual", plural(close[r]+1, "work"), r.name, p.length(closest[r]), p.length(least))
			case close[r] > 1:
			default:
				p.report(Caution, b.Part, f, "%s and %s hang only %s apart; %s is usual", one, other, p.length(gap), p.length(least))
			}
		})
	},
}

// between is the clear space between two works of one wall across it and up it, in metres: negative where they overlap. Works
// on different walls have nothing to do with each other here.
func between(a, b Work) (across, up float64) {
	h, k := a.Work.Hung, b.Work.Hung
	if h == nil || k == nil || h.Wall != k.Wall {
		return math.Inf(1), math.Inf(1)
	}
	return max(h.X0-k.X1, k.X0-h.X1), max(h.Y0-k.Y1, k.Y0-h.Y1)
}

var centres = Check{
	Name: "centres", Doc: "Works hang with their centres near the hanging height.",
	Source: rules.HangingCentre.Source,
	Run: func(p *Pass) {
		want, slack := p.rule(rules.HangingCentre), p.rule(rules.CentreSlack)
		// Works of one wall with one centre, as far as hooks can make it one, are reported together.
		type level struct {
			wall  booth.ID
			works []Work
		}
		var levels []level
		for _, w := range p.Works {
			wall := p.wallOf(w)
			if wall == nil || math.Abs(w.Work.Hung.Centre()-want) <= slack+hair || p.stacked(w) || p.overTable(w) {
				continue
			}
			k := slices.IndexFunc(levels, func(l level) bool {
				return l.wall == wall.ID && math.Abs(l.works[0].Work.Hung.Centre()-w.Work.Hung.Centre()) <= 2*p.rule(rules.LevelSlack)+hair
			})
			if k < 0 {
				k, levels = len(levels), append(levels, level{wall: wall.ID})
			}
			levels[k].works = append(levels[k].works, w)
		}
		for _, l := range levels {
			var names []string
			first := l.works[0]
			c := first.Work.Hung.Centre()
			for _, w := range l.works { // of those that differ by a tolerance, the one that is furthest off is told
				names = append(names, w.Name)
				if k := w.Work.Hung.Centre(); math.Abs(k-want) > math.Abs(c-want) {
					c = k
				}
			}
			p.report(Note, first.Part, Finding{At: placeOf(first.Part), Figure: metres(c, want), Source: rules.HangingCentre.Source},
				"%s: the centre is %s above the ground; %s is usual", list(names), p.length(c), p.length(want))
		}
	},
}

// stacked reports whether another work hangs above or below: then it is the group's middle that counts.
func (p *Pass) stacked(w Work) bool {
	h := w.Work.Hung
	for _, o := range p.Works {
		k := o.Work.Hung
		if k != nil && o.Number != w.Number && k.Wall == h.Wall && k.X0 < h.X1 && h.X0 < k.X1 && (k.Y0 >= h.Y1 || h.Y0 >= k.Y1) {
			return true
		}
	}
	return false
}

// overTable reports whether a table stands below the work, so that it has to hang higher.
func (p *Pass) overTable(w Work) bool {
	const before = 0.3 // metres before the wall: a table is pushed up to it, more or less
	wall := p.wallOf(w)
	f, h := wall.Frame, w.Work.Hung
	for i := range p.Plan.Parts {
		part := &p.Plan.Parts[i]
		if part.Top == nil {
			continue
		}
		for _, c := range part.Room() {
			x0, x1, z := math.Inf(1), math.Inf(-1), math.Inf(1)
			for _, v := range c.Corners {
				l := f.Local(v)
				x0, x1, z = min(x0, l.X), max(x1, l.X), min(z, l.Z)
			}
			if x0 < h.X1 && h.X0 < x1 && z > -0.5 && z < before {
				return true
			}
		}
	}
	return false
}
