package within_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/job"
	"boothmock/internal/try"
	"boothmock/internal/whole/within"
)

func program(t *testing.T) *within.Program {
	return &within.Program{Home: t.TempDir(), News: func(int) {}, Turn: func() {}}
}

// small is a scene that is soon made.
const small = `units: in
pitch: {width: 10ft, depth: 10ft, neighbours: none}
walls: [{side: back}]
works:
  - {name: weir, title: The weir, size: 24 x 36}
  - {name: carr, title: Alder carr, size: 36 x 24}
rows: [{wall: back, works: [weir, carr]}]
`

func opened(t *testing.T, p *within.Program) within.Reply {
	t.Helper()
	path := filepath.Join(p.Home, "booth.yaml")
	if err := os.WriteFile(path, []byte(small), 0o644); err != nil {
		t.Fatal(err)
	}
	r, _ := do(t, p, within.Ask{Do: "open", Path: path})
	t.Cleanup(p.Close)
	return r
}

func do(t *testing.T, p *within.Program, a within.Ask) (within.Reply, []byte) {
	t.Helper()
	r, file := p.Answer(a)
	if r.Wrong != "" {
		t.Fatalf("%s: %s", a.Do, r.Wrong)
	}
	return r, file
}

// A page opens the demo, changes it and is shut; whoever opens the scene again finds the change, and can take it along.
func TestWhatWasChangedIsThereAgain(t *testing.T) {
	p := program(t)
	r, _ := do(t, p, within.Ask{Do: "demo"})
	if want := filepath.Join(p.Home, "demo", "booth.yaml"); r.Path != want || r.State.File != want {
		t.Fatalf("the demo is in %s, want %s", r.Path, want)
	}
	work := r.State.Works[0].ID
	said, _ := do(t, p, within.Ask{Do: "say", Try: try.Ask{Version: try.Version, Do: "hang", Item: work}})
	if said.Answer.Refused != "" || said.Answer.State.Works[0].Wall == r.State.Works[0].Wall {
		t.Fatalf("the work still hangs: %s", said.Answer.Refused)
	}
	again := &within.Program{Home: p.Home, News: func(int) {}, Turn: func() {}}
	p.Close()
	defer again.Close()
	o, _ := do(t, again, within.Ask{Do: "open", Path: r.Path})
	if o.State.Works[0].Wall != "" || o.State.Saved {
		t.Errorf("the change is lost: %+v", o.State.Works[0])
	}
	if err := os.WriteFile(filepath.Join(filepath.Dir(r.Path), ".boothmock-1.part"), nil, 0o644); err != nil { // what is being written
		t.Fatal(err)
	}
	_, file := do(t, again, within.Ask{Do: "scene"})
	z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range z.File {
		names = append(names, f.Name)
	}
	text, err := z.Open("booth.yaml")
	if err != nil || !slices.Contains(names, "art/heron.jpg") || slices.Contains(names, "art/lemons.jpg") /* which another scene shows */ || slices.ContainsFunc(names, func(n string) bool { return strings.HasPrefix(n, ".boothmock") }) {
		t.Fatalf("in the ZIP are %v: %v", names, err)
	}
	var b bytes.Buffer
	b.ReadFrom(text)
	if on, _ := os.ReadFile(r.Path); b.String() != string(on) || strings.Contains(b.String(), "works: ["+strings.TrimPrefix(string(work), "work/")) {
		t.Error("the scene in the ZIP is not the one that is shown")
	}
}

// A booth that is kept, but is not the one that is open, is taken out as it lies there, and opened again by its folder.
func TestAnotherBoothIsTakenOut(t *testing.T) {
	p := program(t)
	opened(t, p)
	dir := filepath.Join(p.Home, "prints")
	for name, text := range map[string]string{"sunday.yaml": small, "sunday.yaml" + try.UnsavedEnd: small + "event: Two prints\n", ".hidden.yaml": "?"} {
		os.MkdirAll(dir, 0o755)
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	_, file := do(t, p, within.Ask{Do: "scene", Path: dir})
	z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := z.Open("sunday.yaml" + try.UnsavedEnd); err != nil {
		t.Errorf("what was not saved is not taken out: %v", err)
	}
	r, _ := do(t, p, within.Ask{Do: "begin", Path: dir})
	if r.Path != filepath.Join(dir, "sunday.yaml") || r.State.Title == "" || r.State.Saved {
		t.Errorf("opened is %s, %q, saved %v", r.Path, r.State.Title, r.State.Saved)
	}
}

// A folder of photographs alone becomes a booth in which nothing hangs, and that offers them. One of many works waits until somebody is
// sure, and what was open stays open.
func TestBoothsAreBegun(t *testing.T) {
	p := program(t)
	opened(t, p)
	folder := func(name, file, text string) string {
		dir := filepath.Join(p.Home, name)
		os.MkdirAll(dir, 0o755)
		if err := os.WriteFile(filepath.Join(dir, file), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return dir
	}
	photograph, err := os.ReadFile("../../../scenes/art/pears.jpg")
	if err != nil {
		t.Fatal(err)
	}
	r, _ := do(t, p, within.Ask{Do: "begin", Path: folder("prints", "pears.jpg", string(photograph))})
	if r.State == nil || len(r.State.Works) != 0 || len(r.State.Loose) != 1 || r.State.Title != "Prints" {
		t.Errorf("begun is %+v", r.State)
	}
	var works strings.Builder
	for n := range 61 {
		fmt.Fprintf(&works, "  - {name: w%d, size: 8 x 10}\n", n)
	}
	all := folder("all", "booth.yaml", "units: in\npitch: {width: 10ft, depth: 10ft, neighbours: none}\nworks:\n"+works.String())
	if r, _ := do(t, p, within.Ask{Do: "begin", Path: all}); r.Many != 61 || r.State != nil {
		t.Errorf("61 works are opened without a word: %d", r.Many)
	}
	if s, _ := do(t, p, within.Ask{Do: "state"}); s.State.Title != "Prints" {
		t.Errorf("%s is open", s.State.Title)
	}
	if r, _ := do(t, p, within.Ask{Do: "begin", Path: all, Sure: true}); r.State == nil || len(r.State.Works) != 61 {
		t.Error("they are not opened either when somebody is sure")
	}
}

// What is said of saving names nothing that only the page's own disk has.
func TestSavingNamesNoPath(t *testing.T) {
	p := program(t)
	r := opened(t, p)
	do(t, p, within.Ask{Do: "say", Try: try.Ask{Version: try.Version, Do: "hang", Item: r.State.Works[0].ID}})
	a, _ := do(t, p, within.Ask{Do: "say", Try: try.Ask{Version: try.Version, Do: "save"}})
	if !a.Answer.State.Saved || strings.Contains(a.Answer.Said, "booth.yaml") || !strings.Contains(a.Answer.Said, "this browser") {
		t.Errorf("saved is %v, and it says %q", a.Answer.State.Saved, a.Answer.Said)
	}
}

// What the page makes is what a build writes.
func TestFilesAreThoseOfABuild(t *testing.T) {
	p := program(t)
	r := opened(t, p)
	all, _ := do(t, p, within.Ask{Do: "files"})
	plan, err := job.Load(r.Path, job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := job.New(plan)
	if err != nil {
		t.Fatal(err)
	}
	outputs := job.Outputs(m)
	if len(all.Files) != len(outputs) {
		t.Fatalf("%d files, want %d", len(all.Files), len(outputs))
	}
	for i, o := range outputs {
		if all.Files[i].Name != o.Name {
			t.Errorf("file %d is %s, want %s", i, all.Files[i].Name, o.Name)
		}
		if o.Name != "hang.json" && o.Name != "findings.json" {
			continue
		}
		var want bytes.Buffer
		if err := o.Write(m, &want); err != nil {
			t.Fatal(err)
		}
		if _, got := do(t, p, within.Ask{Do: "make", Names: []string{o.Name}}); !bytes.Equal(got, want.Bytes()) {
			t.Errorf("%s is not what a build writes", o.Name)
		}
	}
	_, file := do(t, p, within.Ask{Do: "make", Names: []string{"hang.json", "findings.json"}})
	if z, err := zip.NewReader(bytes.NewReader(file), int64(len(file))); err != nil || len(z.File) != 2 {
		t.Errorf("two files are no ZIP of two: %v", err)
	}
}

// What cannot be opened is said with its place, and what is open stays.
func TestWrongIsSaid(t *testing.T) {
	p := program(t)
	if r, _ := p.Answer(within.Ask{Do: "state"}); r.Wrong == "" {
		t.Error("nothing is open, and there is a state")
	}
	r := opened(t, p)
	bad := filepath.Join(p.Home, "bad.yaml")
	if err := os.WriteFile(bad, []byte("units: in\npitch: {width: 10ft, depht: 10ft}\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	o, _ := p.Answer(within.Ask{Do: "open", Path: bad})
	if !strings.Contains(o.Wrong, bad+":2:") || !strings.Contains(o.Wrong, "depht") {
		t.Errorf("said: %s", o.Wrong)
	}
	if s, _ := do(t, p, within.Ask{Do: "state"}); s.State.File != r.Path {
		t.Errorf("%s is open, want %s", s.State.File, r.Path)
	}
	if r, _ := p.Answer(within.Ask{Do: "dance"}); r.Wrong == "" {
		t.Error("what there is not to do is done")
	}
	empty := filepath.Join(p.Home, "empty")
	os.Mkdir(empty, 0o755)
	if r, _ := p.Answer(within.Ask{Do: "begin", Path: empty}); r.Wrong == "" {
		t.Errorf("an empty folder became a booth: %+v", r)
	}
}

// Whatever the page's scripts ask for, the program knows.
func TestAllAsksAreKnown(t *testing.T) {
	files, err := filepath.Glob("../scripts/*.js")
	if err != nil {
		t.Fatal(err)
	}
	asks := map[string]bool{}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`\bask\(\{do: '(\w+)'`).FindAllStringSubmatch(string(text), -1) {
			asks[m[1]] = true
		}
	}
	p := program(t)
	for ask := range asks {
		if r, _ := p.Answer(within.Ask{Do: ask}); strings.HasPrefix(r.Wrong, `there is no "`) {
			t.Errorf("the page asks for %q: %s", ask, r.Wrong)
		}
	}
	if len(asks) < 8 {
		t.Errorf("only %v are asked for", asks)
	}
}
