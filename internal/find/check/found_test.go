package check

import (
	"fmt"
	"math"
	"testing"

	"boothmock/internal/golden"
	"boothmock/internal/plan/rules"
)

// What is found in booths with a great many faults, as it was: other tests say of each check that it is right, and this is only that no
// number or condition changes by accident. After a change that is meant, read what differs, then:
//
//	go test ./internal/find/check -run TestFoundAsBefore -update
func TestFoundAsBefore(t *testing.T) {
	now := map[string]string{} // by booth and check
	s := busy()
	tell(now, "busy", Run(&s.Plan))
	for i, text := range []string{muddle, sideways} {
		tell(now, []string{"muddle", "sideways"}[i], Run(builtFrom(t, rules.Book{}, text)))
	}
	golden.Sums(t, "testdata/found.txt", now)
}

// tell adds what a booth's checks say to what is told, by booth and check.
func tell(told map[string]string, name string, r Result) {
	add := func(of, format string, args ...any) { told[name+" "+of] += fmt.Sprintf(format, args...) + "\n" }
	// Half a unit is up or down by chance, and by the processor: numbers are put a little off before they are rounded.
	fine := func(x float64) float64 { return math.Round((x+0.00000617)*10000)/10000 + 0 }
	for _, f := range r.Findings {
		figure := ""
		if f.Figure != nil {
			figure = fmt.Sprintf(" (%v of %v)", fine(f.Measured), fine(f.Limit))
		}
		add(f.Check, "%s %s %s with %q, view %q, more %d: %s%s", f.Level, f.Item, f.At, f.With, f.View, f.More, f.Message, figure)
	}
	for _, l := range r.Sightlines {
		if l.Visible == 0 || l.Visible == 1 {
			continue
		}
		by := ""
		for _, h := range l.HiddenBy {
			by += fmt.Sprintf(", %s hides %v", h.Item, fine(h.Share))
		}
		add("seen from "+l.From, "%s %s: %v seen, turned %v%s", l.Eye, l.Work, fine(l.Visible), fine(l.Turned), by)
	}
	for _, c := range r.Clearances {
		width := math.NaN()
		if c.Width != nil {
			width = fine(*c.Width)
		}
		add("ways", "to %s: %v m between %v", c.To, width, c.Between)
	}
	if r.Circle != nil {
		add("circle", "%v m about %v, %v", fine(r.Circle.Diameter), fine(r.Circle.Centre[0]), fine(r.Circle.Centre[1]))
	}
}

// Everything stands in the way of everything.
const muddle = `
units: in
pitch: {width: 12ft, depth: 10ft, aisle: 10ft, neighbours: {left: walled}}
tent: {eave: 78, peak: 110, valance: 9, weight: 40lb}
drapes: {walls: [back], cloth: charcoal, top: 80, fullness: 1.25}
walls:
  - {side: left, top: 76}
  - {side: back, top: 76}
  - {side: right, top: 76, hang on: chains, spacing: 12in}
  - {name: wing, width: 4ft, hang on: panel, from left: 60, from front: 60, turn: 60, faces: both, feet: 8, bottom: 6, top: 80}
tables:
  - {name: prints, size: 60 x 30, height: 36, against: right, from front: -3, on top: [{name: guest book, size: 10 x 8 x 1, along: 34, back: 2, for visitors: yes}, {name: jar, shape: jar, size: 6 x 6 x 8, along: 57, back: 24}]}
  - {name: desk, size: 40 x 20, height: 26, from left: 20, from front: 30, cloth: linen}
pedestals: [{name: plinth, size: 14 x 14, height: 36, against: left, from front: 30}]
bins: [{name: cards, size: 12 x 10 x 9, prints: 7, on: desk}]
chair: {against: back, from left: 70}
things:
  - {name: tripod, what: easel, size: 22 x 26 x 56, from left: 50, from back: 14}
  - {name: crate, what: crate, from left: 24, from front: 34}
  - {name: pot, what: round, size: 10 x 10 x 14, on: plinth, along: 13}
  - {name: mirror, what: mirror, from left: 90, from back: 20}
  - {name: rug, what: rug, from left: 80, from front: 50}
  - {name: parasol, what: umbrella, size: 44 x 44 x 74, from right: 30, from back: 30}
  - {name: a-board, what: a-board, size: 20 x 18 x 34, from right: 40, from front: -10}
  - {name: ledge, what: ledge, wall: wing, height: 40, size: 40 x 8 x 1 3/4}
works:
  - {name: a, size: 30 x 40, wall: back, centre: 24, left: 3}
  - {name: b, size: 30 x 40, wall: back, centre: 58, left: 30}
  - {name: c, size: 20 x 24, wall: back, centre: 61, left: 71}
  - {name: d, size: 20 x 24, wall: left, centre: 70, left: 1}
  - {name: e, size: 20 x 30, wall: left, centre: 54.5, left: 80}
  - {name: f, size: 12 x 12, wall: left, centre: 55, left: 60}
  - {name: g, size: 24 x 24, wall: right, centre: 58, left: 6}
  - {name: h, size: 10 x 12, wall: wing, centre: 58, left: 10}
  - {name: i, size: 10 x 12, wall: wing back, centre: 58, left: 10}
  - {name: j, size: 9 x 13 x 9, on: desk}
  - {name: k, size: 40 x 30, on: tripod}
tags: {}
signs:
  - {name: prices, text: ["Everything is hand printed and signed, and a few of them are framed"], size: 6 x 4, on: prints, along: 8, back: 6, turn: 60}
  - {name: name, text: [Odile], size: 40 x 10, wall: back, left: 120, centre: 66}
  - {name: code, text: [Pay], address: "https://example.org/a", size: 5 x 4, on: desk, along: 20, back: 10}
banner: {text: Odile Marrowby, size: 12 x 70, on: desk}
visitors: [{from left: 70, from front: 30}, {who: child, name: child, from left: 60, from front: -20}]
`

// On a corner, open to the left too, with a store at the back.
const sideways = `
units: cm
pitch: {width: 300, depth: 300, aisle: 250, open: [left], neighbours: {}}
walls:
  - {side: back, hang on: panel, top: 244, bottom: 20, distance: 80, closed: yes}
  - {side: right, hang on: panel, top: 240, bottom: 20}
tables: [{name: desk, size: 150 x 60, height: 90, from left: 8, from front: 80}]
things: [{name: crate, what: crate, from left: 120, from front: 10}, {name: plant, what: plant, from left: 20, from front: 180}]
works:
  - {name: a, size: 70 x 70, wall: right, centre: 150, left: 20}
  - {name: b, size: 60 x 60, wall: right, centre: 150, left: 91}
  - {name: c, size: 70 x 60, wall: back, centre: 130, left: 40}
  - {name: d, size: 30 x 40, wall: back, centre: 170, left: 200}
chair: {from left: 200, from front: 60}
`
