package disk

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
)

// For tests: what a disk may not be able to, and what is called after every change to it while a set takes its place.
var (
	exchange = swap
	hardLink = (*os.Root).Link
	step     = func() {}
)

// standing is what stands in a folder whose place a set takes.
type standing struct {
	mode    fs.FileMode            // of the folder; 0 if there is none
	foreign []string               // stays
	gone    []string               // of the earlier set, and in the new one no more
	modes   map[string]fs.FileMode // of what is replaced, by name in small letters
}

// look sorts out what stands in the folder now. The error is a file that would have to be replaced and stays.
func (s *Set) look() (standing, error) {
	st := standing{modes: map[string]fs.FileMode{}}
	info, err := s.around.Lstat(s.name)
	switch {
	case os.IsNotExist(err):
		return st, nil
	case err != nil:
		return st, s.failed(".", err)
	case !info.IsDir():
		return st, s.failed(".", syscall.ENOTDIR)
	}
	st.mode = info.Mode().Perm()
	earlier := contents(s.around, s.name, s.holds)
	folders := map[string]bool{}
	for name := range earlier {
		for at := path.Dir(name); at != "."; at = path.Dir(at) {
			folders[at] = true
		}
	}
	return st, s.lookInto(".", earlier, folders, &st)
}

func (s *Set) lookInto(dir string, earlier map[string]Entry, folders map[string]bool, st *standing) error {
	entries, err := fs.ReadDir(s.around.FS(), path.Join(s.name, dir))
	if err != nil {
		return s.failed(dir, err)
	}
	for _, e := range entries {
		name := path.Join(dir, e.Name())
		small, at, shown := strings.ToLower(name), path.Join(s.name, name), filepath.Join(s.path, filepath.FromSlash(name))
		_, input := s.over.input(shown)
		old, ours := earlier[name]
		switch {
		case e.IsDir() && (s.dirs[small] || folders[name]):
			if err := s.lookInto(name, earlier, folders, st); err != nil {
				return err
			}
		case s.dirs[small]:
			return s.failed(name, syscall.ENOTDIR)
		case s.names[small]:
			if st.modes[small], err = s.over.free(shown); err != nil {
				return s.failed(name, err)
			}
		case ours && !input && old.unchanged(s.around, at), litter(s.around, at):
			st.gone = append(st.gone, name)
		default:
			st.foreign = append(st.foreign, name)
		}
	}
	return nil
}

// Keep lets the set take its place. stayed is what others have put there: it is there still.
func (s *Set) Keep() (stayed []string, err error) {
	changing.Lock()
	defer changing.Unlock()
	dir, err := s.around.Open(".")
	if err != nil {
		return nil, s.failed(".", err)
	}
	defer dir.Close()
	hold(dir) // one set after the other
	st, err := s.look()
	if err != nil {
		return nil, err
	}
	if err := s.complete(st); err != nil {
		return nil, s.failed(".", err)
	}
	if err := s.takePlace(dir, st); err != nil {
		return nil, fmt.Errorf("%s stays as it was: %w (close what has it open, or give --out another folder)", s.Dir, Why(err))
	}
	s.made = nil
	recoverOne(s.around, s.aside, s.lock)
	s.lock = nil
	syncDir(s.around, ".")
	return slices.DeleteFunc(st.foreign, func(name string) bool { return hidden(path.Base(name)) }), nil
}

// complete makes the new folder what the earlier one is to be exchanged for, and lets it survive a power cut.
func (s *Set) complete(st standing) error {
	text, err := list(s.holds, s.entries)
	if err != nil {
		return err
	}
	f, err := s.around.OpenFile(path.Join(s.fresh(), ContentsFile), os.O_WRONLY|os.O_CREATE|os.O_EXCL, newFile)
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	if err == nil {
		err = f.Sync()
	}
	if f.Close(); err != nil {
		return err
	}
	for _, e := range s.entries {
		if mode := st.modes[strings.ToLower(e.Name)]; mode != 0 && mode != newFile {
			s.around.Chmod(path.Join(s.fresh(), e.Name), mode) // not every disk has modes
		}
	}
	if st.mode != 0 {
		s.around.Chmod(s.fresh(), st.mode)
	}
	for _, name := range st.foreign {
		link(s.around, path.Join(s.name, name), path.Join(s.fresh(), name))
	}
	s.sync(s.fresh())
	if err := s.around.Rename(path.Dir(s.fresh()), path.Dir(s.whole())); err != nil {
		return err
	}
	syncDir(s.around, path.Dir(s.whole()))
	syncDir(s.around, s.aside)
	step()
	return nil
}

// sync lets the names of the set's files in a folder survive a power cut.
func (s *Set) sync(folder string) {
	done := map[string]bool{}
	for _, e := range s.entries {
		for at := path.Dir(e.Name); !done[at]; at = path.Dir(at) {
			done[at] = true
			syncDir(s.around, path.Join(folder, at))
		}
	}
	if !done["."] {
		syncDir(s.around, folder)
	}
}

// link lets a file, or all files of a folder, stand in a second place too. Where that cannot be done they are moved later.
func link(root *os.Root, from, to string) {
	info, err := root.Lstat(from)
	if err != nil {
		return
	}
	if !info.IsDir() {
		hardLink(root, from, to)
		return
	}
	root.Mkdir(to, info.Mode().Perm())
	entries, _ := fs.ReadDir(root.FS(), from)
	for _, e := range entries {
		link(root, path.Join(from, e.Name()), path.Join(to, e.Name()))
	}
}

// takePlace exchanges the folders. Where that cannot be done at once, there is no folder of the name for an instant.
func (s *Set) takePlace(dir *os.File, st standing) error {
	if st.mode == 0 {
		return s.move(s.whole(), s.name)
	}
	if exchange(dir, s.name, s.whole()) == nil {
		syncDir(s.around, ".")
		step()
		s.goBack(dir, st)
		return nil
	}
	before := path.Join(s.aside, "before", s.name)
	if err := s.around.MkdirAll(path.Dir(before), 0o755); err != nil {
		return err
	}
	if err := s.move(s.name, before); err != nil {
		return err
	}
	err := s.move(s.whole(), s.name)
	if err != nil {
		s.move(before, s.name)
	}
	return err
}

func (s *Set) move(from, to string) error {
	err := s.around.Rename(from, to)
	step()
	return err
}

// goBack lets the earlier folder itself have the new files and the place again: who has it open, in a window or a shell,
// sees them, and its rights and labels stay. Where that fails the new folder keeps the place.
func (s *Set) goBack(dir *os.File, st standing) {
	for _, name := range st.gone {
		s.around.Remove(path.Join(s.whole(), name))
		for at := path.Dir(name); at != "."; at = path.Dir(at) {
			s.around.Remove(path.Join(s.whole(), at)) // if nothing else is in it
		}
		step()
	}
	for _, e := range append(slices.Clone(s.entries), Entry{Name: ContentsFile}) { // what is gone must be so before its list is
		to := path.Join(s.whole(), e.Name)
		part := path.Join(path.Dir(to), fmt.Sprintf(".boothmock-%08x.part", rand.Uint32()))
		if s.around.MkdirAll(path.Dir(to), 0o755) != nil || hardLink(s.around, path.Join(s.name, e.Name), part) != nil {
			return
		}
		step()
		if s.around.Rename(part, to) != nil {
			return
		}
		step()
	}
	s.sync(s.whole())
	exchange(dir, s.name, s.whole())
	step()
}

var asideName = regexp.MustCompile(`^\.boothmock-[0-9a-f]{8}\.build$`)

// recoverAll brings to its end what killed runs have left in a folder.
func recoverAll(root *os.Root) {
	entries, _ := fs.ReadDir(root.FS(), ".")
	for _, e := range entries {
		if !e.IsDir() || !asideName.MatchString(e.Name()) {
			continue
		}
		lock, err := root.OpenFile(path.Join(e.Name(), lockFile), os.O_RDWR|os.O_CREATE|noWait, 0o644)
		if err != nil {
			continue
		}
		if dead(lock) {
			recoverOne(root, e.Name(), lock)
		}
		lock.Close()
	}
}

// recoverOne clears a folder aside away, whatever its run had come to. What was whole and on its way takes its place; what
// is of no set goes back to where it was.
func recoverOne(root *os.Root, aside string, lock *os.File) {
	root.RemoveAll(path.Join(aside, "new")) // what others have made is only linked there
	step()
	for _, stage := range []string{"whole", "before"} {
		entries, _ := fs.ReadDir(root.FS(), path.Join(aside, stage))
		for _, e := range entries {
			from, to := path.Join(aside, stage, e.Name()), e.Name()
			_, away := root.Lstat(path.Join(aside, "before", e.Name()))
			if _, err := root.Lstat(to); os.IsNotExist(err) && away == nil {
				root.Rename(from, to)
				syncDir(root, ".")
			} else {
				takeAway(root, from, to)
			}
			step()
		}
		root.Remove(path.Join(aside, stage))
	}
	root.Remove(path.Join(aside, lockFile))
	lock.Close()
	root.Remove(aside)
	step()
}

// takeAway takes a set away that has no place any more. What is of no set moves to the one that has, if nothing of that
// name is there; otherwise it is left.
func takeAway(root *os.Root, from, to string) {
	old, now := contents(root, from, ""), contents(root, to, "")
	var clear func(dir string)
	clear = func(dir string) {
		entries, _ := fs.ReadDir(root.FS(), path.Join(from, dir))
		for _, e := range entries {
			name := path.Join(dir, e.Name())
			at, there := path.Join(from, name), path.Join(to, name)
			_, replaced := now[name]
			switch {
			case e.IsDir():
				clear(name)
				root.Remove(at)
			case name == ContentsFile && old != nil: // last: it says what else is to go
			case replaced, same(root, at, there), old[name].unchanged(root, at), litter(root, at):
				root.Remove(at)
			default:
				if _, err := root.Lstat(there); os.IsNotExist(err) && root.MkdirAll(path.Dir(there), 0o755) == nil {
					root.Rename(at, there)
				}
			}
			step()
		}
	}
	clear(".")
	if left, _ := fs.ReadDir(root.FS(), from); len(left) == 1 && old != nil {
		root.Remove(path.Join(from, ContentsFile))
	}
	root.Remove(from)
}

// same is whether two names are those of one file.
func same(root *os.Root, a, b string) bool {
	x, err1 := root.Lstat(a)
	y, err2 := root.Lstat(b)
	return err1 == nil && err2 == nil && os.SameFile(x, y)
}

// litter is whether a file was in the making when its run was killed.
func litter(root *os.Root, name string) bool {
	info, err := root.Lstat(name)
	if err != nil || !info.Mode().IsRegular() || !passing.MatchString(path.Base(name)) {
		return false
	}
	f, err := root.OpenFile(name, os.O_RDONLY|noWait, 0)
	if err != nil {
		return false
	}
	defer f.Close()
	return dead(f)
}
