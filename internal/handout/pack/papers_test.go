package pack

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
)

// Titles that are longer than a line and have letters of their own: Welsh, Greek, and one without a blank.
var longTitles = []string{
	"Llwybr yr arfordir ger Ŵy a'r ŷd yn aeddfedu, gyda'r hwyr, yn edrych tua'r gorllewin dros fae eang y môr",
	"Το παλιό μονοπάτι πάνω από τη θάλασσα, αργά το απόγευμα, με θέα προς τη δύση και τα ψηλά κυπαρίσσια",
	strings.Repeat("Donaudampfschifffahrt", 6), "Heron",
}

// crowded is the demo with 300 works that wait, with such titles and all else that a list can say.
func crowdedPlan(t *testing.T) *booth.Plan {
	p := *load(t, "demo.yaml")
	p.Waiting = nil
	p.Artist = "Gwenhwyfar Anastasia Featherstonehaugh-Papadimitriou"
	for i := range 300 {
		w := booth.Work{Title: longTitles[i%4], Medium: "reduction linocut in nine colours on handmade mulberry paper", Edition: "117/250", Year: "2019–2024", Height: 0.6, Width: 0.4, FramedHeight: 0.8, FramedWidth: 0.6,
			Weight: 3, Price: 125_000_050, Link: "https://example.org/works/" + fmt.Sprint(i)}
		w.Status = []string{"", "on request", "not for sale", ""}[i%4]
		p.Waiting = append(p.Waiting, booth.Waiting{ID: booth.ID(fmt.Sprint("work/spare", i)), Work: w})
	}
	return &p
}

// No paper runs over its page, whatever works are called: letters begin within the margins, lines and pictures end there, and
// what was cut shows an ellipsis. Text is measured by the document itself.
func TestPapersKeepToTheirPages(t *testing.T) {
	p := crowdedPlan(t)
	small := map[booth.ID][]byte{}
	for i := range 40 {
		small[booth.ID(fmt.Sprint("work/spare", i))] = greyPicture(t, uint8(i))
	}
	loads := make([]order.Load, 12)
	for i := range loads {
		loads[i] = order.Load{Number: i + 1, Weight: 40, Over: i%2 == 0, Tender: i%3 == 0}
		for range 1 + 3*i {
			loads[i].Items = append(loads[i].Items, order.Carried{What: longTitles[i%4], Count: 3})
		}
	}
	for _, which := range Papers {
		for _, o := range []Sheets{{}, {Format: "A4"}, {Format: "A6"}, {Large: true}} {
			if o.Format == "A4" && os.Getenv("REQUIRE_TOOLS") == "" {
				continue // in .ci/run, which sets it
			}
			if o.Format == "A6" && which.Name != "prices" && which.Name != "insurance" {
				continue
			}
			o.Small, o.Loads, o.Sheet, o.Days = small, loads, hang.Of(p), longDays()
			d := newPaper(p, "x")
			d.format, d.sheet = o.Format, o.Sheet
			over := 0
			d.watch = func(x, y, right float64, s string) {
				if x < margin-0.1 || right > d.wide-margin+0.5 || y > d.high-4 || y < margin-5 {
					if over++; over < 3 {
						t.Errorf("%s %+v: %.60q runs from %.1f to %.1f at %.1f of a page of %.0f x %.0f", which.Name, o.Format, s, x, right, y, d.wide, d.high)
					}
				}
			}
			which.draw(d, o)
			if err := d.pdf.Error(); err != nil || d.pdf.PageNo() < 2 && which.Name != "packing" && which.Name != "pieces" {
				t.Errorf("%s: %v, %d pages", which.Name, err, d.pdf.PageNo())
			}
		}
	}
}

// Tags are as large, and as many beside each other, as a paper of their own as they are in the pack, where pages come before them.
func TestTagsAlone(t *testing.T) {
	p := load(t, "demo.yaml")
	d := newPaper(p, "x")
	d.sheet = hang.Of(p)
	columns := map[float64]bool{}
	d.watch = func(x, _, right float64, s string) {
		if s == d.sheet.Stock[0].Title || s == d.sheet.Stock[1].Title {
			columns[x] = right < d.wide-margin
		}
	}
	d.tags()
	if heading := d.contents[0].title; heading != "Price tags, 2 x 3 1/2 in" || len(columns) != 2 {
		t.Errorf("%s, in columns at %v", heading, columns)
	}
	for x, fits := range columns {
		if !fits {
			t.Errorf("a title at %.1f mm runs over the page", x)
		}
	}
}

// longDays are days with more to do than a page holds.
func longDays() hang.Section {
	t := hang.Table{Title: "Saturday", Head: []string{"from", "what", "who", "time"}, Wide: []float64{10, 62, 18, 14}}
	for i := range 80 {
		t.Rows = append(t.Rows, []string{"18:00", longTitles[i%4], "Odile + Wren", "1 h 20 min"})
	}
	return hang.Section{Title: "The days", Tables: []hang.Table{t}}
}

// The same booth gives the same bytes, photographs and all.
func TestPapersAreTheSameAgain(t *testing.T) {
	p := load(t, "demo.yaml")
	small := map[booth.ID][]byte{}
	for i, w := range listedWorks(p) {
		small[w.id] = greyPicture(t, uint8(9*i))
	}
	for _, which := range Papers {
		var a, b bytes.Buffer
		for _, w := range []*bytes.Buffer{&a, &b} {
			if err := WritePaper(w, p, which, Sheets{Small: small}); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s differs", which.Name)
		}
	}
}

// The price list has what visitors read of a price, the insurance list its value: a sold work is on neither, and what a work
// is insured for is on no other paper.
func TestWhatPapersSay(t *testing.T) {
	p := *load(t, "demo.yaml")
	p.Parts = nil
	p.Waiting = []booth.Waiting{
		{ID: "work/a", Work: booth.Work{Title: "Heron", Height: 0.5, Width: 0.5, Price: 48000, Value: 90000, Weight: 2}},
		{ID: "work/b", Work: booth.Work{Title: "Weir", Height: 0.5, Width: 0.5, Price: 12000, Status: "not for sale"}},
		{ID: "work/c", Work: booth.Work{Title: "Barn", Height: 0.5, Width: 0.5, Price: 70000, Sold: true}},
		{ID: "work/d", Work: booth.Work{Title: "Reeds", Height: 0.5, Width: 0.5, Status: "on request"}},
		{ID: "work/e", Work: booth.Work{Title: "Moth", Height: 0.5, Width: 0.5, Price: 3500, Status: "from"}},
	}
	said := func(name string) string {
		var all []string
		for _, which := range Papers {
			if which.Name == name {
				d := newPaper(&p, "x")
				d.sheet = hang.Of(&p)
				d.watch = func(_, _, _ float64, s string) { all = append(all, strings.ReplaceAll(s, "\u00a0", " ")) }
				which.draw(d, Sheets{})
			}
		}
		return strings.Join(all, "|")
	}
	for name, c := range map[string]struct{ has, not string }{
		"prices":    {"Heron|$480|Weir|not for sale|Reeds|price on request|Moth|from $35", "$900|$120|Barn|$700"},
		"insurance": {"Heron|$900|Weir|$120|Reeds|value not stated|Moth|$35|4 works, together $1,055, 4 lb 7 oz|The value of 1 of them is not stated and not in the sum.|The weight of 3 of them", "$480|Barn"},
		"labels":    {"Heron|$480|Weir|not for sale|price on request", "$900|$120|Barn"},
	} {
		got := said(name)
		for _, w := range strings.Split(c.has, "|") {
			if !strings.Contains(got, w) {
				t.Errorf("%s has no %q: %s", name, w, got)
			}
		}
		for _, w := range strings.Split(c.not, "|") {
			if strings.Contains(got, w) {
				t.Errorf("%s has %q: %s", name, w, got)
			}
		}
	}
}
