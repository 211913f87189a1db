package pack

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
)

// cover is the first page: what it is, how it looks, the plan from above and where things are in the pack.
func (d *paper) cover(o Options, contents []entry) {
	picture := o.Picture
	d.page("P", "cover")
	d.say(d.plan.Title(), "B", 20, 0)
	p := d.plan.Pitch
	d.say(fmt.Sprintf("Pitch %s wide, %s deep, aisle of %s in front. Print at 100 %%, not fitted to the page: drawings and tags are true to size.",
		unit.Length(p.Width).FormatFeet(d.plan.Units), unit.Length(p.Depth).FormatFeet(d.plan.Units), unit.Length(p.Aisle).FormatFeet(d.plan.Units)), "", body, 0)
	d.verdict(o.Report)
	d.y += 2
	if picture != nil {
		wide := d.wide - 2*margin
		info := d.pdf.RegisterImageOptionsReader("cover", fpdf.ImageOptions{ImageType: "JPG"}, bytes.NewReader(picture))
		if d.pdf.Err() {
			return
		}
		high := min(wide*info.Height()/info.Width(), 104)
		wide = high * info.Width() / info.Height()
		d.pdf.ImageOptions("cover", (d.wide-wide)/2, d.y, wide, high, false, fpdf.ImageOptions{ImageType: "JPG"}, 0, "")
		d.y += high + 5
	}
	top := d.y
	d.planFromAbove(margin, top, 110, d.high-margin-top-12)
	x := margin + 120
	d.y = top
	d.say("In this pack", "B", 12, x-margin)
	for _, c := range contents {
		d.letters("", body)
		step := body * point * 1.45
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
	const lane = 0.75 // metres of the aisle that are drawn
	scale := d.scale(p.Width+0.2, p.Depth+0.2+lane, wide-4, high)
	mm := 1000 / scale
	px := func(m float64) float64 { return x + 4 + (p.Width/2+0.1+m)*mm }
	pz := func(m float64) float64 { return y + (p.Depth+0.1+m)*mm }
	d.pdf.SetLineWidth(0.2)
	d.pdf.SetDashPattern([]float64{1, 1}, 0)
	d.pdf.Rect(px(-p.Width/2), pz(-p.Depth), p.Width*mm, p.Depth*mm, "D")
	d.pdf.SetDashPattern(nil, 0)
	for i := range d.plan.Parts {
		part := &d.plan.Parts[i]
		if part.Flat || part.Moving || part.Beyond {
			continue
		}
		reach := 1.9 // metres: what stands or hangs below that is drawn, canopy and rails are not
		grey := 235
		switch {
		case part.Work != nil:
			grey = 0
		case part.Cloth != nil, part.Wall != nil:
			grey = 190
		}
		d.pdf.SetLineWidth(0.1)
		for _, s := range part.Room() {
			foot := way.Footprint(s, 0.02, reach)
			if len(foot) < 3 {
				continue
			}
			points := make([]fpdf.PointType, len(foot))
			for k, q := range foot {
				points[k] = fpdf.PointType{X: px(q.X), Y: pz(q.Z)}
			}
			d.pdf.SetFillColor(grey, grey, grey)
			d.pdf.Polygon(points, "FD")
		}
	}
	d.pdf.SetFillColor(0, 0, 0)
	d.letters("", small)
	for i := range d.plan.Parts {
		part := &d.plan.Parts[i]
		if part.Bring == "" || part.Parent != "" || part.Wall != nil || part.Cloth != nil || part.Tent != nil {
			continue
		}
		name := strings.TrimPrefix(part.Name, "the ")
		o := part.Frame.Origin
		d.plate(px(o.X), pz(o.Z), name)
	}
	for _, w := range d.sheet.Walls {
		name := strings.TrimPrefix(w.Name, "the ")
		frame := d.plan.Part(w.ID).Frame
		mid := frame.At(geom.Vec{X: w.Width / 2})
		if half := d.pdf.GetStringWidth(name) / 2; math.Abs(frame.X.X) < 0.5 { // along the depth: beside the pitch
			at := px(-p.Width/2) - 1.5
			if mid.X > 0 {
				at = px(p.Width/2) + 4
			}
			d.turned(at, pz(mid.Z)+half, name)
			continue
		}
		d.plate(px(mid.X), pz(mid.Z)+5, name)
	}
	d.letters("", small)
	d.middle(px(0), pz(0.55), "aisle: visitors come from here")
	d.pdf.Text(px(-p.Width/2), pz(lane)+1, "From above.")
	d.scaleBar(px(-p.Width/2)+26, pz(lane)+1, scale)
	d.length(px(-p.Width/2), px(p.Width/2), pz(0.2), unit.Length(p.Width).FormatFeet(d.plan.Units))
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
	d.pdf.SetLineWidth(0.2)
	d.pdf.Line(x0, y, x1, y)
	d.tick(x0, y)
	d.tick(x1, y)
	d.plate((x0+x1)/2, y, s)
}
