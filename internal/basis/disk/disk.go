// Package disk reads and writes files in folders that may be anybody's. It never follows a link out of a folder, never
// waits for a pipe or a device, and writes files whole or not at all.
package disk

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"strings"
	"syscall"
)

// Folder is a folder to read from. What leads out of it, and what is neither a file nor a folder, cannot be opened.
type Folder struct {
	Root *os.Root
	Note func(name string) // is told what was opened, if it is not nil; perhaps by several at once
}

// Open opens a file or a folder.
func (d Folder) Open(name string) (fs.File, error) {
	f, err := d.open(name)
	if err != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: Why(err)}
	}
	return f, nil
}

func (d Folder) open(name string) (*os.File, error) {
	if !fs.ValidPath(name) {
		return nil, fs.ErrInvalid
	}
	if info, err := d.Root.Stat(name); err != nil {
		return nil, err
	} else if !ordinary(info) {
		return nil, errSpecial
	}
	f, err := d.Root.OpenFile(name, os.O_RDONLY|noWait, 0)
	if err != nil {
		return nil, err
	}
	if info, err := f.Stat(); err != nil || !ordinary(info) { // it may have been exchanged since
		f.Close()
		return nil, errSpecial
	}
	if d.Note != nil {
		d.Note(name)
	}
	return f, nil
}

var (
	errSpecial = errors.New("it is no ordinary file")
	errBusy    = errors.New("it was changed while it was read")

	errFolderThere error = reason{"a folder of that name is there", fs.ErrExist}
	errProtected   error = reason{"the file that is there is write-protected", fs.ErrPermission}
)

func ordinary(info fs.FileInfo) bool { return info.Mode().IsRegular() || info.IsDir() }

// Read is the whole of a file. One with more than most bytes is ErrLarge, a folder ErrFolder, one that somebody else is
// writing at the same time an error too.
func Read(fsys fs.FS, name string, most int64) ([]byte, error) {
	for tries := 0; ; tries++ {
		b, err := read(fsys, name, most)
		if !errors.Is(err, errBusy) || tries == 2 {
			return b, err
		}
	}
}

// What is wrong with a file as such.
var (
	ErrLarge  = errors.New("it is too large")
	ErrFolder = errors.New("it is a folder")
)

func read(fsys fs.FS, name string, most int64) ([]byte, error) {
	f, err := fsys.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		if other, ok := spelled(fsys, name); ok {
			f, err = fsys.Open(other)
		}
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	before, err := f.Stat()
	switch {
	case err != nil:
		return nil, err
	case before.IsDir():
		return nil, ErrFolder
	case before.Size() > most:
		return nil, ErrLarge
	}
	b := make([]byte, 0, before.Size()+1)
	for int64(len(b)) <= most {
		if len(b) == cap(b) {
			b = append(b, 0)[:len(b)]
		}
		n, err := f.Read(b[len(b):cap(b)])
		b = b[:len(b)+n]
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
	}
	after, err := f.Stat()
	switch {
	case err != nil:
		return nil, err
	case int64(len(b)) != after.Size() || before.Size() != after.Size() || !before.ModTime().Equal(after.ModTime()):
		return nil, errBusy
	}
	return b, nil
}

// Why is an error in words for people; it still is the error that it was.
func Why(err error) error {
	if r := (reason{}); errors.As(err, &r) {
		return r
	}
	for _, w := range []struct {
		is    error
		words string
	}{
		{syscall.ENOSPC, "the disk is full"},
		{syscall.EDQUOT, "your share of the disk is used up"},
		{syscall.EROFS, "the disk can only be read"},
		{fs.ErrPermission, "permission denied"},
		{syscall.ENAMETOOLONG, "the name is too long"},
		{syscall.ENOTDIR, "a file stands where a folder should be"},
		{syscall.EISDIR, "a folder of that name is there"},
		{fs.ErrNotExist, "there is no such file or folder"},
	} {
		if errors.Is(err, w.is) {
			return reason{w.words, err}
		}
	}
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		err = p.Err
	case errors.As(err, &l):
		err = l.Err
	}
	if strings.Contains(err.Error(), "escapes") { // package os has no value for it
		return reason{"a link leads out of the folder", err}
	}
	return err
}

type reason struct {
	words string
	err   error
}

func (r reason) Error() string { return r.words }
func (r reason) Unwrap() error { return r.err }

// below is whether a name is that of a file in the folder or below it.
func below(name string) bool { return fs.ValidPath(name) && path.Base(name) != "." }
