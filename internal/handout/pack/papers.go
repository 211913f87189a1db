package pack

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/lettering"
)

// Paper is a paper about the works of a booth, which is printed by itself.
type Paper struct {
	Name, Doc string
	draw      func(d *paper, o Sheets)
}

// Papers are all of them.
var Papers = []Paper{
	{"prices", "The price list for visitors: title, medium, size, year, and the price at the right.", (*paper).priceList},
	{"insurance", "The list for insurance and customs: a photograph, what a work is, what it weighs and its value, with the total.", (*paper).insurance},
	{"tags", "Price tags at their true size with marks to cut along, then blank ones to the end of the page.", (*paper).tagSheet},
	{"labels", "Labels for the wall: your name, the work and its price, with a code where it has an address.", (*paper).labels},
	{"days", "The fair day by day on a page: who does what and for how long, what stays and what comes off each evening by its forecast.", (*paper).daySheet},
	{"stock", "The list to tick when something sells: sold to, deposit, and what is left of an edition. As .csv, for a spreadsheet.", (*paper).stockSheet},
	{"pieces", "For a carpenter or a helper: every table, bin, pedestal and panel with its sizes and its place, to a named scale.", (*paper).ground},
	{"packing", "A label for each load: what is in it and what it weighs.", (*paper).packing},
}

// Sheets are how a paper is printed and what it needs besides the booth.
type Sheets struct {
	Format string              // A4, Letter or A6; empty: as people have it where they measure so
	Large  bool                // letters as large as people need who see little
	Small  map[booth.ID][]byte // JPEG of each work that has a photograph
	Loads  []order.Load
	Days   hang.Section
	Sheet  hang.Sheet // of which tags and stock are printed
}

// WritePaper writes one of the Papers.
func WritePaper(w io.Writer, p *booth.Plan, which Paper, o Sheets) error {
	d := newPaper(p, unit.Capital(which.Name)+": "+p.Title())
	d.format, d.sheet = o.Format, o.Sheet
	which.draw(d, o)
	if err := d.pdf.Error(); err != nil {
		return fmt.Errorf("the paper cannot be made: %w", err)
	}
	return d.pdf.Output(w)
}

// listed is a work on a list, with its number there.
type listed struct {
	id     booth.ID
	number int
	*booth.Work
}

// listedWorks are the works that are brought, those that hang first, without those that are sold.
func listedWorks(p *booth.Plan) (out []listed) {
	for _, l := range p.Catalogue() {
		if !l.Work.Sold {
			out = append(out, listed{l.ID, len(out) + 1, l.Work})
		}
	}
	return out
}

// about is a work's medium, edition, year and size in one line.
func (l listed) about(p *booth.Plan) string {
	return stated(l.Medium, l.Edition, l.Year, l.size(p))
}

// size is how large a work is, as it is written where amounts are written so.
func (l listed) size(p *booth.Plan) string { return unit.AsIn(p.Currency, l.Size(p.Units)) }

// stated are those words that are not empty, with commas between.
func stated(words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(s string) bool { return s == "" }), ", ")
}

// measures are the sizes of letters on a list, in points.
type measures struct{ heading, title, rest float64 }

func (d *paper) measures(o Sheets) measures {
	switch {
	case o.Large:
		return measures{display, title, title}
	case o.Format == "A6":
		return measures{lead, body, caption}
	}
	return measures{title, lead, body}
}

// head begins a list: its heading, whose it is, and where.
func (d *paper) head(heading string, m measures) {
	d.page("P", heading)
	d.say(heading, "B", m.heading, 0)
	if d.plan.Artist+d.plan.Event != "" {
		d.say(d.plan.Title(), "", m.title, 0)
	}
	d.y += apart
}

// priceList prints an entry for each work: the title at the left and what visitors read of its price at the right.
func (d *paper) priceList(o Sheets) {
	m := d.measures(o)
	d.head("Price list", m)
	var all []item
	for _, l := range listedWorks(d.plan) {
		all = append(all, d.item(item{number: l.number, about: l.about(d.plan), amount: l.Amount(d.plan.Currency)}, l.Title, m))
	}
	d.items(all, m, 0)
}

// item is a work on a list, broken into lines.
type item struct {
	number         int
	about, amount  string
	picture        func(x, y, side float64) // nil: none
	titles, rest   []string
	left, at, high float64 // where the words begin, and the picture; how high it is
	over           bool    // the amount has a line of its own
}

// item breaks one into lines.
func (d *paper) item(l item, title string, m measures) item {
	side := 0.0
	l.at = margin + m.title*point*2.6
	if l.left = l.at; l.picture != nil {
		side = pictureSide
		l.left += side + far
	}
	d.letters("B", m.title)
	right := d.pdf.GetStringWidth(l.amount)
	l.over = right > 0.45*(d.wide-2*margin)
	room := d.wide - margin - l.left
	if !l.over {
		room -= right + far
	}
	l.titles = d.lines(title, room)
	d.letters("", m.rest)
	if l.about != "" {
		l.rest = d.lines(l.about, d.wide-margin-l.left-apart)
	}
	l.high = line(m.title)*float64(len(l.titles)) + line(m.rest)*float64(len(l.rest))
	if l.over {
		l.high += line(m.title)
	}
	l.high = max(l.high, side+near) + 2*near
	return l
}

const pictureSide = 16.0 // mm: of the picture of a work on a list

// items prints works on a list. None stands on a page alone, and the last one stays with what follows, so many millimetres high.
func (d *paper) items(all []item, m measures, foot float64) {
	for i, l := range all {
		need := l.high
		if i > 0 && i == len(all)-2 {
			need += all[i+1].high + foot
		}
		d.room(need)
		d.entry(l, m)
	}
}

// entry prints a work on a list: number, picture, title over what it is, and an amount at the right.
func (d *paper) entry(l item, m measures) {
	top := d.y
	if l.picture != nil {
		l.picture(l.at, top+near, pictureSide)
	}
	d.letters("", m.rest)
	d.put(margin, top+m.title*point, fmt.Sprint(l.number))
	d.letters("B", m.title)
	for _, t := range l.titles {
		d.put(l.left, d.y+m.title*point, t)
		d.y += line(m.title)
	}
	amount, at := l.amount, top+m.title*point
	if l.over {
		amount, at = d.fit(amount, d.wide-margin-l.left), d.y+m.title*point
		d.y += line(m.title)
	}
	d.put(d.wide-margin-d.pdf.GetStringWidth(amount), at, amount)
	d.letters("", m.rest)
	for _, t := range l.rest {
		d.put(l.left, d.y+m.rest*point, t)
		d.y += line(m.rest)
	}
	d.y = top + l.high - near
	d.pdf.SetLineWidth(thin)
	d.pdf.Line(margin, d.y, d.wide-margin, d.y)
	d.y += near
}

func (d *paper) tagSheet(Sheets) { d.tags() }

func (d *paper) daySheet(o Sheets) {
	d.page("P", "The days")
	d.section(o.Days)
}

// stockSheet prints the stock across the page.
func (d *paper) stockSheet(Sheets) {
	d.page("L", "Stock")
	d.section(d.sheet.StockSection())
}

// insurance prints every work with its photograph, weight and value, and what all of them come to.
func (d *paper) insurance(o Sheets) {
	m := d.measures(o)
	d.head("List for insurance and customs", m)
	total, kg := unit.Money(0), unit.Weight(0)
	worthless, weightless := 0, 0
	works := listedWorks(d.plan)
	var all []item
	for _, l := range works {
		value, says := l.Value, "value not stated"
		if value == 0 {
			value = l.Price
		}
		if value > 0 {
			says = value.Format(d.plan.Currency)
			total += value
		} else {
			worthless++
		}
		about := l.about(d.plan)
		if l.Weight > 0 {
			about += ", " + unit.AsIn(d.plan.Currency, l.Weight.Format(d.plan.Units))
			kg += l.Weight
		} else {
			weightless++
		}
		picture := func(x, y, side float64) {}
		if file := o.Small[l.id]; file != nil {
			picture = func(x, y, side float64) { d.thumb(l.number, file, x, y, side) }
		}
		all = append(all, d.item(item{number: l.number, about: about, amount: says, picture: picture}, l.Title, m))
	}
	const foot = 24.0 // mm: the sums
	d.items(all, m, foot)
	d.room(foot)
	d.y += apart
	sum := fmt.Sprintf("%d works, together %s", len(works), total.Format(d.plan.Currency))
	if kg > 0 {
		sum += ", " + unit.AsIn(d.plan.Currency, kg.Format(d.plan.Units))
	}
	d.say(sum, "B", m.title, 0)
	for _, n := range []struct {
		n    int
		what string
	}{{worthless, "value"}, {weightless, "weight"}} {
		if n.n > 0 {
			d.say(fmt.Sprintf("The %s of %d of them is not stated and not in the sum.", n.what, n.n), "", m.rest, 0)
		}
	}
}

// thumb prints a photograph within a square.
func (d *paper) thumb(number int, file []byte, x, y, side float64) {
	name := fmt.Sprint("work ", number)
	d.register(name, number, file)
	info := d.pdf.GetImageInfo(name)
	if d.pdf.Err() || info == nil {
		return
	}
	wide, high := side, side*info.Height()/info.Width()
	if high > side {
		wide, high = side*info.Width()/info.Height(), side
	}
	d.pdf.ImageOptions(name, x+(side-wide)/2, y+(side-high)/2, wide, high, false, fpdf.ImageOptions{ImageType: "JPG"}, 0, "")
}

// cards prints cards of one size in a grid with cut marks.
func (d *paper) cards(heading string, wide, high float64, n int, card func(i int, x, y float64)) {
	const between = 6.0
	d.page("P", heading)
	wide = min(wide, d.wide-2*margin)
	across := max(1, int((d.wide-2*margin+between)/(wide+between)))
	left := (d.wide - float64(across)*wide - float64(across-1)*between) / 2
	d.y += apart
	for i := range n {
		if i%across == 0 && i > 0 {
			d.y += high + between
			if d.y+high > d.high-margin {
				d.page("P", heading)
				d.y += apart
			}
		}
		x := left + float64(i%across)*(wide+between)
		d.cutMarks(x, d.y, x+wide, d.y+high)
		card(i, x, d.y)
	}
}

// labels prints a label for the wall for each work.
func (d *paper) labels(o Sheets) {
	wide, high, by := 88.0, 55.0, 0
	if o.Large {
		wide, high, by = 180, 90, 2
	}
	works := listedWorks(d.plan)
	d.cards("Labels for the wall", wide, high, len(works), func(i int, x, y float64) {
		d.label(works[i], x, y, min(wide, d.wide-2*margin), high, by)
	})
}

// label prints one label: the artist, the title as large as it can be, what it is, the price, and a code at the right if the
// work has an address.
func (d *paper) label(l listed, x, y, wide, high float64, by int) {
	const pad = 4.0
	text := wide - 2*pad
	if code, err := lettering.Modules(l.Link); err == nil && code != nil {
		side := min(24+8*float64(by), high-2*pad)
		d.code(code, x+wide-pad-side, y+high-pad-side, side)
		text -= side + 2
	}
	d.stack(x+pad, y+pad, text, high-2*pad, []words{
		{d.plan.Artist, "", larger(lead, by), 1}, {l.Title, "B", larger(title, by), 4}, {stated(l.Medium, l.Edition, l.Year), "", larger(lead, by), 2},
		{l.size(d.plan), "", larger(lead, by), 2}, {l.Amount(d.plan.Currency), "B", larger(head, by), 1},
	})
}

// words are a paragraph on a card: its letters, and how many lines it may have at most.
type words struct {
	text, style string
	size        float64
	most        int
}

// stack prints paragraphs below each other within a field; all letters are made smaller, size by size, until everything fits, and what still does not fit is cut with an ellipsis.
func (d *paper) stack(x, y, wide, high float64, all []words) {
	for k := 0; ; k-- {
		total, cut := 0.0, false
		var lines [][]string
		for _, w := range all {
			size := larger(w.size, k)
			d.letters(w.style, size)
			var l []string
			if w.text != "" {
				l = d.lines(w.text, wide)
			}
			if len(l) > w.most {
				cut = true
				l = append(l[:w.most-1:w.most-1], d.fit(strings.Join(l[w.most-1:], " "), wide))
			}
			lines, total = append(lines, l), total+float64(len(l))*line(size)
		}
		if (total > high || cut) && -k < len(sizes) {
			continue
		}
		end := y + high
		for i, l := range lines {
			size := larger(all[i].size, k)
			d.letters(all[i].style, size)
			for _, s := range l {
				if y+line(size) > end+0.5 {
					return
				}
				d.put(x, y+size*point*0.95, s)
				y += line(size)
			}
		}
		return
	}
}

// code draws a square code within a square that has its quiet zone.
func (d *paper) code(modules [][]bool, x, y, side float64) {
	const quiet = 4 // modules, ISO/IEC 18004
	one := side / float64(len(modules)+2*quiet)
	d.pdf.SetFillColor(0, 0, 0)
	for r, row := range modules {
		for c := 0; c < len(row); c++ {
			n := 0
			for c+n < len(row) && row[c+n] {
				n++
			}
			if n > 0 {
				d.pdf.Rect(x+float64(c+quiet)*one, y+float64(r+quiet)*one, float64(n)*one, one, "F")
			}
			c += n
		}
	}
}

// packing prints a label for each load.
func (d *paper) packing(o Sheets) {
	const wide, high, pad = 180.0, 78.0, 6.0
	d.cards("Labels for loads", wide, high, len(o.Loads), func(i int, x, y float64) {
		l := o.Loads[i]
		weight := l.Heavy(d.plan.Units)
		if l.Over {
			weight += ": two people carry it"
		}
		if l.Tender {
			weight += "; keep it dry, nothing heavy on it"
		}
		d.stack(x+pad, y+pad, min(wide, d.wide-2*margin)-2*pad, high-2*pad, []words{
			{fmt.Sprintf("%d of %d", l.Number, len(o.Loads)), "B", poster, 1}, {strings.Join(l.Words(), ", "), "", title, 6}, {weight, "B", title, 2}, {d.plan.Title(), "", body, 1},
		})
	})
}
