package unit

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"
)

const (
	weightHint  = "6lb, 6 lb 4oz, 2.5kg or 800g"
	angleHint   = "30deg or 30°"
	shareHint   = "90% or 0.9"
	minutesHint = "15min or 1h 20min"
	moneyHint   = "480, 1250.50 or 1,250.50"
)

// weightUnits are the units of weight in hundredths of a milligram, in which pound and ounce are exact.
var weightUnits = unitTable(map[string]float64{
	"lb lbs pound pounds":                  45359237,
	"oz ounce ounces":                      45359237. / 16,
	"kg kgs kilo kilos kilogram kilograms": 1e8,
	"g gram grams gramme grammes":          1e5,
})

// ParseWeight reads a weight. A bare number is in pounds (Inches) or kilograms (Centimetres) if bareOK, else it is an
// error. Errors are of type *Error.
func ParseWeight(s string, bare System, bareOK bool) (Weight, error) {
	ts, negative, ok := terms(s)
	if !ok {
		return 0, unclear(s, "a weight", weightHint)
	}
	lb, oz := weightUnits["lb"], weightUnits["oz"]
	sum, above := 0.0, 0.0
	for i, t := range ts {
		u := weightUnits[t.unit]
		switch {
		case t.unit != "":
		case len(ts) == 1 && !bareOK:
			n := strings.TrimSpace(s)
			return 0, &Error{"a weight needs a unit", fmt.Sprintf("write %slb or %skg", n, n)}
		case len(ts) == 1 && bare == Centimetres:
			u = weightUnits["kg"]
		case len(ts) == 1:
			u = lb
		}
		if u == 0 || i > 1 || i == 1 && !(above == lb && u == oz && t.n < 16) {
			return 0, unclear(s, "a weight", weightHint)
		}
		sum = float64(t.n*u) + sum
		above = u
	}
	return Weight(sign(sum/1e8, negative)), nil
}

// Format is the weight as people write it: pounds and ounces below 10 lb ("6 lb 4 oz"), pounds to the tenth above;
// grams below 1 kg, kilograms to two decimals below 10 kg and to one above.
func (w Weight) Format(sys System) string {
	kg := math.Abs(w.Kg())
	s := ""
	switch oz := math.Round(kg / Ounce.Kg()); {
	case sys == Centimetres && kg < 0.9995:
		s = decimals(kg*1000, 0) + " g"
	case sys == Centimetres && kg < 9.995:
		s = decimals(kg, 2) + " kg"
	case sys == Centimetres:
		s = decimals(kg, 1) + " kg"
	case oz >= 160:
		s = decimals(kg/Pound.Kg(), 1) + " lb"
	case oz < 16:
		s = decimals(oz, 0) + " oz"
	default:
		s = decimals(math.Floor(oz/16), 0) + " lb"
		if rest := math.Mod(oz, 16); rest > 0 {
			s += " " + decimals(rest, 0) + " oz"
		}
	}
	if w < 0 && s[:2] != "0 " {
		return "-" + s
	}
	return s
}

// ParseAngle reads an angle in degrees; a bare number is degrees. Errors are of type *Error.
func ParseAngle(s string) (Angle, error) {
	ts, negative, ok := terms(s)
	if ok && len(ts) == 1 {
		switch ts[0].unit {
		case "", "°", "deg", "degs", "degree", "degrees":
			return Degrees(sign(ts[0].n, negative)), nil
		}
	}
	return 0, unclear(s, "an angle", angleHint)
}

// Degrees is an angle of so many degrees.
func Degrees(d float64) Angle { return Angle(d * math.Pi / 180) }

// Degrees is the angle in degrees, to the billionth: what was read as 30° is 30, not 29.999999999999996.
func (a Angle) Degrees() float64 { return math.Round(float64(a)*180/math.Pi*1e9) / 1e9 }

// Format is the angle to the tenth of a degree: "30°".
func (a Angle) Format() string { return decimals(a.Degrees(), 1) + "°" }

// ParseShare reads a part of a whole: a percentage, or a bare number up to 1. Errors are of type *Error.
func ParseShare(s string) (Share, error) {
	ts, negative, ok := terms(s)
	switch {
	case !ok || len(ts) != 1:
	case ts[0].unit == "%" || ts[0].unit == "percent":
		return Share(sign(ts[0].n/100, negative)), nil
	case ts[0].unit == "" && ts[0].n <= 1:
		return Share(sign(ts[0].n, negative)), nil
	}
	return 0, unclear(s, "a share", shareHint)
}

// Format is the share as a percentage to the tenth: "90%".
func (s Share) Format() string { return decimals(float64(s)*100, 1) + "%" }

// Whole prints the share to the whole percent: 100 only for all of it, 0 only for nothing.
func (s Share) Whole() string {
	n := math.Round(float64(s) * 100)
	switch {
	case s > 0 && n == 0:
		n = 1
	case s < 1-1e-9 && n == 100:
		n = 99
	}
	return decimals(n, 0) + "%"
}

// ParseMinutes reads how long something takes, rounded to the minute; a bare number is minutes. Errors are of type *Error.
func ParseMinutes(s string) (Minutes, error) {
	ts, negative, ok := terms(s)
	if !ok || negative || len(ts) > 2 {
		return 0, unclear(s, "a time", minutesHint)
	}
	sum, hours := 0.0, false
	for i, t := range ts {
		switch t.unit {
		case "h", "hr", "hrs", "hour", "hours":
			if i > 0 {
				return 0, unclear(s, "a time", minutesHint)
			}
			sum, hours = t.n*60, true
		case "", "m", "min", "mins", "minute", "minutes":
			if i > 0 && (!hours || t.n >= 60) {
				return 0, unclear(s, "a time", minutesHint)
			}
			sum += t.n
		default:
			return 0, unclear(s, "a time", minutesHint)
		}
	}
	if sum > 1e6 {
		return 0, unclear(s, "a time", minutesHint)
	}
	return Minutes(math.Round(sum)), nil
}

var bytesText = regexp.MustCompile(`^(\d{1,6}(?:\.\d{1,3})?) ?(b|bytes?|kb|mb|kib|mib)$`)

// ParseBytes reads the size of a file: a kB is 1,000 bytes and a MB a million (IEC 80000-13), so what keeps within them keeps
// within the larger KiB and MiB that some people mean, too. Errors are of type *Error.
func ParseBytes(s string) (int, error) {
	m := bytesText.FindStringSubmatch(plain(s))
	if m == nil {
		return 0, unclear(s, "the size of a file", "2MB or 500kB")
	}
	v, _ := strconv.ParseFloat(m[1], 64) // of at most ten characters
	return int(v * map[string]float64{"b": 1, "byte": 1, "bytes": 1, "kb": 1e3, "mb": 1e6, "kib": 1 << 10, "mib": 1 << 20}[m[2]]), nil
}

// Format is the time in hours and minutes: "45 min", "1 h 20 min".
func (m Minutes) Format() string {
	switch h, rest := m/60, m%60; {
	case h == 0:
		return fmt.Sprintf("%d min", rest)
	case rest == 0:
		return fmt.Sprintf("%d h", h)
	default:
		return fmt.Sprintf("%d h %d min", h, rest)
	}
}

// whole numbers, with or without a comma every three digits, then at most two decimals.
var moneyText = regexp.MustCompile(`^(\d{1,12}|\d{1,3}(?:,\d{3}){1,3})(?:\.(\d{1,2}))?$`)

// ParseMoney reads an amount with or without a currency sign: "480", "$480", "1,250.50". What could be read in two ways
// ("480,50", "1.250") is refused. Errors are of type *Error.
func ParseMoney(s string) (Money, error) {
	t, negative := strings.CutPrefix(plain(s), "-")
	t = strings.TrimFunc(t, func(r rune) bool { return unicode.Is(unicode.Sc, r) || r == ' ' })
	m := moneyText.FindStringSubmatch(t)
	if m == nil {
		return 0, unclear(s, "an amount of money", moneyHint)
	}
	n, _ := strconv.ParseInt(strings.ReplaceAll(m[1], ",", "")+(m[2] + "00")[:2], 10, 64) // at most 14 digits
	if negative {
		n = -n
	}
	return Money(n), nil
}

// Format is the amount after its currency sign, hundredths only if there are any: "$1,250.50", "$480", "CHF 480". The currency may
// also be an amount as people write it, and then every amount is written so: "1.250,00 €", "CHF 1'250.00".
func (m Money) Format(currency string) string {
	n, minus := uint64(m), ""
	if m < 0 {
		n, minus = -n, "-"
	}
	w, _ := writingOf(currency)
	s := strconv.FormatUint(n/100, 10)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + w.thousands + s[i:]
	}
	if n%100 != 0 {
		s += fmt.Sprintf("%s%02d", w.decimal, n%100)
	}
	return minus + w.before + s + w.after
}

// writing is how amounts are written.
type writing struct{ before, thousands, decimal, after string }

var amountText = regexp.MustCompile(`^(\D*)\d{1,3}([.,'’\s\x{a0}]?)\d{3}(?:([.,])\d{2})?(\D*)$`)

// writingOf is how an amount is written before or after a sign, or as an example has it. ok is whether the example is one.
func writingOf(currency string) (w writing, ok bool) {
	if !strings.ContainsAny(currency, "0123456789") {
		if r := []rune(currency); len(r) > 0 && unicode.IsLetter(r[len(r)-1]) {
			currency += " "
		}
		return writing{currency, ",", ".", ""}, true
	}
	m := amountText.FindStringSubmatch(currency)
	if m == nil || m[2] != "" && m[2] == m[3] {
		return writing{"", ",", ".", ""}, false
	}
	w = writing{m[1], m[2], m[3], m[4]}
	if w.decimal == "" {
		w.decimal = map[bool]string{true: ",", false: "."}[w.thousands == "." || w.thousands == " "]
	}
	const hard = "\u00a0" // a blank at which no line ends
	for _, s := range []*string{&w.before, &w.thousands, &w.after} {
		*s = strings.ReplaceAll(*s, " ", hard)
	}
	return w, true
}

// CheckCurrency is an error of type *Error for what is neither a sign nor an amount.
func CheckCurrency(currency string) error {
	if _, ok := writingOf(currency); !ok {
		return unclear(currency, "a currency", "$, or an amount of four digits as you write it: 1.250,00 €")
	}
	return nil
}

// AsIn is a text of measures with the decimal mark that amounts of a currency have: 61,5 x 91 cm beside 1.250,00 €.
func AsIn(currency, measures string) string {
	if w, _ := writingOf(currency); w.decimal == "," {
		return pointInside.ReplaceAllString(measures, "$1,$2")
	}
	return measures
}

// ProseAsIn is AsIn for running text: of its numbers only those before a unit are measures.
func ProseAsIn(currency, text string) string {
	if w, _ := writingOf(currency); w.decimal == "," {
		return pointBeforeUnit.ReplaceAllString(text, "$1,$2")
	}
	return text
}

var (
	pointInside     = regexp.MustCompile(`(\d)\.(\d)`)
	pointBeforeUnit = regexp.MustCompile(`(\d)\.(\d+ ?(?:(?:x|mm|cm|m|km|g|kg|m/s|km/h)\b|%|°))`)
)
