package scene

import (
	"strings"

	"go.yaml.in/yaml/v3"
)

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
