package scene

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// Relist is a list of texts that is to be another: field is the list's key in an item.
type Relist struct {
	Item  Item
	Field string
	Words []string // at least one
}

// Splice is the file's text with some lists changed and every other byte as it was: comments, spacing, line ends.
func (f *File) Splice(lists []Relist) ([]byte, error) {
	var edits []edit
	for _, l := range lists {
		_, n := entry(l.Item.node, l.Field)
		if n == nil || n.Kind != yaml.SequenceNode || n.Anchor != "" || len(n.Content) == 0 {
			return nil, fmt.Errorf("%s: %s is not a plain list there", l.Item.At(l.Field), l.Field)
		}
		e, err := f.relist(n, l.Words)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", l.Item.At(l.Field), err)
		}
		edits = append(edits, e...)
	}
	out := apply(f.source, edits)
	return out, f.proves(out, lists)
}

// edit replaces source[from:to].
type edit struct {
	from, to int
	text     string
}

// apply makes edits that do not overlap.
func apply(source []byte, edits []edit) []byte {
	var out []byte
	at := 0
	for len(edits) > 0 {
		first := 0
		for i, e := range edits {
			if e.from < edits[first].from {
				first = i
			}
		}
		e := edits[first]
		out = append(append(out, source[at:e.from]...), e.text...)
		at = e.to
		edits = append(edits[:first:first], edits[first+1:]...)
	}
	return append(out, source[at:]...)
}

// relist is the edits that make the words of a list: each in the place of an old one; those too many are taken out, those
// that are missing come after the last.
func (f *File) relist(list *yaml.Node, words []string) ([]edit, error) {
	flow := list.Style&yaml.FlowStyle != 0
	var edits []edit
	end := 0
	for i, n := range list.Content {
		from, to, err := f.extent(n)
		if err != nil {
			return nil, err
		}
		switch {
		case i < len(words) && typedText(n) != words[i]:
			edits = append(edits, edit{from, to, scalarText(words[i])})
		case i >= len(words) && flow: // with the comma before it; what else stands between, such as a comment, stays
			comma := end + bytes.IndexByte(f.source[end:from], ',')
			if comma < end {
				return nil, errors.New("the list is written in a way that cannot be changed")
			}
			edits = append(edits, edit{comma, comma + 1 + blanks(f.source[comma+1:from]), ""}, edit{from, to, ""})
		case i >= len(words): // a line of its own
			dash := bytes.LastIndexByte(f.source[end:from], '-')
			line := bytes.LastIndexByte(f.source[end:from], '\n')
			if dash < 0 || line < 0 {
				return nil, errors.New("the list is written in a way that cannot be changed")
			}
			line += end
			if line > 0 && f.source[line-1] == '\r' {
				line--
			}
			edits = append(edits, edit{line, to, ""})
		}
		end = to
	}
	extra := ""
	for _, w := range words[min(len(words), len(list.Content)):] {
		if flow {
			extra += ", " + scalarText(w)
			continue
		}
		last := list.Content[len(list.Content)-1]
		from, _, err := f.extent(last)
		if err != nil {
			return nil, err
		}
		line := bytes.LastIndexByte(f.source[:from], '\n') + 1
		ending := "\n"
		if line >= 2 && f.source[line-2] == '\r' {
			ending = "\r\n"
		}
		extra += ending + string(f.source[line:from]) + scalarText(w)
	}
	if extra != "" {
		if last := len(edits) - 1; last >= 0 && edits[last].to == end {
			edits[last].text += extra
		} else {
			edits = append(edits, edit{end, end, extra})
		}
	}
	return edits, nil
}

func blanks(b []byte) int { return len(b) - len(bytes.TrimLeft(b, " \t")) }

// extent is where a single value stands in the source, its quotes included.
func (f *File) extent(n *yaml.Node) (from, to int, err error) {
	strange := errors.New("a name is written in a way that cannot be changed")
	if n.Kind != yaml.ScalarNode || n.Anchor != "" {
		return 0, 0, strange
	}
	from = offset(f.source, n.Line, n.Column)
	rest := f.source[from:]
	switch {
	case bytes.HasPrefix(rest, []byte(`"`)):
		for i := 1; i < len(rest); i++ {
			switch rest[i] {
			case '\\':
				i++
			case '"':
				return from, from + i + 1, nil
			}
		}
	case bytes.HasPrefix(rest, []byte(`'`)):
		for i := 1; i < len(rest); i++ {
			if rest[i] == '\'' {
				if i+1 < len(rest) && rest[i+1] == '\'' {
					i++
					continue
				}
				return from, from + i + 1, nil
			}
		}
	case bytes.HasPrefix(rest, []byte(n.Value)):
		return from, from + len(n.Value), nil
	}
	return 0, 0, strange
}

// offset is the byte at a line and a column, which count from 1 and in characters.
func offset(source []byte, line, col int) int {
	at := 0
	if bytes.HasPrefix(source, []byte("\ufeff")) {
		at = len("\ufeff")
	}
	for ; line > 1; line-- {
		i := bytes.IndexAny(source[at:], "\n\r\u0085\u2028\u2029") // all that YAML takes for the end of a line
		if i < 0 {
			return len(source)
		}
		at += i
		_, n := utf8.DecodeRune(source[at:])
		if bytes.HasPrefix(source[at:], []byte("\r\n")) {
			n = 2
		}
		at += n
	}
	for ; col > 1 && at < len(source); col-- {
		_, n := utf8.DecodeRune(source[at:])
		at += n
	}
	return at
}

// scalarText is a text as a value that is safe in either kind of list.
func scalarText(s string) string {
	var n yaml.Node
	if yaml.Unmarshal([]byte("["+s+"]"), &n) == nil && len(n.Content) == 1 && len(n.Content[0].Content) == 1 {
		if v := n.Content[0].Content[0]; v.Kind == yaml.ScalarNode && v.Value == s && v.Tag == "!!str" && v.LineComment == "" && !strings.Contains(s, "\n") {
			return s
		}
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}

// proves reads the new text and compares everything in it with the old: only the lists may differ.
func (f *File) proves(text []byte, lists []Relist) error {
	g, err := Parse(f.Name, text)
	if err != nil {
		return fmt.Errorf("the change would break the file: %w", err)
	}
	for _, l := range lists {
		_, n := entry(l.Item.node, l.Field)
		before := n.Content
		n.Content = nil
		for _, w := range l.Words {
			n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: w})
		}
		defer func() { n.Content = before }()
	}
	if !reflect.DeepEqual(typed(value(f.root)), typed(value(g.root))) {
		return errors.New("the change would alter more of the file than the lists")
	}
	return nil
}

// Lines is the text of a top-level key and all that it holds, as it stands in the file.
func (f *File) Lines(key string) string {
	k, _ := entry(f.root, key)
	if k == nil {
		return ""
	}
	from, to := offset(f.source, k.Line, 1), len(f.source)
	for i := 0; i+1 < len(f.root.Content); i += 2 {
		if n := f.root.Content[i]; n.Line > k.Line {
			to = min(to, offset(f.source, n.Line, 1))
		}
	}
	lines := strings.Split(strings.TrimRight(string(f.source[from:max(from, to)]), "\r\n"), "\n")
	for len(lines) > 1 {
		if last := strings.TrimSpace(lines[len(lines)-1]); last != "" && !strings.HasPrefix(last, "#") {
			break
		}
		lines = lines[:len(lines)-1] // it belongs to what comes after
	}
	return strings.Join(lines, "\n")
}
