package job_test

import (
	"bytes"
	"errors"
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"

	"boothmock/internal/basis/fault"
	"boothmock/internal/find/order"
	"boothmock/internal/handout/pack"
	"boothmock/internal/handout/page"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
)

// What one case may take while fuzzing: a second of a core, of which others may have most. Without a fuzzer nothing is
// timed.
const (
	mostTime   = 4 * time.Second
	mostMemory = 1 << 30 // bytes made in all
)

func fuzzing() bool {
	f := flag.Lookup("test.fuzz")
	return f != nil && f.Value.String() != ""
}

// quick runs a case. While fuzzing it fails if the case is slow, three times over, or makes too much.
func quick(t *testing.T, run func()) {
	if !fuzzing() {
		run()
		return
	}
	least := time.Hour
	for range 3 {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start := time.Now()
		run()
		took := time.Since(start)
		runtime.ReadMemStats(&after)
		if made := after.TotalAlloc - before.TotalAlloc; made > mostMemory {
			t.Fatalf("it makes %d MB", made>>20)
		}
		if least = min(least, took); least <= mostTime {
			return
		}
	}
	t.Fatalf("it takes %v", least)
}

// through puts a booth through everything but pictures and light, and holds what comes out against what must be true of
// any booth.
func through(t *testing.T, p *booth.Plan) *job.Mockup {
	for _, part := range p.Parts {
		for _, c := range part.Solids {
			if err := c.Check(); err != nil {
				t.Errorf("%s: %v", part.ID, err)
			}
		}
		for _, s := range part.Surfaces {
			for _, v := range s.Mesh.Vertices {
				if !v.P.Finite() || !v.N.Finite() || math.IsNaN(v.U+v.V) || math.IsInf(v.U+v.V, 0) {
					t.Fatalf("%s has the vertex %v", part.ID, v)
				}
			}
		}
	}
	m, err := job.New(p)
	if err != nil {
		t.Fatal(err)
	}
	m.Lit = func() *light.Lit { return light.Even(p) }
	m.Stage = m.Even
	for _, l := range m.Checks().Sightlines {
		sum := l.Visible
		for _, h := range l.HiddenBy {
			sum += h.Share
		}
		if facing := l.Turned > 0; !(sum <= 1+1e-9) || facing && !(sum >= 1-1e-9) || !(l.ViewSr >= 0 && l.ViewSr <= 2*math.Pi) {
			t.Errorf("%s from %s by %s: %v, hidden by %v, of %v sr", l.Work, l.From, l.Eye, l.Visible, l.HiddenBy, l.ViewSr)
		}
	}
	for _, c := range m.Checks().Clearances {
		if c.Width != nil && !(*c.Width >= 0) {
			t.Errorf("the way from %s to %s is %v wide", c.From, c.To, *c.Width)
		}
	}
	for _, list := range []func() order.Rehearsal{m.Night, m.Strike, m.SetUp} {
		rehearsed(t, list())
		calm(t, "rehearse.json", told(t, func(w io.Writer) error { return job.WriteRehearsal(m, list(), w) }))
	}
	for _, name := range []string{"findings.json", "hang.json", "rehearse.json", "timeline.svg"} {
		calm(t, name, write(t, m, name))
	}
	model := write(t, m, "booth.glb")
	readable(t, model)
	var b bytes.Buffer
	if err := page.Write(&b, page.Values{Plan: p, Report: m.Report(), Checks: m.Checks(), Sheet: m.Sheet(), Lists: m.Lists(), Behind: m.Stage().Behind()}); err != nil {
		t.Errorf("the page: %v", err)
	}
	calm(t, "the page", bytes.ReplaceAll(b.Bytes(), []byte("Infinity"), nil)) // which its script may say
	if err := pack.Write(&b, p, m.Sheet(), pack.Options{}); err != nil {
		t.Errorf("the pack: %v", err)
	}
	for _, s := range m.Sheet().Sections() {
		for _, table := range s.Tables {
			for _, row := range table.Rows {
				calm(t, s.Title, []byte(strings.Join(row, " ")))
			}
		}
	}
	return m
}

// told is what is written.
func told(t *testing.T, write func(io.Writer) error) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// write is an output by its name.
func write(t *testing.T, m *job.Mockup, name string) []byte {
	for _, o := range job.Outputs(m) {
		if o.Name == name {
			var b bytes.Buffer
			if err := o.Write(m, &b); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			return b.Bytes()
		}
	}
	t.Fatalf("there is no %s", name)
	return nil
}

// calm fails on words that a number which is none is printed as, and on half a letter.
func calm(t *testing.T, what string, text []byte) {
	for _, bad := range []string{"NaN", "+Inf", "-Inf", "%!", "<nil>", "\ufffd"} {
		if i := bytes.Index(text, []byte(bad)); i >= 0 {
			t.Errorf("%s: …%s…", what, text[max(0, i-80):min(len(text), i+40)])
		}
	}
}

// rehearsed holds a rehearsal against what must be true of any.
func rehearsed(t *testing.T, r order.Rehearsal) {
	for _, s := range r.Steps {
		if s.Start < 0 || s.End < s.Start || s.End > r.Length || s.Slack < 0 || s.Room < 0 || s.Earliest > s.Start && s.Lacks == 0 {
			t.Errorf("%s: step %s from %d to %d of %d, at the earliest %d, slack %d, room %d", r.Which, s.ID, s.Start, s.End, r.Length, s.Earliest, s.Slack, s.Room)
		}
	}
	if r.Length < r.Bound || r.Length < r.Chain || !(r.Chance >= 0 && r.Chance <= 1) {
		t.Errorf("%s: %d minutes, at least %d, chain %d, chance %v", r.Which, r.Length, r.Bound, r.Chain, r.Chance)
	}
}

// readable reads a .glb back: every number in it is one.
func readable(t *testing.T, file []byte) *gltf.Document {
	d := new(gltf.Document)
	if err := gltf.NewDecoder(bytes.NewReader(file)).Decode(d); err != nil {
		t.Fatalf("booth.glb: %v", err)
	}
	finite := func(what string, vs ...float64) {
		for _, v := range vs {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s of booth.glb: %v", what, vs)
			}
		}
	}
	for _, n := range d.Nodes {
		finite(n.Name, n.Translation[:]...)
		finite(n.Name, n.Rotation[:]...)
		finite(n.Name, n.Scale[:]...)
	}
	for i, a := range d.Accessors {
		if a.ComponentType != gltf.ComponentFloat {
			continue
		}
		v, err := modeler.ReadAccessor(d, a, nil)
		if err != nil {
			t.Fatalf("accessor %d of booth.glb: %v", i, err)
		}
		switch v := v.(type) {
		case []float32:
			for _, x := range v {
				finite("accessor", float64(x))
			}
		case [][2]float32:
			for _, x := range v {
				finite("accessor", float64(x[0]), float64(x[1]))
			}
		case [][3]float32:
			for _, x := range v {
				finite("accessor", float64(x[0]), float64(x[1]), float64(x[2]))
			}
		case [][4]float32:
			for _, x := range v {
				finite("accessor", float64(x[0]), float64(x[1]), float64(x[2]), float64(x[3]))
			}
		}
	}
	return d
}

// inWords fails if an error is no list of faults.
func inWords(t *testing.T, err error) {
	var list fault.List
	if !errors.As(err, &list) || len(list) == 0 {
		t.Fatalf("%v is no list of faults", err)
	}
	for _, f := range list {
		if f.Text == "" || f.At.Line < 0 {
			t.Errorf("%#v says nothing", f)
		}
	}
}

// Random booths go through everything.
func FuzzBooth(f *testing.F) {
	f.Add([]byte{})
	for _, seed := range []uint64{
		0, 1, 2, 3, 4, 5,
		1005, // a rack lower than its cards are thick
		1374, // a task without minutes while everybody is at work
	} {
		f.Add(seeded(seed))
	}
	f.Fuzz(func(t *testing.T, choices []byte) {
		if len(choices) > 2000 {
			t.Skip("more choices than there are")
		}
		text := randomScene(choices, dialect{})
		quick(t, func() {
			p, err := build(text)
			if err != nil {
				inWords(t, err)
				return
			}
			through(t, p)
		})
		if t.Failed() {
			t.Log(text)
		}
	})
}

// Light on random booths is light: from 0 to 1 at every vertex of a mesh that is one. While fuzzing, booths of more solids
// than can be lit in a second of a core are lit as if nobody looked at them: those as full as the demo would take nearly
// twice that, odd ones nine times.
func FuzzLight(f *testing.F) {
	f.Add([]byte{})
	if booths(f, 0, 1) > 0 {
		f.Add(seeded(9))
		f.Add(seeded(10)[:50]) // three tents in the width of one
	}
	f.Fuzz(func(t *testing.T, choices []byte) {
		if len(choices) > 2000 {
			t.Skip("more choices than there are")
		}
		p, err := build(randomScene(choices, dialect{}))
		if err != nil {
			return
		}
		const most = 30
		solids := 0
		for _, part := range p.Parts {
			solids += len(part.Solids)
		}
		var lit *light.Lit
		quick(t, func() {
			if fuzzing() && solids > most {
				lit = light.Rough(p, nil)
			} else {
				lit = light.Bake(p)
			}
		})
		for _, s := range lit.Surfaces {
			if len(s.Light) != len(s.Mesh.Vertices) || len(s.Straight) != len(s.Light) || len(s.Middles) != len(s.Mesh.Triangles) {
				t.Fatalf("%s: %d vertices and the light of %d and %d; %d triangles and the light of %d", p.Parts[s.Part].ID,
					len(s.Mesh.Vertices), len(s.Light), len(s.Straight), len(s.Mesh.Triangles), len(s.Middles))
			}
			for k, v := range s.Mesh.Vertices {
				if !v.P.Finite() || !v.N.Finite() {
					t.Fatalf("%s has a vertex %v", p.Parts[s.Part].ID, v)
				}
				within(t, p.Parts[s.Part].ID, 4, s.Light[k])
				within(t, p.Parts[s.Part].ID, 1, s.Straight[k])
			}
			for _, m := range s.Middles {
				within(t, p.Parts[s.Part].ID, 4, m[:]...)
			}
		}
	})
}

// within fails for light that is not from 0 to most.
func within(t *testing.T, id booth.ID, most float32, light ...[3]float32) {
	t.Helper()
	for _, rgb := range light {
		for _, c := range rgb {
			if !(c >= 0 && c <= most) {
				t.Fatalf("%s has the light %v", id, rgb)
			}
		}
	}
}

// Whatever somebody types: faults in words, or a booth that goes through everything.
func FuzzScene(f *testing.F) {
	typed := typedScenes(f)
	every := max(1, len(typed)/booths(f, 12, len(typed)))
	for i := 0; i < len(typed); i += every {
		f.Add(typed[i])
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 20_000 {
			t.Skip("nobody types as much")
		}
		quick(t, func() {
			p, err := build(text)
			if err != nil {
				inWords(t, err)
				return
			}
			through(t, p)
		})
	})
}

// typedScenes are the example scenes, and every text in the tests of the whole program that looks like a scene. Images are
// all the same one.
func typedScenes(t testing.TB) (out []string) {
	files, err := filepath.Glob("../../scenes/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, string(b))
	}
	tests, err := filepath.Glob("../*/*/*_test.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range tests {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
				if s, err := strconv.Unquote(l.Value); err == nil && strings.Contains(s, "units:") {
					out = append(out, s)
				}
			}
			return true
		})
	}
	for i, s := range out {
		var lines []string
		for _, line := range strings.Split(s, "\n") {
			before, rest, ok := strings.Cut(line, "image: ")
			if _, after, more := strings.Cut(rest, ","); ok && more {
				line = before + "image: a.png," + after
			}
			lines = append(lines, line)
		}
		out[i] = strings.Join(lines, "\n")
	}
	return out
}
