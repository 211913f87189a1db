package disk

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

const (
	rounds = 20 // folders in which two processes give names at one time
	each   = 30 // files
)

// TestChildNames is such a process: it writes files of its letter into each folder, and when the other one has too, they get
// their names.
func TestChildNames(t *testing.T) {
	letter := os.Getenv("DISK_TEST_LETTER")
	if letter == "" {
		t.Skip("it is for the test that runs two of it")
	}
	dir := os.Getenv("DISK_TEST_DIR")
	for round := range rounds {
		s, err := In(filepath.Join(dir, fmt.Sprint(round)))
		if err != nil {
			t.Fatal(err)
		}
		for i := range each {
			if err := s.Rewrite(fmt.Sprint(i), func(w io.Writer) error { _, err := io.WriteString(w, letter); return err }); err != nil {
				t.Fatal(err)
			}
		}
		ready := func(letter string) string { return filepath.Join(dir, fmt.Sprint(letter, round)) }
		if err := os.WriteFile(ready(letter), nil, 0o644); err != nil {
			t.Fatal(err)
		}
		other := map[string]string{"a": "b", "b": "a"}[letter]
		for begun := time.Now(); time.Since(begun) < time.Minute; { // without sleep, so that both begin at once
			if _, err := os.Stat(ready(other)); err == nil {
				break
			}
		}
		if err := s.Keep(); err != nil {
			t.Fatal(err)
		}
		s.Close()
	}
}

// When two runs give names in one folder at the same time, one comes after the other: the files are all of one run.
func TestNamesAreNotMixed(t *testing.T) {
	dir := t.TempDir()
	var running []*exec.Cmd
	for _, letter := range []string{"a", "b"} {
		c := exec.Command(os.Args[0], "-test.run=^TestChildNames$")
		c.Env = append(os.Environ(), "DISK_TEST_DIR="+dir, "DISK_TEST_LETTER="+letter)
		c.Stderr = os.Stderr
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		running = append(running, c)
	}
	for _, c := range running {
		if err := c.Wait(); err != nil {
			t.Error(err)
		}
	}
	for round := range rounds {
		all := ""
		for i := range each {
			b, err := os.ReadFile(filepath.Join(dir, fmt.Sprint(round), fmt.Sprint(i)))
			if err != nil {
				t.Fatal(err)
			}
			all += string(b)
		}
		if all != strings.Repeat(all[:1], each) {
			t.Errorf("the files are of both runs: %s", all)
		}
	}
}
