// Package pack writes the print pack: one PDF with a picture and a plan, a true-scale drawing of every wall, the hang
// sheet, price tags at their true size, lists, and full-size strips on request. Everything but the picture on the cover
// is drawn with lines and letters in black and grey. Lengths on paper are millimetres.
package pack

import (
	"cmp"
	"fmt"
	"io"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"boothmock/internal/basis/imprint"
	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// Options are what a pack may have besides the booth and its sheet.
type Options struct {
	Report  finding.Report // whose verdict stands on the cover
	Picture []byte         // JPEG for the cover; nil for none
	Sales   hang.Section   // what hangs when something sells; empty: nothing waits
	Days    hang.Section   // the fair day by day; empty: the scene does not say when it is
	Strips  bool           // add full-size strips for the hooks
}

// Write writes the pack. The same booth, picture and options give the same bytes.
func Write(w io.Writer, p *booth.Plan, s hang.Sheet, o Options) error {
	first := compose(p, s, o, nil) // to learn on which pages things are
	if err := first.pdf.Error(); err != nil {
		return fmt.Errorf("the print pack cannot be made: %w", err)
	}
	return compose(p, s, o, first.contents).pdf.Output(w)
}

// paper is the pack while it is drawn.
type paper struct {
	pdf      *fpdf.Fpdf
	plan     *booth.Plan
	sheet    hang.Sheet
	wide     float64 // of the page as it lies now
	high     float64
	y        float64 // where the next thing goes, from the top
	left     float64 // between which places text and tables run
	right    float64
	next     func() // goes on elsewhere when the page is full; nil: on another page
	heading  string // of the page
	contents []entry
	format   string                                 // of the pages: A4, Letter, A6; empty: as people have it where they measure so
	watch    func(x, y, right float64, text string) // for tests: what is printed, and where; nil: nobody looks
}

// entry is a line of the contents.
type entry struct {
	title string
	page  int
}

const margin = 13.0 // every printer that people have at home leaves less white than this

// named is how many things to mend are named on the first page of a paper; the rest are counted.
const named = 6

// verdict says whether the booth is ready, and what must be mended first.
func (d *paper) verdict(r finding.Report) {
	d.say(r.Line, "B", lead, 0)
	for i, f := range r.Mend() {
		if i == named {
			d.say(fmt.Sprintf("And %d more things to mend, which the page to hand over and findings.json name.", len(r.Mend())-named), "B", body, 0)
			break
		}
		d.say("To mend: "+f.Sentence(), "B", body, 0)
	}
}

// pageSize is the paper that people have where they measure so.
func pageSize(sys unit.System) string {
	if sys == unit.Centimetres {
		return "A4"
	}
	return "Letter"
}

// newPaper is a document without pages.
func newPaper(p *booth.Plan, name string) *paper {
	pdf := fpdf.New("P", "mm", pageSize(p.Units), "")
	day := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC) // a real date would make two packs of one booth differ
	pdf.SetCreationDate(day)
	pdf.SetModificationDate(day)
	pdf.SetCatalogSort(true)
	pdf.SetTitle(name, true)
	pdf.SetProducer(imprint.Name, false)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(margin, margin, margin)
	pdf.SetCellMargin(0)
	pdf.SetLineWidth(plain)
	pdf.AddUTF8FontFromBytes("go", "", goregular.TTF)
	pdf.AddUTF8FontFromBytes("go", "B", gobold.TTF)
	return &paper{pdf: pdf, plan: p}
}

// compose draws the whole pack.
func compose(p *booth.Plan, s hang.Sheet, o Options, contents []entry) *paper {
	d := newPaper(p, p.Title())
	d.sheet = s
	d.cover(o, contents)
	for _, w := range s.Walls {
		if len(w.Works) > 0 {
			d.wall(w)
		}
	}
	d.chapter("Before you start", s.FirstSection())
	d.section(s.LoadSection())
	if s.Weather != nil {
		d.chapter("Wind, weights and rain", s.WindSection())
		d.section(s.RainSection())
	}
	if len(s.Loose) > 0 {
		if s.Weather == nil {
			d.chapter("Wind and weights", s.LooseSection())
		} else {
			d.section(s.LooseSection())
		}
	}
	d.chapter("What to bring", s.ListSection())
	d.chapter(o.Days.Title, o.Days)
	if len(s.Stock) > 0 {
		d.chapter("Stock", s.StockSection())
		d.chapter(o.Sales.Title, o.Sales)
		d.tags()
	}
	if o.Strips {
		d.strips()
	}
	return d
}

// chapter prints a section under a heading that is in the contents: on an upright page, the one before if its beginning fits there.
func (d *paper) chapter(heading string, s hang.Section) {
	if s.Empty() {
		return
	}
	if d.wide > d.high || d.pdf.PageNo() == 1 || d.y+d.beginning(s) > d.high-margin {
		d.page("P", heading)
	}
	d.heading = heading // of the pages after this one, too
	d.contents = append(d.contents, entry{heading, d.pdf.PageNo()})
	d.section(s)
}

// leaf is the size of the pages.
func (d *paper) leaf() fpdf.SizeType {
	return d.pdf.GetPageSizeStr(cmp.Or(d.format, pageSize(d.plan.Units)))
}

// page starts a page, upright (P) or lying (L).
func (d *paper) page(lies, heading string) {
	d.pdf.AddPageFormat(lies, d.leaf())
	d.wide, d.high = d.pdf.GetPageSize()
	d.y, d.left, d.right, d.heading = margin, margin, d.wide-margin, heading
	d.pdf.SetLineWidth(plain)
	d.ink(0)
	foot := fmt.Sprintf("page %d", d.pdf.PageNo())
	d.letters("", caption)
	d.pdf.Text(d.wide-margin-d.pdf.GetStringWidth(foot), d.high-7, foot)
	d.pdf.Text(margin, d.high-7, d.fit(d.plan.Title()+"  -  "+heading, d.wide-2*margin-25))
}

// letters sets the face, "" or "B", and the size in points.
func (d *paper) letters(style string, size float64) { d.pdf.SetFont("go", style, size) }

// put prints a text in the letters that are set, from x and on the line y.
func (d *paper) put(x, y float64, s string) {
	if d.watch != nil {
		d.watch(x, y, x+d.pdf.GetStringWidth(s), s)
	}
	d.pdf.Text(x, y, s)
}

// ink sets the grey of lines and letters, 0 black to 255 white.
func (d *paper) ink(grey int) {
	d.pdf.SetDrawColor(grey, grey, grey)
	d.pdf.SetTextColor(grey, grey, grey)
}

// fit is a text cut to a width in the letters that are set.
func (d *paper) fit(s string, width float64) string {
	if d.pdf.GetStringWidth(s) <= width {
		return s
	}
	r := []rune(s)
	for len(r) > 1 && d.pdf.GetStringWidth(string(r)+"…") > width {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// lines breaks a text into lines of a width in the letters that are set, at its plain spaces; a word that is wider by itself is broken.
func (d *paper) lines(s string, width float64) []string {
	if s == "" {
		return []string{""}
	}
	var out []string
	for _, w := range strings.Split(unit.Unbroken(unit.ProseAsIn(d.plan.Currency, s)), " ") {
		if n := len(out) - 1; n >= 0 && d.pdf.GetStringWidth(out[n]+" "+w) <= width {
			out[n] += " " + w
		} else {
			out = append(out, d.pdf.SplitText(w, width)...) // which breaks at no-break spaces too
		}
	}
	return out
}

// room starts another page with the same heading unless there are so many millimetres left on this one.
func (d *paper) room(height float64) bool {
	if d.y+height <= d.high-margin {
		return false
	}
	if d.next != nil {
		d.next()
	} else {
		d.page("P", d.heading)
	}
	return true
}

// say prints a paragraph. Of one that runs over a page no line stands alone.
func (d *paper) say(s, style string, size, indent float64) {
	d.letters(style, size)
	step := line(size)
	lines := d.lines(s, d.right-d.left-indent)
	for i, l := range lines {
		switch left := len(lines) - i; {
		case i == 0:
			d.room(firstLines(lines) * step)
		case left == 2:
			d.room(2 * step)
		default:
			d.room(step)
		}
		d.letters(style, size)
		d.put(d.left+indent, d.y+size*point*0.95, l)
		d.y += step
	}
}

// firstLines are how many lines of a paragraph must stay together at its beginning, so that none stands alone.
func firstLines(lines []string) float64 {
	if len(lines) == 3 {
		return 3
	}
	return float64(min(len(lines), 2))
}

// point is a paragraph with a dot before it.
func (d *paper) point(text string) {
	d.letters("", body)
	d.room(firstLines(d.lines(text, d.right-d.left-5)) * line(body))
	d.pdf.Circle(d.left+1.2, d.y+2, 0.6, "F")
	d.say(text, "", body, 5)
	d.y += near
}
