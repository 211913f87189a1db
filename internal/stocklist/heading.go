package stocklist

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// meaning is what a column can hold.
type meaning int

const (
	noMeaning meaning = iota
	numberMeaning
	nameMeaning
	titleMeaning
	fileMeaning
	sizeMeaning
	heightMeaning
	widthMeaning
	depthMeaning
	unitMeaning
	weightMeaning
	priceMeaning
	mediumMeaning
	editionMeaning
)

// known are the headings that artists use, in lower case, one line a meaning, with "|" between.
var known = map[meaning]string{
	numberMeaning:  "no|nr|num|number|#|id|ref|reference|code|inventory no|inventory number|inventory|inv no|cat no|catalogue no|catalog no|catalogue number|stock no|sku|item|item no|item number|work no|work number",
	nameMeaning:    "name|short name",
	titleMeaning:   "title|titles|work title|title of work|title of the work|artwork|artwork title|title of artwork|artwork name|name of work|work|painting|print|piece|work name",
	fileMeaning:    "file|files|filename|file name|image|image file|image name|photo|photo file|photo name|photograph|picture|picture file|jpg|jpeg",
	sizeMeaning:    "size|sizes|dimensions|dimension|dims|dim|measurements|image size|work size|picture size|artwork size|image dimensions|unframed size|unframed dimensions|size unframed|dimensions unframed",
	heightMeaning:  "height|h|ht|high|image height|work height|unframed height",
	widthMeaning:   "width|w|wd|wide|image width|work width|unframed width",
	depthMeaning:   "depth|d|deep|thickness",
	unitMeaning:    "unit|units|unit of measure",
	weightMeaning:  "weight|wt",
	priceMeaning:   "price|prices|retail|retail price|asking|asking price|sale price|selling price|price each|cost",
	mediumMeaning:  "medium|media|technique|material|materials",
	editionMeaning: "edition|ed|edition no|edition number|edition of",
}

// words for people.
var meant = map[meaning]string{
	numberMeaning: "number", nameMeaning: "name", titleMeaning: "title", fileMeaning: "photograph", sizeMeaning: "size",
	heightMeaning: "height", widthMeaning: "width", depthMeaning: "depth", unitMeaning: "unit", weightMeaning: "weight",
	priceMeaning: "price", mediumMeaning: "medium", editionMeaning: "edition",
}

var unitWords = map[string]string{
	"in": "in", "ins": "in", "inch": "in", "inches": "in", `"`: "in", "cm": "cm", "cms": "cm", "centimetres": "cm", "centimeters": "cm",
	"mm": "mm", "ft": "ft", "feet": "ft", "m": "m", "lb": "lb", "lbs": "lb", "pounds": "lb", "kg": "kg", "kgs": "kg", "kilos": "kg", "oz": "oz", "g": "g", "grams": "g",
}

// currencies are the signs before an amount, by what headings and cells call them.
var currencies = map[string]string{
	"$": "$", "usd": "$", "us$": "$", "£": "£", "gbp": "£", "€": "€", "eur": "€", "cad": "CAD", "aud": "AUD", "nzd": "NZD", "chf": "CHF",
}

// column is a column that has a meaning.
type column struct {
	at      int
	heading string
	means   meaning
	unit    string // that the heading states: "in"; empty: none
	money   string // the sign of the currency that it states; empty: none
	swapped bool   // sizes are width x height
}

// headings are the columns of a sheet.
type headings struct {
	columns      []column
	unused       []string
	notes        []string
	decimalComma bool // as in sheets with semicolons: 480,50
}

func (h headings) used() []Column {
	out := make([]Column, len(h.columns))
	for i, c := range h.columns {
		m := meant[c.means]
		switch {
		case c.means == sizeMeaning && c.swapped:
			m += ", width x height"
		case c.means == sizeMeaning:
			m += ", height x width"
		}
		if c.unit != "" {
			m += ", in " + cmp.Or(map[string]string{"in": "inches"}[c.unit], c.unit)
		}
		out[i] = Column{c.heading, m}
	}
	return out
}

// findHeadings is the row among the first ones with the most headings; it must have at least a title, a name, a file or a
// number, and one more. No such row: no columns.
func findHeadings(lines []line) (best headings, at int) {
	for i, l := range lines[:min(len(lines), headRows)] {
		h := readHeadings(l)
		named := slices.ContainsFunc(h.columns, func(c column) bool { return c.means <= fileMeaning })
		if named && len(h.columns) >= 2 && len(h.columns) > len(best.columns) {
			best, at = h, i
		}
	}
	return best, at
}

func readHeadings(l line) headings {
	var h headings
	taken := map[meaning]string{}
	for i := range l.cells {
		text := l.text(i)
		if text == "" {
			continue
		}
		c := readHeading(text)
		c.at, c.heading = i, text
		switch before, twice := taken[c.means]; {
		case c.means == noMeaning:
			h.unused = append(h.unused, text)
		case twice:
			h.unused = append(h.unused, text)
			h.notes = append(h.notes, fmt.Sprintf("Two columns are a %s: %q is used, %q is not.", meant[c.means], before, text))
		default:
			taken[c.means] = text
			h.columns = append(h.columns, c)
		}
	}
	if _, ok := taken[titleMeaning]; !ok { // a column Name alone is that of titles
		for i := range h.columns {
			if h.columns[i].means == nameMeaning {
				h.columns[i].means = titleMeaning
			}
		}
	}
	return h
}

var (
	punctuation = regexp.MustCompile(`[()\[\]{}.,:;/_*–-]+`)
	order       = regexp.MustCompile(`\b(h|height|w|width) ?(?:x|by) ?(h|height|w|width)( ?(?:x|by) ?(?:d|depth))?\b`)
)

// readHeading is what a heading means, and the unit that it states.
func readHeading(text string) column {
	c := column{}
	s := strings.Join(strings.Fields(punctuation.ReplaceAllString(strings.ReplaceAll(strings.ToLower(text), "×", "x"), " ")), " ")
	if m := order.FindStringSubmatch(s); m != nil && m[1][0] != m[2][0] {
		c.swapped = m[1][0] == 'w'
		if s = strings.TrimSpace(strings.Replace(s, m[0], "", 1)); !strings.Contains(s, "size") && !strings.Contains(s, "dim") {
			s = strings.TrimSpace("size " + s)
		}
	}
	words := strings.Fields(s)
	var rest []string
	for i, w := range words {
		if u, ok := unitWords[w]; ok && (i > 0 || len(words) > 1 && w != "m" && w != "g") {
			c.unit = u
			continue
		}
		if sign, ok := currencies[w]; ok && len(words) > 1 {
			c.money = sign
			continue
		}
		rest = append(rest, w)
	}
	s = strings.Join(rest, " ")
	for means, list := range known {
		if slices.Contains(strings.Split(list, "|"), s) {
			c.means = means
		}
	}
	return c
}
