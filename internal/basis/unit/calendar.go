package unit

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// Date is a day of the calendar, of no place in particular.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

var dateText = regexp.MustCompile(`^(\d{4})-(\d{1,2})-(\d{1,2})$`)

// UnmarshalText reads a date as ISO 8601 writes it, such as 2026-06-13. Errors are of type *Error.
func (d *Date) UnmarshalText(text []byte) error {
	s := strings.TrimSpace(string(text))
	m := dateText.FindStringSubmatch(s)
	if m == nil {
		return unclear(s, "a date", "the year, the month and the day, such as 2026-06-13")
	}
	n := [3]int{}
	for i := range n {
		n[i], _ = strconv.Atoi(m[i+1])
	}
	t := time.Date(n[0], time.Month(n[1]), n[2], 12, 0, 0, 0, time.UTC)
	if int(t.Month()) != n[1] || t.Day() != n[2] {
		return &Error{"there is no day " + s, "write the year, the month and the day, such as 2026-06-13"}
	}
	if n[0] < 1900 || n[0] > 2199 {
		return &Error{s + " is too long ago or too far ahead", "write a year from 1900 to 2199"}
	}
	*d = Date{n[0], t.Month(), n[2]}
	return nil
}

// MarshalText is the date as ISO 8601 writes it.
func (d Date) MarshalText() ([]byte, error) {
	return fmt.Appendf(nil, "%04d-%02d-%02d", d.Year, int(d.Month), d.Day), nil
}

// Hours are from one time of a day to a later one, in minutes since midnight.
type Hours struct{ From, To int }

var hoursText = regexp.MustCompile(`^(\S+?) ?(am|pm)? ?(?:to|-|–) ?(\S+?) ?(am|pm)?$`)

const hoursHint = "when it opens and closes, such as 10:00 to 17:00 or 10am to 5pm"

// UnmarshalText reads hours such as "10:00 to 17:00" or "10am to 5pm". Errors are of type *Error.
func (h *Hours) UnmarshalText(text []byte) error {
	s := strings.ToLower(strings.TrimSpace(string(text)))
	m := hoursText.FindStringSubmatch(s)
	if m == nil {
		return unclear(s, "opening hours", hoursHint)
	}
	from, err := ParseClock(m[1] + m[2])
	to, err2 := ParseClock(m[3] + m[4])
	if err != nil || err2 != nil {
		return unclear(s, "opening hours", hoursHint)
	}
	if to <= from {
		return &Error{"the hours " + s + " end before they begin", "write " + hoursHint}
	}
	*h = Hours{from, to}
	return nil
}

// MarshalText is the hours as "10:00 to 17:00".
func (h Hours) MarshalText() ([]byte, error) {
	return []byte(Clock(h.From) + " to " + Clock(h.To)), nil
}

var clockText = regexp.MustCompile(`^(\d{1,2})(?::(\d{2}))?(am|pm)?$`)

// ParseClock reads a time of day such as 15:00, 15 or 3pm, as minutes since midnight; 24:00 is the end of the day. Errors are of
// type *Error.
func ParseClock(s string) (int, error) {
	wrong := unclear(s, "a time of day", "it as 15:00 or 3pm")
	m := clockText.FindStringSubmatch(strings.ToLower(strings.ReplaceAll(s, " ", "")))
	if m == nil {
		return 0, wrong
	}
	hour, _ := strconv.Atoi(m[1])
	minute, _ := strconv.Atoi("0" + m[2])
	if m[3] != "" {
		if hour < 1 || hour > 12 {
			return 0, wrong
		}
		hour %= 12
		if m[3] == "pm" {
			hour += 12
		}
	}
	if minute > 59 || hour*60+minute > 24*60 {
		return 0, wrong
	}
	return hour*60 + minute, nil
}

// Clock is a time of day, given in minutes since midnight, as 15:05.
func Clock(minutes int) string { return fmt.Sprintf("%d:%02d", minutes/60, minutes%60) }

// Bearing is a direction on the ground, in radians clockwise from north.
type Bearing float64

// winds are the sixteen points of the compass, clockwise from north.
var winds = [16]string{
	"north", "north-north-east", "north-east", "east-north-east", "east", "east-south-east", "south-east", "south-south-east",
	"south", "south-south-west", "south-west", "west-south-west", "west", "west-north-west", "north-west", "north-north-west",
}

var bearingText = regexp.MustCompile(`^(\d{1,3}(?:\.\d{1,3})?) ?(?:deg|degrees|°)?$`)

// UnmarshalText reads a point of the compass such as south-west, SW or "south west", or degrees clockwise from north. Errors are
// of type *Error.
func (b *Bearing) UnmarshalText(text []byte) error {
	s := strings.ToLower(strings.TrimSpace(string(text)))
	if m := bearingText.FindStringSubmatch(s); m != nil {
		if d, _ := strconv.ParseFloat(m[1], 64); d <= 360 {
			*b = Bearing(math.Mod(d, 360) * math.Pi / 180)
			return nil
		}
	}
	plain := strings.NewReplacer("-", "", " ", "").Replace(s)
	for i, w := range winds {
		short := ""
		for _, part := range strings.Split(w, "-") {
			short += part[:1]
		}
		if plain == strings.ReplaceAll(w, "-", "") || plain == short {
			*b = Bearing(float64(i) * math.Pi / 8)
			return nil
		}
	}
	return unclear(s, "a direction", "a point of the compass such as south-west, or degrees clockwise from north such as 225")
}

// Word is the nearest of the sixteen points of the compass.
func (b Bearing) Word() string {
	i := int(math.Round(float64(b)*8/math.Pi+1e-9)) % 16
	if i < 0 {
		i += 16
	}
	return winds[i]
}

// MarshalText is the point of the compass, or the degrees where it is none.
func (b Bearing) MarshalText() ([]byte, error) {
	d := float64(b) * 180 / math.Pi
	if math.Abs(math.Mod(d, 22.5)) < 1e-9 {
		return []byte(b.Word()), nil
	}
	return []byte(decimals(d, 1) + "°"), nil
}
