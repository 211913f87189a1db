// Package rules holds the house rules: the numbers that checks compare with and layouts go by. They come in layers:
// built-in practice, the artist's own settings, the fair's rule sheet, the scene, the environment, the command line.
package rules

import "boothmock/internal/unit"

// Book is one full set of rules, each with its value and the layer that it came from. The zero Book is built-in practice.
type Book struct {
	values map[string]value
}

type value struct {
	number float64 // metres, degrees or a share: as the rule's own type says
	layer  string
}

func (b Book) number(name string, fallback float64) float64 {
	if v, ok := b.values[name]; ok {
		return v.number
	}
	return fallback
}

// Rule is any rule, for reading and listing.
type Rule interface {
	name() string
}

// Length is a rule that is a length.
type Length struct {
	Name    string // as written in a settings file: "hanging centre"
	Default unit.Length
	Doc     string // one sentence for people
	Source  string // where the number is from: a published source, or "common practice, no source"
}

// In is the rule's value in the book, in metres.
func (r Length) In(b Book) float64 { return b.number(r.Name, r.Default.M()) }

func (r Length) name() string { return r.Name }

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
