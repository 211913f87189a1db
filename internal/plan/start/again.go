package start

import (
	"slices"

	"boothmock/internal/basis/unit"
)

// Known is a work that a scene has already.
type Known struct {
	Name, Title string
	Pictured    bool // its photograph is named in the scene
}

// Fresh is what a scene lacks.
type Fresh struct {
	Titles, Entries []string       // of works that it does not have
	Photos          map[int]string // by number among its works: photographs of those that name none
	Clashes         []string       // works that are called as others of the scene are
}

// Beside is what a scene in such units lacks of what a folder and its list have. Works are the same whose names or titles are.
func (d *Draft) Beside(known []Known, sys unit.System) Fresh {
	out := Fresh{Photos: map[int]string{}}
	taken := make([]bool, len(known))
	same := func(w *work) int {
		for _, name := range []string{w.name, w.row.Title, w.row.Name, w.row.No, stem(w.row.File)} {
			if i := slices.IndexFunc(known, func(k Known) bool { return letters(k.Name) == letters(name) }); i >= 0 && letters(name) != "" && !taken[i] {
				return i
			}
		}
		return slices.IndexFunc(known, func(k Known) bool { return k.Title != "" && letters(k.Title) == letters(w.row.Title) })
	}
	for _, w := range d.works {
		switch i := same(w); {
		case i < 0:
			out.Titles, out.Entries = append(out.Titles, w.title()), append(out.Entries, booths[sys].entry(w))
		case taken[i]:
			out.Clashes = append(out.Clashes, w.title())
		default:
			if taken[i] = true; !known[i].Pictured && w.photo != "" {
				out.Photos[i] = w.photo
			}
		}
	}
	return out
}
