package pack

import (
	"bytes"
	"fmt"

	"codeberg.org/go-pdf/fpdf"

	"boothmock/internal/basis/way"
	"boothmock/internal/view/draft"
)

// cover is the first page: what it is, how it looks, the plan from above and where things are in the pack.
func (d *paper) cover(o Options, contents []entry) {
	picture := o.Picture
	d.page("P", "cover")
	d.say(d.plan.Title(), "B", title, 0)
	p := d.plan.Pitch
	d.say(fmt.Sprintf("Pitch %s wide, %s deep, aisle of %s in front. Print at 100 %%, not fitted: drawings and tags are true to size.",
		d.plan.Feet(p.Width), d.plan.Feet(p.Depth), d.plan.Feet(p.Aisle)), "", body, 0)
	d.verdict(o.Report)
	d.y += apart
	if picture != nil {
		wide := d.wide - 2*margin
		info := d.pdf.RegisterImageOptionsReader("cover", fpdf.ImageOptions{ImageType: "JPG"}, bytes.NewReader(picture))
		if d.pdf.Err() {
			return
		}
		high := min(wide*info.Height()/info.Width(), 104)
		wide = high * info.Width() / info.Height()
		d.pdf.ImageOptions("cover", (d.wide-wide)/2, d.y, wide, high, false, fpdf.ImageOptions{ImageType: "JPG"}, 0, "")
		d.y += high + far
	}
	top := d.y
	d.planFromAbove(margin, top, 110, d.high-margin-top-12)
	x := margin + 120
	d.y = top
	d.say("In this pack", "B", lead, x-margin)
	for _, c := range contents {
		d.letters("", body)
		step := line(body)
		base := d.y + body*point*0.95
		d.pdf.Text(x, base, d.fit(c.title, d.wide-margin-x-12))
		n := fmt.Sprint(c.page)
		d.pdf.Text(d.wide-margin-d.pdf.GetStringWidth(n), base, n)
		d.y += step
	}
}

// planFromAbove draws the pitch with everything on it, the aisle below, in a field of so many millimetres.
func (d *paper) planFromAbove(x, y, wide, high float64) {
	p := d.plan.Pitch
	around := draft.Around{Beside: 0.1, Behind: 0.1, Aisle: 0.75}
	plan := draft.Above(d.plan, around, draft.Box{X0: 4, X1: wide, Y1: high}, d.setting(wide, high))
	d.plot(x, y, plan.Marks)
	d.letters("", caption)
	left, right := plan.On(way.Point{X: -p.Width / 2}), plan.On(way.Point{X: p.Width / 2, Z: 0.2})
	below := y + plan.Ground.Y1 + far
	d.pdf.Text(x+left.X, below, "From above.")
	d.scaleBar(x+left.X+26, below, 1000/plan.Scale)
	d.length(x+left.X, x+right.X, y+right.Y, d.plan.Feet(p.Width))
}

// plate prints a name in the middle of a white plate.
func (d *paper) plate(x, y float64, s string) {
	w := d.pdf.GetStringWidth(s)
	d.pdf.SetFillColor(255, 255, 255)
	d.pdf.Rect(x-w/2-0.6, y-2.2, w+1.2, 4.2, "F")
	d.pdf.SetFillColor(0, 0, 0)
	d.middle(x, y+1.1, s)
}

// length draws a level dimension line with its words in the middle.
func (d *paper) length(x0, x1, y float64, s string) {
	d.pdf.SetLineWidth(thin)
	d.pdf.Line(x0, y, x1, y)
	d.tick(x0, y)
	d.tick(x1, y)
	d.plate((x0+x1)/2, y, s)
}
