package scene

import (
	"strings"
	"testing"
)

func TestSplice(t *testing.T) {
	for name, c := range map[string]struct {
		before, after string
		words         [][]string
	}{
		"the same number": {
			"# mine\nrows:\n  - {wall: back, works: [heron,  \"the weir\", alder]}   # the best\nevent:   X\n",
			"# mine\nrows:\n  - {wall: back, works: [alder,  heron, the weir]}   # the best\nevent:   X\n",
			[][]string{{"alder", "heron", "the weir"}},
		},
		"more and fewer": {
			"rows:\n  - works: [a, b, c]\n    wall: back # here\n  - {works: [d]}\n",
			"rows:\n  - works: [d]\n    wall: back # here\n  - {works: [a, b, c]}\n",
			[][]string{{"d"}, {"a", "b", "c"}},
		},
		"lines, comments": {
			"rows:\n- works:\n  - a # first\n\n  # about b\n  - 'b''s'\n  - c\n  wall: left\n- works:\n    -   d\n",
			"rows:\n- works:\n  - c # first\n\n  # about b\n  - a\n  wall: left\n- works:\n    -   d\n    -   b's\n",
			[][]string{{"c", "a"}, {"d", "b's"}},
		},
		"CRLF and a mark": {
			"\ufeffrows:\r\n  - works:\r\n      - é\r\n      - b\r\n  - works: [c]\r\n",
			"\ufeffrows:\r\n  - works:\r\n      - b\r\n  - works: [é, c]\r\n",
			[][]string{{"b"}, {"é", "c"}},
		},
		"names that need quotes": {
			"rows: [{works: [a, b]}]", "rows: [{works: [\"no\", \"1, 2\"]}]", [][]string{{"no", "1, 2"}},
		},
		"an accent of its own stays as it was typed": {
			"rows: [{works: [cafe\u0301, b, c]}]", "rows: [{works: [cafe\u0301, c, b]}]", [][]string{{"caf\u00e9", "c", "b"}},
		},
		"over several lines": {
			"rows:\n  - {works: [a, # one\n     b,\n     c]}\n", "rows:\n  - {works: [c, # one\n     a\n     ]}\n", [][]string{{"c", "a"}},
		},
	} {
		f, err := Parse("a.yaml", []byte(c.before))
		if err != nil {
			t.Fatal(name, err)
		}
		var lists []Relist
		for i, it := range f.Items("rows") {
			lists = append(lists, Relist{it, "works", c.words[i]})
		}
		got, err := f.Splice(lists)
		if name == "names that need quotes" { // YAML 1.2 takes no for a text; quoted or not, it must come back as one
			if g, err := Parse("a", got); err != nil || g.Items("rows")[0].Values()["works"].([]any)[0] != "no" {
				t.Errorf("%s: %s", name, got)
			}
			continue
		}
		if err != nil || string(got) != c.after {
			t.Errorf("%s: %v\n%s\nwant\n%s", name, err, got, c.after)
		}
	}
	f, err := Parse("a.yaml", []byte("rows: [{works: &w [a, b]}, {works: *w}]"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.Splice([]Relist{{f.Items("rows")[1], "works", []string{"b", "a"}}}); err == nil || !strings.Contains(err.Error(), "not a plain list") {
		t.Errorf("%v", err)
	}
}
