// Package job runs the whole line: one scene in, a folder of outputs out.
package job

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/art"
	"boothmock/scenes"
)

// Settings are what a run is given besides the scene.
type Settings struct {
	Environ []string // as os.Environ gives it
	Rules   []string // "hanging centre=60in", from the command line
	Artist  string   // path of the artist's own rules; a file that is not there is no fault
}

// Load reads the scene and builds its booth. An empty path is the built-in demo. The error is a fault.List that holds
// everything that is wrong with what people wrote.
func Load(path string, set Settings) (*booth.Plan, error) {
	w := Workshop{Path: path, Settings: set}
	f, err := w.Read()
	if err != nil {
		return nil, err
	}
	return w.build(f, nil)
}

// Workshop builds one version of a scene after the other: of what the versions have in common (photographs, lettering), each
// is made ready once.
type Workshop struct {
	Path     string // of the scene's file, in whose folder its photographs are; empty: the built-in demo
	Settings Settings

	kept answer.Kept
}

// Read is the scene as it stands in its file. The error is a fault.List.
func (w *Workshop) Read() (*scene.File, error) {
	fsys, name, shut, err := open(w.Path)
	if err != nil {
		return nil, err
	}
	defer shut()
	return scene.ReadAs(fsys, name, w.name())
}

// Parse is a scene whose text is in no file yet. The error is a fault.List.
func (w *Workshop) Parse(text []byte) (*scene.File, error) { return scene.Parse(w.name(), text) }

// name is what faults call the file: as the person did.
func (w *Workshop) name() string { return cmp.Or(w.Path, scenes.Demo) }

// Build is the booth of a version of the scene, from Read, Parse or an edit of one of these; each is built only once, as
// what is wrong is noted in it. The error is a fault.List that holds everything that is wrong with what people wrote.
func (w *Workshop) Build(f *scene.File) (*booth.Plan, error) {
	w.kept.Version()
	return w.build(f, &w.kept)
}

func (w *Workshop) build(f *scene.File, kept *answer.Kept) (*booth.Plan, error) {
	var inputs inputs
	fsys, name, shut, err := inputs.open(w.Path)
	if err != nil {
		return nil, err
	}
	defer shut()
	book, wrong := ruleBook(f, fsys, w.Settings)
	plan, err := kinds.Again(f, book, fsys, kept)
	if err == nil {
		err = order.Check(plan)
	}
	if plan != nil && w.Path != "" {
		inputs.names.Store(name, nil)
		plan.Inputs = append(inputs.paths(filepath.Dir(w.Path)), TimesFile(plan), w.Settings.Artist)
	}
	return plan, both(wrong, err)
}

// inputs are the files that a scene and what it names were read from.
type inputs struct{ names sync.Map }

// open is like the function, and notes what is read.
func (i *inputs) open(path string) (fsys fs.FS, name string, shut func(), err error) {
	fsys, name, shut, err = open(path)
	if dir, ok := fsys.(art.Folder); ok {
		dir.Note = func(name string) { i.names.Store(name, nil) }
		fsys = dir
	}
	return fsys, name, shut, err
}

// paths are the files' paths, whose names are in a folder.
func (i *inputs) paths(dir string) (out []string) {
	for name := range i.names.Range {
		out = append(out, filepath.Join(dir, filepath.FromSlash(name.(string))))
	}
	slices.Sort(out)
	return out
}

// both is what is wrong with the rules and with the booth, in one list.
func both(a, b error) error {
	var x, y fault.List
	if errors.As(a, &x) && errors.As(b, &y) {
		return append(slices.Clone(x), y...).Err()
	}
	return cmp.Or(a, b)
}

// open gives the scene's own folder and the scene's name in it. Nothing outside that folder can be read through it,
// links that lead out of it included.
func open(path string) (fsys fs.FS, name string, shut func(), err error) {
	if path == "" {
		return art.Carried{FS: scenes.FS, Means: scenes.Means}, scenes.Demo, func() {}, nil
	}
	root, err := os.OpenRoot(filepath.Dir(path))
	if err != nil {
		return nil, "", nil, noFolder(path, err)
	}
	return art.NewFolder(root), filepath.Base(path), func() { root.Close() }, nil
}

// noFolder is the fault of a path whose folder cannot be opened.
func noFolder(path string, err error) error {
	f := fault.Fault{At: fault.Place{File: path}, Text: "the folder cannot be opened: " + disk.Why(err).Error(), Hint: "check the path"}
	if errors.Is(err, fs.ErrNotExist) {
		f.Text = "there is no such folder"
	}
	return fault.List{f}
}

// Source is the text of a file that a fault is about, to show its line; nil if it cannot be read.
func Source(path string) []byte {
	fsys, name, shut, err := open(path)
	if err != nil {
		return nil
	}
	defer shut()
	text, _ := disk.Read(fsys, name, 20<<20)
	return text
}

// ruleBook gathers the rules from every layer.
func ruleBook(f *scene.File, fsys fs.FS, set Settings) (rules.Book, error) {
	var layers []rules.Layer
	if set.Artist != "" {
		own, err := scene.ReadAs(os.DirFS(filepath.Dir(set.Artist)), filepath.Base(set.Artist), set.Artist)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return rules.Book{}, err
		default:
			layers = append(layers, layer("your settings", own.Whole()))
		}
	}
	if sheet, ok := f.Text("rule sheet"); ok {
		clean, err := scene.Inside(sheet)
		if err != nil {
			return rules.Book{}, fault.List{{At: f.Whole().At("rule sheet"), Text: err.Error(), Hint: "keep the fair's rule sheet beside the scene"}}
		}
		fair, err := scene.Read(fsys, clean)
		if err != nil {
			return rules.Book{}, err
		}
		layers = append(layers, layer("the fair's rule sheet", fair.Whole()))
	}
	if own, ok := f.Item("rules"); ok {
		layers = append(layers, layer("this scene", own))
	}
	return rules.Merge(set.Environ, set.Rules, layers...)
}

func layer(name string, it scene.Item) rules.Layer {
	f := it.File()
	return rules.Layer{Name: name, Units: f.Units, UnitsStated: f.UnitsStated, Values: it.Values(), At: it.At}
}
