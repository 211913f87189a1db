package kinds

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"boothmock/internal/fault"
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

var rowKind = Kind{
	Key: "rows", Many: true, Doc: "Works hung in a row: evenly spaced, centres level, without arithmetic.",
	Fields: Row{},
	build:  buildRows,
}

func buildRows(s *Site) {
	for n, it := range s.file.Items("rows") {
		e := rowKind.Fields.(Row)
		if !it.Decode(&e) {
			continue
		}
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
				it.Fault(field, s.meant(name, names(s.works), "name a work of the scene"), "there is no work %q", name)
			case w.hung != nil || slices.Contains(row, w):
				it.Fault(field, "", "%q hangs already", name)
			case w.Size.A > 0: // a work that could not be read has no size, and its own fault
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
			s.hang(w, wall, x, centre, fmt.Sprintf("row %d", n+1), it.At(fmt.Sprintf("works.%d", k)))
			_, width := w.outer()
			x += width + gap
		}
	}
	s.hangWorks()
}

// names are the keys of a map, sorted.
func names[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

// meant is a hint: the known name that was most likely meant, or all of them.
func (s *Site) meant(word string, known []string, otherwise string) string {
	if near, ok := fault.Nearest(word, known); ok {
		return fmt.Sprintf("did you mean %q?", near)
	}
	if len(known) == 0 || len(known) > 12 {
		return otherwise
	}
	return "there is " + strings.Join(known, ", ")
}
