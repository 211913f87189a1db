package scene

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	goccy "github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/parser"
	"go.yaml.in/yaml/v3"

	"boothmock/internal/fault"
	"boothmock/internal/unit"
)

const (
	maxDepth    = 32     // levels of lists and mappings in each other
	maxRepeated = 10_000 // nodes that aliases (*name) stand for, all together
	maxText     = 2000   // characters of one value
)

// parse is the mapping at the top of the file, or nil after a fault.
func (f *File) parse() *yaml.Node {
	if !f.readable() {
		return nil
	}
	d := yaml.NewDecoder(bytes.NewReader(f.source))
	var doc, second yaml.Node
	switch err := d.Decode(&doc); {
	case err == io.EOF || err == nil && len(doc.Content) == 0:
		what := "is empty"
		if len(bytes.TrimSpace(f.source)) > 0 {
			what = "holds nothing but comments"
		}
		f.add(f.whole(), "", "%s", what)
		return nil
	case err != nil:
		f.add(f.syntax(err))
		return nil
	}
	if err := d.Decode(&second); err != nil && err != io.EOF {
		f.add(f.syntax(err))
		return nil
	} else if err == nil {
		f.add(f.place(&second), "one scene, one file: take out the line ---", "a second scene starts here")
		return nil
	}
	root := doc.Content[0]
	if root.Kind != yaml.MappingNode {
		f.add(f.place(root), "start with a key, such as tent: or works:", "this is not a scene: %s", mismatch("keys and values", value(root)))
		return nil
	}
	w := walker{file: f}
	w.walk(root, 0, false)
	if len(f.faults) > 0 {
		return nil
	}
	return root
}

// readable is false, after a fault, if the file is not text.
func (f *File) readable() bool {
	line, col := 1, 1
	for i, b := 0, bytes.TrimPrefix(f.source, []byte("\ufeff")); i < len(b); {
		r, n := utf8.DecodeRune(b[i:])
		at := fault.Place{File: f.Name, Line: line, Col: col}
		switch {
		case r == 0:
			f.add(f.whole(), "write the scene with a plain text editor", "is not a text file")
			return false
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

// syntax is the fault for a text that is not YAML. The judge is yaml.v3, the parser that viper uses; it names no column
// and sometimes a line too early, so the other parser is asked for the place.
func (f *File) syntax(err error) (at fault.Place, hint, format string, text string) {
	at = f.whole()
	text = strings.TrimPrefix(err.Error(), "yaml: ")
	if m := lineText.FindStringSubmatch(text); m != nil {
		at.Line, _ = strconv.Atoi(m[1])
		at.Col = 1
		text = m[2]
	}
	src := strings.ReplaceAll(strings.TrimPrefix(string(f.source), "\ufeff"), "\r\n", "\n") // else it counts lines wrongly
	if !strings.Contains(text, "max depth") {
		if line, col, other := askPlace(src); line > 0 {
			at.Line, at.Col, text = line, col, other
		}
	}
	lines := strings.Split(src, "\n")
	for i := max(0, at.Line-2); at.Line > 0 && i < min(len(lines), at.Line+1); i++ { // the parsers blame a neighbour
		if t := strings.IndexByte(lines[i], '\t'); t >= 0 && strings.TrimSpace(lines[i][:t]) == "" {
			at.Line, at.Col = i+1, t+1
			return at, "indent with blanks", "%s", "a line starts with a tab"
		}
	}
	switch {
	case strings.Contains(text, "quot"):
		hint = "close the quote, or leave quotes out"
	case strings.Contains(text, "max depth"):
		return at, "", "%s", "too many lists and mappings in each other"
	default:
		hint = `one key and its value a line, "key: value"; entries that belong together start in the same column`
	}
	return at, hint, "this is not YAML: %s", text
}

var lineText = regexp.MustCompile(`^line (\d+): (.*)$`)

// askPlace is the place of the syntax error, or zero. The parser recurses, so it is not asked about large files.
func askPlace(src string) (line, col int, text string) {
	defer func() { _ = recover() }()
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

// walker looks for what YAML allows and a scene does not.
type walker struct {
	file     *File
	repeated int // nodes reached through aliases
}

func (w *walker) walk(n *yaml.Node, depth int, alias bool) bool {
	if n.Kind == yaml.AliasNode {
		n, alias = n.Alias, true
	}
	if alias {
		w.repeated++
	}
	switch at := w.file.place(n); {
	case depth > maxDepth:
		w.file.add(at, "", "too many lists and mappings in each other")
		return false
	case w.repeated > maxRepeated:
		w.file.add(at, "write the values out", "repeats (*name) add up to more than %d values", maxRepeated)
		return false
	case n.Style&yaml.TaggedStyle != 0:
		w.file.add(at, "put text that starts with ! in quotes", "%s has no meaning here", unit.Quote(n.Tag))
		return true
	case n.Kind == yaml.ScalarNode && strings.ContainsFunc(n.Value, hidden):
		w.file.add(at, "take it out", "a text with an invisible control character")
		return true
	case n.Kind == yaml.ScalarNode && utf8.RuneCountInString(n.Value) > maxText:
		w.file.add(at, "", "a text of more than %d characters", maxText)
		return true
	}
	if n.Kind != yaml.MappingNode {
		for _, c := range n.Content {
			if !w.walk(c, depth+1, alias) {
				return false
			}
		}
		return true
	}
	first := map[string]int{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		at, name := w.file.place(k), plainKey(k)
		switch before, twice := first[name]; {
		case k.Kind != yaml.ScalarNode:
			w.file.add(at, "a key is one or two words before a colon", "a key must be plain text")
			return false
		case k.Tag == "!!merge":
			w.file.add(at, "write the values out", "<< has no meaning here")
		case strings.ContainsFunc(k.Value, hidden):
			w.file.add(at, "take it out", "a key with an invisible control character")
		case name == "":
			w.file.add(at, "", "a key is empty")
		case twice:
			w.file.add(at, "keep one of them", "%s stands twice, first on line %d", unit.Quote(name), before)
		default:
			first[name] = k.Line
		}
		if !w.walk(v, depth+1, alias) {
			return false
		}
	}
	return true
}

func hidden(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' }

// plainKey is a key in lower case, with single blanks between its words.
func plainKey(k *yaml.Node) string {
	return strings.ToLower(strings.Join(strings.Fields(k.Value), " "))
}

func resolve(n *yaml.Node) *yaml.Node {
	if n.Kind == yaml.AliasNode {
		return n.Alias
	}
	return n
}

// entry is the key and the value of a mapping's entry, or nil.
func entry(n *yaml.Node, key string) (k, v *yaml.Node) {
	if n = resolve(n); n.Kind == yaml.MappingNode {
		for i := 0; i+1 < len(n.Content); i += 2 {
			if plainKey(n.Content[i]) == key {
				return n.Content[i], n.Content[i+1]
			}
		}
	}
	return nil, nil
}

// keys are a mapping's keys in file order.
func keys(n *yaml.Node) []string {
	var out []string
	for i := 0; i+1 < len(n.Content); i += 2 {
		out = append(out, plainKey(n.Content[i]))
	}
	return out
}

func isNull(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Tag == "!!null"
}

// scalar is a single value as it was typed: YAML would make 8 of 010, and a date of 2026-05-01.
type scalar struct {
	text string
	null bool
	note string // a comment behind an empty value: perhaps the value, begun with #
}

// value is a node as plain Go values: scalar, []any and map[string]any.
func value(n *yaml.Node) any {
	n = resolve(n)
	switch n.Kind {
	case yaml.MappingNode:
		m := make(map[string]any, len(n.Content)/2)
		for i := 0; i+1 < len(n.Content); i += 2 {
			m[plainKey(n.Content[i])] = value(n.Content[i+1])
		}
		return m
	case yaml.SequenceNode:
		s := make([]any, len(n.Content))
		for i, c := range n.Content {
			s[i] = value(c)
		}
		return s
	}
	return scalar{n.Value, isNull(n), n.LineComment}
}

// codec hands viper the nodes that were read already.
type codec struct{ root *yaml.Node }

func (c codec) Decode(_ []byte, into map[string]any) error {
	into[top] = value(c.root)
	return nil
}

func (c codec) Encode(map[string]any) ([]byte, error) {
	return nil, fmt.Errorf("a scene is not written through viper")
}
