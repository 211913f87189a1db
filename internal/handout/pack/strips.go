package pack

import (
	"fmt"
	"math"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
)

const (
	band    = 34.0 // mm: height of a strip
	overlap = 20.0 // mm, at least, that one piece lies under the next
)

// strips are full-size bands to tape along a wall: each hook is where its mark is. They come in pieces, several on a
// lying page, each with an overlap for the next.
func (d *paper) strips() {
	started := false
	for _, w := range d.sheet.Walls {
		hooks := 0
		for _, work := range w.Works {
			hooks += len(work.Hooks)
		}
		if hooks == 0 {
			continue
		}
		if !started {
			d.page("L", "Full-size strips")
			d.contents = append(d.contents, entry{"Full-size strips for the hooks", d.pdf.PageNo()})
			d.stripHead()
			started = true
		}
		whole := 25.4 // pieces are whole inches, or five centimetres
		if d.plan.Units == unit.Centimetres {
			whole = 50
		}
		long := math.Floor((d.wide-2*margin-overlap)/whole) * whole
		pieces := int(math.Ceil(w.Width*1000/long - 1e-9))
		for k := range pieces {
			if d.y+band+16 > d.high-margin {
				d.proof(margin, d.high-margin-6)
				d.page("L", "Full-size strips")
				d.stripHead()
			}
			d.strip(w, k, pieces, long)
			d.y += band + far
		}
	}
	if started {
		d.proof(margin, d.high-margin-6)
	}
}

func (d *paper) stripHead() {
	d.say("Full-size strips: cut along the outer lines, lay each piece on the grey end of the one before, tape them along the wall from its left end, level.", "B", body, 0)
	d.y += apart
}

// strip is piece k of a wall: millimetre for millimetre the wall from k × long on.
func (d *paper) strip(w hang.Wall, k, pieces int, long float64) {
	from := float64(k) * long
	to := min(from+long, w.Width*1000)
	x0, y0 := margin, d.y
	end := x0 + to - from
	lap := d.wide - 2*margin - long
	x := func(m float64) float64 { return x0 + m*1000 - from }
	if k+1 < pieces {
		d.pdf.SetFillColor(225, 225, 225)
		d.pdf.Rect(end, y0, lap, band, "F")
		d.pdf.SetFillColor(0, 0, 0)
		d.letters("", caption)
		d.pdf.Text(end+2, y0+band/2, fmt.Sprintf("%d here", k+2))
		d.pdf.SetLineWidth(thin)
		d.pdf.Rect(x0, y0, end-x0+lap, band, "D")
	} else {
		d.pdf.SetLineWidth(thin)
		d.pdf.Rect(x0, y0, end-x0, band, "D")
	}
	d.letters("", caption)
	name := fmt.Sprintf("%s, piece %d of %d", w.Name, k+1, pieces)
	if end-x0 > d.pdf.GetStringWidth(name)+4 {
		d.pdf.Text(x0+2, y0+4.5, name)
	}
	d.ruler(x, y0, from, to, end)
	for _, work := range w.Works {
		for _, h := range work.Hooks {
			if at := h.X * 1000; at >= from-1e-9 && at <= to+1e-9 {
				d.hookMark(x(h.X), y0, work.Title, h)
			}
		}
	}
}

// ruler goes along the lower edge of a strip, from the wall's left end; its words end before end.
func (d *paper) ruler(x func(m float64) float64, y0, from, to, end float64) {
	each, whole := unit.Inch.M()/2, unit.Inch.M()
	if d.plan.Units == unit.Centimetres {
		each, whole = unit.Centimetre.M(), 0.05
	}
	for i := int(math.Ceil(from/1000/each - 1e-9)); float64(i)*each*1000 <= to+1e-6; i++ {
		at := float64(i) * each
		h := 1.5
		if r := math.Mod(at+1e-9, whole); r < 1e-6 {
			h = 3
			s := d.short(at)
			if x(at)+d.pdf.GetStringWidth(s) < end {
				d.pdf.Text(x(at)+0.6, y0+band-3.2, s)
			}
		}
		d.pdf.Line(x(at), y0+band, x(at), y0+band-h)
	}
}

// hookMark is the mark of a hook on a strip, and beside it what hangs there and how high.
func (d *paper) hookMark(at, y0 float64, title string, h hang.Hook) {
	d.pdf.SetLineWidth(plain)
	d.pdf.Line(at, y0+6, at, y0+band-7)
	d.pdf.Circle(at, y0+band/2, 2.5, "D")
	d.pdf.Line(at-4, y0+band/2, at+4, y0+band/2)
	words := []string{fmt.Sprintf("hook %d at %s", h.Number, d.full(h.X)), title, "carries " + d.full(h.Y) + " above the ground"}
	if h.Grip-h.Y > 0.003 {
		words = append(words, "holds on "+d.full(h.Grip)+" above the ground")
	}
	d.letters("", caption)
	for i, s := range words {
		wide := d.pdf.GetStringWidth(s)
		left := at + 5
		if left+wide > d.wide-margin {
			left = at - 5 - wide
		}
		d.pdf.Text(left, y0+9.5+float64(i)*4, s)
	}
}

func (d *paper) full(m float64) string { return d.plan.Measure(m) }
