package scene

import (
	"encoding"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"boothmock/internal/basis/unit"
)

// Field is one thing that an entry may say.
type Field struct {
	Key     string
	Type    string   // what it takes: "a length such as 24in"
	Default string   // what it is if left out; empty for nothing
	Range   string   // "from 1in to 20ft"; empty where there are no bounds
	OneOf   []string // the words that are allowed; nil for any
	Doc     string
	Must    bool    // it cannot be left out
	Of      []Field // what an entry of a list or a nested entry may say
	Each    string  // what each text of a list looks like, as a regular expression; empty where that is free
	Count   int     // how many there are in the list; 0: any number

	form form
}

// Fields describes what Decode reads into a struct such as prototype, whose values are the defaults.
func Fields(prototype any) []Field {
	v := reflect.Indirect(reflect.ValueOf(prototype))
	var out []Field
	for _, t := range tagged(v) {
		typ := t.value.Type()
		for typ.Kind() == reflect.Pointer {
			typ = typ.Elem()
		}
		f := Field{Key: t.key, Type: want(typ), OneOf: t.oneof, Doc: t.doc, Must: t.must, Default: show(t.value), Each: t.each, Count: t.count, form: formOf(typ)}
		switch {
		case t.such != "":
			f.Type = "a list such as " + t.such
		case len(t.oneof) > 0 && typ.Kind() == reflect.Slice:
			f.Type = "a list of " + unit.List(t.oneof, "or")
		case len(t.oneof) > 0:
			f.Type = "one of " + unit.List(t.oneof, "or")
		}
		elem := typ
		if typ.Kind() == reflect.Slice {
			elem = typ.Elem()
		}
		if _, _, _, ok := t.bounds(elem); ok && t.limits != "" {
			f.Range = t.rangeWords(elem, unit.Inches)
		}
		if (&File{}).parser(elem) == nil && elem.Kind() == reflect.Struct {
			f.Of = Fields(reflect.New(elem).Interface())
		}
		out = append(out, f)
	}
	return out
}

// choices are the words of a tag, parted by "|" where one of them has a blank in it.
func choices(tag string) []string {
	if strings.Contains(tag, "|") {
		return strings.Split(tag, "|")
	}
	return strings.Fields(tag)
}

// show prints a default, or nothing for a value that says nothing.
func show(v reflect.Value) string {
	if v.IsZero() {
		return ""
	}
	v = reflect.Indirect(v)
	both := func(format func(unit.System) string) string {
		return format(unit.Inches) + " (" + format(unit.Centimetres) + ")"
	}
	switch x := v.Interface().(type) {
	case unit.Length:
		return both(x.Format)
	case unit.Size:
		return both(x.Format)
	case unit.Extent:
		return both(x.Format)
	case unit.Size3:
		return both(x.Format)
	case unit.Weight:
		return both(x.Format)
	case unit.Angle:
		return x.Format()
	case unit.Share:
		return x.Format()
	case unit.Minutes:
		return x.Format()
	case unit.Money:
		return x.Format("")
	case encoding.TextMarshaler:
		b, _ := x.MarshalText()
		return string(b)
	case bool:
		return "yes"
	case []string:
		return strings.Join(x, ", ")
	}
	if v.Kind() == reflect.Struct || v.Kind() == reflect.Slice {
		return ""
	}
	return fmt.Sprint(v.Interface())
}

// tags is what a field of a struct says about itself.
type tags struct {
	key, limits, doc string
	such, each       string // an example of a list, and the form of each of its texts
	count            int    // of a list
	must             bool
	most             int // characters of a text, values of a list
	oneof            []string
	value            reflect.Value
}

// tagged are the fields of a struct that are read, those of embedded structs in their place.
func tagged(v reflect.Value) []tags {
	var out []tags
	for i := range v.NumField() {
		f := v.Type().Field(i)
		key := f.Tag.Get("yaml")
		switch {
		case f.Anonymous && f.Type.Kind() == reflect.Struct:
			out = append(out, tagged(v.Field(i))...)
		case key != "" && f.IsExported():
			count, _ := strconv.Atoi(f.Tag.Get("count"))
			out = append(out, tags{
				such: f.Tag.Get("such"), each: f.Tag.Get("each"), count: count,
				key: key, limits: f.Tag.Get("range"), doc: f.Tag.Get("doc"), must: f.Tag.Get("must") == "yes",
				oneof: choices(f.Tag.Get("oneof")), value: v.Field(i), most: mostOf(f),
			})
		}
	}
	return out
}

// mostOf is how many characters a text, or values a list, may have. A number that cannot be read is a mistake in the program.
func mostOf(f reflect.StructField) int {
	stated, ok := f.Tag.Lookup("most")
	switch {
	case ok:
		n, err := strconv.Atoi(stated)
		if err != nil {
			panic(fmt.Sprintf("scene: at most %q of %s: %s", stated, f.Name, err))
		}
		return n
	case f.Type.Kind() == reflect.Slice:
		return maxList
	}
	return maxLine
}

// hint is what to write for the field.
func (t tags) hint() string {
	switch {
	case len(t.oneof) > 0 && t.doc != "":
		return fmt.Sprintf("%s: %s", t.doc, unit.List(t.oneof, "or"))
	case len(t.oneof) > 0:
		return unit.List(t.oneof, "or")
	case t.doc != "":
		return t.doc
	}
	return "write " + want(t.value.Type())
}

// usual are the bounds of types whose field states none: nothing negative, nothing absurd.
func usual(t reflect.Type) (limits string, open bool) {
	switch reflect.Zero(t).Interface().(type) {
	case unit.Length:
		return "0in..200ft", false
	case unit.Size, unit.Extent, unit.Size3:
		return "0in..40ft", true
	case unit.Weight:
		return "0lb..1000lb", false
	case unit.Angle:
		return "-360deg..360deg", false
	case unit.Share:
		return "0%..100%", false
	case unit.Minutes:
		return "0min..168h", false
	case unit.Money:
		return "0..100000000", false
	}
	if t == reflect.TypeFor[int]() || t == reflect.TypeFor[float64]() {
		return "-1000000..1000000", false
	}
	return "", false // a type with a text form of its own refuses by itself
}

// bounds are the least and the greatest value of a field of type t; open leaves the least itself out.
func (t tags) bounds(typ reflect.Type) (low, high float64, open, ok bool) {
	limits := t.limits
	if limits == "" {
		limits, open = usual(typ)
	}
	if limits == "" {
		return 0, 0, false, false
	}
	a, b, _ := strings.Cut(limits, "..")
	return bound(typ, a), bound(typ, b), open, true
}

// bound reads one end of a range. A range that cannot be read is a mistake in the program.
func bound(t reflect.Type, s string) float64 {
	switch reflect.Zero(t).Interface().(type) {
	case unit.Size, unit.Extent, unit.Size3:
		t = reflect.TypeFor[unit.Length]()
	}
	v, err := (&File{}).parser(t)(s)
	if err != nil {
		panic(fmt.Sprintf("scene: range %q of a %s: %s", s, t, err))
	}
	return numbers(reflect.ValueOf(v))[0]
}

// rangeWords is the range of a field in words, in the units that the scene is written in.
func (t tags) rangeWords(typ reflect.Type, sys unit.System) string {
	limits, open := t.limits, false
	if limits == "" {
		limits, open = usual(typ)
	}
	a, b, _ := strings.Cut(limits, "..")
	if sys == unit.Centimetres {
		a, b = metric(typ, a), metric(typ, b)
	}
	if open {
		return "more than 0, up to " + b
	}
	return "from " + a + " to " + b
}

// metric is a bound in the units of a metric scene.
func metric(t reflect.Type, s string) string {
	switch reflect.Zero(t).Interface().(type) {
	case unit.Length, unit.Size, unit.Extent, unit.Size3:
		return unit.Length(bound(t, s)).Format(unit.Centimetres)
	case unit.Weight:
		return unit.Weight(bound(t, s)).Format(unit.Centimetres)
	}
	return s
}
