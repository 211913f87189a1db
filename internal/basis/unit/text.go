package unit

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// List is words as people say them: "left, back and right"; and is the word before the last.
func List(words []string, and string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " " + and + " " + words[last]
}

// Capital is a text with its first letter large.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 || r == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// Quote is a piece of a person's text inside a message: shortened, without characters that a terminal would obey.
func Quote(s string) string {
	r := []rune(strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return ' '
	}, strings.ToValidUTF8(s, "?")))
	if len(r) > 40 {
		r = append(r[:37], '…')
	}
	if strings.ContainsRune(string(r), '"') {
		return "“" + string(r) + "”"
	}
	return `"` + string(r) + `"`
}
