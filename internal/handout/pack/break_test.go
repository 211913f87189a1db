package pack

import (
	"math"
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
