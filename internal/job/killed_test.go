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
	"strconv"
	"strings"
	"testing"
	"time"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/imprint"
	"boothmock/internal/handout/pack"
	"boothmock/internal/job"
	"boothmock/internal/view/picture"
)

const tiny = `units: in
pitch: {width: 8ft, depth: 6ft, aisle: 10ft, neighbours: none}
walls: [{side: back, hang on: panel, top: 82}]
works: [{name: a, size: 24 x 36, weight: 6lb, wall: back}]
`

// fewOutputs are outputs of a build of which every kind of file is one, with pictures so small that many builds take seconds.
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
	if _, err := job.WriteAll(context.Background(), m, filepath.Join(dir, "mockup"), fewOutputs(m, page), disk.Over{}, func(string) {}); err != nil {
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
	case ".webp": // the second word is the length of what follows it (RFC 9649, 2.4)
		if len(b) < 12 || int(binary.LittleEndian.Uint32(b[4:])) != len(b)-8 {
			return "its length is not what it says"
		}
		return ""
	}
	return "nobody wrote such a file"
}

const pageText = "<!doctype html>\n" + imprint.HTML + "\n"

// Builds of two booths into one folder are killed by turns, at any moment, the later ones when the new folder is about to
// take its place. Every file is whole, the folder holds one of the two builds, all of it, and the next build that comes to
// its end leaves nothing else. KILLS says how often.
func TestKilledAtAnyMoment(t *testing.T) {
	if raced {
		t.Skip("many builds take minutes with the race detector")
	}
	kills, err := strconv.Atoi(os.Getenv("KILLS"))
	if err != nil {
		kills = booths(t, 4, 12)
	}
	dir := t.TempDir()
	putAll(t, dir, map[string]string{"a.yaml": tiny, "b.yaml": strings.Replace(tiny, "24 x 36", "36 x 24", 1), "page": pageText + strings.Repeat("<p>a page</p>\n", 50_000) + "</html>\n"})
	scenes, out := []string{filepath.Join(dir, "a.yaml"), filepath.Join(dir, "b.yaml")}, filepath.Join(dir, "mockup")
	var whole [2][]string
	length := time.Hour
	complete := func(k int) {
		t.Helper()
		begun := time.Now()
		if b, err := child(scenes[k]).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, b)
		}
		length = min(length, time.Since(begun))
		if got := contents(t, out); whole[k] == nil {
			whole[k] = got
		} else if !slices.Equal(got, whole[k]) {
			t.Errorf("a run after one that was killed made other files: %v", got)
		}
		if left := asides(dir); len(left) > 0 {
			t.Errorf("what was begun is still there: %v", left)
		}
	}
	complete(0)
	complete(1)
	if slices.Equal(whole[0], whole[1]) || len(whole[0]) != 11 {
		t.Fatalf("a build writes %v", whole[0])
	}
	for _, name := range names(t, out) {
		if wrong := broken(filepath.Join(out, name)); wrong != "" {
			t.Errorf("%s: %s", name, wrong)
		}
	}
	r := rand.New(rand.NewPCG(1, 2))
	begun, count, now := 0, [2]int{}, 1
	for n := range kills {
		next := 1 - now
		c := child(scenes[next])
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		if n%3 == 2 {
			waitFor(filepath.Join(dir, ".boothmock-*.build", "whole"), length*5)
			time.Sleep(time.Duration(r.IntN(4000)) * time.Microsecond)
		} else {
			time.Sleep(time.Duration((0.2 + 0.9*r.Float64()) * float64(length)))
		}
		c.Process.Kill()
		c.Wait()
		begun += min(1, len(asides(dir)))
		switch got := contents(t, out); {
		case slices.Equal(got, whole[next]):
			count[1]++
			now = next
		case slices.Equal(got, whole[now]):
			count[0]++
		default:
			t.Fatalf("kill %d: the folder holds %v, want %v or %v", n, got, whole[now], whole[next])
		}
		if n%10 == 9 || n == kills-1 {
			complete(1 - now)
			now = 1 - now
		}
	}
	t.Logf("a build takes %v; of %d, %d left something begun; the folder held %d times the build before, %d times the new one", length, kills, begun, count[0], count[1])
	if begun == 0 {
		t.Error("no build was killed while it wrote")
	}
}

// waitFor waits until there is a file of such a name, but not for ever.
func waitFor(pattern string, most time.Duration) {
	for begun := time.Now(); time.Since(begun) < most; {
		if found, _ := filepath.Glob(pattern); len(found) > 0 {
			return
		}
	}
}

// asides are the folders in which builds have begun something.
func asides(dir string) []string {
	found, _ := filepath.Glob(filepath.Join(dir, ".boothmock-*"))
	return found
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
	putAll(t, dir, map[string]string{"a.yaml": tiny, "b.yaml": strings.Replace(tiny, "24 x 36", "36 x 24", 1), "page": pageText + "<p></html>\n"})
	alone := map[string][]string{}
	var running []*exec.Cmd
	for _, scene := range []string{"a.yaml", "b.yaml"} {
		m, page := small(t, filepath.Join(dir, scene))
		out := filepath.Join(dir, "alone", scene)
		if _, err := job.WriteAll(context.Background(), m, out, fewOutputs(m, page), disk.Over{}, func(string) {}); err != nil {
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
