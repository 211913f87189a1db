package disk

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
)

// Files are files in the making, in one folder and those below it. Each is written under a passing name; when all of them
// are whole they get their own names together. Whatever happens before that, the folder is as it was, but for files with
// passing names if the program was killed; the next that writes there takes those away. A file that is being made by
// another run is left alone: its maker holds a lock on it.
type Files struct {
	root  *os.Root
	shown string   // the folder, as people know it
	made  []*file  // in the order in which they were begun
	outer []string // folders that were made so that there is root, from the outermost
	inner []string // folders below root that were made
	swept map[string]bool
}

type file struct {
	*os.File
	part, name string
	over       *guard // what it may replace; nil: any file
}

// nothing is a guard that lets no file be replaced.
var nothing guard

var (
	changing sync.Mutex // held by whoever changes the names of files, so that Stop finds them all
	making   = map[interface{ drop() }]bool{}
)

// In begins files in a folder, which is made if it is not there. Close must be called.
func In(dir string) (*Files, error) {
	var missing []string
	for at := filepath.Clean(dir); ; at = filepath.Dir(at) {
		if _, err := os.Lstat(at); !errors.Is(err, fs.ErrNotExist) {
			break
		}
		missing = append([]string{at}, missing...)
	}
	s := &Files{shown: dir, outer: missing, swept: map[string]bool{}}
	err := os.MkdirAll(dir, 0o755)
	if err == nil {
		s.root, err = os.OpenRoot(dir)
	}
	if err != nil {
		s.removeDirs()
		return nil, fmt.Errorf("cannot write into the folder %s: %w", dir, Why(err))
	}
	s.begin()
	return s, nil
}

// Inside is In for a folder that is open already; it stays open.
func Inside(root *os.Root, shown string) (*Files, error) {
	again, err := root.OpenRoot(".")
	if err != nil {
		return nil, fmt.Errorf("cannot write into the folder %s: %w", shown, Why(err))
	}
	s := &Files{root: again, shown: shown, swept: map[string]bool{}}
	s.begin()
	return s, nil
}

func (s *Files) begin() {
	changing.Lock()
	defer changing.Unlock()
	making[s] = true
}

// Rewrite writes a single file in place of one that the run has read and changes.
func Rewrite(path string, write func(io.Writer) error) error {
	return single(path, func(s *Files, name string) error { return s.Rewrite(name, write) })
}

// Remove takes away a file that the program keeps for itself, if it is there: nothing but an ordinary one.
func Remove(path string) error {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !info.Mode().IsRegular():
		return errSpecial
	}
	return os.Remove(path)
}

// Write writes a single output.
func Write(path string, over Over, write func(io.Writer) error) error {
	return single(path, func(s *Files, name string) error { return s.Write(name, over, write) })
}

func single(path string, add func(s *Files, name string) error) error {
	s, err := In(filepath.Dir(path))
	if err != nil {
		return err
	}
	defer s.Close()
	if err := add(s, filepath.Base(path)); err != nil {
		return err
	}
	return s.Keep()
}

// Write adds an output, with the folders that its name speaks of. Several may be written at once.
func (s *Files) Write(name string, over Over, write func(io.Writer) error) error {
	g := over.guard()
	return s.add(name, &g, write)
}

// Rewrite is Write for a file that replaces whichever is there.
func (s *Files) Rewrite(name string, write func(io.Writer) error) error {
	return s.add(name, nil, write)
}

// WriteNew is Write for a file that must not replace one. If there is one, the error of this or of Keep is fs.ErrExist.
func (s *Files) WriteNew(name string, write func(io.Writer) error) error {
	return s.add(name, &nothing, write)
}

func (s *Files) add(name string, over *guard, write func(io.Writer) error) error {
	f, err := s.open(name, over)
	if err != nil {
		return s.failed(name, err)
	}
	w := bufio.NewWriterSize(f, 1<<16)
	if err := write(w); err != nil {
		return s.failed(name, err)
	}
	if err := w.Flush(); err != nil {
		return s.failed(name, err)
	}
	if err := f.Sync(); err != nil {
		return s.failed(name, err)
	}
	return nil
}

func (s *Files) failed(name string, err error) error {
	return notWritten(s.path(name), err)
}

// path is where a file is going to be.
func (s *Files) path(name string) string { return filepath.Join(s.shown, filepath.FromSlash(name)) }

// open begins a file under a passing name.
func (s *Files) open(name string, over *guard) (*file, error) {
	changing.Lock()
	defer changing.Unlock()
	if !below(name) {
		return nil, fs.ErrInvalid
	}
	mode, err := s.free(name, over)
	if err != nil {
		return nil, err
	}
	dir := path.Dir(name)
	if err := s.makeDir(dir); err != nil {
		return nil, err
	}
	if !s.swept[dir] {
		s.swept[dir] = true
		sweep(s.root, dir)
	}
	for {
		part := path.Join(dir, fmt.Sprintf(".boothmock-%08x.part", rand.Uint32()))
		f, err := s.root.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if os.IsExist(err) {
			continue
		}
		if err != nil {
			return nil, err
		}
		hold(f)
		here, err1 := s.root.Lstat(part)
		info, err2 := f.Stat()
		if err1 != nil || err2 != nil || !os.SameFile(here, info) {
			f.Close() // another run has taken it for litter before it was locked
			continue
		}
		if mode != 0 {
			f.Chmod(mode) // not every disk has modes
		}
		s.made = append(s.made, &file{f, part, name, over})
		return s.made[len(s.made)-1], nil
	}
}

// free is whether a name may be written to, and the mode of the file that it has now, or 0.
func (s *Files) free(name string, over *guard) (fs.FileMode, error) {
	info, err := s.root.Lstat(name)
	switch {
	case over == &nothing && err == nil:
		return 0, fs.ErrExist
	case over != nil:
		return over.free(s.path(name))
	case err != nil:
		return 0, nil // nothing is there, or making its folder tells
	case info.IsDir():
		return 0, errFolderThere
	case special(info, s.path(name)):
		return 0, errSpecial
	case !info.Mode().IsRegular():
		return newFile, nil // a link is replaced, and not what it leads to
	case info.Mode().Perm()&0o200 == 0:
		return 0, errProtected
	}
	return info.Mode().Perm(), nil
}

func (s *Files) makeDir(dir string) error {
	for at, rest := "", dir; dir != "." && rest != ""; {
		var one string
		one, rest, _ = strings.Cut(rest, "/")
		at = path.Join(at, one)
		switch err := s.root.Mkdir(at, 0o755); {
		case err == nil:
			s.inner = append(s.inner, at)
		case !os.IsExist(err):
			return err
		}
	}
	return nil
}

// Keep gives the files their names. Of two runs that do so in one folder one comes after the other, so that their files do
// not mix. Whoever kills the program in this instant, of a thousandth of a second or so, leaves some new files, whole ones,
// beside earlier ones: what must not be mixed is a Set.
func (s *Files) Keep() error {
	changing.Lock()
	defer changing.Unlock()
	if dir, err := s.root.Open("."); err == nil {
		defer dir.Close()
		hold(dir)
	}
	for _, f := range s.made {
		if _, err := s.free(f.name, f.over); err != nil {
			return s.failed(f.name, err)
		}
	}
	dirs := map[string]bool{}
	for len(s.made) > 0 {
		f := s.made[0]
		if !renamesOpen {
			f.Close()
		}
		if err := s.name(f); err != nil {
			return s.failed(f.name, err)
		}
		f.Close()
		dirs[path.Dir(f.name)] = true
		s.made, s.outer, s.inner = s.made[1:], nil, nil
	}
	for _, dir := range slices.Sorted(maps.Keys(dirs)) {
		syncDir(s.root, dir)
	}
	return nil
}

// name gives a file its name. Where none was, none that appears meanwhile is replaced unheard.
func (s *Files) name(f *file) error {
	for tries := 0; ; tries++ {
		mode, err := s.free(f.name, f.over)
		if err != nil {
			return err
		}
		if mode != 0 || f.over == nil {
			return s.root.Rename(f.part, f.name)
		}
		err = s.root.Link(f.part, f.name) // unlike Rename it replaces nothing
		if err == nil {
			return s.root.Remove(f.part)
		}
		if _, there := s.root.Lstat(f.name); there != nil {
			return s.root.Rename(f.part, f.name) // a disk without links
		}
		if tries == 3 {
			return fs.ErrExist
		}
	}
}

// syncDir lets the names in a folder survive a power cut. Not every system can be asked for that, nor has to be.
func syncDir(root *os.Root, name string) {
	if dir, err := root.Open(name); err == nil {
		dir.Sync()
		dir.Close()
	}
}

// Close takes away what has not been kept.
func (s *Files) Close() {
	changing.Lock()
	defer changing.Unlock()
	s.drop()
	s.root.Close()
	delete(making, s)
}

func (s *Files) drop() {
	for _, f := range s.made {
		f.Close()
		s.root.Remove(f.part)
	}
	s.made = nil
	s.removeDirs()
}

// removeDirs takes away the folders that were made, unless something is in them.
func (s *Files) removeDirs() {
	for _, dir := range slices.Backward(s.inner) {
		s.root.Remove(dir)
	}
	for _, dir := range slices.Backward(s.outer) {
		os.Remove(dir)
	}
	s.outer, s.inner = nil, nil
}

// Stop takes away all files in the making, for a program that ends at once: whoever wants to write after it waits for
// ever.
func Stop() {
	changing.Lock()
	for s := range making {
		s.drop()
	}
}

var passing = regexp.MustCompile(`^\.boothmock-[0-9a-f]{8}\.part$`)

// sweep takes away what killed runs have left in a folder.
func sweep(root *os.Root, dir string) {
	entries, err := fs.ReadDir(root.FS(), dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !e.Type().IsRegular() || !passing.MatchString(e.Name()) {
			continue
		}
		part := path.Join(dir, e.Name())
		f, err := root.OpenFile(part, os.O_RDONLY|noWait, 0)
		if err != nil {
			continue
		}
		if dead(f) {
			root.Remove(part)
		}
		f.Close()
	}
}
