package check

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

var inSight = Check{
	Name: "read", Doc: "Tags, signs and the banner are seen whole from where they are read, and square codes from where they are scanned.",
	Source: rules.VisibleShare.Source,
	Run: func(p *Pass) {
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			l := part.Lettering
			if l == nil || len(l.Face) < 3 || l.Largest == 0 && l.Code == 0 {
				continue
			}
			eyes, where := p.readersOf(part)
			if p.tellRead(part, i, face{part.Name, l.Face, rules.VisibleShare.In(p.Plan.Rules)}, eyes, where) || l.Code == 0 || l.From == booth.Close {
				continue
			}
			p.tellRead(part, i, face{"the square code of " + part.Name, l.Square, wholeCode}, p.closeTo(l.Square, p.rule(rules.ScanDistance)), "where its square code is scanned")
		}
	},
}

// wholeCode is the share of a square code that must be seen. Its corners say where it is, and one of them hidden is enough to make it
// unreadable, whatever else its error correction mends (ISO/IEC 18004, 6.3.3, from memory); a hair is let pass.
const wholeCode = 0.99

// face is what somebody reads, and the share of it that must be seen.
type face struct {
	name   string
	at     geom.Polygon
	enough float64
}

// tellRead tells of what is hidden of a face of the part, by anything but people, from the best of the eyes; false if enough is
// seen.
func (p *Pass) tellRead(part *booth.Part, number int, read face, eyes []geom.Vec, where string) bool {
	var s seen
	for i, eye := range eyes {
		o := p.seeFace(eye, read.at, func(owner int) bool {
			o := &p.Plan.Parts[owner]
			return owner == number || o.Moving || o.ID == part.Parent && o.Wall != nil
		})
		if i == 0 || o.visible > s.visible {
			s = o
		}
	}
	f := Finding{Figure: shares(s.visible, read.enough), Source: rules.VisibleShare.Source}
	switch {
	case s.turned <= 0:
		p.report(Caution, part, f, "%s faces away from %s: nobody reads it from there", unit.Capital(read.name), where)
		return true
	case s.visible >= read.enough-1e-9 || len(s.hidden) == 0 || p.inOnePlace(part, &p.Plan.Parts[s.hidden[0].number]): // then that is told
		return false
	}
	level := Caution
	if s.visible < half && part.Lettering.From != booth.Close { // a tag is soon pinned elsewhere
		level = Fail
	}
	f.With = greatest(s)
	p.report(level, part, f, "%s of %s from %s%s", p.hiding(s), read.name, where, p.besides(s))
	return true
}

// readersOf are the eyes with which somebody reads a part, and where that is in words.
func (p *Pass) readersOf(part *booth.Part) (eyes []geom.Vec, where string) {
	name, words := readingPlace(part.Lettering.From)
	for _, v := range p.Plan.Views {
		if v.Name == name {
			return []geom.Vec{v.From(p.usual())}, words
		}
	}
	return p.closeTo(part.Lettering.Face, p.rule(rules.ReadingDistance)), "somebody who stands before it"
}

// closeTo are the eyes of somebody so many metres before a face: upright, and bent down to be level with it.
func (p *Pass) closeTo(face geom.Polygon, off float64) []geom.Vec {
	level := face.Centre().Add(face.Normal().Mul(off))
	return []geom.Vec{level, {X: level.X, Y: max(level.Y, p.usual().Height), Z: level.Z}}
}

// readingPlace is the view from which something is read, and its place in words; no view for what is read close by.
func readingPlace(r booth.Reader) (view, words string) {
	switch r {
	case booth.Entrance:
		return "entrance", "before the entrance"
	case booth.Aisle:
		return "across", "across the aisle"
	}
	return "", ""
}
