package kinds

import (
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
)

// Weather is what the booth should stand up to.
type Weather struct {
	Wind     *wind.Speed `yaml:"wind" doc:"the gust to reckon with, such as 30 mph or 50 km/h, or the forecast's Beaufort force, such as force 5"`
	Around   string      `yaml:"around" oneof:"built open water" doc:"the ground around: among houses and trees, open, or before open water"`
	Friction *float64    `yaml:"friction" range:"0.05..1.2" doc:"of feet and weights on the ground: sideways force to move them over their weight"`
	Lift     float64     `yaml:"lift" range:"0..2" doc:"upward pressure under the canopy as a share of the wind's pressure; 0 leaves it out"`
	Rain     bool        `yaml:"rain" doc:"the booth is shown closed against rain: curtains on the open sides, tables covered"`
	Curtain  unit.Size   `yaml:"curtain" range:"1ft..30ft" doc:"height x width of the ready-made rain curtains that you can buy"`
}

// usualWeather: the friction is the lowest of the textbook values for feet on wet or smooth ground (0.3); the lift is from
// memory, of the order of ASCE 7's net coefficients for open pitched roofs; a curtain is a common shower curtain.
var usualWeather = Weather{Around: "open", Lift: 0.6,
	Curtain: unit.Size{A: 72 * unit.Inch, B: 70 * unit.Inch}}

const (
	wetFriction = 0.3
	usualGust   = 30 * wind.MilesPerHour // m/s; what the wind page is figured for where the scene states no wind: common practice, no source
)

var weatherKind = one("weather", "Wind and rain: what ballast is figured for, and whether the booth is shown in the rain.", usualWeather, buildWeather)

func buildWeather(s *Site, entries []entry[Weather]) {
	e, it := usualWeather, s.file.Whole()
	if len(entries) > 0 {
		e, it = entries[0].says, entries[0].item
	}
	w := booth.Weather{
		At: it.At(""), Gust: usualGust, Friction: wetFriction, Assumed: e.Friction == nil, Lift: e.Lift, Rain: e.Rain, Curtain: e.Curtain,
		Exposure: string(map[string]wind.Exposure{"built": wind.Built, "open": wind.Open, "water": wind.Water}[e.Around]),
	}
	if e.Wind != nil {
		w.Gust, w.Stated = float64(*e.Wind), true
	}
	if e.Friction != nil {
		w.Friction = *e.Friction
	}
	s.Plan.Weather = w
	if e.Rain {
		if s.eave == 0 {
			it.Fault("rain", "leave it out", "without a tent there is nothing to close against rain")
			return
		}
		s.rain(it.At("rain"))
	}
}
