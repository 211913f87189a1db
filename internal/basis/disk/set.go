package disk

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
)

// Set is a folder of outputs that belong together. They are written into a folder aside, which takes the place of the
// earlier one at once: whoever looks, at whatever moment, and even if the program is killed or the power fails, finds all
// files of one run. What others have put into the folder stays in it.
//
// Beside the folder a run has ".boothmock-xxxxxxxx.build", locked while it lives. In it the new files stand in new/NAME, NAME
// being the folder's own; when all are whole and on the disk, new becomes whole, and whole/NAME and NAME are exchanged. Where
// a disk cannot exchange two folders, NAME first becomes before/NAME. A killed run is brought to its end by the next (see
// recover).
type Set struct {
	Dir string // where the files are going to be, as people know it
	Why string // why that is a folder within the one that was asked for; "" if it is that one

	path    string   // of Dir, from the root
	around  *os.Root // the folder that Dir is in
	name    string   // of Dir in it
	aside   string
	lock    *os.File
	holds   string
	over    guard
	names   map[string]bool // of the files, in small letters: on many disks A and a are one
	dirs    map[string]bool // that they are in, likewise
	made    []string        // folders around Dir that were made, from the outermost
	mu      sync.Mutex
	entries []Entry
}

// NewSet begins a set of files with such names, which dir is to hold. If dir holds something else already, or cannot be
// exchanged as a whole, they go into a folder within it that is called as what it holds. Close must be called.
func NewSet(dir, holds string, names []string, over Over) (*Set, error) {
	s := &Set{holds: holds, over: over.guard(), names: map[string]bool{}, dirs: map[string]bool{}}
	for _, name := range append(names[:len(names):len(names)], ContentsFile) {
		if !below(name) {
			return nil, notWritten(filepath.Join(dir, name), fs.ErrInvalid)
		}
		s.names[strings.ToLower(name)] = true
		for at := path.Dir(name); at != "."; at = path.Dir(at) {
			s.dirs[strings.ToLower(at)] = true
		}
	}
	changing.Lock()
	defer changing.Unlock()
	err := s.place(dir)
	if err == nil {
		err = s.begin()
	}
	if err == nil {
		_, err = s.look()
	}
	if err != nil {
		s.drop()
		return nil, err
	}
	making[s] = true
	return s, nil
}

// place finds out where the set goes, and opens the folder around.
func (s *Set) place(dir string) error {
	failed := func(err error) error {
		return fmt.Errorf("cannot write into the folder %s: %w", dir, Why(err))
	}
	at, err := filepath.Abs(dir)
	if err != nil {
		return failed(err)
	}
	switch real, err := filepath.EvalSymlinks(at); { // a link to a folder is as good as the folder
	case err == nil:
		at = real
	case !errors.Is(err, fs.ErrNotExist):
		return failed(err)
	}
	s.Dir = dir
	if s.Why, err = s.taken(at); err != nil {
		return failed(err)
	}
	if s.Why != "" {
		at, s.Dir = filepath.Join(at, s.holds), filepath.Join(dir, s.holds)
		if why, err := s.taken(at); err != nil {
			return failed(err)
		} else if why != "" {
			return fmt.Errorf("%s %s, and %s %s (give --out a folder that is new)", dir, s.Why, s.Dir, why)
		}
	}
	s.path, s.name = at, filepath.Base(at)
	if s.made, err = makeAll(filepath.Dir(at)); err != nil {
		return failed(err)
	}
	if s.around, err = os.OpenRoot(filepath.Dir(at)); err != nil {
		return failed(err)
	}
	return nil
}

// taken is why a set cannot have a folder for itself. It can if the folder is new, or empty but for files that are not shown,
// or holds such a set, and can be exchanged for one beside it.
func (s *Set) taken(at string) (why string, err error) {
	info, err := os.Lstat(at)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "", nil
	case err != nil:
		return "", err
	case !info.IsDir():
		return "", syscall.ENOTDIR
	case info.Mode().Perm()&0o200 == 0:
		return "", fs.ErrPermission
	}
	root, err := os.OpenRoot(at)
	if err != nil {
		return "", err
	}
	defer root.Close()
	entries, err := fs.ReadDir(root.FS(), ".")
	switch {
	case err != nil:
		return "", err
	case contents(root, ".", s.holds) == nil && slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return !hidden(e.Name()) }):
		return "holds other things, which stay as they are", nil
	case !exchangeable(at):
		return "cannot be exchanged as a whole", nil
	}
	return "", nil
}

// hidden is whether systems show no such file, or make it themselves where somebody looks at pictures.
func hidden(name string) bool {
	return strings.HasPrefix(name, ".") || strings.EqualFold(name, "Thumbs.db") || strings.EqualFold(name, "desktop.ini")
}

// exchangeable is whether a folder can be put beside another one: it is not the root of a disk, and the folder around it can
// be written to.
func exchangeable(at string) bool {
	around := filepath.Dir(at)
	if around == at || !sameDisk(at, around) {
		return false
	}
	try := filepath.Join(around, fmt.Sprintf(".boothmock-%08x.build", rand.Uint32()))
	if os.Mkdir(try, 0o755) != nil {
		return false
	}
	os.Remove(try)
	return true
}

// makeAll is os.MkdirAll that tells which folders it made.
func makeAll(dir string) (made []string, err error) {
	for at := dir; ; at = filepath.Dir(at) {
		if _, err := os.Lstat(at); !errors.Is(err, fs.ErrNotExist) {
			break
		}
		made = append([]string{at}, made...)
	}
	return made, os.MkdirAll(dir, 0o755)
}

// begin makes the folder aside, after what killed runs left was brought to its end.
func (s *Set) begin() error {
	if dir, err := s.around.Open("."); err == nil {
		defer dir.Close()
		hold(dir)
	}
	recoverAll(s.around)
	for {
		s.aside = fmt.Sprintf(".boothmock-%08x.build", rand.Uint32())
		err := s.around.Mkdir(s.aside, 0o755)
		if os.IsExist(err) {
			continue
		}
		if err == nil {
			s.lock, err = s.around.OpenFile(path.Join(s.aside, lockFile), os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o644)
		}
		if err != nil && !os.IsNotExist(err) && !os.IsExist(err) { // another run has taken it for litter
			return fmt.Errorf("cannot write into the folder %s: %w", s.Dir, Why(err))
		}
		if err == nil {
			hold(s.lock)
			here, err1 := s.around.Lstat(path.Join(s.aside, lockFile))
			if info, err2 := s.lock.Stat(); err1 == nil && err2 == nil && os.SameFile(here, info) {
				return s.around.MkdirAll(s.fresh(), 0o755)
			}
			s.lock.Close()
		}
	}
}

const lockFile = "lock"

// fresh is the folder of new files, and whole is where it, and then the earlier one, stands for the exchange.
func (s *Set) fresh() string { return path.Join(s.aside, "new", s.name) }
func (s *Set) whole() string { return path.Join(s.aside, "whole", s.name) }

// Write adds a file, one of the names. Several may be written at once.
func (s *Set) Write(name string, write func(io.Writer) error) error {
	f, err := s.open(name)
	if err != nil {
		return s.failed(name, err)
	}
	defer f.Close()
	sum := counter{Hash: sha256.New()}
	w := bufio.NewWriterSize(io.MultiWriter(f, &sum), 1<<16)
	if err := write(w); err != nil {
		return s.failed(name, err)
	}
	if err := w.Flush(); err != nil {
		return s.failed(name, err)
	}
	if err := f.Sync(); err != nil {
		return s.failed(name, err)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.entries = append(s.entries, Entry{name, sum.n, hex.EncodeToString(sum.Sum(nil))})
	return nil
}

type counter struct {
	hash.Hash
	n int64
}

func (c *counter) Write(p []byte) (int, error) {
	c.n += int64(len(p))
	return c.Hash.Write(p)
}

func (s *Set) failed(name string, err error) error {
	return notWritten(filepath.Join(s.Dir, filepath.FromSlash(name)), err)
}

func (s *Set) open(name string) (*os.File, error) {
	changing.Lock()
	defer changing.Unlock()
	if !s.names[strings.ToLower(name)] {
		return nil, fs.ErrInvalid
	}
	at := path.Join(s.fresh(), name)
	if err := s.around.MkdirAll(path.Dir(at), 0o755); err != nil {
		return nil, err
	}
	return s.around.OpenFile(at, os.O_WRONLY|os.O_CREATE|os.O_EXCL, newFile)
}

// Close takes away what has not been kept.
func (s *Set) Close() {
	changing.Lock()
	defer changing.Unlock()
	s.drop()
	delete(making, s)
}

func (s *Set) drop() {
	if s.around != nil {
		if s.lock != nil {
			recoverOne(s.around, s.aside, s.lock)
		}
		s.around.Close()
	}
	for _, dir := range slices.Backward(s.made) {
		os.Remove(dir)
	}
	s.around, s.lock, s.made = nil, nil, nil
}
