package scene

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// change replaces source[from:to].
type change struct {
	from, to int
	text     string
}

// apply makes changes that do not overlap.
func apply(source []byte, changes []change) []byte {
	var out []byte
	at := 0
	for len(changes) > 0 {
		first := 0
		for i, c := range changes {
			if c.from < changes[first].from {
				first = i
			}
		}
		c := changes[first]
		out = append(append(out, source[at:c.from]...), c.text...)
		at = c.to
		changes = append(changes[:first:first], changes[first+1:]...)
	}
	return append(out, source[at:]...)
}

// entries are the parts of a list or mapping: between brackets an element or a key with its value and no more; on lines
// of their own with the dash, the comment behind and the comments directly above.
type entries struct {
	*layout
	node  *yaml.Node
	flow  bool
	parts []change // without text
}

func (l *layout) entries(n *yaml.Node) entries {
	e := entries{layout: l, node: n, flow: n.Style&yaml.FlowStyle != 0}
	step := 1
	if n.Kind == yaml.MappingNode {
		step = 2
	}
	floor := l.openedBy(l.spans[n].from)
	for i := 0; i+step <= len(n.Content); i += step {
		first, last := n.Content[i], n.Content[i+step-1]
		c := change{from: l.spans[first].from, to: l.spans[last].to}
		if dash, ok := l.entry[first]; ok {
			c.from = dash
		}
		if e.flow && unwritten(last) {
			c.to = l.blanks(c.to) // {a: , b: 1}: a comma right after the colon would be a part of the key
		}
		if !e.flow {
			c.from, c.to = l.above(c.from, floor), l.behind(c.to)
			floor = c.to
		}
		e.parts = append(e.parts, c)
	}
	return e
}

// openedBy is the end of the last line up to a byte on which more stands than blanks and a comment.
func (l *layout) openedBy(at int) int {
	for {
		line := l.lineStart(at)
		if words := l.blanks(line); words < at && !l.comment(words) {
			return at
		}
		if line == l.head() {
			return line
		}
		at = line - l.breakBefore(line)
	}
}

// above is where the comments begin that stand directly above a byte, in its column. floor is where to stop.
func (l *layout) above(at, floor int) int {
	line := l.lineStart(at)
	if l.blanks(line) != at {
		return at
	}
	column, opens := at-line, l.head()
	top := at
	for line > opens {
		line = l.lineStart(line - l.breakBefore(line))
		words := l.blanks(line)
		if line < floor || !l.comment(words) || words-line != column {
			return top
		}
		if line == opens {
			return at // it opens the file
		}
		top = words
	}
	return top
}

// behind is the end of the comment or the blanks after a byte.
func (l *layout) behind(at int) int {
	if words := l.blanks(at); l.comment(words) || words == l.lineEnd(at) {
		return l.lineEnd(at)
	}
	return at
}

// ownLine is whether nothing but blanks stands before a byte in its line.
func (l *layout) ownLine(at int) bool { return l.blanks(l.lineStart(at)) >= at }

// indent is the blanks that bring a line to the column of a byte.
func (l *layout) indent(at int) string {
	before := l.text[l.lineStart(at):at]
	if l.ownLine(at) {
		return string(before)
	}
	return strings.Repeat(" ", utf8.RuneCount(before))
}

func (e entries) part(i int) string { return string(e.text[e.parts[i].from:e.parts[i].to]) }

// between is what stands between an entry and the next.
func (e entries) between(i int) string { return string(e.text[e.parts[i].to:e.parts[i+1].from]) }

// separator is what keeps an entry that comes in before number i from its neighbours: what keeps them apart, if that is
// no comment.
func (e entries) separator(i int) string {
	last := len(e.parts) - 1
	if last > 0 {
		if s := e.between(min(max(i-1, 0), last-1)); !strings.Contains(s, "#") {
			return s
		}
	}
	at := e.parts[min(i, last)].from
	switch {
	case !e.flow:
		return e.eol + e.indent(at)
	case e.ownLine(at):
		return "," + e.eol + e.indent(at)
	}
	return ", "
}

// insert is the changes that put a text before entry i, which may be one after the last.
func (e entries) insert(i int, text string) []change {
	n := len(e.parts)
	switch {
	case n == 0: // [ ]
		open, shut := e.spans[e.node].body+1, e.spans[e.node].to-1
		if within := string(e.text[open:shut]); strings.Trim(within, " ") == "" {
			open += len(within) / 2
		}
		return []change{{open, open, text}}
	case i < n:
		at := e.parts[i].from
		return []change{{at, at, text + e.separator(i)}}
	}
	at := e.parts[n-1].to
	if e.flow {
		after, comma := e.comma(at)
		if words := e.blanks(after); e.comment(words) { // it stays with the entry before
			end := e.lineEnd(words)
			line := change{end, end, e.eol + e.indent(e.parts[n-1].from) + text}
			if comma {
				line.text += ","
				return []change{line}
			}
			return []change{{at, at, ","}, line}
		}
	}
	apart := e.separator(n)
	if e.flow && unwritten(e.node.Content[len(e.node.Content)-1]) { // the blanks of {a: } belong to a
		apart = strings.TrimLeft(apart, " \t")
	}
	return []change{{at, at, apart + text}}
}

// comma is the byte after the comma that follows an entry in brackets.
func (e entries) comma(at int) (after int, ok bool) {
	if p := e.skip(at); e.has(p, ",") {
		return p + 1, true
	}
	return at, false
}

// remove is the changes that take out entry i of several, or the only one between brackets. Comments between entries
// that belong to none stay.
func (e entries) remove(i int) []change {
	c, last := e.parts[i], len(e.parts)-1
	switch {
	case i < last && !strings.Contains(e.between(i), "#"):
		return []change{{c.from, e.parts[i+1].from, ""}}
	case i > 0 && i == last && !strings.Contains(e.between(i-1), "#"):
		return []change{{e.parts[i-1].to, c.to, ""}}
	case e.flow:
		return e.removeBetween(i)
	case e.ownLine(c.from):
		end := c.to + e.lineBreak(c.to)
		return []change{{e.lineStart(c.from), end, ""}}
	}
	return []change{c}
}

// removeBetween takes an entry in brackets and a comma from between comments.
func (e entries) removeBetween(i int) []change {
	c := e.parts[i]
	after, comma := e.comma(c.to)
	switch {
	case comma && e.skip(c.to) == after-1 && !bytes.Contains(e.text[c.to:after], []byte("#")):
		c.to = after
	case comma:
		return e.wholeLine(c, change{after - 1, after, ""})
	case i > 0:
		after, _ = e.comma(e.parts[i-1].to)
		return e.wholeLine(c, change{after - 1, after, ""})
	}
	if i < len(e.parts)-1 {
		if e.blanks(c.from-1) == c.from { // a blank is left before the comment
			c.to = e.blanks(c.to)
		}
		return []change{c}
	}
	return e.wholeLine(c)
}

// wholeLine widens a change to its line if nothing else is on it.
func (e entries) wholeLine(c change, more ...change) []change {
	if line := e.lineStart(c.from); len(e.parts) > 1 && e.ownLine(c.from) && e.blanks(c.to) == e.lineEnd(c.to) && line > e.head() {
		c.from = line - e.breakBefore(line)
	}
	return append(more, c)
}

// move is the changes that bring entry i to the place of entry j; those between give way. What stands between the
// places stays.
func (e entries) move(i, j int) []change {
	order := make([]int, len(e.parts))
	for k := range order {
		order[k] = k
	}
	order = append(order[:i], order[i+1:]...)
	order = append(order[:j], append([]int{i}, order[j:]...)...)
	var out []change
	for k, from := range order {
		if k != from {
			out = append(out, change{e.parts[k].from, e.parts[k].to, e.part(from)})
		}
	}
	return out
}

// replace is the changes that put a text of one line in the place of a value.
func (l *layout) replace(n, holder *yaml.Node, text string) []change {
	s, head := l.spans[n], 0
	if dash, ok := l.entry[n]; ok {
		head = dash + 1
	}
	for i := 0; holder.Kind == yaml.MappingNode && i < len(holder.Content); i += 2 {
		if key := l.spans[holder.Content[i]]; holder.Content[i+1] != n {
			continue
		} else if head = l.skip(key.to) + 1; s.from == key.to { // in braces, without a colon
			return []change{{s.body, s.body, ": " + text}}
		}
	}
	if n.Anchor != "" {
		head = s.from + len("&"+n.Anchor)
	}
	switch parts := l.entries(n).parts; {
	case s.body == s.to:
		return []change{{s.body, s.body, " " + text}}
	case n.Kind != yaml.ScalarNode && inLines(n) && l.lineEnd(head) < s.body:
		return []change{{head, head, " " + text}, {l.lineEnd(head), parts[len(parts)-1].to, ""}}
	}
	return []change{{s.body, s.to, text}}
}
