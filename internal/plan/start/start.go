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

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/props/art"
	"boothmock/internal/props/stocklist"
)

// Options are what somebody may say beforehand.
type Options struct {
	Sheet string // the list of works; empty: the one that is in the folder
	Units string // "in" or "cm", of sizes that state none and of the scene; empty: as the list has it
	Bare  bool   // without a list, draft a booth in which nothing hangs yet, for somebody who brings the works later
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
	Further    []string // photographs of works that have one already, and whose
	Unpictured []string // works without a photograph, which hang as plain surfaces
	Left       []Left   // rows whose works do not hang, in the order of the list
	Unusable   []string // files that are no photographs that can be read, and why
	Notes      []string // what was decided for want of word, in sentences

	works []*work // that a scene has: those that hang and those that wait
}

// Left is a row of the list whose work does not hang.
type Left struct {
	Row  int
	What string
	Kind Kind
	Why  string // in words
	At   fault.Place
}

// Kind is what a row that does not hang is about.
type Kind int

const (
	Work     Kind = iota // a work for a wall
	Standing             // something that is not for a wall
	NoWork               // a total, a line of text
)

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
	turned bool // its photograph shows it the other way up than the sheet's format was taken
}

// outer is the height and width with the frame.
func (w *work) outer() unit.Size {
	s, f := w.row.Size, w.row.Frame
	if w.row.Paper.A > 0 && (f == nil || f.Width <= widest) { // a wider one is a mat, which hides its margin
		s = w.row.Paper
	}
	if f != nil {
		b := 2 * frameWidth(f)
		s.A, s.B = s.A+b, s.B+unit.Length(max(1, w.row.Parts))*b
	}
	return s
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
				return nil, nothing("put your photographs into it, and if you have one your list of works as CSV, XLSX or ODS", "there are no photographs and no list of works here")
			}
			d.Lonely = found.photos
			if !o.Bare {
				d.List = blankList(found.photos)
				return d, nil
			}
			sys, err := o.system()
			d.Scene = booths[sys].text(d, nil, nil, nil)
			return d, err
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
	d.identical(fsys)
	hanging, spares := d.sort(works)
	if len(hanging) == 0 {
		return nil, d.noneHangs()
	}
	all := slices.Concat(hanging, spares)
	d.tryPhotos(fsys, all)
	nameWorks(all)
	b := booths[sys]
	rows, unhung := b.hang(hanging)
	for _, u := range unhung {
		d.leave(u.row, u.title(), Work, b.tooLarge(u))
	}
	if len(rows) == 0 {
		return nil, nothing("look whether the sizes are height x width, and in the right unit", "none of the works fits on a wall of the standard booth")
	}
	slices.SortStableFunc(d.Left, func(a, c Left) int { return a.Row - c.Row })
	d.works = all
	d.Scene = b.text(d, all, rows, append(unhung, spares...))
	return d, nil
}

// tooLarge is why a work has no room, in words.
func (b standard) tooLarge(w *work) string {
	size := w.outer()
	text := size.Format(b.sys)
	switch {
	case size.A > b.top-b.bottom:
		return fmt.Sprintf("at %s it is higher than the %s of a wall that hold hooks: look whether its unit is right", text, (b.top - b.bottom).FormatFeet(b.sys))
	case size.B > b.wall-2*b.least:
		return fmt.Sprintf("at %s it is wider than a wall of %s: look whether its unit is right", text, b.wall.FormatFeet(b.sys))
	}
	return "no wall has room left for " + text + "; it waits in the scene"
}

func (d *Draft) leave(r stocklist.Row, what string, k Kind, why string) {
	d.Left = append(d.Left, Left{r.Number, what, k, why, r.At})
}

// noneHangs is why there is nothing to start from.
func (d *Draft) noneHangs() error {
	if len(d.Sheet.Rows) == 0 && len(d.Sheet.Unread) > 0 {
		u := d.Sheet.Unread[0]
		return nothing("mend them and start again", "no row of %s can be read; %s: %s", d.Sheet.Name, stocklist.Where(u.Number, u.At), u.Why)
	}
	sized := slices.IndexFunc(d.Left, func(l Left) bool { return l.Kind != NoWork && l.Why != noSize })
	if sized >= 0 && len(d.Sheet.Rows) > 0 {
		l := d.Left[sized]
		return nothing("look at the columns that say so", "no work of %s hangs; %s, %s: %s", d.Sheet.Name, stocklist.Where(l.Row, l.At), l.What, l.Why)
	}
	return nothing("fill in a column Height and a column Width with their unit, such as Height (in), or one called Size with cells such as 24 x 36 in, and start again", "no row of %s has a size yet", d.Sheet.Name)
}

func nothing(hint, text string, args ...any) error {
	return fault.List{{Text: fmt.Sprintf(text, args...), Hint: hint}}
}

// system is that of the units that were asked for; inches if none were.
func (o Options) system() (unit.System, error) {
	if o.Units == "" {
		return unit.Inches, nil
	}
	sys, err := unit.ParseSystem(o.Units)
	if err != nil {
		return 0, nothing("write --units in or --units cm", "%q is no unit for a scene", o.Units)
	}
	return sys, nil
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
		sys, err := o.system()
		if err != nil {
			return 0, err
		}
		return sys, read(sys, true)
	}
	if err := read(unit.Inches, false); err != nil {
		return 0, err
	}
	sys := unit.Inches
	if d.Sheet.Centimetres > d.Sheet.Inches {
		sys = unit.Centimetres
	}
	if n := d.Sheet.Unstated; n > 0 {
		return 0, nothing("start again with --units in or --units cm, or write the unit into the heading: Size (in)",
			"%s does not say whether its sizes are in inches or in centimetres: %s", d.Sheet.Name, rowsOf(n, len(d.Sheet.Rows)+len(d.Sheet.Unread)))
	}
	if n := d.Sheet.BareWeights; n > 0 { // as the scene will read them, whose units are stated
		d.Notes = append(d.Notes, fmt.Sprintf("%s a weight without a unit, which is taken for %s: write Weight (lb) or Weight (kg) over the column.",
			map[bool]string{true: "One row has", false: fmt.Sprint(n, " rows have")}[n == 1], map[unit.System]string{unit.Inches: "pounds", unit.Centimetres: "kilograms"}[sys]))
	}
	return sys, read(sys, true)
}

func rowsOf(n, all int) string {
	switch {
	case n == all:
		return "none of its rows does"
	case n == 1:
		return "one row does not"
	}
	return fmt.Sprintf("%d of its %d rows do not", n, all)
}

const noSize = "it has no size"

// sort parts the works that are to hang from those that wait, and leaves the others out with the reason.
func (d *Draft) sort(works []*work) (hanging, spares []*work) {
	for _, u := range d.Sheet.Unread {
		d.Left = append(d.Left, Left{u.Number, u.What, Work, u.Why, u.At})
	}
	for _, u := range d.Sheet.Aside {
		d.Left = append(d.Left, Left{u.Number, u.What, NoWork, u.Why, u.At})
	}
	for _, w := range works {
		r := w.row
		switch {
		case r.Sold:
			d.leave(r, w.title(), Work, "sold")
		case r.Away == stocklist.Elsewhere:
			d.leave(r, w.title(), Work, "it is elsewhere")
		case r.Sculpture() && r.Size.A >= stocklist.Smallest && max(r.Size.A, r.Size.B, r.Depth) <= stocklist.Largest:
			d.leave(r, w.title(), Work, "a sculpture: it waits in the scene until you write on: and where it stands")
			spares = append(spares, w)
		case r.Stands != "":
			d.leave(r, w.title(), Standing, "not for a wall ("+r.Stands+"): write it under pedestals, bins or tables")
		case r.Size.A == 0:
			d.leave(r, w.title(), Work, noSize)
		case !r.Likely():
			d.leave(r, w.title(), Work, fmt.Sprintf("%s or %s cannot be right: look at its unit", r.Size.Format(unit.Inches), r.Size.Format(unit.Centimetres)))
		case r.Away == stocklist.Spare:
			d.leave(r, w.title(), Work, "a spare: it waits in the scene")
			spares = append(spares, w)
		default:
			hanging = append(hanging, w)
		}
	}
	return hanging, spares
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
	images, errs := art.LoadAll(fsys, wishes, nil)
	for i, err := range errs {
		if err == nil {
			with[i].turn(images[i].Width, images[i].Height)
		} else {
			if !slices.Contains(d.Unusable, err.Error()) { // one photograph may be on several works
				d.Unusable = append(d.Unusable, err.Error())
			}
			with[i].photo = ""
		}
	}
	for _, w := range works {
		if w.photo == "" {
			said := ""
			if w.row.File != "" {
				said = ", which names " + w.row.File
			}
			d.Unpictured = append(d.Unpictured, fmt.Sprintf("%s (%s%s)", w.title(), stocklist.Where(w.row.Number, w.row.At), said))
		}
	}
}

// turn turns a work whose list does not say which way up it is as its photograph of so many pixels shows it.
func (w *work) turn(across, up int) {
	if size := &w.row.Size; w.row.Open && (across > up) != (size.B > size.A) && across != up {
		size.A, size.B, w.turned = size.B, size.A, true
	}
}

func stem(file string) string {
	base := path.Base(strings.ReplaceAll(file, `\`, "/"))
	if file == "" {
		return ""
	}
	return strings.TrimSuffix(base, path.Ext(base))
}
