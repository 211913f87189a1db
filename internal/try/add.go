package try

import (
	"fmt"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
)

// good is a thing that can be added from the page, in usual sizes.
type good struct {
	name, label, key string
	sizes            map[unit.System][]string // as the scene's own keys say them; common practice, no source, but for the sheets of paper (ISO 216)
	entry            func(s *Session, name, size string) (scene.Entry, error)
}

var goods = []good{
	{"table", "A table, length x depth", "tables", map[unit.System][]string{unit.Inches: {"48 x 24", "60 x 30", "72 x 30"}, unit.Centimetres: {"120 x 60", "150 x 75", "180 x 75"}}, (*Session).newTable},
	{"bin", "A browse bin, width x depth x height", "bins", map[unit.System][]string{unit.Inches: {"18 x 16 x 34", "20 x 16 x 33", "36 x 18 x 34"}, unit.Centimetres: {"45 x 40 x 85", "60 x 40 x 85", "90 x 45 x 85"}}, (*Session).newBin},
	{"pedestal", "A pedestal, width x depth x height", "pedestals", map[unit.System][]string{unit.Inches: {"12 x 12 x 36", "12 x 12 x 42", "16 x 16 x 30"}, unit.Centimetres: {"30 x 30 x 90", "30 x 30 x 105", "40 x 40 x 75"}}, (*Session).newPedestal},
	{"chair", "The chair, width", "chair", map[unit.System][]string{unit.Inches: {"18", "22"}, unit.Centimetres: {"45", "55"}}, (*Session).newChair},
	{"sign", "A sign, height x width", "signs", map[unit.System][]string{unit.Inches: {"11 x 8.5", "8.5 x 5.5", "17 x 11"}, unit.Centimetres: {"29.7 x 21", "21 x 14.8", "42 x 29.7"}}, (*Session).newSign},
	{"visitor", "Somebody in the aisle", "visitors", map[unit.System][]string{unit.Inches: people, unit.Centimetres: people}, (*Session).newVisitor},
	{"panel", "A free panel, width x height", "walls", map[unit.System][]string{unit.Inches: {"36 x 80", "48 x 80", "72 x 84"}, unit.Centimetres: {"90 x 200", "120 x 200", "180 x 215"}}, (*Session).newPanel},
}

var people = []string{"adult", "child", "wheelchair"}

// goods is what can be added to the booth as it is.
func (s *Session) goods() []Good {
	out := []Good{}
	for _, g := range goods {
		if g.key != "chair" || len(s.scene.Items("chair")) == 0 {
			out = append(out, Good{g.name, g.label, g.sizes[s.booth.Plan.Units]})
		}
	}
	return out
}

// add brings a thing of a kind, Field, and a size, Text, to where there is room for it. A sign says what Title is.
func (s *Session) add(a Ask) (string, error) {
	k := slices.IndexFunc(goods, func(g good) bool { return g.name == a.Field })
	if k < 0 {
		return "", refuse("There is no such thing to add")
	}
	g := goods[k]
	items := s.scene.Items(g.key)
	if g.key == "chair" && len(items) > 0 {
		return "", refuse("The booth has a chair already")
	}
	entry, err := g.entry(s, newName(map[string]string{"panel": "panel", "visitor": a.Text}[g.name], items), a.Text)
	if err != nil {
		return "", err
	}
	if g.name == "sign" {
		text := signLines(a.Title)
		if text == nil {
			return "", refuse("Say what the sign says")
		}
		entry = slices.Insert(entry, 1, scene.Pair{Key: "text", Value: text})
	}
	return s.append(g.key, entry, "a "+g.name+" added")
}

// append puts an entry at the end of those of its key.
func (s *Session) append(k string, entry scene.Entry, words string) (string, error) {
	said, err := s.edit(words, func(f *scene.File) (*scene.File, error) { return appended(f, k, entry) })
	if err == nil {
		s.added = s.lastOf(k)
	}
	return said, err
}

func appended(f *scene.File, k string, entry scene.Entry) (*scene.File, error) {
	list := scene.Path{{Key: k}}
	switch n := len(f.Items(k)); {
	case k == "chair":
		return f.Set(list, entry)
	case n == 0:
		return f.Set(list, []any{entry})
	default:
		return f.Insert(under(list, nth(n)), entry)
	}
}

// lastOf is what the last entry of a key made.
func (s *Session) lastOf(k string) booth.ID {
	if k == "works" {
		return s.index.works[len(s.index.works)-1].id
	}
	n := len(s.scene.Items(k)) - 1
	for id, path := range s.index.parts {
		if path[0].Key == k && (len(path) == 1 || path[1].Nth == n) {
			return id
		}
	}
	return ""
}

// newName is a name that no entry has: a word, or that with a number.
func newName(word string, items []scene.Item) string {
	if word == "" {
		word = "extra"
	}
	taken := map[string]bool{}
	for _, it := range items {
		name, _ := it.Values()["name"].(string)
		taken[strings.ToLower(name)] = true
	}
	name := word
	for n := 2; taken[strings.ToLower(name)]; n++ {
		name = fmt.Sprint(word, " ", n)
	}
	return name
}

// signLines are the lines of a sign, without empty ones.
func signLines(text string) (out []string) {
	for _, l := range strings.Split(text, "\n") {
		if l = strings.TrimSpace(l); l != "" {
			out = append(out, l)
		}
	}
	return out
}

func (s *Session) newTable(name, size string) (scene.Entry, error) {
	z, err := unit.ParseSize(size, s.booth.Plan.Units, true)
	return append(scene.Entry{{Key: "name", Value: name}, {Key: "size", Value: z}}, s.room(z.A.M(), z.B.M())...), err
}

func (s *Session) newBin(name, size string) (scene.Entry, error) {
	z, err := unit.ParseSize3(size, s.booth.Plan.Units, true)
	return append(scene.Entry{{Key: "name", Value: name}, {Key: "size", Value: z}}, s.room(z.A.M(), z.B.M())...), err
}

func (s *Session) newPedestal(name, size string) (scene.Entry, error) {
	z, err := unit.ParseSize3(size, s.booth.Plan.Units, true)
	return append(scene.Entry{{Key: "name", Value: name}, {Key: "size", Value: unit.Size{A: z.A, B: z.B}}, {Key: "height", Value: z.C}}, s.room(z.A.M(), z.B.M())...), err
}

func (s *Session) newChair(_, size string) (scene.Entry, error) {
	l, err := unit.ParseLength(size, s.booth.Plan.Units, true)
	return append(scene.Entry{{Key: "width", Value: l}}, s.room(l.M(), l.M())...), err
}

// newSign stands on the first table or pedestal, where there is room along its front edge.
func (s *Session) newSign(name, size string) (scene.Entry, error) {
	z, err := unit.ParseSize(size, s.booth.Plan.Units, true)
	if err != nil {
		return nil, err
	}
	for _, k := range []string{"tables", "pedestals"} {
		for n, it := range s.scene.Items(k) {
			on, _ := it.Values()["name"].(string)
			if p := s.partAt(k, n); p != nil && on != "" {
				return append(scene.Entry{{Key: "name", Value: name}, {Key: "size", Value: z}, {Key: "on", Value: on}}, s.roomOn(p, z.B.M())...), nil
			}
		}
	}
	return nil, refuse("A sign stands on a table or a pedestal that has a name: add one first")
}

func (s *Session) partAt(k string, n int) *booth.Part {
	for i := range s.booth.Plan.Parts {
		p := &s.booth.Plan.Parts[i]
		if path, ok := s.index.parts[p.ID]; ok && path[0].Key == k && path[len(path)-1].Nth == n {
			return p
		}
	}
	return nil
}

// newVisitor stands in the aisle before the booth, not where another does.
func (s *Session) newVisitor(name, who string) (scene.Entry, error) {
	if !slices.Contains(people, who) {
		return nil, refuse("It is an adult, a child or somebody in a wheelchair who can be added")
	}
	const far, apart = 3 * unit.Foot, 30 * unit.Inch
	x := s.round(unit.Length(s.booth.Plan.Pitch.Width/2) - 10*unit.Inch)
	others := s.taken(true)
	for n := range 8 {
		try := x + s.round(apart)*unit.Length((n+1)/2*(1-2*(n%2)))
		left := try.M() - s.booth.Plan.Pitch.Width/2
		if try > 0 && free(others, box{left, far.M() - 0.1, left + 0.7, far.M() + 0.7}) {
			x = try
			break
		}
	}
	return scene.Entry{{Key: "name", Value: name}, {Key: "who", Value: who}, {Key: "from left", Value: x}, {Key: "before front", Value: s.round(far)}}, nil
}

// newPanel faces the front, where there is most room before and behind it.
func (s *Session) newPanel(name, size string) (scene.Entry, error) {
	z, err := unit.ParseSize(size, s.booth.Plan.Units, true)
	if err != nil {
		return nil, err
	}
	e := scene.Entry{{Key: "name", Value: name}, {Key: "hang on", Value: "panel"}, {Key: "width", Value: z.A}, {Key: "top", Value: z.B}}
	pitch, others, feet := s.booth.Plan.Pitch, s.taken(false), 18*unit.Inch
	for back := s.round(3 * unit.Foot); back.M() < pitch.Depth; back += s.round(6 * unit.Inch) {
		for left := s.round(6 * unit.Inch); left.M()+z.A.M() < pitch.Width; left += s.round(6 * unit.Inch) {
			x, y := left.M()-pitch.Width/2, back.M()-pitch.Depth
			if free(others, box{x, y, x + z.A.M(), y + feet.M()}) {
				return append(e, scene.Pair{Key: "from left", Value: left}, scene.Pair{Key: "from back", Value: back}), nil
			}
		}
	}
	return e, nil
}

// round is a length that people in the scene's units would write: whole inches, or fives of centimetres.
func (s *Session) round(l unit.Length) unit.Length {
	step := unit.Inch
	if s.booth.Plan.Units == unit.Centimetres {
		step = unit.Length(0.05)
	}
	return unit.Length(float64(int(l/step+0.5))) * step
}

// box is ground between two corners, in metres.
type box struct{ x0, z0, x1, z1 float64 }

func boxOf(points []geom.Vec) box {
	lo, hi := geom.Bounds(points)
	return box{lo.X, lo.Z, hi.X, hi.Z}
}

func free(others []box, b box) bool {
	const touch = 0.02 // metres that things may overlap where they touch
	return !slices.ContainsFunc(others, func(o box) bool {
		return o.x0 < b.x1-touch && b.x0 < o.x1-touch && o.z0 < b.z1-touch && b.z0 < o.z1-touch
	})
}

// taken is the ground that things stand on, or only that of people.
func (s *Session) taken(people bool) (out []box) {
	const overhead = 2 // metres
	for i := range s.booth.Plan.Parts {
		p := &s.booth.Plan.Parts[i]
		if p.Flat || p.Sheet || p.Work != nil || p.Moving != people {
			continue
		}
		for _, c := range p.Room() {
			if f := way.Footprint(c, 0, overhead); f != nil {
				points := make([]geom.Vec, len(f))
				for k, q := range f {
					points[k] = geom.Vec{X: q.X, Z: q.Z}
				}
				out = append(out, boxOf(points))
			}
		}
	}
	return out
}

// room says where along a side a thing has room that is wide along the side and deep; nothing, which is the middle, if nowhere.
func (s *Session) room(wide, deep float64) scene.Entry {
	const cloth = 0.1 // metres that walls and their cloth take at most
	pitch, others, step := s.booth.Plan.Pitch, s.taken(false), s.round(6*unit.Inch)
	w, d := pitch.Width/2, pitch.Depth
	for at := s.round(unit.Foot); at.M()+wide < d; at += step {
		z0, z1 := -at.M()-wide, -at.M()
		for _, side := range []struct {
			name string
			box
		}{{"left", box{cloth - w, z0, cloth - w + deep, z1}}, {"right", box{w - cloth - deep, z0, w - cloth, z1}}} {
			if free(others, side.box) {
				return scene.Entry{{Key: "against", Value: side.name}, {Key: "from front", Value: at}}
			}
		}
	}
	for at := s.round(unit.Foot); at.M()+wide < 2*w; at += step {
		if free(others, box{at.M() - w, cloth - d, at.M() - w + wide, cloth - d + deep}) {
			return scene.Entry{{Key: "against", Value: "back"}, {Key: "from left", Value: at}}
		}
	}
	return nil
}

// roomOn says where along the front edge of a top a thing of a width has room.
func (s *Session) roomOn(top *booth.Part, wide float64) scene.Entry {
	local := func(p *booth.Part) box {
		var points []geom.Vec
		for _, c := range p.Room() {
			for _, v := range c.Corners {
				points = append(points, top.Frame.Local(v))
			}
		}
		return boxOf(points)
	}
	whole, others := local(top), []box{}
	for i := range s.booth.Plan.Parts {
		if p := &s.booth.Plan.Parts[i]; p.Parent == top.ID && len(p.Room()) > 0 {
			others = append(others, local(p))
		}
	}
	inset := s.round(2 * unit.Inch)
	for along := inset; along.M()+wide < whole.x1-whole.x0; along += inset {
		if free(others, box{whole.x0 + along.M(), whole.z1 - 0.2, whole.x0 + along.M() + wide, whole.z1}) {
			return scene.Entry{{Key: "along", Value: along}, {Key: "back", Value: inset}}
		}
	}
	return nil
}
