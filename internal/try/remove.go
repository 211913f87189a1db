package try

import (
	"cmp"
	"slices"
	"strings"

	"boothmock/internal/plan/scene"
)

// remove takes a thing out of the booth, and out of the scene's text. Works that hung or stood on it wait; what else is on it goes
// with it.
func (s *Session) remove(a Ask) (string, error) {
	if w, ok := s.index.work(a.Item); ok {
		return s.edit(s.title(w)+" taken out", func(f *scene.File) (*scene.File, error) {
			f, err := s.waiting(f, w)
			if err != nil {
				return nil, err
			}
			return withoutEntries(f, []scene.Path{w.path})
		})
	}
	p, err := s.part(a.Item)
	if err != nil {
		return "", err
	}
	path, ok := s.index.parts[a.Item]
	if !ok || !s.removes(path) {
		return "", refuse("%s cannot be taken out here", p.Name)
	}
	return s.edit(p.Name+" taken out", func(f *scene.File) (*scene.File, error) {
		name, _ := f.Entry(path).Values()["name"].(string)
		gone := []scene.Path{path}
		for _, k := range []string{"bins", "things", "signs", "rows"} {
			for n, it := range f.Items(k) {
				if isOn(it, path, name) {
					gone = append(gone, scene.Path{{Key: k}, {Nth: n}})
				}
			}
		}
		for _, w := range s.index.works {
			if s.goesWith(w, path, name) {
				if f, err = without(f, w.path, w.item, placing...); err != nil {
					return nil, err
				}
			}
		}
		return withoutEntries(f, gone)
	})
}

// removes is whether what a path leads to can be taken out: what can be added, and no wall along a side.
func (s *Session) removes(path scene.Path) bool {
	return slices.ContainsFunc(goods, func(g good) bool { return g.key == path[0].Key }) && !s.scene.Entry(path).Has("side")
}

// isOn is whether an entry says that it stands or hangs on the thing with a path and a name. Of a wall with two faces or several
// panels each has a name that begins with the wall's.
func isOn(it scene.Item, path scene.Path, name string) bool {
	if name == "" {
		return false
	}
	if path[0].Key == "walls" {
		wall, _ := it.Values()["wall"].(string)
		return wall == name || strings.HasPrefix(wall, name+" ")
	}
	on, _ := it.Values()["on"].(string)
	return on == name
}

// goesWith is whether a work is on a thing, in a row on it, or under a work that is.
func (s *Session) goesWith(w named, path scene.Path, name string) bool {
	for range s.index.works {
		row, _ := s.index.row(w.name)
		if isOn(w.item, path, name) || row >= 0 && isOn(s.scene.Items("rows")[row], path, name) {
			return true
		}
		above, _ := w.item.Values()["under"].(string)
		k := slices.IndexFunc(s.index.works, func(o named) bool { return o.name == above })
		if k < 0 {
			return false
		}
		w = s.index.works[k]
	}
	return false
}

// withoutEntries takes out entries, and a key of which none is left.
func withoutEntries(f *scene.File, gone []scene.Path) (*scene.File, error) {
	var err error
	slices.SortFunc(gone, func(a, b scene.Path) int { return cmp.Compare(last(b), last(a)) }) // from the end: the numbers before it stay
	for _, path := range gone {
		if len(path) > 1 && len(f.Items(path[0].Key)) == 1 {
			path = path[:1]
		}
		if f, err = f.Delete(path); err != nil {
			return nil, err
		}
	}
	return f, nil
}

func last(path scene.Path) int { return path[len(path)-1].Nth }
