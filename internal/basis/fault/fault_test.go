package fault

import (
	"errors"
	"strings"
	"testing"
)

func TestFaultReads(t *testing.T) {
	for _, c := range []struct {
		f    Fault
		want string
	}{
		{Fault{Place{"booth.yaml", 4, 10}, "height: no unit", "write 24in"}, "booth.yaml:4:10: height: no unit (write 24in)"},
		{Fault{Place{"booth.yaml", 0, 0}, "is empty", ""}, "booth.yaml: is empty"},
		{Fault{Place{}, "no rule", ""}, "no rule"},
	} {
		if got := c.f.Error(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestErrSortsAndDropsRepeats(t *testing.T) {
	var l List
	if l.Err() != nil {
		t.Fatal("an empty list is an error")
	}
	l.Add(Place{"b", 1, 1}, "", "fifth")
	l.Add(Place{"a", 10, 1}, "", "fourth")
	l.Add(Place{"a", 9, 20}, "", "third")
	l.Add(Place{"a", 9, 3}, "", "second, %d%%", 50)
	l.Add(Place{"a", 0, 0}, "", "first")
	l.Add(Place{"a", 10, 1}, "", "fourth")
	want := "a: first\na:9:3: second, 50%\na:9:20: third\na:10:1: fourth\nb:1:1: fifth"
	err := l.Err()
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
	var back List
	if !errors.As(err, &back) || len(back) != 5 {
		t.Errorf("the error holds %d faults, want 5", len(back))
	}
	if l[0].Text != "fifth" {
		t.Error("Err has sorted the list itself")
	}
}

func TestShow(t *testing.T) {
	files := map[string]string{
		"a.yaml":      "\ufefftent:\r\n\theight: 10 foots\r\n",
		"accent.yaml": "naïve: café: x\n",
		"esc.yaml":    "a: \x1b[31mred\n",
		"latin.yaml":  "caf\xe9: 1\n",
		"mac.yaml":    "a: 1\rb: 2\r",
		"long.yaml":   strings.Repeat("x", 300) + "HERE" + strings.Repeat("y", 300),
	}
	source := func(f string) []byte {
		if s, ok := files[f]; ok {
			return []byte(s)
		}
		return nil
	}
	for _, c := range []struct{ name, want string }{
		{"tab and CRLF and BOM", "a.yaml:2:10: bad\n    \theight: 10 foots\n    \t        ^\n    hint: do\n"},
		{"columns are characters", "accent.yaml:1:8: bad\n    naïve: café: x\n           ^\n    hint: do\n"},
		{"no escapes reach a terminal", "esc.yaml:1:4: bad\n    a: ·[31mred\n       ^\n    hint: do\n"},
		{"not UTF-8: no line", "latin.yaml:1:1: bad\n    hint: do\n"},
		{"old line ends", "mac.yaml:2:4: bad\n    b: 2\n       ^\n    hint: do\n"},
		{"line past the end", "mac.yaml:9:4: bad\n    hint: do\n"},
		{"column past the end", "mac.yaml:2:99: bad\n    b: 2\n        ^\n    hint: do\n"},
		{"no such source", "gone.yaml:1:1: bad\n    hint: do\n"},
		{"a long line is cut around the column", "long.yaml:1:301: bad\n    …" + strings.Repeat("x", 59) + "HERE" + strings.Repeat("y", 55) + "…\n    " + strings.Repeat(" ", 60) + "^\n    hint: do\n"},
	} {
		var at Place
		head, _, _ := strings.Cut(c.want, ": bad")
		p := strings.Split(head, ":")
		at.File, at.Line, at.Col = p[0], atoi(p[1]), atoi(p[2])
		if got := (List{{at, "bad", "do"}}).Show(source); got != c.want {
			t.Errorf("%s:\ngot\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
	if got := (List{{Place{"a.yaml", 1, 1}, "bad", ""}}).Show(nil); got != "a.yaml:1:1: bad\n" {
		t.Errorf("without a source: %q", got)
	}
}

func atoi(s string) (n int) {
	for _, r := range s {
		n = n*10 + int(r-'0')
	}
	return n
}

// A folder of photographs that was moved is one thing to mend, not as many screens as there are works.
func TestShowCountsWhatIsAlike(t *testing.T) {
	var l List
	for i := range 30 {
		l.Add(Place{"a.yaml", 10 + i, 1}, "names start from the folder", "there is no file %d.jpg", i)
	}
	l.Add(Place{"a.yaml", 20, 1}, "write a number", "no size")
	lines := strings.Split(strings.TrimSpace(l.Err().(List).Show(nil)), "\n")
	if len(lines) != 2*6+1+2 || lines[8] != "a.yaml:14:1: there is no file 4.jpg" || lines[10] != "a.yaml:20:1: no size" ||
		lines[12] != "… and 24 more with the hint of the next" || lines[13] != "a.yaml:39:1: there is no file 29.jpg" {
		t.Errorf("%s", strings.Join(lines, "\n"))
	}
}

func TestNearest(t *testing.T) {
	keys := []string{"height", "weight", "width", "from front", "x", "top"}
	for word, want := range map[string]string{
		"hieght":                          "height",
		"Heigth":                          "height",
		"wieght":                          "weight",
		"widht":                           "width",
		"from_front":                      "from front",
		"fromfront":                       "from front",
		"tpo":                             "top",
		"tops":                            "top",
		"y":                               "", // nothing of the word would be left
		"":                                "",
		"colour":                          "",
		strings.Repeat("height", 100_000): "",
	} {
		got, ok := Nearest(word, keys)
		if got != want || ok != (want != "") {
			t.Errorf("%.20q: got %q %v, want %q", word, got, ok, want)
		}
	}
}
