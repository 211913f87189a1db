package scene

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"
)

// carried is an entry as it is written, for another list, in brackets or not.
func (e entries) carried(f *File, p place, flow bool) (written, error) {
	n, s := p.node, e.spans[p.node]
	w := written{plain: typed(value(n)), text: string(e.text[s.from:s.to])}
	if e.flow {
		w.lines = func(entries) string { return "- " + w.text }
		return w, nil
	}
	w.lines = func(to entries) string {
		return shifted(e.part(p.index), len(to.indent(to.parts[0].from))-len(e.indent(e.parts[p.index].from)))
	}
	if part := e.parts[p.index]; flow && (commented(n) || strings.Contains(string(e.text[part.from:s.from])+string(e.text[s.to:part.to]), "#")) {
		return w, f.wont(n, "take out the comment, or write that list on lines of its own", "this entry has a comment, which has no room in [ ]")
	}
	if inLines(n) || n.Kind == yaml.ScalarNode && n.Style == 0 {
		w.text = yamlText(ordered(n), true)
	}
	return w, nil
}

// shifted is a text of several lines with all but the first moved by so many columns, to the right or as far as they go to
// the left.
func shifted(text string, columns int) string {
	lines := strings.SplitAfter(text, "\n")
	for i, l := range lines[1:] {
		switch room := len(l) - len(strings.TrimLeft(l, " ")); {
		case strings.TrimSpace(l) == "":
		case columns > 0:
			lines[i+1] = strings.Repeat(" ", columns) + l
		default:
			lines[i+1] = l[min(room, -columns):]
		}
	}
	return strings.Join(lines, "")
}

// commented is whether there is a comment with a value or in it.
func commented(n *yaml.Node) bool {
	return n.HeadComment+n.LineComment+n.FootComment != "" || slices.ContainsFunc(n.Content, commented)
}

// ordered is a node as words.
func ordered(n *yaml.Node) any {
	switch n = resolve(n); {
	case n.Kind == yaml.MappingNode:
		var e Entry
		for i := 0; i+1 < len(n.Content); i += 2 {
			e = append(e, Pair{n.Content[i].Value, ordered(n.Content[i+1])})
		}
		return e
	case n.Kind == yaml.SequenceNode:
		list := make([]any, len(n.Content))
		for i, c := range n.Content {
			list[i] = ordered(c)
		}
		return list
	case isNull(n):
		return nil
	}
	return n.Value
}
