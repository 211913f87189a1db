package scene

import (
	"math"
	"regexp"
	"strings"

	"go.yaml.in/yaml/v3"

	"boothmock/internal/basis/unit"
)

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
