package scene

import (
	"regexp"
	"strings"
	"unicode/utf8"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// Slips of the keyboard that a parser blames on what comes after them.
var (
	oddBlank   = regexp.MustCompile("(?:^[ \t]*|[:,\\[{-])([\u00a0\u2007\u202f\u3000])")
	bareColour = regexp.MustCompile(`[:,\[] *(#[0-9A-Fa-f]{3,8})\b`)
	noBlank    = regexp.MustCompile(`^\s*(?:- +)*([\pL][\pL\d -]*):([^\s/][^:]*)$`)
	entryLike  = regexp.MustCompile(`(?m)^\s*(?:- |[\pL][\pL\d -]*:(?:\s|$))`)
)

const oddBlankHint = "type an ordinary blank in its place; text from a web page or a word processor brings such"

// slip adds the fault for a slip in a text that is not YAML, at the place where it was made. near is the line that the
// parser names.
func (f *File) slip(lines []string, near int) bool {
	at := func(line, bytes int) fault.Place {
		return fault.Place{File: f.Name, Line: line + 1, Col: utf8.RuneCountInString(lines[line][:bytes]) + 1}
	}
	for i, l := range lines {
		if m := oddBlank.FindStringSubmatchIndex(l); m != nil && !quotedAt(l, m[2]) {
			f.add(at(i, m[2]), oddBlankHint, "this looks like a blank and is another character, U+%04X", []rune(l[m[2]:m[3]])[0])
			return true
		}
		if m := bareColour.FindStringSubmatchIndex(l); m != nil && !quotedAt(l, m[2]) {
			f.add(at(i, m[2]), `put the colour in quotes: "`+l[m[2]:m[3]]+`"`, "a # begins a comment, which takes the rest of the line with it")
			return true
		}
	}
	if line, col, ok := openQuote(lines); ok {
		f.add(at(line, col), "close it, or write the text without quotes", "a quote is opened here and not closed")
		return true
	}
	for i := max(0, near-2); near > 0 && i < min(len(lines), near+1); i++ {
		if m := noBlank.FindStringSubmatchIndex(lines[i]); m != nil {
			f.add(at(i, m[3]), "write "+unit.Quote(lines[i][m[2]:m[3]]+": "+strings.TrimSpace(lines[i][m[4]:m[5]])), "there is no blank after the colon")
			return true
		}
	}
	return false
}

// quotedAt is whether a byte of a line stands in quotes or in a comment that began on that line.
func quotedAt(line string, at int) bool {
	var quote byte
	for i := range at {
		switch c := line[i]; {
		case quote == 0 && opens(line, i):
			quote = c
		case quote != 0 && c == quote:
			quote = 0
		case quote == 0 && c == '#' && i > 0 && line[i-1] == ' ':
			return true
		}
	}
	return quote != 0
}

// opens is whether a quote at a byte of a line begins a value or a key, and is not one within plain text.
func opens(line string, at int) bool {
	if line[at] != '"' && line[at] != '\'' {
		return false
	}
	before := strings.TrimRight(line[:at], " \t")
	return before == "" || strings.ContainsRune(":,[{-", rune(before[len(before)-1]))
}

// openQuote is where a quote begins that is never closed, or only by the quote of an entry further down: then what stands
// between them looks like entries.
func openQuote(lines []string) (line, col int, ok bool) {
	for i := 0; i < len(lines); i++ {
		for k := 0; k < len(lines[i]); k++ {
			if lines[i][k] == '#' && (k == 0 || lines[i][k-1] == ' ') {
				break
			}
			if !opens(lines[i], k) {
				continue
			}
			last, end, closed := closing(lines, i, k)
			if !closed || last > i && entryLike.MatchString(strings.Join(lines[i+1:last+1], "\n")) {
				return i, k, true
			}
			i, k = last, end
		}
	}
	return 0, 0, false
}

// closing is the line and the byte of the quote that closes the one at line i, byte k.
func closing(lines []string, i, k int) (line, col int, ok bool) {
	quote := lines[i][k]
	for k++; i < len(lines); i, k = i+1, 0 {
		for l := lines[i]; k < len(l); k++ {
			switch {
			case quote == '"' && l[k] == '\\', quote == '\'' && strings.HasPrefix(l[k:], "''"):
				k++
			case l[k] == quote:
				return i, k, true
			}
		}
	}
	return i, 0, false
}
