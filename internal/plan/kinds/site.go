package kinds

import (
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/art"
	"boothmock/internal/props/model"
	"boothmock/internal/props/stocklist"
)

// Site is a booth while it is being put together.
type Site struct {
	Plan *booth.Plan
	file *scene.File
	fsys fs.FS
	kept *answer.Kept // from earlier versions of the scene; nil: nothing

	places     map[booth.ID]fault.Place      // of every part so far
	unread     map[string]bool               // "tables prints": what was already reported, by key and name
	leg        float64                       // metres that the tent's legs take at each end of a side
	eave       float64                       // metres above the ground at which the tent's rails run; 0 without a tent
	cloth      [4]float64                    // metres that a drape takes on each side, by booth.Side
	face       [4]float64                    // metres from the pitch's edge to the innermost face of each side, by booth.Side
	walls      map[string]booth.ID           // by the name that works use
	tops       map[string]top                // tables and pedestals, by name
	works      map[string]*workEntry         // by name
	sheet      *stocklist.Sheet              // the list of works; nil without one
	bySheet    [2]map[string][]stocklist.Row // its rows by plain name or number, and by plain title or photograph
	illegible  map[string]stocklist.Remark   // its rows that cannot be read, by plain name
	rowOf      map[string]string             // by a work's name: its row there
	order      []*workEntry                  // in file order
	seat       *geom.Vec                     // the middle of the first chair's seat
	closed     [4]bool                       // by booth.Side: closed with the tent's own cloth
	drapes     [4]booth.ID                   // by booth.Side: the drape that hangs there
	drapeOf    map[booth.Side]Drape          // its entry
	faceDrapes map[string]faceDrape          // drapes before walls that are still to be built, by the wall's name
	corner     [2]float64                    // metres from the pitch to the neighbours on the left and right; 0 where nobody is
	rugs       []booth.ID                    // tasks of what lies on the ground under other things
	standsOn   map[booth.ID]booth.ID         // by wall: its feet
	models     map[string]model.Model        // by file
	patterns   map[string]repeat             // photographs of cloth as tiles, by file
	wireHolds  unit.Weight                   // stated strength of picture wire; 0: not stated

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

// called is what people call a thing by its name and what it is: the sales table, and neither the long table table nor the table 2 table.
func called(name, what string) string {
	if slices.Contains(strings.Fields(strings.ToLower(name)), what) {
		return "the " + name
	}
	return "the " + name + " " + what
}

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
func (s *Site) unknown(it scene.Item, field, what, name string, known func() []string, keys ...string) {
	panel, _ := strings.CutSuffix(name, " back") // a face, or a panel of a run, is called after the wall
	for _, key := range keys {
		if s.unread[key+" "+name] || s.unread[key+" "+panel] || s.unread[key+" "+strings.TrimRight(panel, " 0123456789")] {
			return
		}
	}
	hint := "check the spelling"
	if s.few() {
		names := known()
		near, ok := fault.Nearest(name, names)
		switch {
		case ok:
			hint = fmt.Sprintf("did you mean %q?", near)
		case len(names) == 0:
			hint = "there is none in this scene"
		case len(names) <= 12:
			hint = "there is " + unit.List(names, "and")
		}
	}
	it.Fault(field, hint, "there is no %s %q", what, name)
}

// few is whether there are so few faults that for each it is sought what was meant: looking through thousands of names for
// each of thousands takes long.
func (s *Site) few() bool { return len(*s.file.Faults()) < 100 }

// names gives the keys of a map, sorted.
func names[V any](m map[string]V) func() []string {
	return func() []string { return slices.Sorted(maps.Keys(m)) }
}

// refuse takes an error of a leaf as a fault at the place.
func (s *Site) refuse(at fault.Place, err error) {
	if f, ok := err.(fault.Fault); ok {
		s.file.Faults().Add(at, f.Hint, "%s", f.Text)
		return
	}
	s.file.Faults().Add(at, "", "%s", err)
}

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
	loaded, errs := art.LoadAll(s.fsys, inside, s.kept)
	for k, i := range index {
		if errs[k] != nil {
			s.refuse(at[i](), errs[k])
			continue
		}
		out[i] = loaded[k]
	}
	return out
}

// bring is how the packing list speaks of a thing: its name without the article, and its size.
func bring(name, size string) string { return strings.TrimPrefix(name, "the ") + ", " + size }

// plainLook is a matt surface of one colour.
func plainLook(c booth.Colour) booth.Look { return booth.Look{Colour: c} }

// block is the surface of some solids in one colour.
func block(c booth.Colour, solids ...geom.Convex) booth.Surface {
	return booth.Surface{Mesh: geom.Solids(solids...), Look: plainLook(c)}
}

var (
	metal  = booth.Colour{0x9a, 0x9d, 0xa0}
	timber = booth.Colour{0xb0, 0x90, 0x68}
	paper  = booth.Colour{0xf1, 0xee, 0xe6}
)
