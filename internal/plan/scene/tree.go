package scene

import (
	"bytes"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
	"golang.org/x/text/unicode/norm"

	"boothmock/internal/basis/unit"
)

const (
	maxDepth    = 32      // levels of lists and mappings in each other
	maxRepeated = 10_000  // nodes that aliases (*name) stand for, all together
	maxText     = 2000    // characters of one value: a page
	maxLine     = 250     // characters of one value that is a name, a title or a line, unless its field says more
	maxList     = 300     // values in a list within an entry, unless its field says more or less
	maxKey      = 100     // characters of a key
	maxKeys     = 300     // keys of one mapping: no kind has a third of it
	maxValues   = 5000    // values of any list: more than the most works
	maxNodes    = 150_000 // keys, values and what holds them: the most works that fit into the largest file make 100,000
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
		f.syntax(err)
		return nil
	}
	if err := d.Decode(&second); err != nil && err != io.EOF {
		f.syntax(err)
		return nil
	} else if err == nil {
		f.add(f.place(&second), "one scene, one file: take out the line ---", "a second scene starts here")
		return nil
	}
	root := doc.Content[0]
	if root.Kind != yaml.MappingNode {
		hint := "start with a key, such as tent: or works:"
		if strings.Contains(root.Value, ":") {
			hint = "leave a blank after each colon"
		}
		f.add(f.place(root), hint, "this is not a scene: %s", mismatch("keys and values", value(root)).Error())
		return nil
	}
	w := walker{file: f, lines: strings.Split(strings.ReplaceAll(strings.TrimPrefix(string(f.source), "\ufeff"), "\r\n", "\n"), "\n")}
	w.walk(root, 0, false)
	if len(f.faults) > 0 {
		return nil
	}
	return root
}

// walker looks for what YAML allows and a scene does not.
type walker struct {
	file     *File
	lines    []string
	repeated int // nodes reached through aliases
	nodes    int // keys and values so far
}

func (w *walker) walk(n *yaml.Node, depth int, alias bool) bool {
	if n.Kind == yaml.AliasNode {
		n, alias = n.Alias, true
	}
	if alias {
		w.repeated++
	}
	w.nodes++
	if n.Kind == yaml.MappingNode {
		w.nodes += len(n.Content) / 2 // its keys
	}
	switch at := w.file.place(n); {
	case depth > maxDepth:
		w.file.add(at, "", "too many lists and mappings in each other")
		return false
	case w.repeated > maxRepeated:
		w.file.add(at, "write the values out", "repeats (*name) add up to more than %d values", maxRepeated)
		return false
	case w.nodes > maxNodes:
		w.file.add(at, "build a part of the booth at a time", "up to here the scene has more than %d keys and values", maxNodes)
		return false
	case n.Kind == yaml.MappingNode && len(n.Content) > 2*maxKeys:
		w.file.add(w.file.place(n.Content[2*maxKeys]), "", "an entry of more than %d keys", maxKeys)
		return false
	case n.Kind == yaml.SequenceNode && len(n.Content) > maxValues:
		w.file.add(w.file.place(n.Content[maxValues]), "", "a list of more than %d values", maxValues)
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
	case n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 && w.swallows(n):
		w.file.add(at, "close it, or write the text without quotes", "a quote is opened here and closed only where another entry has one")
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
		case utf8.RuneCountInString(name) > maxKey:
			w.file.add(at, "a key is one or two words before a colon", "a key of more than %d characters", maxKey)
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

// swallows is whether a text in quotes goes on over lines that look like entries.
func (w *walker) swallows(n *yaml.Node) bool {
	if i := n.Line - 1; i >= 0 && i < len(w.lines) {
		col := len(string([]rune(w.lines[i])[:min(n.Column-1, utf8.RuneCountInString(w.lines[i]))]))
		if col >= len(w.lines[i]) || !strings.ContainsRune("\"'", rune(w.lines[i][col])) {
			return false // lines that end in a way of their own
		}
		last, _, closed := closing(w.lines, i, col)
		return closed && last > i && entryLike.MatchString(strings.Join(w.lines[i+1:last+1], "\n"))
	}
	return false
}

func hidden(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' }

// plainKey is a key in lower case, with single blanks between its words.
func plainKey(k *yaml.Node) string { return plainText(k.Value) }

func plainText(key string) string {
	return strings.ToLower(strings.Join(strings.Fields(norm.NFC.String(key)), " "))
}

// typedText is a single value as it was typed, but with every accented letter as one character (Unicode's form C): é may be
// typed as that or as e with an accent after it, which nobody can tell apart.
func typedText(n *yaml.Node) string { return norm.NFC.String(n.Value) }

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

func isNull(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Tag == "!!null"
}

// scalar is a single value as it was typed: YAML would make 8 of 010, and a date of 2026-05-01.
type scalar struct {
	text string
	null bool
	note string // the comment that stands where the value should, without a blank after its #: perhaps it is the value
}

// value is a node as plain Go values: scalar, []any and map[string]any.
func value(n *yaml.Node) any {
	n = resolve(n)
	switch n.Kind {
	case yaml.MappingNode:
		m := make(map[string]any, len(n.Content)/2)
		for i := 0; i+1 < len(n.Content); i += 2 {
			k, v := n.Content[i], value(n.Content[i+1])
			if s, ok := v.(scalar); ok && s.null {
				if len(k.LineComment) > 1 && k.LineComment[1] != ' ' {
					s.note = k.LineComment
				}
				v = s
			}
			m[plainKey(k)] = v
		}
		return m
	case yaml.SequenceNode:
		s := make([]any, len(n.Content))
		for i, c := range n.Content {
			s[i] = value(c)
		}
		return s
	}
	return scalar{text: typedText(n), null: isNull(n)}
}

// wholeValue is the whole file as plain Go values, but for its units, which the file has taken.
func wholeValue(root *yaml.Node) map[string]any {
	all := value(root).(map[string]any)
	delete(all, "units")
	return all
}
