package kinds

import (
	"fmt"
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
)

// Thing is a thing on a table: a stack of cards, a cash box.
type Thing struct {
	Name   string       `yaml:"name" must:"yes" doc:"what it is"`
	Size   unit.Size3   `yaml:"size" must:"yes" range:"1/8in..6ft" doc:"width x depth x height"`
	Along  *unit.Length `yaml:"along" doc:"from the left end of the table to its left edge; the middle if left out"`
	Back   *unit.Length `yaml:"back" doc:"from the table's front edge to the thing; the middle if left out"`
	Shape  string       `yaml:"shape" oneof:"box stack jar rack" doc:"a box, which it is if left out, sheets in a stack, a round jar, or a rack with cards on three steps"`
	Colour Colour       `yaml:"colour" doc:"its colour"`
	Take   bool         `yaml:"for visitors" doc:"visitors take from it or write in it: cards, a guest book, a sign-up sheet"`
}

// stack are sheets, or boxes of them, that lie on each other not quite straight, in a room w wide, d deep and h high.
func stack(f geom.Frame, w, d, h float64) (out []geom.Convex) {
	const sheets, askew = 7, 0.045 // radians
	// So much smaller that a turned sheet keeps within the room.
	shrink := 1 / (1 + askew*max(w/d, d/w))
	w, d = w/2*shrink, d/2*shrink
	for i := range sheets {
		g := f.Turned(askew * math.Sin(2.4*float64(i)))
		out = append(out, geom.Box(g, geom.Vec{X: -w, Y: h * float64(i) / sheets, Z: -d}, geom.Vec{X: w, Y: h * float64(i+1) / sheets, Z: d}))
	}
	return out
}

// jar is round, with a shoulder and a lip.
func jar(f geom.Frame, w, d, h float64) []geom.Convex {
	const sides = 20
	x, z := w/2, d/2
	return []geom.Convex{
		geom.Drum(f, sides, 0, 0.88*x, 0.88*z, 0.12*h, x, z), geom.Drum(f, sides, 0.12*h, x, z, 0.78*h, x, z),
		geom.Drum(f, sides, 0.78*h, x, z, 0.9*h, 0.74*x, 0.74*z), geom.Drum(f, sides, 0.9*h, 0.8*x, 0.8*z, h, 0.8*x, 0.8*z),
	}
}

// rack is three steps that rise to the back, and the cards that lean on them.
func rack(f geom.Frame, w, d, h float64) (steps, cards []geom.Convex) {
	const lean = 0.22          // radians
	thick := min(0.006, 0.2*h) // metres, of a card
	across := max(1, math.Round(w/0.12))
	wide := w / across
	tall := min(0.44*h-thick, 0.75*d) // of a card: it keeps over its step, and under the rack's height
	for i := range 3 {
		front, top := d/2-d*float64(i)/3, h*(0.12+0.22*float64(i))
		steps = append(steps, geom.Box(f, geom.Vec{X: -w / 2, Z: front - d/3}, geom.Vec{X: w / 2, Y: top, Z: front}))
		for k := range int(across) {
			at := f.Moved(geom.Vec{X: -w/2 + wide*(float64(k)+0.5), Y: top, Z: front - d/6}).Tilted(lean)
			cards = append(cards, geom.Box(at, geom.Vec{X: -0.44 * wide}, geom.Vec{X: 0.44 * wide, Y: tall, Z: thick}))
		}
	}
	return steps, cards
}

// thing adds number k of the things that a table's entry names.
func (s *Site) thing(it scene.Item, e Thing, on string, parent booth.ID, k int) {
	w, d, h := e.Size.A.M(), e.Size.B.M(), e.Size.C.M()
	f, _, ok := s.rest(it, Resting{On: on, Along: e.Along, Back: e.Back}, 0, w, d)
	if !ok {
		return
	}
	c := booth.Colour(e.Colour)
	if e.Colour == (Colour{}) {
		c = booth.Colour{0xd9, 0xd3, 0xc6}
	}
	var solids []geom.Convex
	var surfaces []booth.Surface
	switch e.Shape {
	case "stack":
		solids = stack(f, w, d, h)
	case "jar":
		solids = jar(f, w, d, h)
	case "rack":
		steps, cards := rack(f, w, d, h)
		solids = append(append(solids, steps...), cards...)
		surfaces = []booth.Surface{boards(c, steps...), block(paper, cards...)}
	default:
		solids = []geom.Convex{geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})}
	}
	if surfaces == nil {
		surfaces = []booth.Surface{block(c, solids...)}
	}
	s.add(booth.Part{
		ID: id("thing", e.Name), Parent: parent, Kind: "tables", Name: "the " + e.Name, At: it.At(fmt.Sprintf("on top.%d", k)), Frame: f, Bring: e.Name, Handled: e.Take,
		Solids: solids, Surfaces: surfaces,
	})
}
