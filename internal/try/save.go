package try

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"unicode/utf8"

	"boothmock/internal/basis/disk"
	"boothmock/scenes"
)

// UnsavedEnd is how the name of the file ends, beside the scene, that holds changes until they are saved.
const UnsavedEnd = ".unsaved"

// most is how large a scene's text may be, in bytes; a larger one is not read as a scene either.
const most = 1 << 20

// keep writes the scene's text into its file. The demo, which has none, becomes a folder of its own, with the name that was typed, in the
// folder that the program was started in.
func (s *Session) keep(a Ask) (string, error) {
	if s.shop.Path == "" {
		return s.keepDemo(a.Text)
	}
	now, err := textOf(s.shop.Path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", refuse("%s cannot be read: %s", s.shop.Path, disk.Why(err))
	}
	if err == nil && !bytes.Equal(now, s.saved) {
		if s.changed(now); s.theirs != nil || s.trouble != "" {
			return "", refuse("%s was changed in the meantime", s.shop.Path)
		}
	}
	if err := s.write(); err != nil {
		return "", err
	}
	s.noted()
	return "Saved in " + s.shop.Path, nil
}

// write puts the text that is shown into the scene's file.
func (s *Session) write() error {
	text := s.past.text
	path, err := filepath.EvalSymlinks(s.shop.Path)
	if err != nil {
		path = s.shop.Path // it was taken away: it comes back
	}
	if err := disk.Rewrite(path, func(w io.Writer) error { _, err := w.Write(text); return err }); err != nil {
		return err
	}
	s.saved = text
	s.autosave()
	return nil
}

var nameText = regexp.MustCompile(`^[\pL\pN][\pL\pN _-]*$`)

// plainName says whether a file or folder can be called so on every system.
func plainName(name string) bool {
	return utf8.RuneCountInString(name) <= 61 && nameText.MatchString(name)
}

func (s *Session) keepDemo(name string) (string, error) {
	if !plainName(name) {
		return "", refuse("Give it a name of letters, digits and blanks: a folder of that name is made where the program was started")
	}
	dir := filepath.Join(s.Folder, name)
	if _, err := os.Lstat(dir); err == nil {
		return "", refuse("There is something called %s already: take another name", name)
	}
	text := s.past.text
	if err := writeDemo(dir, text); err != nil {
		return "", err
	}
	s.shop.Path, s.saved = filepath.Join(dir, "booth.yaml"), text
	st := *s.state
	st.File = s.shop.Path
	s.state = &st
	s.lookForVariants()
	s.noted()
	return "Saved in the new folder " + dir + ", with its photographs", nil
}

// NewDemo puts the demo, with its photographs, into a new folder, and gives the path of its scene.
func NewDemo(dir string) (path string, err error) {
	text, err := scenes.FS.ReadFile(scenes.Demo)
	if err != nil {
		return "", err
	}
	return filepath.Join(dir, "booth.yaml"), writeDemo(dir, text)
}

// writeDemo writes a text of the demo into a folder, and the photographs that the demo shows: what was taken out may come back.
func writeDemo(dir string, text []byte) error {
	whole, err := scenes.FS.ReadFile(scenes.Demo)
	if err != nil {
		return err
	}
	set, err := disk.In(dir)
	if err != nil {
		return err
	}
	defer set.Close()
	if err := set.WriteNew("booth.yaml", func(w io.Writer) error { _, err := w.Write(text); return err }); err != nil {
		return err
	}
	err = fs.WalkDir(scenes.FS, "art", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !bytes.Contains(whole, []byte(name)) {
			return err
		}
		file, err := scenes.FS.ReadFile(name)
		if err != nil {
			return err
		}
		return set.WriteNew(name, func(w io.Writer) error { _, err := w.Write(file); return err })
	})
	if err != nil {
		return err
	}
	return set.Keep()
}

// autosave lets the keeper write what is shown, or take its file away if the scene's file says the same.
func (s *Session) autosave() {
	if s.shop.Path == "" || s.rescued != nil {
		return
	}
	text := s.past.text
	if bytes.Equal(text, s.saved) {
		text = nil
	}
	select {
	case <-s.toKeep: // what it has not begun with
	default:
	}
	s.toKeep <- kept{s.shop.Path + UnsavedEnd, text}
}

// kept is a file of changes that are not saved; without text it is to go.
type kept struct {
	path string
	text []byte
}

// keeper writes one file of unsaved changes after the other, so that nobody waits for the disk. What it cannot write is lost at
// a crash, and only then.
func (s *Session) keeper() {
	defer close(s.keptAll)
	for k := range s.toKeep {
		if k.text == nil {
			disk.Remove(k.path)
			continue
		}
		disk.Rewrite(k.path, func(w io.Writer) error { _, err := w.Write(k.text); return err })
	}
}

// Close ends the session when everything is on the disk.
func (s *Session) Close() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.closed {
		s.closed = true
		s.hide()
		close(s.toKeep)
	}
	<-s.keptAll
}

// textOf is the text of a scene's file, or of one beside it.
func textOf(path string) ([]byte, error) {
	root, err := os.OpenRoot(filepath.Dir(path))
	if err != nil {
		return nil, err
	}
	defer root.Close()
	return disk.Read(disk.Folder{Root: root}, filepath.Base(path), most)
}

// rescue is what an earlier sitting left that was never saved, or nil.
func rescue(path string) []byte {
	if path == "" {
		return nil
	}
	text, _ := textOf(path + UnsavedEnd)
	return text
}

// answer is the answer to what the state asks.
func (s *Session) answer(a Ask) (string, error) {
	switch {
	case a.Text == "carry on" && s.rescued != nil:
		f, m, err := s.read(s.rescued)
		if err != nil {
			return "", err
		}
		s.rescued = nil
		s.past.add(f.Source(), "what was not saved the last time")
		s.take(f, m)
		s.autosave()
		return "Carried on with what was not saved the last time", nil
	case a.Text == "drop" && s.rescued != nil:
		s.rescued = nil
		s.autosave()
		s.noted()
		return "Begun with the scene as it was saved", nil
	case a.Text == "theirs" && s.theirs != nil:
		return "The scene is as it stands in the file; yours can be taken back to", s.follow(s.theirs, s.theirs, "as it stands in the file")
	case a.Text == "mine" && s.theirs != nil:
		theirs := s.theirs
		s.theirs = nil
		s.saved = theirs
		return s.keep(Ask{})
	}
	return "", refuse("Nothing is asked")
}

// Unsaved is the file in which changes are that were not saved; "" if everything is.
func (s *Session) Unsaved() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.shop.Path == "" || bytes.Equal(s.past.text, s.saved) {
		return ""
	}
	return s.shop.Path + UnsavedEnd
}
