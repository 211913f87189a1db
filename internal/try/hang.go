package try

import (
	"fmt"
	"math"
	"slices"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/stocklist"
)

// placing are the keys of a work that say where it hangs or stands.
var placing = []string{"wall", "left", "centre", "under", "gap", "on", "along", "back", "turn"}

// hang brings a work to a wall: into a row at a place among its works, or by hand, with its left edge at X and its middle
// at Y. Without a wall the work waits.
func (s *Session) hang(a Ask) (string, error) {
	w, ok := s.index.work(a.Item)
	if !ok {
		return "", refuse("There is no such work here any more")
	}
	title := s.title(w)
	if a.With == "" {
		return s.edit(title+" waits", func(f *scene.File) (*scene.File, error) { return s.waiting(f, w) })
	}
	wall, ok := s.index.walls[a.With]
	if !ok {
		return "", refuse("There is no such wall here any more")
	}
	on := s.booth.Plan.Part(a.With).Name
	words := title + " to " + on
	if p := s.booth.Plan.Part(a.Item); p != nil && p.Work.Hung != nil && p.Work.Hung.Wall == a.With {
		words = title + " moved on " + on
	}
	return s.edit(words, func(f *scene.File) (*scene.File, error) {
		var err error
		if w.waits { // it is no spare any more
			if f, err = spare(f, w); err != nil {
				return nil, err
			}
		}
		switch {
		case a.Row != nil && *a.Row >= 0 && *a.Row < len(s.index.rows):
			return s.intoRow(f, w, *a.Row, a.Place)
		case a.Row != nil:
			return s.newRow(f, w, wall)
		}
		return s.byHand(f, w, wall, a.X, a.Y)
	})
}

// spare takes out that a work is one: a spare hangs nowhere.
func spare(f *scene.File, w named) (*scene.File, error) {
	if text, _ := w.item.Values()["status"].(string); text == string(stocklist.Spare) {
		return f.Delete(under(w.path, key("status")))
	}
	return f, nil
}

// title is what people call a work.
func (s *Session) title(w named) string {
	return s.artwork(w).Title
}

// artwork is a work, wherever it is.
func (s *Session) artwork(w named) *booth.Work {
	if p := s.booth.Plan.Part(w.id); p != nil && p.Work != nil {
		return p.Work.Itself()
	}
	for i := range s.booth.Plan.Waiting {
		if s.booth.Plan.Waiting[i].ID == w.id {
			return &s.booth.Plan.Waiting[i].Work
		}
	}
	return &booth.Work{Title: w.name} // what the booth is made of has a work for each
}

// intoRow puts a work's name among those of a row, before the one that now has that place.
func (s *Session) intoRow(f *scene.File, w named, row, place int) (*scene.File, error) {
	names := s.index.rows[row]
	from, k := s.index.row(w.name)
	f, err := without(f, w.path, w.item, placing...)
	if err != nil {
		return nil, err
	}
	works := under(scene.Path{{Key: "rows"}}, nth(row), key("works"))
	place = max(0, min(place, len(names)))
	switch {
	case from == row:
		if place > k {
			place-- // it is gone from its own place by then
		}
		if place == k {
			return f, nil
		}
		return f.Move(under(works, nth(k)), under(works, nth(place)))
	case from < 0:
		return f.Insert(under(works, nth(place)), w.name)
	case len(s.index.rows[from]) > 1:
		return f.Move(under(scene.Path{{Key: "rows"}}, nth(from), key("works"), nth(k)), under(works, nth(place)))
	}
	if f, err = f.Insert(under(works, nth(place)), w.name); err != nil {
		return nil, err
	}
	return s.dropRow(f, from)
}

// newRow begins a row on a wall with one work.
func (s *Session) newRow(f *scene.File, w named, wall string) (*scene.File, error) {
	f, err := s.lift(f, w)
	if err != nil {
		return nil, err
	}
	entry := scene.Entry{{Key: "wall", Value: wall}, {Key: "works", Value: []string{w.name}}}
	rows := scene.Path{{Key: "rows"}}
	if left := f.Items("rows"); len(left) > 0 {
		return f.Insert(under(rows, nth(len(left))), entry)
	}
	return f.Set(rows, []any{entry})
}

// byHand hangs a work with its left edge left metres from the wall's left end and its middle at a height.
func (s *Session) byHand(f *scene.File, w named, wall string, left, centre float64) (*scene.File, error) {
	if from, _ := s.index.row(w.name); from >= 0 {
		var err error
		if f, err = s.lift(f, w); err != nil {
			return nil, err
		}
	}
	keep := []string{}
	for _, k := range placing {
		if k != "wall" && k != "left" && k != "centre" {
			keep = append(keep, k)
		}
	}
	f, err := without(f, w.path, w.item, keep...)
	if err != nil {
		return nil, err
	}
	if f, err = f.Set(under(w.path, key("wall")), wall); err != nil {
		return nil, err
	}
	if f, err = f.Set(under(w.path, key("left")), unit.Length(left)); err != nil {
		return nil, err
	}
	return s.setCentre(f, w.path, w.item, centre)
}

// setCentre states a height of middles, or leaves it out where it is the house rule anyway.
func (s *Session) setCentre(f *scene.File, entry scene.Path, it scene.Item, centre float64) (*scene.File, error) {
	if usual := rules.HangingCentre.In(s.booth.Plan.Rules); math.Abs(centre-usual) < fine && !it.Has("centre") {
		return f, nil
	}
	return f.Set(under(entry, key("centre")), unit.Length(centre))
}

// lift takes a work from where it is. A row that is left without works goes too.
func (s *Session) lift(f *scene.File, w named) (*scene.File, error) {
	f, err := without(f, w.path, w.item, placing...)
	if err != nil {
		return nil, err
	}
	row, k := s.index.row(w.name)
	switch {
	case row < 0:
		return f, nil
	case len(s.index.rows[row]) == 1:
		return s.dropRow(f, row)
	}
	return f.Delete(under(scene.Path{{Key: "rows"}}, nth(row), key("works"), nth(k)))
}

// dropRow takes a row out of the scene.
func (s *Session) dropRow(f *scene.File, row int) (*scene.File, error) {
	if len(s.index.rows) == 1 {
		return f.Delete(scene.Path{{Key: "rows"}})
	}
	return f.Delete(scene.Path{{Key: "rows"}, {Nth: row}})
}

// waiting takes a work from where it is, and those that hang under it.
func (s *Session) waiting(f *scene.File, w named) (*scene.File, error) {
	f, err := s.lift(f, w)
	if err != nil {
		return nil, err
	}
	for _, o := range s.index.works {
		if above, _ := o.item.Values()["under"].(string); above == w.name && o.name != w.name {
			if f, err = s.waiting(f, o); err != nil {
				return nil, err
			}
		}
	}
	return f, nil
}

// swap lets two works change places.
func (s *Session) swap(a Ask) (string, error) {
	v, ok := s.index.work(a.Item)
	w, ok2 := s.index.work(a.With)
	switch {
	case !ok || !ok2 || v.name == w.name:
		return "", refuse("There are no such two works here any more")
	case s.below(v, w) || s.below(w, v):
		return "", refuse("One of the two hangs under the other: take the lower one elsewhere first")
	}
	return s.edit(fmt.Sprintf("%s and %s change places", s.title(v), s.title(w)), func(f *scene.File) (*scene.File, error) {
		return s.swapped(f, v, w)
	})
}

// below is whether a work hangs under another, or under one that does.
func (s *Session) below(w, above named) bool {
	for range s.index.works {
		name, _ := w.item.Values()["under"].(string)
		k := slices.IndexFunc(s.index.works, func(o named) bool { return o.name == name })
		if k < 0 {
			return false
		}
		if w = s.index.works[k]; w.name == above.name {
			return true
		}
	}
	return false
}

// swapped is the scene with each of two works where the other was. Texts of lengths go over as they are, but for the left
// edge: the middle of the one comes where that of the other was.
func (s *Session) swapped(f *scene.File, v, w named) (*scene.File, error) {
	var err error
	for _, one := range []named{v, w} {
		if f, err = spare(f, one); err != nil {
			return nil, err
		}
	}
	for _, pair := range [2][2]named{{v, w}, {w, v}} {
		row, k := s.index.row(pair[0].name)
		if row < 0 {
			continue
		}
		if f, err = f.Set(under(scene.Path{{Key: "rows"}}, nth(row), key("works"), nth(k)), pair[1].name); err != nil {
			return nil, err
		}
	}
	for _, pair := range [2][2]named{{v, w}, {w, v}} {
		if f, err = s.moveKeys(f, pair[0], pair[1]); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// moveKeys gives a work the keys that say where another is, as they stand in the scene before the two change places.
func (s *Session) moveKeys(f *scene.File, from, to named) (*scene.File, error) {
	var err error
	for _, k := range placing {
		at := under(to.path, key(k))
		switch {
		case !from.item.Has(k) && to.item.Has(k):
			f, err = f.Delete(at)
		case !from.item.Has(k):
		case k == "left" && s.booth.Plan.Part(from.id) != nil:
			h := s.artwork(from).Hung
			_, wide := s.outer(to)
			f, err = f.Set(at, unit.Length((h.X0+h.X1)/2-h.Moved-wide/2))
		default:
			var text scene.Verbatim
			if text, err = s.scene.Verbatim(under(from.path, key(k))); err == nil {
				f, err = f.Set(at, text)
			}
		}
		if err != nil {
			return nil, err
		}
	}
	return f, nil
}

// outer is how high and wide a work is with its frame, in metres.
func (s *Session) outer(w named) (h, wide float64) {
	k := s.artwork(w)
	if k.FramedHeight > 0 {
		return k.FramedHeight, k.FramedWidth
	}
	return k.Height, k.Width
}

// nudge moves a thing by X and Y metres, a thing on the ground by X and Z. In a row, a step aside changes places with the
// neighbour and a step up moves the row.
func (s *Session) nudge(a Ask) (string, error) {
	w, ok := s.index.work(a.Item)
	if !ok {
		return s.stand(Ask{Item: a.Item, X: a.X, Z: a.Z, Turn: a.Turn, Field: "by"})
	}
	p := s.booth.Plan.Part(w.id)
	if p == nil || p.Work.Hung == nil {
		return "", refuse("%s does not hang: bring it to a wall first", s.title(w))
	}
	h := p.Work.Itself().Hung
	if h.Under != "" {
		if a.X != 0 {
			return "", refuse("%s hangs under another work, middle below middle: bring it elsewhere first", s.title(w))
		}
		gap := s.booth.Plan.Part(h.Under).Work.Itself().Hung.Y0 - h.Y1 + h.Raised - a.Y
		return s.edit(s.title(w)+" moved", func(f *scene.File) (*scene.File, error) {
			return f.Set(under(w.path, key("gap")), unit.Length(max(0, gap)))
		})
	}
	if row, k := s.index.row(w.name); row >= 0 {
		return s.nudgeRow(w, row, k, a)
	}
	return s.edit(fmt.Sprintf("%s moved on %s", s.title(w), s.booth.Plan.Part(h.Wall).Name), func(f *scene.File) (*scene.File, error) {
		var err error
		if a.X != 0 {
			if f, err = f.Set(under(w.path, key("left")), unit.Length(h.X0-h.Moved+a.X)); err != nil {
				return nil, err
			}
		}
		if a.Y != 0 {
			return s.setCentre(f, w.path, w.item, h.Centre()-h.Raised+a.Y)
		}
		return f, nil
	})
}

func (s *Session) nudgeRow(w named, row, k int, a Ask) (string, error) {
	names := s.index.rows[row]
	if a.X != 0 {
		to := k + int(math.Copysign(1, a.X))
		if to < 0 || to >= len(names) {
			return "", refuse("%s is the last of its row on that side", s.title(w))
		}
		return s.edit(fmt.Sprintf("%s and its neighbour change places", s.title(w)), func(f *scene.File) (*scene.File, error) {
			works := under(scene.Path{{Key: "rows"}}, nth(row), key("works"))
			return f.Move(under(works, nth(k)), under(works, nth(to)))
		})
	}
	r := s.booth.Plan.Rows[row]
	return s.edit(s.rowName(r)+" moved", func(f *scene.File) (*scene.File, error) {
		return s.setCentre(f, scene.Path{{Key: "rows"}, {Nth: row}}, f.Items("rows")[row], r.Centre+a.Y)
	})
}

// rowName is what people call a row.
func (s *Session) rowName(r booth.Row) string {
	return "the row on " + s.booth.Plan.Part(r.Wall).Name
}
