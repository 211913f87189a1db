package stocklist

import (
	"encoding/csv"
	"errors"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"boothmock/internal/fault"
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
		var units []uint16
		for i := 2; i+1 < len(s); i += 2 {
			units = append(units, uint16(s[i+high])<<8|uint16(s[i+1-high]))
		}
		s = string(utf16.Decode(units))
	case !utf8.ValidString(s):
		decoded, err := charmap.Windows1252.NewDecoder().String(s)
		if err != nil {
			return "", "", err
		}
		s, note = decoded, "It is not UTF-8 and was read as Windows text: look whether names with accents are right."
	}
	s = strings.TrimPrefix(s, "\ufeff")
	if strings.ContainsRune(s, 0) {
		return "", "", errors.New("it is not text")
	}
	return s, note, nil
}

// readCSV reads the text with the separator that makes the most of its headings. Quotes may be loose: 24"x36".
func readCSV(name, text string) (best []line, heads headings, first int) {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	if rest, ok := strings.CutPrefix(text, "sep="); ok { // as one program marks the separator
		if _, after, ok := strings.Cut(rest, "\n"); ok {
			text = "\n" + after
		}
	}
	for _, comma := range []rune{',', ';', '\t'} {
		r := csv.NewReader(strings.NewReader(text))
		r.Comma, r.LazyQuotes, r.FieldsPerRecord = comma, true, -1
		var lines []line
		inside := 0 // line breaks within cells so far: they make no rows
		for len(lines) < maxRows+headRows+1 {
			record, err := r.Read()
			if err != nil {
				break // the end: with loose quotes there is no other error
			}
			at, _ := r.FieldPos(0)
			l := line{number: at - inside, at: fault.Place{File: name, Line: at, Col: 1}}
			for _, c := range record {
				inside += strings.Count(c, "\n")
				l.cells = append(l.cells, cell{text: c})
			}
			lines = append(lines, l)
		}
		if h, at := findHeadings(lines); len(h.columns) > len(heads.columns) {
			h.decimalComma = comma == ';'
			best, heads, first = lines, h, at
		}
	}
	return best, heads, first
}
