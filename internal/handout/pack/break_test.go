package pack

import (
	"math"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/find/hang"
)

// No column is narrower than its longest word, as long as all of them together fit; the widths still fill the page.
func TestNoWordOfATableIsBroken(t *testing.T) {
	d := newPaper(load(t, "demo.yaml"), "x")
	d.page("P", "x")
	table := hang.Table{
		Head: []string{"packed", "title", "remarks"}, Wide: []float64{1, 50, 50},
		Rows: [][]string{{"[ ]", "Reed bunting", "unframeable-as-it-is"}, {"[ ]", "Moths", ""}},
	}
	sum := 0.0
	for i, w := range d.columns(table) {
		sum += w
		d.letters("B", caption)
		if least := d.longestWord(table.Head[i]) + 2*cellPad; w < least-1e-9 {
			t.Errorf("column %d is %.1f mm wide, its head's longest word takes %.1f", i, w, least)
		}
	}
	if math.Abs(sum-(d.right-d.left)) > 1e-9 {
		t.Errorf("the columns are %.1f mm wide, the page has %.1f", sum, d.right-d.left)
	}
	table.Head[0] = strings.Repeat("packed", 60)
	if got := d.columns(table); math.Abs(got[1]-got[2]) > 1e-9 {
		t.Errorf("a word that cannot fit changes the others: %v", got)
	}
}

// Wherever on a page a paragraph begins, none of its lines stands alone on a page, and its dot is beside its first line.
func TestNoLineStandsAlone(t *testing.T) {
	p := load(t, "demo.yaml")
	for n := range 8 {
		text := strings.TrimSpace(strings.Repeat("something to know ", 1+6*n))
		for at := 0.0; at < 40; at += 1.7 {
			d := newPaper(p, "x")
			d.page("P", "x")
			d.y = d.high - margin - at
			lines := map[int]int{}
			d.watch = func(x, y, right float64, s string) {
				if strings.Contains(s, "know") {
					lines[d.pdf.PageNo()]++
				}
			}
			d.point(text)
			if len(lines) == 2 && (lines[1] < 2 || lines[2] < 2) {
				t.Errorf("%d mm from the end: %d lines on one page, %d on the next", int(at), lines[1], lines[2])
			}
		}
	}
}

// No line ends within a length: 31 1/8 that is broken after 31 is read as 31.
func TestNoLengthIsBroken(t *testing.T) {
	d := newPaper(load(t, "demo.yaml"), "x")
	d.page("P", "x")
	d.letters("", body)
	words := []string{"31\u00a01/8,", "rings", "26\u00a05/8", "apart,", "17\u00a01/4\u00a0in", "down,", "10", "x\u00a012\u00a0in\u00a0*"}
	for width := 20.0; width < 80; width++ {
		lines := d.lines("wire 31 1/8, rings 26 5/8 apart, 17 1/4 in down, 10 x 12 in\u00a0*", width)
		for i, l := range lines {
			if i > 0 && !slices.Contains(words, strings.SplitN(l, " ", 2)[0]) {
				t.Errorf("%v mm: %q", width, lines)
			}
		}
	}
}

// What a booth has nothing of is no table with a head alone, on paper or on the terminal, and no page.
func TestNothingIsNoTable(t *testing.T) {
	p := load(t, "demo.yaml")
	bare := *p
	bare.Parts = nil
	for _, s := range hang.Of(&bare).Sections() {
		if s.Empty() {
			t.Errorf("%s says nothing", s.Title)
		}
		for _, table := range s.Tables {
			if len(table.Rows) == 0 {
				t.Errorf("%s, %s: a head without rows", s.Title, table.Title)
			}
		}
	}
}

// A form is on one page with its heading, where the contents say that it is, and a hand writes on its lines.
func TestTheStockIsOnOnePage(t *testing.T) {
	p := load(t, "demo.yaml")
	s := hang.Of(p).StockSection()
	for full := 0.0; full < 250; full += 10 {
		d := newPaper(p, "x")
		d.page("P", "x")
		d.page("P", "x")
		d.y += full
		d.chapter("Stock", s)
		if got := d.contents[0].page; got != d.pdf.PageNo() {
			t.Errorf("%v mm down: the contents say page %d, and it ends on %d", full, got, d.pdf.PageNo())
		}
		for _, r := range d.lay(s.Tables[0]).rows {
			if r.high < 7 {
				t.Fatalf("a line to write on is %.1f mm high", r.high)
			}
		}
	}
}
