package art

import (
	"bytes"
	"crypto/sha256"
	"os"
	"path/filepath"
	"testing"
	"time"
)

func folder(t *testing.T) (Folder, string) {
	dir := t.TempDir()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	return NewFolder(root), dir
}

func TestShelf(t *testing.T) {
	f, dir := folder(t)
	if err := os.WriteFile(filepath.Join(dir, "a.jpg"), asJPEG(t, photograph(600, 360)), 0o600); err != nil {
		t.Fatal(err)
	}
	w := Wish{Name: "a.jpg", Side: 300}
	first, err := Load(f, w)
	if err != nil {
		t.Fatal(err)
	}
	kept, err := filepath.Glob(filepath.Join(dir, Shelf, "*"))
	if err != nil || len(kept) != 1 {
		t.Fatalf("on the shelf: %v, %v", kept, err)
	}
	again := func(what string) {
		t.Helper()
		second, err := Load(f, w)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Encoded(), second.Encoded()) || !bytes.Equal(first.Pixels().Pix, second.Pixels().Pix) || first.MIME != second.MIME {
			t.Errorf("%s: another picture than the first time", what)
		}
	}
	again("from the shelf")
	good, err := os.ReadFile(kept[0])
	if err != nil {
		t.Fatal(err)
	}
	for what, bytes := range map[string][]byte{"cut short": good[:len(good)/2], "empty": {}, "altered": append([]byte{1}, good[1:]...)} {
		if err := os.WriteFile(kept[0], bytes, 0o600); err != nil {
			t.Fatal(err)
		}
		again(what)
	}
	// What is on the shelf is what is shown: another picture there, with its sum, takes the place of the photograph.
	other, err := encode(photograph(70, 42))
	if err != nil {
		t.Fatal(err)
	}
	f.keep(w.kept(must(t, filepath.Join(dir, "a.jpg"))), note{picture: other})
	if im, err := Load(f, w); err != nil || im.Width != 70 {
		t.Errorf("the shelf was not looked at: %v", err)
	}
	if err := os.RemoveAll(filepath.Join(dir, Shelf)); err != nil {
		t.Fatal(err)
	}
	again("deleted")
	// A file of the wanted size stays as it is and needs no shelf; what nobody used for months is cleared away.
	old := filepath.Join(dir, Shelf, "0123456789abcdef0123456789abcdef")
	if err := os.WriteFile(old, []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	long := time.Now().Add(-90 * 24 * time.Hour)
	if err := os.Chtimes(old, long, long); err != nil {
		t.Fatal(err)
	}
	if _, err := Load(f, Wish{Name: "a.jpg", Side: 360}); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(old); err == nil {
		t.Error("what is old is still there")
	}
	if kept, _ = filepath.Glob(filepath.Join(dir, Shelf, "*")); len(kept) != 2 {
		t.Errorf("two sizes, and on the shelf: %v", kept)
	}
	if _, err := Load(f, Wish{Name: "a.jpg", Side: 600}); err != nil {
		t.Fatal(err)
	}
	notes := 0
	kept, _ = filepath.Glob(filepath.Join(dir, Shelf, "*"))
	for _, name := range kept {
		if len(must(t, name)) == sha256.Size+24 {
			notes++
		}
	}
	if len(kept) != 3 || notes != 1 {
		t.Errorf("of a picture that needs no change a note that it was read is kept, not the picture: %d of %v", notes, kept)
	}
}

// A picture that was read through before is decoded when somebody looks at it, and not to find out whether it can be.
func TestReadThroughBefore(t *testing.T) {
	cut := asJPEG(t, photograph(600, 360))
	cut = cut[:len(cut)/2]
	w := Wish{Name: "a.jpg", Side: 600}
	if _, err := w.decode(cut, nil); err == nil {
		t.Error("half a picture is taken for a whole one")
	}
	if im, err := w.decode(cut, &Mean{}); err != nil || im.Width != 600 || im.Height != 360 {
		t.Errorf("it was decoded: %v", err)
	}
	f, dir := folder(t)
	put := func(file []byte) {
		if err := os.WriteFile(filepath.Join(dir, "a.jpg"), file, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	put(asJPEG(t, photograph(600, 360)))
	first, err := Load(f, w)
	if err != nil {
		t.Fatal(err)
	}
	second, err := Load(f, w)
	if err != nil || !bytes.Equal(first.Encoded(), second.Encoded()) || !bytes.Equal(first.Pixels().Pix, second.Pixels().Pix) || first.Mean() != second.Mean() || second.Mean() != mean(second.Pixels()) {
		t.Errorf("it is another picture than the first time: %v", err)
	}
	put(cut)
	if _, err := Load(f, w); err == nil {
		t.Error("the note of one photograph counts for another")
	}
}

func must(t *testing.T, path string) []byte {
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// A folder in which the shelf cannot be made is no trouble.
func TestNoRoomForAShelf(t *testing.T) {
	f, dir := folder(t)
	if err := os.WriteFile(filepath.Join(dir, Shelf), []byte("a file is in the way"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "a.jpg"), asJPEG(t, photograph(600, 360)), 0o600); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if im, err := Load(f, Wish{Name: "a.jpg", Side: 300}); err != nil || im.Width != 300 {
			t.Error(err)
		}
	}
}

// Two at a time share the room, and one that needs more than all of it waits for the rest.
func TestRoom(t *testing.T) {
	r := newRoom(100)
	a, b := r.take(60), r.take(40)
	got := make(chan func())
	go func() { got <- r.take(1000) }()
	select {
	case <-got:
		t.Fatal("there was no room left")
	case <-time.After(20 * time.Millisecond):
	}
	a()
	b()
	(<-got)()
	r.take(100)()
}
