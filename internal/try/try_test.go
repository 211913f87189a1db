package try_test

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"boothmock/internal/job"
	"boothmock/internal/try"
	"boothmock/scenes"
)

// laid lays the demo, with its photographs, into a folder of the test.
func laid(t *testing.T) (path string) {
	t.Helper()
	dir := t.TempDir()
	err := fs.WalkDir(scenes.FS, "art", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		return put(filepath.Join(dir, name), name)
	})
	path = filepath.Join(dir, "booth.yaml")
	if err == nil {
		err = put(path, scenes.Demo)
	}
	if err != nil {
		t.Fatal(err)
	}
	return path
}

func put(path, name string) error {
	b, err := scenes.FS.ReadFile(name)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, b, 0o644)
}

// session tries the demo in a folder of the test.
func session(t *testing.T) (s *try.Session, path string) {
	t.Helper()
	path = laid(t)
	return tryAt(t, path), path
}

func tryAt(t testing.TB, path string) *try.Session {
	t.Helper()
	s, err := try.Open(path, job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s
}

// serve is the address of a session's page, as long as the test runs.
func serve(t *testing.T, s *try.Session) string {
	t.Helper()
	v, err := try.Serve(s)
	if err != nil {
		t.Fatal(err)
	}
	running, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() { v.Run(running); close(done) }()
	t.Cleanup(func() { stop(); <-done })
	return v.Address
}
