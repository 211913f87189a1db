package pack

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/gob"
	"fmt"
	"io"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// sheetWords are what the sheet of a list says of it.
var sheetWords = map[order.Which]struct{ title, pictures, fetch, loads string }{
	order.SetUp:  {"Setting up", "The picture shows what it puts up, and paler what stands before.", "Fetch: ", "Into the car, in this order: what is needed last goes in first"},
	order.Strike: {"Taking down", "The picture shows what it takes away, and paler what stays.", "To carry away: ", "Into the car, in this order"},
	order.Night:  {"Leaving it for the night", "The picture shows what it takes away or covers, and paler what stays.", "To carry away: ", "Into the car, in this order"},
}

// WriteSteps writes the sheet of a list: what goes into the car in which order, then every step with who does it, what it
// takes, the measures of what it puts up, what to look at, what can hurt, and what it puts up or takes away; and first what the
// report says. pictures are JPEG, one a step, nil where there is none.
func WriteSteps(w io.Writer, p *booth.Plan, sheet hang.Sheet, r order.Rehearsal, report finding.Report, pictures [][]byte) error {
	d := newPaper(p, sheetWords[r.Which].title+": "+p.Title())
	d.sheet = sheet
	d.steps(r, report, pictures)
	if err := d.pdf.Error(); err != nil {
		return fmt.Errorf("the sheet of the steps cannot be made: %w", err)
	}
	return d.pdf.Output(w)
}

// steps is the whole sheet.
func (d *paper) steps(r order.Rehearsal, report finding.Report, pictures [][]byte) {
	words := sheetWords[r.Which]
	d.page("P", strings.ToLower(words.title))
	d.say(words.title, "B", title, 0)
	d.verdict(report)
	d.say(r.Summary(), "", body, 0)
	d.y += apart
	for _, text := range r.Cautions {
		d.point(text)
	}
	d.loads(r)
	d.y += far
	d.room(60)
	d.say("Step by step", "B", head, 0)
	d.say("Begin a step when its people are free and the steps before it are done. "+words.pictures, "", body, 0)
	for i, s := range r.Steps {
		var picture []byte
		if i < len(pictures) {
			picture = pictures[i]
		}
		var measures []string
		if r.Which == order.SetUp {
			measures = d.sheet.Measures(d.plan, s.Hooks, s.Parts)
		}
		d.step(s, words.fetch, measures, report.Of(r.Step(s)), picture)
	}
}

// loads is the table of the loads in the order in which they go into the car.
func (d *paper) loads(r order.Rehearsal) {
	if len(r.Loads) == 0 {
		return
	}
	t := hang.Table{
		Title: sheetWords[r.Which].loads, Head: []string{"", "load", "what", "weight"}, Wide: []float64{5, 8, 75, 16},
	}
	for k := range r.Loads {
		if r.Which == order.SetUp {
			k = len(r.Loads) - 1 - k
		}
		l := r.Loads[k]
		t.Rows = append(t.Rows, []string{"[ ]", fmt.Sprint(l.Number), strings.Join(l.Words(), ", "), l.Heavy(d.plan.Units)})
	}
	d.table(t)
	d.say("A weight marked ~ has usual values in it that the scene does not state.", "", caption, 0)
}

// step is one step: the picture at the left, the words beside it, and below it those that find no room there.
func (d *paper) step(s order.Step, fetch string, measures []string, found []finding.Finding, picture []byte) {
	const wide, high, gap = 62.0, 62.0 * 9 / 16, 5.0
	type text struct {
		words
		indent float64
	}
	lines := []text{{words: words{fmt.Sprintf("%d  %s", s.Number, s.Name), "B", lead, 0}}}
	add := func(style, before string, texts ...string) {
		for _, t := range texts {
			lines = append(lines, text{words: words{before + t, style, body, 0}})
		}
	}
	add("", "", fmt.Sprintf("%s, %s: minute %d to %d", s.Hands(" + "), unit.Minutes(s.Minutes()).Format(), s.Start, s.End))
	if f := s.Needs(); f != "" {
		add("", fetch, f)
	}
	add("", "-  ", s.How...)
	add("", "-  ", measures...)
	if s.Check != "" {
		add("", "Look: ", s.Check)
	}
	for _, f := range found {
		add("B", "", f.Sentence())
	}
	if s.Caution != "" {
		add("B", "Caution: ", s.Caution)
	}
	tall := 0.0
	for i := range lines {
		l := &lines[i]
		if l.indent = wide + gap; tall >= high {
			l.indent = 0
		}
		d.letters(l.style, l.size)
		tall += line(l.size) * float64(len(d.lines(l.text, d.wide-2*margin-l.indent)))
	}
	if picture != nil {
		tall = max(tall, high)
	}
	d.y += apart
	if d.room(apart + min(tall, 0.8*d.high)) { // one that is longer than a page goes on
		d.y += apart
	}
	d.pdf.SetLineWidth(thin)
	d.pdf.Line(margin, d.y, d.wide-margin, d.y)
	d.y += apart
	top, page := d.y, d.pdf.PageNo()
	if picture != nil {
		name := fmt.Sprintf("step %x", sha256.Sum256(picture))
		if d.pdf.GetImageInfo(name) == nil {
			d.register(name, s.Number, picture)
		}
		if d.pdf.Err() {
			return
		}
		d.pdf.ImageOptions(name, margin, top, wide, high, false, fpdf.ImageOptions{ImageType: "JPG"}, 0, "")
	}
	for _, l := range lines {
		d.say(l.text, l.style, l.size, l.indent)
	}
	if d.pdf.PageNo() == page {
		d.y = max(d.y, top+tall)
	}
}

// register takes in the picture of a step. The library writes pictures in the order of their widths, and those of one width
// in no certain order: so each is wider than the one before by a millionth of a pixel, which is lost when it is written.
func (d *paper) register(name string, number int, picture []byte) {
	info := d.pdf.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: "JPG"}, bytes.NewReader(picture))
	if d.pdf.Err() {
		return
	}
	coded, err := info.GobEncode() // the only way to a picture's width
	var data, mask, palette []byte
	var object, bits int
	var width, height, scale, dpi float64
	var space, filter, decode string
	var through []int
	fields := []any{&data, &mask, &object, &width, &height, &space, &palette, &bits, &filter, &decode, &through, &scale, &dpi}
	in := gob.NewDecoder(bytes.NewReader(coded))
	for _, f := range fields {
		err = cmp.Or(err, in.Decode(f))
	}
	width += float64(number) * 1e-6
	var b bytes.Buffer
	out := gob.NewEncoder(&b)
	for _, f := range fields {
		err = cmp.Or(err, out.Encode(f))
	}
	d.pdf.SetError(cmp.Or(err, info.GobDecode(b.Bytes())))
}
