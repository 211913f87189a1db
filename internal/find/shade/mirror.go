package shade

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/glass"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/rules"
	"boothmock/internal/view/light"
)

var mirrored = finding.Check{
	Name: "reflections", Doc: "The pane before a framed work mirrors nothing so bright that its dark parts do not read.",
	Source: "Fresnel's equations; the booth as seen from the mirrored eye; least contrast 4.5 to 1: WCAG 2.1, 1.4.3, written for text",
}

// panes tells of panes that mirror.
func (r *report) panes() {
	any := false
	for i := range r.plan.Parts {
		any = any || r.plan.Parts[i].Work != nil && r.plan.Parts[i].Work.Glazing.Mirrors()
	}
	if !any || len(r.plan.Eyes) == 0 {
		return
	}
	m := mirrors{r.plan, r.levels.Panes()}
	limit := rules.Mirrored.In(r.plan.Rules)
	for i := range r.plan.Parts {
		part := &r.plan.Parts[i]
		if part.Work == nil || !part.Work.Glazing.Mirrors() {
			continue
		}
		w := m.worst(i, part.Work.Face, part.Work.Glazing)
		f := finding.Finding{Item: part.ID, At: part.At.String(), View: w.view, Figure: &finding.Figure{Measured: w.Lost, Limit: limit, Unit: finding.Share}}
		if w.Lost > limit {
			r.add(mirrored, finding.Caution, f, "Seen from %s, %s of %s mirrors so much light, most of it from %s, that its dark parts do not read%s",
				spoken(w.view), unit.Share(w.Lost).Format(), part.Name, m.name(w.Most), m.mend(i, limit))
		}
		for _, l := range m.lamps(i) {
			f := finding.Finding{Item: part.ID, With: r.plan.Parts[l.lamp].ID, At: part.At.String(), View: l.view}
			r.add(mirrored, finding.Note, f, "The pane before %s mirrors %s to whoever looks from %s: move or turn the lamp, or lean the work", part.Name, r.plan.Parts[l.lamp].Name, spoken(l.view))
		}
	}
}

// mirrors asks what panes mirror.
type mirrors struct {
	plan  *booth.Plan
	panes *light.Panes
}

// seen is what is mirrored to an eye at a view.
type seen struct {
	light.Mirrored
	view string
}

// place is where an eye is that looks at a work: at a view, or right before the work, which is no view.
type place struct {
	eye  geom.Vec
	view string
}

// places are those from which visitors read a work at face.
func (m mirrors) places(face geom.Polygon) (out []place) {
	const step = 1.2 // metres from which a work is looked at close: common practice, no source
	n, c := face.Normal(), face.Centre()
	before := c.Add(n.Mul(step))
	before.Y = m.plan.Eyes[0].Height
	out = append(out, place{before, ""})
	least := math.Sin(rules.TurnedAway.In(m.plan.Rules) * math.Pi / 180)
	for _, v := range m.plan.Views {
		eye := v.From(m.plan.Eyes[0])
		if d := eye.Sub(c); !v.Bare && v.Height == 0 && d.Dot(n) >= least*d.Len() {
			out = append(out, place{eye, v.Name})
		}
	}
	return out
}

// worst is from where most of the pane of work number i is lost, if it were at face.
func (m mirrors) worst(i int, face geom.Polygon, kind glass.Kind) (out seen) {
	for _, v := range m.places(face) {
		if s := m.panes.Look(v.eye, face, i, kind); s.Lost > out.Lost+1e-9 {
			out = seen{s, v.view}
		}
	}
	return out
}

// hot is a lamp that a pane mirrors to a view.
type hot struct {
	lamp int
	view string
}

// lamps are those that the pane of a work mirrors, each with the first view to which it does.
func (m mirrors) lamps(i int) (out []hot) {
	w := m.plan.Parts[i].Work
	for _, v := range m.places(w.Face) {
		for _, l := range m.panes.Look(v.eye, w.Face, i, w.Glazing).Lamps {
			if !slices.ContainsFunc(out, func(h hot) bool { return h.lamp == l }) {
				out = append(out, hot{l, v.view})
			}
		}
	}
	return out
}

// mend is what would help a work, in words: to lean it, a pane with less reflection, another place.
func (m mirrors) mend(i int, limit float64) string {
	w := m.plan.Parts[i].Work
	var words []string
	left := func(s seen) string {
		if s.Lost < 0.005 {
			return "then none of it"
		}
		return "then " + unit.Share(s.Lost).Format()
	}
	for lean := 1.0; lean <= 8; lean++ {
		if s := m.worst(i, leaned(w.Face, lean*math.Pi/180), w.Glazing); s.Lost <= limit {
			out := unit.Length(w.Face[0].Dist(w.Face[3]) * math.Sin(lean*math.Pi/180)).Format(m.plan.Units)
			words = append(words, fmt.Sprintf("lean its upper edge %s out from the wall (%s)", out, left(s)))
			break
		}
	}
	if to, s, ok := m.swap(i); ok && s.Lost <= limit {
		words = append(words, fmt.Sprintf("let it change places with %s (%s)", m.plan.Parts[to].Name, left(s)))
	}
	if w.Glazing != glass.LowReflection {
		if s := m.worst(i, w.Face, glass.LowReflection); s.Lost <= limit {
			words = append(words, fmt.Sprintf("take a pane of low reflection (%s)", left(s)))
		}
	}
	if len(words) == 0 {
		return ". Nothing that was tried helps: hang a dark cloth opposite, or take the pane off for the fair"
	}
	return ": " + unit.List(words, "or")
}

// leaned is a face whose upper edge stands out farther, by an angle.
func leaned(face geom.Polygon, by float64) geom.Polygon {
	n, up := face.Normal(), face[3].Sub(face[0])
	s, c := math.Sincos(by)
	edge := up.Mul(c).Add(n.Mul(up.Len() * s))
	return geom.Polygon{face[0], face[1], face[1].Add(edge), face[0].Add(edge)}
}

// swap is the work without a pane whose place would spare the pane of work number i most.
func (m mirrors) swap(i int) (to int, best seen, ok bool) {
	const tried = 40 // works
	n := 0
	for k := range m.plan.Parts {
		o := m.plan.Parts[k].Work
		if o == nil || o.Hung == nil || o.Glazing.Mirrors() || m.plan.Parts[i].Work.Hung == nil || n == tried {
			continue
		}
		n++
		if s := m.worst(i, placed(m.plan.Parts[i].Work.Face, o.Face), m.plan.Parts[i].Work.Glazing); !ok || s.Lost < best.Lost {
			to, best, ok = k, s, true
		}
	}
	return to, best, ok
}

// placed is a face, its middle where that of another one is, and looking as that does.
func placed(face, other geom.Polygon) geom.Polygon {
	x, y := other[1].Sub(other[0]).Unit().Mul(face[0].Dist(face[1])/2), other[3].Sub(other[0]).Unit().Mul(face[0].Dist(face[3])/2)
	c := other.Centre()
	return geom.Polygon{c.Sub(x).Sub(y), c.Add(x).Sub(y), c.Add(x).Add(y), c.Sub(x).Add(y)}
}

// name is what is mirrored, in words.
func (m mirrors) name(s light.Source) string {
	switch {
	case s == light.OpenSky && m.plan.Pitch.Indoor:
		return "the hall"
	case s == light.OpenSky:
		return "the sky"
	case s == light.OpenGround:
		return "the ground"
	}
	return m.plan.Parts[s].Name
}

// spoken is from where something is seen, in words.
func spoken(view string) string {
	if view == "" {
		return "right before it"
	}
	return strings.ReplaceAll(view, "-", " ")
}
