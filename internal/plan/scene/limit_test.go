package scene

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// What is more than a scene may hold is refused at its place, and what is just as much is not.
func TestLimits(t *testing.T) {
	line, page := strings.Repeat("é", maxLine), strings.Repeat("é", maxText)
	list := func(n int) string { return "[" + strings.TrimSuffix(strings.Repeat("a, ", n), ", ") + "]" }
	type says struct {
		Name  string   `yaml:"name"`
		Story string   `yaml:"story" most:"2000"`
		Texts []string `yaml:"texts" most:"40"`
		Many  []string `yaml:"many"`
	}
	for _, c := range []struct{ text, want string }{
		{"name: " + line, ""},
		{"name: " + line + "é", "a:2:9: name: has more than 250 characters (say it shorter)"},
		{"story: " + page, ""},
		{"story: " + page + "é", "a:2:10: a text of more than 2000 characters"},
		{"texts: " + list(40), ""},
		{"texts: " + list(41), "a:2:131: texts: there are 41 in the list; 40 at most"},
		{"texts: [a, " + line + "é]", "a:2:14: texts: has more than 250 characters (say it shorter)"},
		{"many: " + list(maxList), ""},
		{"many: " + list(maxList+1), "a:2:910: many: there are 301 in the list; 300 at most"},
	} {
		f, err := Parse("a", []byte("it:\n  "+c.text+"\n"))
		if err == nil {
			it, _ := f.Item("it")
			it.Decode(&says{})
			err = f.Err()
		}
		if got := fmt.Sprint(err); err == nil && c.want != "" || err != nil && got != c.want {
			t.Errorf("%.20s: %.200s, want %s", c.text, got, c.want)
		}
	}
	f, err := Parse("a", []byte("event: "+line+"é\n"))
	if err == nil {
		f.Text("event")
		err = f.Err()
	}
	if want := "a:1:8: event: has more than 250 characters (say it shorter)"; fmt.Sprint(err) != want {
		t.Errorf("%v, want %s", err, want)
	}
}

// The worst scenes are refused, or read, with so many bytes in hand for each of theirs.
func TestWorstScenes(t *testing.T) {
	const (
		size = maxBytes / 2 // of a file
		most = 250          // bytes for each of the file: a node of the parser for each two letters, and room for it to grow
	)
	many := func(before, s, after string) string {
		return before + strings.Repeat(s, size/len(s)) + after
	}
	keys := func(format string) string {
		var b strings.Builder
		for i := 0; b.Len() < size; i++ {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	for _, c := range []struct{ name, text, want string }{
		{"keys", keys("k%d: 1\n"), "a:301:1: an entry of more than 300 keys"},
		{"a key", many("", "k", ": 1\n"), "this does not belong to what stands before it"},
		{"keys in braces", "a: {" + keys("k%d: 1, ") + "}\n", "an entry of more than 300 keys"},
		{"names", keys("a%[1]d: &a%[1]d [1]\n"), "an entry of more than 300 keys"},
		{"a list", many("a: [", "[],", "a]\n"), "a:1:15005: a list of more than 5000 values"},
		{"entries", many("a:\n", "- {}\n", ""), "a:5002:3: a list of more than 5000 values"},
		{"nothing", many("a:\n", "- \n", ""), "a list of more than 5000 values"},
		{"lists in a list", many("a:\n", "- ["+strings.Repeat("a,", 499)+"a]\n", ""), "up to here the scene has more than 150000 keys and values"},
		{"depth", many("a: ", "[", ""), "too many lists and mappings in each other"},
		{"depth of braces", many("a: ", "{a: ", ""), "too many lists and mappings in each other"},
		{"dashes", many("", "- ", ""), "too many lists and mappings in each other"},
		{"questions", many("", "? ", ""), "too many lists and mappings in each other"},
		{"repeats", many("a: &a [x]\nb:\n", "- *a\n", ""), "a list of more than 5000 values"},
		{"a text", many("a: ", "x", "\n"), "a:1:4: a text of more than 2000 characters"},
		{"escapes", many(`a: "`, `\u0041`, "\"\n"), "a:1:4: a text of more than 2000 characters"},
		{"comments", many("a: 1\n", "#\n", ""), ""},
		{"line ends", many("a: 1\n", "\r\n", ""), ""},
		{"scenes", many("a: 1\n", "---\n", ""), "a second scene starts here"},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Parse("a", []byte(c.text))
		runtime.ReadMemStats(&after)
		if got := fmt.Sprint(err); err == nil && c.want != "" || err != nil && (c.want == "" || !strings.Contains(got, c.want)) {
			t.Errorf("%s: %.200s; want %s", c.name, got, c.want)
		}
		if took := (after.TotalAlloc - before.TotalAlloc) / uint64(len(c.text)); took > most {
			t.Errorf("%s: %d bytes in hand for each of the file", c.name, took)
		}
	}
}
