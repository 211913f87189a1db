// Package rules holds the house rules: the numbers that checks compare with and layouts go by. They come in layers:
// built-in practice, the artist's own settings, the fair's rule sheet, the scene, the environment, the command line.
package rules

import (
	"fmt"
	"strconv"
	"strings"

	"boothmock/internal/basis/unit"
)

// Practice is the name of the layer that is built in.
const Practice = "built-in practice"

// Book is one full set of rules, each with its value and the layer that it came from. The zero Book is built-in practice.
type Book struct {
	values map[string]value
	asks   []Ask
}

type value struct {
	number float64 // metres, degrees, a share or minutes: as the rule's own type says
	layer  string
}

func (b Book) number(name string, fallback float64) float64 {
	if v, ok := b.values[name]; ok {
		return v.number
	}
	return fallback
}

func (b Book) layer(name string) string {
	if v, ok := b.values[name]; ok {
		return v.layer
	}
	return Practice
}

// Line is a rule as people read about it.
type Line struct {
	Name   string
	Value  string // in the system that was asked for: "58 in"
	Layer  string // where the value came from
	Doc    string
	Source string // where the built-in value came from, or what the layer's own value takes its place of
}

// Explain is every rule with its value and where that came from, in the order of All.
func (b Book) Explain(sys unit.System) []Line {
	lines := make([]Line, len(All))
	for i, r := range All {
		l := r.line(b, sys)
		if l.Layer = b.layer(l.Name); l.Layer != Practice {
			l.Source = fmt.Sprintf("in place of %s: %s", r.line(Book{}, sys).Value, l.Source)
		}
		lines[i] = l
	}
	return lines
}

// Rule is any rule, for reading and listing.
type Rule interface {
	name() string
	// parse reads a value of the rule, in the rule's own unit. The error is of type *unit.Error.
	parse(text string, bare unit.System, bareOK bool) (float64, error)
	line(b Book, sys unit.System) Line
}

// Length is a rule that is a length.
type Length struct {
	Name    string // as written in a settings file: "hanging centre"
	Default unit.Length
	Doc     string // one sentence for people
	Source  string // where the number is from: a published source, or "common practice, no source"
}

// maxLength is the greatest length that a rule can have: nothing that checks compare with is longer.
const maxLength = 20 * unit.Foot

// In is the rule's value in the book, in metres.
func (r Length) In(b Book) float64 { return b.number(r.Name, r.Default.M()) }

func (r Length) name() string { return r.Name }

func (r Length) parse(text string, bare unit.System, bareOK bool) (float64, error) {
	l, err := unit.ParseLength(text, bare, bareOK)
	if err == nil && !(l >= 0 && l <= maxLength) {
		err = &unit.Error{Text: unit.Quote(text) + " is out of range", Hint: fmt.Sprintf("from 0 to %s", maxLength.Format(bare))}
	}
	return l.M(), err
}

func (r Length) line(b Book, sys unit.System) Line {
	return Line{Name: r.Name, Value: unit.Length(r.In(b)).Format(sys), Doc: r.Doc, Source: r.Source}
}

// Angle is a rule that is an angle.
type Angle struct {
	Name    string
	Default float64 // degrees
	Doc     string
	Source  string
}

// In is the rule's value in the book, in degrees.
func (r Angle) In(b Book) float64 { return b.number(r.Name, r.Default) }

func (r Angle) name() string { return r.Name }

func (r Angle) parse(text string, _ unit.System, _ bool) (float64, error) {
	a, err := unit.ParseAngle(text)
	if err == nil && !(a.Degrees() >= 0 && a.Degrees() <= 90) {
		err = &unit.Error{Text: unit.Quote(text) + " is out of range", Hint: "from 0° to 90°"}
	}
	return a.Degrees(), err
}

func (r Angle) line(b Book, _ unit.System) Line {
	return Line{Name: r.Name, Value: unit.Degrees(r.In(b)).Format(), Doc: r.Doc, Source: r.Source}
}

// Share is a rule that is a part of a whole, 0 to 1; people write it as a percentage.
type Share struct {
	Name    string
	Default float64
	Doc     string
	Source  string
}

// In is the rule's value in the book, 0 to 1.
func (r Share) In(b Book) float64 { return b.number(r.Name, r.Default) }

func (r Share) name() string { return r.Name }

func (r Share) parse(text string, _ unit.System, _ bool) (float64, error) {
	s, err := unit.ParseShare(text)
	if err == nil && !(s >= 0 && s <= 1) {
		err = &unit.Error{Text: unit.Quote(text) + " is out of range", Hint: "from 0% to 100%"}
	}
	return float64(s), err
}

func (r Share) line(b Book, _ unit.System) Line {
	return Line{Name: r.Name, Value: unit.Share(r.In(b)).Format(), Doc: r.Doc, Source: r.Source}
}

// Minutes is a rule that is how long something takes, up to four hours.
type Minutes struct {
	Name    string
	Default unit.Minutes
	Doc     string
	Source  string
}

// In is the rule's value in the book, in minutes.
func (r Minutes) In(b Book) unit.Minutes { return unit.Minutes(b.number(r.Name, float64(r.Default))) }

func (r Minutes) name() string { return r.Name }

func (r Minutes) parse(text string, _ unit.System, _ bool) (float64, error) {
	m, err := unit.ParseMinutes(text)
	if err == nil && m > 240 {
		err = &unit.Error{Text: unit.Quote(text) + " is out of range", Hint: "from 0 to 4 h"}
	}
	return float64(m), err
}

func (r Minutes) line(b Book, _ unit.System) Line {
	return Line{Name: r.Name, Value: r.In(b).Format(), Doc: r.Doc, Source: r.Source}
}

// Number is a rule in a unit that has no type of its own, such as lux or watts.
type Number struct {
	Name        string
	Default     float64
	Least, Most float64
	Unit        string // as people write it: "lx"
	Doc         string
	Source      string
}

// In is the rule's value in the book, in its unit.
func (r Number) In(b Book) float64 { return b.number(r.Name, r.Default) }

// Stated is whether a layer over what is built in gives the value.
func (r Number) Stated(b Book) bool { return b.layer(r.Name) != Practice }

func (r Number) name() string { return r.Name }

func (r Number) parse(text string, _ unit.System, _ bool) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), r.Unit)), 64)
	if err != nil || !(v >= r.Least && v <= r.Most) {
		return 0, &unit.Error{Text: unit.Quote(text) + " is out of range, or no number", Hint: fmt.Sprintf("from %v to %v %s", r.Least, r.Most, r.Unit)}
	}
	return v, nil
}

func (r Number) line(b Book, _ unit.System) Line {
	return Line{Name: r.Name, Value: fmt.Sprintf("%v %s", r.In(b), r.Unit), Doc: r.Doc, Source: r.Source}
}
