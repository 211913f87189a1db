package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/imprint"
)

const (
	oursText = "<!doctype html>\n" + imprint.HTML + "\nours"
	newText  = "<!doctype html>\n" + imprint.HTML + "\nnew"
)

// What is there stays, unless this program made it or --replace says so; whoever is refused reads what is there and what to
// type.
func TestForeignFilesStay(t *testing.T) {
	dir := t.TempDir()
	for name, file := range map[string]string{
		"png.html": "\x89PNG\r\n\x1a\n", "jpeg.html": "\xff\xd8\xff\xe0", "pdf.html": "%PDF-1.4", "page.html": "<!doctype html>", "svg.html": "<svg ",
		"json.html": "{}", "glb.html": "glTF", "gif.html": "GIF89a", "webp.html": "RIFF", "notes.html": "notes", "empty.html": "",
	} {
		put(t, filepath.Join(dir, name), file)
		err := Write(filepath.Join(dir, name), Over{Ends: []string{".html"}}, text(newText))
		what, _ := imprint.Of([]byte(file))
		want := name + " was not written: " + what + " that boothmock did not make is there (write --replace to replace it, or give --out another name)"
		if !errors.Is(err, fs.ErrExist) || !strings.HasSuffix(err.Error(), want) {
			t.Errorf("%s: %v, want %s", name, err, want)
		}
		is(t, filepath.Join(dir, name), file)
		if err := Write(filepath.Join(dir, name), Over{Ends: []string{".html"}, Replace: true}, text(newText)); err != nil {
			t.Error(err)
		}
		is(t, filepath.Join(dir, name), newText)
	}
	put(t, dir+"/ours.html", oursText)
	if err := Write(dir+"/ours.html", Over{}, text(newText)); err != nil {
		t.Error(err)
	}
	is(t, dir+"/ours.html", newText)
}

// A file of a gigabyte, as of a film, is not read to learn whose it is, even if it begins as an output does.
func TestALargeFileIsNotRead(t *testing.T) {
	path := t.TempDir() + "/film.html"
	put(t, path, oursText)
	if err := os.Truncate(path, 1<<30); err != nil { // all holes: it takes no room on the disk
		t.Skip(err)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	err := Write(path, Over{}, text(newText))
	runtime.ReadMemStats(&after)
	if err == nil || !strings.Contains(err.Error(), "a large file that boothmock did not make is there") {
		t.Errorf("%v", err)
	}
	if read := after.TotalAlloc - before.TotalAlloc; read > 1<<20 {
		t.Errorf("%d bytes were taken for it", read)
	}
}

// A link is nobody's output; with --replace the link goes, and what it leads to stays.
func TestALinkInTheWay(t *testing.T) {
	dir := t.TempDir()
	put(t, dir+"/there.html", oursText)
	for name, to := range map[string]string{"a.html": "there.html", "b.html": "nowhere"} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip(err)
		}
		if err := Write(filepath.Join(dir, name), Over{}, text(newText)); err == nil || !strings.Contains(err.Error(), "a link that boothmock did not make is there") {
			t.Errorf("%s: %v", name, err)
		}
		if err := Write(filepath.Join(dir, name), Over{Replace: true}, text(newText)); err != nil {
			t.Error(err)
		}
		is(t, filepath.Join(dir, name), newText)
	}
	is(t, dir+"/there.html", oursText)
}

// What the run has read is never written over, though it were ours, whatever leads to it.
func TestInputsStay(t *testing.T) {
	dir := t.TempDir()
	put(t, dir+"/art/Heron.html", oursText)
	put(t, dir+"/out/x", "")
	input := filepath.Join(dir, "art", "Heron.html")
	ways := []string{"art/Heron.html", "art/../art/Heron.html", "./art/./Heron.html", "out/../art/Heron.html", "art/heron.html", "art/HERON.HTML"}
	for _, l := range []struct {
		make     func(string, string) error
		to, name string
	}{{os.Link, input, "out/hard.html"}, {os.Symlink, input, "out/soft.html"}, {os.Symlink, "../art/Heron.html", "out/near.html"}, {os.Symlink, filepath.Join(dir, "art"), "linked"}} {
		if err := l.make(l.to, filepath.Join(dir, l.name)); err != nil {
			t.Skip(err)
		}
		ways = append(ways, l.name)
	}
	ways[len(ways)-1] = "linked/Heron.html"
	t.Chdir(dir)
	before := listing(t, dir)
	for _, inputs := range []string{input, "art/Heron.html", "./out/../art/Heron.html"} {
		for _, way := range ways {
			for _, replace := range []bool{false, true} {
				for _, path := range []string{way, filepath.Join(dir, way)} {
					over := Over{Inputs: []string{"gone.yaml", inputs}, Replace: replace}
					err := Write(path, over, text(newText))
					if err == nil || !strings.Contains(err.Error(), inputs+" is what the booth is made from, and is never replaced") {
						t.Errorf("%s, replace %t: %v", path, replace, err)
					}
					if err := over.Check(path); err == nil {
						t.Errorf("%s may be written, it says", path)
					}
				}
			}
		}
	}
	is(t, input, oursText)
	if after := listing(t, dir); !slices.Equal(before, after) {
		t.Errorf("there was %v and is %v", before, after)
	}
	if err := Write("out/Heron.html", Over{Inputs: []string{input}}, text(newText)); err != nil {
		t.Errorf("a file of that name in another folder: %v", err)
	}
}

// A file whose number was an input's, until another run replaced that input, is no input.
func TestANumberThatWasGivenAgain(t *testing.T) {
	dir := t.TempDir()
	put(t, dir+"/shelf", "worked out")
	g := Over{Inputs: []string{dir + "/shelf"}}.guard()
	if err := os.Rename(dir+"/shelf", dir+"/pack.pdf"); err != nil {
		t.Fatal(err)
	}
	put(t, dir+"/shelf", "worked out anew")
	if input, ok := g.input(dir + "/pack.pdf"); ok {
		t.Errorf("it is taken for %s", input)
	}
	if _, ok := g.input(dir + "/shelf"); !ok {
		t.Error("the input is none any more")
	}
}

func TestExtensions(t *testing.T) {
	dir := t.TempDir()
	for name, ok := range map[string]bool{"a.htm": true, "a.HTML": true, "a.pdf": false, "a": false, "a.html.yaml": false, ".html": true} {
		err := Write(filepath.Join(dir, name), Over{Ends: []string{".html", ".htm"}, Replace: true}, text(newText))
		if (err == nil) != ok {
			t.Errorf("%s: %v", name, err)
		}
		if want := "a name that ends in .html or .htm (write --out " + filepath.Join(dir, "a.html") + ")"; name == "a.pdf" && !strings.HasSuffix(err.Error(), want) {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// What comes while the output is being made is looked at too.
func TestWhatAppearsMeanwhile(t *testing.T) {
	dir := t.TempDir()
	for name, c := range map[string]struct {
		file string
		ok   bool
	}{"theirs.html": {"theirs", false}, "ours.html": {oursText, true}} {
		s := files(t, dir)
		if err := s.Write(name, Over{}, text(newText)); err != nil {
			t.Fatal(err)
		}
		put(t, filepath.Join(dir, name), c.file)
		err := s.Keep()
		s.Close()
		if (err == nil) != c.ok {
			t.Errorf("%s: %v", name, err)
		}
		if !c.ok {
			is(t, filepath.Join(dir, name), c.file)
		}
	}
}
