package pack

import (
	"fmt"
	"io"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
	"boothmock/internal/plan/booth"
)

// Drawing is a picture for a paper, with its words.
type Drawing struct {
	Words         string
	JPEG          []byte
	Width, Height int // pixels
}

// WriteOrganiser writes what the organiser of a fair asks for, and no more: the plan with its clear ways, the walls to scale,
// tents and their weights, electricity and flame labels as the scene states them. Nothing in it says what a work costs. ways
// are the clear ways in words; the drawings have the plan first.
func WriteOrganiser(w io.Writer, p *booth.Plan, s hang.Sheet, ways []string, drawings []Drawing) error {
	d := newPaper(p, "For the organiser: "+p.Title())
	d.sheet = s
	d.page("P", "for the organiser")
	d.say("For the organiser", "B", title, 0)
	d.say(p.Title(), "B", lead, 0)
	d.y += apart
	d.table(hang.Table{Head: []string{"asked for", "as it is"}, Wide: []float64{24, 76}, Rows: d.facts(ways)})
	for i, drawing := range drawings {
		d.drawing(drawing, i+1)
	}
	d.y += apart
	d.say("Figures for wind and weights are estimates for planning. The organiser's rules, local codes and a licensed person come first.", "", body, 0)
	if err := d.pdf.Error(); err != nil {
		return fmt.Errorf("the paper for the organiser cannot be made: %w", err)
	}
	return d.pdf.Output(w)
}

const unstated = "not stated"

// facts are what is asked for in words and numbers, a row each.
func (d *paper) facts(ways []string) (rows [][]string) {
	p := d.plan
	feet := p.Feet
	add := func(what, says string) {
		if says == "" {
			says = unstated
		}
		rows = append(rows, []string{what, says})
	}
	add("Pitch", fmt.Sprintf("%s wide, %s deep, with an aisle of %s in front", feet(p.Pitch.Width), feet(p.Pitch.Depth), feet(p.Pitch.Aisle)))
	highest := 0.0
	var tents []string
	for i := range p.Parts {
		if t := p.Parts[i].Tent; t != nil {
			tents = append(tents, fmt.Sprintf("%s x %s, %s to the eave, %s to the peak, on %d legs", feet(t.Width), feet(t.Depth), feet(t.Eave), feet(t.Peak), t.Legs))
			highest = max(highest, t.Peak)
		}
		if wall := p.Parts[i].Wall; wall != nil {
			highest = max(highest, wall.Top)
		}
	}
	if len(tents) > 0 {
		add("Tent", strings.Join(tents, "; "))
	}
	if highest > 0 {
		add("Greatest height", feet(highest))
	}
	for _, w := range ways {
		add("Clear ways", w)
	}
	if w := d.sheet.Weather; w != nil {
		ballast := unstated
		if w.Ballast > 0 {
			ballast = unit.AsIn(p.Currency, unit.Weight(w.Ballast).Format(p.Units)) + " on each of " + fmt.Sprint(w.Legs) + " legs"
		}
		switch {
		case w.Stake > 0 && w.Ballast > 0:
			ballast += ", and a stake at each"
		case w.Stake > 0:
			ballast = fmt.Sprintf("none; a stake at each of %d legs", w.Legs)
		}
		add("Ballast", ballast)
	}
	add("Electricity", p.Electricity)
	add("Flame labels", p.FlameLabels)
	people := "one person"
	if n := p.SetUp.People; n > 1 {
		people = fmt.Sprintf("%d people", n)
	}
	add("Set up by", people)
	return rows
}

// drawing prints a picture across the page, with its words above.
func (d *paper) drawing(w Drawing, number int) {
	wide := d.wide - 2*margin
	high := wide * float64(w.Height) / float64(w.Width)
	d.y += apart
	d.room(high + 9)
	d.say(w.Words, "B", lead, 0)
	d.y += near
	name := fmt.Sprint("drawing ", number)
	d.register(name, number, w.JPEG)
	if d.pdf.Err() {
		return
	}
	d.pdf.ImageOptions(name, margin, d.y, wide, high, false, fpdf.ImageOptions{ImageType: "JPG"}, 0, "")
	d.y += high + apart
}
