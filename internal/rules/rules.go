// Package rules holds the house rules: the numbers that checks compare with and layouts go by. They come in layers:
// built-in practice, the artist's own settings, the fair's rule sheet, the scene, the environment, the command line.
package rules

import "boothmock/internal/unit"

// Book is one full set of rules, each with its value and the layer that it came from. The zero Book is built-in practice.
type Book struct {
	values map[string]value
}

type value struct {
	number float64 // metres, radians, minutes: as the rule's own type says
	layer  string
}

// Length is a rule that is a length.
type Length struct {
	Name    string // as written in a settings file: "hanging centre"
	Default unit.Length
	Doc     string // one sentence for people
	Source  string // where the number is from: a published source, or "common practice, no source"
}

// In is the rule's value in the book, in metres.
func (r Length) In(b Book) float64 {
	if v, ok := b.values[r.Name]; ok {
		return v.number
	}
	return r.Default.M()
}
