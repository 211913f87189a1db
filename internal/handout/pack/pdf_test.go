package pack

import (
	"bytes"
	"compress/zlib"
	"io"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"boothmock/internal/find/hang"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

var loaded = map[string]*booth.Plan{}

// load is one of the example scenes. A plan never changes, so each is built once.
func load(t testing.TB, name string) *booth.Plan {
	t.Helper()
	if p := loaded[name]; p != nil {
		return p
	}
	fsys := os.DirFS("../../../scenes")
	f, err := scene.Read(fsys, name)
	if err != nil {
		t.Fatal(err)
	}
	p, err := kinds.Build(f, rules.Book{}, fsys)
	if err != nil {
		t.Fatal(err)
	}
	loaded[name] = p
	return p
}

func write(t *testing.T, p *booth.Plan, o Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, p, hang.Of(p), o); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// op is one operator of a page with its numbers.
type op struct {
	name string
	n    []float64
}

// read is what is drawn on every page: the pages' content streams, in the order of the file, which is theirs. Streams
// of fonts and pictures have no text operators and are left out.
func read(t *testing.T, pdf []byte) (pages [][]op) {
	t.Helper()
	stream := regexp.MustCompile(`(?s)stream\n(.*?)\nendstream`)
	for _, m := range stream.FindAllSubmatch(pdf, -1) {
		z, err := zlib.NewReader(bytes.NewReader(m[1]))
		if err != nil {
			continue
		}
		text, err := io.ReadAll(z)
		if err != nil || !bytes.Contains(text, []byte(" Tf ")) {
			continue
		}
		var ops []op
		var n []float64
		for _, word := range strings.Fields(strip(string(text))) {
			if v, err := strconv.ParseFloat(word, 64); err == nil {
				n = append(n, v)
				continue
			}
			ops = append(ops, op{word, n})
			n = nil
		}
		pages = append(pages, ops)
	}
	if len(pages) == 0 {
		t.Fatal("no page can be read")
	}
	return pages
}

// strip takes the strings out of a content stream: their bytes may look like anything.
func strip(s string) string {
	var b strings.Builder
	depth := 0
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case depth > 0 && c == '\\':
			i++
		case c == '(':
			depth++
		case c == ')':
			depth--
			b.WriteString(" () ")
		case depth == 0:
			b.WriteByte(c)
		}
	}
	return b.String()
}

// stroke is a straight line on a page, in mm from the lower left corner.
type stroke struct{ x0, y0, x1, y1 float64 }

const mm = 72 / 25.4 // points

// strokes are the straight lines of a page outside turned texts.
func strokes(ops []op) (out []stroke) {
	for i := 0; i+1 < len(ops); i++ {
		if a, b := ops[i], ops[i+1]; a.name == "m" && b.name == "l" && len(a.n) == 2 && len(b.n) == 2 {
			out = append(out, stroke{a.n[0] / mm, a.n[1] / mm, b.n[0] / mm, b.n[1] / mm})
		}
	}
	return out
}
