package scene

import (
	"bytes"
	"errors"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// span is source[from:to]. body is where the value itself begins, after an anchor (&name).
type span struct{ from, body, to int }

// layout is where everything of a parsed text stands. yaml.v3 tells where a node begins and not where it ends, so the text
// is read once more along the nodes.
type layout struct {
	text  []byte
	eol   string // how the text ends its lines
	spans map[*yaml.Node]span
	entry map[*yaml.Node]int // where a list's element has its dash
	lost  bool               // something is written in a way that is not followed
}

var errLayout = errors.New("the scene is written in a way that cannot be changed from here; edit it as text")

// lay finds the place of every node of a file.
func lay(f *File) (*layout, error) {
	l := &layout{text: f.source, eol: "\n", spans: map[*yaml.Node]span{}, entry: map[*yaml.Node]int{}}
	if i := bytes.IndexAny(f.source, "\r\n"); i >= 0 {
		l.eol = string(f.source[i : i+l.lineBreak(i)])
	}
	l.walk(f.root, offset(f.source, f.root.Line, f.root.Column))
	if l.lost {
		return nil, errLayout
	}
	return l, nil
}

// offset is the byte at a line and a column, which count from 1 and in characters.
func offset(source []byte, line, col int) int {
	l := layout{text: source}
	at := l.head()
	for ; line > 1; line-- {
		if at = l.lineEnd(at); at == len(source) {
			return at
		}
		at += l.lineBreak(at)
	}
	for ; col > 1 && at < len(source); col-- {
		_, n := utf8.DecodeRune(source[at:])
		at += n
	}
	return at
}

// head is where the text begins, after a byte order mark.
func (l *layout) head() int {
	if l.has(0, "\ufeff") {
		return len("\ufeff")
	}
	return 0
}

func (l *layout) has(at int, prefix string) bool {
	return bytes.HasPrefix(l.text[min(at, len(l.text)):], []byte(prefix))
}

var lineBreaks = []string{"\r\n", "\n", "\r", "\u0085", "\u2028", "\u2029"} // all that YAML takes for one

// lineBreak is the length of the end of a line at a byte, 0 for anything else.
func (l *layout) lineBreak(at int) int {
	if at >= len(l.text) || l.text[at] > '\r' && l.text[at] < 0x80 {
		return 0 // as nearly all
	}
	for _, b := range lineBreaks {
		if l.has(at, b) {
			return len(b)
		}
	}
	return 0
}

// lineEnd is where the line of a byte ends, before its line break.
func (l *layout) lineEnd(at int) int {
	for at < len(l.text) && l.lineBreak(at) == 0 {
		at++
	}
	return at
}

// lineStart is where the line of a byte begins.
func (l *layout) lineStart(at int) int {
	for at > l.head() && l.breakBefore(at) == 0 {
		at--
	}
	return at
}

// breakBefore is the length of the end of a line that ends at a byte.
func (l *layout) breakBefore(at int) int {
	if at == 0 || l.text[at-1] > '\r' && l.text[at-1] < 0x80 {
		return 0
	}
	for _, b := range lineBreaks {
		if bytes.HasSuffix(l.text[:at], []byte(b)) {
			return len(b)
		}
	}
	return 0
}

// blanks is the byte after blanks and tabs.
func (l *layout) blanks(at int) int {
	for at < len(l.text) && (l.text[at] == ' ' || l.text[at] == '\t') {
		at++
	}
	return at
}

// comment is whether a comment begins at a byte after a value, a sign or blanks.
func (l *layout) comment(at int) bool { return l.has(at, "#") }

// skip is the byte after blanks, line breaks and comments.
func (l *layout) skip(at int) int {
	for {
		at = l.blanks(at)
		switch n := l.lineBreak(at); {
		case l.comment(at):
			at = l.lineEnd(at)
		case n > 0:
			at += n
		default:
			return at
		}
	}
}

// expect is the byte after a sign.
func (l *layout) expect(at int, sign string) int {
	if !l.has(at, sign) {
		l.lost = true
	}
	return min(at+len(sign), len(l.text))
}

// unwritten is whether nothing stands where a value could.
func unwritten(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Value == "" && n.Style == 0 && n.Anchor == ""
}

// walk notes the span of a node that begins at a byte, or after blanks and comments, and is the byte after it.
func (l *layout) walk(n *yaml.Node, at int) int {
	if l.lost || unwritten(n) {
		l.spans[n] = span{at, at, at}
		return at
	}
	from := l.skip(at)
	at = from
	if n.Anchor != "" {
		at = l.expect(at, "&"+n.Anchor)
		if !(n.Kind == yaml.ScalarNode && n.Value == "" && n.Style == 0) {
			at = l.skip(at)
		}
	}
	body := at
	switch {
	case n.Kind == yaml.AliasNode:
		at = l.expect(at, "*"+n.Value)
	case n.Kind == yaml.ScalarNode:
		at = l.scalar(n, at)
	case n.Kind == yaml.SequenceNode && n.Style&yaml.FlowStyle != 0:
		at = l.flow(n, at, "[", "]")
	case n.Kind == yaml.MappingNode && n.Style&yaml.FlowStyle != 0 && l.has(at, "{"):
		at = l.flow(n, at, "{", "}")
	case n.Kind == yaml.SequenceNode:
		for _, c := range n.Content {
			dash := l.skip(at)
			l.entry[c] = dash
			at = l.walk(c, l.expect(dash, "-"))
		}
	default: // lines of keys and values; or one key and its value alone in [ ]
		for i := 0; i+1 < len(n.Content); i += 2 {
			at = l.pair(n.Content[i], n.Content[i+1], at)
		}
	}
	l.spans[n] = span{from, body, at}
	return at
}

// flow walks what stands between brackets.
func (l *layout) flow(n *yaml.Node, at int, open, shut string) int {
	at = l.expect(at, open)
	step := 1
	if n.Kind == yaml.MappingNode {
		step = 2
	}
	for i := 0; i+step <= len(n.Content); i += step {
		if step == 2 {
			at = l.pair(n.Content[i], n.Content[i+1], at)
		} else {
			at = l.walk(n.Content[i], at)
		}
		if end := l.skip(at); l.has(end, ",") {
			at = end + 1
		}
	}
	return l.expect(l.skip(at), shut)
}

// pair walks a key and its value. In braces the colon may be left out.
func (l *layout) pair(k, v *yaml.Node, at int) int {
	at = l.walk(k, at)
	if colon := l.skip(at); l.has(colon, ":") {
		return l.walk(v, colon+1)
	}
	l.lost = l.lost || !unwritten(v)
	return l.walk(v, at)
}

// scalar is the byte after a single value.
func (l *layout) scalar(n *yaml.Node, at int) int {
	switch {
	case n.Style&yaml.DoubleQuotedStyle != 0:
		for at = l.expect(at, `"`); at < len(l.text) && l.text[at] != '"'; at++ {
			if l.text[at] == '\\' {
				at++
			}
		}
		return l.expect(at, `"`)
	case n.Style&yaml.SingleQuotedStyle != 0:
		for at = l.expect(at, `'`); at < len(l.text) && (l.text[at] != '\'' || l.has(at, "''")); at++ {
			if l.text[at] == '\'' {
				at++
			}
		}
		return l.expect(at, `'`)
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return l.lines(n.Value, at)
	}
	return l.plain(n.Value, at)
}

// plain is the byte after a text without quotes, which may go over several lines: one line break is a blank, more are
// one less.
func (l *layout) plain(value string, at int) int {
	for value != "" {
		end, breaks := l.blanks(at), 0
		for n := l.lineBreak(end); n > 0; n = l.lineBreak(end) {
			end, breaks = l.blanks(end+n), breaks+1
		}
		want := value[:1]
		switch {
		case breaks == 1:
			want, at = " ", end
		case breaks > 1:
			want, at = strings.Repeat("\n", breaks-1), end
		default:
			at = l.expect(at, want)
		}
		if l.lost = l.lost || !strings.HasPrefix(value, want); l.lost {
			return at
		}
		value = value[len(want):]
	}
	return at
}

// lines is the byte after a text below | or >, without the last line break.
func (l *layout) lines(value string, at int) int {
	end := l.lineEnd(at)
	text := strings.TrimLeft(value, "\n")
	if text == "" {
		return end
	}
	first := l.skipBlankLines(end)
	own := l.blanks(first) - first - (len(text) - len(strings.TrimLeft(text, " "))) // columns that are no part of the text
	for at = end; at < len(l.text); {
		line := at + l.lineBreak(at)
		stop := l.lineEnd(line)
		if words := l.blanks(line); words < stop && words-line < own {
			break
		} else if words < stop {
			end = stop
		}
		if at = stop; line == stop && line == len(l.text) {
			break
		}
	}
	for range len(value) - len(strings.TrimRight(value, "\n")) - 1 { // |+ keeps the empty lines after it
		if n := l.lineBreak(end); n > 0 {
			end = l.lineEnd(end + n)
		}
	}
	return end
}

// skipBlankLines is the beginning of the first line after a byte's line that is not blank.
func (l *layout) skipBlankLines(at int) int {
	for {
		line := at + l.lineBreak(at)
		if at = l.lineEnd(line); l.blanks(line) < at || at == len(l.text) {
			return line
		}
	}
}
