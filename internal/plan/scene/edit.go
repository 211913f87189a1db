package scene

import (
	"reflect"
	"slices"

	"go.yaml.in/yaml/v3"
)

// Set writes a value where another stands, or a key that is missing as the last of its entry, with the entries that are to
// hold it. A value on lines of its own becomes one line, in brackets; a list of entries that the scene does not have yet
// gets a line for each.
//
// A scene is edited, not rewritten: Set, Insert, Move and Delete change the text at a path and nothing else, so comments,
// order, quotes, blanks and line ends of the rest keep their bytes. Each gives a new File and leaves the old one as it was,
// which is how an edit is undone. The new text is read and compared with the same edit on the values; if they differ, the
// edit is refused.
//
// A value is a string, bool, int or float64, a type of package unit, []string, []any, Entry or Verbatim. A length is written
// as those beside it are (24, 24in, 2ft, 61cm), to 1/8 in or 1 mm; a weight to the ounce or 10 g; text in quotes only where
// YAML needs them.
//
// On lines of their own, the comment behind an entry and those directly above it, in its column, belong to it: they go with
// it when it is moved or deleted, but for comments that open the file. Between brackets comments stay where they are.
//
// What an alias (*name) repeats cannot be edited on either side, as it would change in two places. An error is a fault.List
// with a place in the file; that a value has a type or a form that cannot be written has no place.
func (f *File) Set(at Path, v any) (*File, error) {
	p, err := f.locate(at)
	if err != nil {
		return nil, err
	}
	key, isKey := p.plain[len(p.plain)-1].(string)
	if p.node == nil && !isKey {
		return nil, f.wont(p.holder(), "insert it", "%s is not there", at)
	}
	for _, s := range slices.Backward(p.missing) {
		v = Entry{{s.Key, v}}
	}
	w, err := f.write(v, p, at)
	if err != nil {
		return nil, err
	}
	l, err := lay(f)
	if err != nil {
		return nil, err
	}
	edit := func(in, at any) any { return put(in, at, w.plain) }
	if p.node != nil {
		if err := f.own(p.node, p.node, at); err != nil {
			return nil, err
		}
		return f.edited(at, p, l.replace(p.node, p.holder(), w.text), edit)
	}
	e := l.entries(p.holder())
	if e.flow && !l.has(l.spans[p.holder()].body, "{") {
		return nil, f.wont(p.holder(), "put { } around it", "%s: there is no room for another key", at)
	}
	text := keyText(key) + ": " + w.text
	if p.holder() == f.root && !e.flow && len(w.list) > 0 {
		text = w.section(key, e, p.index)
	}
	return f.edited(at, p, e.insert(p.index, text), edit)
}

// Insert brings a value into a list that is there, before the element at the path, or after the last where the number is
// the list's length. Deleted again, it leaves the text as it was.
func (f *File) Insert(at Path, v any) (*File, error) {
	p, err := f.inList(at)
	if err != nil {
		return nil, err
	}
	w, err := f.write(v, place{within: p.within, plain: p.plain}, at)
	if err != nil {
		return nil, err
	}
	return f.insert(at, p, w)
}

func (f *File) insert(at Path, p place, w written) (*File, error) {
	l, err := lay(f)
	if err != nil {
		return nil, err
	}
	e := l.entries(p.holder())
	text := w.text
	if !e.flow {
		text = w.lines(e)
	}
	return f.edited(at, p, e.insert(p.index, text), func(in, at any) any { return slices.Insert(in.([]any), at.(int), w.plain) })
}

// Delete takes out an element of a list, or a key with its value. The last of a list leaves [], the last key of an entry
// leaves {}.
func (f *File) Delete(at Path) (*File, error) {
	p, err := f.locate(at)
	if err != nil {
		return nil, err
	}
	switch {
	case p.node == nil || len(p.missing) > 0:
		return nil, f.wont(p.holder(), "", "%s is not there", at)
	case p.holder() == f.root && len(f.root.Content) == 2:
		return nil, f.wont(p.node, "", "%s is all that the scene holds", at)
	}
	if err := f.own(p.node, p.node, at); err != nil {
		return nil, err
	}
	l, err := lay(f)
	if err != nil {
		return nil, err
	}
	e := l.entries(p.holder())
	changes := []change(nil)
	switch sign := string(l.text[l.spans[p.holder()].body]); {
	case len(e.parts) > 1 || e.flow && (sign == "[" || sign == "{"):
		changes = e.remove(p.index)
	case p.holder().Kind == yaml.SequenceNode:
		changes = l.replace(p.holder(), p.within[len(p.within)-2], "[]")
	default:
		changes = l.replace(p.holder(), p.within[len(p.within)-2], "{}")
	}
	return f.edited(at, p, changes, out)
}

// Move brings an element of a list to another place. In the same list it takes the place of the element at to, and those
// between give way. In another list it comes in as with Insert, at a path that is followed when the element is out of its
// old place. What is moved keeps its bytes, but for the indent and where lines become brackets; moved back within a list
// it leaves the text as it was.
func (f *File) Move(from, to Path) (*File, error) {
	p, err := f.inList(from)
	if err != nil {
		return nil, err
	}
	if p.node == nil {
		return nil, f.wont(p.holder(), "", "%s is not there", from)
	}
	l, err := lay(f)
	if err != nil {
		return nil, err
	}
	e := l.entries(p.holder())
	if t, err := f.inList(to); err == nil && t.holder() == p.holder() && t.index < len(e.parts) {
		return f.edited(from, p, e.move(p.index, t.index), func(in, at any) any {
			v := in.([]any)[at.(int)]
			return slices.Insert(out(in, at).([]any), t.index, v)
		})
	}
	without, err := f.Delete(from)
	if err != nil {
		return nil, err
	}
	t, err := without.inList(to)
	if err != nil {
		return nil, err
	}
	w, err := e.carried(f, p, t.flow())
	if err != nil {
		return nil, err
	}
	return without.insert(to, t, w)
}

// inList is a place in a list.
func (f *File) inList(at Path) (place, error) {
	p, err := f.locate(at)
	if err != nil {
		return p, err
	}
	if _, ok := p.plain[len(p.plain)-1].(int); !ok || len(p.missing) > 0 {
		return p, f.wont(p.holder(), "end the path with a number or a name in [ ]", "%s is no element of a list", at)
	}
	return p, nil
}

// edited is the file with changes to its text, if they are the edit that was meant and no other.
func (f *File) edited(at Path, p place, changes []change, edit func(in, at any) any) (*File, error) {
	text := apply(f.source, changes)
	place := p.node
	if place == nil {
		place = p.holder()
	}
	if len(text) > maxBytes {
		return nil, f.wont(place, "a scene is a few pages of text", "%s: the scene would be larger than %d kB", at, maxBytes>>10)
	}
	g, err := Parse(f.Name, text)
	if err != nil {
		return nil, f.wont(place, "edit it as text", "%s cannot be edited here, as the scene would not be read again: %s", at, err)
	}
	if !reflect.DeepEqual(amend(typed(value(f.root)), p.plain, edit), typed(value(g.root))) {
		return nil, f.wont(place, "edit it as text", "%s cannot be edited here, as more than that would change", at)
	}
	return g, nil
}

// amend is a value with an edit at a path of keys and numbers.
func amend(in any, path []any, edit func(in, at any) any) any {
	if len(path) > 1 {
		var below any
		switch in := in.(type) {
		case map[string]any:
			below = in[path[0].(string)]
		case []any:
			below = in[path[0].(int)]
		}
		return put(in, path[0], amend(below, path[1:], edit))
	}
	return edit(in, path[0])
}

// put is a list or mapping with a value at a number or key.
func put(in, at, v any) any {
	switch in := in.(type) {
	case map[string]any:
		in[at.(string)] = v
	case []any:
		in[at.(int)] = v
	}
	return in
}

// out is a list or mapping without what is at a number or key.
func out(in, at any) any {
	if list, ok := in.([]any); ok {
		return slices.Delete(list, at.(int), at.(int)+1)
	}
	delete(in.(map[string]any), at.(string))
	return in
}
