package scene

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// hue is a type with a text form of its own, in an array as colours are.
type hue [3]uint8

func (h *hue) UnmarshalText(b []byte) error {
	if n, err := fmt.Sscanf(string(b), "#%02x%02x%02x", &h[0], &h[1], &h[2]); err != nil || n != 3 {
		return fmt.Errorf("%q is not a hue; write \"#8b8f94\"", b)
	}
	return nil
}

func (h hue) MarshalText() ([]byte, error) {
	return fmt.Appendf(nil, "#%02x%02x%02x", h[0], h[1], h[2]), nil
}

type placing struct {
	Front *unit.Length `yaml:"from front" doc:"clear distance from the front"`
}

type shelf struct {
	Height unit.Length `yaml:"height" must:"yes" range:"1in..20ft" doc:"height of its top"`
	Holds  []string    `yaml:"holds"`
}

// entry1 has a field of every type.
type entry1 struct {
	Name    string       `yaml:"name" must:"yes" doc:"what others call it"`
	Size    unit.Size    `yaml:"size" range:"1/8in..20ft" doc:"height x width"`
	Box     *unit.Size3  `yaml:"box"`
	Height  unit.Length  `yaml:"height" range:"1in..20ft" doc:"height of its top"`
	Depth   *unit.Length `yaml:"depth"`
	Weight  unit.Weight  `yaml:"weight"`
	Price   unit.Money   `yaml:"price"`
	Turn    unit.Angle   `yaml:"turn" range:"-180..180"`
	Part    unit.Share   `yaml:"part"`
	Takes   unit.Minutes `yaml:"takes"`
	On      string       `yaml:"hang on" oneof:"mesh chains rail none" doc:"what hooks hold on to"`
	Sides   []string     `yaml:"sides" oneof:"left right"`
	Cloth   hue          `yaml:"cloth"`
	Count   int          `yaml:"count" range:"1..6"`
	Factor  float64      `yaml:"fullness" range:"1..3"`
	Indoor  bool         `yaml:"indoor"`
	Shelf   *shelf       `yaml:"shelf"`
	Shelves []shelf      `yaml:"shelves"`
	placing
	behind
	Inner string // not read
}

type behind struct {
	Back unit.Length `yaml:"from back"`
}

func file(t *testing.T, text string) *File {
	t.Helper()
	f, err := Read(fstest.MapFS{"a.yaml": {Data: []byte(text)}}, "a.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestDecodeEveryType(t *testing.T) {
	f := file(t, "units: in\nthings:\n  - {Name: 1984, size: 24 x 36, box: 1 x 2 x 3 cm, HEIGHT: 010, depth: 5'6\", weight: 6 lb 4oz, price: 480,\n"+
		"     turn: -30°, part: 90%, takes: 1h 20min, hang   on: chains, sides: [right, left], cloth: \"#0a0b0c\", count: \"2\", fullness: 1.25,\n"+
		"     indoor: yes, shelf: {height: 2in, holds: [a]}, shelves: [{height: 1}, {height: 2}], from back: 1}\n")
	want := entry1{
		Name: "1984", Size: unit.Size{A: 0.6096, B: 0.9144}, Box: &unit.Size3{A: 0.01, B: 0.02, C: 0.03}, Height: 10 * unit.Inch, Depth: new(unit.Length),
		Weight: 6.25 * unit.Pound, Price: 48000, Turn: unit.Degrees(-30), Part: 0.9, Takes: 80, On: "chains", Sides: []string{"right", "left"}, Cloth: hue{10, 11, 12},
		Count: 2, Factor: 1.25, Indoor: true, Shelf: &shelf{2 * unit.Inch, []string{"a"}}, Shelves: []shelf{{1 * unit.Inch, nil}, {2 * unit.Inch, nil}},
		behind: behind{Back: 1 * unit.Inch}, Inner: "kept",
	}
	*want.Depth = 66 * unit.Inch
	got := entry1{Sides: []string{"a", "default", "list"}, Inner: "kept"}
	usual := got.Sides
	if !f.Items("things")[0].Decode(&got) {
		t.Fatal(f.Err())
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%+v\nwant\n%+v", got, want)
	}
	if usual[0] != "a" {
		t.Error("decoding wrote into the default list")
	}
}

func TestDefaults(t *testing.T) {
	f := file(t, "thing: {name: x}\nbare: {}\n")
	it, ok := f.Item("thing")
	got := entry1{Height: 3, On: "mesh", Sides: []string{"left"}}
	if !ok || !it.Decode(&got) || got.Height != 3 || got.On != "mesh" || got.Sides[0] != "left" || got.Depth != nil {
		t.Errorf("%+v, %v", got, f.Err())
	}
	if it, ok := f.Item("bare"); !ok || it.Decode(&got) || f.Err().Error() != "a.yaml:2:1: name is missing (what others call it)" {
		t.Errorf("an empty entry: %v", f.Err())
	}
}

// Units decide what a bare number is, wherever in the file they stand.
func TestUnits(t *testing.T) {
	for text, want := range map[string]float64{"thing: {name: a, height: 24}\nunits: cm\n": 0.24, "units: inches\nthing: {name: a, height: 24}\n": 0.6096} {
		f := file(t, text)
		var e entry1
		it, _ := f.Item("thing")
		if !it.Decode(&e) || e.Height.M() != want || !f.UnitsStated {
			t.Errorf("%q: %v, %v", text, e.Height, f.Err())
		}
	}
}

// Each faulty value, alone in an entry: the place and the words, to the letter.
func TestFaults(t *testing.T) {
	const head = "things:\n  - {name: a, "
	for value, want := range map[string]string{
		"hieght: 3in":             `2:15: the key "hieght" is not known (did you mean height?)`,
		"colr: 3in":               `2:15: the key "colr" is not known (known here: name, size, box, height, depth, weight, price, turn, part, takes, hang on, sides, cloth, count, fullness, indoor, shelf, shelves, from front, from back)`,
		"height: 24":              `2:23: height: a length needs a unit (write 24in, 24ft or 24cm, or once units: in or units: cm at the top)`,
		"height: 10 foots":        `2:23: height: "10 foots" is not a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)`,
		"height: 6lb":             `2:23: height: "6lb" is not a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)`,
		"height: -3in":            `2:23: height: -3in is out of range (from 1in to 20ft)`,
		"height: 0in":             `2:23: height: 0in is out of range (from 1in to 20ft)`,
		"height: 300ft":           `2:23: height: 300ft is out of range (from 1in to 20ft)`,
		"height: .nan":            `2:23: height: ".nan" is not a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)`,
		"height: .inf":            `2:23: height: ".inf" is not a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)`,
		"height: 1e300":           `2:23: height: "1e300" is not a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)`,
		"height: [24in]":          `2:23: height: want a length such as 24in, got a list (write it without brackets of its own: 24in)`,
		"height: {a: 1}":          `2:23: height: want a length such as 24in, got keys and values`,
		"height: ":                `2:23: height: has no value (write a length such as 24in)`,
		"height: ''":              `2:23: height: is empty; want a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)`,
		"height: 2026-05-01":      `2:23: height: "2026-05-01" is not a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)`,
		"depth: -1in":             `2:22: depth: -1in is out of range (from 0in to 200ft)`,
		"size: 0in x 24in":        `2:21: size: 0in x 24in is out of range (from 1/8in to 20ft)`,
		"size: [24in, 36in]":      `2:21: size: want a size such as 24in x 36in, got a list (write it without brackets of its own: 24in x 36in)`,
		"weight: 6":               `2:23: weight: a weight needs a unit (write 6lb or 6kg, or once units: in or units: cm at the top)`,
		"size: 24 x 36":           `2:21: size: a size needs a unit (write 24 x 36 in or 24 x 36 cm, or once units: in or units: cm at the top)`,
		"size: 24in":              `2:21: size: "24in" is not a size (write 24in x 36in or 61 x 91 cm)`,
		"box: 0 x 1 x 1 in":       `2:20: box: 0 x 1 x 1 in is out of range (more than 0, up to 40ft)`,
		"weight: -1lb":            `2:23: weight: -1lb is out of range (from 0lb to 1000lb)`,
		"price: 480,50":           `2:26: the key "50" is not known (inside { } a comma ends a value: write a point before decimals, and nothing between thousands)`,
		"cloth: \"#000000\", red": `2:33: the key "red" is not known (inside { } a comma ends a value: put a value that holds one in quotes)`,
		"height:3in":              `2:15: the key "height:3in" is not known (leave a blank after the colon)`,
		"price: -1":               `2:22: price: -1 is out of range (from 0 to 100000000)`,
		"turn: 200":               `2:21: turn: 200 is out of range (from -180 to 180)`,
		"part: 130%":              `2:21: part: 130% is out of range (from 0% to 100%)`,
		"takes: -5min":            `2:22: takes: "-5min" is not a time (write 15min or 1h 20min)`,
		"hang on: mash":           `2:24: hang on: "mash" is not one of mesh, chains, rail or none (did you mean mesh?)`,
		"hang on: glue":           `2:24: hang on: "glue" is not one of mesh, chains, rail or none`,
		"hang on: [mesh]":         `2:24: hang on: want text, got a list (write it without brackets of its own: mesh)`,
		"sides: left":             `2:22: sides: want a list such as [one, two], got "left" (write [left])`,
		"sides: [left, rihgt]":    `2:29: sides: "rihgt" is not one of left or right (did you mean right?)`,
		"sides: [left, [right]]":  `2:29: sides: want text, got a list (write it without brackets of its own: right)`,
		"sides: [left, ~]":        `2:29: sides: has no value (write text)`,
		"cloth: gray":             `2:22: cloth: "gray" is not a hue (write "#8b8f94")`,
		"cloth: [1, 2, 3]":        `2:22: cloth: want a hue, got a list`,
		"count: 2.5":              `2:22: count: "2.5" is not a whole number (write for example 2)`,
		"count: 7":                `2:22: count: 7 is out of range (from 1 to 6)`,
		"count: 99999999999":      `2:22: count: "99999999999" is not a whole number (write for example 2)`,
		"count: yes":              `2:22: count: "yes" is not a whole number (write for example 2)`,
		"fullness: .nan":          `2:25: fullness: ".nan" is not a number (write for example 1.5)`,
		"fullness: 9":             `2:25: fullness: 9 is out of range (from 1 to 3)`,
		"indoor: perhaps":         `2:23: indoor: "perhaps" is neither yes nor no (write yes or no)`,
		"indoor: 1":               `2:23: indoor: "1" is neither yes nor no (write yes or no)`,
		"shelf: 3":                `2:22: shelf: want an entry with keys of its own, got "3" (its keys are height, holds)`,
		"shelf: 3in":              `2:22: shelf: want an entry with keys of its own, got "3in" (write {height: 3in})`,
		"shelf: {}":               `2:22: height is missing (height of its top)`,
		"shelf: {height: 30ft}":   `2:31: height: 30ft is out of range (did you mean 30in? It may be from 1in to 20ft)`,
		"shelves: {height: 1in}":  `2:24: shelves: want a list of entries, got keys and values`,
		"shelves: [{height: 1in}, {height: 1in, hold: [a]}]": `2:54: the key "hold" is not known (did you mean holds?)`,
		"shelves: [{height: 1in}, {height: tall}]":           `2:49: height: "tall" is not a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)`,
		"inner: x": `2:15: the key "inner" is not known (known here: name, size, box, height, depth, weight, price, turn, part, takes, hang on, sides, cloth, count, fullness, indoor, shelf, shelves, from front, from back)`,
	} {
		f := file(t, head+value+"}\n")
		for _, it := range f.Items("things") {
			if it.Decode(&entry1{}) {
				t.Errorf("%s: decoded", value)
			}
		}
		if got := fmt.Sprint(f.Err()); got != "a.yaml:"+want {
			t.Errorf("%s:\ngot  %s\nwant a.yaml:%s", value, got, want)
		}
	}
}

// A whole file with many things wrong shows all of them, in the order of the lines.
func TestAllFaultsAtOnce(t *testing.T) {
	text := "units: furlongs\nevent: [a]\nthings:\n  - name: \"\"\n    cloth: #222\n    height: 24\n  - size: 1 x 2 x 3\n  - lamp\n  -\ntabels: 3\nthing: 4\n"
	want := `a.yaml:1:8: units: "furlongs" is not a system of units (write in or cm)
a.yaml:2:8: event: want text, got a list
a.yaml:4:11: name: is empty (what others call it)
a.yaml:5:11: cloth: has no value; a # begins a comment (put a value that starts with # in quotes: "#222")
a.yaml:7:5: name is missing (what others call it)
a.yaml:7:11: size: "1 x 2 x 3" is three lengths where two are wanted (the third has a key of its own, such as height or depth)
a.yaml:8:5: things: want an entry with keys of its own, got "lamp" (boothmock explain things says what its keys are)
a.yaml:9:4: things: has no value (write an entry with keys of its own)
a.yaml:10:1: the key "tabels" is not known (did you mean tables?)
a.yaml:11:8: thing: want an entry with keys of its own, got "4" (boothmock explain thing says what its keys are)`
	for name, text := range map[string]string{"LF": text, "CRLF": strings.ReplaceAll(text, "\n", "\r\n"), "BOM": "\ufeff" + text, "BOM and CRLF": "\ufeff" + strings.ReplaceAll(text, "\n", "\r\n")} {
		f := file(t, text)
		f.Text("event")
		f.Refuse([]string{"event", "things", "thing", "tables"}, nil, nil)
		for _, it := range f.Items("things") {
			it.Decode(&entry1{})
		}
		f.Item("thing")
		f.Item("thing") // asked twice, said once
		if got := fmt.Sprint(f.Err()); got != want {
			t.Errorf("%s:\ngot\n%s\nwant\n%s", name, got, want)
		}
	}
}

// A metric scene is answered in its own units.
func TestMetricRange(t *testing.T) {
	f := file(t, "units: cm\nthing: {name: a, height: 1, weight: 600kg}\n")
	it, _ := f.Item("thing")
	it.Decode(&entry1{})
	want := "a.yaml:2:26: height: 1 cm is out of range (did you mean 1m? It may be from 2.5 cm to 609.6 cm)\na.yaml:2:37: weight: 600kg is out of range (did you mean 600g? It may be from 0 g to 453.6 kg)"
	if got := fmt.Sprint(f.Err()); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestPlaces(t *testing.T) {
	f := file(t, "a: &x 5in\nwork:\n  works: [one, two, three]\n  on: {p: 1, q: *x}\nlist:\n  - {name: é, title: t}\n")
	work, _ := f.Item("work")
	for field, want := range map[string]string{
		"": "2:1", "works": "3:10", "works.2": "3:21", "works.3": "3:10", "works.x": "3:10", "works.-1": "3:10", "nothing": "2:1", "on.p": "4:11", "on.z": "4:7", "on.q": "1:4",
	} {
		if got := work.At(field).String(); got != "a.yaml:"+want {
			t.Errorf("At(%q) is %s, want %s", field, got, want)
		}
	}
	item := f.Items("list")[0]
	if item.At("").String() != "a.yaml:6:5" || item.At("title").String() != "a.yaml:6:22" || item.File() != f {
		t.Errorf("at %s, title at %s", item.At(""), item.At("title"))
	}
	if !work.Has("on") || work.Has("off") {
		t.Error("Has is wrong")
	}
	work.Fault("works.1", "so", "number %d", 2)
	if got := f.Err().Error(); got != "a.yaml:3:16: number 2 (so)" {
		t.Error(got)
	}
}

func TestValues(t *testing.T) {
	f := file(t, "units: cm\nHanging Centre: 0150\nempty:\nlist: [1, {a: b}]\n")
	want := map[string]any{"hanging centre": "0150", "empty": nil, "list": []any{"1", map[string]any{"a": "b"}}}
	if got := f.Whole().Values(); !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	var e struct {
		Centre unit.Length `yaml:"hanging centre"`
	}
	if f := file(t, "units: cm\nhanging centre: 150\n"); !f.Whole().Decode(&e) || e.Centre != 1.5 {
		t.Errorf("the whole file: %v, %v", e, f.Err())
	}
	if got := f.Whole().At("nothing").String(); got != "a.yaml:1:1" {
		t.Errorf("the whole file is at %s", got)
	}
}

func TestFields(t *testing.T) {
	got := Fields(entry1{Height: 58 * unit.Inch, Sides: []string{"left", "right"}, Cloth: hue{1, 2, 3}, Count: 2, Indoor: true, Turn: unit.Degrees(45), Part: 0.5, Takes: 90, Price: 4800, Weight: unit.Pound})
	var b strings.Builder
	for _, f := range got {
		fmt.Fprintf(&b, "%s|%s|%s|%s|%v|%d\n", f.Key, f.Type, f.Default, f.Range, f.Must, len(f.Of))
	}
	want := `name|text|||true|0
size|a size such as 24in x 36in||from 1/8in to 20ft|false|0
box|a size such as 24in x 36in x 2in|||false|0
height|a length such as 24in|58 in (147.3 cm)|from 1in to 20ft|false|0
depth|a length such as 24in|||false|0
weight|a weight such as 6lb|1 lb (454 g)||false|0
price|an amount of money such as 480|48||false|0
turn|an angle such as 30deg|45°|from -180 to 180|false|0
part|a share such as 90%|50%||false|0
takes|a time such as 15min|1 h 30 min||false|0
hang on|one of mesh, chains, rail or none|||false|0
sides|a list of left or right|left, right||false|0
cloth|a hue|#010203||false|0
count|a whole number|2|from 1 to 6|false|0
fullness|a number||from 1 to 3|false|0
indoor|yes or no|yes||false|0
shelf|an entry with keys of its own|||false|2
shelves|a list of entries|||false|2
from front|a length such as 24in|||false|0
from back|a length such as 24in|||false|0
`
	if b.String() != want {
		t.Errorf("got\n%s\nwant\n%s", b.String(), want)
	}
	if got[0].Doc != "what others call it" || strings.Join(got[10].OneOf, " ") != "mesh chains rail none" {
		t.Errorf("%+v %+v", got[0], got[10])
	}
}

func TestInside(t *testing.T) {
	for typed, want := range map[string]string{
		"heron.jpg": "heron.jpg", "./art/heron.jpg": "art/heron.jpg", `art\heron.jpg`: "art/heron.jpg", "art/../heron.jpg": "heron.jpg", " heron 2.jpg ": "heron 2.jpg", "..heron.jpg": "..heron.jpg", "Häher.jpg": "Häher.jpg",
	} {
		if got, err := Inside(typed); err != nil || got != want || !fs.ValidPath(got) {
			t.Errorf("%q: %q, %v", typed, got, err)
		}
	}
	for _, typed := range []string{"", " ", ".", "..", "../heron.jpg", "art/../../heron.jpg", "/etc/hosts", `C:\art\heron.jpg`, `\\server\art`, "https://example.org/a.jpg", "a\x00b", "a\nb", "\xff.jpg"} {
		if got, err := Inside(typed); err == nil {
			t.Errorf("%q is taken as %q", typed, got)
		}
	}
}

func TestReadAs(t *testing.T) {
	fsys := fstest.MapFS{"demo.yaml": {Data: []byte("units: 3\n")}, "sub/x.yaml": {Data: []byte("a: 1\n")}, "empty": {Mode: fs.ModeDir}}
	f, err := ReadAs(fsys, "demo.yaml", "my/demo.yaml")
	if err != nil || f.Err() == nil || f.Err().Error() != `my/demo.yaml:1:8: units: "3" is not a system of units (write in or cm)` || string(f.Source()) != "units: 3\n" {
		t.Errorf("%v %v", err, f.Err())
	}
	for name, want := range map[string]string{
		"dmeo.yaml":  "dmeo.yaml: there is no such file (did you mean demo.yaml?)",
		"other.yaml": "other.yaml: there is no such file (that folder has demo.yaml)",
		"sub":        "sub: is a folder, not a scene file (that folder has x.yaml)",
		"empty":      "empty: is a folder, not a scene file",
		"gone/a":     "gone/a: there is no such file",
	} {
		_, err := Read(fsys, name)
		var list fault.List
		if err == nil || err.Error() != want || !errors.As(err, &list) {
			t.Errorf("%s:\ngot  %v\nwant %s", name, err, want)
		}
		if errors.Is(err, fs.ErrNotExist) != strings.Contains(want, "no such") {
			t.Errorf("%s: is it fs.ErrNotExist?", name)
		}
	}
	if _, err := Read(os.DirFS(t.TempDir()), "../a.yaml"); fmt.Sprint(err) != "../a.yaml: cannot be opened: invalid argument" {
		t.Error(err)
	}
}

// A range in a tag that cannot be read is found by describing the fields, so a test of all kinds finds it.
func TestBadRangeTag(t *testing.T) {
	defer func() {
		if r := recover(); r != `scene: range "tall" of a unit.Length: "tall" is not a length: write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m` {
			t.Errorf("got %v", r)
		}
	}()
	Fields(struct {
		H []unit.Length `yaml:"h" range:"1in..tall"`
	}{})
}

// A list of lengths is bounded one by one.
func TestListOfLengths(t *testing.T) {
	var e struct {
		H []unit.Length `yaml:"h" range:"1in..9in"`
	}
	f := file(t, "units: in\nx: {h: [1, 10, tall, 9]}\n")
	it, _ := f.Item("x")
	it.Decode(&e)
	want := `a.yaml:2:12: h: 10 in is out of range (did you mean 10cm? It may be from 1in to 9in)
a.yaml:2:16: h: "tall" is not a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)`
	if got := fmt.Sprint(f.Err()); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// pace is a number with a text form of its own.
type pace float64

func (p *pace) UnmarshalText(b []byte) error {
	n, err := fmt.Sscanf(string(b), "%f paces", (*float64)(p))
	if err != nil || n != 1 {
		return fmt.Errorf("%q is no pace; write 3 paces", b)
	}
	return nil
}

func TestNumberWithTextForm(t *testing.T) {
	var e struct {
		Way  pace `yaml:"way" range:"1 paces..9 paces"`
		Free pace `yaml:"free"`
	}
	f := file(t, "x: {way: 3 paces, free: -3000000 paces}\ny: {way: 30 paces}\nz: {way: far}\n")
	for _, key := range []string{"x", "y", "z"} {
		it, _ := f.Item(key)
		if it.Decode(&e) != (key == "x") || e.Free != -3000000 {
			t.Errorf("%s: %+v, %v", key, e, f.Err())
		}
	}
	if got := Fields(e)[0].Range; got != "from 1 paces to 9 paces" {
		t.Error(got)
	}
	want := "a.yaml:2:10: way: 30 paces is out of range (from 1 paces to 9 paces)\na.yaml:3:10: way: \"far\" is no pace (write 3 paces)"
	if got := fmt.Sprint(f.Err()); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
