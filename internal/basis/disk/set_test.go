package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boothmock/internal/basis/imprint"
)

// mine is a text of ours.
func mine(s string) string { return "<!doctype html>\n" + imprint.HTML + "\n" + s }

// The files of an earlier set and of the one that takes its place, and what others have put among them.
var (
	earlier = map[string]string{"a": mine("old a"), "b": mine("old b"), "sub/c": mine("old c"), "sub/gone": mine("gone"), "left/only": mine("only")}
	later   = map[string]string{"a": mine("new a"), "b": mine("new b"), "sub/c": mine("new c"), "new/d": mine("new d")}
	theirs  = map[string]string{"notes.txt": "notes", "sub/e.jpg": "photograph", "deep/er/f": "f", ".hidden": "h", "contents.txt": "c"}
)

// able lets the disk do no more than what is named.
func able(can string) {
	exchange, hardLink = swap, (*os.Root).Link
	if !strings.Contains(can, "exchange") {
		exchange = func(*os.File, string, string) error { return errors.ErrUnsupported }
	}
	if !strings.Contains(can, "links") {
		hardLink = func(*os.Root, string, string) error { return errors.ErrUnsupported }
	}
}

// writeSet lets a set take its place in a folder.
func writeSet(dir string, files map[string]string) (*Set, []string, error) {
	names := slices.Sorted(maps.Keys(files))
	s, err := NewSet(dir, "booth", names, Over{})
	if err != nil {
		return nil, nil, err
	}
	defer s.Close()
	for _, name := range names {
		if err := s.Write(name, text(files[name])); err != nil {
			return s, nil, err
		}
	}
	stayed, err := s.Keep()
	return s, stayed, err
}

// found are the files below a folder with their texts, but for the list of contents; nil if there is none.
func found(t *testing.T, dir string) map[string]string {
	t.Helper()
	if _, err := os.Lstat(dir); err != nil {
		return nil
	}
	out := map[string]string{}
	for _, name := range listing(t, dir) {
		b, err := os.ReadFile(filepath.Join(dir, name))
		if err == nil && name != ContentsFile {
			out[name] = string(b)
		}
	}
	return out
}

func joined(a, b map[string]string) map[string]string {
	out := maps.Clone(a)
	maps.Copy(out, b)
	return out
}

func TestASetTakesTheWholePlace(t *testing.T) {
	defer able("exchange links")
	for _, can := range []string{"exchange links", "exchange", "links", ""} {
		able(can)
		dir := t.TempDir()
		if err := os.Mkdir(dir+"/home", 0o750); err != nil {
			t.Fatal(err)
		}
		if _, stayed, err := writeSet(dir+"/home", earlier); err != nil || len(stayed) > 0 {
			t.Fatal(err, stayed)
		}
		if got := found(t, dir+"/home"); !maps.Equal(got, earlier) {
			t.Errorf("there is %v", got)
		}
		for name, s := range theirs {
			put(t, filepath.Join(dir, "home", name), s)
		}
		if err := os.Chmod(dir+"/home/b", 0o600); err != nil {
			t.Fatal(err)
		}
		before, err := os.Stat(dir + "/home")
		if err != nil {
			t.Fatal(err)
		}
		_, stayed, err := writeSet(dir+"/home", later)
		if err != nil || strings.Join(stayed, " ") != "contents.txt deep notes.txt sub/e.jpg" {
			t.Errorf("%v stayed, %v", stayed, err)
		}
		if got, want := found(t, dir+"/home"), joined(later, theirs); !maps.Equal(got, want) {
			t.Errorf("able to %q: there is %v, want %v", can, got, want)
		}
		after, err := os.Stat(dir + "/home")
		if err != nil || after.Mode() != before.Mode() {
			t.Errorf("the folder was %v and is %v", before.Mode(), after.Mode())
		}
		if info, err := os.Stat(dir + "/home/b"); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("b is %v", info.Mode())
		}
		if can == "exchange links" && exchangesHere(t) && !os.SameFile(before, after) {
			t.Error("the folder is another one: who has it open sees it go")
		}
		if _, err := os.Stat(dir + "/home/left"); err == nil {
			t.Error("an empty folder of the earlier set is left")
		}
		if l, _ := os.ReadDir(dir); len(l) != 1 {
			t.Errorf("beside the folder there is %v", l)
		}
	}
}

// A set has a folder of its own: within the one that was asked for, if that holds other things.
func TestWhereASetGoes(t *testing.T) {
	dir := t.TempDir()
	put(t, dir+"/full/notes", "notes")
	put(t, dir+"/fuller/notes", "notes")
	put(t, dir+"/fuller/booth/notes", "notes")
	put(t, dir+"/shown/.DS_Store", "x")
	put(t, dir+"/file", "x")
	put(t, dir+"/other/"+ContentsFile, string(must(list("film", nil))))
	put(t, dir+"/forged/"+ContentsFile, `{"holds": "booth"}`)
	if err := os.Symlink("linked to", dir+"/link"); err != nil {
		t.Skip(err)
	}
	put(t, dir+"/linked to/.x", "")
	for name, want := range map[string]string{
		"new/newer": "new/newer", "shown": "shown", "full": "full/booth", "other": "other/booth", "forged": "forged/booth", "link": "linked to",
		"fuller": "fuller holds other things, which stay as they are, and " + dir + "/fuller/booth holds other things", "file": "a file stands where a folder should be",
	} {
		before := listing(t, dir)
		s, _, err := writeSet(dir+"/"+name, later)
		if err != nil {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("%s: %v, want %s", name, err, want)
			}
			if after := listing(t, dir); !slices.Equal(before, after) {
				t.Errorf("%s: there was %v and is %v", name, before, after)
			}
			continue
		}
		if got := found(t, filepath.Join(dir, want)); len(later) > len(got) || got["a"] != later["a"] {
			t.Errorf("%s: in %s there is %v", name, want, got)
		}
		if (s.Why != "") != strings.HasSuffix(want, "/booth") {
			t.Errorf("%s: in %s as %q", name, s.Dir, s.Why)
		}
	}
	is(t, dir+"/full/notes", "notes")
	if _, _, err := writeSet(dir+"/full", earlier); err != nil { // again into the same
		t.Error(err)
	}
	if l := listing(t, dir+"/full"); len(l) != 10 {
		t.Errorf("there is %v", l)
	}
}

func must(b []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return b
}

// What others have made of a file of the set stays, and nothing else changes then.
func TestASetReplacesOnlyOurs(t *testing.T) {
	for name, c := range map[string]struct{ path, text, want string }{
		"changed":    {"b", "a note", "b was not written: a file that boothmock did not make is there"},
		"other case": {"B", "a note", "B was not written: a file that boothmock did not make is there"},
		"new name":   {"new/d", "a note", "d was not written: a file that boothmock did not make is there"},
		"folder":     {"b/x", "a note", "b was not written: a folder of that name is there"},
		"file":       {"new", "a note", "new was not written: a file stands where a folder should be"},
	} {
		dir := t.TempDir()
		if _, _, err := writeSet(dir+"/home", earlier); err != nil {
			t.Fatal(err)
		}
		if name == "folder" {
			os.Remove(dir + "/home/b")
		}
		put(t, filepath.Join(dir, "home", c.path), c.text)
		before := found(t, dir)
		if _, _, err := writeSet(dir+"/home", later); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
		if after := found(t, dir); !maps.Equal(before, after) {
			t.Errorf("%s: there was %v and is %v", name, before, after)
		}
	}
	// A file of the earlier set that the booth is made from now is none that goes.
	dir := t.TempDir()
	if _, _, err := writeSet(dir+"/home", earlier); err != nil {
		t.Fatal(err)
	}
	for input, names := range map[string][]string{"sub/gone": {"a"}, "a": {"a"}} {
		s, err := NewSet(dir+"/home", "booth", names, Over{Inputs: []string{filepath.Join(dir, "home", input)}, Replace: true})
		if input == "a" {
			if err == nil || !strings.Contains(err.Error(), "is what the booth is made from") {
				t.Errorf("an input may be replaced: %v", err)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Write("a", text(mine("new"))); err != nil {
			t.Fatal(err)
		}
		if _, err := s.Keep(); err != nil {
			t.Fatal(err)
		}
		s.Close()
		is(t, filepath.Join(dir, "home", input), earlier[input])
	}
}

// TestChildSet is a run that kills itself at the step of that number while the later set takes its place.
func TestChildSet(t *testing.T) {
	dir := os.Getenv("DISK_TEST_SET")
	if dir == "" {
		t.Skip("it is for the test that kills it")
	}
	left, err := strconv.Atoi(os.Getenv("DISK_TEST_STEP"))
	if err != nil {
		t.Fatal(err)
	}
	step = func() {
		if left--; left == 0 {
			p, _ := os.FindProcess(os.Getpid())
			p.Kill()
			select {}
		}
	}
	able(os.Getenv("DISK_TEST_ABLE"))
	if _, _, err := writeSet(dir, later); err != nil {
		t.Fatal(err)
	}
}

// killedAt runs TestChildSet and says whether it was killed.
func killedAt(t *testing.T, dir, can string, step int) bool {
	t.Helper()
	c := exec.Command(os.Args[0], "-test.run=^TestChildSet$")
	c.Env = append(os.Environ(), "DISK_TEST_SET="+dir, "DISK_TEST_ABLE="+can, "DISK_TEST_STEP="+fmt.Sprint(step))
	out, err := c.CombinedOutput()
	if err != nil && c.ProcessState.Exited() {
		t.Fatalf("%v\n%s", err, out)
	}
	return err != nil
}

// A run is killed after every single change to the disk while its set takes its place: in the folder are all files of the
// earlier set or all of the later, and everything of others'. Where the disk cannot exchange folders there may be no folder,
// and where it has no links others' files may be on their way. The next run, killed too, and the next but one bring it to its
// end, and nothing else is left. Without KILLS every fifth step is tried after the first few.
func TestKilledAtEveryStep(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for _, can := range []string{"exchange links", "links", "exchange", ""} {
		count := map[string]int{}
		for n, killed := 1, true; killed; n++ {
			if os.Getenv("KILLS") == "" && n > 3 {
				n += 4
			}
			around := t.TempDir()
			dir := filepath.Join(around, "home")
			if _, _, err := writeSet(dir, earlier); err != nil {
				t.Fatal(err)
			}
			for name, s := range theirs {
				put(t, filepath.Join(dir, name), s)
			}
			killed = killedAt(t, dir, can, n)
			for again := range 3 {
				got := found(t, dir)
				set, others := parted(got)
				switch {
				case again == 2 && (!maps.Equal(set, later) || !maps.Equal(others, theirs)),
					strings.Contains(can, "links") && got != nil && !maps.Equal(others, theirs),
					strings.Contains(can, "exchange") && got == nil:
					t.Fatalf("able to %q, killed at step %d, run %d: there is %v", can, n, again, got)
				case got == nil:
					count["none"]++
				case maps.Equal(set, earlier):
					count["old"]++
				case maps.Equal(set, later):
					count["new"]++
				default:
					t.Fatalf("able to %q, killed at step %d, run %d: there is %v", can, n, again, got)
				}
				if again < 2 {
					killedAt(t, dir, can, 1000*again+1+r.IntN(20))
				}
			}
			if l, err := os.ReadDir(around); err != nil || len(l) != 1 {
				t.Fatalf("able to %q, killed at step %d: there is %v", can, n, l)
			}
		}
		t.Logf("able to %q: %v", can, count)
		if count["old"] == 0 || count["new"] == 0 {
			t.Error("one of the two was never found")
		}
	}
}

// parted are the files of a set, and those of others.
func parted(all map[string]string) (set, others map[string]string) {
	set, others = map[string]string{}, map[string]string{}
	for name, text := range all {
		if _, ok := theirs[name]; ok {
			others[name] = text
		} else {
			set[name] = text
		}
	}
	return set, others
}

// Whoever looks while sets keep taking the place, by the list of contents, finds one of the sets, whole.
func TestLookingWhileSetsChange(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "home")
	if _, _, err := writeSet(dir, earlier); err != nil {
		t.Fatal(err)
	}
	stop := make(chan error)
	go func() {
		for n := range 24 {
			if _, _, err := writeSet(dir, []map[string]string{later, earlier}[n%2]); err != nil {
				stop <- err
				return
			}
		}
		stop <- nil
	}()
	seen := map[string]int{}
	for {
		select {
		case err := <-stop:
			if err != nil {
				t.Error(err)
			}
			if seen["later"] == 0 || seen["earlier"] == 0 {
				t.Errorf("seen were %v", seen)
			}
			return
		default:
		}
		root, err := os.OpenRoot(dir)
		if err != nil {
			if exchangesHere(t) || !errors.Is(err, fs.ErrNotExist) {
				t.Fatal(err)
			}
			continue
		}
		listed := contents(root, ".", "booth")
		if listed == nil {
			root.Close()
			continue // it was taken away after it was opened
		}
		for want, files := range map[string]map[string]string{"later": later, "earlier": earlier} {
			if len(files) == len(listed) {
				for name := range files {
					if _, ok := listed[name]; !ok {
						t.Errorf("the list has %v", listed)
					}
				}
				seen[want]++
			}
		}
		root.Close()
	}
}

// exchangesHere is whether this disk exchanges folders at once.
func exchangesHere(t *testing.T) bool {
	root, err := os.OpenRoot(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	root.Mkdir("a", 0o755)
	root.Mkdir("b", 0o755)
	f, err := root.Open(".")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	return swap(f, "a", "b") == nil
}
