package scene

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/fault"
)

// Files that cannot be read as a scene at all: the place and the words, to the letter.
func TestBadFiles(t *testing.T) {
	const (
		columns = ` (entries that belong together start in the same column; around a text that holds a ' put ")`
		brace   = ` (write {key: value, key: value} and [one, two])`
		quote   = `a quote is opened here and not closed (close it, or write the text without quotes)`
		odd     = ` (type an ordinary blank in its place; text from a web page or a word processor brings such)`
		deep    = `too many lists and mappings in each other`
	)
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "a: is empty"},
		{"blank lines", "\n \n", "a: is empty"},
		{"comments only", "# a booth\n", "a: holds nothing but comments"},
		{"null", "~\n", "a:1:1: this is not a scene: has no value: write keys and values (start with a key, such as tent: or works:)"},
		{"a list", "- tent\n", "a:1:1: this is not a scene: want keys and values, got a list (start with a key, such as tent: or works:)"},
		{"prose", "My booth\n", `a:1:1: this is not a scene: want keys and values, got "My booth" (start with a key, such as tent: or works:)`},
		{"no blank after the colon", "units:in\ntent:{}\n", `a:1:1: this is not a scene: want keys and values, got "units:in tent:{}" (leave a blank after each colon)`},
		{"tab", "tent:\n\teave: 84\n", "a:2:1: a line starts with a tab (indent with blanks)"},
		{"tab, CRLF", "tent:\r\n  eave: 84\r\n\tpeak: 3\r\n", "a:3:1: a line starts with a tab (indent with blanks)"},
		{"double quote", "works:\n  - {name: \"heron, size: 3}\n  - {name: b}\n", "a:2:12: " + quote},
		{"single quote", "title: 'abc\nb: 2\n", "a:1:8: " + quote},
		{"quote, CRLF and BOM", "\ufeffa: 1\r\nb: \"x\r\nc: 3\r\n", "a:2:4: " + quote},
		{"quote that another entry's closes", "works:\n  - {name: a, title: \"Heron, size: 3}\n  - {name: b, title: \"Alder\", size: 4}\n", "a:2:22: " + quote},
		{"quote that another entry closes", "works:\n  - {name: a, title: \"Heron, size: 3}\n  - {name: b, title: Alder\", size: 4}\n", "a:2:22: a quote is opened here and closed only where another entry has one (close it, or write the text without quotes)"},
		{"a quote over two lines", "title: \"Heron\n  at the weir\"\nb: [\n", "a:3:4: a { or [ is opened here and not closed" + brace},
		{"a colour in braces", "drapes: {cloth: #36383b, top: 84}\n", `a:1:17: a # begins a comment, which takes the rest of the line with it (put the colour in quotes: "#36383b")`},
		{"a comment and a brace", "drapes: {top: 84 # high\n", "a:1:9: a { or [ is opened here and not closed" + brace},
		{"no blank after a colon", "tent:\n  eave:89\n  peak: 120\n", `a:2:7: there is no blank after the colon (write "eave: 89")`},
		{"no blank after the first colon", "units:in\ntent: {}\n", `a:1:6: there is no blank after the colon (write "units: in")`},
		{"a non-breaking space as indent", "tent:\n\u00a0 eave: 89\n  peak: 3\n", "a:2:1: this looks like a blank and is another character, U+00A0" + odd},
		{"a non-breaking space after a colon", "tent:\n  eave:\u00a089\n  peak: 3\n", "a:2:8: this looks like a blank and is another character, U+00A0" + odd},
		{"apostrophe in quotes", "a: 'Odile's heron'\n", "a:1:11: this does not belong to what stands before it" + columns},
		{"brace", "works:\n  - {name: heron\n  - {name: b}\n", "a:3:3: a { or [ before this is not closed, or a comma is missing" + brace},
		{"bracket", "walls: [left, back\n", "a:1:8: a { or [ is opened here and not closed" + brace},
		{"colon in a text", "title: Evening: the weir\n", `a:1:8: a second colon on one line (put a text that holds a colon in quotes: "Evening: the weir")`},
		{"value and list", "works: heron\n  - {name: b}\n", "a:2:1: this does not belong to what stands before it (after a key comes one value, or nothing and a list below it)"},
		{"columns", "tent:\n  eave: 1\n peak: 2\n", "a:3:2: this does not belong to what stands before it" + columns},
		{"key without colon", "tent\nworks: 3\n", `a:1:1: a key without a colon (write "key: value", with a blank after the colon)`},
		{"at sign", "title: @home\n", "a:1:8: a value cannot begin with this character (put the text in quotes)"},
		{"star", "a: 1\ntitle: é *heron\nb: *heron\n", `a:2:10: "*heron" stands for nothing (put text that starts with * in quotes)`},
		{"exclamation mark", "title: !Heron\n", `a:1:8: "!Heron" has no meaning here (put text that starts with ! in quotes)`},
		{"backslash", "image: \"art\\heron.jpg\"\n", "a:1:13: a backslash in double quotes has a meaning of its own (use single quotes, and / in the names of files)"},
		{"twice", "tent: {eave: 1, peak: 2, Eave: 3}\nworks: []\nWorks: []\n", "a:1:26: \"eave\" stands twice, first on line 1 (keep one of them)\na:3:1: \"works\" stands twice, first on line 2 (keep one of them)"},
		{"twice in a list", "works:\n  - name: a\n    size: 1\n    name: b\n", `a:4:5: "name" stands twice, first on line 2 (keep one of them)`},
		{"two scenes", "a: 1\n---\nb: 2\n", "a:2:1: a second scene starts here (one scene, one file: take out the line ---)"},
		{"two scenes, the second broken", "a: 1\n---\nb: \"2\n", "a:3:4: " + quote},
		{"merge", "a: &x {b: 1}\nc: {<<: *x}\n", "a:2:5: << has no meaning here (write the values out)"},
		{"list as key", "? [a]\n: 1\n", "a:1:3: a key must be plain text (a key is one or two words before a colon)"},
		{"empty key", "tent: {\"\": 1}\n", "a:1:8: a key is empty"},
		{"escape in a text", "title: \"\\e[31m\"\n", "a:1:8: a text with an invisible control character (take it out)"},
		{"escape in a key", "\"a\\x1fb\": 1\n", "a:1:1: a key with an invisible control character (take it out)"},
		{"control character", "a: 1\nb: x\x07\n", "a:2:5: an invisible control character, U+0007 (take it out)"},
		{"Latin-1", "a: 1\ntitle: caf\xe9\n", "a:2:11: a character that is not UTF-8 (save the file as UTF-8)"},
		{"UTF-16", "\xff\xfea\x00:\x00 \x001\x00", "a:1:1: a character that is not UTF-8 (save the file as UTF-8)"},
		{"binary", "\x89PNG\r\n\x1a\n\x00\x00", "a: is not a text file (a scene is written with a plain text editor; from a folder of photographs, begin with: boothmock start FOLDER)"},
		{"zeros", "\x00\x00\x00", "a: is not a text file (a scene is written with a plain text editor; from a folder of photographs, begin with: boothmock start FOLDER)"},
		{"long text", "title: " + strings.Repeat("é", 2001) + "\n", "a:1:8: a text of more than 2000 characters"},
		{"too large", "a: 1\n" + strings.Repeat("#\n", 1<<19), "a: is larger than 1024 kB (a scene is a few pages of text)"},
		{"an alias in itself", "a: &x [*x]\n", "a:1:4: " + deep},
		{"deep braces", strings.Repeat("{a: ", 40) + "1" + strings.Repeat("}", 40), "a:1:133: " + deep},
		{"very deep brackets", "a: " + strings.Repeat("[", 500_000), "a: " + deep},
		{"very deep dashes", strings.Repeat("- ", 500_000) + "a", "a: " + deep},
		{"very deep questions", strings.Repeat("? ", 500_000), "a: " + deep},
		{"alias bomb", bomb(9), "a:1:5: repeats (*name) add up to more than 10000 values (write the values out)"},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Read(fstest.MapFS{"a": {Data: []byte(c.text)}}, "a")
		runtime.ReadMemStats(&after)
		var list fault.List
		if fmt.Sprint(err) != c.want || !errors.As(err, &list) {
			t.Errorf("%s:\ngot  %v\nwant %s", c.name, err, c.want)
		}
		if used := after.TotalAlloc - before.TotalAlloc; used > 64<<20 {
			t.Errorf("%s took %d MB", c.name, used>>20)
		}
	}
}

// bomb is a file of a few lines that stands for 10^n values.
func bomb(n int) string {
	var b strings.Builder
	b.WriteString("a0: &a0 x\n")
	for i := 1; i <= n; i++ {
		fmt.Fprintf(&b, "a%d: &a%d [%s]\n", i, i, strings.TrimSuffix(strings.Repeat(fmt.Sprintf("*a%d, ", i-1), 10), ", "))
	}
	return b.String()
}

// A file with thousands of faults keeps the first 200 and says how many more there are.
func TestManyFaults(t *testing.T) {
	f := file(t, "things:\n"+strings.Repeat("  - {name: a, count: x}\n", 1000))
	refused := 0
	for _, it := range f.Items("things") {
		if !it.Decode(&entry1{}) {
			refused++
		}
	}
	lines := strings.Split(f.Err().Error(), "\n")
	if refused != 1000 || len(lines) != 201 || lines[0] != "a.yaml: 800 faults more than are shown here (mend these first)" {
		t.Errorf("%d refused, %d lines, first %s", refused, len(lines), lines[0])
	}
}

// A sane alias is read, and its faults are where it was written.
func TestAlias(t *testing.T) {
	f := file(t, "things:\n  - {name: a, height: &h 24in, shelf: &s {height: 1in}}\n  - {name: b, height: *h, shelf: *s, depth: &bad 1lb}\n  - {name: c, depth: *bad}\n")
	var got [3]entry1
	for i, it := range f.Items("things") {
		it.Decode(&got[i])
	}
	if got[1].Height.M() != 0.6096 || got[1].Shelf == nil || got[1].Shelf.Height.M() != 0.0254 || got[1].Shelf == got[0].Shelf {
		t.Errorf("%+v", got[1])
	}
	if want := `a.yaml:3:45: depth: "1lb" is not a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)`; f.Err().Error() != want {
		t.Errorf("got %v", f.Err())
	}
}

// Whatever the bytes: an answer, faults at places inside the file, and values in their ranges.
func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"units: in\nthings:\n  - {name: a, size: 24 x 36, height: 24, hang on: mesh, sides: [left], cloth: \"#010203\", shelf: {height: 2}}\n",
		"things:\r\n- name: &x a\r\n  depth: 5'6\"\r\n- *x\r\n", "\ufeffunits: cm\nthings: {name: é, box: 1 x 2 x 3, indoor: yes, fullness: 1.5}\n",
		"a: [", "a: \"", "\t", "- a", "? a", "<<: *a", "a: !b c", "a: |\n  x\n", "---\n---\n", "#\n", "a: &a [*a]", "%YAML 1.1\n---\na: 1\n", "a: 'b", "{a: {a: {a: 1}}}", bomb(3),
	} {
		f.Add([]byte(s))
	}
	examples, err := filepath.Glob("../../../scenes/*.yaml")
	if err != nil || len(examples) == 0 {
		f.Fatal("no example scenes", err)
	}
	for _, name := range examples {
		b, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		file, err := Read(fstest.MapFS{"a": {Data: b}}, "a")
		if err != nil {
			checkPlaces(t, b, err)
			return
		}
		file.Refuse([]string{"things", "thing", "event"}, nil, nil)
		file.Text("event")
		for _, it := range append(file.Items("things"), file.Items("thing")...) {
			var e entry1
			ok := it.Decode(&e)
			if ok && (e.Name == "" || !(e.Height >= 0 && e.Height.M() <= 6.1) || e.Weight < 0 || e.Factor < 0 || e.Count < 0 || e.Count > 6) {
				t.Errorf("decoded %+v", e)
			}
			if !ok && file.Err() == nil {
				t.Error("not decoded, and nothing said")
			}
			it.Values()
			it.At("sides.0")
		}
		if err := file.Err(); err != nil {
			checkPlaces(t, b, err)
		}
	})
}

func checkPlaces(t *testing.T, b []byte, err error) {
	t.Helper()
	var list fault.List
	if !errors.As(err, &list) || len(list) == 0 {
		t.Fatalf("%v is no list of faults", err)
	}
	text := strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u0085", "\n", "\u2028", "\n", "\u2029", "\n").Replace(strings.TrimPrefix(string(b), "\ufeff"))
	lines := strings.Split(text, "\n")
	for _, f := range list {
		if f.At.Line < 0 || f.At.Line > len(lines)+1 || f.At.Line > 0 && f.At.Col < 1 || f.Text == "" {
			t.Errorf("%#v is no place in %d lines", f, len(lines))
		}
	}
	list.Show(func(string) []byte { return b })
}

func BenchmarkRead(b *testing.B) {
	text := "units: in\nthings:\n" + strings.Repeat("  - {name: a, size: 24 x 36, height: 24, hang on: mesh, sides: [left], weight: 6lb}\n", 100)
	fsys := fstest.MapFS{"a": {Data: []byte(text)}}
	for b.Loop() {
		f, err := Read(fsys, "a")
		if err != nil {
			b.Fatal(err)
		}
		for _, it := range f.Items("things") {
			if !it.Decode(&entry1{}) {
				b.Fatal(f.Err())
			}
		}
	}
}
