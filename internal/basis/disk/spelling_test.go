package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

// é in two spellings is one name, in folders too (Unicode Standard Annex 15, figure 3: U+00E9, and U+0065 U+0301). A file
// that has just the name that was asked for comes first.
func TestSpelling(t *testing.T) {
	const one, two = "caf\u00e9", "cafe\u0301"
	dir := t.TempDir()
	for _, f := range []string{two + "/" + one + ".jpg", "plain.jpg", "both/" + one, "both/" + two} {
		if err := os.MkdirAll(filepath.Dir(filepath.Join(dir, f)), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, f), []byte(f), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	for name, want := range map[string]string{
		one + "/" + two + ".jpg": two + "/" + one + ".jpg", two + "/" + two + ".jpg": two + "/" + one + ".jpg",
		two + "/" + one + ".jpg": two + "/" + one + ".jpg", "both/" + one: "both/" + one, "both/" + two: "both/" + two,
	} {
		if got, err := Read(Folder{Root: root}, name, 100); err != nil || string(got) != want {
			t.Errorf("%+q is %+q (%v), want %+q", name, got, err, want)
		}
	}
	for _, name := range []string{one, "plain.jpeg", one + "/" + one + ".png", "cafe/" + one + ".jpg", "../" + one} {
		if got, err := Read(Folder{Root: root}, name, 100); err == nil || name == "plain.jpeg" && !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%+q is %+q (%v)", name, got, err)
		}
	}
}
