package art

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"math"
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

// Carried is a folder inside the program, with the means of its photographs, which a test has read through.
type Carried struct {
	fs.FS
	Means map[string][3]float64 // by file name
}

func (c Carried) known(name string) *Mean {
	m, ok := c.Means[name]
	if !ok {
		return nil
	}
	return (*Mean)(&m)
}

// version changes when the way in which photographs are made ready does: what was kept before is then made anew.
const version = 3

// kept is the name on the shelf of what a wish makes of a file: it depends on nothing else.
func (w Wish) kept(file []byte) string {
	h := sha256.New()
	fmt.Fprintf(h, "%d %d %v %v %d\n", version, w.side(), w.corners(), w.Shape, len(file))
	h.Write(file)
	return path.Join(Shelf, hex.EncodeToString(h.Sum(nil)[:16]))
}

// note is what is kept of a photograph that was read through: the picture that was made of it, none where it will do itself, and that
// picture's mean. In a file a SHA-256 of the rest comes first, then the mean, little-endian.
type note struct {
	mean    Mean
	picture []byte
}

func (n note) bytes() []byte {
	var rest []byte
	for _, v := range n.mean {
		rest = binary.LittleEndian.AppendUint64(rest, math.Float64bits(v))
	}
	rest = append(rest, n.picture...)
	sum := sha256.Sum256(rest)
	return append(sum[:], rest...)
}

// find is a note from the shelf. One that was cut short or altered there does not count.
func (f Folder) find(name string) (n note, ok bool) {
	b, err := disk.Read(f, name, MaxBytes)
	if err != nil || len(b) < sha256.Size+8*len(n.mean) {
		return n, false
	}
	sum, rest := b[:sha256.Size], b[sha256.Size:]
	if is := sha256.Sum256(rest); !bytes.Equal(sum, is[:]) {
		return n, false
	}
	for k := range n.mean {
		n.mean[k] = math.Float64frombits(binary.LittleEndian.Uint64(rest[8*k:]))
	}
	n.picture = rest[8*len(n.mean):]
	if info, err := f.Root.Stat(name); err == nil && time.Since(info.ModTime()) > 24*time.Hour {
		now := time.Now()
		f.Root.Chtimes(name, now, now) // still in use
	}
	return n, true
}

// onShelf are the names of pictures on the shelf, and of those that earlier versions left unfinished there.
var onShelf = regexp.MustCompile(`^[0-9a-f]{32}(\.part-[0-9]+)?$`)

// keep puts a note on the shelf, whole or not at all, and clears away what has not been used for two months. A shelf
// that is a link is left alone: it may lead to the photographs.
func (f Folder) keep(name string, n note) {
	if info, err := f.Root.Lstat(Shelf); err == nil && !info.IsDir() {
		return
	}
	files, err := disk.Inside(f.Root, ".")
	if err != nil {
		return
	}
	defer files.Close()
	if files.Rewrite(name, func(w io.Writer) error {
		_, err := w.Write(n.bytes())
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
