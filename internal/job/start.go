package job

import (
	"bytes"
	"cmp"
	"io"
	"os"
	"path/filepath"
	"strings"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/scene"
	"boothmock/internal/plan/start"
	"boothmock/internal/props/art"
)

// Start drafts a first scene from what is in the folder and writes it there, with its schema; or, where there is no list
// of works, a list to fill in. A file that is there already is never touched. written are the names of the new files.
func Start(dir string, o start.Options) (d *start.Draft, written []string, err error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, nil, noFolder(dir, err)
	}
	defer root.Close()
	if _, err := root.Lstat(start.SceneFile); err == nil {
		return nil, nil, fault.List{{At: fault.Place{File: filepath.Join(dir, start.SceneFile)}, Text: "there is a scene here already, and it stays as it is",
			Hint: "boothmock build " + filepath.Join(dir, start.SceneFile) + " builds it, with the list as it is now; boothmock start " + dir + " --again adds works that are new in the list, and photographs"}}
	}
	if d, err = start.Make(art.NewFolder(root), o); err != nil {
		return nil, nil, err
	}
	files, err := disk.Inside(root, dir)
	if err != nil {
		return nil, nil, err
	}
	defer files.Close()
	add := func(name string, text []byte) {
		if err == nil {
			written = append(written, name)
			err = files.WriteNew(name, func(w io.Writer) error { _, err := w.Write(text); return err })
		}
	}
	if d.List != "" {
		add(start.SheetFile, []byte(d.List))
	} else {
		if _, gone := root.Lstat(kinds.SchemaFile); gone != nil {
			var schema bytes.Buffer
			if err := WriteJSON(&schema, kinds.Schema()); err != nil {
				return nil, nil, err
			}
			add(kinds.SchemaFile, schema.Bytes())
		}
		add(start.SceneFile, []byte(d.Scene))
	}
	if err == nil {
		err = files.Keep()
	}
	if err != nil {
		return nil, nil, err
	}
	return d, written, nil
}

// StartAgain puts what is new in the list and the folder into the scene that is there, and changes nothing else of it: works that it does
// not have, which wait, and photographs of works that name none.
func StartAgain(dir string, o start.Options) (*start.Draft, start.Fresh, error) {
	w := Workshop{Path: filepath.Join(dir, start.SceneFile)}
	f, err := w.Read()
	if err != nil {
		return nil, start.Fresh{}, err
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, start.Fresh{}, noFolder(dir, err)
	}
	defer root.Close()
	if list, ok := f.Text("sheet"); ok && o.Sheet == "" {
		o.Sheet, _, _ = strings.Cut(list, "/")
		if _, err := root.Lstat(list); err == nil { // not a tab of it
			o.Sheet = list
		}
	}
	o.Units = cmp.Or(o.Units, f.Units.String())
	d, err := start.Make(art.NewFolder(root), o)
	if err != nil {
		return nil, start.Fresh{}, err
	}
	var known []start.Known
	for _, it := range f.Items("works") {
		v := it.Values()
		name, _ := v["name"].(string)
		title, _ := v["title"].(string)
		image, _ := v["image"].(string)
		known = append(known, start.Known{Name: name, Title: title, Pictured: image != ""})
	}
	fresh, was := d.Beside(known, f.Units), f.Source()
	for n := range known {
		if photo := fresh.Photos[n]; photo != "" && err == nil {
			f, err = f.Set(scene.Path{{Key: "works"}, {Nth: n}, {Key: "image"}}, photo)
		}
	}
	for k, entry := range fresh.Entries {
		switch at := (scene.Path{{Key: "works"}, {Nth: len(known) + k}}); {
		case err != nil:
		case len(known)+k == 0:
			f, err = f.Set(at[:1], []any{scene.Verbatim(entry)})
		default:
			f, err = f.Insert(at, scene.Verbatim(entry))
		}
	}
	if err == nil && !bytes.Equal(f.Source(), was) {
		err = rewrite(w.Path, was, f.Source())
	}
	return d, fresh, err
}
