package page

import (
	"fmt"
)

// Letters of a drawing, in its own centimetres.
const (
	letterWide = 0.72 // of its height, that a bold figure takes at most: DejaVu Sans Bold, the widest of the usual faces, has 0.70
	gap        = 4.0  // between a letter and a line
)

// letters is how high the letters of a wall's drawing are, so that they are 12 px high on a telephone, which shows the drawing
// 360 px wide or 430 px high, whichever comes first.
func letters(wide, high float64) float64 { return tenth(max(wide/30, high/36)) }

// label is a measure written in a drawing.
type label struct {
	X, Y  float64 // of its base line
	Text  string
	Start bool // it begins at X, else it ends there
}

// box is what a label takes: left, right, upper and lower edge.
type box struct{ x0, x1, y0, y1 float64 }

func (l label) box(size float64) box {
	wide := size * letterWide * float64(len([]rune(l.Text)))
	b := box{l.X - wide, l.X, l.Y - 0.8*size, l.Y + 0.2*size}
	if l.Start {
		b.x0, b.x1 = l.X, l.X+wide
	}
	return b
}

func (b box) meets(o box) bool { return b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 }
func (b box) within(o box) bool {
	return b.x0 >= o.x0 && b.x1 <= o.x1 && b.y0 >= o.y0 && b.y1 <= o.y1
}

// frame is what a drawing shows: the wall, and a little more for its letters.
func (e *elevation) frame() box { return box{-4, e.Wide + 4, -e.Size - 1, e.High + 6} }

// ViewBox is its frame as SVG wants it.
func (e *elevation) ViewBox() string {
	b := e.frame()
	return fmt.Sprintf("%g %g %g %g", b.x0, tenth(b.y0), tenth(b.x1-b.x0), tenth(b.y1-b.y0))
}

// place puts the measures of a work's hooks where none is cut off and none lies on another: how far from the left end beside
// the hook, how high beside the line down to the ground.
func (e *elevation) place(marks []mark) []label {
	var out []label
	free := func(l label) bool {
		b := l.box(e.Size)
		for _, o := range out {
			if b.meets(o.box(e.Size)) {
				return false
			}
		}
		return b.within(e.frame())
	}
	put := func(text string, x float64, rows ...float64) {
		wide := label{Text: text}.box(e.Size)
		across := []label{{X: tenth(x - gap), Text: text}, {X: tenth(x + gap), Text: text, Start: true},
			{X: tenth(max(x, e.frame().x0+wide.x1-wide.x0+0.1)), Text: text}, {X: tenth(min(x, e.frame().x1-(wide.x1-wide.x0)-0.1)), Text: text, Start: true}}
		for away := 0.0; away < e.High; away += 1.1 * e.Size {
			for _, l := range across {
				for _, y := range rows {
					for _, l.Y = range []float64{tenth(y - away), tenth(y + away)} {
						if free(l) {
							out = append(out, l)
							return
						}
					}
				}
			}
		}
	}
	for _, m := range marks {
		put(m.FromLeft, m.At, m.High-gap, m.High+e.Size)
		put(m.Up, m.At, e.High-5)
	}
	return out
}
