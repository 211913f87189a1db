package shade

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/rules"
	"boothmock/internal/view/light"
)

// The questions that lamps answer.
var (
	lit = finding.Check{
		Name: "lamplight", Doc: "In a hall, and after dark, every work gets enough light, evenly, and more than the wall beside it.",
		Source: "inverse square and cosine of the lamps' candela, with radiosity; how much is enough: common practice, no source",
	}
	aimed = finding.Check{
		Name: "aim of lamps", Doc: "Every lamp is aimed at something, and its light gets out.", Source: "common practice, no source",
	}
	dazzles = finding.Check{
		Name: "glare", Doc: "No lamp shines into the eyes of visitors.",
		Source: "luminance of the lamp's opening, and how far over the line of sight it must then be: EN 12464-1:2011, table 2 (from memory)",
	}
	power = finding.Check{
		Name: "power", Doc: "Lamps draw no more than the fair gives, and batteries last as long as the fair is open.", Source: "watts and watt hours as stated; 500 W with a pitch: common practice, no source",
	}
	handled = finding.Check{
		Name: "lamps at hand", Doc: "Lamps keep off cloth, and are made for where they hang.", Source: "common practice, no source; the lamp's own label and local rules come first",
	}
)

// lamps are the numbers of the parts that give light.
func lamps(p *booth.Plan) (out []int) {
	for i := range p.Parts {
		if p.Parts[i].Lamp != nil {
			out = append(out, i)
		}
	}
	return out
}

// lamps tells of the light of lamps: how much of it works get, who is dazzled, what they draw.
func (r *report) lamps() {
	list := lamps(r.plan)
	night, ends := r.afterDark()
	switch {
	case r.plan.Pitch.Indoor:
		r.lux(r.levels, "")
	case night && len(list) > 0:
		r.lux(r.levels.Next(r.plan, light.Daylight{Lux: -1}), " after dark"+ends)
	}
	if len(list) == 0 {
		return
	}
	solids := opaque(r.plan)
	for _, i := range list {
		r.points(i, solids)
		r.glare(i, solids)
		r.cloth(i, solids)
	}
	r.watts(list)
	r.batteries(list)
	r.care(list)
}

// afterDark is whether the fair is open then, and until when in words.
func (r *report) afterDark() (bool, string) {
	if r.plan.Fair == nil || r.plan.Pitch.Indoor {
		return false, ""
	}
	c := newCourse(r.plan.Fair, r.kept)
	for _, d := range r.plan.Fair.Days {
		if toward, _ := c.at(d.To); toward.Y < 0 {
			return true, ", until " + d.To.Format("15:04")
		}
	}
	return false, ""
}

// lux tells how much light works get.
func (r *report) lux(l light.Levels, when string) {
	if len(l.Works) == 0 {
		return
	}
	least := rules.WorkLux.In(r.plan.Rules)
	lo, hi := l.Works[0], l.Works[0]
	for _, w := range l.Works {
		if w.Light < lo.Light {
			lo = w
		}
		if w.Light > hi.Light {
			hi = w
		}
	}
	name := func(w light.Level) string { return r.plan.Parts[w.Part].Name }
	if len(lamps(r.plan)) > 0 {
		words := fmt.Sprintf("Works get %s to %s lx%s: least %s, most %s", luxes(l, lo.Light), luxes(l, hi.Light), when, name(lo), name(hi))
		if len(l.Works) == 1 {
			words = fmt.Sprintf("%s gets %s lx%s", name(lo), luxes(l, lo.Light), when)
		}
		r.add(lit, finding.Note, finding.Finding{At: r.plan.Pitch.At.String(), Figure: &finding.Figure{Measured: lo.Light * l.Lux, Limit: least, Unit: finding.Lux}}, "%s", words)
	}
	even := rules.EvenLight.In(r.plan.Rules)
	for _, w := range l.Works {
		part := &r.plan.Parts[w.Part]
		f := finding.Finding{Item: part.ID, At: part.At.String(), Figure: &finding.Figure{Measured: w.Light * l.Lux, Limit: least, Unit: finding.Lux}}
		beside := ""
		if w.Beside > 0 {
			beside = fmt.Sprintf("; the wall beside it gets %s lx", luxes(l, w.Beside))
		}
		switch {
		case w.Light*l.Lux < least && len(lamps(r.plan)) > 0:
			r.add(lit, finding.Caution, f, "%s stands in the dark%s with %s lx%s: aim a lamp at it", part.Name, when, luxes(l, w.Light), beside)
		case w.Light*l.Lux < least:
			r.add(lit, finding.Caution, f, "%s gets only %s lx of the hall's light%s: bring a lamp for it", part.Name, luxes(l, w.Light), beside)
		case len(lamps(r.plan)) > 0 && w.Least < even*w.Most:
			f.Figure = &finding.Figure{Measured: w.Least / w.Most, Limit: even, Unit: finding.Share}
			r.add(lit, finding.Note, f, "%s is lit unevenly, from %s to %s lx%s: move the lamp farther off, or take a wider beam", part.Name, luxes(l, w.Least), luxes(l, w.Most), beside)
		case w.Beside > w.Light && luxes(l, w.Beside) != luxes(l, w.Light):
			r.add(lit, finding.Note, f, "%s gets less light than the wall beside it, %s lx and %s lx: aim the lamp at the work", part.Name, luxes(l, w.Light), luxes(l, w.Beside))
		}
	}
}

// luxes is so much light in lux, to two digits that count.
func luxes(l light.Levels, v float64) string { return grouped(v * l.Lux) }

// opaque are the solids that stop light, but people.
func opaque(p *booth.Plan) (out []sight.Solid) {
	for i := range p.Parts {
		if part := &p.Parts[i]; !part.Moving && !part.SeeThrough {
			for _, c := range part.Solids {
				out = append(out, sight.NewSolid(c, i))
			}
		}
	}
	return out
}

// stopper is the part, other than number own, that stands between two points; nil: none does.
func (r *report) stopper(solids []sight.Solid, own int, a, b geom.Vec) *booth.Part {
	for i := range solids {
		if solids[i].Owner != own && solids[i].Stops(a, b) {
			return &r.plan.Parts[solids[i].Owner]
		}
	}
	return nil
}

// points tells of a lamp that nobody aimed, whose light does not get out, or not to what it is aimed at.
func (r *report) points(i int, solids []sight.Solid) {
	p := &r.plan.Parts[i]
	l := p.Lamp
	f := finding.Finding{Item: p.ID, At: p.At.String()}
	for k := range solids {
		if s := &solids[k]; s.Owner != i {
			if _, in := s.Leave(l.At, l.Toward, 0); in {
				f.With = r.plan.Parts[s.Owner].ID
				r.add(aimed, finding.Fail, f, "%s is inside %s, and its light does not get out: move it", unit.Capital(p.Name), r.plan.Parts[s.Owner].Name)
				return
			}
		}
	}
	if !l.Aimed {
		r.add(aimed, finding.Caution, f, "%s is aimed at nothing, and is drawn pointing down: say aim: and a work, a place or down", unit.Capital(p.Name))
		return
	}
	if work := r.plan.Part(l.Aim); l.Aim != "" && work != nil && work.Work != nil {
		to := work.Work.Face.Centre().Add(work.Work.Face.Normal().Mul(0.005))
		by := r.stopper(solids, i, l.At, to)
		switch {
		case work.Work.Face.Normal().Dot(l.At.Sub(to)) <= 0:
			r.add(aimed, finding.Fail, f, "%s is aimed at the back of %s", unit.Capital(p.Name), work.Name)
		case by != nil && by != work:
			f.With = by.ID
			r.add(aimed, finding.Caution, f, "%s stands between %s and the middle of %s, at which it is aimed", unit.Capital(by.Name), p.Name, work.Name)
		}
	}
}

// How far over the level line of sight a lamp must be that is so bright, in candela a square metre: EN 12464-1:2011, table 2, from
// memory.
var shields = []struct{ from, degrees float64 }{{500_000, 30}, {50_000, 20}, {20_000, 15}}

// glare tells of a lamp that shines into somebody's eyes.
func (r *report) glare(i int, solids []sight.Solid) {
	const aside = 60 // degrees: what is farther from where somebody looks does not count; common practice, no source
	p := &r.plan.Parts[i]
	l := p.Lamp
	if len(r.plan.Eyes) == 0 {
		return
	}
	var from []string
	least, limit := 90.0, 0.0
	for _, v := range r.plan.Views {
		if v.Bare {
			continue
		}
		eye := v.From(r.plan.Eyes[0])
		d := l.At.Sub(eye)
		facing := -d.Unit().Dot(l.Toward)
		if facing <= 0 {
			continue
		}
		bright := l.Candela(eye) / (math.Pi * l.Radius * l.Radius * facing)
		level := math.Hypot(d.X, d.Z)
		up := math.Atan2(d.Y, level) * 180 / math.Pi
		look := v.Look.Sub(eye)
		look.Y = 0
		if level > 1e-6 && (look.X*d.X+look.Z*d.Z)/level < math.Cos(aside*math.Pi/180)*look.Len() {
			continue
		}
		for _, s := range shields {
			if bright >= s.from {
				if up < s.degrees && r.stopper(solids, i, eye, l.At) == nil {
					from = append(from, strings.ReplaceAll(v.Name, "-", " "))
					if up < least {
						least, limit = up, s.degrees
					}
				}
				break
			}
		}
	}
	if len(from) > 0 {
		r.add(dazzles, finding.Caution, finding.Finding{Item: p.ID, At: p.At.String(), View: strings.ReplaceAll(from[0], " ", "-"), Figure: &finding.Figure{Measured: least, Limit: limit, Unit: finding.Degrees}},
			"%s shines into the eyes of whoever looks in from %s: turn it away, shield it, or raise it", unit.Capital(p.Name), unit.List(from, "and"))
	}
}

// cloth tells of cloth close before a lamp.
func (r *report) cloth(i int, solids []sight.Solid) {
	const near = 0.3 // metres: common practice, no source
	p := &r.plan.Parts[i]
	l := p.Lamp
	side := l.Side
	up := side.Cross(l.Toward)
	told := map[int]bool{}
	for k := range 9 {
		d := l.Toward
		if k > 0 {
			s, c := math.Sincos(2 * math.Pi * float64(k) / 8)
			d = d.Add(side.Mul(0.7 * c)).Add(up.Mul(0.7 * s)).Unit()
		}
		for n := range solids {
			o := solids[n].Owner
			part := &r.plan.Parts[o]
			cloth := part.Cloth != nil || slices.ContainsFunc(part.Surfaces, func(s booth.Surface) bool { return s.Look.Passes > 0 })
			if !cloth || told[o] || !solids[n].Stops(l.At, l.At.Add(d.Mul(near))) {
				continue
			}
			told[o] = true
			r.add(handled, finding.Caution, finding.Finding{Item: p.ID, With: part.ID, At: p.At.String(), Figure: &finding.Figure{Measured: near, Limit: near, Unit: finding.Metres}},
				"%s shines onto %s from less than %s away: cloth this near can scorch or burn. Keep the distance on the lamp's label", unit.Capital(p.Name), part.Name, unit.Length(near).Format(r.plan.Units))
		}
	}
}

// watts tells of what the lamps draw from the fair.
func (r *report) watts(list []int) {
	sum, unknown, n := 0.0, 0, 0
	first := &r.plan.Parts[list[0]]
	for _, i := range list {
		if l := r.plan.Parts[i].Lamp; l.Battery == 0 {
			sum, n = sum+l.Watts, n+1
			if l.Watts == 0 {
				unknown++
			}
		}
	}
	if n == 0 {
		return
	}
	most := rules.Power.In(r.plan.Rules)
	f := finding.Finding{Item: first.ID, At: first.At.String(), Figure: &finding.Figure{Measured: sum, Limit: most, Unit: finding.Watts}}
	level := finding.Note
	switch {
	case sum > most && rules.Power.Stated(r.plan.Rules):
		level = finding.Fail
	case sum > most:
		level = finding.Caution
	}
	words := fmt.Sprintf("The lamps draw %.0f W of the %.0f W that the pitch has", sum, most)
	if sum > most {
		words = fmt.Sprintf("The lamps draw %.0f W, and the pitch has %.0f W: take fewer, or such as draw less", sum, most)
	}
	if !rules.Power.Stated(r.plan.Rules) {
		words += fmt.Sprintf(" (%.0f W is usual: ask the organiser)", most)
	}
	if unknown > 0 {
		words += fmt.Sprintf("; not counting %d whose watts are not stated", unknown)
	}
	r.add(power, level, f, "%s", words)
}

// batteries tells of batteries that do not last as long as the fair is open.
func (r *report) batteries(list []int) {
	open := 0.0 // minutes, of the longest day
	if r.plan.Fair != nil {
		for _, d := range r.plan.Fair.Days {
			open = max(open, d.To.Sub(d.From).Minutes())
		}
	}
	for _, i := range list {
		p := &r.plan.Parts[i]
		if p.Lamp.Battery == 0 {
			continue
		}
		f := finding.Finding{Item: p.ID, At: p.At.String()}
		if p.Lamp.Watts == 0 {
			r.add(power, finding.Note, f, "How long the battery of %s lasts is not known: its watts are not stated", p.Name)
			continue
		}
		lasts := p.Lamp.Battery / p.Lamp.Watts * 60
		f.Figure = &finding.Figure{Measured: lasts, Limit: open, Unit: finding.Minutes}
		if open > 0 && lasts < open {
			r.add(power, finding.Caution, f, "The battery of %s lasts %s, and the fair is open for %s: bring a second one, or switch it on later", p.Name, hours(lasts), hours(open))
		} else {
			r.add(power, finding.Note, f, "The battery of %s lasts %s", p.Name, hours(lasts))
		}
	}
}

// hours are minutes in words.
func hours(minutes float64) string { return unit.Minutes(math.Floor(minutes)).Format() }

// care is what holds for all lamps.
func (r *report) care(list []int) {
	var bare []string
	mains := false
	first := &r.plan.Parts[list[0]]
	for _, i := range list {
		p := &r.plan.Parts[i]
		mains = mains || p.Lamp.Battery == 0
		if !p.Lamp.Outdoor && !r.plan.Pitch.Indoor {
			bare = append(bare, p.Name)
		}
	}
	f := finding.Finding{Item: first.ID, At: first.At.String()}
	if len(bare) > 0 {
		verb := "are"
		if len(bare) == 1 {
			verb = "is"
		}
		const most = 5
		if n := len(bare) - most; n > 1 {
			bare = append(bare[:most], fmt.Sprintf("%d more", n))
		}
		r.add(handled, finding.Caution, f, "%s %s under the sky, and not said to be made for it: rain and dew get into a lamp that is not (say outdoors: yes of one that is)", unit.Capital(unit.List(bare, "and")), verb)
	}
	if mains {
		r.add(handled, finding.Note, f, "Leads are trodden on, tripped over and get wet: lay them along the edges, tape or cover them where anybody walks, keep plugs off the ground and dry, and wind reels off. "+
			"Ask the organiser what may be plugged in; what is more than a plug in a socket is an electrician's. Lamps get hot: keep them off cloth, paper and works, and tie what hangs over people twice")
	}
}
