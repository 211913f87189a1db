package page

import (
	"fmt"
	"html"
	"html/template"
	"strings"

	"boothmock/internal/find/hang"
	"boothmock/internal/view/draft"
)

// elevation is a wall as somebody facing it sees it, drawn in centimetres.
type elevation struct {
	hang.Wall
	Drawing  *draft.Wall
	Anchor   string
	Draws    []drawn
	Section  hang.Section // the same as tables
	Note     string       // how the wall holds, in words
	Problems []string
	Steps    []step // of the set-up, that are done at it
}

// drawn is a work on its wall.
type drawn struct {
	hang.Work
	Anchor     string
	Picture    []byte
	Size       string
	X, Y, W, H float64
	CX, CY, R  float64 // the disc with its number
	Marks      []mark
}

// mark is a hook with its measures in words.
type mark struct {
	hang.Hook
	FromLeft, FromRight, Up string
	Holds, Loop             string
	HoleX, HoleUp           string
	FlatX, FlatTop          string
}

func anchor(wall, work int) string { return fmt.Sprintf("hooks-%d-%d", wall+1, work+1) }

func newElevation(v Values, number int, w hang.Wall) elevation {
	length := v.Plan.Measure
	e := elevation{Wall: w, Anchor: fmt.Sprintf("wall-%d", number+1), Section: v.Sheet.WallSection(w)}
	e.Drawing = laid(v, w, length)
	if len(e.Section.Intro) > 0 {
		e.Note, e.Problems = e.Section.Intro[0], e.Section.Intro[1:]
		e.Section.Intro = nil
	}
	e.Note = strings.TrimSpace(e.Note + " " + e.Drawing.Missing())
	for k, work := range w.Works {
		b := e.Drawing.Outline(k)
		d := drawn{
			Work: work, Anchor: anchor(number, k), Picture: v.Works[work.ID],
			X: tenth(b.X0), Y: tenth(b.Y0), W: tenth(b.X1 - b.X0), H: tenth(b.Y1 - b.Y0), CX: tenth((b.X0 + b.X1) / 2), CY: tenth((b.Y0 + b.Y1) / 2),
		}
		d.R = tenth(max(9, min(15, 0.3*min(d.W, d.H))))
		if part := v.Plan.Part(work.ID); part != nil {
			d.Size = part.Work.Size(v.Plan.Units)
		}
		for _, h := range work.Hooks {
			m := mark{Hook: h, FromLeft: length(h.X), FromRight: length(w.Width - h.X), Up: length(h.Y)}
			if h.Grip-h.Y > 0.003 {
				m.Holds = length(h.Grip)
			}
			if h.Loop > 0 {
				m.Loop = length(h.Loop)
			}
			if o := h.Hole; o != nil {
				m.HoleX, m.HoleUp, m.FlatX, m.FlatTop = length(o.X), length(o.Y), length(o.Across), length(o.Down)
			}
			d.Marks = append(d.Marks, m)
		}
		e.Draws = append(e.Draws, d)
	}
	return e
}

// laid lays a wall out a little larger than it is: its letters are 12 px high on a telephone, which shows a drawing 360 px wide or
// 430 px high, whichever comes first.
func laid(v Values, w hang.Wall, length func(float64) string) *draft.Wall {
	const (
		wide, high = 30.0, 36.0 // ems
		figure     = 0.72       // of an em, that a bold figure takes at most: DejaVu Sans Bold, the widest of the usual faces, has 0.70
	)
	top := w.Top
	for _, k := range w.Works {
		top = max(top, k.Y1)
	}
	em := tenth(max(100*w.Width/(wide-1), 100*top/(high-3)))
	return draft.Of(v.Plan, v.Plan.Part(w.ID), draft.Setting{
		Wide: tenth(100*w.Width + em), High: tenth(100*top + 3*em), Em: em, Beyond: 0.04, OneByOne: true, Length: length,
		Width: func(_ bool, text string) float64 { return figure * float64(len([]rune(text))) },
	})
}

// SVG are the marks of the work of that number; 0: of the wall.
func (e elevation) SVG(of int) template.HTML {
	var b strings.Builder
	num := func(x float64) string { return fmt.Sprintf("%g", tenth(x)) }
	for _, m := range e.Drawing.Marks {
		pen, dash := draft.Strokes[m.Pen], ""
		for _, k := range pen.Dash {
			dash += " " + num(k*e.Drawing.Em)
		}
		line := fmt.Sprintf(`class="%s" stroke-width="%s"`, pen.Name, num(max(0.3, pen.Width*e.Drawing.Em)))
		if dash != "" {
			line += fmt.Sprintf(` stroke-dasharray="%s"`, dash[1:])
		}
		switch p := m.Path[0]; {
		case m.Of != of, m.Pen == draft.Work && m.Text == "": // the page draws works with their pictures
		case m.Text != "":
			anchor := ""
			if m.Held > 0 {
				anchor = [...]string{"", ` text-anchor="middle"`, ` text-anchor="end"`}[int(2*m.Held)]
			}
			fmt.Fprintf(&b, `<text class="length" x="%s" y="%s"%s>%s</text>`, num(p.X), num(p.Y), anchor, html.EscapeString(m.Text))
		case m.Round > 0:
			fmt.Fprintf(&b, `<circle %s cx="%s" cy="%s" r="%s"/>`, line, num(p.X), num(p.Y), num(m.Round))
		default:
			var d []string
			for _, q := range m.Path {
				d = append(d, num(q.X)+" "+num(q.Y))
			}
			if m.Closed {
				d = append(d, "z")
			}
			fmt.Fprintf(&b, `<path %s d="M%s"/>`, line, strings.Join(d, " "))
		}
	}
	return template.HTML(b.String())
}
