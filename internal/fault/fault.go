// Package fault holds what is wrong with a file that a person wrote: the place, the words and what to do about it.
package fault

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Place is a spot in a file. Lines and columns count from 1, columns in characters; a Place with line 0 is the file as
// a whole.
type Place struct {
	File      string
	Line, Col int
}

func (p Place) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Fault is one thing that is wrong.
type Fault struct {
	At   Place
	Text string // what is wrong, in one sentence without a full stop
	Hint string // what to do about it; may be empty
}

func (f Fault) Error() string {
	s := f.Text
	if f.At.File != "" {
		s = f.At.String() + ": " + s
	}
	if f.Hint != "" {
		s += " (" + f.Hint + ")"
	}
	return s
}

// List is every fault that was found. It is an error when it is not empty.
type List []Fault

// Add appends a fault; the text is formatted as by fmt.Sprintf.
func (l *List) Add(at Place, hint, format string, args ...any) {
	*l = append(*l, Fault{at, fmt.Sprintf(format, args...), hint})
}

// Err is the list as an error, sorted by place, or nil if the list is empty.
func (l List) Err() error {
	if len(l) == 0 {
		return nil
	}
	s := slices.Clone(l)
	slices.SortStableFunc(s, func(a, b Fault) int {
		if c := strings.Compare(a.At.File, b.At.File); c != 0 {
			return c
		}
		if a.At.Line != b.At.Line {
			return a.At.Line - b.At.Line
		}
		return a.At.Col - b.At.Col
	})
	return s
}

func (l List) Error() string {
	var b strings.Builder
	for i, f := range l {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(f.Error())
	}
	return b.String()
}

// Show prints the faults for a person: the message, the line of the file with a mark under the column, the hint.
// source gives a file's text, or nil where it is not to be had.
func (l List) Show(source func(file string) []byte) string {
	var b strings.Builder
	for _, f := range l {
		if f.At.File != "" {
			fmt.Fprintf(&b, "%s: ", f.At)
		}
		fmt.Fprintf(&b, "%s\n", f.Text)
		if line, ok := sourceLine(source(f.At.File), f.At.Line); ok {
			mark := strings.Map(func(r rune) rune {
				if r == '\t' {
					return r
				}
				return ' '
			}, firstRunes(line, f.At.Col-1))
			fmt.Fprintf(&b, "    %s\n    %s^\n", line, mark)
		}
		if f.Hint != "" {
			fmt.Fprintf(&b, "    hint: %s\n", f.Hint)
		}
	}
	return b.String()
}

func sourceLine(text []byte, n int) (string, bool) {
	lines := strings.Split(strings.TrimPrefix(string(text), "\ufeff"), "\n")
	if text == nil || n < 1 || n > len(lines) {
		return "", false
	}
	line := strings.TrimRight(lines[n-1], "\r")
	if utf8.RuneCountInString(line) > 160 || !utf8.ValidString(line) {
		return "", false // a line that would only fill the screen
	}
	return line, true
}

func firstRunes(s string, n int) string {
	r := []rune(s)
	return string(r[:max(0, min(n, len(r)))])
}

// Nearest is the candidate that a person most likely meant by word: at most two letters (a third of a short word)
// wrong, missing, added or exchanged. ok is false when nothing is near.
func Nearest(word string, candidates []string) (nearest string, ok bool) {
	w := strings.ToLower(word)
	best := max(1, min(2, len([]rune(w))/3)) + 1
	for _, c := range candidates {
		if d := distance([]rune(w), []rune(strings.ToLower(c))); d < best {
			best, nearest = d, c
		}
	}
	return nearest, nearest != ""
}

// distance is the number of letters to change, add, drop or swap with the next (optimal string alignment).
func distance(a, b []rune) int {
	before, last := make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row := make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}
