// Package draft lays out drawings to scale as lines and letters: a wall seen square on, with what it holds hooks by, the works, their
// hooks and all measures; and the booth from above. One layout serves every paper: drawing draws it as PNG, pack as PDF, page as SVG.
//
// A label is put where its box is free, or is left to the tables: none is cut off, none lies on another. Places on a sheet are in the
// sheet's own unit (pixels, millimetres, centimetres), right and down from its upper left corner; letters are one em high.
package draft

import (
	"fmt"
	"slices"
)

// Point is a place on a sheet.
type Point struct{ X, Y float64 }

// Box is a piece of a sheet.
type Box struct{ X0, Y0, X1, Y1 float64 }

func (b Box) Meets(o Box) bool  { return b.X0 < o.X1 && o.X0 < b.X1 && b.Y0 < o.Y1 && o.Y0 < b.Y1 }
func (b Box) Within(o Box) bool { return b.X0 >= o.X0 && b.X1 <= o.X1 && b.Y0 >= o.Y0 && b.Y1 <= o.Y1 }

// Pen is what a line stands for.
type Pen int

const (
	Ground  Pen = iota
	Edge        // of a wall
	Work        // a work's outline
	Wire        // what holds hooks
	Cloth       // before the wall: its hem and sides
	Centre      // a height at which works have their middle
	Eye         // the usual visitor's eyes
	Table       // what stands before the wall
	Hook        // where a hook carries and holds on
	Measure     // a measured length
	Lead        // from a label to what it is about
	Pitch       // its edges
	Cut         // through, of what is seen from above
	Hung        // on a wall, from above
	Thing       // that stands on the ground, from above
)

// Stroke is how a pen draws: its width and dashes in ems, its grey from 0, black.
type Stroke struct {
	Name  string
	Width float64
	Grey  uint8
	Dash  []float64
}

// Widths of lines double from one to the next, as in ISO 128-2 (0.13, 0.25, 0.5 mm; from memory): of letters of 9 points they are those.
const Thin, Plain, Bold = 0.04, 0.08, 0.16

// Strokes are those of every pen, on every paper.
var Strokes = [...]Stroke{
	Ground: {"ground", Bold, 0, nil}, Edge: {"edge", Plain, 90, nil}, Work: {"work", Bold, 0, nil}, Wire: {"wire", Thin, 190, nil},
	Cloth: {"cloth", Plain, 150, nil}, Centre: {"centre", Thin, 90, []float64{1.2, 0.3, 0.2, 0.3}}, Eye: {"eye", Thin, 90, []float64{0.3, 0.3}},
	Table: {"table", Plain, 90, []float64{0.7, 0.4}}, Hook: {"hook", Plain, 0, nil}, Measure: {"measure", Thin, 0, nil}, Lead: {"lead", Thin, 120, []float64{0.2, 0.25}},
	Pitch: {"pitch", Plain, 0, []float64{0.5, 0.5}}, Cut: {"cut", Thin, 100, nil}, Hung: {"hung", Thin, 0, nil}, Thing: {"thing", Thin, 90, nil},
}

// Fill is what a closed line or a circle is filled with.
type Fill int

const (
	Hollow Fill = iota
	White
	Pale // nearly white
	Ink
)

// PaleGrey is the grey of Pale.
const PaleGrey = 235

// Mark is a line, a circle, or a line of text.
type Mark struct {
	Pen    Pen
	Of     int     // which of the wall's works it belongs to, from 1; 0: to the wall
	Path   []Point // of a circle its centre, of a text where it is held
	Closed bool
	Fill   Fill
	Round  float64 // a circle's radius

	Text   string
	Bold   bool
	Turned bool    // it reads upwards
	Held   float64 // where along the text its place is: 0 its beginning, 1 its end
}

// Boxed reports whether a mark is a rectangle along the sheet's edges.
func (m Mark) Boxed() bool {
	if len(m.Path) != 4 || !m.Closed {
		return false
	}
	p, q := m.Path[0], m.Path[2]
	return slices.Equal(m.Path, []Point{p, {q.X, p.Y}, q, {p.X, q.Y}})
}

// Setting is how a drawing is to be set.
type Setting struct {
	Wide, High float64                              // of the sheet
	Em         float64                              // of its letters
	Scales     []float64                            // units a metre, the largest first; none: as large as the sheet lets it
	Width      func(bold bool, text string) float64 // of a line of text, in ems
	Length     func(metres float64) string          // in words
	Beyond     float64                              // metres that are drawn beside and above the wall
	Seen       bool                                 // it is drawn over a picture of the wall
	OneByOne   bool                                 // the measures of one work are seen at a time
}

// Sheet is a drawing that is laid out.
type Sheet struct {
	Setting
	Scale  float64 // units a metre
	Origin Point   // the wall's left end on the ground
	Marks  []Mark
	Left   int // labels that found no room: the tables have them
	taken  []place
}

type place struct {
	Box
	of int
}

// Missing says how many labels found no room; empty if all of them did.
func (s *Sheet) Missing() string {
	switch s.Left {
	case 0:
		return ""
	case 1:
		return "One label has no room here: the hang sheet has all measures."
	}
	return manyMissing(s.Left)
}

func manyMissing(labels int) string {
	return fmt.Sprintf("%d labels have no room here: the hang sheet has all measures.", labels)
}

// At is a place of the wall's own frame on the sheet.
func (s *Sheet) At(x, y float64) Point {
	return Point{s.Origin.X + float64(x*s.Scale), s.Origin.Y - float64(y*s.Scale)}
}

// Box is what a mark with a text takes.
func (s *Sheet) Box(m Mark) Box {
	long, p, em := s.Em*s.Width(m.Bold, m.Text), m.Path[0], s.Em
	if m.Turned {
		return Box{p.X - 0.78*em, p.Y - long*(1-m.Held), p.X + 0.22*em, p.Y + long*m.Held}
	}
	return Box{p.X - long*m.Held, p.Y - 0.78*em, p.X + long*(1-m.Held), p.Y + 0.22*em}
}

// free reports whether nothing lies in a box that is seen together with what belongs to that work.
func (s *Sheet) free(b Box, of int) bool {
	return b.Within(Box{0, 0, s.Wide, s.High}) && !slices.ContainsFunc(s.taken, func(t place) bool {
		return (of == t.of || of == 0 || t.of == 0 || !s.OneByOne) && t.Meets(b)
	})
}

// fit takes the largest scale that is no larger than this one.
func (s *Sheet) fit(most float64) {
	s.Scale = max(2, most)
	if k := slices.IndexFunc(s.Scales, func(k float64) bool { return k <= s.Scale }); k >= 0 {
		s.Scale = s.Scales[k]
	} else if len(s.Scales) > 0 {
		s.Scale = s.Scales[len(s.Scales)-1]
	}
}

func (s *Sheet) take(b Box, of int) { s.taken = append(s.taken, place{b, of}) }

// put writes the first of some labels whose place is free.
func (s *Sheet) put(labels ...Mark) bool {
	for _, m := range labels {
		if b := s.Box(m); s.free(b, m.Of) {
			s.take(b, m.Of)
			s.Marks = append(s.Marks, m)
			return true
		}
	}
	s.Left++
	return false
}

// around are a label's places about a point, nearer ones first: at its right, at its left, over and under it.
func (s *Sheet) around(m Mark, p Point, off float64) (out []Mark) {
	em := s.Em
	for away := 0.0; away < 40; away += 0.55 {
		for _, side := range []struct{ x, held float64 }{{off, 0}, {-off, 1}, {0, 0.5}} {
			for _, down := range []float64{away, -away} {
				m.Held, m.Path = side.held, []Point{{p.X + side.x, p.Y + 0.28*em + float64(down*em)}}
				out = append(out, m)
			}
		}
	}
	return out
}

func (s *Sheet) line(p Pen, of int, points ...Point) {
	s.Marks = append(s.Marks, Mark{Pen: p, Of: of, Path: points})
}

func (s *Sheet) rect(p Pen, of int, b Box, fill Fill) {
	s.Marks = append(s.Marks, Mark{Pen: p, Of: of, Path: []Point{{b.X0, b.Y0}, {b.X1, b.Y0}, {b.X1, b.Y1}, {b.X0, b.Y1}}, Closed: true, Fill: fill})
}

// words is a label that begins at a place.
func words(x, y float64, text string) Mark { return Mark{Text: text, Path: []Point{{x, y}}} }

// tick is the short slanted stroke at the end of a measured length.
func (s *Sheet) tick(p Point) {
	k := 0.25 * s.Em
	s.line(Measure, 0, Point{p.X - k, p.Y + k}, Point{p.X + k, p.Y - k})
}

// spread moves places apart to a least distance while keeping their order, each as near to where it wants to be as a single sweep
// lets it; the last ones are pushed back inside hi.
func spread(want []float64, least, hi float64) []float64 {
	out := append([]float64(nil), want...)
	for i := 1; i < len(out); i++ {
		out[i] = max(out[i], out[i-1]+least)
	}
	for i := len(out) - 1; i >= 0; i-- {
		limit := hi
		if i+1 < len(out) {
			limit = out[i+1] - least
		}
		out[i] = min(out[i], limit)
	}
	return out
}
