package scene

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"
	"golang.org/x/text/unicode/norm"
)

// nasty are texts that YAML allows and editors trip over.
var nasty = []string{
	"# head\n# head too\n\n# about a\na: 1 # one\n# about b\nb: # list\n  # first\n  - x # ex\n    # further in\n  - y\n\n  # alone\n\n  # above z\n  # above z too\n  - z # zed\n  # after all\n# about c\nc: {k: v, l: [m, n]} # end\n# last\n",
	"a: [x, # one\n  y, {p: q,\n   r: s}, # two\n  # three\n  z # four\n  ]\nb: {\n  c: d, # five\n  e: f,\n}\nc: [\n  1,\n  2,\n]\nd: [ ]\ne: {}\nf: [[], [g], [ h , i ]]\n",
	"\ufeffa: é\r\nb:\r\n- ü # ö\r\n- name: Œuvre\r\n  size: 1 x 2\r\n\r\n- plain\r\n\r\n# c\r\nc: {d: e, f: 'g''h'}\r\n",
	"a: 1\t# tab\nb:\t2\t\nc:\n  -\tx\t# y\n  - z\t\nd: {e:\tf\t,\tg: h}\t# i\n",
	"- not: a scene", // skipped
	"a: \"x\n  y \\\" # no comment\n  # nor this\"\nb: plain over\n  lines\n\n  and more\nc: 'single\n  # quoted'\nd: |\n  # text\n  more\n\n# comment\ne: >-\n   folded\n    more\nf: |+\n  kept\n\ng:\n  - |\n    x\n  - >\n    y\n\n  - z\nh: |\n",
	"a: &x 1\nb: &y {c: d}\ne: *y\nf: [*x, &z g, h]\ni:\n  - *x\n  - &w\n    j: k\n  - l: *w\nm: &v\n  - n\n  - o\n",
	"a:\n- - b\n  - c # d\n  -\n  - - e\n    - f\n-\n  g: h\n  i:\n  j:\n  - k\n  - l\n- m:\n    n: o\n  # above p\n  p: q\n- [r: s, t]\n",
	"%YAML 1.1\n---\n# c\n\"a b\": 1\n'c': ~\nD  e: null\nf: {\"g\":1, h, i: , \"j\": }\nk: http://x/y#z\nl: 2026-05-01\nm: 010\n...\n",
	"{a: 1, b: [c, d], e: {f: g}}", "a: 1", "a:\n  - 1", "a: {b: c}\n\n\n", "# only\na: []\n", "a: b # c", "a: {b: 1 , c: }\nd: &x  # e\n", "cafe\u0301: [cafe\u0301, b]\nx:\n  - name: cafe\u0301\n",
}

// texts are the example scenes and the nasty ones.
func texts(t interface{ Fatal(...any) }) (out []string) {
	examples, err := filepath.Glob("../../../scenes/*.yaml")
	if err != nil || len(examples) == 0 {
		t.Fatal("no example scenes", err)
	}
	for _, name := range examples {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, string(b))
	}
	return append(out, nasty...)
}

// plainOf is a text as texts, lists and maps: no code of ours but for the spelling of keys.
func plainOf(t *testing.T, text []byte) any {
	t.Helper()
	var doc yaml.Node
	if err := yaml.Unmarshal(text, &doc); err != nil {
		t.Fatalf("%s\n%s", err, text)
	}
	var plain func(n *yaml.Node) any
	plain = func(n *yaml.Node) any {
		switch n.Kind {
		case yaml.AliasNode:
			return plain(n.Alias)
		case yaml.SequenceNode:
			out := []any{}
			for _, c := range n.Content {
				out = append(out, plain(c))
			}
			return out
		case yaml.MappingNode:
			out := map[string]any{}
			for i := 0; i < len(n.Content); i += 2 {
				out[strings.ToLower(strings.Join(strings.Fields(norm.NFC.String(n.Content[i].Value)), " "))] = plain(n.Content[i+1])
			}
			return out
		}
		if n.Tag == "!!null" {
			return "(nothing)"
		}
		return norm.NFC.String(n.Value)
	}
	return plain(doc.Content[0])
}

// at follows a path of keys and numbers in a plain value and puts what edit makes of it there.
func at(v any, p Path, edit func(v any) any) any {
	if len(p) == 0 {
		return edit(v)
	}
	switch v := v.(type) {
	case map[string]any:
		v[p[0].Key] = at(v[p[0].Key], p[1:], edit)
	case []any:
		v[p[0].Nth] = at(v[p[0].Nth], p[1:], edit)
	}
	return v
}

// spots are the paths of all values below a node and of those that could be inserted; in lists and not.
func spots(n *yaml.Node, p Path) (elements, ends, keys []Path) {
	add := func(c *yaml.Node, s Step) Path {
		here := append(slices.Clone(p), s)
		if c != nil {
			e, n, k := spots(c, here)
			elements, ends, keys = append(elements, e...), append(ends, n...), append(keys, k...)
		}
		return here
	}
	switch n.Kind {
	case yaml.SequenceNode:
		for i, c := range n.Content {
			elements = append(elements, add(c, Step{Nth: i}))
		}
		ends = append(ends, add(nil, Step{Nth: len(n.Content)}))
	case yaml.MappingNode:
		for i := 0; i < len(n.Content); i += 2 {
			keys = append(keys, add(n.Content[i+1], Step{Key: plainKey(n.Content[i])}))
		}
	}
	return elements, ends, keys
}

var values = []any{"x", "24 1/2", "a, b", "é: ü", "# no", "[", "it's", "\"q\"", "-", "- x", "null", "", "a\nb", " x ", "yes", "\u2028",
	[]string{}, []string{"a", "b c", "d, e"}, Entry{}, Entry{{"name", "n"}, {"on top", []any{Entry{{"k", "1"}, {"l", "m: n"}}}}}}

func plainValue(v any) any {
	switch v := v.(type) {
	case []string:
		out := []any{}
		for _, s := range v {
			out = append(out, s)
		}
		return out
	case []any:
		out := []any{}
		for _, s := range v {
			out = append(out, plainValue(s))
		}
		return out
	case Entry:
		out := map[string]any{}
		for _, p := range v {
			out[p.Key] = plainValue(p.Value)
		}
		return out
	}
	return v
}

// trial is one random edit of a file and what it was.
type trial struct {
	*testing.T
	f            *File
	elements     []Path
	ends, keys   []Path
	done, undone int
	refused      int
	may          []string // refusals that are right
}

func pick[T any](r *rand.Rand, list []T) (v T, ok bool) {
	if len(list) == 0 {
		return v, false
	}
	return list[r.IntN(len(list))], true
}

// step makes one random edit and is the file after it.
func (t *trial) step(r *rand.Rand) *File {
	if t.elements, t.ends, t.keys = spots(t.f.root, nil); len(t.keys) == 0 {
		return nil
	}
	v, _ := pick(r, values)
	switch r.IntN(5) {
	case 0:
		p, _ := pick(r, append(slices.Clone(t.elements), t.keys...))
		return t.set(p, v)
	case 1:
		p, _ := pick(r, t.keys)
		return t.set(append(slices.Clone(p[:len(p)-1]), Step{Key: "new key"}), v)
	case 2:
		if p, ok := pick(r, append(slices.Clone(t.elements), t.ends...)); ok {
			return t.insert(p, v)
		}
	case 3:
		if p, ok := pick(r, append(slices.Clone(t.elements), t.keys...)); ok {
			g, err := t.f.Delete(p)
			t.holds(g, err, fmt.Sprintf("delete %s", p), func(v any) any {
				return at(v, p[:len(p)-1], func(in any) any { return without(in, p[len(p)-1]) })
			})
			return g
		}
	case 4:
		p, ok := pick(r, t.elements)
		q, ok2 := pick(r, append(slices.Clone(t.elements), t.ends...))
		if ok && ok2 {
			return t.move(p, q)
		}
	}
	return nil
}

func without(in any, s Step) any {
	if list, ok := in.([]any); ok {
		return append(slices.Clone(list[:s.Nth]), list[s.Nth+1:]...)
	}
	delete(in.(map[string]any), s.Key)
	return in
}

func with(in any, n int, v any) any {
	list := in.([]any)
	return append(append(slices.Clone(list[:n]), v), list[n:]...)
}

func (t *trial) set(p Path, v any) *File {
	old, oldErr := t.f.Verbatim(p)
	before, locateErr := t.f.locate(p)
	g, err := t.f.Set(p, v)
	if !t.holds(g, err, fmt.Sprintf("set %s to %q", p, v), func(in any) any { return at(in, p, func(any) any { return plainValue(v) }) }) {
		return nil
	}
	if oldErr == nil {
		back, err := g.Set(p, old)
		t.back(back, err, fmt.Sprintf("set %s to %q and back to %q", p, v, old))
	} else if locateErr == nil && before.node == nil {
		back, err := g.Delete(p)
		t.back(back, err, fmt.Sprintf("set %s to %q and deleted", p, v))
	}
	return g
}

func (t *trial) insert(p Path, v any) *File {
	g, err := t.f.Insert(p, v)
	if !t.holds(g, err, fmt.Sprintf("insert %q at %s", v, p), func(in any) any {
		return at(in, p[:len(p)-1], func(list any) any { return with(list, p[len(p)-1].Nth, plainValue(v)) })
	}) {
		return nil
	}
	back, err := g.Delete(p)
	t.back(back, err, fmt.Sprintf("insert %q at %s and deleted", v, p))
	return g
}

func (t *trial) move(p, q Path) *File {
	from, to := p[:len(p)-1], q[:len(q)-1]
	same := from.String() == to.String()
	if len(q) > len(from) && !same && q[:len(from)].String() == from.String() { // its numbers change when p is out
		return nil
	}
	if len(q) >= len(p) && q[:len(p)].String() == p.String() && !same {
		return nil
	}
	g, err := t.f.Move(p, q)
	if same && q[len(q)-1].Nth == len(listAt(t.f, from)) { // there is no such place when it is out
		return nil
	}
	var v any
	if !t.holds(g, err, fmt.Sprintf("move %s to %s", p, q), func(in any) any {
		in = at(in, from, func(list any) any { v = list.([]any)[p[len(p)-1].Nth]; return without(list, p[len(p)-1]) })
		return at(in, to, func(list any) any { return with(list, q[len(q)-1].Nth, v) })
	}) {
		return nil
	}
	if same {
		back, err := g.Move(q, p)
		t.back(back, err, fmt.Sprintf("move %s to %s and back", p, q))
	}
	return g
}

func listAt(f *File, p Path) []*yaml.Node {
	n := f.root
	for _, s := range p {
		if n = resolve(n); s.Key != "" {
			_, n = entry(n, s.Key)
		} else {
			n = n.Content[s.Nth]
		}
	}
	return resolve(n).Content
}

// holds compares an edit with the same on the plain value.
func (t *trial) holds(g *File, err error, what string, edit func(any) any) bool {
	t.Helper()
	if err != nil {
		t.refused++
		if !slices.ContainsFunc(t.may, func(s string) bool { return strings.Contains(err.Error(), s) }) {
			t.Errorf("%s: %v\n%s", what, err, t.f.Source())
		}
		return false
	}
	t.done++
	if got, want := plainOf(t.T, g.Source()), edit(plainOf(t.T, t.f.Source())); !reflect.DeepEqual(got, want) {
		t.Fatalf("%s:\n%s\nbecame\n%s", what, t.f.Source(), g.Source())
	}
	return true
}

// back compares what an edit and its inverse leave with the first bytes.
func (t *trial) back(g *File, err error, what string) {
	t.Helper()
	if err != nil {
		t.Fatalf("%s: %v\n%s", what, err, t.f.Source())
	}
	t.undone++
	if string(g.Source()) != string(t.f.Source()) {
		t.Fatalf("%s:\n%q\nbecame\n%q", what, t.f.Source(), g.Source())
	}
}

// refusals are what may be answered to a random edit of the nasty texts.
var refusals = []string{"is repeated on line", "stands for what is on line", "repeats what stands on line", "is all that the scene holds",
	"has no room in [ ]", "no room for another key", "stands for nothing"}

// Random edits, eight in a row, on every text: read back they are the same edit on the plain value, and undone they leave
// the first bytes.
func TestRandomEdits(t *testing.T) {
	all := &trial{T: t}
	for i, text := range texts(t) {
		for seed := range uint64(6) {
			f, err := Parse("a.yaml", []byte(text))
			if err != nil {
				break
			}
			r := rand.New(rand.NewPCG(uint64(i), seed))
			all.f, all.may = f, refusals
			if i < len(texts(t))-len(nasty) {
				all.may = refusals[:0] // nothing is refused in an example scene
			}
			for range 8 {
				if g := all.step(r); g != nil {
					all.f = g
				}
			}
		}
	}
	t.Logf("%d edits, %d undone, %d refused", all.done, all.undone, all.refused)
	if all.done < 500 || all.undone < 300 || all.refused > all.done/5 {
		t.Error("too few edits were made")
	}
}

// FuzzEdit makes random edits on texts that nobody thought of. They may be refused, but what is done is the edit that was
// meant, and undone it leaves the first bytes.
func FuzzEdit(f *testing.F) {
	for i, text := range texts(f) {
		f.Add(text, uint64(i))
	}
	f.Fuzz(func(t *testing.T, text string, seed uint64) {
		file, err := Parse("a.yaml", []byte(text))
		if err != nil || len(text) > 2000 {
			return
		}
		all := &trial{T: t, f: file, may: []string{""}}
		for r, k := rand.New(rand.NewPCG(seed, 1)), 0; k < 4; k++ {
			if g := all.step(r); g != nil {
				all.f = g
			}
		}
	})
}
