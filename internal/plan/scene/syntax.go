package scene

import (
	"bytes"
	"errors"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	goccy "github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/parser"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// readable is false, after a fault, if the file is not text.
func (f *File) readable() bool {
	wide := bytes.HasPrefix(f.source, []byte("\xff\xfe")) || bytes.HasPrefix(f.source, []byte("\xfe\xff")) // UTF-16 text
	if !wide && bytes.IndexByte(f.source, 0) >= 0 {
		f.add(f.whole(), "a scene is written with a plain text editor; from a folder of photographs, begin with: boothmock start FOLDER", "is not a text file")
		return false
	}
	line, col := 1, 1
	for i, b := 0, bytes.TrimPrefix(f.source, []byte("\ufeff")); i < len(b); {
		r, n := utf8.DecodeRune(b[i:])
		at := fault.Place{File: f.Name, Line: line, Col: col}
		switch {
		case r == utf8.RuneError && n == 1:
			f.add(at, "save the file as UTF-8", "a character that is not UTF-8")
			return false
		case r == '\n':
			line, col = line+1, 0
		case unicode.IsControl(r) && r != '\t' && r != '\r' && r != '\u0085':
			f.add(at, "take it out", "an invisible control character, U+%04X", r)
			return false
		}
		i, col = i+n, col+1
	}
	return true
}

// said are the parsers' words for common slips, and ours.
var said = []struct{ theirs, text, hint string }{
	{"end character of", "a quote is opened here and not closed", "close it, or write the text without quotes"},
	{"must be specified", "a { or [ before this is not closed, or a comma is missing", "write {key: value, key: value} and [one, two]"},
	{"end token", "a { or [ is opened here and not closed", "write {key: value, key: value} and [one, two]"},
	{"mapping value is not allowed", "a second colon on one line", `put a text that holds a colon in quotes: "Evening: the weir"`},
	{"unexpected key name", "a key without a colon", `write "key: value", with a blank after the colon`},
	{"reserved character", "a value cannot begin with this character", "put the text in quotes"},
	{"unexpected directive", "a value cannot begin with this character", "put the text in quotes"},
	{"unknown escape", "a backslash in double quotes has a meaning of its own", "use single quotes, and / in the names of files"},
	{"value is not allowed", "this does not belong to what stands before it", "entries that belong together start in the same column; around a text that holds a ' put \""},
	{"mapping values are not allowed", "this does not belong to what stands before it", "after a key comes one value, or nothing and a list below it"},
	{"max depth", "too many lists and mappings in each other", ""},
}

// syntax adds the fault for a text that is not YAML. The judge is yaml.v3, the parser that viper uses; it names no column
// and sometimes a line too early, so another parser is asked for the place.
func (f *File) syntax(err error) {
	at := f.whole()
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	if m := lineText.FindStringSubmatch(text); m != nil {
		at.Line, _ = strconv.Atoi(m[1])
		at.Col, text = 1, m[2]
	}
	src := strings.ReplaceAll(strings.TrimPrefix(string(f.source), "\ufeff"), "\r\n", "\n") // else it counts lines wrongly
	if line, col, other := askPlace(src); line > 0 && !strings.Contains(text, "max depth") {
		at.Line, at.Col, text = line, col, other
	}
	lines := strings.Split(src, "\n")
	for i := max(0, at.Line-2); at.Line > 0 && i < min(len(lines), at.Line+1); i++ { // the parsers blame a neighbour
		if t := strings.IndexByte(lines[i], '\t'); t >= 0 && strings.TrimSpace(lines[i][:t]) == "" {
			at.Line, at.Col = i+1, t+1
			f.add(at, "indent with blanks", "a line starts with a tab")
			return
		}
	}
	if f.slip(lines, at.Line) {
		return
	}
	if m := anchorText.FindStringSubmatch(text); m != nil {
		for i, l := range lines {
			if before, _, ok := strings.Cut(l, "*"+m[1]); ok {
				at.Line, at.Col = i+1, utf8.RuneCountInString(before)+1
				break
			}
		}
		f.add(at, "put text that starts with * in quotes", "%s stands for nothing", unit.Quote("*"+m[1]))
		return
	}
	for _, s := range said {
		if strings.Contains(text, s.theirs) {
			f.add(at, s.hint, "%s", s.text)
			return
		}
	}
	f.add(at, `write one key and its value a line, "key: value"`, "this is not YAML: %s", text)
}

var (
	lineText   = regexp.MustCompile(`^line (\d+): (.*)$`)
	anchorText = regexp.MustCompile(`^unknown anchor '(.*)' referenced$`)
)

// askPlace is the place of the syntax error, or zero. The parser recurses, so it is not asked about large files.
func askPlace(src string) (line, col int, text string) {
	defer func() { _ = recover() }() // it is somebody else's parser on somebody else's file
	if len(src) > 64<<10 {
		return 0, 0, ""
	}
	_, err := parser.ParseBytes([]byte(src), 0)
	var e *goccy.SyntaxError
	if errors.As(err, &e) && e.GetToken() != nil && e.GetToken().Position != nil {
		p := e.GetToken().Position
		return p.Line, p.Column, e.GetMessage()
	}
	return 0, 0, ""
}
