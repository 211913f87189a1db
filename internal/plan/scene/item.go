package scene

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/go-viper/mapstructure/v2"
	"go.yaml.in/yaml/v3"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// Item is one entry of a scene: a mapping of keys to values.
type Item struct {
	file *File
	node *yaml.Node // the mapping
	at   fault.Place
	path string // its key in the file's values
}

// File is the file that the item stands in.
func (i Item) File() *File { return i.file }

// Has is whether the item says anything for a field.
func (i Item) Has(field string) bool {
	_, v := entry(i.node, field)
	return v != nil
}

// At is the place of a field's value, "works.2" for an element of a list (counted from 0); what is not there is at the
// place of what would hold it. At("") is the place of the item itself.
func (i Item) At(field string) fault.Place {
	if n := i.follow(strings.Split(field, ".")); n != i.node {
		return i.file.place(n)
	}
	return i.at
}

// follow goes down from the item as far as the path leads.
func (i Item) follow(path []string) *yaml.Node {
	n := i.node
	for _, p := range path {
		_, next := entry(n, p)
		if r := resolve(n); r.Kind == yaml.SequenceNode {
			if k, err := strconv.Atoi(p); err == nil && k >= 0 && k < len(r.Content) {
				next = r.Content[k]
			}
		}
		if next == nil {
			break
		}
		n = next
	}
	return n
}

// Fault adds a fault at the place of a field.
func (i Item) Fault(field, hint, format string, args ...any) {
	i.file.add(i.At(field), hint, format, args...)
}

// Values are the item's values as typed: text, []any and map[string]any; nil for one that is empty.
func (i Item) Values() map[string]any {
	all := typed(value(i.node)).(map[string]any)
	if i.node == i.file.root {
		delete(all, "units")
	}
	return all
}

func typed(v any) any {
	switch v := v.(type) {
	case scalar:
		if v.null {
			return nil
		}
		return v.text
	case []any:
		for i := range v {
			v[i] = typed(v[i])
		}
	case map[string]any:
		for k := range v {
			v[k] = typed(v[k])
		}
	}
	return v
}

// Decode reads the item into a struct, strictly. What the struct holds before are the defaults of absent keys. Fields
// are described by tags:
//
//	yaml:"from front"         the key, in lower case; a field without one is not read
//	must:"yes"                the key must be there
//	range:"1in..20ft"         bounds, both included; without it each type has wide ones of its own
//	oneof:"mesh chains none"  the words that are allowed, also for each text of a list
//	most:"40"                 characters of a text, or values of a list; without it a line and some hundreds
//	doc:"…"                   one sentence for people
//
// A field is a string, bool, int, float64, a type of package unit, anything with UnmarshalText, a struct of such
// fields, a list, or a pointer, which stays nil for an absent key. Quotes around a value change nothing. Whatever is
// wrong is added to the file's faults; the result is false if anything was.
func (i Item) Decode(into any) bool {
	before := i.file.count()
	err := i.file.values.decode(i.path, into, func(c *mapstructure.DecoderConfig) {
		c.TagName = "yaml"
		c.ErrorUnused = true
		c.WeaklyTypedInput = false
		c.ZeroFields = true // a list replaces the default list
		c.Squash = true
		c.IgnoreUntaggedFields = true
		c.MatchName = func(key, field string) bool { return key == field }
		c.DecodeHook = mapstructure.DecodeHookFuncValue(i.file.hook)
	})
	c := checker{file: i.file, failed: map[*yaml.Node]bool{}}
	var unused []leaf
	said := map[*yaml.Node][2]string{} // of lists: what was said of an element, and its hint
	for _, l := range leaves(err) {
		path := strings.FieldsFunc(strings.ReplaceAll(l.path, "]", ""), func(r rune) bool { return r == '.' || r == '[' })
		n := i.follow(path)
		var r *refusal
		if !errors.As(l.err, &r) {
			unused = append(unused, l)
			continue
		}
		c.failed[resolve(n)] = true
		if list := resolve(i.follow(path[:len(path)-1])); list.Kind == yaml.SequenceNode {
			text, hint := spoken(r.err)
			before := said[list]
			said[list] = [2]string{text, hint}
			if hint != "" && (before[0] == text || before[1] == hint) {
				continue // the same slip again, such as commas or brackets within corners
			}
		}
		at := i.file.place(n)
		if n == i.node {
			at = i.at
		}
		i.file.refuse(at, lastKey(path), r.err)
	}
	c.check(reflect.ValueOf(into).Elem(), i.node, i.at)
	if len(unused) > 0 && i.file.count() == before { // an unknown key that check did not name
		i.file.add(i.at, "", "%s", unused[0].err)
	}
	return i.file.count() == before
}

// lastKey is the last key of a path, without the numbers of list elements.
func lastKey(path []string) string {
	for k := len(path) - 1; k >= 0; k-- {
		if _, err := strconv.Atoi(path[k]); err != nil {
			return path[k]
		}
	}
	return "entry"
}

// leaf is one value that could not be decoded.
type leaf struct {
	path string // as mapstructure has it: "works[1].size"
	err  error
}

// leaves are all the errors in an error of mapstructure, each with the full path.
func leaves(err error) []leaf {
	switch e := err.(type) {
	case nil:
		return nil
	case *mapstructure.DecodeError: // the innermost one holds the full path
		if in := leaves(e.Unwrap()); len(in) > 0 && in[0].path != "" {
			return in
		}
		return []leaf{{e.Name(), e.Unwrap()}}
	case interface{ Unwrap() []error }:
		var out []leaf
		for _, x := range e.Unwrap() {
			out = append(out, leaves(x)...)
		}
		return out
	case *refusal:
		return []leaf{{"", e}}
	case interface{ Unwrap() error }:
		return leaves(e.Unwrap())
	}
	return []leaf{{"", err}}
}

// synonyms are what people write for a key that is called otherwise here.
var synonyms = map[string][]string{
	"colour": {"cloth", "canopy"}, "color": {"colour", "cloth", "canopy"}, "fabric": {"cloth", "canopy"}, "material": {"cloth", "medium"},
	"photo": {"image"}, "photograph": {"image"}, "picture": {"image"}, "file": {"image", "model"}, "glb": {"model"},
	"dimensions": {"size"}, "width": {"size"}, "height": {"size"}, "length": {"size", "width"}, "cost": {"price"}, "kind": {"what"}, "type": {"what"}, "shape": {"what"},
	"stands on": {"on"}, "hangs on": {"wall", "hang on"}, "rotate": {"turn"}, "rotation": {"turn"}, "angle": {"turn"}, "gap": {"apart"}, "label": {"name"},
	"gust": {"wind"}, "gusts": {"wind"}, "weights": {"ballast"}, "sandbags": {"ballast"}, "technique": {"medium"}, "days": {"dates"}, "from left": {"along"}, "from front": {"back"}, "pegs": {"stakes hold"},
}

// sameAs is the known key that was meant by another: a synonym, or the only one that begins or ends with it.
func sameAs(key string, known []string) string {
	for _, k := range synonyms[key] {
		if slices.Contains(known, k) {
			return k
		}
	}
	found := ""
	for _, k := range known {
		if len(key) > 1 && (strings.HasSuffix(k, key) || strings.HasPrefix(k, key+" ")) {
			if found != "" {
				return ""
			}
			found = k
		}
	}
	return found
}

// unknown adds a fault for every key of a mapping that is not among known.
// instead says what could be written for a key that is not known; it may be nil, or give nothing.
func (f *File) unknown(n *yaml.Node, known []string, instead func(key string) string) {
	n = resolve(n)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := plainKey(n.Content[i])
		if slices.Contains(known, key) || n == f.root && key == "units" {
			continue
		}
		if m := oddBlank.FindStringSubmatch(n.Content[i].Value); m != nil {
			f.add(f.place(n.Content[i]), oddBlankHint, "%s holds what looks like a blank and is another character, U+%04X", unit.Quote(key), []rune(m[1])[0])
			continue
		}
		hint, better := "known here: "+strings.Join(known, ", "), ""
		if instead != nil {
			better = instead(key)
		}
		inBraces := n.Style&yaml.FlowStyle != 0 && isNull(n.Content[i+1])
		if near, ok := fault.Nearest(key, known); ok {
			hint = fmt.Sprintf("did you mean %s?", near)
		} else if name, _, ok := strings.Cut(key, ":"); ok && inBraces && slices.Contains(known, name) { // name:heron
			hint = "leave a blank after the colon"
		} else if inBraces && key != "" && key[0] >= '0' && key[0] <= '9' { // price: 480,50
			hint = "inside { } a comma ends a value: write a point before decimals, and nothing between thousands"
		} else if inBraces { // title: The weir, first frost
			hint = "inside { } a comma ends a value: put a value that holds one in quotes"
		} else if other := sameAs(key, known); other != "" {
			hint = "write " + other + ":"
		} else if better != "" {
			hint = better
		}
		f.add(f.place(n.Content[i]), hint, "the key %s is not known", unit.Quote(key))
	}
}
