package scene

import (
	"encoding"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// refusal marks our own errors among those of mapstructure.
type refusal struct{ err error }

func (r *refusal) Error() string { return r.err.Error() }

// hook turns values as typed into values of the type that is wanted, or says why not. mapstructure only puts them in
// their places.
func (f *File) hook(from, to reflect.Value) (any, error) {
	t, v := to.Type(), from.Interface()
	if t.Kind() == reflect.Pointer {
		return v, nil // comes again for what it points to
	}
	parse := f.parser(t)
	s, single := v.(scalar)
	word, worded := reflect.Zero(t).Interface().(Worded)
	switch {
	case worded && single && !s.null:
		got, ok := word.Said(s.text)
		if !ok {
			return nil, &refusal{mismatch(want(t), v)}
		}
		return got, nil
	case from.Type() == t:
		return v, nil // an element of an array that was parsed as a whole, such as a colour
	case parse != nil && single && !s.null:
		got, err := parse(s.text)
		if err != nil {
			return nil, &refusal{err}
		}
		return got, nil
	case parse == nil && t.Kind() == reflect.Slice && from.Kind() == reflect.Slice,
		parse == nil && t.Kind() == reflect.Struct && from.Kind() == reflect.Map:
		return v, nil
	}
	if list, ok := v.([]any); ok && parse != nil {
		return nil, &refusal{&unit.Error{Text: "want " + want(t) + ", got a list", Hint: unbracketed(t, list)}}
	}
	e := mismatch(want(t), v)
	if single && !s.null {
		e.Hint = f.written(t, s.text)
	}
	return nil, &refusal{e}
}

// written says how a single value is written that was typed for a list of values, or for an entry: with the first key that could have
// it. Nothing for another type t.
func (f *File) written(t reflect.Type, text string) string {
	switch {
	case t.Kind() == reflect.Slice && t.Elem().Kind() != reflect.Struct:
		return "write [" + strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' }), ", ") + "]"
	case t.Kind() != reflect.Struct:
		return ""
	}
	var keys []string
	for _, fd := range tagged(reflect.Zero(t)) {
		kind := fd.value.Type()
		for kind.Kind() == reflect.Pointer {
			kind = kind.Elem()
		}
		if parse := f.parser(kind); parse != nil && (len(fd.oneof) == 0 || slices.Contains(fd.oneof, text)) {
			if _, err := parse(text); err == nil {
				return fmt.Sprintf("write {%s: %s}", fd.key, text)
			}
		}
		keys = append(keys, fd.key)
	}
	return "its keys are " + strings.Join(keys, ", ")
}

// Worded is an entry with keys of its own that a single word may stand for, such as none.
type Worded interface {
	Word() string
	Said(word string) (entry any, ok bool) // of its own type
}

var textType = reflect.TypeFor[encoding.TextUnmarshaler]()

// parser reads a single value of type t from text; nil if t holds more than one value.
func (f *File) parser(t reflect.Type) func(string) (any, error) {
	switch reflect.Zero(t).Interface().(type) {
	case unit.Length:
		return func(s string) (any, error) { return unit.ParseLength(s, f.Units, f.UnitsStated) }
	case unit.Size:
		return func(s string) (any, error) { return unit.ParseSize(s, f.Units, f.UnitsStated) }
	case unit.Extent:
		return func(s string) (any, error) { return unit.ParseExtent(s, f.Units, f.UnitsStated) }
	case unit.Size3:
		return func(s string) (any, error) { return unit.ParseSize3(s, f.Units, f.UnitsStated) }
	case unit.Weight:
		return func(s string) (any, error) { return unit.ParseWeight(s, f.Units, f.UnitsStated) }
	case unit.Angle:
		return func(s string) (any, error) { return unit.ParseAngle(s) }
	case unit.Share:
		return func(s string) (any, error) { return unit.ParseShare(s) }
	case unit.Minutes:
		return func(s string) (any, error) { return unit.ParseMinutes(s) }
	case unit.Money:
		return func(s string) (any, error) { return unit.ParseMoney(s) }
	}
	if reflect.PointerTo(t).Implements(textType) {
		return func(s string) (any, error) {
			v := reflect.New(t)
			err := v.Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(s))
			return v.Elem().Interface(), err
		}
	}
	switch t.Kind() {
	case reflect.String:
		return func(s string) (any, error) { return s, nil }
	case reflect.Bool:
		return parseBool
	case reflect.Int:
		return parseInt
	case reflect.Float64:
		return parseFloat
	}
	return nil
}

func parseBool(s string) (any, error) {
	switch strings.ToLower(s) {
	case "yes", "true", "on":
		return true, nil
	case "no", "false", "off":
		return false, nil
	}
	return nil, &unit.Error{Text: unit.Quote(s) + " is neither yes nor no", Hint: "write yes or no"}
}

var (
	intText   = regexp.MustCompile(`^[+-]?\d{1,9}$`)
	floatText = regexp.MustCompile(`^[+-]?(\d{1,15}(\.\d{0,15})?|\.\d{1,15})$`)
)

func parseInt(s string) (any, error) {
	if !intText.MatchString(s) {
		return nil, &unit.Error{Text: unit.Quote(s) + " is not a whole number", Hint: "write for example 2"}
	}
	return strconv.Atoi(s)
}

func parseFloat(s string) (any, error) {
	if !floatText.MatchString(s) {
		return nil, &unit.Error{Text: unit.Quote(s) + " is not a number", Hint: "write for example 1.5"}
	}
	return strconv.ParseFloat(s, 64)
}

// want is what a field of type t takes, in words.
func want(t reflect.Type) string {
	switch reflect.Zero(t).Interface().(type) {
	case unit.Length:
		return "a length such as 24in"
	case unit.Size:
		return "a size such as 24in x 36in"
	case unit.Extent:
		return "a size such as 24in x 36in, or with a depth"
	case unit.Size3:
		return "a size such as 24in x 36in x 2in"
	case unit.Weight:
		return "a weight such as 6lb"
	case unit.Angle:
		return "an angle such as 30deg"
	case unit.Share:
		return "a share such as 90%"
	case unit.Minutes:
		return "a time such as 15min"
	case unit.Money:
		return "an amount of money such as 480"
	case unit.Date:
		return "a date such as 2026-06-13"
	case unit.Hours:
		return "hours such as 10:00 to 17:00"
	case unit.Bearing:
		return "a direction such as south-west or 225"
	}
	switch {
	case t.Kind() == reflect.Pointer:
		return want(t.Elem())
	case reflect.PointerTo(t).Implements(textType):
		return article(strings.ToLower(t.Name()))
	}
	switch t.Kind() {
	case reflect.Bool:
		return "yes or no"
	case reflect.Int:
		return "a whole number"
	case reflect.Float64:
		return "a number"
	case reflect.Slice:
		if t.Elem().Kind() == reflect.Struct {
			return "a list of entries"
		}
		return "a list such as [one, two]"
	case reflect.Struct:
		if w, ok := reflect.Zero(t).Interface().(Worded); ok {
			return "an entry with keys of its own, or " + w.Word()
		}
		return "an entry with keys of its own"
	}
	return "text"
}

func article(word string) string {
	if word != "" && strings.ContainsRune("aeiou", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}

// mismatch says what was wanted and what was found instead.
func mismatch(want string, got any) *unit.Error {
	found := "keys and values"
	switch v := got.(type) {
	case scalar:
		switch {
		case v.null && v.note != "":
			return &unit.Error{Text: "has no value; a # begins a comment", Hint: "put a value that starts with # in quotes: " + unit.Quote(v.note)}
		case v.null:
			return &unit.Error{Text: "has no value", Hint: "write " + want}
		}
		found = unit.Quote(v.text)
	case []any:
		found = "a list"
	}
	return &unit.Error{Text: "want " + want + ", got " + found}
}

// unbracketed says how a list that was typed for a single value of type t is written; nothing where it is no such slip.
func unbracketed(t reflect.Type, list []any) string {
	var words []string
	for _, v := range list {
		s, single := v.(scalar)
		if !single || s.null {
			return ""
		}
		words = append(words, s.text)
	}
	between := " "
	switch reflect.Zero(t).Interface().(type) {
	case unit.Size, unit.Extent, unit.Size3:
		between = " x "
	}
	switch n := len(words); {
	case n == 1, between == " x " && n <= 3, n == 2 && reflect.PointerTo(t).Implements(textType):
		return "write it without brackets of its own: " + strings.Join(words, between)
	}
	return ""
}

// checker looks for what decoding does not see: unknown and missing keys, values out of range.
type checker struct {
	file   *File
	failed map[*yaml.Node]bool // values that could not be decoded: already reported
}

// check compares a struct that was decoded with the mapping that it came from.
func (c *checker) check(v reflect.Value, n *yaml.Node, at fault.Place) {
	fields := tagged(v)
	known := make([]string, len(fields))
	for i, fd := range fields {
		known[i] = fd.key
	}
	c.file.unknown(n, known, c.file.under)
	for _, fd := range fields {
		_, node := entry(n, fd.key)
		if node == nil {
			if fd.must {
				c.file.add(at, fd.hint(), "%s is missing", fd.key)
			}
			continue
		}
		c.field(fd, fd.value, node)
	}
}

func (c *checker) field(fd tags, v reflect.Value, n *yaml.Node) {
	n = resolve(n)
	if c.failed[n] {
		return
	}
	for v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return
		}
		v = v.Elem()
	}
	single := c.file.parser(v.Type()) != nil
	switch {
	case single && n.Kind == yaml.ScalarNode:
		if err := c.wrong(fd, v, n.Value); err != nil {
			c.file.refuse(c.file.place(n), fd.key, err)
		}
	case !single && v.Kind() == reflect.Slice && n.Kind == yaml.SequenceNode && v.Len() == len(n.Content):
		if v.Len() > fd.most {
			c.file.add(c.file.place(n.Content[fd.most]), "", "%s: there are %d in the list; %d at most", fd.key, v.Len(), fd.most)
			return
		}
		fd.most = maxLine // of each
		for i := range v.Len() {
			c.field(fd, v.Index(i), n.Content[i])
		}
	case !single && v.Kind() == reflect.Struct && n.Kind == yaml.MappingNode:
		c.check(v, n, c.file.place(n))
	}
}

// wrong says why a value is not allowed, or nothing.
func (c *checker) wrong(fd tags, v reflect.Value, typed string) error {
	if v.Kind() == reflect.String {
		switch s := v.String(); {
		case fd.must && strings.TrimSpace(s) == "":
			return &unit.Error{Text: "is empty", Hint: fd.hint()}
		case utf8.RuneCountInString(s) > fd.most:
			return &unit.Error{Text: fmt.Sprintf("has more than %d characters", fd.most), Hint: "say it shorter"}
		case len(fd.oneof) > 0 && !slices.Contains(fd.oneof, s):
			e := &unit.Error{Text: fmt.Sprintf("%s is not one of %s", unit.Quote(s), unit.List(fd.oneof, "or"))}
			if near, ok := fault.Nearest(s, fd.oneof); ok {
				e.Hint = fmt.Sprintf("did you mean %s?", near)
			}
			return e
		}
		return nil
	}
	low, high, open, ok := fd.bounds(v.Type())
	if !ok {
		return nil
	}
	for _, x := range numbers(v) {
		if !(x >= low && x <= high) || open && x == low {
			return c.outOfRange(fd, v, strings.TrimSpace(typed))
		}
	}
	return nil
}

// numbers are the numbers in a value, in the units of their type.
func numbers(v reflect.Value) []float64 {
	switch x := v.Interface().(type) {
	case unit.Size:
		return []float64{x.A.M(), x.B.M()}
	case unit.Extent:
		if x.C == 0 {
			return []float64{x.A.M(), x.B.M()}
		}
		return []float64{x.A.M(), x.B.M(), x.C.M()}
	case unit.Size3:
		return []float64{x.A.M(), x.B.M(), x.C.M()}
	}
	switch {
	case v.CanFloat():
		return []float64{v.Float()}
	case v.CanInt():
		return []float64{float64(v.Int())}
	}
	return nil
}
