package pack

import (
	"slices"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"boothmock/internal/find/hang"
	"boothmock/internal/view/draft"
)

// field is a piece of the page that text and tables flow into, in mm.
type field struct{ left, right, top float64 }

// wall is a wall's page, lying: its drawing with all measures, and the same as tables beside it, or under it where it is drawn larger so;
// notes below the tables, or below the drawing where they find no room there. What finds none flows into two columns on the next page.
func (d *paper) wall(w hang.Wall) {
	const gap = far
	sec := d.sheet.WallSection(w)
	d.page("L", sec.Title)
	d.contents = append(d.contents, entry{sec.Title, d.pdf.PageNo()})
	d.say(sec.Title, "B", head, 0)
	for _, p := range sec.Intro {
		d.say(p, "", caption, 0)
	}
	d.y += apart
	for i, t := range sec.Tables {
		sec.Tables[i] = narrowed(t)
	}
	top, half := d.y, (d.wide-2*margin-gap)/2
	beside := d.wide - 2*margin - tablesWide - gap
	d.left = d.right - tablesWide
	under := d.tall(sec.Notes, tablesWide) // of the tables, where all fits there
	for _, t := range sec.Tables {
		under += d.lay(t).high(len(t.Rows)) + apart
	}
	notes, last := sec.Notes, []string(nil)
	if top+under <= d.high-margin {
		notes, last = nil, notes
	}
	g := d.elevation(w, beside, d.high-margin-top-d.tall(notes, 0.8*beside)) // a round scale may make it narrower
	over := d.elevation(w, d.wide-2*margin, 0.6*(d.high-margin-top))
	long := over.Scale > g.Scale
	if beside = max(g.Wide, 0.8*beside); long {
		g, beside = over, d.wide-2*margin
	}
	flow := []field{{margin + beside + gap, d.wide - margin, top}}
	if long {
		notes, last = sec.Notes, nil
		under := top + g.High + d.tall(notes, beside)
		flow = []field{{margin, margin + half, under}, {margin + half + gap, d.wide - margin, under}}
	}
	d.plot(margin, top, g.Marks)
	d.y, d.left, d.right = top+g.High+apart, margin, margin+beside
	for _, n := range notes {
		d.say(n, "", caption, 0)
	}
	d.next = func() {
		if len(flow) == 0 {
			d.page("L", sec.Title)
			flow = []field{{margin, margin + half, margin}, {margin + half + gap, d.wide - margin, margin}}
		}
		d.left, d.right, d.y = flow[0].left, flow[0].right, flow[0].top
		flow = flow[1:]
	}
	d.next()
	for _, t := range sec.Tables {
		d.table(t)
	}
	for _, n := range last {
		d.say(n, "", caption, 0)
	}
	d.next = nil
}

// column is a column of a narrow table: its head, its width, and the columns that it is made of.
type column struct {
	head string
	wide float64
	of   []string
}

// narrow are the tables of a wall as they stand beside its drawing, which has the gaps.
var narrow = map[string][]column{
	"Hooks": {{"", 7, []string{"hook"}}, {"from left", 16, []string{"from the left end"}}, {"from right", 16, []string{"from the right end"}}, {"carries at", 16, []string{"height: carries"}},
		{"holds on at", 16, []string{"height: holds on"}}, {"from top", 15, []string{"on, from the top"}}, {"tie loop", 14, []string{"tie loop"}}},
	"Works, from the left": {{"", 7, []string{""}}, {"work, and how it hangs", 47, []string{"work", "how it hangs"}}, {"left edge", 15, []string{"left edge from the left end"}},
		{"upper edge", 16, []string{"upper edge at"}}, {"hook below", 15, []string{"hook below upper edge"}}},
	"Holes in the cloth": {{"hook", 16, []string{"hook"}}, {"laid flat: from its left edge", 42, []string{"flat: from the cloth's left edge"}}, {"down from its upper edge", 42, []string{"flat: down from its upper edge"}}},
}

// narrowed is a table of a wall with the columns that stand beside its drawing.
func narrowed(t hang.Table) hang.Table {
	out := hang.Table{Title: t.Title, Rows: make([][]string, len(t.Rows))}
	for _, c := range narrow[t.Title] {
		out.Head, out.Wide = append(out.Head, c.head), append(out.Wide, c.wide)
		for i, r := range t.Rows {
			var cell []string
			for _, head := range c.of {
				cell = append(cell, r[slices.Index(t.Head, head)])
			}
			out.Rows[i] = append(out.Rows[i], strings.Join(cell, ": "))
		}
	}
	return out
}

// tall is how many millimetres paragraphs in small letters take below a drawing.
func (d *paper) tall(paragraphs []string, wide float64) float64 {
	high := far
	d.letters("", caption)
	for _, p := range paragraphs {
		high += float64(len(d.lines(p, wide))) * line(caption)
	}
	return high
}

// tablesWide is how many millimetres the narrowest tables of a wall take.
const tablesWide = 86.0

// elevation lays a wall out in a field of so many millimetres.
func (d *paper) elevation(w hang.Wall, wide, high float64) *draft.Wall {
	return draft.Of(d.plan, d.plan.Part(w.ID), d.setting(wide, high))
}

// setting is how drawings are set, to a scale that rulers have.
func (d *paper) setting(wide, high float64) draft.Setting {
	var scales []float64
	for _, s := range rulers[d.plan.Units] {
		scales = append(scales, 1000/s)
	}
	return draft.Setting{
		Wide: wide, High: high, Em: caption * point, Scales: scales, Length: d.short, Beyond: 0.05,
		Width: func(bold bool, text string) float64 {
			d.letters(style(bold), caption)
			return d.pdf.GetStringWidth(text) / (caption * point)
		},
	}
}

func style(bold bool) string {
	if bold {
		return "B"
	}
	return ""
}

// plot draws what is laid out, its upper left corner at a place.
func (d *paper) plot(x, y float64, marks []draft.Mark) {
	const em = caption * point
	for _, m := range marks {
		if m.Text != "" {
			d.text(x, y, m)
			continue
		}
		pen := draft.Strokes[m.Pen]
		d.ink(int(pen.Grey))
		d.pdf.SetLineWidth(pen.Width * em)
		var dash []float64
		for _, k := range pen.Dash {
			dash = append(dash, k*em)
		}
		d.pdf.SetDashPattern(dash, 0)
		how := "D"
		switch m.Fill {
		case draft.White:
			d.pdf.SetFillColor(255, 255, 255)
			how = "FD"
		case draft.Pale:
			d.pdf.SetFillColor(draft.PaleGrey, draft.PaleGrey, draft.PaleGrey)
			how = "FD"
		case draft.Ink:
			d.pdf.SetFillColor(int(pen.Grey), int(pen.Grey), int(pen.Grey))
			how = "FD"
		}
		p := m.Path[0]
		switch {
		case m.Round > 0:
			d.pdf.Circle(x+p.X, y+p.Y, m.Round, how)
		case m.Boxed():
			q := m.Path[2]
			d.pdf.Rect(x+p.X, y+p.Y, q.X-p.X, q.Y-p.Y, how)
		case m.Closed:
			var corners []fpdf.PointType
			for _, q := range m.Path {
				corners = append(corners, fpdf.PointType{X: x + q.X, Y: y + q.Y})
			}
			d.pdf.Polygon(corners, how)
		default:
			for i, q := range m.Path[1:] {
				d.pdf.Line(x+m.Path[i].X, y+m.Path[i].Y, x+q.X, y+q.Y)
			}
		}
	}
	d.pdf.SetDashPattern(nil, 0)
	d.pdf.SetFillColor(0, 0, 0)
	d.ink(0)
}

// text prints a line of text on white.
func (d *paper) text(x, y float64, m draft.Mark) {
	d.ink(0)
	d.letters(style(m.Bold), caption)
	long := d.pdf.GetStringWidth(m.Text)
	x, y = x+m.Path[0].X, y+m.Path[0].Y
	if m.Turned {
		d.turned(x, y+long*m.Held, m.Text)
		return
	}
	x -= long * m.Held
	d.pdf.SetFillColor(255, 255, 255)
	d.pdf.Rect(x-0.2, y-0.78*caption*point, long+0.4, caption*point, "F")
	d.pdf.SetFillColor(0, 0, 0)
	d.put(x, y, m.Text)
}
