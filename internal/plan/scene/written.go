package scene

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
	"golang.org/x/text/unicode/norm"

	"boothmock/internal/basis/unit"
)

// Entry is keys and values in the order in which they are written.
type Entry []Pair

// Pair is one key of an entry and its value.
type Pair struct {
	Key   string
	Value any
}

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

// written is a value and how it is written.
type written struct {
	plain any                    // what reading it gives
	text  string                 // on one line
	lines func(e entries) string // as an element of a list on lines of its own, with its dash
	list  []string               // of a list of entries: each on one line
}

// write is how a value is written at a place.
func (f *File) write(v any, p place, at Path) (written, error) {
	if raw, ok := v.(Verbatim); ok {
		plain, err := raw.read()
		return written{plain: plain, text: string(raw), lines: func(entries) string { return "- " + string(raw) }}, err
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
	w := written{plain: plainWords(words), text: yamlText(words, p.flow()), lines: lines}
	if all, ok := words.([]any); ok {
		for _, one := range all {
			if entry, ok := one.(Entry); ok {
				w.list = append(w.list, yamlText(entry, false))
			}
		}
		if len(w.list) < len(all) {
			w.list = nil
		}
	}
	return w, err
}

// section is a list of entries under a key of the scene's own, an entry a line, to come in before entry i, with an empty line before it where the scene has such.
func (w written) section(key string, e entries, i int) string {
	out, indent := keyText(key)+":", e.indent(e.parts[0].from)
	if empty := e.eol + e.eol; bytes.Contains(e.text, []byte(empty)) && !strings.Contains(e.separator(i), empty) {
		out = e.eol + indent + out
	}
	for _, entry := range w.list {
		out += e.eol + indent + "  - " + entry
	}
	return out
}
