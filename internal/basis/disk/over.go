package disk

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"boothmock/internal/basis/imprint"
)

// Over says what an output may be written over: what this program has made, as the file's own imprint says; with Replace,
// what anybody has. Never one of the inputs, and never what is no ordinary file.
type Over struct {
	Ends    []string // extensions that the output has, with the point, in small letters; none: any
	Inputs  []string // what the run has read: whatever path, letter case or link leads there
	Replace bool
}

// Check is whether a file may be written, so that nobody waits for one that cannot be kept.
func (o Over) Check(path string) error {
	if _, err := o.guard().free(path); err != nil {
		return notWritten(path, err)
	}
	return nil
}

func notWritten(path string, err error) error {
	return fmt.Errorf("%s was not written: %w", path, Why(err))
}

// guard is an Over with what is known of its inputs.
type guard struct {
	Over
	files, dirs []fs.FileInfo // of the inputs and the folders they are in; nil where there is none
}

func (o Over) guard() guard {
	g := guard{Over: o}
	known := map[string]fs.FileInfo{}
	for _, path := range o.Inputs {
		info, _ := os.Stat(path)
		dir := filepath.Dir(path)
		if _, ok := known[dir]; !ok {
			known[dir], _ = os.Stat(dir)
		}
		g.files, g.dirs = append(g.files, info), append(g.dirs, known[dir])
	}
	return g
}

// input is the input that a path leads to, or that has the same name but for its letters' case: on many disks that is the
// same file.
func (g guard) input(path string) (string, bool) {
	info, err := os.Stat(path)
	dir, noDir := os.Stat(filepath.Dir(path))
	for i, input := range g.Inputs {
		if err == nil && g.files[i] != nil && os.SameFile(info, g.files[i]) && still(input, info) ||
			noDir == nil && g.dirs[i] != nil && strings.EqualFold(filepath.Base(path), filepath.Base(input)) && os.SameFile(dir, g.dirs[i]) {
			return input, true
		}
	}
	return "", false
}

// still is whether a file is at an input's path now: when another run has replaced the input since it was looked at, the disk
// may have given the old one's number to a file that has nothing to do with it.
func still(input string, info fs.FileInfo) bool {
	now, err := os.Stat(input)
	return err == nil && os.SameFile(info, now)
}

const elsewhere = "give --out another name"

// free is whether a path may be written to, and the mode of the file that is replaced by that, 0 if none is there.
func (g guard) free(path string) (fs.FileMode, error) {
	info, err := os.Lstat(path)
	there := err == nil
	if there {
		switch {
		case info.IsDir():
			return 0, errFolderThere
		case special(info, path):
			return 0, errSpecial
		}
	}
	if input, ok := g.input(path); ok {
		return 0, reason{fmt.Sprintf("%s is what the booth is made from, and is never replaced (%s)", input, elsewhere), fs.ErrExist}
	}
	if err := g.ends(path); err != nil || !there {
		return 0, err
	}
	if err := g.foreign(path, info); err != nil {
		return 0, err
	}
	if info.Mode().IsRegular() {
		if info.Mode().Perm()&0o200 == 0 {
			return 0, errProtected
		}
		return info.Mode().Perm(), nil
	}
	return newFile, nil
}

// special is whether a device, a pipe or the like is at a path, or a link to one, as /dev/stdout is.
func special(info fs.FileInfo, path string) bool {
	if to, err := os.Stat(path); info.Mode()&fs.ModeSymlink != 0 {
		return err == nil && !ordinary(to)
	}
	return !ordinary(info)
}

// newFile is the mode of a file that was not there before.
const newFile fs.FileMode = 0o644

// ends is whether the name has an extension of the output's.
func (g guard) ends(path string) error {
	ext := filepath.Ext(path)
	if len(g.Ends) == 0 || slices.Contains(g.Ends, strings.ToLower(ext)) {
		return nil
	}
	return fmt.Errorf("such a file has a name that ends in %s (write --out %s)", strings.Join(g.Ends, " or "), strings.TrimSuffix(path, ext)+g.Ends[0])
}

// largest is more than any output has, in bytes: what is larger is not ours, and is not read.
const largest = 512 << 20

// foreign is the reason why a file or link that is there stays, unless it is ours or to be replaced.
func (g guard) foreign(path string, info fs.FileInfo) error {
	if g.Replace {
		return nil
	}
	what := "a link"
	if info.Size() > largest {
		what = "a large file"
	} else if info.Mode().IsRegular() {
		file, err := wholeFile(path)
		if err != nil {
			return err
		}
		var ours bool
		if what, ours = imprint.Of(file); ours {
			return nil
		}
	}
	return reason{fmt.Sprintf("%s that boothmock did not make is there (write --replace to replace it, or %s)", what, elsewhere), fs.ErrExist}
}

// wholeFile reads a file at any path.
func wholeFile(path string) ([]byte, error) {
	f, err := os.OpenFile(path, os.O_RDONLY|noWait, 0)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() {
		return nil, errSpecial
	}
	return io.ReadAll(f)
}
