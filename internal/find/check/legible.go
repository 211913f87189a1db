package check

import (
	"fmt"
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

const (
	minutes16 = 16.0 / 60 * math.Pi / 180 // 16 arc minutes: the least height of a letter for good eyes
	hfds      = "FAA Human Factors Design Standard: letters of 16 to 24 arc minutes"
	ada703    = "2010 ADA Standards 703.5.5, written for signs of buildings; good practice for a booth"
)

var legible = Check{
	Name: "legible", Doc: "Letters of banner, signs and tags are high enough for where they are read from.",
	Source: hfds + "; " + ada703,
	Run: func(p *Pass) {
		for i := range p.Plan.Parts {
			part := &p.Plan.Parts[i]
			l := part.Lettering
			if l == nil || l.Largest == 0 {
				continue
			}
			far, level, where := p.readFrom(part)
			height, what := l.Largest, "letters"
			if l.From == booth.Close { // read word for word
				height, what = l.Least, "smallest letters"
			}
			if least := far * minutes16; p.finely(height) != p.finely(least) && height < least {
				p.report(Caution, part, Finding{Figure: metres(height, least), Source: hfds},
					"The %s of %s are %s high; %s, they should be %s", what, part.Name, p.finely(height), where, p.finely(least))
			} else if high := leastOnSign(part.Frame.Origin.Y, level); l.From != booth.Close && height < high && p.finely(height) != p.finely(high) {
				p.report(Note, part, Finding{Figure: metres(height, high), Source: ada703},
					"The letters of %s are %s high; %s, %s would serve people with poor sight too", part.Name, p.finely(height), where, p.finely(high))
			}
		}
	},
}

// readFrom is how far off the reader's eye is, in metres, on the level too, and where that is in words.
func (p *Pass) readFrom(part *booth.Part) (far, level float64, where string) {
	name, words := readingPlace(part.Lettering.From)
	for _, v := range p.Plan.Views {
		if v.Name != name {
			continue
		}
		eye := v.From(p.usual())
		d := part.Frame.Origin.Sub(eye)
		far, level = d.Len(), geom.Vec{X: d.X, Z: d.Z}.Len()
		about := math.Round(far/unit.Inch.M()) * unit.Inch.M()
		return far, level, fmt.Sprintf("from %s, %s away", words, unit.Length(about).FormatFeet(p.Plan.Units))
	}
	far = p.rule(rules.ReadingDistance)
	return far, far, fmt.Sprintf("from %s away", p.length(far))
}

// leastOnSign is the least height of the capital I, in metres, for letters at the height h read from d metres away on
// the level: 2010 ADA Standards, table 703.5.5. Between whole feet the rise of 1/8 in a foot is taken as even.
func leastOnSign(h, d float64) float64 {
	const in, ft = float64(unit.Inch), float64(unit.Foot)
	least, from := 0.625*in, 72*in
	switch {
	case h > 120*in:
		least, from = 3*in, 21*ft
	case h > 70*in:
		least, from = 2*in, 180*in
	}
	return least + max(0, d-from)/ft*in/8
}

// finely is a small length: inches to the hundredth, or millimetres to the tenth.
func (p *Pass) finely(m float64) string {
	of, words, least := m/unit.Inch.M(), "%.2f in", 0.01
	if p.Plan.Units == unit.Centimetres {
		of, words, least = m*1000, "%.1f mm", 0.1
	}
	if of < least {
		return "less than " + fmt.Sprintf(words, least)
	}
	return fmt.Sprintf(words, of)
}
