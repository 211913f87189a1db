// Package stocklist reads the list of works that an artist keeps in a spreadsheet, CSV or XLSX: headings in any order and
// usual wording, sizes, weights and prices as people type them. Nothing is guessed in silence: what a column was taken
// for, which columns were left aside and which rows could not be read are all told.
package stocklist

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"boothmock/internal/disk"
	"boothmock/internal/fault"
	"boothmock/internal/unit"
)

// What a list may hold at most: several times what anybody's has. Each is checked while reading, before the rest is looked
// at, so that a damaged or hostile file costs no more time and memory than a long list does.
const (
	maxBytes    = 20 << 20             // of an XLSX: spreadsheet programs put small pictures into it
	maxText     = 8 << 20              // bytes of a CSV: 1,600 for each of the most works
	maxRows     = 5000                 // works
	maxLines    = maxRows + 2*headRows // rows that have anything in them: those above the headings and below the works too
	maxColumns  = 200                  // of a row that have anything in them
	maxCell     = 200                  // characters of a cell: a title, a medium
	maxRowBytes = 100_000              // of a row of a CSV
	maxUnpacked = 16 << 20             // bytes of all that is read of an XLSX, unpacked: 5,000 works in 30 columns take 8 MB
	maxParts    = 5000                 // files in an XLSX: sheets, pictures, themes
	maxPiece    = 1 << 20              // bytes of one text, or one tag, of an XLSX
	maxElements = 1_000_000            // rows, cells and texts of an XLSX, with what is in them: 5,000 works in 60 columns
	maxNested   = 30                   // elements in each other, in an XLSX

	headRows = 15 // rows within which the headings must stand: above them people put their name and the year
)

// Sheet is a list of works.
type Sheet struct {
	Name    string
	Rows    []Row
	Unread  []Unread
	Columns []Column // those that were used, from left to right
	Unused  []string // headings of columns that mean nothing here
	Notes   []string // what somebody should know about how it was read, in sentences

	Inches, Centimetres int    // rows that state their size in either
	Currency            string // sign that its prices have, where all that have one have the same; empty: none
	Semicolons          bool   // its cells are parted by semicolons, as where a comma is the decimal mark
}

// Row is one work. What its columns do not say is zero.
type Row struct {
	Number  int         // of the row, as spreadsheet programs count
	At      fault.Place // of the row; without a line in an XLSX
	No      string      // the work's own number
	Name    string      // a short name
	Title   string
	File    string // of its photograph
	Size    unit.Size
	Depth   unit.Length
	Weight  unit.Weight
	Price   unit.Money
	Medium  string
	Edition string

	stated stated
	money  string // sign of the currency of its price; empty: not stated
}

// Unread is a row that could not be read, and why.
type Unread struct {
	Number int
	At     fault.Place
	What   string // what the row says of itself: its title, or its first words
	Why    string
}

// Column is a column and what it was taken for.
type Column struct{ Heading, Meaning string }

// Is reports whether a file's name is that of a sheet.
func Is(name string) bool {
	ext := strings.ToLower(path.Ext(name))
	return slices.Contains([]string{".csv", ".tsv", ".xlsx"}, ext) && !strings.HasPrefix(path.Base(name), "~$") && !strings.HasPrefix(path.Base(name), ".")
}

// line is a row as it stands in the file.
type line struct {
	number int
	at     fault.Place
	cells  []cell
}

type cell struct {
	text string
	date bool // the spreadsheet program has made a date of what was typed
	long bool // it has more characters than are read: text is only how it begins
}

// newCell is a cell of a text, of which no more is kept than can be of use.
func newCell(text string) cell {
	n := 0
	for i := range text {
		if n++; n > maxCell {
			return cell{text: strings.Clone(text[:i]), long: true}
		}
	}
	return cell{text: text}
}

// put sets a cell of the row; empty ones at its end are none. An error is a fault.Fault: the row has too many.
func (l *line) put(col int, c cell) error {
	if c.text == "" && !c.date {
		return nil
	}
	if col >= maxColumns {
		return fault.Fault{At: l.at, Text: fmt.Sprintf("row %d has more than %d columns", l.number, maxColumns), Hint: "keep only those that are about the works"}
	}
	for len(l.cells) <= col {
		l.cells = append(l.cells, cell{})
	}
	l.cells[col] = c
	return nil
}

func (l line) blank() bool {
	return !slices.ContainsFunc(l.cells, func(c cell) bool { return strings.TrimSpace(c.text) != "" || c.date })
}

func (l line) text(col int) string {
	if col < 0 || col >= len(l.cells) {
		return ""
	}
	s := norm.NFC.String(strings.Join(strings.Fields(strings.ReplaceAll(l.cells[col].text, "\u00a0", " ")), " ")) // é as one character, as scenes have it
	if len(s) > 1 && s[0] == '\'' && strings.IndexByte("=+-@", s[1]) >= 0 {
		return s[1:] // the mark of a text that is no formula
	}
	return s
}

// Read reads the sheet name of fsys. Lengths for which neither their cell, nor their row, nor their heading states a unit
// are in bare if stated, else their rows cannot be read. An error is a fault.Fault: the file as a whole is no sheet.
func Read(fsys fs.FS, name string, bare unit.System, stated bool) (*Sheet, error) {
	file, err := load(fsys, name)
	if err != nil {
		return nil, err
	}
	s := &Sheet{Name: name}
	var heads headings
	var lines []line
	var first int
	switch {
	case strings.HasPrefix(string(file), "PK\x03\x04"):
		if lines, err = readXLSX(name, file); err != nil {
			return nil, whole(name, err, "open it in a spreadsheet program and save it as XLSX or CSV")
		}
		heads, first = findHeadings(lines)
	case strings.HasPrefix(string(file), "\xd0\xcf\x11\xe0"):
		return nil, fault.Fault{At: fault.Place{File: name}, Text: "it is an old office document", Hint: "save it as XLSX or CSV"}
	case len(file) > maxText:
		return nil, fault.Fault{At: fault.Place{File: name}, Text: fmt.Sprintf("as text, the list has more than %d MB", maxText>>20), Hint: "keep the works that you may bring in a list of their own"}
	default:
		text, note, err := decodeText(file)
		if err != nil {
			return nil, whole(name, err, "save it from a spreadsheet program as XLSX or CSV")
		}
		if note != "" {
			s.Notes = append(s.Notes, note)
		}
		if lines, heads, first, err = readCSV(name, text); err != nil {
			return nil, err
		}
	}
	if len(heads.columns) == 0 {
		return nil, fault.Fault{At: fault.Place{File: name}, Text: "no row of headings was found",
			Hint: "the first row should say what the columns are: Title, Height, Width, Price, …"}
	}
	s.Semicolons = heads.decimalComma
	s.Columns, s.Unused, s.Notes = heads.used(), heads.unused, append(s.Notes, heads.notes...)
	for _, l := range lines[first+1:] {
		if l.blank() {
			continue
		}
		if len(s.Rows)+len(s.Unread) == maxRows {
			return nil, fault.Fault{At: l.at, Text: fmt.Sprintf("the list has more than %d works", maxRows), Hint: "keep those that you may bring in a list of their own"}
		}
		row, why := heads.row(l, bare, stated)
		if len(why) > 0 {
			s.Unread = append(s.Unread, Unread{l.number, l.at, row.called(l), strings.Join(why, "; ")})
			continue
		}
		switch row.stated {
		case imperial:
			s.Inches++
		case metric:
			s.Centimetres++
		}
		s.Rows = append(s.Rows, row)
	}
	s.Currency = currency(s.Rows)
	return s, nil
}

// whole is an error of the file as a whole, unless it is a fault with a place already.
func whole(name string, err error, hint string) error {
	if f, ok := err.(fault.Fault); ok {
		return f
	}
	return fault.Fault{At: fault.Place{File: name}, Text: err.Error(), Hint: hint}
}

// currency is the sign of all prices that have one.
func currency(rows []Row) (sign string) {
	for _, r := range rows {
		if sign != "" && r.money != "" && r.money != sign {
			return ""
		}
		sign = cmp.Or(sign, r.money)
	}
	return sign
}

// called is what a row says of itself.
func (r Row) called(l line) string {
	for _, s := range []string{r.Title, r.Name, r.File, r.No} {
		if s != "" {
			return s
		}
	}
	for i := range l.cells {
		if s := l.text(i); s != "" {
			return s
		}
	}
	return ""
}

func load(fsys fs.FS, name string) ([]byte, error) {
	whole := func(hint, text string, args ...any) error {
		return fault.Fault{At: fault.Place{File: name}, Text: fmt.Sprintf(text, args...), Hint: hint}
	}
	file, err := disk.Read(fsys, name, maxBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		var sheets []string
		entries, _ := fs.ReadDir(fsys, path.Dir(name))
		for _, e := range entries {
			if Is(e.Name()) {
				sheets = append(sheets, path.Join(path.Dir(name), e.Name()))
			}
		}
		hint := "names start from the scene's folder"
		if len(sheets) > 0 {
			hint = "there is " + strings.Join(sheets[:min(4, len(sheets))], ", ")
		}
		return nil, whole(hint, "there is no such sheet")
	case errors.Is(err, disk.ErrFolder):
		return nil, whole("name the file in it", "is a folder, not a sheet")
	case errors.Is(err, disk.ErrLarge):
		return nil, whole("keep pictures out of it", "the sheet has more than %d MB", maxBytes>>20)
	case err != nil:
		return nil, whole("check that you may open it", "the sheet cannot be opened: %s", disk.Why(err))
	case len(strings.TrimSpace(string(file))) == 0:
		return nil, whole("save it again from the spreadsheet program", "the sheet is empty")
	}
	return file, nil
}
