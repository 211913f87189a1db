package try

import (
	"boothmock/internal/basis/fault"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/scene"
)

// index says where the scene speaks of what is in the booth.
type index struct {
	parts map[booth.ID]scene.Path // of the parts that have an entry of their own
	works []named                 // all works, in the scene's order
	walls map[booth.ID]string     // what works and rows call a wall, a panel or a face of it
	rows  [][]string              // the names in every row
}

// named is a work of the scene.
type named struct {
	id    booth.ID
	name  string
	path  scene.Path
	item  scene.Item
	waits bool // no part of the booth: it hangs and stands nowhere
}

func newIndex(f *scene.File, p *booth.Plan) index {
	x := index{parts: map[booth.ID]scene.Path{}, walls: map[booth.ID]string{}}
	at := map[fault.Place]booth.ID{}
	for i := range p.Parts {
		q := &p.Parts[i]
		if _, ok := at[q.At]; !ok || q.Wall != nil && p.Part(at[q.At]).Wall == nil { // what a thing's entry makes besides the thing comes after it, but for feet
			at[q.At] = q.ID
		}
		if q.Wall != nil {
			x.walls[q.ID] = q.Wall.Called
		}
	}
	waits := map[fault.Place]booth.ID{}
	for _, w := range p.Waiting {
		waits[w.At] = w.ID
	}
	for _, k := range kinds.All {
		for n, it := range f.Items(k.Key) {
			path := scene.Path{{Key: k.Key}}
			if k.Many {
				path = append(path, scene.Step{Nth: n})
			}
			id, there := at[it.At("")]
			if there {
				x.parts[id] = path
			}
			name, _ := it.Values()["name"].(string)
			switch k.Key {
			case "works":
				waiting, waits := waits[it.At("")]
				if waits {
					id = waiting
				}
				x.works = append(x.works, named{id, name, path, it, waits})
			case "rows":
				var names []string
				list, _ := it.Values()["works"].([]any)
				for _, w := range list {
					name, _ := w.(string)
					names = append(names, name)
				}
				x.rows = append(x.rows, names)
			}
		}
	}
	return x
}

// work is the work with an ID.
func (x index) work(id booth.ID) (named, bool) {
	for _, w := range x.works {
		if w.id == id {
			return w, true
		}
	}
	return named{}, false
}

// row is the row that names a work, and its place in it; -1 for none.
func (x index) row(name string) (row, place int) {
	for i, names := range x.rows {
		for k, n := range names {
			if n == name {
				return i, k
			}
		}
	}
	return -1, -1
}

// under is a path with another step.
func under(p scene.Path, steps ...scene.Step) scene.Path {
	return append(p[:len(p):len(p)], steps...)
}

func key(k string) scene.Step { return scene.Step{Key: k} }
func nth(n int) scene.Step    { return scene.Step{Nth: n} }

// without takes keys out of an entry, those that it has.
func without(f *scene.File, entry scene.Path, it scene.Item, keys ...string) (*scene.File, error) {
	var err error
	for _, k := range keys {
		if !it.Has(k) {
			continue
		}
		if f, err = f.Delete(under(entry, key(k))); err != nil {
			return nil, err
		}
	}
	return f, nil
}
