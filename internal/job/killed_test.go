package job_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
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
func fewOutputs(m *job.Mockup, page []byte) []job.Output {
	var out []job.Output
	for _, d := range job.Pictures(m.Plan)[:3] {
		out = append(out, job.Output{Name: d.Name + ".png", Write: func(m *job.Mockup, w io.Writer) error {
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
		job.Output{Name: "print-pack.pdf", Write: func(m *job.Mockup, w io.Writer) error {
			return pack.Write(w, m.Plan, m.Sheet(), pack.Options{})
		}},
		job.Output{Name: "set-up/share.html", Write: func(m *job.Mockup, w io.Writer) error { _, err := w.Write(page); return err }})
}

// TestChildBuilds is the process that is killed: it builds the scene that the environment names, in its folder.
func TestChildBuilds(t *testing.T) {
	scene := os.Getenv("JOB_TEST_BUILDS")
	if scene == "" {
		t.Skip("it is for the tests that kill it")
	}
	dir := filepath.Dir(scene)
	m, page := small(t, scene)
	if err := job.WriteAll(context.Background(), m, filepath.Join(dir, "mockup"), fewOutputs(m, page), func(string) {}); err != nil {
		t.Fatal(err)
	}
}

// small is the booth of a scene, and the page beside it.
func small(t *testing.T, scene string) (*job.Mockup, []byte) {
	t.Helper()
	p, err := job.Load(scene, job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := job.New(p)
	if err != nil {
		t.Fatal(err)
	}
	page, err := os.ReadFile(filepath.Join(filepath.Dir(scene), "page"))
	if err != nil {
		t.Fatal(err)
	}
	return m, page
}

func child(scene string) *exec.Cmd {
	c := exec.Command(os.Args[0], "-test.run=^TestChildBuilds$")
	c.Env = append(os.Environ(), "JOB_TEST_BUILDS="+scene)
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
	case ".jpg": // the end of the image (ISO/IEC 10918-1, B.1.1.3)
		return ends("\xff\xd9")
	case ".gif": // the trailer (GIF89a, 27)
		return ends(";")
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
	scene, out := filepath.Join(dir, "booth.yaml"), filepath.Join(dir, "mockup")
	whole := time.Hour
	for range 2 {
		begun := time.Now()
		if b, err := child(scene).CombinedOutput(); err != nil {
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
		c := child(scene)
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
	if b, err := child(scene).CombinedOutput(); err != nil {
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

// Four processes build two booths into one folder at once: each succeeds, and the files are those of one booth, as a run
// makes them alone.
func TestBuildsIntoOneFolderAtOnce(t *testing.T) {
	dir := t.TempDir()
	putAll(t, dir, map[string]string{"a.yaml": tiny, "b.yaml": strings.Replace(tiny, "24 x 36", "36 x 24", 1), "page": "<p></html>\n"})
	alone := map[string][]string{}
	var running []*exec.Cmd
	for _, scene := range []string{"a.yaml", "b.yaml"} {
		m, page := small(t, filepath.Join(dir, scene))
		out := filepath.Join(dir, "alone", scene)
		if err := job.WriteAll(context.Background(), m, out, fewOutputs(m, page), func(string) {}); err != nil {
			t.Fatal(err)
		}
		alone[scene] = contents(t, out)
		running = append(running, child(filepath.Join(dir, scene)), child(filepath.Join(dir, scene)))
	}
	if slices.Equal(alone["a.yaml"], alone["b.yaml"]) {
		t.Fatal("the two booths are one")
	}
	for _, c := range running {
		c.Stderr = os.Stderr
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range running {
		if err := c.Wait(); err != nil {
			t.Error(err)
		}
	}
	got := contents(t, filepath.Join(dir, "mockup"))
	if !slices.Equal(got, alone["a.yaml"]) && !slices.Equal(got, alone["b.yaml"]) {
		t.Errorf("there is %v, want one of %v", got, alone)
	}
}

// contents are the files in a folder, each with the sum of its bytes.
func contents(t *testing.T, dir string) (out []string) {
	t.Helper()
	for _, name := range names(t, dir) {
		b, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, fmt.Sprintf("%s %x", name, sha256.Sum256(b)))
	}
	return out
}
