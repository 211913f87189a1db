package job_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"encoding/json"
	"errors"
	"image/png"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"boothmock/internal/job"
	"boothmock/internal/pack"
	"boothmock/internal/picture"
)

const tiny = `units: in
pitch: {width: 8ft, depth: 6ft, aisle: 10ft}
walls: [{side: back, hang on: panel, top: 82}]
works: [{name: a, size: 24 x 36, weight: 6lb, wall: back}]
`

// fewOutputs are outputs of a build of which every kind of file is one, with pictures so small that fifty builds take seconds.
func fewOutputs(m *job.Made, page []byte) []job.Output {
	var out []job.Output
	for _, d := range job.Pictures(m.Plan)[:3] {
		out = append(out, job.Output{Name: d.Name + ".png", Write: func(m *job.Made, w io.Writer) error {
			return picture.WritePNG(w, d.Draw(m, job.Look{Options: picture.Options{Width: 96, Height: 54}}))
		}})
	}
	for _, o := range job.Outputs(m) {
		switch o.Name {
		case "booth.glb", "findings.json", "hang.json", "rehearse.json", "timeline.svg":
			out = append(out, o)
		}
	}
	return append(out,
		job.Output{Name: "print-pack.pdf", Write: func(m *job.Made, w io.Writer) error {
			return pack.Write(w, m.Plan, m.Sheet, pack.Options{})
		}},
		job.Output{Name: "set-up/share.html", Write: func(m *job.Made, w io.Writer) error { _, err := w.Write(page); return err }})
}

// TestChildBuilds is the process that is killed: it builds in the folder that the environment names.
func TestChildBuilds(t *testing.T) {
	dir := os.Getenv("JOB_TEST_BUILDS_IN")
	if dir == "" {
		t.Skip("it is for the tests that kill it")
	}
	m, page := small(t, dir)
	if err := job.WriteAll(context.Background(), m, filepath.Join(dir, "mockup"), fewOutputs(m, page), func(string) {}); err != nil {
		t.Fatal(err)
	}
}

// small is the booth of the scene in a folder, and a page that was made of it.
func small(t *testing.T, dir string) (*job.Made, []byte) {
	t.Helper()
	p, err := job.Load(filepath.Join(dir, "booth.yaml"), job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := job.Make(p)
	if err != nil {
		t.Fatal(err)
	}
	page, err := os.ReadFile(filepath.Join(dir, "page"))
	if err != nil {
		t.Fatal(err)
	}
	return m, page
}

func child(dir string) *exec.Cmd {
	c := exec.Command(os.Args[0], "-test.run=^TestChildBuilds$")
	c.Env = append(os.Environ(), "JOB_TEST_BUILDS_IN="+dir)
	return c
}

// broken says what is wrong with a file that should be whole.
func broken(path string) string {
	b, err := os.ReadFile(path)
	if err != nil {
		return err.Error()
	}
	ends := func(s string) string {
		if !bytes.HasSuffix(b, []byte(s)) {
			return "does not end with " + s
		}
		return ""
	}
	switch filepath.Ext(path) {
	case ".png":
		if _, err := png.Decode(bytes.NewReader(b)); err != nil {
			return err.Error()
		}
		return ""
	case ".json":
		if !json.Valid(b) {
			return "no JSON"
		}
		return ""
	case ".glb": // the third word is the length (glTF 2.0, 4.4.2)
		if len(b) < 20 || string(b[:4]) != "glTF" || int(binary.LittleEndian.Uint32(b[8:])) != len(b) {
			return "its length is not what it says"
		}
		return ""
	case ".pdf":
		return ends("%%EOF\n")
	case ".svg":
		return ends("</svg>\n")
	case ".html":
		return ends("</html>\n")
	}
	return "nobody wrote such a file"
}

// A build is killed fifty times, at any moment. Every file is whole, the files of one build are all there or none, and the
// next build takes away what was begun.
func TestKilledAtAnyMoment(t *testing.T) {
	if raced {
		t.Skip("fifty builds take minutes with the race detector")
	}
	dir := t.TempDir()
	for name, text := range map[string]string{"booth.yaml": tiny, "page": "<!doctype html>" + strings.Repeat("<p>a page</p>\n", 50_000) + "</html>\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	out := filepath.Join(dir, "mockup")
	whole := time.Hour
	for range 2 {
		begun := time.Now()
		if b, err := child(dir).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, b)
		}
		whole = min(whole, time.Since(begun))
	}
	want := names(t, out)
	if len(want) != 10 {
		t.Fatalf("a build writes %v", want)
	}
	r := rand.New(rand.NewPCG(1, 2))
	litter, early, late := 0, 0, 0
	for range 50 {
		if r.IntN(3) == 0 {
			os.RemoveAll(out)
		}
		before := names(t, out)
		c := child(dir)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration((0.3 + 0.9*r.Float64()) * float64(whole)))
		c.Process.Kill()
		if err := c.Wait(); err == nil {
			late++
		}
		for _, name := range names(t, out) {
			if strings.HasSuffix(name, ".part") {
				litter++
				continue
			}
			if wrong := broken(filepath.Join(out, name)); wrong != "" {
				t.Errorf("%s: %s", name, wrong)
			}
		}
		if len(before) == 0 && len(names(t, out)) == 0 {
			early++
		}
	}
	t.Logf("a build takes %v; of 50, %d were over before they were killed, %d had not begun; %d files were begun", whole, late, early, litter)
	if litter == 0 {
		t.Error("no build was killed while it wrote")
	}
	if b, err := child(dir).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, b)
	}
	if got := names(t, out); !slices.Equal(got, want) {
		t.Errorf("after the next build there is %v, want %v", got, want)
	}
	if got := names(t, dir); slices.ContainsFunc(got, func(n string) bool { return strings.HasSuffix(n, ".part") }) {
		t.Errorf("litter beside the scene: %v", got)
	}
}

// names are the files in a folder and those below it; there need not be one.
func names(t *testing.T, dir string) []string {
	t.Helper()
	var out []string
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			rel, _ := filepath.Rel(dir, path)
			out = append(out, filepath.ToSlash(rel))
		}
		return err
	})
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		t.Fatal(err)
	}
	return out
}

// Three processes build into one folder at once: each succeeds, and the files are those that one of them makes alone.
func TestBuildsIntoOneFolderAtOnce(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"booth.yaml": tiny, "page": "<p></html>\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	m, page := small(t, dir)
	alone := filepath.Join(dir, "alone")
	if err := job.WriteAll(context.Background(), m, alone, fewOutputs(m, page), func(string) {}); err != nil {
		t.Fatal(err)
	}
	var running []*exec.Cmd
	for range 3 {
		c := child(dir)
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
	together := filepath.Join(dir, "mockup")
	if got, want := names(t, together), names(t, alone); !slices.Equal(got, want) {
		t.Fatalf("there is %v, want %v", got, want)
	}
	for _, name := range names(t, alone) {
		a, err1 := os.ReadFile(filepath.Join(alone, name))
		b, err2 := os.ReadFile(filepath.Join(together, name))
		if err1 != nil || err2 != nil || !bytes.Equal(a, b) {
			t.Errorf("%s is not what one build makes alone", name)
		}
	}
}
