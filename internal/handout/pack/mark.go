package pack

import (
	"fmt"

	"boothmock/internal/basis/unit"
)

// turned prints a text on white that reads upwards, its lower left corner at x, y.
func (d *paper) turned(x, y float64, s string) {
	d.pdf.TransformBegin()
	d.pdf.TransformRotate(90, x, y)
	d.pdf.SetFillColor(255, 255, 255)
	d.pdf.Rect(x-0.3, y-2.9, d.pdf.GetStringWidth(s)+0.6, 3.9, "F")
	d.pdf.SetFillColor(0, 0, 0)
	d.pdf.Text(x, y, s)
	d.pdf.TransformEnd()
}

// middle prints a text with its middle at x.
func (d *paper) middle(x, y float64, s string) { d.pdf.Text(x-d.pdf.GetStringWidth(s)/2, y, s) }

// tick is the short slanted stroke at the end of a dimension line.
func (d *paper) tick(x, y float64) { d.pdf.Line(x-0.8, y+0.8, x+0.8, y-0.8) }

// proof is a ruler of exactly 100 mm, and of 4 in where people measure in inches, to lay a real one on.
func (d *paper) proof(x, y float64) {
	d.letters("", caption)
	d.pdf.SetLineWidth(plain)
	d.pdf.Line(x, y, x+100, y)
	for mm := 0; mm <= 100; mm += 5 {
		h := 1.5
		if mm%10 == 0 {
			h = 3
		}
		d.pdf.Line(x+float64(mm), y, x+float64(mm), y-h)
	}
	say := "100 mm: measure it. If it is shorter, print again at 100 %, not fitted to the page."
	if d.plan.Units == unit.Inches {
		for e := 0; e <= 32; e++ {
			h := 1.2
			if e%8 == 0 {
				h = 3
			}
			at := x + float64(e)*25.4/8
			d.pdf.Line(at, y, at, y+h)
		}
		say = "100 mm above, 4 in below: measure it. If it is shorter, print again at 100 %, not fitted to the page."
	}
	for i, l := range d.lines(say, d.wide-x-100-4-margin) {
		d.letters("", caption)
		d.pdf.Text(x+104, y-1+float64(i)*4, l)
	}
}

// cutMarks are short lines outside the corners of what is to be cut out.
func (d *paper) cutMarks(x0, y0, x1, y1 float64) {
	const off, long = 0.7, 2.0
	d.pdf.SetLineWidth(thin)
	for _, y := range []float64{y0, y1} {
		d.pdf.Line(x0-off-long, y, x0-off, y)
		d.pdf.Line(x1+off, y, x1+off+long, y)
	}
	for _, x := range []float64{x0, x1} {
		d.pdf.Line(x, y0-off-long, x, y0-off)
		d.pdf.Line(x, y1+off, x, y1+off+long)
	}
}

// rulers are the scales that rulers have, largest drawing first.
var rulers = map[unit.System][]float64{
	unit.Inches:      {4, 6, 8, 12, 16, 20, 24, 32, 40, 48, 64, 96, 192, 384},
	unit.Centimetres: {5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200, 400},
}

// scaleBar says the scale and draws a foot or half a metre in it.
func (d *paper) scaleBar(x, y, s float64) {
	long, words := unit.Foot.M(), "1 ft"
	if d.plan.Units == unit.Centimetres {
		long, words = 0.5, "50 cm"
	}
	d.letters("", caption)
	d.pdf.SetLineWidth(bold)
	d.pdf.Line(x, y-1.1, x+long*1000/s, y-1.1)
	d.pdf.SetLineWidth(plain)
	for _, end := range []float64{x, x + long*1000/s} {
		d.pdf.Line(end, y-2.2, end, y)
	}
	d.pdf.Text(x+long*1000/s+1.5, y, fmt.Sprintf("%s at 1:%.0f", words, s))
}

// short is a length without its unit.
func (d *paper) short(m float64) string {
	s := d.plan.Measure(m)
	return s[:len(s)-3] // " in" or " cm"
}
