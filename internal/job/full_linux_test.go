package job_test

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/imprint"
	"boothmock/internal/job"
)

// The disk has room for some files of a build and not for all: none of them is there afterwards, and those of the build
// before are untouched.
func TestABuildWithoutRoom(t *testing.T) {
	dir := t.TempDir()
	putAll(t, dir, map[string]string{"booth.yaml": tiny, "page": strings.Repeat("<p>a page</p>\n", 100_000) + "</html>\n"})
	small, page := small(t, filepath.Join(dir, "booth.yaml"))
	full := filepath.Join(dir, "disk")
	putAll(t, full, map[string]string{"x": ""})
	if err := syscall.Mount("none", full, "tmpfs", 0, "size=1m"); err != nil {
		if os.Getenv("REQUIRE_TOOLS") != "" {
			t.Fatal(err)
		}
		t.Skip("this needs root, to mount a disk: ", err)
	}
	defer syscall.Unmount(full, syscall.MNT_DETACH)
	out, earlier := filepath.Join(full, "mockup"), "<!doctype html>\n"+imprint.HTML
	set, err := disk.NewSet(out, "mockup", []string{"entrance.png", "set-up/share.html"}, disk.Over{})
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"entrance.png", "set-up/share.html"} {
		if err := set.Write(name, func(w io.Writer) error { _, err := io.WriteString(w, earlier); return err }); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := set.Keep(); err != nil {
		t.Fatal(err)
	}
	set.Close()
	whole := 0
	_, err = job.WriteAll(context.Background(), small, out, fewOutputs(small, page), disk.Over{}, func(string) { whole++ })
	if err == nil || !strings.Contains(err.Error(), "share.html was not written: the disk is full") {
		t.Fatalf("the error is %v", err)
	}
	if whole < 5 {
		t.Errorf("only %d files were whole when there was no more room", whole)
	}
	got := names(t, full)
	if want := "mockup/contents.json mockup/entrance.png mockup/set-up/share.html"; strings.Join(got, " ") != want {
		t.Errorf("there is %v, want %s", got, want)
	}
	for _, name := range got {
		if b, err := os.ReadFile(filepath.Join(full, name)); string(b) != earlier && filepath.Ext(name) != ".json" {
			t.Errorf("%s was touched: %v", name, err)
		}
	}
}
