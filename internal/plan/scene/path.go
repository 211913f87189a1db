package scene

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
	"golang.org/x/text/unicode/norm"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// Path leads from the top of a scene to a value.
type Path []Step

// Step is a key of an entry, or else an element of a list: the one that is called Name, or else that with the number
// Nth, from 0. An element is called by its name:, for want of one by its wall: or its side:; a text in a list by itself.
// Where a scene may say one entry instead of a list, a step into the list leads to that entry.
type Step struct {
	Key, Name string
	Nth       int
}

// ParsePath reads a path as people write it: "works[heron].size", "rows[back].works[2]", "tent.eave". What is in
// brackets is a number, from 0, or a name; quotes around it make a name of a number: works["1984"].
func ParsePath(s string) (Path, error) {
	wrong := fmt.Errorf("%s is not a path; write for example works[heron].size or rows[0].works[2]", unit.Quote(s))
	var p Path
	for rest := s; rest != ""; {
		if in, ok := strings.CutPrefix(rest, "["); ok {
			step, after, ok := element(in)
			if !ok || p == nil {
				return nil, wrong
			}
			p, rest = append(p, step), after
			continue
		}
		if p != nil {
			after, ok := strings.CutPrefix(rest, ".")
			if !ok {
				return nil, wrong
			}
			rest = after
		}
		end := strings.IndexAny(rest, ".[")
		if end < 0 {
			end = len(rest)
		}
		key := plainText(rest[:end])
		if key == "" {
			return nil, wrong
		}
		p, rest = append(p, Step{Key: key}), rest[end:]
	}
	if p == nil {
		return nil, wrong
	}
	return p, nil
}

// element reads what stands after [.
func element(in string) (s Step, after string, ok bool) {
	if strings.HasPrefix(in, `"`) {
		quoted, err := strconv.QuotedPrefix(in)
		if err != nil {
			return s, "", false
		}
		s.Name, _ = strconv.Unquote(quoted)
		after, ok = strings.CutPrefix(in[len(quoted):], "]")
		return s, after, ok && s.Name != ""
	}
	name, after, ok := strings.Cut(in, "]")
	if n, err := strconv.Atoi(name); err == nil && n >= 0 {
		return Step{Nth: n}, after, ok
	}
	return Step{Name: name}, after, ok && name != ""
}

func (p Path) String() string {
	var b strings.Builder
	for i, s := range p {
		switch _, err := strconv.Atoi(s.Name); {
		case s.Key != "" && i > 0:
			b.WriteString("." + s.Key)
		case s.Key != "":
			b.WriteString(s.Key)
		case s.Name != "" && (err == nil || strings.ContainsAny(s.Name, `]"`)):
			fmt.Fprintf(&b, "[%q]", s.Name)
		case s.Name != "":
			b.WriteString("[" + s.Name + "]")
		default:
			fmt.Fprintf(&b, "[%d]", s.Nth)
		}
	}
	return b.String()
}

// place is where a path leads.
type place struct {
	plain   []any        // the path with keys (string) and numbers (int) only
	within  []*yaml.Node // the lists and mappings on the way, the last holds the place
	index   int          // the number of the entry in it
	node    *yaml.Node   // nil: it is not there
	missing Path         // steps that lead on from a place without a value
}

func (p place) holder() *yaml.Node { return p.within[len(p.within)-1] }

// flow is whether the place is within brackets.
func (p place) flow() bool { return p.holder().Style&yaml.FlowStyle != 0 }

// locate follows a path. Only its last key may be missing, or the keys after a value that is missing or empty.
func (f *File) locate(path Path) (place, error) {
	p := place{node: f.root}
	for i, s := range path {
		n := p.node
		if n.Kind == yaml.AliasNode {
			return p, f.wont(n, "edit it there, or write the values out here", "%s repeats what stands on line %d", path[:i], n.Alias.Line)
		}
		if at := f.repeated(n, nil); at != nil {
			return p, f.wont(n, "write the values out there", "%s stands for what is on line %d too", path[:i], at.Line)
		}
		if isNull(n) && s.Key != "" {
			return p, p.without(f, path[i:], path)
		}
		if i > 0 && s.Key == "" && n.Kind == yaml.MappingNode && (s.Name == "" && s.Nth == 0 || s.Name != "" && norm.NFC.String(s.Name) == called(n)) {
			continue // one entry where a list may be
		}
		p.within = append(p.within, n)
		if err := f.step(&p, s, path[:i+1]); err != nil {
			return p, err
		}
		if p.node == nil {
			return p, p.without(f, path[i+1:], path)
		}
	}
	if len(p.within) == 0 {
		return p, f.wont(f.root, "", "a path that leads nowhere")
	}
	return p, nil
}

// without notes the steps of a path for which there is nothing: they must be keys.
func (p *place) without(f *File, rest, path Path) error {
	p.missing = rest
	_, number := p.plain[len(p.plain)-1].(int)
	if number && p.node == nil && len(rest) > 0 || slices.ContainsFunc(rest, func(s Step) bool { return s.Key == "" }) {
		return f.wont(p.holder(), "", "%s is not there", path[:len(path)-len(rest)])
	}
	return nil
}

// step goes one step down from p.node.
func (f *File) step(p *place, s Step, path Path) error {
	n := p.node
	switch {
	case s.Key != "" && n.Kind == yaml.MappingNode:
		key := plainText(s.Key)
		p.plain, p.node = append(p.plain, key), nil
		for p.index = 0; p.index < len(n.Content)/2; p.index++ {
			if plainKey(n.Content[2*p.index]) == key {
				p.node = n.Content[2*p.index+1]
				break
			}
		}
		return nil
	case s.Key == "" && n.Kind == yaml.SequenceNode:
		p.index = s.Nth
		if s.Name != "" {
			var same []string
			for i, c := range n.Content {
				if called(resolve(c)) == norm.NFC.String(s.Name) {
					p.index, same = i, append(same, strconv.Itoa(i))
				}
			}
			if len(same) != 1 {
				hint := ""
				if len(same) > 1 {
					hint = "use their numbers: " + unit.List(same, "or")
				}
				return f.wont(n, hint, "%s: %d entries are called %s", path, len(same), unit.Quote(s.Name))
			}
		}
		if p.index < 0 || p.index > len(n.Content) {
			return f.wont(n, "", "%s: the list has %d entries", path, len(n.Content))
		}
		p.plain, p.node = append(p.plain, p.index), nil
		if p.index < len(n.Content) {
			p.node = n.Content[p.index]
		}
		return nil
	}
	return f.wont(n, "", "%s: %s", path, mismatch(map[bool]string{true: "a list", false: "an entry with keys of its own"}[s.Key == ""], value(n)))
}

// called is what an element of a list is called, or "".
func called(n *yaml.Node) string {
	if n.Kind == yaml.ScalarNode {
		return typedText(n)
	}
	for _, key := range []string{"name", "wall", "side"} {
		if _, v := entry(n, key); v != nil && resolve(v).Kind == yaml.ScalarNode {
			return typedText(resolve(v))
		}
	}
	return ""
}

// repeated is an alias (*name) of a node that is not within another, or nil.
func (f *File) repeated(n, within *yaml.Node) *yaml.Node {
	if n.Anchor == "" {
		return nil
	}
	var find func(at *yaml.Node) *yaml.Node
	find = func(at *yaml.Node) *yaml.Node {
		if at.Kind == yaml.AliasNode && at.Alias == n {
			return at
		}
		for _, c := range at.Content {
			if c == within {
				continue
			}
			if a := find(c); a != nil {
				return a
			}
		}
		return nil
	}
	return find(f.root)
}

// own is the error that a value, or a part of it, is repeated elsewhere; nil if it can go or become another.
func (f *File) own(n, whole *yaml.Node, path Path) error {
	if at := f.repeated(n, whole); at != nil {
		return f.wont(n, "write the values out there", "%s is repeated on line %d", path, at.Line)
	}
	for _, c := range n.Content {
		if err := f.own(c, whole, path); err != nil {
			return err
		}
	}
	return nil
}

// wont is the error that something cannot be edited.
func (f *File) wont(at *yaml.Node, hint, format string, args ...any) error {
	return fault.List{{At: fault.Place{File: f.Name, Line: at.Line, Col: at.Column}, Text: fmt.Sprintf(format, args...), Hint: hint}}
}

// siblings are the mappings in the list that holds the place's mapping, or the place itself, the nearest first.
func (p place) siblings() (out []*yaml.Node) {
	for _, h := range slices.Backward(p.within) {
		if h.Kind != yaml.SequenceNode {
			continue
		}
		for _, c := range slices.Backward(h.Content) {
			if c = resolve(c); c.Kind == yaml.MappingNode {
				out = append(out, c)
			}
		}
		break
	}
	return out
}
