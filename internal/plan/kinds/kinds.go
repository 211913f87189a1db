// Package kinds turns a scene, as somebody typed it, into a booth: the only place that knows what a tent, a table or a
// row of works is. A new kind is one file here and one line in All.
package kinds

import (
	"errors"
	"fmt"
	"io/fs"
	"reflect"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/model"
)

// Kind is a kind of thing that a scene can hold.
type Kind struct {
	Key    string // the scene's top-level key
	Doc    string // one sentence for people
	Many   bool   // the key holds a list
	Most   int    // entries that it may have
	Fields any    // what one entry may say: a struct whose tags are read by package scene; its values are the defaults
	build  func(*Site)
}

// What a scene may hold at most: more than anybody hangs, and no more than was measured to be built in bounded time and
// memory (see the limits in DEVELOPERS.md).
const (
	mostWorks     = 3000
	mostEntries   = 300 // of a list of anything else
	mostSolids    = 20_000
	mostTriangles = 1_000_000
)

// tooMuch is a fault at the part with which the booth becomes larger than can be built.
func (s *Site) tooMuch() {
	solids, triangles := 0, 0
	for _, p := range s.Plan.Parts {
		solids += len(p.Room())
		for _, m := range p.Surfaces {
			triangles += len(m.Mesh.Triangles)
		}
		switch {
		case solids > mostSolids:
			s.file.Faults().Add(p.At, "leave things out: every print in a bin and every bar of a frame counts", "with %s the booth has more than %d pieces, which is too many to build", p.Name, mostSolids)
			return
		case triangles > mostTriangles:
			s.file.Faults().Add(p.At, "give wires a wider spacing, or walls less of it", "with %s there is more to draw than can be drawn", p.Name)
			return
		}
	}
}

// entry is one entry of a scene, read.
type entry[E any] struct {
	says          E
	item          scene.Item
	number, count int // its number among the entries of its kind, and how many there are
}

// one is a kind whose key holds a single thing.
func one[E any](key, doc string, usual E, build func(*Site, []entry[E])) Kind {
	return kind(key, doc, 1, usual, build)
}

// many is a kind whose key holds a list.
func many[E any](key, doc string, usual E, build func(*Site, []entry[E])) Kind {
	return kind(key, doc, mostEntries, usual, build)
}

// kind reads the entries strictly, with what is usual where they say nothing; build gets those without a fault.
func kind[E any](key, doc string, most int, usual E, build func(*Site, []entry[E])) Kind {
	return Kind{Key: key, Doc: doc, Many: most > 1, Most: most, Fields: usual, build: func(s *Site) {
		var items []scene.Item
		if most > 1 {
			items = s.file.Items(key)
			if n := len(items); n > most {
				items[most].Fault("", "build a part of the booth at a time", "there are %d %s; a scene may have %d at most", n, key, most)
				items = items[:most]
			}
		} else if it, ok := s.file.Item(key); ok {
			items = []scene.Item{it}
		}
		var read []entry[E]
		for n, it := range items {
			says := usual
			if it.Decode(&says) {
				read = append(read, entry[E]{says, it, n, len(items)})
				continue
			}
			for _, field := range []string{"name", "side"} {
				if name, ok := it.Values()[field].(string); ok {
					s.unread[key+" "+name] = true
				}
			}
			works, _ := it.Values()["works"].([]any) // of a row: that they hang nowhere need not be told too
			for _, name := range works {
				s.unread[fmt.Sprint("works ", name)] = true
			}
		}
		build(s, read)
	}}
}

// All is every kind, in building order: a kind may rest on what stands before it.
var All = []Kind{
	pitchKind, tentKind, drapeKind, wallKind,
	tableKind, pedestalKind, belongingKind, binKind, chairKind, hooksKind,
	workKind, rowKind, tagKind, signKind, bannerKind, lampKind, visitorKind, kitKind, weatherKind, fairKind,
	setUpKind, choreKind,
}

// Plain are the scene's keys that hold no thing, but a single value, or rules and their values.
var Plain = []struct{ Key, Doc string }{
	{"event", "what the fair is called"},
	{"artist", "your name"},
	{"electricity", "what you plug in, in your own words, for the organiser: one socket, four lamps of 7 W"},
	{"flame labels", "which cloth carries a flame label, in your own words, for the organiser"},
	{"units", "what a bare number is: in or cm"},
	{"currency", "the sign before an amount, such as $; or an amount as you write it, and papers and tags have all amounts and sizes so: 1.250,00 €"},
	{"rules", "house rules of your own, such as {hanging centre: 60in}"},
	{"rule sheet", "a file with the fair's own rules, in the scene's folder"},
	{"sheet", "your list of works, CSV, XLSX or ODS, in the scene's folder; a work then needs only its name"},
	{"whole list", "yes: every work of the sheet that is neither sold nor a spare is to be in the booth, and what is missing is told; no if left out"},
}

// Build makes the booth that the file describes. Images are read through fsys, which is the scene's own folder. The
// error is a fault.List with everything that is wrong.
func Build(f *scene.File, book rules.Book, fsys fs.FS) (*booth.Plan, error) {
	return Again(f, book, fsys, nil)
}

// Again is Build where an earlier version of the scene was built already: what was kept of it is taken over where it is made
// from the same (the bytes of a photograph, the words and the size of a sign).
func Again(f *scene.File, book rules.Book, fsys fs.FS, kept *answer.Kept) (*booth.Plan, error) {
	s := &Site{
		file: f, fsys: fsys, kept: kept,
		Plan:   &booth.Plan{File: f.Name, Units: f.Units, Currency: "$", Rules: book},
		places: map[booth.ID]fault.Place{},
		unread: map[string]bool{},
		walls:  map[string]booth.ID{},
		tops:   map[string]top{},
		works:  map[string]*workEntry{},

		patterns: map[string]repeat{}, models: map[string]model.Model{},

		drapeOf: map[booth.Side]Drape{}, faceDrapes: map[string]faceDrape{}, standsOn: map[booth.ID]booth.ID{},
	}
	var keys []string
	for _, k := range Plain {
		keys = append(keys, k.Key)
	}
	for _, k := range All {
		keys = append(keys, k.Key)
	}
	f.Refuse(keys, insteadOf(keys), under)
	s.Plan.Event, _ = f.Text("event")
	s.Plan.Artist, _ = f.Text("artist")
	s.Plan.Electricity, _ = f.Text("electricity")
	s.Plan.FlameLabels, _ = f.Text("flame labels")
	if c, ok := f.Text("currency"); ok {
		if err := unit.CheckCurrency(c); err != nil {
			var e *unit.Error
			errors.As(err, &e)
			f.Faults().Add(f.Whole().At("currency"), e.Hint, "%s", e.Text)
		}
		s.Plan.Currency = c
	}
	s.readSheet()
	for _, k := range All {
		k.build(s)
	}
	s.tooMuch()
	s.wholeList()
	s.views()
	if err := f.Err(); err != nil {
		return nil, err
	}
	return s.Plan, nil
}

// Stands is whether an entry of the kind says where on the ground a thing stands.
func (k Kind) Stands() bool {
	_, ok := reflect.TypeOf(k.Fields).FieldByName("Placing")
	return ok
}
