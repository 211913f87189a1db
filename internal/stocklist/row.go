package stocklist

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"boothmock/internal/unit"
)

var (
	commaDecimal = regexp.MustCompile(`(\d),(\d{1,2})(\D|$)`)
	statesUnit   = regexp.MustCompile(`[a-z'"′″’”]`)
	twoSizes     = regexp.MustCompile(`^(.+?) *\((.+)\)$`)
)

// row is one work, and all that is wrong with it.
func (h headings) row(l line, bare unit.System, bareOK bool) (r Row, why []string) {
	r = Row{Number: l.number, At: l.at}
	get := func(m meaning) (text string, c column) {
		for _, c := range h.columns {
			if c.means == m {
				return l.text(c.at), c
			}
		}
		return "", column{at: -1}
	}
	complain := func(c column, err error) {
		words := plainError(err)
		if text := l.text(c.at); c.at >= 0 { // as it stands in the cell, without a unit from elsewhere
			words = strings.Replace(words, unit.Quote(text+c.unit), unit.Quote(text), 1)
		}
		why = append(why, c.heading+": "+words)
	}
	for _, c := range h.columns {
		if c.at < len(l.cells) && l.cells[c.at].long {
			complain(c, fmt.Errorf("it has more than %d characters (keep what matters, and the rest in another column)", maxCell))
		}
	}
	if len(why) > 0 {
		return r, why
	}
	said, _ := get(unitMeaning)
	// in adds the unit that stands elsewhere to a length or size without one.
	in := func(text string, c column) string {
		text = commaDecimal.ReplaceAllString(text, "$1.$2$3")
		if statesUnit.MatchString(strings.NewReplacer("x", "", "×", "", "by", "").Replace(strings.ToLower(text))) {
			return text
		}
		if u := unitWords[strings.ToLower(said)]; u != "" {
			return text + u
		}
		return text + c.unit
	}
	texts := []struct {
		m  meaning
		to *string
	}{{numberMeaning, &r.No}, {nameMeaning, &r.Name}, {titleMeaning, &r.Title}, {fileMeaning, &r.File}, {mediumMeaning, &r.Medium}, {editionMeaning, &r.Edition}}
	for _, t := range texts {
		text, c := get(t.m)
		if c.at >= 0 && c.at < len(l.cells) && l.cells[c.at].date {
			complain(c, errors.New("the spreadsheet has made a date of it: format the cell as text and type it again"))
			continue
		}
		*t.to = text
	}
	if r.Title+r.Name+r.File == "" && (r.No == "" || h.named()) {
		return r, append(why, "it has no title and no photograph")
	}
	if text, c := get(sizeMeaning); text != "" {
		r.stated = statedIn(in(text, c))
		size, depth, err := sizeOf(text, func(s string) string { return in(s, c) }, bare, bareOK)
		if err != nil {
			complain(c, err)
		}
		if c.swapped {
			size.A, size.B = size.B, size.A
		}
		r.Size, r.Depth = size, depth
	}
	for _, t := range []struct {
		m  meaning
		to *unit.Length
	}{{heightMeaning, &r.Size.A}, {widthMeaning, &r.Size.B}, {depthMeaning, &r.Depth}} {
		text, c := get(t.m)
		if text == "" {
			continue
		}
		r.stated = statedIn(in(text, c))
		v, err := unit.ParseLength(in(text, c), bare, bareOK)
		if err == nil && !(v >= 0 && v.M() <= 40*unit.Foot.M()) {
			err = errors.New(unit.Quote(text) + " is out of range")
		}
		if err != nil {
			complain(c, err)
			continue
		}
		*t.to = v
	}
	if (r.Size.A == 0) != (r.Size.B == 0) && len(why) == 0 {
		why = append(why, "it has a height or a width, but not both")
	}
	if text, c := get(weightMeaning); text != "" {
		v, err := unit.ParseWeight(in(text, c), bare, bareOK)
		if err == nil && !(v >= 0 && v <= 1000*unit.Pound) {
			err = errors.New(unit.Quote(text) + " is out of range")
		}
		if err != nil {
			complain(c, err)
		}
		r.Weight = v
	}
	if text, c := get(priceMeaning); text != "" {
		v, err := priceOf(text, h.decimalComma)
		if err != nil {
			complain(c, err)
		}
		r.Price, r.money = v, cmp.Or(moneyIn(text), c.money)
	}
	return r, why
}

var metricText = regexp.MustCompile(`(?:\d|\b)(?:cm|mm|m|centi|milli|met)`)

// statedIn is the system of the unit in a text of a size.
func statedIn(text string) stated {
	text = strings.ToLower(text)
	switch {
	case metricText.MatchString(text):
		return metric
	case statesUnit.MatchString(strings.NewReplacer("x", "", "×", "", "by", "").Replace(text)):
		return imperial
	}
	return unstated
}

// stated is the system in which a row states its size.
type stated int

const (
	unstated stated = iota
	imperial
	metric
)

// named is whether the works of the sheet have more than a number.
func (h headings) named() bool {
	return slices.ContainsFunc(h.columns, func(c column) bool {
		return c.means == titleMeaning || c.means == nameMeaning || c.means == fileMeaning
	})
}

// plainError is an error in words, with what to write instead.
func plainError(err error) string {
	var e *unit.Error
	if errors.As(err, &e) && e.Hint != "" {
		return e.Text + " (" + e.Hint + ")"
	}
	return err.Error()
}

// sizeOf reads height x width, or height x width x depth. A second measure in brackets must say the same.
func sizeOf(text string, in func(string) string, bare unit.System, bareOK bool) (unit.Size, unit.Length, error) {
	if m := twoSizes.FindStringSubmatch(text); m != nil {
		a, depth, errA := sizeOf(m[1], in, bare, bareOK)
		b, _, errB := sizeOf(m[2], in, bare, bareOK)
		far := func(x, y unit.Length) bool { return math.Abs(x.M()-y.M()) > 0.01*x.M()+0.004 }
		switch {
		case errA != nil:
			return a, 0, errA
		case errB != nil:
			return a, 0, fmt.Errorf("%s is more than a size; put what is in brackets into a column of its own", unit.Quote(text))
		case far(a.A, b.A) || far(a.B, b.B):
			return a, 0, fmt.Errorf("%s says two different sizes", unit.Quote(text))
		}
		return a, depth, nil
	}
	s := in(text)
	if strings.Count(strings.NewReplacer("×", "x", " by ", "x", "*", "x").Replace(strings.ToLower(s)), "x") >= 2 {
		v, err := unit.ParseSize3(s, bare, bareOK)
		if err == nil && !(v.A > 0 && v.B > 0 && v.C >= 0 && max(v.A, v.B) <= 40*unit.Foot) {
			err = errors.New(unit.Quote(text) + " is out of range")
		}
		return unit.Size{A: v.A, B: v.B}, v.C, err
	}
	v, err := unit.ParseSize(s, bare, bareOK)
	if err == nil && !(v.A > 0 && v.B > 0 && max(v.A, v.B) <= 40*unit.Foot) {
		err = errors.New(unit.Quote(text) + " is out of range")
	}
	return v, 0, err
}

var (
	currencyCode  = regexp.MustCompile(`(?i)\b(usd|gbp|eur|cad|aud|nzd|chf|us|ca|au|nz)\b\.?|\.-+$|,-+$`)
	blankThousand = regexp.MustCompile(`^(\d{1,3})((?: \d{3})+)(.*)$`)
	commaCents    = regexp.MustCompile(`^(\d{1,3}(?:\.\d{3})+|\d+),(\d{2})$`)
	pointThousand = regexp.MustCompile(`^\d{1,3}(\.\d{3})+$`)
)

// moneyIn is the sign of the currency in a price; empty for none.
func moneyIn(text string) string {
	for _, word := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return unicode.IsDigit(r) || strings.ContainsRune(" .,-", r) }) {
		if sign, ok := currencies[word]; ok {
			return sign
		}
	}
	return ""
}

// priceOf reads a price. "Not for sale" and the like are none.
func priceOf(text string, decimalComma bool) (unit.Money, error) {
	switch strings.ToLower(strings.Trim(text, " .")) {
	case "nfs", "n/a", "na", "-", "–", "—", "sold", "poa", "tbc", "tba", "not for sale", "on request", "price on request", "enquire", "inquire", "?":
		return 0, nil
	}
	s := strings.TrimSpace(currencyCode.ReplaceAllString(text, ""))
	s = strings.TrimSpace(strings.Trim(s, "$£€ "))
	if m := blankThousand.FindStringSubmatch(s); m != nil {
		s = m[1] + strings.ReplaceAll(m[2], " ", "") + m[3]
	}
	if m := commaCents.FindStringSubmatch(s); m != nil && (decimalComma || strings.Contains(m[1], ".")) {
		s = strings.ReplaceAll(m[1], ".", "") + "." + m[2]
	} else if pointThousand.MatchString(s) {
		return 0, fmt.Errorf("%s can be read in two ways (write %s)", unit.Quote(text), strings.ReplaceAll(s, ".", ""))
	}
	return unit.ParseMoney(s)
}
