package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// TestLayers reads the layer table of DEVELOPERS.md and holds every import of ours, and of the libraries that some
// packages alone may use, against it. Folders of internal stand in the table from the ground up: none may import from a later one.
func TestLayers(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	ours, only := map[string][]string{}, map[string][]string{}
	home, storey := map[string]string{}, map[string]int{}
	for _, line := range strings.Split(string(text), "\n") {
		cells := strings.Split(line, "|")
		if len(cells) != 6 || !strings.HasPrefix(strings.TrimSpace(cells[1]), "`") {
			continue
		}
		name := packageOf(strings.Trim(cells[1], " `"))
		ours[name], home[name] = ticked(cells[3]), path.Dir(strings.Trim(cells[1], " `"))
		if _, known := storey[home[name]]; !known {
			storey[home[name]] = len(storey)
		}
		for _, lib := range ticked(cells[4]) {
			only[lib] = append(only[lib], name)
		}
	}
	if len(ours) < 10 {
		t.Fatalf("the layer table has %d rows", len(ours))
	}
	root := os.DirFS("../..")
	seen := map[string]bool{}
	err = fs.WalkDir(root, ".", func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(file) != ".go" || strings.HasSuffix(file, "_test.go") || file[0] == '.' { // as go build leaves such folders out
			return err
		}
		pkg := packageOf(path.Dir(file))
		allowed, ok := ours[pkg]
		if !ok {
			t.Errorf("%s: package %s is not in the layer table", file, pkg)
			return nil
		}
		if in, ok := strings.CutPrefix(path.Dir(file), "internal/"); ok && path.Dir(in) != home[pkg] {
			t.Errorf("%s: the layer table has %s in %s", file, pkg, home[pkg])
		}
		seen[pkg] = true
		f, err := parser.ParseFile(token.NewFileSet(), filepath.Join("../..", file), nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, i := range f.Imports {
			p, _ := strconv.Unquote(i.Path.Value)
			if mine, ok := strings.CutPrefix(p, "boothmock/"); ok {
				if mine = packageOf(mine); !slices.Contains(allowed, mine) {
					t.Errorf("%s imports %s: the layer table does not let %s", file, mine, pkg)
				}
			}
			for lib, owners := range only {
				if strings.HasPrefix(p, lib) && !slices.Contains(owners, pkg) {
					t.Errorf("%s imports %s: only %s may", file, p, owners)
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for pkg, allowed := range ours {
		if !seen[pkg] {
			t.Errorf("the layer table has %s, and the tree does not", pkg)
		}
		for _, other := range allowed {
			if home[pkg] != "." && storey[home[other]] > storey[home[pkg]] {
				t.Errorf("%s may import %s of a later storey", pkg, other)
			}
		}
	}
}

// packageOf is how the layer table calls a package: those of internal by their last name, which are all different.
func packageOf(dir string) string {
	dir = strings.TrimPrefix(dir, "internal/")
	if strings.HasPrefix(dir, "cmd/") || strings.HasPrefix(dir, "scenes/") {
		return dir
	}
	return path.Base(dir)
}

// shows are the packages that read the booth, or what makes it, and only show or hand on what is there.
var shows = map[string]string{
	"finding": "it is what findings are", "kinds": "it makes the booth, or says as faults why it cannot", "light": "it lights", "picture": "it draws", "drawing": "it draws", "draft": "it lays out what is drawn",
	"film": "it draws", "glb": "it writes the model", "arrange": "it proposes; what the proposal does is asked of the others", "hook": "what it finds is kept on the works, and hang says it",
	"page": "it is handed the report", "pack": "it is handed the report", "job": "it gathers the report", "try": "it shows the report", "compare": "it says how two booths and their reports differ", "cmd/boothmock": "it prints the report",
}

// A reader of the booth that has something to say gives findings, which the report gathers; a new one must choose.
func TestReadersGiveFindings(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	gather, err := os.ReadFile("../../internal/job/mockup.go")
	if err != nil {
		t.Fatal(err)
	}
	readers := 0
	for _, line := range strings.Split(string(text), "\n") {
		cells := strings.Split(line, "|")
		if len(cells) != 6 || !slices.Contains(ticked(cells[3]), "booth") {
			continue
		}
		name := packageOf(strings.Trim(cells[1], " `"))
		if _, only := shows[name]; only {
			continue
		}
		readers++
		how := name + ".Findings("
		if name == "check" {
			how = "m.Checks().Findings"
		}
		again := name + ".Again(" // what an earlier version found is taken over
		if !strings.Contains(string(gather), how) && !strings.Contains(string(gather), again) {
			t.Errorf("%s reads the booth and the report gathers no findings of it: let it give them, or say under shows why it has nothing to say", name)
		}
	}
	if readers < 3 {
		t.Errorf("only %d readers were looked at", readers)
	}
}

// ticked are the words between backquotes.
func ticked(s string) []string {
	var out []string
	for i, w := range strings.Split(s, "`") {
		if i%2 == 1 {
			out = append(out, w)
		}
	}
	return out
}
