package art

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"regexp"
	"time"

	"boothmock/internal/basis/disk"
)

// Shelf is the name of the folder, beside the scene, in which is kept what was made of photographs. Deleting it is always safe.
const Shelf = ".boothmock"

// Folder is a scene's folder that may keep what was made of photographs, so that the next run need not decode and shrink them again.
// A folder that cannot be written to keeps nothing, and nobody is told.
type Folder struct{ disk.Folder }

// NewFolder is the folder that root stands for.
func NewFolder(root *os.Root) Folder { return Folder{disk.Folder{Root: root}} }

// Carried is a folder inside the program. A test has read its pictures through, so each is decoded when somebody looks at it.
type Carried struct{ fs.FS }

// version changes when the way in which photographs are made ready does: what was kept before is then made anew.
const version = 2

// kept is the name on the shelf of what a wish makes of a file: it depends on nothing else.
func (w Wish) kept(file []byte) string {
	h := sha256.New()
	fmt.Fprintf(h, "%d %d %v %v %d\n", version, w.side(), w.corners(), w.Shape, len(file))
	h.Write(file)
	return path.Join(Shelf, hex.EncodeToString(h.Sum(nil)[:16]))
}

// find is a picture from the shelf: an empty one where the photograph was read through and need not be changed. What was cut short or
// altered there does not count.
func (f Folder) find(name string) (picture []byte, ok bool) {
	b, err := disk.Read(f, name, MaxBytes)
	if err != nil || len(b) < sha256.Size {
		return nil, false
	}
	sum := sha256.Sum256(b[sha256.Size:])
	if !bytes.Equal(b[:sha256.Size], sum[:]) {
		return nil, false
	}
	if info, err := f.Root.Stat(name); err == nil && time.Since(info.ModTime()) > 24*time.Hour {
		now := time.Now()
		f.Root.Chtimes(name, now, now) // still in use
	}
	return b[sha256.Size:], true
}

// onShelf are the names of pictures on the shelf, and of those that earlier versions left unfinished there.
var onShelf = regexp.MustCompile(`^[0-9a-f]{32}(\.part-[0-9]+)?$`)

// keep puts a picture on the shelf, whole or not at all, and clears away what has not been used for two months. A shelf
// that is a link is left alone: it may lead to the photographs.
func (f Folder) keep(name string, picture []byte) {
	if info, err := f.Root.Lstat(Shelf); err == nil && !info.IsDir() {
		return
	}
	files, err := disk.Inside(f.Root, ".")
	if err != nil {
		return
	}
	defer files.Close()
	sum := sha256.Sum256(picture)
	if files.Rewrite(name, func(w io.Writer) error {
		w.Write(sum[:]) // the writer is buffered and remembers
		_, err := w.Write(picture)
		return err
	}) != nil || files.Keep() != nil {
		return
	}
	entries, _ := fs.ReadDir(f, Shelf)
	for _, e := range entries {
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() && onShelf.MatchString(e.Name()) && time.Since(info.ModTime()) > 60*24*time.Hour {
			f.Root.Remove(path.Join(Shelf, e.Name()))
		}
	}
}
