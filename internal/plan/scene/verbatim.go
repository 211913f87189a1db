package scene

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v3"

	"boothmock/internal/basis/unit"
)

// Verbatim is a value as YAML, to be written as it is: what File.Verbatim gave.
type Verbatim string

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
	if s.body == s.to { // nothing but &name
		return "", f.wont(p.holder(), "", "%s has no value in one piece", at)
	}
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
