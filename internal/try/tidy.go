package try

import (
	"cmp"
	"slices"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
)

// tidy brings works into order: Field is "centre", in the middle of the wall; "even", with even spaces; or "align", all middles at
// the height of this one. A row is one thing. A thing on the ground comes midway between left and right.
func (s *Session) tidy(a Ask) (string, error) {
	w, ok := s.index.work(a.Item)
	if !ok {
		if a.Field != "centre" {
			return "", refuse("Only works are aligned and spaced")
		}
		p, err := s.part(a.Item)
		if err != nil {
			return "", err
		}
		return s.stand(Ask{Item: a.Item, X: 0, Z: p.Frame.Origin.Z, Turn: s.turned(s.index.parts[a.Item])})
	}
	p := s.booth.Plan.Part(w.id)
	if p == nil || p.Work.Hung == nil || p.Work.Hung.Under != "" {
		return "", refuse("%s does not hang on a wall by itself or in a row", s.title(w))
	}
	h := p.Work.Itself().Hung
	wall := s.booth.Plan.Part(h.Wall)
	row, _ := s.index.row(w.name)
	switch {
	case a.Field == "align":
		return s.edit("middles on "+wall.Name+" at the height of "+s.title(w), func(f *scene.File) (*scene.File, error) { return s.aligned(f, h.Wall, h.Centre()-h.Raised) })
	case a.Field == "centre" && row >= 0:
		return s.edit(s.rowName(s.booth.Plan.Rows[row])+" centred", func(f *scene.File) (*scene.File, error) { return s.rowWithout(f, row, "from left", "from right") })
	case a.Field == "even" && row >= 0:
		return s.edit(s.rowName(s.booth.Plan.Rows[row])+" spaced evenly", func(f *scene.File) (*scene.File, error) { return s.rowWithout(f, row, "gap") })
	case a.Field == "centre":
		_, wide := s.outer(w)
		return s.edit(s.title(w)+" centred on "+wall.Name, func(f *scene.File) (*scene.File, error) {
			return f.Set(under(w.path, key("left")), unit.Length((wall.Wall.Width-wide)/2))
		})
	case a.Field == "even":
		return s.edit("works on "+wall.Name+" spaced evenly", func(f *scene.File) (*scene.File, error) { return s.even(f, wall) })
	}
	return "", refuse("There is no such order")
}

func (s *Session) rowWithout(f *scene.File, row int, keys ...string) (*scene.File, error) {
	return without(f, scene.Path{{Key: "rows"}, {Nth: row}}, f.Items("rows")[row], keys...)
}

// byHandOn are the works that hang on a wall by themselves, from left to right.
func (s *Session) byHandOn(wall booth.ID) (out []named) {
	left := func(w named) float64 { return s.booth.Plan.Part(w.id).Work.Hung.X0 }
	for _, w := range s.index.works {
		p := s.booth.Plan.Part(w.id)
		if row, _ := s.index.row(w.name); row < 0 && p != nil && p.Work.Hung != nil && p.Work.Hung.Wall == wall && p.Work.Hung.Under == "" {
			out = append(out, w)
		}
	}
	slices.SortStableFunc(out, func(a, b named) int { return cmp.Compare(left(a), left(b)) })
	return out
}

// aligned has the middles of rows on a wall, and of works that hang there by themselves, at one height.
func (s *Session) aligned(f *scene.File, wall booth.ID, centre float64) (*scene.File, error) {
	var err error
	for _, r := range s.booth.Plan.Rows {
		if r.Wall == wall {
			if f, err = s.setCentre(f, scene.Path{{Key: "rows"}, {Nth: r.Number}}, f.Items("rows")[r.Number], centre); err != nil {
				return nil, err
			}
		}
	}
	for _, w := range s.byHandOn(wall) {
		if f, err = s.setCentre(f, w.path, w.item, centre); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// even has works that hang on a wall by themselves with one space before, between and behind them.
func (s *Session) even(f *scene.File, wall *booth.Part) (*scene.File, error) {
	list := s.byHandOn(wall.ID)
	space := wall.Wall.Width
	for _, w := range list {
		_, wide := s.outer(w)
		space -= wide
	}
	if space < 0 {
		return nil, refuse("The works are wider than the wall together")
	}
	space /= float64(len(list) + 1)
	at, err := space, error(nil)
	for _, w := range list {
		if f, err = f.Set(under(w.path, key("left")), unit.Length(at)); err != nil {
			return nil, err
		}
		_, wide := s.outer(w)
		at += wide + space
	}
	return f, nil
}
