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
			if p.tellRead(part, i, eyes, where) || l.Code == 0 || l.From == booth.Close {
				continue
			}
			p.tellRead(part, i, p.closeTo(l.Face, p.rule(rules.ScanDistance)), "where its square code is scanned")
		}
	},
}

// tellRead tells of what is hidden of the part's face, by anything but people, from the best of the eyes; false if that is
// little.
func (p *Pass) tellRead(part *booth.Part, number int, eyes []geom.Vec, where string) bool {
	enough := rules.VisibleShare.In(p.Plan.Rules)
	var s seen
	for i, eye := range eyes {
		o := p.seeFace(eye, part.Lettering.Face, func(owner int) bool {
			o := &p.Plan.Parts[owner]
			return owner == number || o.Moving || o.ID == part.Parent && o.Wall != nil
		})
		if i == 0 || o.visible > s.visible {
			s = o
		}
	}
	f := Finding{Figure: shares(s.visible, enough), Source: rules.VisibleShare.Source}
	switch {
	case s.turned <= 0:
		p.report(Caution, part, f, "%s faces away from %s: nobody reads it from there", unit.Capital(part.Name), where)
		return true
	case s.visible >= enough-1e-9 || len(s.hidden) == 0 || p.inOnePlace(part, &p.Plan.Parts[s.hidden[0].number]): // then that is told
		return false
	}
	level := Caution
	if s.visible < half && part.Lettering.From != booth.Close { // a tag is soon pinned elsewhere
		level = Fail
	}
	f.With = greatest(s)
	p.report(level, part, f, "%s of %s from %s%s", p.hiding(s), part.Name, where, p.besides(s))
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
