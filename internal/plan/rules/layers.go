package rules

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// Layer is a set of rules from one place, which take the place of those from layers before it.
type Layer struct {
	Name        string      // what people call it: "booth.yaml"
	Units       unit.System // of bare numbers
	UnitsStated bool        // false: a bare number is a fault
	Values      map[string]any
	At          func(rule string) fault.Place
}

// prefix begins the environment variables that set rules: BOOTHMOCK_HANGING_CENTRE=60in.
const prefix = "BOOTHMOCK_"

// Merge is the book that built-in practice, the layers (the artist's settings, the fair's rule sheet, the scene), the
// environment ("BOOTHMOCK_HANGING_CENTRE=60in"; other variables are passed over) and the command line ("hanging
// centre=60in") make together: the last one that states a rule wins. The error is a fault.List with every rule that is
// unknown or wrong, also in layers that lose.
func Merge(env, flags []string, layers ...Layer) (Book, error) {
	spoken := Layer{} // the command line and the environment speak in the units of the scene, the last layer that states any
	for _, l := range layers {
		if l.UnitsStated {
			spoken.Units, spoken.UnitsStated = l.Units, true
		}
	}
	var faults fault.List
	fromEnv := spoken.named("environment")
	for _, e := range env {
		key, text, _ := strings.Cut(e, "=")
		if key, ok := strings.CutPrefix(key, prefix); ok {
			fromEnv.Values[strings.ToLower(strings.ReplaceAll(key, "_", " "))] = text
		}
	}
	fromFlags := spoken.named("command line")
	for _, e := range flags {
		key, text, ok := strings.Cut(e, "=")
		if !ok {
			faults.Add(fault.Place{File: fromFlags.Name}, `write for example "hanging centre=60in"`, "%s is not a rule and its value", unit.Quote(e))
			continue
		}
		fromFlags.Values[strings.ToLower(strings.Join(strings.Fields(key), " "))] = text
	}

	var all []map[string]any
	var wanted []Ask
	for _, l := range append(slices.Clip(layers), fromEnv, fromFlags) {
		all = append(all, l.read(&faults))
		wanted = append(wanted, l.asks(&faults)...)
	}
	if err := faults.Err(); err != nil {
		return Book{}, err
	}
	won, err := merged(all)
	if err != nil {
		return Book{}, err
	}
	b := Book{values: map[string]value{}, asks: wanted}
	for _, r := range All {
		if v, ok := won(r.name()).(value); ok {
			b.values[r.name()] = v
		}
	}
	return b, nil
}

// named is an empty layer that is no file.
func (l Layer) named(name string) Layer {
	l.Name, l.Values = name, map[string]any{}
	l.At = func(string) fault.Place { return fault.Place{File: name} }
	return l
}

// read turns what a layer says into values; rules that are unknown or wrong are faults.
func (l Layer) read(faults *fault.List) map[string]any {
	names := make([]string, len(All))
	byName := map[string]Rule{}
	for i, r := range All {
		names[i] = r.name()
		byName[r.name()] = r
	}
	out := map[string]any{}
	for _, key := range slices.Sorted(maps.Keys(l.Values)) {
		if key == asks {
			continue
		}
		rule, ok := byName[key]
		if !ok {
			hint := "boothmock explain rules lists all of them"
			if near, ok := fault.Nearest(key, names); ok {
				hint = fmt.Sprintf("did you mean %s?", near)
			}
			faults.Add(l.At(key), hint, "there is no rule %s", unit.Quote(key))
			continue
		}
		text, ok := l.Values[key].(string)
		if l.Values[key] == nil {
			faults.Add(l.At(key), "write for example "+exampleOf(rule), "%s: has no value", key)
			continue
		}
		if !ok {
			faults.Add(l.At(key), "write for example "+exampleOf(rule), "%s: want one value", key)
			continue
		}
		n, err := rule.parse(text, l.Units, l.UnitsStated)
		var e *unit.Error
		if errors.As(err, &e) {
			faults.Add(l.At(key), e.Hint, "%s: %s", key, e.Text)
			continue
		}
		out[key] = value{n, l.Name}
	}
	return out
}

// exampleOf is the built-in value of a rule as somebody would write it.
func exampleOf(r Rule) string { return r.line(Book{}, unit.Inches).Value }
