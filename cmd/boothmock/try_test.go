package main

import (
	"bufio"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Photographs alone are tried in a booth with bare walls, and no list is asked for.
func TestPhotographsAloneAreTried(t *testing.T) {
	dir := t.TempDir()
	photograph, err := os.ReadFile("../../scenes/art/heron.jpg")
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, "heron.jpg"), photograph, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	ctx, end := context.WithCancel(t.Context())
	defer end()
	r, w := io.Pipe()
	c := command()
	c.SetArgs([]string{"try", dir, "--no-browser", "--units", "cm"})
	c.SetOut(w)
	done := make(chan error)
	go func() {
		err := c.ExecuteContext(ctx)
		w.Close()
		done <- err
	}()
	shown := false
	for lines := bufio.NewScanner(r); lines.Scan(); {
		if strings.HasPrefix(lines.Text(), "Your booth is at http://127.0.0.1:") {
			shown = true
			end()
		}
	}
	if err := <-done; !shown || !errors.Is(err, context.Canceled) {
		t.Fatalf("the page was shown: %v; it ended with %v", shown, err)
	}
	scene, err := os.ReadFile(filepath.Join(dir, "booth.yaml"))
	if _, list := os.Stat(filepath.Join(dir, "works.csv")); err != nil || !strings.Contains(string(scene), "units: cm") || !errors.Is(list, os.ErrNotExist) {
		t.Errorf("the folder has this scene, and a list (%v): %v\n%s", list, err, scene)
	}
}
