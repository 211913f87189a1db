// Package kinds turns a scene, as somebody typed it, into a booth: the only place that knows what a tent, a table or a
// row of works is. A new kind is one file here and one line in All.
package kinds

import (
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"boothmock/internal/art"
	"boothmock/internal/booth"
	"boothmock/internal/fault"
	"boothmock/internal/geom"
	"boothmock/internal/rules"
	"boothmock/internal/scene"
	"boothmock/internal/stocklist"
	"boothmock/internal/unit"
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
// memory (see Size in DEVELOPERS.md).
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
		solids += len(p.Solids)
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
	tableKind, pedestalKind, binKind, chairKind, hooksKind,
	workKind, rowKind, tagKind, signKind, bannerKind, visitorKind, kitKind, weatherKind,
	setUpKind, choreKind,
}

// Plain are the scene's keys that hold no thing, but a single value, or rules and their values.
var Plain = []struct{ Key, Doc string }{
	{"event", "what the fair is called"},
	{"artist", "your name"},
	{"units", "what a bare number is: in or cm"},
	{"currency", "the sign before an amount, such as $"},
	{"rules", "house rules of your own, such as {hanging centre: 60in}"},
	{"rule sheet", "a file with the fair's own rules, in the scene's folder"},
	{"sheet", "your list of works, CSV or XLSX, in the scene's folder; a work then needs only its name"},
}

// Build makes the booth that the file describes. Images are read through fsys, which is the scene's own folder. The
// error is a fault.List with everything that is wrong.
func Build(f *scene.File, book rules.Book, fsys fs.FS) (*booth.Plan, error) {
	s := &Site{
		file: f, fsys: fsys,
		Plan:   &booth.Plan{File: f.Name, Units: f.Units, Currency: "$", Rules: book},
		places: map[booth.ID]fault.Place{},
		unread: map[string]bool{},
		walls:  map[string]booth.ID{},
		tops:   map[string]top{},
		works:  map[string]*workEntry{},
	}
	var keys []string
	for _, k := range Plain {
		keys = append(keys, k.Key)
	}
	for _, k := range All {
		keys = append(keys, k.Key)
	}
	f.Refuse(keys)
	s.Plan.Event, _ = f.Text("event")
	s.Plan.Artist, _ = f.Text("artist")
	if c, ok := f.Text("currency"); ok {
		s.Plan.Currency = c
	}
	s.readSheet()
	for _, k := range All {
		k.build(s)
	}
	s.tooMuch()
	s.views()
	if err := f.Err(); err != nil {
		return nil, err
	}
	return s.Plan, nil
}

// Site is a booth while it is being put together.
type Site struct {
	Plan *booth.Plan
	file *scene.File
	fsys fs.FS

	places    map[booth.ID]fault.Place      // of every part so far
	unread    map[string]bool               // "tables prints": what a fault was told of already, by key and name
	leg       float64                       // metres that the tent's legs take at each end of a side
	eave      float64                       // metres above the ground at which the tent's rails run; 0 without a tent
	cloth     [4]float64                    // metres that a drape takes on each side, by booth.Side
	face      [4]float64                    // metres from the pitch's edge to the innermost face of each side, by booth.Side
	walls     map[string]booth.ID           // by the name that works use
	tops      map[string]top                // tables and pedestals, by name
	works     map[string]*workEntry         // by name
	sheet     *stocklist.Sheet              // the list of works; nil without one
	bySheet   [2]map[string][]stocklist.Row // its rows by plain name or number, and by plain title or photograph
	order     []*workEntry                  // in file order
	seat      *geom.Vec                     // the middle of the first chair's seat
	closed    [4]bool                       // by booth.Side: closed with the tent's own cloth
	drapes    [4]booth.ID                   // by booth.Side: the drape that hangs there
	wireHolds unit.Weight                   // stated strength of picture wire; 0: not stated

	furniture  []booth.Task // of what stands on the ground
	standsFirm []booth.ID   // tasks after which the tents stand and are weighted
}

// add takes a part into the booth. An ID that stands already is a fault.
func (s *Site) add(p booth.Part) {
	if before, ok := s.places[p.ID]; ok {
		s.file.Faults().Add(p.At, "give each its own name", "the name %q is taken already, at line %d", last(p.ID), before.Line)
		return
	}
	s.places[p.ID] = p.At
	s.Plan.Add(p)
}

func last(id booth.ID) string { return string(id[strings.LastIndexByte(string(id), '/')+1:]) }

// id is the ID of a thing by its name.
func id(kind, name string) booth.ID {
	return booth.ID(kind + "/" + strings.ToLower(strings.ReplaceAll(name, "/", "-")))
}

// id is the ID of an entry by its name, or by its number where it has none.
func (e entry[E]) id(kind, name string) booth.ID {
	switch {
	case name != "":
		return id(kind, name)
	case e.count == 1:
		return booth.ID(kind)
	}
	return id(kind, fmt.Sprint(e.number+1))
}

// unknown faults a field that names something that is not there, unless that thing has a fault of its own.
func (s *Site) unknown(it scene.Item, field, what, name string, known []string, keys ...string) {
	for _, key := range keys {
		if s.unread[key+" "+name] {
			return
		}
	}
	hint := "there is " + unit.List(known, "and")
	near, ok := s.nearest(name, known)
	switch {
	case ok:
		hint = fmt.Sprintf("did you mean %q?", near)
	case len(known) == 0:
		hint = "there is none in this scene"
	case len(known) > 12:
		hint = "check the spelling"
	}
	it.Fault(field, hint, "there is no %s %q", what, name)
}

// nearest is the name that was most likely meant. After a hundred faults it is sought no more: looking through thousands for
// each of thousands takes long.
func (s *Site) nearest(name string, known []string) (string, bool) {
	if len(*s.file.Faults()) >= 100 {
		return "", false
	}
	return fault.Nearest(name, known)
}

// names are the keys of a map, sorted.
func names[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

// images loads pictures by their path in the scene's folder; one that cannot be used is a fault at its place.
func (s *Site) images(wishes []art.Wish, at []func() fault.Place) []*art.Image {
	var inside []art.Wish
	var index []int
	out := make([]*art.Image, len(wishes))
	for i, w := range wishes {
		clean, err := scene.Inside(w.Name)
		if err != nil {
			s.file.Faults().Add(at[i](), "keep the scene's images in its own folder, or below it", "%s", err)
			continue
		}
		w.Name = clean
		inside, index = append(inside, w), append(index, i)
	}
	loaded, errs := art.LoadAll(s.fsys, inside)
	for k, i := range index {
		if errs[k] != nil {
			s.refuse(at[i](), errs[k])
			continue
		}
		out[i] = loaded[k]
	}
	return out
}

// plainLook is a matt surface of one colour.
func plainLook(c booth.Colour) booth.Look { return booth.Look{Colour: c} }

// block is the surface of some solids in one colour.
func block(c booth.Colour, solids ...geom.Convex) booth.Surface {
	return booth.Surface{Mesh: geom.Solids(solids...), Look: plainLook(c)}
}

var (
	metal  = booth.Colour{0x9a, 0x9d, 0xa0}
	timber = booth.Colour{0xb0, 0x90, 0x68}
)
