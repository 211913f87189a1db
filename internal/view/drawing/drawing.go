// Package drawing makes the drawings to scale: every wall seen square on, and the plan from above; and it draws on
// pictures what they cannot show, such as the parts of works that something hides.
//
// What is drawn is the same booth as in the pictures. A stage in even light suits drawings best: they leave things out, whose
// shadows would stay. Lengths are metres; sizes and widths are lettered in the scene's own units.
package drawing

import (
	"fmt"
	"image"
	"strings"
	"unicode"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/picture"
)

// Sheet is one drawing of a booth.
type Sheet struct {
	Name string // as a view's name
	Doc  string // one sentence for people
	Draw func(s *picture.Stage, o Options, n Notes) *image.NRGBA
}

// Options for one drawing. The zero value is 1920 by 1080 pixels.
type Options struct{ Width, Height int }

// Notes are what the checks found out that is drawn too. A zero field is left out.
type Notes struct {
	Hidden []geom.Polygon // parts of works' faces that an eye does not see
	Eye    string         // whose eye, from where, in words
	Floor  *Floor
}

// Floor is how people come in.
type Floor struct {
	Way     []way.Point   // from the aisle to the middle of the clear circle; nil where there is none
	Narrow  *[2]way.Point // the way's narrowest place; nil where nothing narrows it
	Width   float64       // of that place
	OK      bool          // it is wide enough
	Circle  *way.Circle   // the largest clear one inside; nil where no good way leads in
	Turning float64       // diameter in which a wheelchair turns
}

// Of are the drawings of a booth: each wall, in the plan's order, then the plan from above.
func Of(p *booth.Plan) []Sheet {
	var out []Sheet
	taken := map[string]bool{"plan": true}
	for i := range p.Parts {
		if part := &p.Parts[i]; part.Wall != nil {
			name := fileName(part.ID)
			for n := 2; taken[name]; n++ {
				name = fmt.Sprintf("%s %d", fileName(part.ID), n) // walls a.b and a-b
			}
			taken[name] = true
			out = append(out, Sheet{name, unit.Capital(part.Name) + " to scale, seen square on.", func(s *picture.Stage, o Options, n Notes) *image.NRGBA {
				return elevation(p, part, s, o.filled(), n)
			}})
		}
	}
	return append(out, Sheet{"plan", "From above to scale, with the way in.", func(s *picture.Stage, o Options, n Notes) *image.NRGBA {
		return fromAbove(p, s, o.filled(), n)
	}})
}

func (o Options) filled() Options {
	if o.Width == 0 {
		o.Width = 1920
	}
	if o.Height == 0 {
		o.Height = 1080
	}
	return o
}

// fileName is an ID as a name that every file system takes.
func fileName(id booth.ID) string {
	const most = 50 // letters, of up to four bytes each; 255 bytes are the usual limit
	r := []rune(strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '_' || r == ' ' {
			return r
		}
		return '-'
	}, string(id)))
	return strings.TrimSpace(string(r[:min(len(r), most)]))
}
