package kinds

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	_ "time/tzdata" // zones where the computer has no list of its own

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
)

// Fair is when and where the fair is, for the sun.
type Fair struct {
	Dates     []unit.Date  `yaml:"dates" must:"yes" most:"14" such:"[2026-06-13, 2026-06-14]" each:"^ *[0-9]{4}-[0-9]{1,2}-[0-9]{1,2} *$" doc:"the days of the fair"`
	Hours     unit.Hours   `yaml:"hours" doc:"when it opens and closes"`
	Zone      string       `yaml:"zone" must:"yes" doc:"whose time that is: a zone such as America/Chicago or Europe/London, or hours from universal time such as -5:00, daylight saving included"`
	Latitude  float64      `yaml:"latitude" must:"yes" range:"-90..90" doc:"degrees north of the equator, negative south of it"`
	Longitude float64      `yaml:"longitude" must:"yes" range:"-180..180" doc:"degrees east of Greenwich, negative west of it, as in America"`
	Faces     unit.Bearing `yaml:"entrance faces" must:"yes" doc:"the direction in which somebody looks who steps out of the booth: a point of the compass, or degrees clockwise from north"`
	Days      []Day        `yaml:"days" doc:"days that differ: their own hours, and the forecast of the day and of the night after it"`
	Sky       string       `yaml:"sky" oneof:"clear mixed overcast" doc:"how cloudy it is taken to be: a clear sky is the worst for works"`
}

// Day is one day of the fair where it differs from the others, and its forecast.
type Day struct {
	Date      unit.Date   `yaml:"date" must:"yes" doc:"which of the days"`
	Hours     *unit.Hours `yaml:"hours" doc:"when it opens and closes that day"`
	Wind      *wind.Speed `yaml:"wind" doc:"the gust that is forecast for the day, such as 30 mph, or its Beaufort force, such as force 5"`
	Rain      bool        `yaml:"rain" doc:"rain is forecast for the day"`
	NightWind *wind.Speed `yaml:"night wind" doc:"the gust that is forecast for the night after it"`
	NightRain bool        `yaml:"night rain" doc:"rain is forecast for the night after it"`
}

var fairKind = one("fair", "When and where the fair is: for where the sun stands, which works it shines on and how long.",
	Fair{Hours: unit.Hours{From: 10 * 60, To: 17 * 60}, Sky: "clear"}, buildFair)

func buildFair(s *Site, entries []entry[Fair]) {
	if len(entries) == 0 {
		return
	}
	e, it := entries[0].says, entries[0].item
	if len(e.Dates) == 0 {
		it.Fault("dates", "write for example dates: [2026-06-13]", "there is no day in the list")
		return
	}
	zone, err := zoneOf(e.Zone)
	if err != nil {
		s.refuse(it.At("zone"), err)
		return
	}
	f := &booth.Fair{At: it.At(""), Latitude: e.Latitude * deg, Longitude: e.Longitude * deg, Faces: float64(e.Faces), Sky: e.Sky}
	days := map[unit.Date]Day{}
	for i, d := range e.Days {
		if !slices.Contains(e.Dates, d.Date) {
			it.Fault(fmt.Sprintf("days.%d.date", i), "name it among the dates, or take it out here", "the fair is not on that day")
			return
		}
		if _, twice := days[d.Date]; twice {
			it.Fault(fmt.Sprintf("days.%d.date", i), "say all of a day at once", "this day is spoken of twice")
			return
		}
		days[d.Date] = d
	}
	for i, d := range e.Dates {
		if i > 0 && !before(e.Dates[i-1], d) {
			it.Fault("dates", "write each day once, the first one first", "the days are not in order")
			return
		}
		day, hours := days[d], e.Hours
		if day.Hours != nil {
			hours = *day.Hours
		}
		from, err := Clock(d, hours.From, zone)
		to, err2 := Clock(d, hours.To, zone)
		if err == nil {
			err = err2
		}
		if err != nil {
			s.refuse(it.At("hours"), err)
			return
		}
		o := booth.Opening{From: from, To: to, Day: forecast(day.Wind, day.Rain), Night: forecast(day.NightWind, day.NightRain)}
		if w := &s.Plan.Weather; day.Wind != nil && (!w.Stated || w.FromDays && o.Day.Gust > w.Gust) {
			w.Gust, w.Stated, w.FromDays = o.Day.Gust, true, true // the booth stands open in the worst of the days
		}
		f.Days = append(f.Days, o)
	}
	s.Plan.Fair = f
}

func forecast(gust *wind.Speed, rain bool) booth.Forecast {
	f := booth.Forecast{Rain: rain}
	if gust != nil {
		f.Gust = float64(*gust)
	}
	return f
}

func before(a, b unit.Date) bool {
	if a.Year != b.Year {
		return a.Year < b.Year
	}
	if a.Month != b.Month {
		return a.Month < b.Month
	}
	return a.Day < b.Day
}

var offsetText = regexp.MustCompile(`^(?:utc|gmt)? ?([+−-])(\d{1,2})(?::?(\d{2}))?$`)

const zoneHint = "write a zone such as America/Chicago, or hours from universal time such as -5:00"

// zoneOf reads a time zone's name, or hours from universal time. The error is a fault.Fault.
func zoneOf(name string) (*time.Location, error) {
	plain := strings.ToLower(strings.TrimSpace(name))
	if plain == "utc" || plain == "gmt" || plain == "z" {
		return time.UTC, nil
	}
	if m := offsetText.FindStringSubmatch(plain); m != nil {
		h, _ := strconv.Atoi(m[2])
		minutes, _ := strconv.Atoi("0" + m[3])
		seconds := h*3600 + minutes*60
		if m[1] != "+" {
			seconds = -seconds
		}
		if seconds < -12*3600 || seconds > 14*3600 || minutes > 59 {
			return nil, fault.Fault{Text: fmt.Sprintf("no place is %s from universal time", name), Hint: zoneHint}
		}
		return time.FixedZone("UTC"+strings.TrimLeft(plain, "utcgm "), seconds), nil
	}
	// A short name such as EST or CST is a zone without daylight saving, or several zones of the world: which one is meant?
	if !strings.Contains(name, "/") {
		return nil, fault.Fault{Text: unit.Quote(name) + " may mean several zones", Hint: zoneHint}
	}
	zone, err := time.LoadLocation(strings.TrimSpace(name))
	if err != nil {
		return nil, fault.Fault{Text: "there is no time zone " + unit.Quote(name), Hint: zoneHint}
	}
	return zone, nil
}

// Clock is the instant at which clocks of the zone show a time of a day, given in minutes since midnight. One that they show
// twice that day, or skip, is refused: a fault.Fault.
func Clock(d unit.Date, minutes int, zone *time.Location) (time.Time, error) {
	t := time.Date(d.Year, d.Month, d.Day, 0, minutes, 0, 0, zone)
	shows := func(t time.Time) int { return t.Hour()*60 + t.Minute() }
	if shows(t) != minutes%(24*60) {
		return t, fault.Fault{Text: fmt.Sprintf("on %s there is no %s: clocks skip it", t.Format("2 January 2006"), unit.Clock(minutes)), Hint: "write hours from universal time as the zone, such as -5:00"}
	}
	for _, shift := range []time.Duration{-time.Hour, -30 * time.Minute, 30 * time.Minute, time.Hour} {
		if o := t.Add(shift); shows(o) == shows(t) {
			return t, fault.Fault{Text: fmt.Sprintf("on %s clocks show %s twice", t.Format("2 January 2006"), unit.Clock(minutes)), Hint: "write hours from universal time as the zone, such as -5:00"}
		}
	}
	return t, nil
}
