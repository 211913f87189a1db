package page

import (
	"fmt"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
)

// elevation is a wall as somebody facing it sees it, drawn in centimetres from its left end, down from its top.
type elevation struct {
	hang.Wall
	Anchor     string
	Wide, High float64 // of the usable wall; High reaches down to the ground
	Bottom     float64
	Size       float64 // of its letters
	Draws      []drawn
	Section    hang.Section // the same as tables
	Note       string       // how the wall holds, in words
	Problems   []string
	Steps      []order.Step // of the set-up, that are done at it
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
	Labels     []label // the marks' measures in the drawing
}

// mark is a hook with its measures in words.
type mark struct {
	hang.Hook
	At, High       float64 // from the left end, and down from the top: where it carries
	Grip           float64
	FromLeft, Up   string
	Holds, Loop    string
	HoleX, HoleUp  string
	FlatX, FlatTop string
}

func anchor(wall, work int) string { return fmt.Sprintf("hooks-%d-%d", wall+1, work+1) }

func newElevation(v Values, number int, w hang.Wall) elevation {
	length := func(m float64) string { return unit.Length(m).Format(v.Plan.Units) }
	top := w.Top
	for _, work := range w.Works {
		top = max(top, work.Y1)
	}
	cm := func(m float64) float64 { return tenth(m * 100) }
	e := elevation{
		Wall: w, Anchor: fmt.Sprintf("wall-%d", number+1), Wide: cm(w.Width), High: cm(top), Bottom: cm(top - w.Bottom), Section: v.Sheet.WallSection(w),
	}
	e.Size = letters(e.Wide, e.High)
	if len(e.Section.Intro) > 0 {
		e.Note, e.Problems = e.Section.Intro[0], e.Section.Intro[1:]
		e.Section.Intro = nil
	}
	for k, work := range w.Works {
		d := drawn{
			Work: work, Anchor: anchor(number, k), Picture: v.Works[work.ID],
			X: cm(work.X0), Y: cm(top - work.Y1), W: cm(work.X1 - work.X0), H: cm(work.Y1 - work.Y0),
			CX: cm((work.X0 + work.X1) / 2), CY: cm(top - (work.Y0+work.Y1)/2),
		}
		d.R = tenth(max(9, min(15, 0.3*min(d.W, d.H))))
		for _, s := range v.Sheet.Stock {
			if s.ID == work.ID {
				d.Size = s.Size
			}
		}
		for _, h := range work.Hooks {
			m := mark{
				Hook: h, At: cm(h.X), High: cm(top - h.Y), Grip: cm(top - h.Grip), FromLeft: length(h.X), Up: length(h.Y),
			}
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
		d.Labels = e.place(d.Marks)
		e.Draws = append(e.Draws, d)
	}
	return e
}
