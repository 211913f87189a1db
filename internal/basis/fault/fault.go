// Package fault holds what is wrong with a file that a person wrote: the place, the words and what to do about it.
package fault

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
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

// Err is the list as an error, sorted by place and without repeats, or nil if the list is empty.
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
	return slices.Compact(s)
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

// alike is how many faults of one file with one hint are shown: the first ones and the last; those between are counted.
const alike = 6

// Show prints the faults for a person: the message, the line of the file with a mark under the column, the hint.
// source gives a file's text, or nil where it is not available; it may itself be nil.
func (l List) Show(source func(file string) []byte) string {
	var b strings.Builder
	kind := func(f Fault) [2]string { return [2]string{f.At.File, f.Hint} }
	all, come := map[[2]string]int{}, map[[2]string]int{}
	for _, f := range l {
		all[kind(f)]++
	}
	for _, f := range l {
		k := kind(f)
		come[k]++
		if many := f.Hint != "" && all[k] > alike; many && come[k] >= alike && come[k] < all[k] {
			continue
		} else if many && come[k] == all[k] {
			fmt.Fprintf(&b, "… and %d more with the hint of the next\n", all[k]-alike)
		}
		if f.At.File != "" {
			fmt.Fprintf(&b, "%s: ", f.At)
		}
		fmt.Fprintf(&b, "%s\n", f.Text)
		if line, mark, ok := sourceLine(source, f.At); ok {
			fmt.Fprintf(&b, "    %s\n    %s^\n", line, mark)
		}
		if f.Hint != "" {
			fmt.Fprintf(&b, "    hint: %s\n", f.Hint)
		}
	}
	return b.String()
}

const (
	shown  = 120 // characters of a line, at most, that are shown
	before = 60  // of them before the column, if the line is longer
)

// lineBreaks are all that YAML takes for the end of a line.
var lineBreaks = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u0085", "\n", "\u2028", "\n", "\u2029", "\n")

// sourceLine is the line of a place as it can be shown on a terminal, and what to put before a mark under the column.
func sourceLine(source func(file string) []byte, at Place) (line, mark string, ok bool) {
	if source == nil || at.Line < 1 {
		return "", "", false
	}
	b := source(at.File)
	if b == nil {
		return "", "", false
	}
	text := strings.TrimPrefix(string(b), "\ufeff")
	lines := strings.Split(lineBreaks.Replace(text), "\n")
	if at.Line > len(lines) || !utf8.ValidString(lines[at.Line-1]) {
		return "", "", false
	}
	r := []rune(strings.Map(func(r rune) rune {
		if r != '\t' && !unicode.IsPrint(r) {
			return '·' // a terminal would obey it, or show nothing
		}
		return r
	}, lines[at.Line-1]))
	col := max(0, min(at.Col-1, len(r)))
	if len(r) > shown {
		from := max(0, min(col-before, len(r)-shown))
		to := from + shown
		more := to < len(r)
		r, col = slices.Clone(r[from:to]), col-from
		if from > 0 {
			r[0] = '…'
		}
		if more {
			r[len(r)-1] = '…'
		}
	}
	mark = strings.Map(func(r rune) rune {
		if r == '\t' {
			return r
		}
		return ' '
	}, string(r[:col]))
	return string(r), mark, true
}

// reach is how many letters may be wrong, at most, in a name that is still known.
const reach = 2

// Nearest is the candidate that a person most likely meant by word: at most two letters (a third of a short word)
// wrong, missing, added or exchanged. ok is false when nothing is near.
func Nearest(word string, candidates []string) (nearest string, ok bool) {
	w := []rune(strings.ToLower(word))
	best := max(1, min(reach, len(w)/3)) + 1
	for _, c := range candidates {
		if n := utf8.RuneCountInString(c); len(w)-n >= best || n-len(w) >= best {
			continue
		}
		r := []rune(strings.ToLower(c))
		if d := distance(w, r); d < best && d < min(len(w), len(r)) { // something of the word must be left
			best, nearest, ok = d, c, true
		}
	}
	return nearest, ok
}

// distance is the number of letters to change, add, drop or swap with the next (optimal string alignment), or more than
// reach where that is more. Only letters whose places differ by no more than reach are compared: the work grows with the
// words, not with their square.
func distance(a, b []rune) int {
	const far = reach + 1
	var before, last, row [2*reach + 1]int // number k is of i letters of a and i - reach + k of b
	for k := range last {
		if last[k] = k - reach; k < reach {
			last[k] = far
		}
	}
	for i := 1; i <= len(a); i++ {
		least := far
		for k := range row {
			j := i - reach + k
			switch row[k] = far; {
			case j == 0:
				row[k] = i
			case j > 0 && j <= len(b):
				if row[k] = last[k]; a[i-1] != b[j-1] {
					row[k]++
				}
				if k > 0 {
					row[k] = min(row[k], row[k-1]+1)
				}
				if k < 2*reach {
					row[k] = min(row[k], last[k+1]+1)
				}
				if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
					row[k] = min(row[k], before[k]+1)
				}
			}
			least = min(least, row[k])
		}
		if least > reach {
			return far
		}
		before, last = last, row
	}
	if k := len(b) - len(a) + reach; k >= 0 && k <= 2*reach {
		return last[k]
	}
	return far
}
