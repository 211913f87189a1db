// Package start makes a first scene from a folder of photographs and a list of works: which photograph is which work, what
// hangs where in a standard booth, and the text of the scene, with comments. It writes nothing itself. Nothing is guessed in
// silence: the draft says what was paired and how, and what was left aside and why.
package start

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"boothmock/internal/art"
	"boothmock/internal/fault"
	"boothmock/internal/kinds"
	"boothmock/internal/stocklist"
	"boothmock/internal/unit"
)

// Options are what somebody may say beforehand.
type Options struct {
	Sheet string // the list of works; empty: the one that is in the folder
	Units string // "in" or "cm", of sizes that state none and of the scene; empty: as the list has it
}

// The names under which files are written.
const (
	SceneFile = "booth.yaml"
	SheetFile = "works.csv"
)

// Draft is a first scene and what there is to say about it.
type Draft struct {
	Scene string // text of the scene; empty if there are no sizes yet
	List  string // text of a list to fill in; empty if there is one already

	Sheet      *stocklist.Sheet // nil without one
	Pairs      []Pair
	Lonely     []string // photographs that no row speaks of
	Unpictured []string // works without a photograph, which hang as plain surfaces
	Unsized    []string // works without a size, which cannot hang
	Unhung     []string // works for which there is no room, and why
	Unusable   []string // files that are no photographs that can be read, and why
	Notes      []string // what was decided for want of word, in sentences
}

// Pair is a photograph and the work that it shows.
type Pair struct {
	Photo string
	Work  string
	How   string // what they have in common
}

// work is a work on its way into the scene.
type work struct {
	row    stocklist.Row
	name   string // in the scene
	photo  string
	unique bool // the sheet can be asked for it by its name
}

func (w *work) title() string {
	for _, s := range []string{w.row.Title, w.row.Name, stem(w.row.File), w.row.No} {
		if s != "" {
			return s
		}
	}
	return fmt.Sprint("row ", w.row.Number)
}

// Make drafts a scene from what is in the folder. An error is a fault.List: there is nothing to start from.
func Make(fsys fs.FS, o Options) (*Draft, error) {
	found, err := look(fsys)
	if err != nil {
		return nil, err
	}
	d := &Draft{Unusable: found.unusable}
	if o.Sheet == "" {
		switch len(found.sheets) {
		case 0:
			if len(found.photos) == 0 {
				return nil, nothing("put your photographs into it, and if you have one your list of works as CSV or XLSX", "there are no photographs and no list of works here")
			}
			d.List, d.Lonely = blankList(found.photos), found.photos
			return d, nil
		case 1:
			o.Sheet = found.sheets[0]
		default:
			return nil, nothing("say which one with --sheet", "there are several lists here: %s", strings.Join(found.sheets, ", "))
		}
	}
	sys, err := d.read(fsys, o)
	if err != nil {
		return nil, err
	}
	works := d.pair(found.photos)
	if works = d.sized(works); len(works) == 0 {
		text := "no row of %s has a size yet"
		if len(d.Sheet.Rows) == 0 && len(d.Sheet.Unread) > 0 {
			u := d.Sheet.Unread[0]
			return nil, nothing("mend them and start again", "no row of %s can be read; row %d: %s", d.Sheet.Name, u.Number, u.Why)
		}
		return nil, nothing("fill in height and width, and start again", text, d.Sheet.Name)
	}
	d.tryPhotos(fsys, works)
	nameWorks(works)
	b := booths[sys]
	rows, unhung := b.hang(works)
	for _, u := range unhung {
		d.Unhung = append(d.Unhung, u.title()+" ("+u.row.Size.Format(sys)+")")
	}
	if len(rows) == 0 {
		return nil, nothing("look whether the sizes are height x width, and in the right unit", "none of the works fits on a wall of the standard booth")
	}
	d.Scene = b.text(d, works, rows, unhung)
	return d, nil
}

func nothing(hint, text string, args ...any) error {
	return fault.List{{Text: fmt.Sprintf(text, args...), Hint: hint}}
}

// read reads the list, and finds the system of units that it is in.
func (d *Draft) read(fsys fs.FS, o Options) (unit.System, error) {
	read := func(sys unit.System, stated bool) error {
		s, err := stocklist.Read(fsys, o.Sheet, sys, stated)
		if f, ok := err.(fault.Fault); ok {
			return fault.List{f}
		}
		d.Sheet = s
		return err
	}
	if o.Units != "" {
		sys, err := unit.ParseSystem(o.Units)
		if err != nil {
			return 0, nothing("write --units in or --units cm", "%q is no unit for a scene", o.Units)
		}
		return sys, read(sys, true)
	}
	if err := read(unit.Inches, false); err != nil {
		return 0, err
	}
	if d.Sheet.Centimetres > d.Sheet.Inches {
		return unit.Centimetres, nil
	}
	if d.Sheet.Inches == 0 && slices.ContainsFunc(d.Sheet.Unread, func(u stocklist.Unread) bool { return strings.Contains(u.Why, "needs a unit") }) {
		if d.Sheet.Semicolons {
			d.Notes = append(d.Notes, "The list states no unit anywhere: as its columns are parted by semicolons, its sizes were taken for centimetres. If they are inches, start with --units in.")
			return unit.Centimetres, read(unit.Centimetres, true)
		}
		d.Notes = append(d.Notes, "The list states no unit anywhere: its sizes were taken for inches. If they are centimetres, start with --units cm.")
		return unit.Inches, read(unit.Inches, true)
	}
	return unit.Inches, nil
}

// sized are the works that have a size.
func (d *Draft) sized(works []*work) []*work {
	return slices.DeleteFunc(works, func(w *work) bool {
		if w.row.Size.A > 0 {
			return false
		}
		d.Unsized = append(d.Unsized, fmt.Sprintf("%s (row %d)", w.title(), w.row.Number))
		return true
	})
}

// tryPhotos loads every photograph just as the build will, so that one that cannot be read is reported now, and the build
// finds the others ready.
func (d *Draft) tryPhotos(fsys fs.FS, works []*work) {
	var wishes []art.Wish
	var with []*work
	for _, w := range works {
		if w.photo != "" {
			wishes, with = append(wishes, kinds.Wish(w.photo, w.row.Size)), append(with, w)
		}
	}
	_, errs := art.LoadAll(fsys, wishes, nil)
	for i, err := range errs {
		if err != nil {
			d.Unusable = append(d.Unusable, err.Error())
			with[i].photo = ""
		}
	}
	for _, w := range works {
		if w.photo == "" {
			d.Unpictured = append(d.Unpictured, fmt.Sprintf("%s (row %d)", w.title(), w.row.Number))
		}
	}
}

func stem(file string) string {
	base := path.Base(strings.ReplaceAll(file, `\`, "/"))
	if file == "" {
		return ""
	}
	return strings.TrimSuffix(base, path.Ext(base))
}
