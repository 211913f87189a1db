package order

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"boothmock/internal/basis/imprint"
	"boothmock/internal/basis/unit"
)

// The timeline's measures, in pixels: room for names at the left, for hands at the right, and rows.
const (
	chartWide              = 1000
	chartLeft, chartRight  = 370, 90
	laneHigh, row, barHigh = 30, 22, 14
)

// chart is a timeline being drawn.
type chart struct {
	bytes.Buffer
	end int // minutes across
}

func (c *chart) x(minute int) float64 {
	return chartLeft + float64(chartWide-chartLeft-chartRight)*float64(minute)/float64(c.end)
}

func (c *chart) text(x, y float64, attributes, s string) {
	fmt.Fprintf(c, `<text x="%.1f" y="%.1f"%s>`, x, y, attributes)
	xml.EscapeText(c, []byte(s)) // a buffer takes everything
	c.WriteString("</text>\n")
}

// bar is a step: black where it must not be late, else an outline, so that a print without colour shows it.
func (c *chart) bar(s Step, y float64, high int) {
	fill, edge := "#fff", "#222"
	if s.Room == 0 {
		fill, edge = "#222", "#fff" // so that bars side by side stay apart
	}
	fmt.Fprintf(c, `<rect x="%.1f" y="%.1f" width="%.1f" height="%d" rx="2" fill="%s" stroke="%s"/>`+"\n", c.x(s.Start), y, max(2, c.x(s.End)-c.x(s.Start)), high, fill, edge)
}

// WriteTimeline writes the rehearsal as an SVG drawing: when it is done and what is left, a lane for each person with their
// steps and waits, and a row for each step with who does it.
func (r Rehearsal) WriteTimeline(w io.Writer) error {
	c := &chart{end: max(r.Length, r.Time, 1)}
	lanes := 62
	rows := lanes + laneHigh*len(r.People) + 14
	bottom := rows + row*len(r.Steps)
	high := bottom + 44
	fmt.Fprintf(c, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%d" height="%d" font-family="sans-serif" font-size="12" fill="#222">%s`+"\n", chartWide, high, chartWide, high, imprint.SVG)
	c.WriteString(`<defs><pattern id="wait" width="6" height="6" patternUnits="userSpaceOnUse"><path d="M0 6L6 0" stroke="#888"/></pattern></defs>` + "\n")
	fmt.Fprintf(c, `<rect width="%d" height="%d" fill="#fff"/>`+"\n", chartWide, high)
	c.text(12, 22, ` font-size="16" font-weight="bold"`, r.title()+": "+r.Done())
	c.text(12, 40, "", fmt.Sprintf("%s; no order of these steps is shorter than %s", people(len(r.People)), unit.Minutes(r.Bound).Format()))
	tick := 10
	for c.end/tick > 14 {
		tick *= 2
	}
	for m := 0; m <= c.end; m += tick {
		fmt.Fprintf(c, `<path d="M%.1f %d V%d" stroke="#ddd"/>`+"\n", c.x(m), lanes-8, bottom)
		c.text(c.x(m), float64(bottom+14), ` text-anchor="middle" fill="#555"`, fmt.Sprint(m))
	}
	c.text(c.x(0)-8, float64(bottom+14), ` text-anchor="end" fill="#555"`, "minutes")
	if r.Time > 0 {
		fmt.Fprintf(c, `<path d="M%.1f %d V%d" stroke="#222" stroke-width="2" stroke-dasharray="6 3"/>`+"\n", c.x(r.Time), lanes-8, bottom)
		c.text(c.x(r.Time), float64(bottom+32), ` text-anchor="middle"`, "gates open")
	}
	for i, l := range r.Lanes() {
		c.lane(l, r.Steps, float64(lanes+laneHigh*i))
	}
	for i, s := range r.Steps {
		y := float64(rows + row*i)
		c.text(12, y+barHigh-2, "", fmt.Sprintf("%d  %s", s.Number, short(s.Name, 54)))
		c.bar(s, y, barHigh)
		c.text(c.x(s.End)+5, y+barHigh-2, "", s.Hands(" + "))
	}
	c.text(12, float64(bottom+32), ` fill="#555"`, "Black: a step that must not be late, or the end is later. Hatched: waiting.")
	c.WriteString("</svg>\n")
	_, err := w.Write(c.Bytes())
	return err
}

// lane is what one person does, each step with its number where there is room for it, each wait hatched with its minutes.
func (c *chart) lane(l Lane, steps []Step, y float64) {
	const digit = 7.5 // px a letter takes
	c.text(chartLeft-8, y+barHigh+1, ` text-anchor="end" font-weight="bold"`, short(l.Who, 40))
	for _, t := range l.Turns {
		x, wide := c.x(t.From), c.x(t.To)-c.x(t.From)
		label, ink := "", ""
		if t.Wait {
			fmt.Fprintf(c, `<rect x="%.1f" y="%.1f" width="%.1f" height="%d" fill="url(#wait)"/>`+"\n", x, y, wide, barHigh+6)
			label = fmt.Sprint(t.To - t.From)
			if digit*float64(len(label)+1) <= wide {
				fmt.Fprintf(c, `<rect x="%.1f" y="%.1f" width="%.1f" height="%d" fill="#fff"/>`+"\n", x+wide/2-digit*float64(len(label)+1)/2, y+2, digit*float64(len(label)+1), barHigh+2)
			}
		} else {
			s := steps[t.Step-1]
			c.bar(s, y, barHigh+6)
			label = fmt.Sprint(s.Number)
			if s.Room == 0 {
				ink = ` fill="#fff"`
			}
		}
		if digit*float64(len(label)) <= wide {
			c.text(x+wide/2, y+barHigh, ` text-anchor="middle"`+ink, label)
		}
	}
}

// Done is when it is done and how much time is left, in words.
func (r Rehearsal) Done() string {
	time := func(m int) string { return unit.Minutes(m).Format() }
	switch {
	case r.Time > 0 && r.Length <= r.Time:
		return fmt.Sprintf("done after %s, %s left before the gates open", time(r.Length), time(r.Time-r.Length))
	case r.Time > 0:
		return fmt.Sprintf("done after %s, %s after the gates open", time(r.Length), time(r.Length-r.Time))
	}
	return "done after " + time(r.Length)
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
