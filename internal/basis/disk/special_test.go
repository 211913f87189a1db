//go:build linux

package disk

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// A pipe, a device and a file of a terabyte are refused at once.
func TestSpecialFiles(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mkfifo(filepath.Join(dir, "pipe"), 0o666); err != nil {
		t.Fatal(err)
	}
	names := []string{"pipe", "huge"}
	if os.Getuid() == 0 && syscall.Mknod(filepath.Join(dir, "zero"), syscall.S_IFCHR|0o666, 1<<8|5) == nil {
		names = append(names, "zero")
	} else if os.Getenv("REQUIRE_TOOLS") != "" {
		t.Error("a device cannot be made: root is wanted")
	}
	put(t, filepath.Join(dir, "huge"), "")
	if err := os.Truncate(filepath.Join(dir, "huge"), 1<<40); err != nil {
		t.Skip(err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	for _, name := range names {
		done := make(chan error, 1)
		go func() {
			_, err := Read(Folder{Root: root}, name, 1<<30)
			done <- err
		}()
		select {
		case err := <-done:
			if err == nil || name != "huge" && !strings.Contains(err.Error(), "no ordinary file") || name == "huge" && !errors.Is(err, ErrLarge) {
				t.Errorf("%s: %v", name, err)
			}
		case <-time.After(5 * time.Second):
			t.Fatalf("%s was waited for", name)
		}
	}
	if err := os.Symlink("pipe", filepath.Join(dir, "link")); err != nil {
		t.Fatal(err)
	}
	for _, name := range append(names[:len(names):len(names)], "link") {
		path := filepath.Join(dir, name)
		before, err := os.Lstat(path)
		if err != nil {
			t.Fatal(err)
		}
		if name == "huge" {
			continue
		}
		for _, err := range []error{Write(path, Over{}, text("x")), Write(path, Over{Replace: true}, text("x")), Rewrite(path, text("x"))} {
			if err == nil || !strings.Contains(err.Error(), "no ordinary file") {
				t.Errorf("%s was replaced: %v", name, err)
			}
		}
		if after, err := os.Lstat(path); err != nil || !os.SameFile(before, after) {
			t.Errorf("%s is another one: %v", name, err)
		}
	}
}
