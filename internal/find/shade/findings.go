package shade

import (
	"fmt"
	"math"
	"strings"
	"sync"
	"time"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/rules"
	"boothmock/internal/view/light"
)

const source = "the sun's place: Meeus, Astronomical Algorithms, 2nd ed.; its light: IES, Daylight Availability, 1984; "

// The questions that the light on a booth answers.
var (
	onWorks = finding.Check{
		Name: "sun on works", Doc: "No work stands in direct sun for long while the fair is open.",
		Source: source + "yearly doses: CIE 157:2004; how long is too long: common practice, no source",
	}
	inEyes = finding.Check{
		Name: "sun in the eye", Doc: "The sun does not shine into the eyes of whoever looks in at the entrance or out from the chair.",
		Source: source + "how near to the line of sight: common practice, no source",
	}
	dim = finding.Check{
		Name: "light on works", Doc: "Works get enough of the light in the aisle not to read as dark from there.",
		Source: "light on works: radiosity under the CIE standard overcast sky; in the aisle: mean cylindrical illuminance at the visitor's eye, as in EN 12464-1; " +
			"at most 10 to 1: IES Lighting Handbook (from memory)",
	}
	dark = finding.Check{
		Name: "nightfall", Doc: "The sun is up as long as the fair is open.", Source: source + "the sun's centre on the horizon",
	}
)

// Checks are the questions that the light on a booth answers, in the order in which people read about them.
var Checks = []finding.Check{dim, onWorks, inEyes, dark, lit, aimed, dazzles, power, handled, mirrored}

// Findings is whether the booth is dark, and what the sun does to it while the fair is open: that not indoors, nor where the
// scene does not say when and where the fair is.
func Findings(p *booth.Plan) []finding.Finding { return Again(p, nil) }

// Again is Findings, with what was kept of other versions of the booth taken over where it is made from the same.
func Again(p *booth.Plan, kept *answer.Kept) []finding.Finding {
	aisle, r := report{plan: p, kept: kept}, report{plan: p, kept: kept}
	var wait sync.WaitGroup
	wait.Go(aisle.dim)
	if p.Fair != nil && !p.Pitch.Indoor {
		r.hall = newHall(p, kept, sheets(p)...)
		r.works()
		r.eyes()
		r.night()
	}
	wait.Wait()
	r.levels = aisle.levels
	r.lamps()
	r.panes()
	return append(aisle.found, r.found...)
}

type report struct {
	plan   *booth.Plan
	kept   *answer.Kept
	hall   *hall
	levels light.Levels // in a hall with its lamps, under the sky by day without
	found  []finding.Finding
}

func (r *report) add(c finding.Check, l finding.Level, f finding.Finding, format string, args ...any) {
	f.Check, f.Level, f.Source, f.Message = c.Name, l, c.Source, fmt.Sprintf(format, args...)
	if f.Item == "" {
		f.Item = "pitch"
	}
	if f.At == "" {
		f.At = r.plan.Fair.At.String()
	}
	r.found = append(r.found, f)
}

// dim tells if works read as dark from the aisle.
func (r *report) dim() {
	if r.plan.Works() == 0 {
		return
	}
	l := answer.Next(r.kept, func(before light.Levels) light.Levels {
		return before.Next(r.plan, light.Daylight{Off: !r.plan.Pitch.Indoor})
	})
	r.levels = l
	least := rules.DarkWorks.In(r.plan.Rules)
	var names []string
	darkest, brightest := math.Inf(1), 0.0 // of those, as shares of the light in the aisle
	for _, w := range l.Works {
		if share := max(w.Light, 1e-6) / l.Aisle; share < least {
			names = append(names, r.plan.Parts[w.Part].Name)
			darkest, brightest = min(darkest, share), max(brightest, share)
		}
	}
	if len(names) == 0 {
		return
	}
	const most = 5 // works that are named
	if n := len(names) - most; n > 1 {
		names = append(names[:most], fmt.Sprintf("%d more", n))
	}
	gets := fmt.Sprintf("1/%.0f", 1/brightest)
	if few := fmt.Sprintf("1/%.0f", 1/darkest); few != gets {
		gets += " to " + few
	}
	verb := "get"
	if len(names) == 1 {
		verb = "gets"
	}
	r.add(dim, finding.Caution, finding.Finding{At: r.plan.Pitch.At.String(), Figure: &finding.Figure{Measured: darkest, Limit: least, Unit: finding.Share}},
		"%s %s %s of the light in the aisle: from outside they read as dark. Open a side, take a lighter canopy or lighter cloths, or bring lamps", unit.List(names, "and"), verb, gets)
}

// works tells of the works in the sun, and what would help.
func (r *report) works() {
	list := works(r.plan, r.hall)
	limit := float64(rules.SunOnWork.In(r.plan.Rules))
	long := false
	for _, w := range list {
		minutes, day := w.Day()
		level := finding.Note
		if c, ok := sensitivity(w.Part.Work.Medium); minutes >= limit || ok && c.Year > 0 && w.Dose >= c.Year {
			level, long = finding.Caution, true
		}
		r.add(onWorks, level, finding.Finding{Item: w.Part.ID, At: w.Part.At.String(), Figure: &finding.Figure{Measured: minutes, Limit: limit, Unit: finding.Minutes}},
			"The sun shines on %s %s, on up to %s of it at once. %s", w.Part.Name, r.when(w.Spells, day), atMost(w.Most), dosed(w))
	}
	if long {
		var words []string
		for _, m := range newSearch(r.plan, r.hall).mends() {
			words = append(words, fmt.Sprintf("%s (%s)", m.words, left(m.left)))
		}
		advice := "Nothing that can be moved here takes the sun off the works: bring a cloth to hang before them in those hours"
		if len(words) > 0 {
			advice = "Against the sun on works helps most: " + unit.List(words, "or")
		}
		r.add(onWorks, finding.Note, finding.Finding{}, "%s. Direct sun heats dark canvases, softens varnish, and drives damp to the inside of cold glass as dew: take down what it reaches", advice)
	}
}

// atMost is a share in whole per cents, rounded up.
func atMost(share float64) string { return unit.Share(math.Ceil(share*100-1e-6) / 100).Format() }

// left is the share of the sun's effect that is left, in words.
func left(share float64) string {
	if share < 0.005 {
		return "then no sun reaches them"
	}
	return unit.Share(math.Round(share*100)/100).Format() + " of the fading is left"
}

// dosed says what the sun's dose on a work means.
func dosed(w Work) string {
	dose := "Where it shines longest it gives " + grouped(w.Dose) + " lx·h over the whole fair"
	c, ok := sensitivity(w.Part.Work.Medium)
	switch {
	case w.Part.Work.Medium == "":
		return dose + "; its medium is not stated, so it is not known how fast it fades"
	case !ok:
		return fmt.Sprintf("%s; how fast %s fades is not known here", dose, unit.Quote(w.Part.Work.Medium))
	case c.Year == 0:
		return fmt.Sprintf("%s, which does not fade %s", dose, w.Part.Work.Medium)
	}
	return fmt.Sprintf("%s; museums allow %s (%s) %s lx·h in a year", dose, w.Part.Work.Medium, c.Name, grouped(c.Year))
}

// grouped is a number to two digits that count, with commas: 123,456 is 120,000.
func grouped(v float64) string {
	if v > 0 {
		unit := math.Pow(10, math.Floor(math.Log10(v))-1)
		v = math.Round(v/max(unit, 1)) * max(unit, 1)
	}
	s := fmt.Sprintf("%.0f", v)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// when says in which whiles: those of each day, if all days are alike, else those of one day.
func (r *report) when(days [][]Spell, day int) string {
	const alike = 10 * time.Minute
	same := len(days) > 1
	clock := func(t time.Time) time.Duration {
		return time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute
	}
	for _, list := range days {
		if same = same && len(list) == len(days[day]); !same {
			break
		}
		for i, s := range list {
			o := days[day][i]
			same = same && (clock(s.From)-clock(o.From)).Abs() <= alike && (clock(s.To)-clock(o.To)).Abs() <= alike
		}
	}
	var words []string
	for _, s := range days[day] {
		words = append(words, "from "+s.From.Round(time.Minute).Format("15:04")+" to "+s.To.Round(time.Minute).Format("15:04"))
	}
	text := unit.List(words, "and")
	switch {
	case len(days) == 1:
		return text
	case same:
		return text + " each day"
	}
	return text + " on " + r.plan.Fair.Days[day].From.Format("2 January")
}

// eyes tells when the sun shines into the eyes of a visitor before an open side, and of whoever sits on the chair.
func (r *report) eyes() {
	h := r.hall
	within := float64(rules.SunInEye.In(r.plan.Rules)) * math.Pi / 180
	for _, v := range r.plan.Views {
		if !v.Before && v.Height == 0 || len(r.plan.Eyes) == 0 {
			continue
		}
		days, any := glare(r.plan, h, v.From(r.plan.Eyes[0]), v.Look, within)
		if !any {
			continue
		}
		most, day := longest(days)
		who := "a visitor who looks in at the " + strings.ReplaceAll(v.Name, "-", " ")
		if v.Height > 0 {
			who = "whoever sits on the chair and looks at the entrance"
		}
		r.add(inEyes, finding.Note, finding.Finding{View: v.Name, Figure: &finding.Figure{Measured: most, Limit: 0, Unit: finding.Minutes}},
			"The sun shines into the eyes of %s %s", who, r.when(days, day))
	}
}

// night tells from when on the sun is down while the fair is open.
func (r *report) night() {
	c := newCourse(r.plan.Fair, r.kept)
	var days [][]Spell
	for _, d := range r.plan.Fair.Days {
		days = append(days, spells(d, 10*time.Minute, func(t time.Time) bool { toward, _ := c.at(t); return toward.Y < 0 }))
	}
	if most, day := longest(days); most > 0 {
		level, then := finding.Caution, "without lamps the booth is dark"
		if len(lamps(r.plan)) > 0 {
			level, then = finding.Note, "then the booth has the light of its lamps alone"
		}
		r.add(dark, level, finding.Finding{Figure: &finding.Figure{Measured: most, Limit: 0, Unit: finding.Minutes}},
			"The sun is down %s, while the fair is open: %s", r.when(days, day), then)
	}
}
