package main

import (
	"bytes"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"boothmock/internal/job"
	"boothmock/scenes"
)

// The README is true: its scene can be used, its report is what the program says, its pictures are there.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	readme := string(text)

	dir := t.TempDir()
	for _, image := range []string{"heron.jpg", "alder.jpg"} {
		b, err := fs.ReadFile(scenes.FS, path.Join("art", image))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.MkdirAll(filepath.Join(dir, "art"), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "art", image), b, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	first := regexp.MustCompile("(?s)```yaml\n(.*?)```").FindStringSubmatch(readme)
	if first == nil {
		t.Fatal("no scene")
	}
	if n := strings.Count(first[1], "\n"); n > 12 {
		t.Errorf("the first scene has %d lines", n)
	}
	file := filepath.Join(dir, "booth.yaml")
	if err := os.WriteFile(file, []byte(first[1]), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := job.Load(file, job.Settings{}); err != nil {
		t.Error(err)
	}

	plan, err := job.Load("../../scenes/wrong.yaml", job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	m, err := job.New(plan)
	if err != nil {
		t.Fatal(err)
	}
	plan.File = "scenes/wrong.yaml"
	printReport(&out, m)
	if !strings.Contains(readme, out.String()) {
		t.Errorf("README does not show the report of scenes/wrong.yaml as it is:\n%s", out.String())
	}

	for _, m := range regexp.MustCompile(`!\[[^\]]*\]\(([^)]+)\)`).FindAllStringSubmatch(readme, -1) {
		info, err := os.Stat(filepath.Join("../..", m[1]))
		if err != nil {
			t.Error(err)
		} else if info.Size() > 300<<10 {
			t.Errorf("%s has %d KB", m[1], info.Size()>>10)
		}
	}
	for _, c := range command().Commands() {
		if !c.Hidden && c.Name() != "help" && !strings.Contains(readme, "boothmock "+c.Name()) {
			t.Errorf("README does not speak of boothmock %s", c.Name())
		}
	}
}

// README, go.mod and .ci/known agree on which Go is needed and which is the best to build with.
func TestOneGo(t *testing.T) {
	read := func(name, pattern string) [][]string {
		t.Helper()
		text, err := os.ReadFile(filepath.Join("../..", name))
		if err != nil {
			t.Fatal(err)
		}
		found := regexp.MustCompile(pattern).FindAllStringSubmatch(string(text), -1)
		if len(found) == 0 {
			t.Fatalf("%s has no %s", name, pattern)
		}
		return found
	}
	needed, best := read("go.mod", `(?m)^go (\S+)$`)[0][1], read(".ci/known", `(?m)^export GOTOOLCHAIN=go(\S+)`)[0][1]
	said := map[string]bool{}
	for _, m := range read("README.md", `Go (1\.[\d.]*\d) or newer`) {
		said[m[1]] = true
	}
	if len(said) != 2 || !said[needed] || !said[best] {
		t.Errorf("README asks for Go %v, go.mod for %s and .ci/known for %s", said, needed, best)
	}
}
