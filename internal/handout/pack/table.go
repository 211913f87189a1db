package pack

import (
	"strings"

	"boothmock/internal/find/hang"
)

const (
	cellPad = near // mm on each side of a cell's text
	written = 7.0  // mm: a line that somebody writes on, as in ruled paper (common practice, no source)
)

// beginning is how much of a section must be on one page: its title with what it leads to.
func (d *paper) beginning(s hang.Section) float64 {
	need := far + line(head) + near
	for _, p := range s.Intro {
		d.letters("", body)
		need += float64(len(d.lines(p, d.right-d.left)))*line(body) + near
	}
	if len(s.Tables) > 0 {
		need += d.together(d.lay(s.Tables[0]))
	} else if len(s.Notes) > 0 {
		need += 4 * line(body)
	}
	return min(need, 0.8*d.high)
}

// section prints a section of the sheet: title, introduction, tables, notes.
func (d *paper) section(s hang.Section) {
	if s.Empty() {
		return
	}
	d.room(d.beginning(s))
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

// laid is a table that is broken into lines for the width of the page.
type laid struct {
	title string
	wide  []float64
	top   row
	rows  []row
	form  bool
}

func (d *paper) lay(t hang.Table) laid {
	l := laid{title: t.Title, wide: d.columns(t), form: t.Form}
	broken := func(cells []string, style string) row {
		d.letters(style, caption)
		r := row{}
		n := 1
		for i, c := range cells {
			lines := d.lines(c, l.wide[i]-2*cellPad)
			r.cells, n = append(r.cells, lines), max(n, len(lines))
		}
		r.high = float64(n)*line(caption) + near
		if t.Form && style == "" {
			r.high = max(r.high, written)
		}
		return r
	}
	l.top = broken(t.Head, "B")
	for _, r := range t.Rows {
		l.rows = append(l.rows, broken(r, ""))
	}
	return l
}

// high is how high a table with its first rows is.
func (l laid) high(rows int) float64 {
	high := apart + line(lead) + l.top.high
	for _, r := range l.rows[:rows] {
		high += r.high
	}
	return high
}

// together is how much of a table must be on one page with what leads to it: all of a short one or a form, else its first rows.
func (d *paper) together(l laid) float64 {
	if whole := l.high(len(l.rows)); whole <= 0.4*d.high || l.form && whole <= 0.8*d.high {
		return whole
	}
	return l.high(min(len(l.rows), 3))
}

// table prints a table, with its head again on every page that it runs on to. No row stands alone on a page.
func (d *paper) table(t hang.Table) {
	l := d.lay(t)
	d.room(d.together(l))
	d.y += apart
	if t.Title != "" {
		d.say(t.Title, "B", lead, 0)
	}
	d.row(l, l.top, "B")
	for i, r := range l.rows {
		high := r.high
		if n := len(l.rows); i == n-2 && i > 0 {
			high += l.rows[n-1].high
		}
		if d.room(high) {
			d.row(l, l.top, "B")
		}
		d.row(l, r, "")
	}
	d.y += apart
}

// row prints a row of a table, that of its head on grey.
func (d *paper) row(l laid, r row, style string) {
	d.letters(style, caption)
	if style == "B" {
		d.pdf.SetFillColor(228, 228, 228)
		d.pdf.Rect(d.left, d.y, d.right-d.left, r.high, "F")
		d.pdf.SetFillColor(0, 0, 0)
	}
	x := d.left
	for i, c := range r.cells {
		for k, text := range c {
			base := d.y + near/2 + (float64(k)+0.75)*line(caption)
			if text == "[ ]" {
				d.pdf.Rect(x+cellPad, base-2.6, 3, 3, "D")
				continue
			}
			d.pdf.Text(x+cellPad, base, text)
		}
		x += l.wide[i]
	}
	d.y += r.high
	d.pdf.SetLineWidth(thin)
	d.pdf.Line(d.left, d.y, d.right, d.y)
}
