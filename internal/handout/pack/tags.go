package pack

import (
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
)

// usualTag is the height and width of a tag where the scene has none, in mm.
var usualTag = [2]float64{50.8, 88.9}

// tags prints the price tags at their true size with cut marks, then blank ones, with the artist's name, to the end of the page.
func (d *paper) tags() {
	high, wide := d.plan.Tag.A.M()*1000, d.plan.Tag.B.M()*1000
	if high == 0 {
		high, wide = usualTag[0], usualTag[1]
	}
	const between = 6.0
	const ruler = 14.0
	room := d.leaf().Wd - 2*margin // of a page that is still to come
	across := int((room + between) / (wide + between))
	if across < 1 { // wider than the page: the words fit on a narrower one
		across, wide = 1, room-8
	}
	heading := "Price tags, " + unit.AsIn(d.plan.Currency, unit.Size{A: unit.Length(high / 1000), B: unit.Length(wide / 1000)}.Format(d.plan.Units))
	d.page("P", heading)
	d.contents = append(d.contents, entry{heading, d.pdf.PageNo()})
	d.tagHead(heading)
	left := (d.wide - float64(across)*wide - float64(across-1)*between) / 2
	column := 0
	full := func() bool { return column == 0 && d.y+high+ruler > d.high-margin }
	next := func(s hang.Piece) {
		if full() {
			d.proof(margin, d.high-margin-6)
			d.page("P", heading)
			d.tagHead(heading)
		}
		x := left + float64(column)*(wide+between)
		d.cutMarks(x, d.y, x+wide, d.y+high)
		d.tag(s, x, d.y, wide, high)
		if column++; column == across {
			column = 0
			d.y += high + between
		}
	}
	for _, s := range d.sheet.Stock {
		next(s)
	}
	for !full() {
		next(hang.Piece{})
	}
	d.proof(margin, d.high-margin-6)
}

func (d *paper) tagHead(heading string) {
	d.say(heading+": cut along the marks; blank ones are to write on", "B", head, 0)
	d.y += far
}

// tag prints a tag's words: the title as large as it can be, then what there is room for, the price last.
func (d *paper) tag(s hang.Piece, x, y, wide, high float64) {
	const pad = 4.0
	price := s.Amount
	more := []string{}
	medium := s.Medium
	for _, w := range []string{s.Edition, s.Year} {
		if w != "" {
			medium = strings.TrimPrefix(medium+", "+w, ", ")
		}
	}
	for _, m := range []string{medium, s.Picture} { // a tag is for the picture, as catalogues are
		if m != "" {
			more = append(more, m)
		}
	}
	room := high - 2*pad + 1
	foot := 0.0
	if price != "" {
		foot = line(head)
	}
	size := title
	var name []string
	for ; ; size = larger(size, -1) {
		d.letters("B", size)
		name = d.lines(s.Title, wide-2*pad)
		if size <= caption || float64(len(name))*line(size)+float64(len(more))*line(body)+foot <= room {
			break
		}
	}
	base := y + pad
	for _, l := range name {
		if base+line(size) > y+high-1 {
			break
		}
		d.put(x+pad, base+size*point*0.9, l)
		base += line(size)
	}
	d.letters("", body)
	for _, l := range more {
		if base+line(body)+foot > y+high-1 {
			break
		}
		d.put(x+pad, base+body*point*0.95, d.fit(l, wide-2*pad))
		base += line(body)
	}
	d.letters("B", head)
	if by := d.plan.Artist; by != "" && base+line(body) <= y+high-pad { // beside the price, where there is room
		taken := 0.0
		if price != "" {
			taken = d.pdf.GetStringWidth(price) + 3
		}
		if d.letters("", body); d.pdf.GetStringWidth(by) <= wide-2*pad-taken {
			d.put(x+pad, y+high-pad, by)
		}
	}
	if price != "" {
		d.letters("B", head)
		d.put(x+wide-pad-d.pdf.GetStringWidth(price), y+high-pad, price)
	}
}
