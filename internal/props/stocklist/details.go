package stocklist

import (
	"regexp"
	"slices"
	"strings"
)

// Some lists say in one cell what others have columns for: Oil on canvas, 24 x 36 in, 2023; or a label of several lines, the title first. Such a
// column is taken apart into columns of its own, which are then read as any other.

const oneMeasure = `\d+(?:[.,]\d+)?(?:[ -]\d+/\d+| ?[½¼¾⅛⅜⅝⅞])?\s*(?:(?:inches|inch|ins|in|cm|mm|feet|ft|m)\b\.?|["″”'’]{1,2})?`

var (
	sizeInDetails = regexp.MustCompile(`(?i)` + oneMeasure + `\s*[x×]\s*` + oneMeasure + `(?:\s*[x×]\s*` + oneMeasure + `)?`)
	yearAlone     = regexp.MustCompile(`^(?:c?a?\.? ?)?((?:1[89]|20)\d\d)$`)
	parts         = regexp.MustCompile(`[,;()\n]| [-–—|] `)
	inNumber      = regexp.MustCompile(`(\d)([,;])(\d)`)
	sentenceEnd   = regexp.MustCompile(`(\pL{3}|\d|["″”’])\. +`)
	editionAlone  = regexp.MustCompile(`(?i)^(?:ed\w*\.?|edition(?: of)?|auflage|tirage|nr|no)?[ .:]*\d{1,4} ?/ ?\d{1,4}$|^(?:edition|ed\.?|auflage|tirage)(?: of)? \d+$`)
	amountAlone   = regexp.MustCompile(`^\d{2,}(?:[.,]\d+)*$`)
)

// details takes apart the first column that holds more than one thing, in lists in which no column says the size.
func (h *headings) details(lines []line) []line {
	if h.sized() || len(lines) == 0 {
		return lines
	}
	lines = slices.Clone(lines)
	at := len(h.columns)
	for _, l := range lines {
		at = max(at, len(l.cells))
	}
	title := -1 // the column of labels
	for i := range h.columns {
		c := &h.columns[i]
		if (c.means == titleMeaning || !h.has(titleMeaning) && (c.unknown() || c.means == notesMeaning || c.means == nameMeaning)) && 2*countRaw(lines, c.at, func(s string) bool { return strings.Contains(s, "\n") }) > len(lines) {
			title = i
			break
		}
	}
	from := title
	if title < 0 {
		from = slices.IndexFunc(h.columns, func(c column) bool {
			open := c.unknown() || c.means == notesMeaning || c.means == mediumMeaning || c.means == titleMeaning
			return open && 2*countRaw(lines, c.at, func(s string) bool {
				return sizeInDetails.MatchString(s) && spokenWord.MatchString(strings.Replace(s, sizeInDetails.FindString(s), "", 1))
			}) > len(lines)
		})
	}
	if from < 0 {
		return lines
	}
	c := h.columns[from]
	if c.means == titleMeaning {
		title = from
	}
	into := []meaning{sizeMeaning}
	for _, m := range []meaning{mediumMeaning, yearMeaning, frameMeaning, editionMeaning, priceMeaning, notesMeaning} {
		if (!h.has(m) || c.means == m) && (m != priceMeaning || !h.priced()) {
			into = append(into, m)
		}
	}
	if title >= 0 {
		h.columns[title].become(titleMeaning)
	} else {
		h.columns[from].means, h.columns[from].word = ignoredMeaning, Word{Called: "several things", Use: "taken apart"}
	}
	for i, l := range lines {
		if c.at >= len(l.cells) || l.tooLong() {
			continue
		}
		cells := make([]cell, at+len(into))
		copy(cells, l.cells)
		first, found := takeApart(printable(l.cells[c.at].text), title >= 0)
		if title >= 0 {
			cells[c.at] = newCell(first)
		}
		for k, m := range into {
			cells[at+k] = newCell(found[m])
		}
		lines[i].cells = cells
	}
	for k, m := range into {
		n := column{at: at + k, heading: c.heading, unit: c.unit}
		if n.become(m); count(lines, n.at, said) > 0 {
			h.columns = append(h.columns, n)
		}
	}
	return lines
}

// takeApart is what a text of several things says: of one that begins with a title, that first.
func takeApart(text string, titled bool) (title string, found map[meaning]string) {
	found = map[meaning]string{sizeMeaning: sizeInDetails.FindString(text)}
	if titled {
		title = text
		if at := strings.IndexByte(text, '\n'); at >= 0 {
			title = text[:at]
		} else if at := sizeInDetails.FindStringIndex(text); at != nil {
			title = text[:at[0]]
		}
		text = text[len(title):]
		title = strings.Trim(title, " ,;:-–—(|")
	}
	text = inNumber.ReplaceAllString(strings.Replace(text, found[sizeMeaning], "\n", 1), "$1\x00$2$3")
	text = strings.NewReplacer("\x00,", "\x00", "\x00;", "\n").Replace(text) // $1,250 is one thing
	for _, clause := range parts.Split(sentenceEnd.ReplaceAllString(text, "$1\n"), -1) {
		clause = strings.Trim(strings.ReplaceAll(clause, "\x00", ","), " .")
		plain := folded(clause)
		m := mediumMeaning
		switch _, framed := isFramed.in(plain); {
		case plain == "":
			continue
		case yearAlone.MatchString(clause) && found[yearMeaning] == "":
			m = yearMeaning
		case editionAlone.MatchString(clause):
			m = editionMeaning
		case isAmount(clause):
			m = priceMeaning
		case bareOf(plain), framed && len(strings.Fields(plain)) < 4:
			m = frameMeaning
		case found[mediumMeaning] != "", saysState(clause):
			m = notesMeaning
		}
		if found[m] != "" {
			clause = found[m] + ", " + clause
		}
		found[m] = clause
	}
	return title, found
}

// isAmount is whether a clause is a price.
func isAmount(clause string) bool {
	_, err := priceOf(clause, false)
	return (err == nil || framedPrices.MatchString(clause)) && (amountAlone.MatchString(clause) || hasDigit(clause) && moneyIn(clause) != "")
}

// countRaw is in how many rows a cell, with its line breaks, is such.
func countRaw(lines []line, at int, is func(string) bool) int {
	n := 0
	for _, l := range lines {
		if at < len(l.cells) && is(l.cells[at].text) {
			n++
		}
	}
	return n
}
