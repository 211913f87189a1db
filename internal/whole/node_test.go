//go:build !js

package whole_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	qr "github.com/piglig/go-qr"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/try"
	"boothmock/internal/whole"
)

// What of the pages' scripts needs no page is tried in Node, by tests beside the scripts (*.test.mjs): against values of others,
// and against Go's own, which are written down here for them.
func TestScriptsInNode(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("REQUIRE_TOOLS") != "" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	// A copy, because Node wants to be told beside the scripts that they are modules.
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "package.json"), []byte(`{"type": "module"}`), 0o644); err != nil {
		t.Fatal(err)
	}
	args := []string{"--test"}
	for _, pkg := range []string{"handout/page", "try", "whole"} {
		scripts := filepath.Join(pkg, "scripts")
		if err := os.CopyFS(filepath.Join(folder, scripts), os.DirFS(filepath.Join("..", scripts))); err != nil {
			t.Fatal(err)
		}
		tests, err := filepath.Glob(filepath.Join(folder, scripts, "*.test.mjs"))
		if err != nil || len(tests) == 0 {
			t.Fatalf("%s has no tests of its scripts: %v", pkg, err)
		}
		args = append(args, tests...)
	}
	golden := filepath.Join(folder, "golden.json")
	text, err := json.Marshal(map[string]any{"version": try.Version, "lengths": lengths(), "schedules": schedules(t), "codes": codes(t)})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(golden, text, 0o644); err != nil {
		t.Fatal(err)
	}
	camera, err := filepath.Abs("../basis/camera/testdata/golden.json")
	if err != nil {
		t.Fatal(err)
	}
	run := exec.Command(node, args...)
	run.Env = append(os.Environ(), "GOLDEN="+golden, "CAMERA="+camera)
	if out, err := run.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

// The scripts, joined as a page has them, are such that a browser runs them: where they are not, tests in a browser wait for nothing.
func TestJoinedScriptsAreScripts(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("REQUIRE_TOOLS") != "" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	var b strings.Builder
	if err := whole.Write(&b, whole.Parts{}, ""); err != nil {
		t.Fatal(err)
	}
	scripts := regexp.MustCompile(`(?s)<script( type="text/plain" id="worker")?>(.*?)</script>`).FindAllStringSubmatch(b.String(), -1)
	if len(scripts) != 2 {
		t.Fatalf("the page has %d scripts, and 2 are known here", len(scripts))
	}
	for i, s := range scripts {
		file := filepath.Join(t.TempDir(), fmt.Sprintf("%d.js", i))
		if err := os.WriteFile(file, []byte(s[2]), 0o644); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(node, "--check", file).CombinedOutput(); err != nil {
			t.Errorf("%v\n%s", err, out)
		}
	}
}

// lengths are metres, and how they are written in both systems.
func lengths() (out [][3]any) {
	add := func(m float64) {
		out = append(out, [3]any{m, unit.Length(m).Format(unit.Inches), unit.Length(m).Format(unit.Centimetres)})
	}
	for n := range 201 { // sixteenths of an inch, half of which lie half-way between two that are written, and half millimetres
		add(float64(n-100) * 0.0254 / 16)
		add(float64(n-100) * 0.0005)
	}
	r := rand.New(rand.NewPCG(7, 1))
	for range 300 {
		add(r.Float64()*8 - 4)
	}
	return out
}

type planned struct {
	Number  int      `json:"number"`
	Minutes int      `json:"minutes"`
	Start   int      `json:"start"`
	End     int      `json:"end"`
	After   []int    `json:"after"`
	Who     []string `json:"who"`
	Once    bool     `json:"once"`
}

// schedules are set-ups by chance, rehearsed.
func schedules(t *testing.T) (out [][]planned) {
	r := rand.New(rand.NewPCG(7, 2))
	for range 40 {
		s := booth.SetUp{People: 1 + r.IntN(3)}
		for k := range 3 + r.IntN(8) {
			task := booth.Task{ID: booth.ID(fmt.Sprint("task", k)), Name: "Do it", Crew: 1 + r.IntN(s.People), Minutes: unit.Minutes(1 + r.IntN(30))}
			for before := range k {
				if r.IntN(4) == 0 {
					task.After = append(task.After, booth.ID(fmt.Sprint("task", before)))
				}
			}
			s.Tasks = append(s.Tasks, task)
		}
		rehearsal, err := order.Of(&booth.Plan{SetUp: s}, order.Options{})
		if err != nil {
			t.Fatal(err)
		}
		steps := []planned{}
		for _, k := range rehearsal.Steps {
			steps = append(steps, planned{k.Number, k.Minutes(), k.Start, k.End, append([]int{}, k.After...), k.Who, k.AtOnce})
		}
		out = append(out, steps)
	}
	return out
}

type drawnCode struct {
	Text string   `json:"text"`
	Rows []string `json:"rows"` // 1 for dark
}

// mostBytes are the bytes that versions 1 to 25 hold at level L (ISO/IEC 18004, table 7).
var mostBytes = []int{17, 32, 53, 78, 106, 134, 154, 192, 230, 271, 321, 367, 425, 458, 520, 586, 644, 718, 792, 858, 929, 1003, 1091, 1171, 1273}

// codes are texts, the longest and a shorter one of each version, and their QR codes.
func codes(t *testing.T) (out []drawnCode) {
	r := rand.New(rand.NewPCG(7, 3))
	for i, most := range mostBytes {
		for _, n := range []int{most, most - r.IntN(15)} {
			d := drawnCode{Text: "é"}
			for len(d.Text) < n {
				d.Text += string("practice,step,minutes\n0123456789/"[r.IntN(33)])
			}
			bytes, err := qr.MakeBytes([]byte(d.Text))
			if err != nil {
				t.Fatal(err)
			}
			c, err := qr.EncodeSegments([]*qr.QrSegment{bytes}, qr.Low, 1, 40, -1, false)
			if err != nil || c.Size() != 4*(i+1)+17 {
				t.Fatal(n, err)
			}
			for y := range c.Size() {
				row := make([]byte, c.Size())
				for x := range row {
					row[x] = '0'
					if c.Module(x, y) {
						row[x] = '1'
					}
				}
				d.Rows = append(d.Rows, string(row))
			}
			out = append(out, d)
		}
	}
	return out
}
