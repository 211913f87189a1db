package try

import (
	"bytes"
	"slices"
)

// past are the texts that the scene has had, from the one that was opened to the last that was made, and which of them is shown. Of each
// only what differs from the one before is kept: a sitting has no end.
type past struct {
	first []byte
	steps []step
	here  int
	text  []byte // the one that is shown
}

// step makes a text of the one before: between its first head bytes and its last tail ones stands something else.
type step struct {
	head, tail int
	between    []byte
	words      string // what was done
}

// newPast begins with a text.
func newPast(text []byte) past { return past{first: text, text: text} }

// add has a text follow on the one that is shown, and shows it. What followed on that one before is gone.
func (p *past) add(text []byte, words string) {
	was, most := p.text, min(len(p.text), len(text))
	s := step{words: words}
	for s.head < most && was[s.head] == text[s.head] {
		s.head++
	}
	for s.tail < most-s.head && was[len(was)-1-s.tail] == text[len(text)-1-s.tail] {
		s.tail++
	}
	s.between = bytes.Clone(text[s.head : len(text)-s.tail])
	p.steps = append(p.steps[:p.here:p.here], s)
	p.here++
	p.text = text
}

// len is how many texts there are.
func (p *past) len() int { return len(p.steps) + 1 }

// at is a text by its number.
func (p *past) at(k int) []byte {
	text := p.first
	for _, s := range p.steps[:k] {
		text = slices.Concat(text[:s.head], s.between, text[len(text)-s.tail:])
	}
	return text
}

// show has the text of a number shown.
func (p *past) show(k int) { p.here, p.text = k, p.at(k) }

// words are what made a text.
func (p *past) words(k int) string {
	if k == 0 {
		return "as it was opened"
	}
	return p.steps[k-1].words
}
