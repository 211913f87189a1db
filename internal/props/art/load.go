package art

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"runtime"
	"strings"
	"sync"
	"time"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
)

// Limits of what is taken in. A 100-megapixel camera passes; a file that only claims to be huge does not.
const (
	MaxBytes  = 200_000_000 // of the file
	MaxPixels = 120_000_000 // width times height, read from the file's head before anything is decoded
	MaxSide   = 2048        // pixels of the longer side of an Image: a larger photograph is shrunk
	shared    = 150 << 20   // bytes that the photographs being read take together, about; one that needs more is read alone
	mostRoom  = 380 << 20   // bytes for one photograph, about: one that needs more is refused
	mostWasm  = 1200 << 20  // the same for a HEIC or AVIF
	quality   = 90          // of the JPEG that a photograph is written as when its pixels had to change
	spare     = 1.5         // a file with up to so many times the pixels that are wanted is kept as it is
)

// Wish is a picture that is wanted, and how.
type Wish struct {
	Name    string  // of the file
	Side    int     // pixels that its longer side should have, if the file has as many; 0: MaxSide
	Corners *Quad   // the work's corners in the photograph, which is to be straightened; nil: the photograph is the work
	Shape   float64 // width over height of the work; only with Corners
}

func (w Wish) side() int {
	if w.Side <= 0 {
		return MaxSide
	}
	return min(w.Side, MaxSide)
}

func (w Wish) corners() Quad {
	if w.Corners == nil {
		return Quad{}
	}
	return *w.Corners
}

// title is the name of the image: that of the file, and what was done to it.
func (w Wish) title() string {
	if w.Corners == nil {
		return w.Name
	}
	return fmt.Sprintf("%s, straightened from %v to %.4g", w.Name, *w.Corners, w.Shape)
}

// Load reads a picture: upright, as its EXIF orientation says, in sRGB, as its colour profile says, straightened if that is
// wished, and shrunk to the pixels that are wanted. Viewers of a .glb heed none of this; so a file that needs no change is
// kept byte for byte in Encoded, and any other is written again.
//
// If fsys is a Folder, what was made of a photograph is kept beside it and found there the next time.
//
// An error is a fault.Fault without a place: the caller knows where the scene speaks of the file.
func Load(fsys fs.FS, w Wish) (*Image, error) { return loadKept(fsys, w, nil, nil) }

// Of is the picture that is wished of a file that is read already, such as one within another. Nothing is kept of it.
func (w Wish) Of(file []byte) (*Image, error) { return w.decode(file, nil) }

// source is what a picture in memory is made from.
type source struct {
	file    [sha256.Size]byte
	side    int
	corners Quad
	shape   float64
}

type ready struct {
	*Image
	err error
}

// loadKept is Load where the same bytes, wished alike before, are ready already. A file that is used is not suggested for one
// that is missing. What is kept is of one folder.
func loadKept(fsys fs.FS, w Wish, used map[string]bool, kept *answer.Kept) (*Image, error) {
	var file []byte
	get := func() (err error) {
		if file == nil {
			file, err = read(fsys, w.Name, used)
		}
		return err
	}
	fresh := func() (*Image, error) { // what is said of it may name the file
		if err := get(); err != nil {
			return nil, err
		}
		return w.make(fsys, file)
	}
	if kept == nil {
		return fresh()
	}
	sum, err := w.sum(fsys, kept, func() ([sha256.Size]byte, error) { err := get(); return sha256.Sum256(file), err })
	if err != nil {
		return fresh()
	}
	r := answer.Of(kept, source{sum, w.side(), w.corners(), w.Shape}, func() (ready, int) {
		im, err := fresh()
		if err == nil && sha256.Sum256(file) != sum {
			err = errChanged
		}
		if err != nil {
			return ready{nil, err}, 1 << 10
		}
		return ready{im, nil}, im.Bytes()
	})
	if r.err != nil {
		return fresh()
	}
	im := *r.Image
	im.Name = w.title()
	return &im, nil
}

var errChanged = errors.New("it was changed while it was read")

// look is a file as it stands in its folder: while its size and its time are these, so are its bytes.
type look struct {
	name           string
	size, modified int64 // bytes; nanoseconds
}

// sum is that of the file's bytes. A file that was looked at before and has rested since need not be read for that. One that was written
// within the last seconds might be written again within the same tick of its disk's clock.
func (w Wish) sum(fsys fs.FS, kept *answer.Kept, read func() ([sha256.Size]byte, error)) ([sha256.Size]byte, error) {
	const tick = 3 * time.Second // a FAT disk's is two
	info, err := fs.Stat(fsys, w.Name)
	if err != nil || !info.Mode().IsRegular() || time.Since(info.ModTime()) < tick {
		return read()
	}
	type known struct {
		sum [sha256.Size]byte
		err error
	}
	k := answer.Of(kept, look{w.Name, info.Size(), info.ModTime().UnixNano()}, func() (known, int) {
		sum, err := read()
		return known{sum, err}, 200
	})
	if k.err != nil {
		return read()
	}
	return k.sum, nil
}

// make is the picture that is wished of a file.
func (w Wish) make(fsys fs.FS, file []byte) (*Image, error) {
	if carried, ok := fsys.(Carried); ok {
		return w.decode(file, carried.known(w.Name))
	}
	shelf, ok := fsys.(Folder)
	if !ok {
		return w.decode(file, nil)
	}
	name := w.kept(file)
	var before *Mean
	if kept, ok := shelf.find(name); ok {
		before = &kept.mean
		if im, err := w.small(kept.picture, before); err == nil {
			return im, nil
		}
	}
	im, err := w.decode(file, before)
	if err != nil || before != nil {
		return im, err
	}
	kept := note{mean: im.Mean()}
	if made := im.Encoded(); !bytes.Equal(made, file) {
		kept.picture = made
	}
	shelf.keep(name, kept)
	return im, nil
}

// LoadAll loads pictures at once, as many as there is room for, each file that several wish alike one time, at the largest
// of the sizes. Image i or error i is that of wish i. What was kept of files with the same bytes is taken over: their Content is
// the same.
func LoadAll(fsys fs.FS, wishes []Wish, kept *answer.Kept) ([]*Image, []error) {
	type group struct {
		wish  Wish
		image *Image
		err   error
	}
	var groups []*group
	of, used := map[string]*group{}, map[string]bool{}
	for _, w := range wishes {
		used[w.Name] = true
		if g, ok := of[w.title()]; ok {
			g.wish.Side = max(g.wish.side(), w.side())
			continue
		}
		g := &group{wish: w}
		of[w.title()], groups = g, append(groups, g)
	}
	work := make(chan *group, len(groups))
	for _, g := range groups {
		work <- g
	}
	close(work)
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(groups)) {
		wg.Go(func() {
			for g := range work {
				g.image, g.err = loadKept(fsys, g.wish, used, kept)
			}
		})
	}
	wg.Wait()
	images, errs := make([]*Image, len(wishes)), make([]error, len(wishes))
	for i, w := range wishes {
		images[i], errs[i] = of[w.title()].image, of[w.title()].err
	}
	return images, errs
}

// bad is an error about a picture.
func bad(hint, text string, args ...any) error {
	return fault.Fault{Text: fmt.Sprintf(text, args...), Hint: hint}
}

const exportHint = "save it from your photo program as a JPEG or PNG"

func read(fsys fs.FS, name string, used map[string]bool) ([]byte, error) {
	if !fs.ValidPath(name) {
		return nil, bad("write it as it stands in the scene's folder, such as photos/heron.jpg", "%q is not a file name that can be used", name)
	}
	file, err := disk.Read(fsys, name, MaxBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, bad(missingHint(fsys, name, used), "there is no file %s", name)
	case errors.Is(err, fs.ErrPermission):
		return nil, bad("check that you may open it", "the file %s may not be read", name)
	case errors.Is(err, disk.ErrFolder):
		return nil, bad("name the photograph inside it, such as "+name+"/heron.jpg", "%s is a folder, not a picture", name)
	case errors.Is(err, disk.ErrLarge):
		return nil, bad(exportHint+" of ordinary size", "the file %s has more than the %d MB that can be read", name, MaxBytes/1_000_000)
	case err != nil:
		return nil, bad("check that it can be opened", "the file %s cannot be read: %s", name, disk.Why(err))
	case len(file) == 0:
		return nil, bad("copy it from the camera or the backup again", "the file %s is empty", name)
	}
	return file, nil
}

// missingHint looks for a file that was most likely meant: other capitals, another ending, a slip of the keyboard; none that is
// used already.
func missingHint(fsys fs.FS, name string, used map[string]bool) string {
	dir := path.Dir(name)
	entries, err := fs.ReadDir(fsys, dir)
	if err != nil {
		return "there is no folder " + dir + " either; names start from the scene's folder"
	}
	stem := func(s string) string { return strings.ToLower(strings.TrimSuffix(s, path.Ext(s))) }
	var names []string
	for _, e := range entries {
		if e.IsDir() || used[path.Join(dir, e.Name())] {
			continue
		}
		if stem(e.Name()) == stem(path.Base(name)) {
			return "did you mean " + path.Join(dir, e.Name()) + "?"
		}
		names = append(names, e.Name())
	}
	if near, ok := fault.Nearest(path.Base(name), names); ok {
		return "did you mean " + path.Join(dir, near) + "?"
	}
	return "names start from the scene's folder"
}
