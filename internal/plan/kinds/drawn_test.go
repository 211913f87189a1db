package kinds

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/golden"
	"boothmock/internal/plan/booth"
)

// What is drawn of each kind is chosen by eye and has no source: this is only that nobody changes it by accident. Two booths with one of
// everything, in numbers of which the sums are kept: of each part where it is and how large, of each surface its colour, area and the centre of
// it, of each view where from, of each task how long, by how many and with what. After a change that is meant, look at pictures of it, then:
//
//	go test ./internal/plan/kinds -run TestDrawnAsBefore -update
func TestDrawnAsBefore(t *testing.T) {
	var out strings.Builder
	for _, text := range []string{outdoors, indoors} {
		describe(&out, mustPlan(t, text))
	}
	now := map[string]string{} // by part, view and task
	for line := range strings.Lines(out.String()) {
		of, _, _ := strings.Cut(line, ":")
		now[of] += line
	}
	golden.Sums(t, "testdata/drawn.txt", now)
}

func describe(out *strings.Builder, p *booth.Plan) {
	// Half a millimetre is up or down by chance, and by the processor: numbers are put a little off before they are rounded.
	fine := func(x float64) float64 { return math.Round((x+0.0000617)*1000)/1000 + 0 }
	at := func(v geom.Vec) string { return fmt.Sprint(fine(v.X), fine(v.Y), fine(v.Z)) }
	for _, part := range p.Parts {
		fmt.Fprintf(out, "%s: on %q, %s\n", part.ID, part.Parent, part.Bring)
		var corners []geom.Vec
		volume, centre := 0.0, geom.Vec{}
		for _, c := range part.Solids {
			corners = append(corners, c.Corners...)
			v, m := c.Mass()
			volume, centre = volume+v, centre.Add(m.Mul(v))
		}
		if len(corners) > 0 {
			lo, hi := geom.Bounds(corners)
			fmt.Fprintf(out, "%s: %d solids from %s to %s, %v dm³ about %s\n", part.ID, len(part.Solids), at(lo), at(hi), fine(volume*1000), at(centre.Mul(1/volume)))
		}
		for i, s := range part.Surfaces {
			area, centre, u, v, square := 0.0, geom.Vec{}, 0.0, 0.0, 0.0
			corners = corners[:0]
			for _, c := range s.Mesh.Vertices {
				corners = append(corners, c.P)
			}
			lo, hi := geom.Bounds(corners)
			for _, tri := range s.Mesh.Triangles {
				a, b, c := s.Mesh.Vertices[tri[0]], s.Mesh.Vertices[tri[1]], s.Mesh.Vertices[tri[2]]
				k := b.P.Sub(a.P).Cross(c.P.Sub(a.P)).Len() / 2
				m := a.P.Add(b.P).Add(c.P).Mul(1. / 3)
				square += k * m.Dot(m)
				area, centre, u, v = area+k, centre.Add(m.Mul(k)), u+k*(a.U+b.U+c.U)/3, v+k*(a.V+b.V+c.V)/3
			}
			fmt.Fprintf(out, "%s: surface %d of %x, passes %v, %d triangles from %s to %s, %v dm² about %s, spread %v, texture %v %v\n", part.ID, i, s.Look.Colour, s.Look.Passes, len(s.Mesh.Triangles), at(lo), at(hi), fine(area*100), at(centre.Mul(1/area)), fine(math.Sqrt(square/area)), fine(u/area), fine(v/area))
		}
	}
	for _, v := range p.Views {
		fmt.Fprintf(out, "view %s: from %s to %s, %v across\n", v.Name, at(v.Stand), at(v.Look), fine(v.Across))
	}
	for _, list := range [][]booth.Task{p.SetUp.Tasks, p.SetUp.Strike, p.SetUp.Night} {
		for _, task := range list {
			fmt.Fprintf(out, "task %s: %s, %d people, %d min, after %v\n", task.ID, task.Name, task.Crew, task.Minutes, task.After)
			for _, c := range task.Fetch {
				fmt.Fprintf(out, "task %s: takes %d %s of %.0f g\n", task.ID, c.Count, c.What, c.Weight.Kg()*1000)
			}
		}
	}
}

const outdoors = `
units: in
pitch: {width: 20ft, depth: 16ft, aisle: 14ft, ground: grass, neighbours: {left: walled, back: tent}}
tent: {eave: 90, peak: 128, valance: 8, tents across: 2, roof: ridge, weight: 60lb, ballast: 150lb}
weather: {wind: force 3, friction: 0.4, rain: yes}
drapes: {walls: [left, back, right], cloth: charcoal, top: 84, fullness: 1.25, grams: 150}
walls:
  - {side: left, top: 82}
  - {side: back, top: 82, hang on: chains, spacing: 12in}
  - {side: right, top: 82}
  - {name: wing, width: 4ft, hang on: panel, from left: 110, from front: 92, turn: 90, faces: both, feet: 24, tied: yes, bottom: 6, top: 80}
tables:
  - {name: prints, size: 48 x 24, height: 30, cloth: linen, against: right, from front: 60, on top: [{name: guest book, size: 10 x 8 x 1, along: 34, back: 2}, {name: jar, shape: jar, size: 6 x 6 x 8, along: 40, back: 12}]}
  - {name: bare, size: 40 x 20, height: 29, from left: 30, from front: 20}
pedestals: [{name: plinth, size: 14 x 14, height: 36, against: left, from front: 60}]
bins: [{name: small prints, size: 20 x 16 x 33, prints: 18, against: right, from front: 26}, {name: cards, size: 12 x 10 x 9, prints: 7, on: bare}]
chair: {against: back, from left: 200}
things:
  - {name: tripod, what: easel, size: 22 x 26 x 56, from left: 60, from back: 14}
  - {name: rug, what: rug, from left: 160, from front: 70}
  - {name: crate, what: crate, against: left, from front: 84}
  - {name: cooler, what: cooler, against: right, from back: 20}
  - {name: plant, what: plant, against: left, from front: 6}
  - {name: bench, what: bench, from left: 56, from front: 70}
  - {name: rack of cards, what: spinner, against: left, from front: 32}
  - {name: prints in sleeves, what: clothes-rail, against: left, from front: 116, turn: 90}
  - {name: looking glass, what: mirror, from left: 24, from back: 4}
  - {name: lamp stand, what: lamp-stand, from right: 4, from back: 4}
  - {name: pot, what: round, size: 10 x 10 x 14, on: plinth}
  - {name: palette, what: board, size: 12 x 1/2 x 8, on: prints, along: 14, back: 18}
  - {name: empty frame, what: frame, size: 10 x 1 x 8, on: crate, back: 6}
  - {name: parasol, what: umbrella, size: 44 x 44 x 104, from right: 6, from back: 40}
  - {name: a-board, what: a-board, size: 20 x 18 x 34, from right: 8, from front: 2}
  - {name: ledge, what: ledge, wall: wing, height: 26, size: 30 x 3 1/2 x 1 3/4}
  - {name: card shelf, what: shelf, wall: left, left: 60, height: 24, size: 24 x 4 x 3/4}
  - {name: bags, what: bag-hooks, hangs on: prints}
  - {name: lime, what: tree, from left: -70, from back: -90}
works:
  - {name: saltings, image: red.jpg, size: 24 x 48, weight: 11lb, price: 1850}
  - {name: weir, image: red.jpg, size: 20 x 40, weight: 10lb}
  - {name: pair, size: 24 x 11, parts: [{}, {}], apart: 2, weight: 8lb}
  - {name: stone, size: 9 x 13 x 9, on: bench, weight: 14lb}
  - {name: dahlias, size: 20 x 16, depth: 3/4, weight: 4lb, on: tripod}
  - {name: moths, image: red.jpg, size: 7 x 14, weight: 3lb, frame: {width: 3/4, depth: 3/4, mat: 2}}
  - {name: pears, size: 12 x 12, depth: 3/4, on: ledge}
rows: [{wall: back, works: [saltings]}, {wall: right, works: [weir, pair]}, {wall: wing back, works: [moths]}]
lamps: [{name: weir, clip to: left bar, aim: weir, arm: 24, lumens: 450, beam: 36, watts: 5, kelvin: 3500}, {name: back, clip to: back bar, aim: weir, arm: 1, lumens: 300, beam: 36, watts: 4}]
tags: {}
signs: [{name: welcome, text: [Welcome], address: https://example.org/a, size: 11 x 8.5, on: prints, along: 8, back: 6, turn: 60}]
banner: {text: Paintings, size: 10 x 40, on: prints}
visitors: [{from left: 170, from front: 50}, {who: wheelchair, name: guest, from left: 120, from front: 40}, {who: child, name: child, from left: 100, from front: -40}]
set-up: {people: 2, time: 4h, trolley: 220lb, trip: 6min}
`

const indoors = `
units: cm
pitch: {width: 300, depth: 240, aisle: 300, ground: carpet, indoor: true, hall lux: 180, neighbours: {}}
walls:
  - {side: left, hang on: panel, top: 244, bottom: 20, colour: "#dcd9d2"}
  - {side: back, hang on: panel, top: 244, bottom: 20, distance: 60, closed: yes}
  - {side: right, hang on: rail, top: 240, bottom: 20}
  - {name: fold, run: [60cm, back 30, 40cm], hang on: panel, from left: 60, from front: 100}
drapes: {walls: [right], cloth: "#dcd9d2", top: 244, fullness: 1}
tables: [{name: desk, size: 90 x 50, height: 74, colour: "#c9b48e", from right: 10, from front: 12}]
works: [{name: moths, image: red.jpg, size: 20 x 40, weight: 1.4kg, frame: {width: 2, depth: 2, mat: 6}}, {name: ferry, size: 45.7 x 61}]
rows: [{wall: left, works: [moths], centre: 150}, {wall: right, works: [ferry], centre: 150}]
lamps: [{name: a, clip to: left, aim: moths, lumens: 450, beam: 36, watts: 5, kelvin: 3500, arm: 75}, {name: b, on: desk, aim: ferry, lumens: 300, beam: 60, watts: 4, kelvin: 3000}]
`
