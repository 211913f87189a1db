package scene

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
	"golang.org/x/text/unicode/norm"

	"boothmock/internal/unit"
)

// Entry is keys and values in the order in which they are written.
type Entry []Pair

// Pair is one key of an entry and its value.
type Pair struct {
	Key   string
	Value any
}

// Verbatim is a value as YAML, to be written as it is: what File.Verbatim gave.
type Verbatim string

// manner is how a length is written: 24, 24in or 2ft.
type manner struct {
	sys        unit.System
	bare, feet bool
}

// mannerOf is how a text writes a length or a size.
func mannerOf(text string, units unit.System) (m manner, ok bool) {
	reads := func(bareOK bool) bool {
		_, err := unit.ParseLength(text, units, bareOK)
		_, err2 := unit.ParseSize(text, units, bareOK)
		_, err3 := unit.ParseSize3(text, units, bareOK)
		return err == nil || err2 == nil || err3 == nil
	}
	if !reads(true) {
		return m, false
	}
	t := strings.ToLower(text)
	switch m.bare = !reads(false); {
	case m.bare:
		m.sys = units
	case strings.Contains(t, "cm") || strings.Contains(t, "mm") || strings.Contains(t, "centi") || strings.Contains(t, "milli"):
		m.sys = unit.Centimetres
	case strings.Contains(t, "m"):
		m.sys, m.feet = unit.Centimetres, true
	case strings.ContainsAny(t, "f'’′"):
		m.feet = true
	}
	return m, true
}

// manner is how a length at a key is to be written: as what stands there now, or under the same key of the entry's
// neighbours; else bare in a scene that states its units, unless the lengths beside it have theirs.
func (f *File) manner(p place, key string) manner {
	if p.node != nil && p.node.Kind == yaml.ScalarNode && len(p.missing) == 0 {
		if m, ok := mannerOf(p.node.Value, f.Units); ok {
			return m
		}
	}
	for _, n := range p.siblings() {
		if _, v := entry(n, key); v != nil && resolve(v).Kind == yaml.ScalarNode {
			if m, ok := mannerOf(resolve(v).Value, f.Units); ok {
				return m
			}
		}
	}
	for _, n := range append([]*yaml.Node{p.holder()}, p.siblings()...) {
		for _, v := range n.Content {
			if m, ok := mannerOf(v.Value, f.Units); ok && !m.bare && v.Kind == yaml.ScalarNode && (n == p.holder() || !f.UnitsStated) {
				return m
			}
		}
	}
	return manner{sys: f.Units, bare: f.UnitsStated}
}

// length is a length as it is typed, to 1/8 in or 1 mm.
func (m manner) length(l unit.Length) string {
	s := l.Format(m.sys)
	switch {
	case m.bare:
		return strings.TrimSuffix(s, " "+m.sys.String())
	case m.feet && (m.sys == unit.Inches || math.Abs(math.Round(l.M()*100)-l.M()*100) < 1e-6):
		s = l.FormatFeet(m.sys)
	}
	return compact(s)
}

// lengths are two or three with an x between them.
func (m manner) lengths(ls ...unit.Length) string {
	m.feet = false
	words := make([]string, len(ls))
	for i, l := range ls {
		words[i] = m.length(l)
	}
	return strings.Join(words, " x ")
}

var beforeUnit = regexp.MustCompile(`(\d) ([a-z]+)`)

// compact is a number and its unit as they are typed: 6lb 8oz.
func compact(s string) string { return beforeUnit.ReplaceAllString(s, "$1$2") }

// words is a value as texts: string, []any and Entry. key is where it will stand.
func (f *File) words(v any, p place, key string) (any, error) {
	m := func() manner { return f.manner(p, key) }
	switch v := v.(type) {
	case string:
		return v, nil
	case bool:
		return map[bool]string{true: "yes", false: "no"}[v], nil
	case int:
		return strconv.Itoa(v), nil
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64), nil
	case unit.Length:
		return m().length(v), nil
	case unit.Size:
		return m().lengths(v.A, v.B), nil
	case unit.Size3:
		return m().lengths(v.A, v.B, v.C), nil
	case unit.Weight:
		return compact(v.Format(f.Units)), nil
	case unit.Minutes:
		return compact(v.Format()), nil
	case unit.Angle:
		return strings.TrimSuffix(v.Format(), "°"), nil
	case unit.Share:
		return v.Format(), nil
	case unit.Money:
		return strings.ReplaceAll(v.Format(""), ",", ""), nil
	case []string:
		out := make([]any, len(v))
		for i, s := range v {
			out[i] = s
		}
		return out, nil
	case []any:
		out := make([]any, len(v))
		for i, e := range v {
			w, err := f.words(e, p, key)
			if err != nil {
				return nil, err
			}
			out[i] = w
		}
		return out, nil
	case Entry:
		out := make(Entry, len(v))
		for i, e := range v {
			w, err := f.words(e.Value, place{within: p.within}, plainText(e.Key))
			if err != nil {
				return nil, err
			}
			out[i] = Pair{e.Key, w}
		}
		return out, nil
	}
	return nil, fmt.Errorf("a value of type %T cannot be written", v)
}

// plainWords is what reading words gives: string, []any and map[string]any.
func plainWords(w any) any {
	switch w := w.(type) {
	case []any:
		out := make([]any, len(w))
		for i := range w {
			out[i] = plainWords(w[i])
		}
		return out
	case Entry:
		out := map[string]any{}
		for _, e := range w {
			out[plainText(e.Key)] = plainWords(e.Value)
		}
		return out
	case string:
		return norm.NFC.String(w)
	}
	return w
}

// yamlText is words as YAML on one line.
func yamlText(w any, flow bool) string {
	switch w := w.(type) {
	case string:
		return scalarText(w, flow)
	case []any:
		parts := make([]string, len(w))
		for i := range w {
			parts[i] = yamlText(w[i], true)
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case Entry:
		parts := make([]string, len(w))
		for i, e := range w {
			parts[i] = keyText(e.Key) + ": " + yamlText(e.Value, true)
		}
		return "{" + strings.Join(parts, ", ") + "}"
	}
	return "~"
}

// scalarText is a text as a value, in quotes only where YAML needs them.
func scalarText(s string, flow bool) string {
	if !strings.ContainsAny(s, "\n\r\u0085\u2028\u2029\ufeff") && isPlain("k: "+s, s) && (!flow || isPlain("[k: "+s+"]", s)) {
		return s
	}
	return `"` + escaped.Replace(s) + `"`
}

// isPlain is whether the first value of a sample is a text, without quotes.
func isPlain(sample, text string) bool {
	v := sole(sample)
	return v != nil && v.Kind == yaml.ScalarNode && v.Value == text && v.Style == 0 && v.Anchor == "" && !isNull(v)
}

// sole is the only value under the only key of a text, in a list or not; else nil.
func sole(text string) *yaml.Node {
	var doc yaml.Node
	if yaml.Unmarshal([]byte(text), &doc) != nil || len(doc.Content) != 1 {
		return nil
	}
	n := doc.Content[0]
	if n.Kind == yaml.SequenceNode && len(n.Content) == 1 {
		n = n.Content[0]
	}
	if n.Kind != yaml.MappingNode || len(n.Content) != 2 {
		return nil
	}
	return n.Content[1]
}

var escaped = strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`, "\r", `\r`, "\u0085", `\N`, "\u2028", `\L`, "\u2029", `\P`, "\ufeff", `\uFEFF`)

// keyText is a key as it is written.
func keyText(key string) string {
	var n yaml.Node
	if yaml.Unmarshal([]byte("{"+key+": 1}"), &n) == nil && len(n.Content) == 1 && len(n.Content[0].Content) == 2 && n.Content[0].Content[0].Value == key {
		return scalarText(key, true)
	}
	return `"` + escaped.Replace(key) + `"`
}

// Verbatim is the text of a value as it stands in the file, for Set to bring it back to the byte. A value that is not
// there, that is empty, that repeats another (*name), or that goes over lines of its own without brackets or quotes, has none.
func (f *File) Verbatim(at Path) (Verbatim, error) {
	p, err := f.locate(at)
	if err != nil {
		return "", err
	}
	if p.node == nil || len(p.missing) > 0 || unwritten(p.node) || inLines(p.node) || repeats(p.node) {
		return "", f.wont(p.holder(), "", "%s has no value in one piece", at)
	}
	l, err := lay(f)
	if err != nil {
		return "", err
	}
	s := l.spans[p.node]
	return Verbatim(f.source[s.body:s.to]), nil
}

// repeats is whether there is an alias in a value.
func repeats(n *yaml.Node) bool {
	return n.Kind == yaml.AliasNode || slices.ContainsFunc(n.Content, repeats)
}

// inLines is whether a value is written on lines of its own, held together by their columns.
func inLines(n *yaml.Node) bool {
	if n.Kind == yaml.ScalarNode {
		return n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0
	}
	return n.Kind != yaml.AliasNode && n.Style&yaml.FlowStyle == 0
}

// read is the value that a verbatim text stands for.
func (v Verbatim) read() (any, error) {
	n := sole("k: " + string(v))
	if n == nil {
		n = sole("[k: " + string(v) + "]")
	}
	if list := sole("k: [" + string(v) + "]"); n == nil && list != nil && len(list.Content) == 1 { // a key and a value alone
		n = list.Content[0]
	}
	if n == nil || inLines(n) {
		return nil, fmt.Errorf("%s is not one value", unit.Quote(string(v)))
	}
	return typed(value(n)), nil
}

// written is a value and how it is written.
type written struct {
	plain any                    // what reading it gives
	text  string                 // on one line
	lines func(e entries) string // as an element of a list on lines of its own, with its dash
}

// write is how a value is written at a place.
func (f *File) write(v any, p place, at Path) (written, error) {
	if raw, ok := v.(Verbatim); ok {
		plain, err := raw.read()
		return written{plain, string(raw), func(entries) string { return "- " + string(raw) }}, err
	}
	key := ""
	for _, s := range at {
		if s.Key != "" {
			key = plainText(s.Key)
		}
	}
	words, err := f.words(v, p, key)
	lines := func(e entries) string {
		entry, ok := words.(Entry)
		if !ok || len(entry) == 0 || !slices.ContainsFunc(e.node.Content, func(c *yaml.Node) bool { return c.Kind == yaml.MappingNode && inLines(c) }) {
			return "- " + yamlText(words, false)
		}
		out, before := "", "- "
		for _, pair := range entry {
			out += before + keyText(pair.Key) + ": " + yamlText(pair.Value, false)
			before = e.eol + e.indent(e.parts[0].from) + "  "
		}
		return out
	}
	return written{plainWords(words), yamlText(words, p.flow()), lines}, err
}

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
