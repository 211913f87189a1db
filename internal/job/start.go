package job

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"boothmock/internal/art"
	"boothmock/internal/fault"
	"boothmock/internal/kinds"
	"boothmock/internal/start"
)

// Start drafts a first scene from what is in the folder and writes it there, with its schema; or, where there is no list
// of works, a list to fill in. A file that is there already is never touched. written are the names of the new files.
func Start(dir string, o start.Options) (d *start.Draft, written []string, err error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, nil, fault.List{{At: fault.Place{File: dir}, Text: "there is no such folder", Hint: "check the path"}}
	}
	defer root.Close()
	if _, err := root.Lstat(start.SceneFile); err == nil {
		return nil, nil, fault.List{{At: fault.Place{File: filepath.Join(dir, start.SceneFile)}, Text: "there is a scene here already, and it stays as it is",
			Hint: "boothmock build " + filepath.Join(dir, start.SceneFile) + " builds it"}}
	}
	if d, err = start.Make(art.NewFolder(root), o); err != nil {
		return nil, nil, err
	}
	if d.List != "" {
		return d, []string{start.SheetFile}, writeNew(root, start.SheetFile, []byte(d.List))
	}
	var schema bytes.Buffer
	if err := WriteJSON(&schema, kinds.Schema()); err != nil {
		return nil, nil, err
	}
	if err := writeNew(root, kinds.SchemaFile, schema.Bytes()); err == nil {
		written = append(written, kinds.SchemaFile)
	} else if !errors.Is(err, fs.ErrExist) {
		return nil, nil, err
	}
	return d, append(written, start.SceneFile), writeNew(root, start.SceneFile, []byte(d.Scene))
}

// writeNew writes a file that must not be there yet.
func writeNew(root *os.Root, name string, text []byte) error {
	f, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return fmt.Errorf("%s was not written: %w", name, err)
	}
	if _, err := f.Write(text); err != nil {
		f.Close()
		root.Remove(name)
		return fmt.Errorf("%s was not written: %w", name, err)
	}
	return f.Close()
}
