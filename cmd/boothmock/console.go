package main

import (
	"io"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/term"
	"golang.org/x/text/unicode/norm"
)

// console is where text goes: a terminal, a pipe or a file. What a terminal would obey instead of showing is shown as a
// dot, and on one that does not take UTF-8 letters are spelt with ASCII.
type console struct {
	*os.File
	terminal, ascii, colours bool

	mu  sync.Mutex
	err error // the first that came of writing
}

func newConsole(f *os.File) *console {
	c := &console{File: f, terminal: term.IsTerminal(int(f.Fd()))}
	c.ascii = c.terminal && !utf8Locale()
	c.colours = c.terminal && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb" // no-color.org
	return c
}

// utf8Locale is whether the locale's letters are UTF-8 (POSIX, 8.2: the first of the three that is set counts).
func utf8Locale() bool {
	if runtime.GOOS == "windows" {
		return true // its terminals are written to in Unicode
	}
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := os.Getenv(name); v != "" {
			v = strings.ToLower(v)
			return strings.Contains(v, "utf-8") || strings.Contains(v, "utf8")
		}
	}
	return false
}

// Write writes whole texts: no letter may be divided between two calls.
func (c *console) Write(p []byte) (int, error) {
	_, err := c.File.WriteString(c.spelt(string(p)))
	c.mu.Lock()
	defer c.mu.Unlock()
	if err != nil && c.err == nil {
		c.err = err
	}
	return len(p), err
}

// failed is what kept a text from being written.
func (c *console) failed() error {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.err
}

// spelt is a text as it can be shown.
func (c *console) spelt(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); {
		if own := c.own(s[i:]); own > 0 {
			b.WriteString(s[i : i+own])
			i += own
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r < utf8.RuneSelf && unicode.IsPrint(r), r == '\n', r == '\t':
			b.WriteByte(s[i])
		case r == utf8.RuneError && n == 1, obeyed(r):
			b.WriteString(c.letter('·'))
		default:
			b.WriteString(c.letter(r))
		}
		i += n
	}
	return b.String()
}

// own is the length of a colour of ours at the beginning of the text.
func (c *console) own(s string) int {
	if !c.colours {
		return 0
	}
	for _, code := range colourCodes {
		if strings.HasPrefix(s, code) {
			return len(code)
		}
	}
	return 0
}

// obeyed is whether a terminal takes a character for an order: control characters, and those that turn the direction of
// what stands around them.
func obeyed(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }

// spellings are what has no letter within it.
var spellings = map[rune]string{
	'×': "x", '·': ".", '–': "-", '—': "-", '−': "-", '→': "->", '←': "<-", '…': "...", '“': `"`, '”': `"`, '‘': "'", '’': "'",
	'≤': "<=", '≥': ">=", '°': " deg", 'ß': "ss", 'æ': "ae", 'Æ': "AE", 'ø': "o", 'Ø': "O", 'œ': "oe", 'Œ': "OE", 'ł': "l", 'Ł': "L",
	'£': "GBP ", '€': "EUR ", '\u00a0': " ",
}

// letter is a letter as the terminal can show it.
func (c *console) letter(r rune) string {
	if !c.ascii || r < utf8.RuneSelf {
		return string(r)
	}
	if s, ok := spellings[r]; ok {
		return s
	}
	var b strings.Builder
	for _, part := range norm.NFKD.String(string(r)) {
		switch {
		case part < utf8.RuneSelf:
			b.WriteRune(part)
		case part == '⁄': // of ½
			b.WriteByte('/')
		case !unicode.Is(unicode.Mn, part):
			b.WriteByte('?')
		}
	}
	return b.String()
}

// width is how many characters a line of the output may have.
func width(w io.Writer) int {
	const usual, least = 100, 16 // usual: for a pipe, or a very wide terminal, where longer lines are hard to read
	n, err := strconv.Atoi(os.Getenv("COLUMNS"))
	if c, ok := w.(*console); ok && (err != nil || n < 1) {
		n, _, _ = term.GetSize(int(c.Fd()))
	}
	if n < 1 {
		return usual
	}
	return max(least, min(n, usual))
}
