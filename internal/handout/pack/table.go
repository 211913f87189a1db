package pack

import (
	"strings"

	"boothmock/internal/find/hang"
)

const cellPad = near // mm on each side of a cell's text

// section prints a section of the sheet: title, introduction, tables, notes.
func (d *paper) section(s hang.Section) {
	d.room(60)
	if d.y > margin+1 {
		d.y += far
	}
	d.say(s.Title, "B", head, 0)
	d.y += near
	d.rest(s)
}

// rest is a section without its title.
func (d *paper) rest(s hang.Section) {
	for _, p := range s.Intro {
		d.say(p, "", body, 0)
		d.y += near
	}
	for _, t := range s.Tables {
		d.table(t)
	}
	if len(s.Notes) > 0 {
		d.y += apart
	}
	for _, n := range s.Notes {
		d.point(n)
	}
}

// row is a row of a table, broken into lines.
type row struct {
	cells [][]string
	high  float64
}

// columns are the widths of a table's columns, in mm: as they are wished, but none narrower than its longest word, for which the
// others give of what they have to spare.
func (d *paper) columns(t hang.Table) []float64 {
	longest := make([]float64, len(t.Wide))
	measure := func(cells []string) {
		for i, c := range cells {
			longest[i] = max(longest[i], d.longestWord(c))
		}
	}
	d.letters("B", caption)
	measure(t.Head)
	d.letters("", caption)
	wished, lack, spare := 0.0, 0.0, 0.0
	for _, r := range t.Rows {
		measure(r)
	}
	for _, w := range t.Wide {
		wished += w
	}
	wide, over := make([]float64, len(t.Wide)), make([]float64, len(t.Wide))
	for i, w := range t.Wide {
		wide[i] = w / wished * (d.right - d.left)
		over[i] = wide[i] - longest[i] - 2*cellPad
		spare += max(over[i], 0)
		lack += max(-over[i], 0)
	}
	if lack == 0 || lack > spare {
		return wide
	}
	for i := range wide {
		wide[i] -= min(over[i], max(over[i], 0)*lack/spare)
	}
	return wide
}

// longestWord is how wide the widest word of a text is in the letters that are set.
func (d *paper) longestWord(text string) float64 {
	widest := 0.0
	for _, w := range strings.Fields(text) {
		widest = max(widest, d.pdf.GetStringWidth(w))
	}
	return widest
}

// table prints a table, with its head again on every page that it runs on to.
func (d *paper) table(t hang.Table) {
	wide := d.columns(t)
	step := line(caption)
	broken := func(cells []string, style string) row {
		d.letters(style, caption)
		r := row{}
		n := 1
		for i, c := range cells {
			l := d.lines(c, wide[i]-2*cellPad)
			r.cells, n = append(r.cells, l), max(n, len(l))
		}
		r.high = float64(n)*step + near
		return r
	}
	top := broken(t.Head, "B")
	print := func(r row, style string, fill bool) {
		d.letters(style, caption)
		x := d.left
		if fill {
			d.pdf.SetFillColor(228, 228, 228)
			d.pdf.Rect(d.left, d.y, d.right-d.left, r.high, "F")
			d.pdf.SetFillColor(0, 0, 0)
		}
		for i, c := range r.cells {
			for k, l := range c {
				base := d.y + near/2 + (float64(k)+0.75)*step
				if l == "[ ]" {
					d.pdf.Rect(x+cellPad, base-2.6, 3, 3, "D")
					continue
				}
				d.pdf.Text(x+cellPad, base, l)
			}
			x += wide[i]
		}
		d.y += r.high
		d.pdf.SetLineWidth(thin)
		d.pdf.Line(d.left, d.y, d.right, d.y)
	}
	rows := make([]row, len(t.Rows))
	for i, r := range t.Rows {
		rows[i] = broken(r, "")
	}
	whole := 8 + top.high
	for _, r := range rows {
		whole += r.high
	}
	d.y += apart
	if whole > 0.4*d.high { // it may run over a page
		whole = 8 + top.high
		for _, r := range rows[:min(3, len(rows))] {
			whole += r.high
		}
	}
	d.room(whole)
	if t.Title != "" {
		d.say(t.Title, "B", lead, 0)
	}
	print(top, "B", true)
	for _, r := range rows {
		if d.room(r.high) {
			print(top, "B", true)
		}
		print(r, "", false)
	}
	d.y += apart
}
