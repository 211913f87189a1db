package art

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"os"
	"path"
	"time"
)

// Shelf is the name of the folder, beside the scene, in which shrunk photographs are kept. Deleting it is always safe.
const Shelf = ".boothmock"

// Folder is a scene's folder that may keep shrunk photographs, so that the next build need not read the large ones again. A
// folder that cannot be written to keeps nothing, and nobody is told.
type Folder struct {
	fs.FS
	root *os.Root
}

// NewFolder is the folder that root stands for.
func NewFolder(root *os.Root) Folder { return Folder{root.FS(), root} }

// version changes when the way in which photographs are made ready does: what was kept before is then made anew.
const version = 1

// kept is the name on the shelf of what a wish makes of a file: it depends on nothing else.
func (w Wish) kept(file []byte) string {
	h := sha256.New()
	fmt.Fprintf(h, "%d %d %v %v %d\n", version, w.side(), w.corners(), w.Shape, len(file))
	h.Write(file)
	return path.Join(Shelf, hex.EncodeToString(h.Sum(nil)[:16]))
}

// find is a picture from the shelf, or nil. What was cut short or altered there does not count.
func (f Folder) find(name string) []byte {
	if f.root == nil {
		return nil
	}
	b, err := fs.ReadFile(f.FS, name)
	if err != nil || len(b) <= sha256.Size {
		return nil
	}
	sum := sha256.Sum256(b[sha256.Size:])
	if !bytes.Equal(b[:sha256.Size], sum[:]) {
		return nil
	}
	if info, err := f.root.Stat(name); err == nil && time.Since(info.ModTime()) > 24*time.Hour {
		now := time.Now()
		f.root.Chtimes(name, now, now) // still in use
	}
	return b[sha256.Size:]
}

// keep puts a picture on the shelf, whole or not at all, and clears away what has not been used for two months.
func (f Folder) keep(name string, picture []byte) {
	if f.root == nil || f.root.MkdirAll(Shelf, 0o755) != nil {
		return
	}
	sum := sha256.Sum256(picture)
	part := fmt.Sprintf("%s.part-%d", name, os.Getpid())
	if f.root.WriteFile(part, append(sum[:], picture...), 0o644) != nil || f.root.Rename(part, name) != nil {
		f.root.Remove(part)
		return
	}
	entries, _ := fs.ReadDir(f.FS, Shelf)
	for _, e := range entries {
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()) > 60*24*time.Hour {
			f.root.Remove(path.Join(Shelf, e.Name()))
		}
	}
}
