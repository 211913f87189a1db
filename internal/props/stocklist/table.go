package stocklist

import (
	"slices"
	"strings"
)

// table is a table of works: a sheet may have several, side by side with an empty column between, or below each other, each
// under headings of its own.
type table struct {
	heads headings
	lines []line
}

// page is what a tab of the file holds, or the whole of a CSV.
type page struct {
	tab   string // its name; empty in a CSV
	lines []line // rows that have anything in them
	heads headings
	first int // the row of the headings
}

// beside are the lines above the headings, and those below with one text alone.
func (p page) beside() []line {
	out := slices.Clone(p.lines[:p.first])
	for _, l := range p.lines[p.first:] {
		if !l.varied() {
			out = append(out, l)
		}
	}
	return out
}

// unheaded reads a table without a row of headings: one whose works stand in columns, titles alone, or rows that say all in words:
// Weir, oil, 24 x 30 in, $780. It is told.
func (p *page) unheaded() bool {
	turned := transposed(p.lines)
	if h, at := findHeadings(turned); h.score() >= 2 && at == 0 {
		p.lines, p.heads, p.first = turned, h, at
		p.heads.notes = append(p.heads.notes, "Each column of this list is a work: where a row is named here, it is that column, counted from the left.")
		return true
	}
	for i, l := range p.lines[:min(len(p.lines), headRows)] {
		if h := readHeadings(l); h.has(titleMeaning) && len(h.columns) == 1 {
			p.heads, p.first = h, i
			return true
		}
	}
	n := 0
	lines := slices.Clone(p.lines)
	for i, l := range lines {
		var said []string
		for at := range l.cells {
			if text := l.text(at); text != "" {
				said = append(said, text)
			}
		}
		text := strings.Replace(strings.Join(said, ", "), ", ", "\n", 1) // its first part is the title
		if size := sizeInDetails.FindString(text); size != "" && spokenWord.MatchString(strings.Replace(text, size, "", 1)) {
			n++
		}
		lines[i].cells = []cell{newCell(text)}
	}
	if 2*n <= len(lines) {
		return false
	}
	c := column{heading: "each row"}
	c.become(titleMeaning)
	p.lines, p.first = lines, 0
	p.heads = headings{columns: []column{c}, key: map[string]Status{}, decimalComma: p.heads.decimalComma, notes: []string{"There is no row of headings: each row is read as a sentence, its title first."}}
	return true
}

// transposed are the columns of a table as rows.
func transposed(lines []line) (out []line) {
	for i, l := range lines[:min(len(lines), maxColumns)] {
		for at, c := range l.cells {
			for len(out) <= at {
				out = append(out, line{number: len(out) + 1, at: l.at})
			}
			for len(out[at].cells) < i {
				out[at].cells = append(out[at].cells, cell{})
			}
			out[at].cells = append(out[at].cells, c)
		}
	}
	return slices.DeleteFunc(out, line.blank)
}

// tables are the tables of a sheet, of which the first headings are known; lines begin with them.
func tables(heads headings, lines []line) (out []table) {
	for _, h := range heads.beside(lines[0]) {
		t := table{heads: h}
		for _, l := range lines[heads.depth:] {
			l = h.within(l)
			if next, ok := t.heads.other(l); ok {
				next.decimalComma, next.key, next.from, next.to = h.decimalComma, h.key, h.from, h.to
				out, t = append(out, t), table{heads: next}
				continue
			}
			t.lines = append(t.lines, l)
		}
		out = append(out, t)
	}
	return out
}

// beside are the headings of tables that stand side by side: each has a title and a size or a price
// of its own. Only one: the headings themselves.
func (h headings) beside(l line) (out []headings) {
	for at := 0; at < len(l.cells) && h.depth == 1; at++ {
		if l.text(at) == "" {
			continue
		}
		from := at
		for at < len(l.cells) && l.text(at) != "" {
			at++
		}
		block := headings{from: from, to: at}
		read := readHeadings(block.within(l))
		read.decimalComma, read.key, read.from, read.to = h.decimalComma, h.key, from, at
		if sized := read.has(sizeMeaning) || read.has(heightMeaning) || read.has(priceMeaning); !read.has(titleMeaning) || !sized {
			return []headings{h}
		}
		out = append(out, read)
	}
	if len(out) < 2 {
		return []headings{h}
	}
	return out
}

// within is a row without what stands beside the table.
func (h headings) within(l line) line {
	if h.to == 0 {
		return l
	}
	cells := slices.Clone(l.cells[:min(len(l.cells), h.to)])
	clear(cells[:min(len(cells), h.from)])
	l.cells = cells
	return l
}

// other is whether a row has nothing but headings, and others than the table has: then a further table begins there.
func (h headings) other(l line) (headings, bool) {
	same, n, unknown := true, 0, 0
	for i := range l.cells {
		text := l.text(i)
		if text == "" {
			continue
		}
		if n++; l.cells[i].long || len(text) > 40 {
			return headings{}, false
		}
		if readHeading(text).means == noMeaning {
			unknown++
		}
		same = same && slices.ContainsFunc(h.columns, func(c column) bool { return c.at == i && folded(c.heading) == folded(text) })
	}
	if n < 3 || same {
		return headings{}, false
	}
	next := readHeadings(l)
	return next, next.named() && (unknown == 0 || unknown == 1 && n > 3 && (next.has(priceMeaning) || next.sized()))
}
