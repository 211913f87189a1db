package kinds

import (
	"fmt"
	"slices"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// Row is works hung side by side, centres level, evenly spaced.
type Row struct {
	Wall   string       `yaml:"wall" must:"yes" doc:"the wall that it hangs on"`
	Centre *unit.Length `yaml:"centre" doc:"height of the works' middles; the house rule if left out"`
	Works  []string     `yaml:"works" must:"yes" most:"3000" doc:"the works' names from left to right"`
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
			for _, name := range e.Works { // that they hang nowhere need not be told too
				s.unread["works "+name] = true
			}
			continue
		}
		var row []*workEntry
		var widths []float64
		for k, name := range e.Works {
			field := fmt.Sprintf("works.%d", k)
			w, ok := s.works[name]
			switch {
			case !ok:
				s.unknown(it, field, "work", name, names(s.works), "works")
			case w.Size.C > 0:
				it.Fault(field, "say on: in the work itself", "%q is a sculpture, as its size has a depth, and stands", name)
			case w.hung != nil || slices.Contains(row, w):
				it.Fault(field, "name it once", "%q hangs already", name)
			default:
				row = append(row, w)
				widths = append(widths, w.wide(wall.Wall))
			}
		}
		r := booth.Row{
			Name: fmt.Sprintf("row %d", en.number+1), Number: en.number, Wall: wall.ID, Centre: rules.HangingCentre.In(s.Plan.Rules),
			Left: e.Left.M(), Room: wall.Wall.Width - (e.Left + e.Right).M(), Gap: -1, Least: rules.Gap.In(s.Plan.Rules), At: it.At(""),
		}
		if e.Centre != nil {
			r.Centre = e.Centre.M()
		}
		if e.Gap != nil {
			r.Gap = e.Gap.M()
		}
		for k, x := range r.Spread(widths) {
			r.Works = append(r.Works, id("work", row[k].Name))
			at := it.At(fmt.Sprintf("works.%d", slices.Index(e.Works, row[k].Name)))
			s.hang(row[k], wall, x, r.Centre, booth.Hung{Row: r.Name, At: at})
		}
		s.Plan.Rows = append(s.Plan.Rows, r)
	}
	s.hangWorks()
}
