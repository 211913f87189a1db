package stocklist

import (
	"encoding/xml"
	"math"
	"slices"
	"strconv"
)

// Some say by the look of a row that its work is sold: they strike it through, or give it a colour that a line beside the table explains.

// look is the first cell of a row by which its work is known.
func (h headings) look(l line) cell {
	for _, m := range []meaning{titleMeaning, nameMeaning, fileMeaning, numberMeaning} {
		if c, ok := h.find(m); ok && l.text(c.at) != "" {
			return l.cells[c.at]
		}
	}
	return cell{}
}

func (h headings) struck(l line) bool { return h.look(l).struck }

// filled is the colour of a row, by the word for it that a key has, or as the file names it; empty for none.
func (h headings) filled(l line) string {
	f := h.look(l).fill
	for _, word := range []string{f.String(), f.hue()} {
		if _, ok := h.key[word]; ok && word != "" {
			return word
		}
	}
	return f.String()
}

// explained is whether a line says what the colour of a row means.
func (h headings) explained(l line) bool {
	_, ok := h.key[h.filled(l)]
	return ok
}

// fills adds to the key what cells in a colour beside the works say of it, or those behind one: [red] sold.
func (h headings) fills(lines []line) {
	for i, l := range lines {
		for at := range l.cells {
			c := l.cells[at]
			if c.long || c.text == "" || i == 0 && len(l.cells) == len(h.columns) {
				continue
			}
			if slices.ContainsFunc(h.columns, func(c column) bool { return c.at == at }) && l.several() {
				continue
			}
			s, ok := state(c.text, true)
			if !ok {
				continue
			}
			if c.fill == 0 && at > 0 && l.cells[at-1].text == "" {
				c.fill = l.cells[at-1].fill
			}
			if c.fill != 0 {
				h.key[c.fill.String()] = s
			}
		}
	}
}

// several is whether a row has more than one text, as a work's has.
func (l line) several() bool {
	n := 0
	for i := range l.cells {
		if l.text(i) != "" {
			n++
		}
	}
	return n > 1
}

// fill is a colour of a spreadsheet: 1 and red, green, blue, or 2 and a number of its theme with its tint, or 3 and one of the old palette.
type fill uint32

// fillOf is the colour of an element (ECMA-376 part 1, 18.8.3); white is none.
func fillOf(e xml.StartElement) fill {
	number := func(name string, base int) uint64 {
		text := attribute(e, name)
		v, _ := strconv.ParseUint(text[max(0, len(text)-6):], base, 24)
		return v
	}
	switch {
	case attribute(e, "rgb") != "" && number("rgb", 16) != 0xffffff:
		return 1<<24 | fill(number("rgb", 16))
	case attribute(e, "theme") != "":
		tint, _ := strconv.ParseFloat(attribute(e, "tint"), 64)
		return 2<<24 | fill(number("theme", 10)&255)<<16 | fill(uint16(math.Round(10000*tint)))
	case attribute(e, "indexed") != "":
		return 3<<24 | fill(number("indexed", 10))
	}
	return 0
}

// String is by what a key knows it.
func (f fill) String() string {
	if f == 0 {
		return ""
	}
	return "#" + strconv.FormatUint(uint64(f), 16)
}

// hue is the word for a colour; empty for none.
func (f fill) hue() string {
	if f>>24 != 1 {
		return ""
	}
	r, g, b := int(f>>16&255), int(f>>8&255), int(f&255)
	high, low := max(r, g, b), min(r, g, b)
	switch {
	case high-low < 24:
		return "grey"
	case b == high && g < (high+low)/2+40 && r > (high+low)/2:
		return "purple"
	case b == high:
		return "blue"
	case g == high && r < high-(high-low)/4:
		return "green"
	case g >= low+3*(high-low)/4:
		return "yellow"
	case g >= low+(high-low)/3:
		return "orange"
	case b > low+(high-low)/2:
		return "pink"
	}
	return "red"
}
