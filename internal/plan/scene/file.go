// Package scene reads a scene file as somebody typed it: keys, values and the place of each. It knows no kind of thing;
// what an entry may say is stated by a struct with tags, see Item.Decode. Every fault of a file is gathered, each with
// its own line and column, so that all of them can be shown together.
package scene

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

const (
	maxBytes = 1 << 20 // a scene is a few pages
	apart    = "\x1f"  // between the keys of a path: a character that no scene may contain
	top      = "scene" // the key of values for the whole file
)

// File is a scene file that could be read. What it says may still be wrong: see Err.
type File struct {
	Name        string
	Units       unit.System // of bare numbers
	UnitsStated bool        // false: a bare number is a fault

	source []byte
	root   *yaml.Node // the mapping at the top
	values decoder
	under  func(key string) string
	faults fault.List
	more   int // faults beyond maxFaults
}

// maxFaults is how many faults of one file are kept: enough for anybody to mend at a time.
const maxFaults = 200

// Read reads the scene file name of fsys. The error is a fault.List: no such file (it is fs.ErrNotExist too), not YAML,
// a key that stands twice, …
func Read(fsys fs.FS, name string) (*File, error) { return ReadAs(fsys, name, name) }

// ReadAs is Read for a file that people know by another name than fsys does: faults use the name shown.
func ReadAs(fsys fs.FS, name, shown string) (*File, error) {
	f := &File{Name: shown}
	source, missing := f.load(fsys, name)
	switch {
	case missing:
		return nil, notThere{f.faults}
	case source == nil:
		return nil, f.Err()
	}
	return Parse(shown, source)
}

// Parse is Read for the text of a file.
func Parse(shown string, source []byte) (*File, error) {
	f := &File{Name: shown, source: source}
	if f.root = f.parse(); f.root == nil {
		return nil, f.Err()
	}
	var err error
	if f.values, err = readValues(f.root, f.source); err != nil {
		f.add(f.whole(), "", "%s", err)
		return nil, f.Err()
	}
	if s, ok := f.Text("units"); ok {
		sys, err := unit.ParseSystem(s)
		if err != nil {
			f.refuse(f.place(f.find("units")), "units", err)
		}
		f.Units, f.UnitsStated = sys, true
	}
	return f, nil
}

// notThere is the fault of a file that does not exist.
type notThere struct{ fault.List }

func (n notThere) Unwrap() []error { return []error{n.List, fs.ErrNotExist} }

// load is the file's bytes, or nil after a fault.
func (f *File) load(fsys fs.FS, name string) (source []byte, missing bool) {
	b, err := disk.Read(fsys, name, maxBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		f.add(f.whole(), neighbours(fsys, path.Dir(name), path.Base(name)), "there is no such file")
		return nil, true
	case errors.Is(err, disk.ErrFolder):
		f.add(f.whole(), neighbours(fsys, name, ""), "is a folder, not a scene file")
	case errors.Is(err, disk.ErrLarge):
		f.add(f.whole(), "a scene is a few pages of text", "is larger than %d kB", maxBytes>>10)
	case err != nil:
		f.add(f.whole(), "", "cannot be opened: %s", disk.Why(err))
	}
	return b, false
}

// neighbours is a hint that names a scene file in a folder, the one most like name first.
func neighbours(fsys fs.FS, dir, name string) string {
	entries, _ := fs.ReadDir(fsys, dir)
	var names []string
	for _, e := range entries {
		if ext := path.Ext(e.Name()); !e.IsDir() && (ext == ".yaml" || ext == ".yml") {
			names = append(names, e.Name())
		}
	}
	if near, ok := fault.Nearest(name, names); ok {
		return fmt.Sprintf("did you mean %s?", near)
	}
	if len(names) > 0 {
		return "that folder has " + unit.List(names[:min(len(names), 4)], "and")
	}
	return ""
}

// Source is the file's text, for showing the lines that faults are on.
func (f *File) Source() []byte { return f.source }

// Lines is the text of a top-level key and all that it holds, as it stands in the file.
func (f *File) Lines(key string) string {
	k, _ := entry(f.root, key)
	if k == nil {
		return ""
	}
	from, to := offset(f.source, k.Line, 1), len(f.source)
	for i := 0; i+1 < len(f.root.Content); i += 2 {
		if n := f.root.Content[i]; n.Line > k.Line {
			to = min(to, offset(f.source, n.Line, 1))
		}
	}
	lines := strings.Split(strings.TrimRight(string(f.source[from:max(from, to)]), "\r\n"), "\n")
	for len(lines) > 1 {
		if last := strings.TrimSpace(lines[len(lines)-1]); last != "" && !strings.HasPrefix(last, "#") {
			break
		}
		lines = lines[:len(lines)-1] // it belongs to what comes after
	}
	return strings.Join(lines, "\n")
}

// Refuse adds a fault for every top-level key that is not among known; "units" always is. instead says what could be written
// for such a key, and gives nothing where that cannot be said; under says under which top-level key another key goes, and is asked
// of those that are not known wherever they stand. Both may be nil.
func (f *File) Refuse(known []string, instead, under func(key string) string) {
	f.under = under
	f.unknown(f.root, known, instead)
}

// Text is the plain value of a top-level key. ok is false if the key is not there; a list or a mapping is a fault.
func (f *File) Text(key string) (text string, ok bool) {
	n := f.find(key)
	if n == nil {
		return "", false
	}
	v := resolve(n)
	if v.Kind != yaml.ScalarNode || isNull(v) {
		f.refuse(f.place(n), key, mismatch("text", value(v)))
		return "", false
	}
	if utf8.RuneCountInString(v.Value) > maxLine {
		f.add(f.place(n), "say it shorter", "%s: has more than %d characters", key, maxLine)
		return "", false
	}
	return typedText(v), true
}

// Yes is whether a top-level key says yes; what is neither yes nor no is a fault.
func (f *File) Yes(key string) bool {
	text, ok := f.Text(key)
	if !ok {
		return false
	}
	yes, err := parseBool(text)
	if err != nil {
		f.refuse(f.place(f.find(key)), key, err)
	}
	return yes == true
}

// Whole is the whole file, but for its units, as one item: for a file that holds nothing but settings, and for what a scene
// does not speak of. Its place is where the file's first key stands.
func (f *File) Whole() Item {
	at := f.whole()
	if f.root != nil && len(f.root.Content) > 0 {
		at = f.place(f.root.Content[0])
	}
	return Item{file: f, node: f.root, at: at, path: top}
}

// Item is the mapping under a top-level key. ok is false if the key is not there, or holds something else, which is a
// fault.
func (f *File) Item(key string) (item Item, ok bool) {
	n := f.find(key)
	if n == nil {
		return Item{}, false
	}
	return f.item(key, n, f.keyPlace(key))
}

// Entry is what a path of a key, or of a key and a number in its list, leads to.
func (f *File) Entry(path Path) Item { return f.Items(path[0].Key)[path[len(path)-1].Nth] }

// Items are the mappings in the list under a top-level key; a single mapping is a list of one. Anything else is a fault.
func (f *File) Items(key string) []Item {
	n := f.find(key)
	if n == nil {
		return nil
	}
	if list := resolve(n); list.Kind == yaml.SequenceNode {
		var items []Item
		for i, c := range list.Content {
			if it, ok := f.item(fmt.Sprintf("%s.%d", key, i), c, f.place(c)); ok {
				items = append(items, it)
			}
		}
		return items
	}
	if it, ok := f.item(key, n, f.keyPlace(key)); ok {
		return []Item{it}
	}
	return nil
}

func (f *File) item(key string, n *yaml.Node, at fault.Place) (Item, bool) {
	v := resolve(n)
	if v.Kind != yaml.MappingNode {
		name := strings.SplitN(key, ".", 2)[0]
		e := mismatch("an entry with keys of its own", value(v))
		if v.Kind == yaml.ScalarNode && !isNull(v) {
			switch yes, is := parseBool(v.Value); {
			case is == nil && yes == true:
				e.Hint = "write " + name + ": {} for what is usual"
			case is == nil:
				e.Hint = "leave " + name + ": out"
			default:
				e.Hint = "boothmock explain " + name + " says what its keys are"
			}
		}
		f.refuse(f.place(n), name, e)
		return Item{}, false
	}
	return Item{file: f, node: v, at: at, path: top + apart + strings.ReplaceAll(key, ".", apart)}, true
}

// Faults is the list of everything that is wrong with the file, to add to.
func (f *File) Faults() *fault.List { return &f.faults }

// Err is all faults as one error, sorted by place, or nil.
func (f *File) Err() error {
	if f.more == 0 {
		return f.faults.Err()
	}
	more := fault.Fault{At: f.whole(), Text: fmt.Sprintf("%d faults more than are shown here", f.more), Hint: "mend these first"}
	return append(slices.Clip(f.faults), more).Err()
}

func (f *File) add(at fault.Place, hint, format string, args ...any) {
	if len(f.faults) >= maxFaults {
		f.more++
		return
	}
	f.faults.Add(at, hint, format, args...)
}

// count is how many faults there are.
func (f *File) count() int { return len(f.faults) + f.more }

// refuse adds the fault that a value is not understood. What stands behind the last "; " of an error that is no
// *unit.Error is the hint.
func (f *File) refuse(at fault.Place, key string, err error) {
	text, hint := spoken(err)
	if strings.HasSuffix(text, "needs a unit") {
		hint += ", or once units: in or units: cm at the top"
	}
	f.add(at, hint, "%s: %s", key, text)
}

// spoken is what an error says, and its hint.
func spoken(err error) (text, hint string) {
	text = err.Error()
	var e *unit.Error
	if errors.As(err, &e) {
		return e.Text, e.Hint
	}
	if i := strings.LastIndex(text, "; "); i >= 0 {
		return text[:i], text[i+2:]
	}
	return text, ""
}

func (f *File) whole() fault.Place { return fault.Place{File: f.Name} }

func (f *File) place(n *yaml.Node) fault.Place {
	n = resolve(n)
	return fault.Place{File: f.Name, Line: n.Line, Col: n.Column}
}

func (f *File) find(key string) *yaml.Node {
	_, v := entry(f.root, key)
	return v
}

func (f *File) keyPlace(key string) fault.Place {
	k, _ := entry(f.root, key)
	return f.place(k)
}
