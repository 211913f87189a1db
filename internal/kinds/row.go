package kinds

import (
	"fmt"
	"slices"

	"boothmock/internal/rules"
	"boothmock/internal/unit"
)

// Row is works hung side by side, centres level, evenly spaced.
type Row struct {
	Wall   string       `yaml:"wall" must:"yes" doc:"the wall that it hangs on"`
	Centre *unit.Length `yaml:"centre" doc:"height of the works' middles; the house rule if left out"`
	Works  []string     `yaml:"works" must:"yes" doc:"the works' names from left to right"`
	Gap    *unit.Length `yaml:"gap" doc:"clear space between neighbours, the row in the middle of the wall; even over the whole wall if left out"`
	Left   unit.Length  `yaml:"from left" doc:"width to leave free at the wall's left end"`
	Right  unit.Length  `yaml:"from right" doc:"width to leave free at the wall's right end"`
}

var rowKind = many("rows", "Works hung in a row: evenly spaced, centres level, without arithmetic.",
	Row{}, buildRows)

func buildRows(s *Site, entries []entry[Row]) {
	for _, en := range entries {
		it, e := en.item, en.says
		wall := s.wall(it, "wall", e.Wall)
		if wall == nil {
			continue
		}
		var row []*workEntry
		total := 0.0
		for k, name := range e.Works {
			field := fmt.Sprintf("works.%d", k)
			w, ok := s.works[name]
			switch {
			case !ok:
				s.unknown(it, field, "work", name, names(s.works), "works")
			case w.hung != nil || slices.Contains(row, w):
				it.Fault(field, "", "%q hangs already", name)
			default:
				row = append(row, w)
				_, width := w.outer()
				total += width
			}
		}
		room := wall.Wall.Width - (e.Left + e.Right).M()
		gap := (room - total) / float64(len(row)+1)
		x := gap
		if least := rules.Gap.In(s.Plan.Rules); e.Gap != nil || gap < least {
			// A row that is too wide keeps its gaps and stands out at both ends, where the checks find it.
			gap = least
			if e.Gap != nil {
				gap = e.Gap.M()
			}
			x = (room - total - gap*float64(len(row)-1)) / 2
		}
		centre := rules.HangingCentre.In(s.Plan.Rules)
		if e.Centre != nil {
			centre = e.Centre.M()
		}
		x += e.Left.M()
		for k, w := range row {
			s.hang(w, wall, x, centre, fmt.Sprintf("row %d", en.number+1), it.At(fmt.Sprintf("works.%d", k)))
			_, width := w.outer()
			x += width + gap
		}
	}
	s.hangWorks()
}
