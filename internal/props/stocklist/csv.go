package stocklist

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"boothmock/internal/basis/fault"
)

// decodeText is the text of a CSV: UTF-8, UTF-16 with its mark, or else the letters of Windows, which spreadsheet programs
// there write to this day.
func decodeText(file []byte) (text, note string, err error) {
	s := string(file)
	switch {
	case strings.HasPrefix(s, "\xff\xfe"), strings.HasPrefix(s, "\xfe\xff"):
		high := 0
		if s[0] == 0xff {
			high = 1
		}
		units := make([]uint16, 0, len(s)/2)
		for i := 2; i+1 < len(s); i += 2 {
			units = append(units, uint16(s[i+high])<<8|uint16(s[i+1-high]))
		}
		s = string(utf16.Decode(units))
	case !utf8.ValidString(s):
		if s, err = windowsText(s); err != nil {
			return "", "", err
		}
		note = "It is not UTF-8 and was read as Windows text: look whether names with accents are right."
	}
	s = strings.TrimPrefix(s, "\ufeff")
	if strings.ContainsRune(s, 0) {
		return "", "", errors.New("it is not text")
	}
	return s, note, nil
}

// windowsText is a text in the letters of Windows: of western or central Europe, Greek or Cyrillic. Those count in which most headings are
// known and then those that make the fewest signs within words.
func windowsText(file string) (best string, err error) {
	const enough = 1 << 16 // bytes to tell it by
	chosen, most, fewest := charmap.Windows1252, -1, 0
	for _, letters := range []*charmap.Charmap{charmap.Windows1252, charmap.Windows1250, charmap.Windows1253, charmap.Windows1251} {
		text, err := letters.NewDecoder().String(file[:min(len(file), enough)])
		if err != nil {
			continue
		}
		p, _, _ := headed("", newlines(text))
		if known, signs := p.heads.asTyped(), signsInWords(text); known > most || known == most && signs < fewest {
			chosen, most, fewest = letters, known, signs
		}
	}
	return chosen.NewDecoder().String(file)
}

// signsInWords is how many letters are followed by a sign that is none: Mg³a.
func signsInWords(text string) (n int) {
	before := ' '
	for _, r := range text {
		if r >= 0x80 && !unicode.IsLetter(r) && unicode.IsLetter(before) {
			n++
		}
		before = r
	}
	return n
}

// readCSV reads the text with the separator that makes the most of its headings. Quotes may be loose: 24"x36".
func readCSV(name, text string) ([]page, error) {
	text = newlines(text)
	p, comma, err := headed(name, text)
	if comma == 0 && err == nil { // no headings: the mark that there is most of
		comma = ','
		for _, c := range []rune{';', '\t'} {
			if strings.Count(text, string(c)) > strings.Count(text, string(comma)) {
				comma = c
			}
		}
		p.heads.decimalComma = comma == ';'
	}
	if comma != 0 {
		p.lines, err = readRows(name, text, comma, maxLines)
	}
	return []page{p}, err
}

// newlines is a text with one mark of the end of a line, and without that by which one program marks the separator.
func newlines(text string) string {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	if rest, ok := strings.CutPrefix(text, "sep="); ok {
		if _, after, ok := strings.Cut(rest, "\n"); ok {
			return "\n" + after
		}
	}
	return text
}

// headed is the headings of a text, and the separator that makes the most of them; 0 for none.
func headed(name, text string) (p page, comma rune, err error) {
	for _, c := range []rune{',', ';', '\t'} { // the first rows are enough to tell
		lines, why := readRows(name, text, c, headRows)
		if h, at := findHeadings(lines); h.score() > p.heads.score() {
			h.decimalComma = c == ';'
			comma, p.heads, p.first = c, h, at
		}
		err = cmp.Or(err, why)
	}
	return p, comma, err
}

// readRows are the first rows of a text that have anything in them, so many at most. An error is a fault.Fault, and the rows
// are those before it.
func readRows(name, text string, comma rune, most int) (lines []line, err error) {
	left := &allowance{r: strings.NewReader(text)}
	r := csv.NewReader(left)
	r.Comma, r.LazyQuotes, r.FieldsPerRecord, r.ReuseRecord = comma, true, -1, true
	inside := 0 // line breaks within cells so far: they make no rows
	for len(lines) < most {
		left.bytes = maxRowBytes
		from := r.InputOffset()
		record, err := r.Read()
		if errors.Is(err, errSpent) {
			at := 1 + strings.Count(text[:from], "\n")
			return lines, fault.Fault{At: fault.Place{File: name, Line: at, Col: 1},
				Text: fmt.Sprintf("row %d is longer than %d letters", at-inside, maxRowBytes), Hint: "look for a quote \" there that is not closed"}
		}
		if err != nil {
			break // the end: with loose quotes there is no other error
		}
		if whole := text[from:r.InputOffset()]; strings.Contains(strings.Trim(whole, "\n"), "\n") && loose(whole, comma) {
			at := 1 + strings.Count(text[:from], "\n")
			return lines, fault.Fault{At: fault.Place{File: name, Line: at, Col: 1},
				Text: fmt.Sprintf("row %d has a quote \" that runs on into the next rows", at-inside), Hint: "take it away, or save the list from a spreadsheet program as XLSX"}
		}
		at, _ := r.FieldPos(0)
		l := line{number: at - inside, at: fault.Place{File: name, Line: at, Col: 1}}
		for col, c := range record {
			inside += strings.Count(c, "\n")
			if err := l.put(col, newCell(c)); err != nil {
				return lines, err
			}
		}
		if !l.blank() {
			lines = append(lines, l)
		}
	}
	return lines, nil
}

// loose is whether the quotes of rows are not as RFC 4180 has them: then nobody knows where a cell ends.
func loose(rows string, comma rune) bool {
	r := csv.NewReader(strings.NewReader(rows))
	r.Comma, r.FieldsPerRecord = comma, -1
	_, err := r.Read()
	return err != nil
}

// allowance hands out bytes as long as there are any left.
type allowance struct {
	r     io.Reader
	bytes int
}

var errSpent = errors.New("there are no bytes left")

func (a *allowance) Read(p []byte) (int, error) {
	if a.bytes <= 0 {
		return 0, errSpent
	}
	n, err := a.r.Read(p[:min(len(p), a.bytes)])
	a.bytes -= n - bytes.Count(p[:n], []byte("\n")) // empty lines between rows belong to none
	return n, err
}
