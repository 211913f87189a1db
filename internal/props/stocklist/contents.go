package stocklist

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"boothmock/internal/basis/unit"
)

// What the headings leave open is read from what stands under them, where that can mean one thing only. It is always told.

// fromContents gives a meaning to columns whose headings are not known, from their cells: that of the title, the size or the
// price if no heading says so, and that of notes if a cell says no more than sold, on hold and the like.
func (h *headings) fromContents(lines []line) error {
	h.sorts(lines)
	for i := range h.columns { // Valor: the price, where no other is
		if c := &h.columns[i]; c.means == valueMeaning && !h.priced() && !insured.are(c.by) {
			h.guess(c, priceMeaning)
		}
	}
	for i := range h.columns { // Variation name: 8 x 10 in, of a shop that sells one picture in several sizes
		c := &h.columns[i]
		if n := count(lines, c.at, sizeInText.MatchString); (c.means == valueMeaning || c.means == nameMeaning) && n > 0 && 2*n > count(lines, c.at, said) {
			if !h.sized() {
				h.guess(c, sizeMeaning)
				continue
			}
			c.become(privateMeaning)
			c.word.Called, c.word.Use = "the size again", "not used"
		}
	}
	for _, open := range []struct {
		means meaning
		named bool // some heading says so
		is    func(string) bool
	}{
		{sizeMeaning, h.sized(), isSize},
		{priceMeaning, h.priced() || h.has(costMeaning) || h.has(valueMeaning), func(s string) bool {
			v, err := priceOf(s, h.decimalComma)
			return err == nil && v > 0 && moneyIn(s) != ""
		}},
		{titleMeaning, h.has(titleMeaning) || h.has(fileMeaning), func(s string) bool { return spokenWord.MatchString(s) }},
	} {
		if open.named {
			continue
		}
		if err := h.only(lines, open.means, open.is); err != nil {
			return err
		}
	}
	for i := range h.columns {
		c := &h.columns[i]
		switch filled := count(lines, c.at, said); {
		case !c.unknown():
		case count(lines, c.at, saysState) > 0:
			m := notesMeaning
			if filled == count(lines, c.at, func(s string) bool { return s != "" && utf8.RuneCountInString(s) < 12 }) { // what is no status there is told
				m = statusMeaning
			}
			h.guess(c, m)
		case filled > 0 && filled == count(lines, c.at, func(s string) bool { return yes.are(folded(s)) || no.are(folded(s)) }):
			h.notes = append(h.notes, fmt.Sprintf("The heading %s is not known here, and under it stand yes and no: it is not used, whatever it asks.", unit.Quote(c.heading)))
		}
	}
	return nil
}

var insured = list("insurance|insured|versicherung|versicherungswert|versicherungssumme|assurance|verzekering|forsakringsvarde|seguro|assicurazione|vakuutusarvo|pojistna hodnota")

// priced is whether some column says what the works cost.
func (h *headings) priced() bool {
	return h.has(priceMeaning) || h.has(framedPriceMeaning) || h.has(unframedPriceMeaning) || h.has(untaxedMeaning)
}

var spokenWord = regexp.MustCompile(`\pL{3}`)

// unknown is whether no word of a heading is known.
func (c column) unknown() bool { return c.means == noMeaning && c.word.Called == "" }

// only gives a meaning to the one column without any in most cells of which there is such. Of several it cannot be told.
func (h *headings) only(lines []line, m meaning, is func(string) bool) error {
	var such []*column
	for i := range h.columns {
		c := &h.columns[i]
		if !c.unknown() {
			continue
		}
		filled, n := count(lines, c.at, said), 0
		texts := map[string]bool{}
		for _, l := range lines {
			if t := l.text(c.at); is(t) {
				n++
				texts[t] = true
			}
		}
		if m == sizeMeaning && n > 2 && n == len(texts) && count(lines, c.at, sizeInText.MatchString) == 0 { // A1, A2, A3, A4: numbers
			continue
		}
		if n > 0 && 2*n > filled && (m != titleMeaning || 2*filled > len(lines) && 5*len(texts) >= 4*n) {
			such = append(such, c)
		}
	}
	switch called := Vocabulary[slices.IndexFunc(Vocabulary, func(w Word) bool { return w.means == m })].Called; {
	case len(such) == 1:
		h.guess(such[0], m)
	case len(such) > 1:
		return fmt.Errorf("two columns can be the %s, %q and %q (write “%s” over the one that is)", called, such[0].heading, such[1].heading, strings.ToUpper(called[:1])+called[1:])
	}
	return nil
}

// guess gives a column a meaning that its heading does not say.
func (h *headings) guess(c *column, m meaning) {
	was := c.means
	c.become(m)
	h.notes = append(h.notes, fmt.Sprintf("The heading %s %s; by what stands under it, it is taken for the %s.", unit.Quote(c.heading), map[bool]string{true: "is not known here", false: "can mean several things"}[was == noMeaning], c.word.Called))
}

// saysState is whether a text says of a work that it is sold, on hold and the like, and nothing else. Home and gallery may be a motif.
func saysState(text string) bool {
	text = oneForm(folded(text))
	for i, s := range States {
		if s.Is != ForSale && s.Is != Spare && s.Is != Elsewhere && stateWords[i].are(text) {
			return true
		}
	}
	return false
}

var (
	papers        = list(sheetWords)
	pictureNumber = list("nr|no|n|num|number|nummer|numero|#")
)

// sorts decides what columns of pictures, of paper and of sales are, whose headings can mean two things.
func (h *headings) sorts(lines []line) {
	for i := range h.columns {
		c := &h.columns[i]
		filled := count(lines, c.at, said)
		sizes := count(lines, c.at, isSize)
		sized := filled > 0 && filled == sizes
		_, paper := papers.in(folded(c.heading))
		switch {
		case len(c.by) == 1 && slices.Contains(measures, c.means) && filled > 0 && count(lines, c.at, hasDigit) == 0: // T of titles
			c.means, c.word = noMeaning, Word{}
		case c.means == fileMeaning && sized:
			c.become(sizeMeaning)
		case c.unknown() && sized && paper:
			c.become(sheetMeaning)
		case c.means == sheetMeaning && filled > 0 && sizes == 0: // a height alone
			c.become(privateMeaning)
			c.word.Called, c.word.Use = "height or width of the sheet", "not used"
		case c.means == linkMeaning && !h.has(fileMeaning) && filled > 0 && filled == count(lines, c.at, pictureFile.MatchString): // photo_url
			c.become(fileMeaning)
		case c.unknown() && filled > 1 && filled == count(lines, c.at, h.isDot):
			h.guess(c, statusMeaning)
		case c.means == fileMeaning && !h.has(numberMeaning) && count(lines, c.at, pictureFile.MatchString) == 0:
			if _, ok := pictureNumber.in(folded(c.heading)); ok { // Bild-Nr.
				c.become(numberMeaning)
			}
		case c.means == soldMeaning && h.sells(lines, c.at): // of an edition, how many
			c.become(privateMeaning)
			c.word.Called, c.word.Use = "how many are sold", "not used"
		}
	}
}

// isSize is whether a text has a size in it, or is a format.
func isSize(s string) bool {
	_, _, ok := formatOf(s)
	return ok || sizeInText.MatchString(s)
}

func hasDigit(s string) bool { return strings.ContainsAny(s, "0123456789") }

// isDot is whether a cell has a colour or a word that stands for a status.
func (h headings) isDot(s string) bool {
	_, dot := dotOf(folded(s))
	_, keyed := h.key[folded(s)]
	return dot || keyed
}

// sells is whether a column of sales counts prints: numbers alone, some above 1, beside an edition or how many are left.
func (h *headings) sells(lines []line, at int) bool {
	filled := count(lines, at, said)
	return (h.has(editionMeaning) || h.has(quantityMeaning)) && filled == count(lines, at, isCount) && filled > count(lines, at, func(s string) bool { return s == "0" || s == "1" })
}

func isCount(s string) bool { return s != "" && len(s) < 5 && strings.Trim(s, "0123456789") == "" }

// What titles have in them, in lists without a column for it.
var (
	yearInTitle   = regexp.MustCompile(`^(.+?)(?: *[(\[](?:c?a?\.? ?)?((?:1[89]|20)\d\d)[)\]]|(?:, *| +[-–—] +)((?:1[89]|20)\d\d))$`)
	numberInTitle = regexp.MustCompile(`^(?:[Nn][or°º]\.? ?)?(\d{1,4})(?:[.):]| [-–—])\s+(\S.*)$`)
)

// inTitles is whether most titles are such.
func (h *headings) inTitles(lines []line, such *regexp.Regexp) bool {
	c, ok := h.find(titleMeaning)
	return ok && 2*count(lines, c.at, func(s string) bool {
		_, s = endOf(s)
		return such.MatchString(s)
	}) > len(lines)
}

// split takes number, year and status out of a title.
func (d *reading) split(r *Row) {
	_, r.Title = endOf(r.Title)
	if m := numberInTitle.FindStringSubmatch(r.Title); m != nil && d.heads.numbered && r.No == "" {
		r.No, r.Title = m[1], m[2]
	}
	if m := yearInTitle.FindStringSubmatch(r.Title); m != nil && d.heads.dated && r.Year == "" {
		r.Title, r.Year = m[1], m[2]+m[3]
	}
}

// endOf is what the end of a title says of a work, behind a dash or a comma or in capitals, and the title without it: The Mill - SOLD.
func endOf(title string) (Status, string) {
	for at, r := range title {
		if !strings.ContainsRune(" ,;", r) {
			continue
		}
		end := strings.TrimLeft(title[at:], " ,;*:-–—")
		apart := strings.TrimSpace(title[at:len(title)-len(end)]) != ""
		end = strings.TrimRight(end, " !*.")
		loud := end == strings.ToUpper(end) && end != strings.ToLower(end)
		if s, ok := state(end, true); ok && (apart || loud) && saysState(end) {
			return s, strings.TrimSpace(title[:at])
		}
	}
	return ForSale, title
}
