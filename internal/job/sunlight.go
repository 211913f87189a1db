package job

import (
	"cmp"
	"fmt"
	"image"
	"math"
	"slices"
	"strings"
	"time"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sun"
	"boothmock/internal/basis/unit"
	"boothmock/internal/find/shade"
	"boothmock/internal/handout/page"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/view/drawing"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// daylight is the light over the booth at a time of its fair.
func daylight(f *booth.Fair, at time.Time) light.Daylight {
	pos := sun.At(at, sun.Place{Latitude: f.Latitude, Longitude: f.Longitude})
	sky := sun.Sky(f.Sky)
	day := light.Daylight{Toward: pos.Toward(f.Faces), Radius: sun.Radius, Lux: sky.Diffuse(pos.Altitude)}
	if day.Lux == 0 {
		return light.Daylight{Lux: -1}
	}
	day.Direct = sky.Direct(pos.Altitude) / day.Lux
	pos.Altitude = max(0, pos.Altitude) // in twilight the sky is brightest over where the sun has set
	glow := pos.Toward(f.Faces)
	day.Sky = func(toward geom.Vec) float64 { return sky.Luminance(toward, glow) }
	return day
}

// Time is a time of the fair as somebody names it: a time of its first day such as 15:00, or 2026-06-14 15:00 for another one. The
// error is a fault.Fault.
func Time(p *booth.Plan, text string) (time.Time, error) {
	if p.Fair == nil || p.Pitch.Indoor {
		why := "the scene does not say when and where the fair is"
		hint := "give it the key fair (boothmock explain kinds)"
		if p.Pitch.Indoor {
			why, hint = "the booth is in a hall, where no sun shines", "leave --at out"
		}
		return time.Time{}, fault.Fault{Text: why, Hint: hint}
	}
	day, clock := p.Fair.Days[0].From, text
	if d, c, ok := strings.Cut(strings.TrimSpace(text), " "); ok && strings.Contains(d, "-") {
		clock = c
		found := false
		for _, o := range p.Fair.Days {
			if o.From.Format(time.DateOnly) == d {
				day, found = o.From, true
			}
		}
		if !found {
			return time.Time{}, fault.Fault{Text: "the fair has no day " + d, Hint: "it begins on " + p.Fair.Days[0].From.Format(time.DateOnly)}
		}
	}
	minutes, err := unit.ParseClock(clock)
	if err != nil {
		return time.Time{}, fault.Fault{Text: err.Error()}
	}
	return kinds.Clock(unit.Date{Year: day.Year(), Month: day.Month(), Day: day.Day()}, minutes, day.Location())
}

// At is the mock-up at a time of its fair, for pictures.
func (m *Mockup) At(at time.Time) *Mockup {
	lit := m.Lit().At(m.Plan, daylight(m.Plan.Fair, at))
	stage := m.Stage().In(lit)
	return &Mockup{
		Plan: m.Plan, Checks: m.Checks, Sheet: m.Sheet, SetUp: m.SetUp, Strike: m.Strike, Night: m.Night, Shade: m.Shade, IfSold: m.IfSold, Report: m.Report, Even: m.Even,
		Lit: func() *light.Lit { return lit }, Stage: func() *picture.Stage { return stage }, keeps: m.keeps,
	}
}

// Dark is whether nothing lights the booth, so that there is next to nothing in a picture: by night, without lamps.
func (m *Mockup) Dark() bool {
	const night = 0.95 // of the way to black
	return m.Lit().Dusk > night && !slices.ContainsFunc(m.Plan.Parts, func(p booth.Part) bool { return p.Lamp != nil })
}

// sunny is whether there is a day to follow the sun on: not in a hall, nor where the scene does not say when and where the fair is.
func (m *Mockup) sunny() bool {
	return m.Plan.Fair != nil && !m.Plan.Pitch.Indoor && entrance(m.Plan) != nil && len(hours(m.Plan.Fair)) > 0
}

// hours are the times of the sheet of a day: every full hour at which the fair is open, on its first day.
func hours(f *booth.Fair) (out []time.Time) {
	d := f.Days[0]
	for t := d.From.Truncate(time.Hour); !t.After(d.To); t = t.Add(time.Hour) {
		if !t.Before(d.From) {
			out = append(out, t)
		}
	}
	return out
}

// hour is the booth at a time of the fair's first day, small, from the entrance, and what the sun does then.
type hour struct {
	at      time.Time
	picture *image.NRGBA
	words   string
}

// followed is the fair's first day, hour by hour.
func (m *Mockup) followed() (out []hour) {
	const width, height = 480, 270
	v := entrance(m.Plan)
	times := hours(m.Plan.Fair)
	eye := v.From(m.Plan.Eyes[0])
	sunlit := shade.At(m.Plan, times)
	rough := m.Lit().Hours(m.Plan, []geom.Vec{eye})
	for i, t := range times {
		lit := rough.At(m.Plan, daylight(m.Plan.Fair, t))
		o := picture.Options{Width: width, Height: height, Brighter: lit.Brighter(m.Plan, eye)}
		out = append(out, hour{t, m.Stage().In(lit).Draw(*v, o), sunOn(sunlit[i])})
	}
	return out
}

// sunOn says on which works the sun shines.
func sunOn(list []shade.Sunlit) string {
	slices.SortStableFunc(list, func(a, b shade.Sunlit) int { return cmp.Compare(b.Share, a.Share) })
	const named = 2
	var words []string
	for _, s := range list[:min(named, len(list))] {
		words = append(words, fmt.Sprintf("%s (%s of it)", s.Part.Name, unit.Share(math.Ceil(s.Share*100)/100).Format()))
	}
	if more := len(list) - named; more > 0 {
		words = append(words, fmt.Sprintf("%d more", more))
	}
	if len(words) == 0 {
		return "no work in the sun"
	}
	return "sun on " + unit.List(words, "and")
}

// dayTitle says which day is followed, under which sky.
func (m *Mockup) dayTitle() string {
	f := m.Plan.Fair
	return fmt.Sprintf("%s, %s sky: the sun hour by hour, from the entrance", f.Days[0].From.Format("2 January 2006"), f.Sky)
}

// wholeDay is the sheet of the fair's first day: a small picture an hour.
func (m *Mockup) wholeDay() *image.NRGBA {
	var cells []drawing.Cell
	for _, h := range m.day() {
		cells = append(cells, drawing.Cell{Picture: h.picture, Words: h.at.Format("15:04") + "  " + h.words})
	}
	return drawing.Contact(cells, m.dayTitle())
}

// dayOnPage is the same for the page; without hours where there is no sun to follow.
func (m *Mockup) dayOnPage() (d page.Day, err error) {
	if !m.sunny() {
		return d, nil
	}
	d.Title = m.dayTitle()
	for _, h := range m.day() {
		file, err := asJPEG(h.picture, pageQuality)
		if err != nil {
			return d, err
		}
		d.Hours = append(d.Hours, page.Hour{Time: h.at.Format("15:04"), Words: h.words, JPEG: file})
	}
	return d, nil
}
