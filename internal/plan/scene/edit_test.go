package scene

import (
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
)

// change1 is one edit: "set", "insert", "delete" or "move" at a path, and the text before and after it, to the byte.
type change1 struct {
	name, before, do, at string
	v                    any
	after                string
}

func (c change1) run(t *testing.T) (*File, error) {
	t.Helper()
	f, err := Parse("a.yaml", []byte(c.before))
	if err != nil {
		t.Fatal(c.name, err)
	}
	return do(f, c.do, c.at, c.v)
}

func do(f *File, what, at string, v any) (*File, error) {
	p, err := ParsePath(at)
	if err != nil {
		return nil, err
	}
	switch what {
	case "set":
		return f.Set(p, v)
	case "insert":
		return f.Insert(p, v)
	case "delete":
		return f.Delete(p)
	}
	to, err := ParsePath(v.(string))
	if err != nil {
		return nil, err
	}
	return f.Move(p, to)
}

func TestEdit(t *testing.T) {
	const flow = "rows:\n  - {wall: back, works: [heron,  \"the weir\", alder]}   # the best\nevent:   X\n"
	const block = "# head\nworks:   # mine\n  # about a\n  - name: a # first\n    size: 24 x 36\n\n  # on its own\n\n  # about b\n  - name: 'b''s'\n    size: 1 x 2\nend: 1\n"
	for _, c := range []change1{
		{"a name in brackets", flow, "set", "rows[back].works[2]", "tern", strings.Replace(flow, "alder", "tern", 1)},
		{"a quoted one", flow, "set", "rows[back].works[the weir]", "a, b", strings.Replace(flow, `"the weir"`, `"a, b"`, 1)},
		{"quotes where none are needed", flow, "set", "event", "Y: z", strings.Replace(flow, "X", `"Y: z"`, 1)},
		{"a comma outside brackets", flow, "set", "event", "Y, z", strings.Replace(flow, "X", `Y, z`, 1)},
		{"a new key in braces", flow, "set", "rows[back].from left", "12", strings.Replace(flow, "alder]", "alder], from left: 12", 1)},
		{"a new key on lines", flow, "set", "tent", Entry{{"eave", 89}}, flow + "tent: {eave: 89}\n"},
		{"a new key in a new entry", flow, "set", "tent.eave", "7ft", flow + "tent: {eave: 7ft}\n"},
		{"one more", flow, "insert", "rows[0].works[1]", "x", strings.Replace(flow, "heron,", "heron,  x,", 1)},
		{"one after the last", flow, "insert", "rows[0].works[3]", "x", strings.Replace(flow, "alder", "alder, x", 1)},
		{"one fewer", flow, "delete", "rows[0].works[0]", nil, strings.Replace(flow, "heron,  ", "", 1)},
		{"the last fewer", flow, "delete", "rows[0].works[alder]", nil, strings.Replace(flow, ", alder", "", 1)},
		{"a key fewer", flow, "delete", "rows[back].wall", nil, strings.Replace(flow, "wall: back, ", "", 1)},
		{"the first to the end", flow, "move", "rows[0].works[heron]", "rows[0].works[2]", strings.Replace(flow, "heron,  \"the weir\", alder", "\"the weir\",  alder, heron", 1)},
		{"a list emptied", "a: [ x ] # c\n", "delete", "a[0]", nil, "a: [  ] # c\n"},
		{"a list filled", "a: [  ] # c\n", "insert", "a[0]", "x", "a: [ x ] # c\n"},
		{"lines emptied", "a: # c\n  # d\n  - x # e\n# f\nb: 1\n", "delete", "a[0]", nil, "a: [] # c\n# f\nb: 1\n"},
		{"lines of keys emptied", "a:\n  b: 1\n", "delete", "a.b", nil, "a: {}\n"},
		{"a key after a dash", "a:\n  - b: 1 # c\n    d: 2\n", "delete", "a[0].b", nil, "a:\n  - d: 2\n"},

		{"an entry of lines", block, "delete", "works[a]", nil, "# head\nworks:   # mine\n\n  # on its own\n\n  # about b\n  - name: 'b''s'\n    size: 1 x 2\nend: 1\n"},
		{"the last entry of lines", block, "delete", "works[b's]", nil, "# head\nworks:   # mine\n  # about a\n  - name: a # first\n    size: 24 x 36\n\n  # on its own\n\nend: 1\n"},
		{"with their comments", block, "move", "works[a]", "works[1]", "# head\nworks:   # mine\n  # about b\n  - name: 'b''s'\n    size: 1 x 2\n\n  # on its own\n\n  # about a\n  - name: a # first\n    size: 24 x 36\nend: 1\n"},
		{"a value in a line", block, "set", "works[a].size", "2ft x 3ft", strings.Replace(block, "24 x 36", "2ft x 3ft", 1)},
		{"as those beside it", block, "insert", "works[2]", Entry{{"name", "c"}, {"frame", Entry{{"mat", "a, b"}}}}, strings.Replace(block, "1 x 2\n", "1 x 2\n  - name: c\n    frame: {mat: \"a, b\"}\n", 1)},
		{"lines become one", block, "set", "works", []string{}, "# head\nworks: []   # mine\nend: 1\n"},
		{"the comment that opens the file stays", block, "delete", "works", nil, "# head\nend: 1\n"},
		{"a value where none was", "a:\nb: {c, d: , e:}\n", "set", "a", "x", "a: x\nb: {c, d: , e:}\n"},
		{"in braces without a colon", "b: {c, d: , e:}\n", "set", "b.c", "x", "b: {c: x, d: , e:}\n"},
		{"in braces with a colon", "b: {c, d: , e: }\n", "set", "b.e", "x", "b: {c, d: , e: x }\n"},
		{"after one without a value", "b: {c, e: }\n", "set", "b.f", "x", "b: {c, e: , f: x}\n"},
		{"a key below nothing", "tags: # c\n", "set", "tags.size", "1in", "tags: {size: 1in} # c\n"},

		{"CRLF, a mark and é", "\ufeffé: 1\r\nrows:\r\n  - works:\r\n      - é\r\n      - b\r\n", "insert", "rows[0].works[é]", "ü", "\ufeffé: 1\r\nrows:\r\n  - works:\r\n      - ü\r\n      - é\r\n      - b\r\n"},
		{"CRLF, one line", "a: 1\r\nb:\r\n- x\r\n", "insert", "b[1]", "y", "a: 1\r\nb:\r\n- x\r\n- y\r\n"},
		{"no line end", "a: 1\nb: 2", "set", "c", "3", "a: 1\nb: 2\nc: 3"},
		{"blank lines between", "a: 1\n\nb: 2\n\n", "set", "c", "3", "a: 1\n\nb: 2\n\nc: 3\n\n"},
		{"a list, blank lines between", "a: 1\n\nb: {}\n", "set", "c", []any{Entry{{"x", "1"}}}, "a: 1\n\nb: {}\n\nc:\n  - {x: 1}\n"},
		{"a list, a blank line somewhere", "a: 1\n\nb: 2\nd: 3\n", "set", "c", []any{Entry{{"x", "1"}}}, "a: 1\n\nb: 2\nd: 3\n\nc:\n  - {x: 1}\n"},
		{"a tab before a comment", "a: 1\t# c\nb: 2\n", "set", "a", "2", "a: 2\t# c\nb: 2\n"},
		{"lines in brackets", "a: [x, # one\n     y,\n     z]\n", "delete", "a[2]", nil, "a: [x, # one\n     y]\n"},
		{"before a comment in brackets", "a: [x, # one\n     y]\n", "delete", "a[1]", nil, "a: [x # one\n     ]\n"},
		{"after a comment in brackets", "a: [\n  x, # one\n  y # two\n]\n", "insert", "a[2]", "z", "a: [\n  x, # one\n  y, # two\n  z\n]\n"},
		{"with a comma after the last", "a: [\n  x, # one\n  y, # two\n]\n", "insert", "a[2]", "z", "a: [\n  x, # one\n  y, # two\n  z,\n]\n"},
		{"text over lines", "a: |\n  x\n   y\n\n# c\nb: 2\n", "set", "a", "z", "a: z\n\n# c\nb: 2\n"},
		{"plain text over lines", "a: x\n  y\n\n  z # c\nb: 2\n", "set", "a", "z", "a: z # c\nb: 2\n"},
		{"a name with nothing else", "a: &n x\nb: 1\n", "set", "a", "z", "a: &n z\nb: 1\n"},
		{"a repeat set apart", "a: &n x\nb: *n\n", "set", "b", "z", "a: &n x\nb: z\n"},

		{"from brackets to lines", "a: [x, y]\nb:\n  - z\n", "move", "a[x]", "b[1]", "a: [y]\nb:\n  - z\n  - x\n"},
		{"from lines to brackets", "a: [x]\nb:\n  - q: 1\n    r: [2]\n  - z\n", "move", "b[0]", "a[0]", "a: [{q: 1, r: [2]}, x]\nb:\n  - z\n"},
		{"to lines further in", "a:\n# p\n- q: 1 # c\n  r: 2\n- z\nb:\n    - y\n", "move", "a[0]", "b[0]", "a:\n- z\nb:\n    # p\n    - q: 1 # c\n      r: 2\n    - y\n"},
		{"an accent of its own", "rows: [{works: [cafe\u0301, b]}]\n", "move", "rows[0].works[caf\u00e9]", "rows[0].works[1]", "rows: [{works: [b, cafe\u0301]}]\n"},
		{"one row without a list", "rows: {wall: back, works: [x]}\n", "insert", "rows[back].works[1]", "y", "rows: {wall: back, works: [x, y]}\n"},
	} {
		g, err := c.run(t)
		if err != nil || string(g.Source()) != c.after {
			got := "nothing"
			if g != nil {
				got = string(g.Source())
			}
			t.Errorf("%s: %v\n%s\nwant\n%s", c.name, err, got, c.after)
		}
	}
}

// What cannot be edited says why, and where.
func TestEditRefused(t *testing.T) {
	const named = "a: &x {b: 1}\nc: *x\nd: [1]\n"
	for _, c := range []change1{
		{before: named, do: "set", at: "a.b", v: "2", after: "a.yaml:1:4: a stands for what is on line 2 too (write the values out there)"},
		{before: named, do: "set", at: "c.b", v: "2", after: "a.yaml:2:4: c repeats what stands on line 1 (edit it there, or write the values out here)"},
		{before: named, do: "delete", at: "a", after: "a.yaml:1:4: a is repeated on line 2 (write the values out there)"},
		{before: named, do: "set", at: "d[1]", v: "2", after: "a.yaml:3:4: d[1] is not there (insert it)"},
		{before: named, do: "insert", at: "d[2]", v: "2", after: "a.yaml:3:4: d[2]: the list has 1 entries"},
		{before: named, do: "insert", at: "d", v: "2", after: "a.yaml:1:1: d is no element of a list (end the path with a number or a name in [ ])"},
		{before: named, do: "insert", at: "e[0]", v: "2", after: "a.yaml:1:1: e is not there"},
		{before: named, do: "delete", at: "d.x", after: "a.yaml:3:4: d.x: want an entry with keys of its own, got a list"},
		{before: named, do: "delete", at: "d[y]", after: `a.yaml:3:4: d[y]: 0 entries are called "y"`},
		{before: "r: [{wall: w}, {wall: w}]\n", do: "delete", at: "r[w]", after: `a.yaml:1:4: r[w]: 2 entries are called "w" (use their numbers: 0 or 1)`},
		{before: "a: 1\n", do: "delete", at: "a", after: "a.yaml:1:4: a is all that the scene holds"},
		{before: "a: 1\n", do: "set", at: "a", v: "x\x07", after: "a.yaml:1:4: a cannot be edited here, as the scene would not be read again: a.yaml:1:6: an invisible control character, U+0007 (take it out) (edit it as text)"},
		{before: "a: [1]\nb:\n- 2 # c\n", do: "move", at: "b[0]", v: "a[0]", after: "a.yaml:3:3: this entry has a comment, which has no room in [ ] (take out the comment, or write that list on lines of its own)"},
		{before: "? a\n: 1\nb: 2\n", do: "set", at: "b", v: "3", after: "the scene is written in a way that cannot be changed from here; edit it as text"},
		{before: "a: 1\n", do: "set", at: "a", v: struct{}{}, after: "a value of type struct {} cannot be written"},
		{before: "a: 1\n", do: "set", at: "a", v: Verbatim("[b"), after: `"[b" is not one value`},
		{before: "a: 1\n", do: "set", at: "a[", v: "", after: `"a[" is not a path; write for example works[heron].size or rows[0].works[2]`},
	} {
		if _, err := c.run(t); err == nil || err.Error() != c.after {
			t.Errorf("%s %s in %q:\ngot  %v\nwant %s", c.do, c.at, c.before, err, c.after)
		}
	}
}

// Values are written as those beside them are.
func TestWritten(t *testing.T) {
	const in = "units: in\npitch: {width: 10ft, price: 3}\nwall: {top: 82, weight: 3lb}\nbox: {size: 24in x 36in, far: 61cm, m: 1.20m}\nl: [{h: 1in}, {}]\n"
	const cm = "units: cm\nwall: {top: 210}\n"
	const none = "wall: {top: 82in}\nmore: {}\n"
	for _, c := range []struct {
		text, at string
		v        any
		want     string
	}{
		{in, "pitch.width", 114 * unit.Inch, "9ft 6in"},
		{in, "pitch.depth", 96 * unit.Inch, "8ft"},
		{in, "wall.top", unit.Length(2.1), "82 5/8"},
		{in, "wall.bottom", -6.5 * unit.Inch, "-6 1/2"},
		{in, "wall.size", unit.Size{A: 24 * unit.Inch, B: 36.25 * unit.Inch}, "24 x 36 1/4"},
		{in, "box.size", unit.Size{A: 24 * unit.Inch, B: 36.25 * unit.Inch}, "24in x 36 1/4in"},
		{in, "box.far", unit.Length(0.6237), "62.4cm"},
		{in, "box.m", unit.Length(1.5), "1.5m"},
		{in, "box.m", unit.Length(1.234), "123.4cm"},
		{in, "l[1].h", 3 * unit.Inch, "3in"},
		{in, "wall.weight", 6.5 * unit.Pound, "6lb 8oz"},
		{in, "wall.turn", unit.Degrees(-30), "-30"},
		{in, "wall.part", unit.Share(0.9), "90%"},
		{in, "wall.takes", unit.Minutes(80), "1h 20min"},
		{in, "wall.price", unit.Money(125050), "1250.50"},
		{in, "wall.on", true, "yes"},
		{in, "wall.n", 1.25, "1.25"},
		{in, "wall.note", "", `""`},
		{in, "wall.note", "a\nb\\\"", `"a\nb\\\""`},
		{in, "wall.note", "# c", `"# c"`},
		{in, "wall.note", "null", `"null"`},
		{cm, "wall.bottom", unit.Length(0.1234), "12.3"},
		{cm, "wall.box", unit.Size3{A: 0.1, B: 0.2, C: 0.305}, "10 x 20 x 30.5"},
		{none, "wall.bottom", unit.Length(0.1524), "6in"},
		{none, "more.bottom", unit.Length(0.1524), "6in"},
	} {
		f := file(t, c.text)
		g, err := do(f, "set", c.at, c.v)
		if err != nil {
			t.Error(c.at, err)
			continue
		}
		p, _ := ParsePath(c.at)
		if got, err := g.Verbatim(p); err != nil || string(got) != c.want {
			t.Errorf("%s = %v is written %s, want %s (%v)", c.at, c.v, got, c.want, err)
		}
	}
}

func TestPath(t *testing.T) {
	for _, s := range []string{"works[heron].size", "rows[back].works[2]", "tent", `works["1984"].from left`, `a["]"][0]`} {
		if p, err := ParsePath(s); err != nil || p.String() != s {
			t.Errorf("%s is read as %s, %v", s, p, err)
		}
	}
	for _, s := range []string{"", "[0]", ".a", "a.", "a..b", "a[]", "a[0", "a[0]b", `a["x]`, `a[""]`, "a. .b"} {
		if p, err := ParsePath(s); err == nil {
			t.Errorf("%q is read as %s", s, p)
		}
	}
}
