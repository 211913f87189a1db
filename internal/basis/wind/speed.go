package wind

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"boothmock/internal/basis/unit"
)

// Gustiness is how much stronger a short gust is than the mean wind of ten minutes that forecasts and the Beaufort
// scale speak of. Common practice, no source: it is larger among buildings and trees.
const Gustiness = 1.5

// Speed is the speed of a gust in m/s.
type Speed float64

// Gust is the gust to reckon with at the upper end of a Beaufort force.
func Gust(force int) Speed { return Speed(float64(Top(force) * Gustiness)) }

var speedText = regexp.MustCompile(`^(\d{1,3}(?:\.\d{1,3})?) ?(mph|km/h|kmh|kph|m/s|knots?|kn|kt)$`)
var forceText = regexp.MustCompile(`^(?:beaufort|bft|force) ?(\d{1,2})$`)

var speedUnits = map[string]float64{
	"mph": MilesPerHour, "km/h": KilometresPerHour, "kmh": KilometresPerHour, "kph": KilometresPerHour, "m/s": 1,
	"knot": Knot, "knots": Knot, "kn": Knot, "kt": Knot,
}

// UnmarshalText reads a gust such as "30 mph", "50 km/h", "13 m/s" or "25 knots", or a Beaufort force such as "force 5",
// which is a mean wind: its gust is Gustiness times the upper end of the force.
func (s *Speed) UnmarshalText(text []byte) error {
	t := strings.ToLower(strings.Join(strings.Fields(string(text)), " "))
	if m := forceText.FindStringSubmatch(t); m != nil {
		n, _ := strconv.Atoi(m[1])
		if n > Strongest-1 {
			return fmt.Errorf("%q is beyond what a tent is calculated for; write force 0 to force %d", text, Strongest-1)
		}
		*s = Gust(n)
		return nil
	}
	m := speedText.FindStringSubmatch(t)
	if m == nil {
		return fmt.Errorf("%q is not a wind; write 30 mph, 50 km/h, 13 m/s, 25 knots or force 5", text)
	}
	n, _ := strconv.ParseFloat(m[1], 64)
	*s = Speed(float64(n * speedUnits[m[2]]))
	if *s > 60 {
		return fmt.Errorf("%q is beyond what a tent is calculated for; write at most 130 mph or 200 km/h", text)
	}
	return nil
}

// Format is the speed in the units of its readers, rounded to a whole number.
func (s Speed) Format(sys unit.System) string {
	v, name := s.in(sys)
	return fmt.Sprintf("%.0f %s", math.Round(v), name)
}

// Below is the same rounded down: for a wind that something still stands.
func (s Speed) Below(sys unit.System) string {
	v, name := s.in(sys)
	return fmt.Sprintf("%.0f %s", math.Floor(v+1e-9), name)
}

// Apart are a wind that something stands and one that it does not, to a tenth where whole numbers would read the same.
func Apart(stands, not Speed, sys unit.System) (string, string) {
	if stands.Below(sys) != not.Format(sys) {
		return stands.Below(sys), not.Format(sys)
	}
	a, name := stands.in(sys)
	b, _ := not.in(sys)
	return fmt.Sprintf("%.1f %s", math.Floor(10*a)/10, name), fmt.Sprintf("%.1f %s", math.Ceil(10*b)/10, name)
}

func (s Speed) in(sys unit.System) (v float64, name string) {
	if sys == unit.Centimetres {
		return float64(s) / KilometresPerHour, "km/h"
	}
	return float64(s) / MilesPerHour, "mph"
}

// MarshalText writes the speed in mph.
func (s Speed) MarshalText() ([]byte, error) {
	return fmt.Appendf(nil, "%s mph", strconv.FormatFloat(math.Round(float64(s)/MilesPerHour), 'f', -1, 64)), nil
}
