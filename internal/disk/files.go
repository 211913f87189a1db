package disk

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
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
	fresh      bool // there must be none of that name yet
}

var (
	changing sync.Mutex // held by whoever changes the names of files, so that Stop finds them all
	making   = map[*Files]bool{}
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

// Write writes a single file.
func Write(path string, write func(io.Writer) error) error {
	s, err := In(filepath.Dir(path))
	if err != nil {
		return err
	}
	defer s.Close()
	if err := s.Write(filepath.Base(path), write); err != nil {
		return err
	}
	return s.Keep()
}

// Write adds a file, with the folders that its name speaks of. Several may be written at once.
func (s *Files) Write(name string, write func(io.Writer) error) error {
	return s.add(name, false, write)
}

// WriteNew is Write for a file that must not replace one. If there is one, the error of this or of Keep is fs.ErrExist.
func (s *Files) WriteNew(name string, write func(io.Writer) error) error {
	return s.add(name, true, write)
}

func (s *Files) add(name string, fresh bool, write func(io.Writer) error) error {
	f, err := s.open(name, fresh)
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
	return fmt.Errorf("%s was not written: %w", filepath.Join(s.shown, filepath.FromSlash(name)), Why(err))
}

// open begins a file under a passing name.
func (s *Files) open(name string, fresh bool) (*file, error) {
	changing.Lock()
	defer changing.Unlock()
	if !below(name) {
		return nil, fs.ErrInvalid
	}
	mode, err := s.free(name, fresh)
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
		s.made = append(s.made, &file{f, part, name, fresh})
		return s.made[len(s.made)-1], nil
	}
}

// free is whether a name may be written to, and the mode of the file that it has now, or 0.
func (s *Files) free(name string, fresh bool) (fs.FileMode, error) {
	info, err := s.root.Lstat(name)
	if err != nil {
		return 0, nil // nothing is there, or making its folder tells
	}
	switch kind := info.Mode().Type(); {
	case fresh:
		return 0, fs.ErrExist
	case kind == fs.ModeDir:
		return 0, reason{"a folder of that name is there", fs.ErrExist}
	case kind == fs.ModeSymlink: // it is replaced, not followed; but nobody wants /dev/stdout replaced
		if to, err := s.root.Readlink(name); err == nil && (strings.HasPrefix(to, "/dev/") || strings.HasPrefix(to, "/proc/")) {
			return 0, errSpecial
		}
	case kind != 0:
		return 0, errSpecial
	case info.Mode().Perm()&0o200 == 0:
		return 0, reason{"the file that is there is write-protected", fs.ErrPermission}
	default:
		return info.Mode().Perm(), nil
	}
	return 0, nil
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

// Keep gives the files their names. A file that was there under such a name is replaced, a link too, and not what it
// leads to. Of two runs that do so in one folder one comes after the other, so that their files do not mix; whoever kills
// the program in this instant, of a thousandth of a second or so, leaves some new files, whole ones, beside earlier ones.
func (s *Files) Keep() error {
	changing.Lock()
	defer changing.Unlock()
	if dir, err := s.root.Open("."); err == nil {
		defer dir.Close()
		hold(dir)
	}
	for len(s.made) > 0 {
		f := s.made[0]
		if !renamesOpen {
			f.Close()
		}
		if err := s.name(f); err != nil {
			return s.failed(f.name, err)
		}
		f.Close()
		s.made, s.outer, s.inner = s.made[1:], nil, nil
	}
	return nil
}

func (s *Files) name(f *file) error {
	if !f.fresh {
		return s.root.Rename(f.part, f.name)
	}
	err := s.root.Link(f.part, f.name) // unlike Rename it replaces nothing
	if err == nil {
		return s.root.Remove(f.part)
	}
	if _, there := s.root.Lstat(f.name); there == nil {
		return fs.ErrExist
	}
	return s.root.Rename(f.part, f.name) // a disk without links
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
