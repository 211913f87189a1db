package job_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"boothmock/internal/job"
)

// The disk has room for some files of a build and not for all: none of them is there afterwards, and those of the build
// before are untouched.
func TestABuildWithoutRoom(t *testing.T) {
	dir := t.TempDir()
	putAll(t, dir, map[string]string{"booth.yaml": tiny, "page": strings.Repeat("<p>a page</p>\n", 100_000) + "</html>\n"})
	small, page := small(t, filepath.Join(dir, "booth.yaml"))
	disk := filepath.Join(dir, "disk")
	putAll(t, disk, map[string]string{"x": ""})
	if err := syscall.Mount("none", disk, "tmpfs", 0, "size=1m"); err != nil {
		if os.Getenv("REQUIRE_TOOLS") != "" {
			t.Fatal(err)
		}
		t.Skip("this needs root, to mount a disk: ", err)
	}
	defer syscall.Unmount(disk, syscall.MNT_DETACH)
	putAll(t, disk, map[string]string{"mockup/entrance.png": "earlier", "mockup/set-up/share.html": "earlier"})
	whole := 0
	err := job.WriteAll(context.Background(), small, filepath.Join(disk, "mockup"), fewOutputs(small, page), func(string) { whole++ })
	if err == nil || !strings.Contains(err.Error(), "share.html was not written: the disk is full") {
		t.Fatalf("the error is %v", err)
	}
	if whole < 5 {
		t.Errorf("only %d files were whole when there was no more room", whole)
	}
	got := names(t, disk)
	if want := "mockup/entrance.png mockup/set-up/share.html"; strings.Join(got, " ") != want {
		t.Errorf("there is %v, want %s", got, want)
	}
	for _, name := range got {
		if b, err := os.ReadFile(filepath.Join(disk, name)); string(b) != "earlier" {
			t.Errorf("%s was touched: %v", name, err)
		}
	}
}
