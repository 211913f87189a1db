package scene

import (
	"encoding"
	"reflect"

	"boothmock/internal/basis/unit"
)

// Schema is the JSON Schema (draft 2020-12) of an entry with the fields, for editors that complete and check as one types.
// It is looser than Decode where a schema cannot say what is right: a length need only hold a digit.
func Schema(fields []Field) map[string]any {
	properties, must := map[string]any{}, []string{}
	for _, f := range fields {
		p := f.form.schema(f)
		if f.Doc != "" {
			p["description"] = describe(f)
		}
		properties[f.Key] = p
		if f.Must {
			must = append(must, f.Key)
		}
	}
	s := map[string]any{"type": "object", "properties": properties, "additionalProperties": false}
	if len(must) > 0 {
		s["required"] = must
	}
	return s
}

func describe(f Field) string {
	s := f.Doc + "; " + f.Type
	if f.Range != "" {
		s += ", " + f.Range
	}
	if f.Default != "" {
		s += ". Usually " + f.Default
	}
	return s
}

// form is how a value looks in the file.
type form struct {
	list bool
	elem elem
	word string // that may stand for a nested entry; empty: none may
}

type elem int

const (
	text    elem = iota // anything single: YAML takes some texts for numbers
	measure             // a number with or without a unit
	number
	whole
	yesNo
	nested
)

// formOf is the form of a type.
func formOf(t reflect.Type) form {
	f := form{}
	if t.Kind() == reflect.Slice && !reflect.PointerTo(t).Implements(textType) {
		f.list, t = true, t.Elem()
	}
	switch reflect.Zero(t).Interface().(type) {
	case unit.Length, unit.Size, unit.Extent, unit.Size3, unit.Weight, unit.Angle, unit.Share, unit.Minutes, unit.Money:
		f.elem = measure
		return f
	case encoding.TextMarshaler:
		return f
	}
	switch {
	case reflect.PointerTo(t).Implements(textType):
	case t.Kind() == reflect.Bool:
		f.elem = yesNo
	case t.Kind() == reflect.Int:
		f.elem = whole
	case t.Kind() == reflect.Float64:
		f.elem = number
	case t.Kind() == reflect.Struct:
		f.elem = nested
		if w, ok := reflect.Zero(t).Interface().(Worded); ok {
			f.word = w.Word()
		}
	}
	return f
}

func (f form) schema(field Field) map[string]any {
	var s map[string]any
	switch {
	case len(field.OneOf) > 0:
		s = map[string]any{"enum": field.OneOf}
	case f.elem == measure:
		s = map[string]any{"type": []string{"string", "number"}, "pattern": "[0-9½¼¾⅛⅜⅝⅞⅓⅔]"}
	case f.elem == number:
		s = map[string]any{"type": []string{"number", "string"}, "pattern": "[0-9]"}
	case f.elem == whole:
		s = map[string]any{"type": []string{"integer", "string"}, "pattern": "^[+-]?[0-9]+$"}
	case f.elem == yesNo:
		s = map[string]any{"enum": []any{true, false, "yes", "no", "on", "off"}}
	case f.elem == nested && f.word != "":
		s = map[string]any{"anyOf": []any{Schema(field.Of), map[string]any{"const": f.word}}}
	case f.elem == nested:
		s = Schema(field.Of)
	default:
		s = map[string]any{"type": []string{"string", "number", "boolean"}}
	}
	if !f.list {
		return s
	}
	if field.Each != "" {
		s = map[string]any{"type": "string", "pattern": field.Each}
	}
	list := map[string]any{"type": "array", "items": s}
	if field.Count > 0 {
		list["minItems"], list["maxItems"] = field.Count, field.Count
	}
	return list
}
