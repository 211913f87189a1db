package hang

import (
	"fmt"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// Stays is what of a booth stays up in a wind.
type Stays int

const (
	All  Stays = iota // the tent with its walls and cloth
	Bare              // the tent without them
	None              // nothing: the tent comes down
)

// Stays is what stays up in a forecast; where it states no wind, all.
func (s Sheet) Stays(f booth.Forecast) Stays {
	switch {
	case s.Weather == nil || s.Weather.Up.holds(f.Gust):
		return All
	case s.Weather.Down.holds(f.Gust):
		return Bare
	}
	return None
}

// Asks is what a forecast asks of the booth, in sentences: what stays up, what comes off, what is covered. open is whether
// visitors are there meanwhile.
func (s Sheet) Asks(f booth.Forecast, open bool) []string {
	w := s.Weather
	if s.indoor {
		return []string{"Under a roof everything stays up."}
	}
	gusts := "gusts of " + wind.Speed(f.Gust).Format(s.system) + " are forecast"
	var out, weak []string
	for _, l := range s.Loose {
		if l.GoodFor < f.Gust {
			weak = append(weak, fmt.Sprintf("%s (%s)", l.Name, s.speed(l.GoodFor)))
		}
	}
	if len(weak) > 0 {
		out = append(out, "Taken in or tied down, as "+gusts+" and they stand less: "+unit.List(weak, "and")+".")
	}
	if w == nil {
		if f.Rain {
			out = append(out, "Rain: works go under a roof, as no tent keeps it off.")
		}
		return out
	}
	up, down := s.speed(w.Up.GoodFor), s.speed(w.Down.GoodFor)
	stays := s.Stays(f)
	switch {
	case f.Gust == 0:
		out = append(out, fmt.Sprintf("No wind is stated: the tent stands gusts of %s with its walls up and of %s with them down. Look at the forecast.", up, down))
	case stays == All:
		out = append(out, fmt.Sprintf("Walls and cloth stay up: %s, and the tent stands %s.", gusts, up))
	case stays == Bare:
		out = append(out, fmt.Sprintf("The bare tent stays up, without works, drapes and curtains: %s; it stands %s with them, %s without.", gusts, up, down))
	default:
		return append(out, fmt.Sprintf("The tent is down and all is packed: %s, and it stands %s even without cloth and works.", gusts, down))
	}
	if !f.Rain || s.Rain == nil {
		return out
	}
	for _, c := range s.Rain.Covers {
		out = append(out, fmt.Sprintf("Rain: %s is covered with a sheet of %s x %s.", c.Name, s.full(c.BuyLength), s.full(c.BuyDepth)))
	}
	var sides []string
	for _, o := range s.Rain.Openings {
		sides = append(sides, plural(o.Curtains, "curtain")+" for the "+o.Side)
	}
	switch list := unit.List(sides, "and"); {
	case stays == Bare:
		out = append(out, "Rain: no wall keeps it out, so works stay packed, under a roof.")
	case len(sides) == 0:
	case open:
		out = append(out, "Rain: within reach, and tied back while visitors come in: "+list+".")
	default:
		out = append(out, "Rain: the open sides are closed with "+list+".")
	}
	return out
}

func plural(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}

// forecast is what there is to say about a day, windier than the weather that the tent is held against, on which walls and works must come
// down while visitors are there; and about a night whose wind no tent of the booth stands.
func (s Sheet) forecast(p *booth.Plan) (out []finding.Finding) {
	if p.Fair == nil || s.Weather == nil {
		return nil
	}
	tell := func(level finding.Level, stands, gust float64, format string, args ...any) {
		out = append(out, finding.Finding{
			Check: Standing.Name, Level: level, Item: "fair", At: p.Fair.At.String(), Source: Standing.Source,
			Figure: &finding.Figure{Measured: stands, Limit: gust, Unit: finding.Speed}, Message: fmt.Sprintf(format, args...),
		})
	}
	up, down := s.Weather.Up.GoodFor, s.Weather.Down.GoodFor
	for i, d := range p.Fair.Days {
		day := d.From.Format("Monday, 2 January")
		if d.Day.Gust > p.Weather.Gust && s.Stays(d.Day) != All {
			stands, stated := wind.Apart(wind.Speed(up), wind.Speed(d.Day.Gust), s.system)
			tell(finding.Fail, up, d.Day.Gust, "On %s, gusts of %s are forecast while the fair is open, and with its walls and works up the tent stands %s. %s",
				day, stated, stands, s.Weather.mend(p, d.Day.Gust))
		}
		if i < len(p.Fair.Days)-1 && s.Stays(d.Night) == None {
			tell(finding.Caution, down, d.Night.Gust, "In the night after %s, gusts of %s are forecast, and the tent stands %s even without cloth and works: it comes down for the night",
				day, wind.Speed(d.Night.Gust).Format(s.system), s.speed(down))
		}
	}
	return out
}
