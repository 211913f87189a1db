package art

import (
	"bytes"
	"crypto/sha256"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// Nothing of anybody else's is cleared away: not beside the shelf, not on it, and not where a link leads.
func TestTheShelfTakesOnlyItsOwn(t *testing.T) {
	long := time.Now().Add(-90 * 24 * time.Hour)
	own := strings.Repeat("0", 32)
	for _, linked := range []bool{false, true} {
		f, dir := folder(t)
		at := filepath.Join(dir, Shelf)
		if linked {
			if err := os.Symlink("photos", at); err != nil {
				t.Skip(err)
			}
			at = filepath.Join(dir, "photos")
		}
		if err := os.Mkdir(at, 0o755); err != nil {
			t.Fatal(err)
		}
		for _, name := range []string{"heron.jpg", "notes", own, own + ".part-77"} {
			if err := os.WriteFile(filepath.Join(at, name), []byte("x"), 0o600); err != nil {
				t.Fatal(err)
			}
			if err := os.Chtimes(filepath.Join(at, name), long, long); err != nil {
				t.Fatal(err)
			}
		}
		f.keep(Shelf+"/"+strings.Repeat("1", 32), note{picture: []byte("new")})
		left, _ := filepath.Glob(filepath.Join(at, "*"))
		for i := range left {
			left[i] = filepath.Base(left[i])
		}
		want := strings.Repeat("1", 32) + " heron.jpg notes"
		if linked {
			want = own + " " + own + ".part-77 heron.jpg notes"
		}
		if got := strings.Join(left, " "); got != want {
			t.Errorf("linked %t: %s is left, want %s", linked, got, want)
		}
	}
}

// What somebody has laid on the shelf under the right name, and with the right sum, counts only if it could be ours.
func TestAForgedShelf(t *testing.T) {
	f, dir := folder(t)
	if err := os.WriteFile(filepath.Join(dir, "a.jpg"), asJPEG(t, photograph(600, 360)), 0o600); err != nil {
		t.Fatal(err)
	}
	w := Wish{Name: "a.jpg", Side: 300}
	var huge bytes.Buffer
	if err := png.Encode(&huge, image.NewGray(image.Rect(0, 0, MaxSide+1, 1))); err != nil {
		t.Fatal(err)
	}
	for _, forged := range [][]byte{huge.Bytes(), []byte("no picture")} {
		sum := sha256.Sum256(forged)
		name := filepath.Join(dir, w.kept(must(t, filepath.Join(dir, "a.jpg"))))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, append(sum[:], forged...), 0o600); err != nil {
			t.Fatal(err)
		}
		if im, err := Load(f, w); err != nil || im.Width != 300 {
			t.Errorf("%d bytes were taken from the shelf: %v", len(forged), err)
		}
	}
}

// Several runs keep the same pictures at once, and another has been killed there before.
func TestTheShelfIsSharedAtOnce(t *testing.T) {
	f, dir := folder(t)
	for _, name := range []string{"a.jpg", "b.jpg"} {
		if err := os.WriteFile(filepath.Join(dir, name), asJPEG(t, photograph(600, 360+len(name)*int(name[0]-'a'))), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	litter := filepath.Join(dir, Shelf, ".boothmock-00000000.part")
	if err := os.Mkdir(filepath.Dir(litter), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(litter, []byte("half"), 0o644); err != nil {
		t.Fatal(err)
	}
	var wg sync.WaitGroup
	for range 6 {
		wg.Go(func() {
			for _, name := range []string{"a.jpg", "b.jpg"} {
				if im, err := Load(f, Wish{Name: name, Side: 300}); err != nil || im.Width != 300 {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
	entries, err := os.ReadDir(filepath.Join(dir, Shelf))
	if err != nil || len(entries) != 2 {
		t.Errorf("on the shelf: %v, %v", entries, err)
	}
	for _, e := range entries {
		b := must(t, filepath.Join(dir, Shelf, e.Name()))
		if sum := sha256.Sum256(b[sha256.Size:]); !bytes.Equal(sum[:], b[:sha256.Size]) {
			t.Errorf("%s is not whole", e.Name())
		}
	}
}
