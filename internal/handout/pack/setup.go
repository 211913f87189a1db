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
// takes, what to look at, what can hurt, and what it puts up or takes away; and first what the report says. pictures are
// JPEG, one a step, nil where there is none.
func WriteSteps(w io.Writer, p *booth.Plan, r order.Rehearsal, report finding.Report, pictures [][]byte) error {
	words := sheetWords[r.Which]
	d := newPaper(p, words.title+": "+p.Title())
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
		d.step(s, words.fetch, report.Of(r.Step(s)), picture)
	}
	if err := d.pdf.Error(); err != nil {
		return fmt.Errorf("the sheet of the steps cannot be made: %w", err)
	}
	return d.pdf.Output(w)
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

// step is one step: the picture at the left, the words beside it.
func (d *paper) step(s order.Step, fetch string, found []finding.Finding, picture []byte) {
	const wide, gap = 62.0, 5.0
	high := wide * 9 / 16
	indent := wide + gap
	lines := []words{{fmt.Sprintf("%d  %s", s.Number, s.Name), "B", lead, 0}}
	lines = append(lines, words{fmt.Sprintf("%s, %s: minute %d to %d", s.Hands(" + "), unit.Minutes(s.Minutes()).Format(), s.Start, s.End), "", body, 0})
	if f := s.Needs(); f != "" {
		lines = append(lines, words{fetch + f, "", body, 0})
	}
	for _, h := range s.How {
		lines = append(lines, words{"-  " + h, "", body, 0})
	}
	if s.Check != "" {
		lines = append(lines, words{"Look: " + s.Check, "", body, 0})
	}
	for _, f := range found {
		lines = append(lines, words{f.Sentence(), "B", body, 0})
	}
	if s.Caution != "" {
		lines = append(lines, words{"Caution: " + s.Caution, "B", body, 0})
	}
	tall := apart
	for _, l := range lines {
		d.letters(l.style, l.size)
		tall += line(l.size) * float64(len(d.lines(l.text, d.wide-2*margin-indent)))
	}
	if picture != nil {
		tall = max(tall, high+apart)
	}
	d.y += apart
	if d.room(tall) {
		d.y += apart
	}
	top := d.y
	d.pdf.SetLineWidth(thin)
	d.pdf.Line(margin, top, d.wide-margin, top)
	d.y += apart
	if picture != nil {
		name := fmt.Sprintf("step %x", sha256.Sum256(picture))
		if d.pdf.GetImageInfo(name) == nil {
			d.register(name, s.Number, picture)
		}
		if d.pdf.Err() {
			return
		}
		d.pdf.ImageOptions(name, margin, d.y, wide, high, false, fpdf.ImageOptions{ImageType: "JPG"}, 0, "")
	}
	for _, l := range lines {
		d.say(l.text, l.style, l.size, indent)
	}
	d.y = max(d.y, top+tall)
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
