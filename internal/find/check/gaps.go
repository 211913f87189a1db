package check

import (
	"math"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
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
				if g := max(across, up); (g < -hair || !a.Work.Same(b.Work)) && across < least-hair && (up < least-level-hair || g < -hair) {
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
		p.touched()
	},
}

// touching is how near to a work, in metres, a tag or a sign reads as the work's own, and is knocked off with it: common practice, no source.
const touching = 0.125 * float64(unit.Inch)

// touched reports tags and signs that touch a work which is not theirs. Those that reach into one are two things in one place.
func (p *Pass) touched() {
	written := func(part *booth.Part) bool { return part.Lettering != nil && part.Dressing }
	p.near(touching-1e-6, func(part *booth.Part) bool { return written(part) || part.Work != nil && part.Work.Hung != nil }, func(c couple) {
		tag, work := &p.Plan.Parts[c.a], &p.Plan.Parts[c.b]
		if tag.Work != nil {
			tag, work = work, tag
		}
		_, of, _ := strings.Cut(string(tag.ID), "tag/")
		if work.Work == nil || !written(tag) || tag.Parent != work.Parent || of != "" && strings.HasPrefix(string(work.ID), "work/"+of) {
			return
		}
		lo, hi := geom.BoundsOf(tag.Room())
		l, h := geom.BoundsOf(work.Room())
		if g := space(lo, hi, l, h); g > -hair {
			p.report(Caution, tag, Finding{Figure: metres(max(0, g), touching), Source: practice, With: work.ID}, "%s touches %s: hang them farther apart, or put the tag elsewhere (tags: beside)", unit.Capital(tag.Name), work.Name)
		}
	})
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
