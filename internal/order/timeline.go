package order

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"boothmock/internal/imprint"
	"boothmock/internal/unit"
)

// WriteTimeline writes the rehearsal as an SVG drawing: a row for each step, a bar from its beginning to its end, those
// that must not be late dark, with who does it.
func (r Rehearsal) WriteTimeline(w io.Writer) error {
	const (
		left, right, top = 370, 90, 54 // room for names, for hands and for the scale
		row, bar         = 22, 14
		wide             = 1000
	)
	end := max(r.Length, r.Time, 1)
	x := func(minute int) float64 { return left + float64(wide-left-right)*float64(minute)/float64(end) }
	high := top + row*len(r.Steps) + 44
	var b bytes.Buffer
	text := func(x, y float64, attributes, s string) {
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f"%s>`, x, y, attributes)
		xml.EscapeText(&b, []byte(s)) // a buffer takes everything
		b.WriteString("</text>\n")
	}
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%d" height="%d" font-family="sans-serif" font-size="12" fill="#222">%s`+"\n", wide, high, wide, high, imprint.SVG)
	fmt.Fprintf(&b, `<rect width="%d" height="%d" fill="#fff"/>`+"\n", wide, high)
	text(12, 22, ` font-size="16" font-weight="bold"`, r.title())
	text(12, 40, "", fmt.Sprintf("%s for %s; no order of these steps is shorter than %s", unit.Minutes(r.Length).Format(), people(len(r.People)), unit.Minutes(r.Bound).Format()))
	tick := 10
	for end/tick > 14 {
		tick *= 2
	}
	bottom := top + row*len(r.Steps)
	for m := 0; m <= end; m += tick {
		fmt.Fprintf(&b, `<path d="M%.1f %d V%d" stroke="#ddd"/>`+"\n", x(m), top-4, bottom)
		text(x(m), float64(bottom+14), ` text-anchor="middle" fill="#666"`, fmt.Sprint(m))
	}
	text(x(0)-8, float64(bottom+14), ` text-anchor="end" fill="#666"`, "minutes")
	if r.Time > 0 {
		fmt.Fprintf(&b, `<path d="M%.1f %d V%d" stroke="#a33" stroke-width="2"/>`+"\n", x(r.Time), top-4, bottom)
		text(x(r.Time), float64(bottom+32), ` text-anchor="middle" fill="#a33"`, "gates open")
	}
	for i, s := range r.Steps {
		y := float64(top + row*i)
		fill := "#c9cfd4"
		if s.Room == 0 {
			fill = "#4a5560"
		}
		text(12, y+bar-2, "", fmt.Sprintf("%d  %s", s.Number, short(s.Name, 54)))
		fmt.Fprintf(&b, `<rect x="%.1f" y="%.1f" width="%.1f" height="%d" rx="2" fill="%s"/>`+"\n", x(s.Start), y, max(2, x(s.End)-x(s.Start)), bar, fill)
		text(x(s.End)+5, y+bar-2, ` fill="#444"`, s.Hands(" + "))
	}
	text(12, float64(bottom+32), ` fill="#666"`, "Dark: a step that must not be late, or the end is later.")
	b.WriteString("</svg>\n")
	_, err := w.Write(b.Bytes())
	return err
}

// title is what the list is called.
func (r Rehearsal) title() string {
	return map[Which]string{SetUp: "Setting up", Strike: "Taking down", Night: "For the night"}[r.Which]
}

// short is the text, cut after a word where it is longer than so many letters.
func short(s string, most int) string {
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	cut := strings.TrimRight(string(r[:most-1]), " ,;:")
	if k := strings.LastIndexByte(cut, ' '); k > most/2 {
		cut = strings.TrimRight(cut[:k], " ,;:")
	}
	return cut + " …"
}
