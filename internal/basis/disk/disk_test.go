package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

// text writes a text.
func text(s string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, s); return err }
}

func put(t *testing.T, path, s string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(s), 0o644); err != nil {
		t.Fatal(err)
	}
}

func is(t *testing.T, path, want string) {
	t.Helper()
	if b, err := os.ReadFile(path); err != nil || string(b) != want {
		t.Errorf("%s is %q, %v; want %q", path, b, err, want)
	}
}

// listing is every file and folder below dir.
func listing(t *testing.T, dir string) []string {
	t.Helper()
	var out []string
	if err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && path != dir {
			rel, _ := filepath.Rel(dir, path)
			out = append(out, filepath.ToSlash(rel))
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
	return out
}

func files(t *testing.T, dir string) *Files {
	t.Helper()
	s, err := In(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s
}

// Nothing has its name before everything is whole, and what fails leaves the folder as it was, folders too.
func TestAllOrNothing(t *testing.T) {
	dir := t.TempDir()
	put(t, dir+"/a", "earlier")
	s := files(t, dir)
	if err := s.Rewrite("a", text("new")); err != nil {
		t.Fatal(err)
	}
	is(t, dir+"/a", "earlier")
	broken := errors.New("the pencil broke")
	err := s.Rewrite("sub/b", func(w io.Writer) error { text("half")(w); return broken })
	if !errors.Is(err, broken) || !strings.Contains(err.Error(), filepath.Join("sub", "b")+" was not written: the pencil broke") {
		t.Errorf("the error is %v", err)
	}
	s.Close()
	is(t, dir+"/a", "earlier")
	if l := listing(t, dir); !slices.Equal(l, []string{"a"}) {
		t.Errorf("the folder has %v", l)
	}

	if s, err = In(dir + "/new/newer"); err != nil {
		t.Fatal(err)
	}
	s.Rewrite("c", text("c"))
	s.Close()
	if l := listing(t, dir); !slices.Equal(l, []string{"a"}) {
		t.Errorf("an output folder of nothing is left: %v", l)
	}

	s = files(t, dir+"/new")
	for _, name := range []string{"x", "sub/y"} {
		if err := s.Rewrite(name, text(name)); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Keep(); err != nil {
		t.Fatal(err)
	}
	s.Close()
	is(t, dir+"/new/x", "x")
	is(t, dir+"/new/sub/y", "sub/y")
	if l := listing(t, dir); len(l) != 5 {
		t.Errorf("the folder has %v", l)
	}
}

func TestANewFileReplacesNone(t *testing.T) {
	dir := t.TempDir()
	s := files(t, dir)
	if err := s.WriteNew("a", text("mine")); err != nil {
		t.Fatal(err)
	}
	put(t, dir+"/a", "theirs") // while mine was being made
	if err := s.Keep(); !errors.Is(err, fs.ErrExist) {
		t.Errorf("the error is %v", err)
	}
	s.Close()
	if err := files(t, dir).WriteNew("a", text("mine")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("the error is %v", err)
	}
	is(t, dir+"/a", "theirs")
	if s = files(t, dir); s.WriteNew("b", text("b")) != nil || s.Keep() != nil {
		t.Error("b was not written")
	}
	is(t, dir+"/b", "b")
	if l := listing(t, dir); !slices.Equal(l, []string{"a", "b"}) {
		t.Errorf("the folder has %v", l)
	}
}

// A file keeps its permissions when it is replaced; one that is write-protected is not replaced.
func TestPermissionsStay(t *testing.T) {
	dir := t.TempDir()
	put(t, dir+"/a", "private")
	if err := os.Chmod(dir+"/a", 0o600); err != nil {
		t.Fatal(err)
	}
	if err := Rewrite(dir+"/a", text("new")); err != nil {
		t.Fatal(err)
	}
	is(t, dir+"/a", "new")
	if info, _ := os.Stat(dir + "/a"); info.Mode().Perm() != 0o600 {
		t.Errorf("the mode is %v", info.Mode())
	}
	if err := os.Chmod(dir+"/a", 0o444); err != nil {
		t.Fatal(err)
	}
	if err := Rewrite(dir+"/a", text("newer")); err == nil || !strings.Contains(err.Error(), "write-protected") {
		t.Errorf("the error is %v", err)
	}
	is(t, dir+"/a", "new")
}

// A link in the way is replaced, not followed, and a folder that is a link leads nowhere.
func TestNothingIsWrittenOutside(t *testing.T) {
	dir, out := t.TempDir(), t.TempDir()
	put(t, out+"/victim", "untouched")
	links := map[string]string{"a": out + "/victim", "sub": out, "b": out + "/none", "up": ".."}
	for name, to := range links {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip(err)
		}
	}
	for _, name := range []string{"a", "b"} {
		if err := Rewrite(dir+"/"+name, text("mine")); err != nil {
			t.Error(err)
		}
		if info, err := os.Lstat(filepath.Join(dir, name)); err != nil || !info.Mode().IsRegular() {
			t.Errorf("%s is still a link", name)
		}
	}
	s := files(t, dir)
	for _, name := range []string{"sub/victim", "sub/new", "up/x", "../x", "/x", "", ".", "sub/../../x"} {
		err := s.Rewrite(name, text("mine"))
		if err == nil {
			t.Errorf("%q was written", name)
		}
		if strings.HasPrefix(name, "sub/n") && !strings.Contains(err.Error(), "a link leads out of the folder") {
			t.Errorf("%q: %v", name, err)
		}
	}
	if err := s.Keep(); err != nil {
		t.Error(err)
	}
	is(t, out+"/victim", "untouched")
	if l := listing(t, out); len(l) != 1 {
		t.Errorf("outside there is %v", l)
	}
	if err := os.Symlink("/dev/null", filepath.Join(dir, "null")); err != nil {
		t.Fatal(err)
	}
	put(t, dir+"/d/x", "")
	for _, name := range []string{"null", "d"} {
		if err := Rewrite(filepath.Join(dir, name), text("mine")); err == nil {
			t.Errorf("%s was replaced", name)
		}
	}
}

// What a killed run left goes; what is being made, and what others have called alike, stays.
func TestLitter(t *testing.T) {
	dir := t.TempDir()
	dead, lookalikes := ".boothmock-0123abcd.part", []string{".boothmock-0123abcd.part.jpg", ".boothmock-notes.part", "boothmock-0123abcd.part", ".boothmock-0123ABCD.part"}
	for _, name := range append(lookalikes, dead, "sub/"+dead) {
		put(t, filepath.Join(dir, name), "half")
	}
	put(t, filepath.Join(dir, ".boothmock-11111111.part", "inside"), "a folder is nobody's litter")
	if err := os.Mkdir(filepath.Join(dir, ".boothmock-22222222.part"), 0o755); err != nil {
		t.Fatal(err)
	}
	living := files(t, dir)
	if err := living.Rewrite("living", text("living")); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Lstat(filepath.Join(dir, dead)); err == nil {
		t.Error("the litter is still there")
	}
	next := files(t, dir)
	if err := next.Rewrite("sub/next", text("next")); err != nil {
		t.Fatal(err)
	}
	if err := next.Rewrite("next", text("next")); err != nil {
		t.Fatal(err)
	}
	for _, s := range []*Files{next, living} {
		if err := s.Keep(); err != nil {
			t.Error(err)
		}
	}
	is(t, dir+"/living", "living")
	want := append(lookalikes, ".boothmock-11111111.part", ".boothmock-11111111.part/inside", ".boothmock-22222222.part", "living", "next", "sub", "sub/next")
	slices.Sort(want)
	got := listing(t, dir)
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("the folder has\n%v, want\n%v", got, want)
	}
}

// Many runs write the same files at once: each succeeds, and every file is one of theirs, whole.
func TestManyAtOnce(t *testing.T) {
	dir := t.TempDir()
	var wg sync.WaitGroup
	for run := range 4 {
		wg.Go(func() {
			for n := range 10 {
				s, err := In(dir)
				if err != nil {
					t.Error(err)
					return
				}
				for k := range 3 {
					if err := s.Rewrite(fmt.Sprintf("sub/%d", k), text(strings.Repeat(fmt.Sprint(run), 20_000+n))); err != nil {
						t.Error(err)
					}
				}
				if err := s.Keep(); err != nil {
					t.Error(err)
				}
				s.Close()
			}
		})
	}
	wg.Wait()
	if l := listing(t, dir); len(l) != 4 {
		t.Errorf("the folder has %v", l)
	}
	for k := range 3 {
		b, err := os.ReadFile(fmt.Sprintf("%s/sub/%d", dir, k))
		if err != nil || len(b) < 20_000 || strings.Trim(string(b), string(b[:1])) != "" {
			t.Errorf("file %d is of several: %d bytes, %v", k, len(b), err)
		}
	}
}

func TestWhatLeadsOutIsNotRead(t *testing.T) {
	dir, out := t.TempDir(), t.TempDir()
	put(t, out+"/secret", "secret")
	put(t, dir+"/in/a", "a")
	for name, to := range map[string]string{"file": out + "/secret", "folder": out, "up": "../" + filepath.Base(out) + "/secret", "good": "in/a"} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip(err)
		}
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	for _, name := range []string{"file", "folder/secret", "up", "../" + filepath.Base(out) + "/secret", out + "/secret"} {
		if b, err := Read(Folder{Root: root}, name, 100); err == nil {
			t.Errorf("%s was read: %q", name, b)
		}
	}
	if b, err := Read(Folder{Root: root}, "good", 100); err != nil || string(b) != "a" {
		t.Errorf("a link within the folder: %q, %v", b, err)
	}
	if _, err := Read(Folder{Root: root}, "in", 100); !errors.Is(err, ErrFolder) {
		t.Errorf("a folder: %v", err)
	}
}

// While somebody keeps exchanging a file, and a folder, for links to a secret, the secret is never read.
func TestLinksExchangedMeanwhile(t *testing.T) {
	dir, out := t.TempDir(), t.TempDir()
	put(t, out+"/a", "secret")
	put(t, dir+"/good/a", "good")
	for _, name := range []string{"file", "folder"} {
		if err := os.Symlink("good", filepath.Join(dir, name)); err != nil {
			t.Skip(err)
		}
	}
	stop := make(chan bool)
	var wg sync.WaitGroup
	wg.Go(func() {
		for n := 0; ; n++ {
			select {
			case <-stop:
				return
			default:
			}
			for name, to := range map[string][2]string{"file": {"good/a", out + "/a"}, "folder": {"good", out}} {
				os.Symlink(to[n%2], filepath.Join(dir, "next"))
				os.Rename(filepath.Join(dir, "next"), filepath.Join(dir, name))
			}
		}
	})
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	read := 0
	for range 3000 {
		for _, name := range []string{"file", "folder/a"} {
			b, err := Read(Folder{Root: root}, name, 100)
			if err == nil {
				read++
			}
			if err == nil && string(b) != "good" {
				t.Fatalf("%s was read: %q", name, b)
			}
		}
	}
	close(stop)
	wg.Wait()
	if read == 0 {
		t.Error("nothing was read at all")
	}
}

// changingFS has a file that grows, or is written over, after its first bytes were read.
type changingFS struct {
	fs.FS
	path  string
	times int
}

func (c *changingFS) Open(name string) (fs.File, error) {
	f, err := c.FS.Open(name)
	return &changed{f, c}, err
}

type changed struct {
	fs.File
	of *changingFS
}

func (c *changed) Read(p []byte) (int, error) {
	n, err := c.File.Read(p[:min(len(p), 10)])
	if c.of.times > 0 && err == nil {
		c.of.times--
		os.WriteFile(c.of.path, []byte(strings.Repeat("new", 10+rand.IntN(10)+10*c.of.times)), 0o644)
	}
	return n, err
}

func TestAFileThatChangesWhileItIsRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	for _, times := range []int{1, 1000} {
		put(t, path, strings.Repeat("old", 5))
		b, err := Read(&changingFS{os.DirFS(filepath.Dir(path)), path, times}, "a", 100_000)
		if s := string(b); err == nil && strings.Contains(s, "old") && strings.Contains(s, "new") {
			t.Errorf("changed %d times: half of this and half of that: %q", times, s)
		} else if (err == nil) != (times == 1) {
			t.Errorf("changed %d times: %q, %v", times, s, err)
		}
	}
}
