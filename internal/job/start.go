package job

import (
	"bytes"
	"io"
	"os"
	"path/filepath"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
	"boothmock/internal/plan/kinds"
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
			Hint: "boothmock build " + filepath.Join(dir, start.SceneFile) + " builds it"}}
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
