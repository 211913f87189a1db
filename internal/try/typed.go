package try

import (
	"fmt"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/scene"
)

// field is a key of an entry whose number can be typed.
type field struct{ key, label string }

var (
	byHand = []field{{"left", "Left edge, from the wall’s left end"}, {"centre", "Height of its middle"}}
	hung   = []field{{"gap", "Clear space to the work above"}}
	rowOf  = []field{{"centre", "Height of the middles"}, {"gap", "Space between works"}, {"from left", "Free at the left end"}, {"from right", "Free at the right end"}}
	ground = []field{{"from left", "From the left edge"}, {"from right", "From the right edge"}, {"from front", "From the front edge"}, {"from back", "From the back edge"}, {"before front", "Out in the aisle"}, {"turn", "Turned, in degrees"}}
	onTop  = []field{{"along", "From the left end of what it stands on"}, {"back", "From the front edge of that"}, {"turn", "Turned, in degrees"}}
)

// sized are the sizes of things that can be typed, by their keys.
var sized = map[string][]field{
	"tables": {{"size", "Length x depth"}, {"height", "Height"}}, "bins": {{"size", "Width x depth x height"}},
	"pedestals": {{"size", "Width x depth"}, {"height", "Height"}}, "signs": {{"size", "Height x width"}},
	"walls": {{"width", "Width"}, {"top", "Height of the highest hook"}},
}

// groundFields are the numbers of what stands on the ground, at a path.
func (s *Session) groundFields(path scene.Path) []field {
	out := append(ground[:len(ground):len(ground)], sized[path[0].Key]...)
	if path[0].Key == "walls" {
		return slices.DeleteFunc(out, func(f field) bool { return f.key == "before front" })
	}
	return out
}

// fields are what an entry says for fields that can be typed; those that it says nothing for are empty.
func fields(it scene.Item, list []field) []Typed {
	out := []Typed{}
	values := it.Values()
	for _, f := range list {
		text, _ := values[f.key].(string)
		out = append(out, Typed{f.key, f.label, text})
	}
	return out
}

// typed puts what was typed into a field of a thing, or of the row of number Place where Item is empty. An empty text takes the field out, so
// that the usual holds.
func (s *Session) typed(a Ask) (string, error) {
	path, list, name, err := s.typable(a)
	if err != nil {
		return "", err
	}
	label := ""
	for _, f := range list {
		if f.key == a.Field {
			label = f.label
		}
	}
	if label == "" {
		return "", refuse("There is no such number to type")
	}
	text := strings.TrimSpace(a.Text)
	return s.edit(fmt.Sprintf("%s: %s %s", name, strings.ToLower(label[:1])+label[1:], text), func(f *scene.File) (*scene.File, error) {
		at := under(path, key(a.Field))
		switch {
		case text == "" && f.Entry(path).Has(a.Field):
			return f.Delete(at)
		case text == "":
			return f, nil
		case a.Field == "turn":
			turn, err := unit.ParseAngle(text)
			if err != nil {
				return nil, err
			}
			return f.Set(at, turn)
		case a.Field == "size":
			return setSize(f, at, text)
		}
		l, err := unit.ParseLength(text, f.Units, true)
		if err != nil {
			return nil, err
		}
		for _, x := range axes { // a thing is placed from one edge
			if a.Item == "" || path[0].Key == "works" || !slices.Contains(x.keys, a.Field) {
				continue
			}
			if f, err = without(f, path, f.Entry(path), other(x.keys, slices.Index(x.keys, a.Field))...); err == nil {
				f, err = x.leave(f, path)
			}
			if err != nil {
				return nil, err
			}
		}
		return f.Set(at, l)
	})
}

// setSize states a size of two or three measures: how many a thing has, its kind knows.
func setSize(f *scene.File, at scene.Path, text string) (*scene.File, error) {
	if z, err := unit.ParseSize3(text, f.Units, true); err == nil {
		return f.Set(at, z)
	}
	z, err := unit.ParseSize(text, f.Units, true)
	if err != nil {
		return nil, err
	}
	return f.Set(at, z)
}

// typable is where the numbers of a thing stand, which there are, and what it is called.
func (s *Session) typable(a Ask) (scene.Path, []field, string, error) {
	if a.Item == "" {
		if a.Place < 0 || a.Place >= len(s.booth.Plan.Rows) {
			return nil, nil, "", refuse("There is no such row here any more")
		}
		return scene.Path{{Key: "rows"}, {Nth: a.Place}}, rowOf, s.rowName(s.booth.Plan.Rows[a.Place]), nil
	}
	if w, ok := s.index.work(a.Item); ok {
		return w.path, s.workFields(w), s.title(w), nil
	}
	p, err := s.part(a.Item)
	if err != nil {
		return nil, nil, "", err
	}
	path, ok := s.index.parts[a.Item]
	switch {
	case ok && p.Parent != "" && s.removes(path):
		return path, slices.Concat(onTop, sized[path[0].Key]), p.Name, nil
	case ok && s.stands(path):
		return path, s.groundFields(path), p.Name, nil
	}
	return nil, nil, "", refuse("%s has no number to type", p.Name)
}

// workFields are the numbers of a work itself: those of a row are the row's.
func (s *Session) workFields(w named) []field {
	p := s.booth.Plan.Part(w.id)
	row, _ := s.index.row(w.name)
	switch {
	case p == nil || p.Work.Hung == nil || row >= 0:
		return nil
	case p.Work.Hung.Under != "":
		return hung
	}
	return byHand
}
