// Package stocklist reads the list of works that an artist keeps in a spreadsheet, CSV, XLSX or ODS: headings in any order and
// usual wording, sizes, weights and prices as people type them. Nothing is guessed in silence: what a column was taken
// for, which columns were left aside and which rows could not be read are all told.
package stocklist

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"
	"golang.org/x/text/width"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
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
	Tabs    []string // of a file that has several, those that were read
	Passed  []string // and those that were not, as they are no lists
	Rows    []Row
	Unread  []Remark // rows that cannot be read, and why
	Aside   []Remark // rows that are no works, and what they are: totals, headings, lines of text
	Doubts  []Remark // rows of which something was left out, and why
	Columns []Column // those that were used, from left to right
	Unused  []Column // those that are not, and why
	Notes   []string // what somebody should know about how it was read, in sentences

	Inches, Centimetres int    // rows that state their size in either
	Unstated            int    // rows with a size to which no unit is stated
	BareWeights         int    // rows with a weight to which no unit is stated
	Currency            string // sign that its prices have; empty: none
	Amount              string // an amount as its prices are written, such as 1.250,00 €; empty: as the scene has them
	Semicolons          bool   // its cells are parted by semicolons, as where a comma is the decimal mark
}

// Row is one work. What its columns do not say is zero.
type Row struct {
	Number  int         // of the row, as spreadsheet programs count
	At      fault.Place // of the row; without a line in an XLSX
	No      string      // the work's own number
	Name    string      // a short name
	Title   string
	File    string    // of its photograph
	More    []string  // further files that it names
	Size    unit.Size // of a work in parts that over all, as it hangs
	Open    bool      // its size is a format's, and which way up is not said: the photograph shows it
	Parts   int       // that hang side by side; 0: it is one
	Each    unit.Size // of its parts
	Paper   unit.Size // the sheet of a print, where it is larger than the picture
	Depth   unit.Length
	Weight  unit.Weight
	Price   unit.Money
	Artist  string
	Medium  string
	Edition string
	Year    string
	Family  string     // its series
	Value   unit.Money // what it is insured for; 0: not stated
	Link    string     // address of its page
	Sold    bool
	Status  Status // what visitors are told beside its price, or instead
	Away    Status // Spare or Elsewhere: it does not hang; ForSale: it can
	Frame   *Frame // nil: none is spoken of
	Stands  string // why it is not for a wall: "ceramics"; empty: it hangs

	stated      stated
	bareWeight  bool
	dashed      bool   // its size is written as 12-16
	inOne       bool   // it is in parts, and its one size is taken for that over all
	framedAlone bool   // its one size is said to be framed
	struck      bool   // it is struck through
	coloured    bool   // in a colour of which nothing is said
	hidden      bool   // in the spreadsheet
	twoPrices   bool   // with and without a frame, and it is not said whether it has one
	money       string // sign of the currency of its price; empty: not stated
	typed       string // its price as it is typed
}

// Sizes of works that can be right; others have another unit than was taken.
const (
	Smallest = unit.Inch
	Largest  = 20 * unit.Foot
)

// Likely is whether the height and the width of the work can be right.
func (r Row) Likely() bool {
	return min(r.Size.A, r.Size.B) >= Smallest && max(r.Size.A, r.Size.B) <= Largest
}

// Remark is what there is to say of one row.
type Remark struct {
	Number int
	At     fault.Place
	What   string // what the row says of itself: its title, or its first words
	Why    string
	File   string // the photograph that the row names
}

// Where names a row: of a file with several tabs that are read, with its tab.
func Where(number int, at fault.Place) string {
	if _, tab := Tab(at.File); tab != "" {
		return fmt.Sprintf("row %d of tab %s", number, tab)
	}
	return fmt.Sprint("row ", number)
}

// Column is a column, what it was taken for or why it was not used, and in how many rows something stands in it.
type Column struct {
	Heading, Meaning string
	Count            int
}

// Is reports whether a file's name is that of a sheet.
func Is(name string) bool {
	ext := strings.ToLower(path.Ext(name))
	return slices.Contains([]string{".csv", ".tsv", ".xlsx", ".ods"}, ext) && !strings.HasPrefix(path.Base(name), "~$") && !strings.HasPrefix(path.Base(name), ".")
}

// line is a row as it stands in the file.
type line struct {
	number int
	at     fault.Place
	cells  []cell
	hidden bool // in the spreadsheet
}

type cell struct {
	text   string
	date   bool // the spreadsheet program has made a date of what was typed
	long   bool // it has more characters than are read: text is only how it begins
	spread bool // it is merged with the cell above, where its text stands
	struck bool // through
	fill   fill // its colour; 0: none
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

var signs = strings.NewReplacer("✅", "✓", "❌", "✗", "❎", "✗", "✖", "✗", "✘", "✗", "🔴", "●", "💲", "$")

// unsaved is what stands in a cell with a formula whose result is not in the file.
const unsaved = "#UNSAVED"

// printable is a text without what is not printed: pictographs, which phones put everywhere, and marks of no width. Those
// that say yes, no, sold or $ are such signs. Letters and digits as wide as Japanese ones are as others: １２ is 12.
func printable(text string) string {
	plain := true
	for i := range len(text) {
		plain = plain && text[i] < 0x80
	}
	if plain {
		return text
	}
	return strings.Map(func(r rune) rune {
		switch {
		case strings.ContainsRune("✓✔☑☐✗●", r):
			return r
		case r == 0xad, r >= 0x200b && r <= 0x200f, r >= 0xfe00 && r <= 0xfe0f, r == 0xfeff, r >= 0x2600 && r <= 0x27bf, r >= 0x2b00 && r <= 0x2bff, r >= 0x1f000:
			if r < 0x20000 || r >= 0xe0000 { // between them are letters
				return -1
			}
		}
		return r
	}, signs.Replace(width.Fold.String(text)))
}

// put sets a cell of the row; empty ones at its end are none. An error is a fault.Fault: the row has too many.
func (l *line) put(col int, c cell) error {
	if c.text == "" && !c.date && (c.fill == 0 || col >= maxColumns) {
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
	return !slices.ContainsFunc(l.cells, func(c cell) bool { return strings.TrimSpace(c.text) != "" && c.text != unsaved || c.date })
}

func (l line) text(col int) string {
	if col < 0 || col >= len(l.cells) {
		return ""
	}
	return tidy(printable(l.cells[col].text))
}

// typed is the text of a cell with its pictographs, which the name of a file may have.
func (l line) typed(col int) string {
	if col < 0 || col >= len(l.cells) {
		return ""
	}
	return tidy(l.cells[col].text)
}

func tidy(text string) string {
	s := norm.NFC.String(strings.Join(strings.Fields(text), " ")) // é as one character, as scenes have it
	if len(s) > 1 && s[0] == '\'' && strings.IndexByte("=+-@", s[1]) >= 0 {
		return s[1:] // the mark of a text that is no formula
	}
	return s
}

// Tab parts the name of a list into its file and the tab of it that is meant: "works.xlsx/2025".
func Tab(name string) (file, tab string) {
	for _, end := range []string{".xlsx", ".ods"} {
		if at := strings.Index(strings.ToLower(name), end+"/"); at >= 0 {
			return name[:at+len(end)], name[at+len(end)+1:]
		}
	}
	return name, ""
}

// Read reads the sheet name of fsys. Lengths for which neither their cell, nor their row, nor their heading states a unit
// are in bare if stated, else their rows cannot be read. An error is a fault.Fault: the file as a whole is no sheet.
func Read(fsys fs.FS, name string, bare unit.System, stated bool) (*Sheet, error) {
	name, tab := Tab(name)
	file, err := load(fsys, name)
	if err != nil {
		return nil, err
	}
	s := &Sheet{Name: name}
	pages, err := s.pages(file, tab)
	if err != nil {
		return nil, err
	}
	seen := map[string]string{} // tabs by the works in them
	for _, p := range pages {
		if p.heads.score() == 0 && !p.unheaded() {
			return nil, fault.Fault{At: fault.Place{File: name}, Text: "no row of headings was found",
				Hint: "the first row should say what the columns are: Title, Height, Width, Price, …; boothmock explain sheet --all lists the words"}
		}
		s.Semicolons = p.heads.decimalComma
		p.heads.key = readKey(p.beside())
		p.heads.fills(p.lines)
		before := len(s.Rows)
		for _, t := range tables(p.heads, p.lines[p.first:]) {
			t.heads.adopt(p.beside())
			if err := s.table(t, bare, stated); err != nil {
				return nil, err
			}
		}
		if len(pages) > 1 {
			if err := s.ofTab(p.tab, s.Rows[before:], seen); err != nil {
				return nil, err
			}
		}
	}
	if len(s.Rows)+len(s.Unread) > maxRows {
		return nil, fault.Fault{At: fault.Place{File: name}, Text: fmt.Sprintf("the list has more than %d works", maxRows), Hint: "keep those that you may bring in a list of their own"}
	}
	s.money()
	s.alike()
	s.taken(func(r Row) bool { return r.framedAlone }, "One row states one size and that it is framed: it is", "%d rows state one size and that it is framed: it is", "taken for the size with the frame.")
	s.taken(func(r Row) bool { return r.struck }, "One row is struck through:", "%d rows are struck through:", "taken for sold.")
	s.taken(func(r Row) bool { return r.hidden }, "One row is hidden in the spreadsheet:", "%d rows are hidden in the spreadsheet:", "it counts like the others.")
	s.colours()
	s.taken(func(r Row) bool { return r.dashed }, "One size is written with a dash:", "%d sizes are written with a dash:", "12-16 is read as 12 x 16.")
	s.taken(func(r Row) bool { return r.inOne && r.Stands == "" }, "One work in parts has one size:", "%d works in parts have one size:", "it is taken for that over all, and the work hangs in one piece. Write 2 x (12 x 18 in) if its parts hang side by side.")
	s.taken(func(r Row) bool { return r.twoPrices }, "One row has", "%d rows have", "a price with and one without a frame, and no word whether there is one: the price without counts.")
	return s, nil
}

// table reads the rows of one table of the sheet.
func (s *Sheet) table(t table, bare unit.System, stated bool) error {
	heads := t.heads
	lines, err := s.works(t.lines, heads)
	if err != nil {
		return err
	}
	lines = heads.details(lines)
	if err := heads.settle(lines); err != nil {
		return fault.Fault{At: fault.Place{File: s.Name}, Text: err.Error(), Hint: "boothmock explain sheet --all says how headings are read"}
	}
	s.Notes = append(s.Notes, heads.notes...)
	used, unused := heads.used(lines)
	s.Columns, s.Unused = append(s.Columns, used...), append(s.Unused, unused...)
	for _, l := range lines {
		row, why, doubts := heads.row(l, bare, stated)
		for _, d := range doubts {
			s.Doubts = append(s.Doubts, Remark{l.number, l.at, row.called(l), d, row.File})
		}
		if len(why) > 0 {
			if strings.Contains(strings.Join(why, " "), "needs a unit") {
				s.Unstated++
			}
			s.Unread = append(s.Unread, Remark{l.number, l.at, row.called(l), strings.Join(why, "; "), row.File})
			continue
		}
		if row.bareWeight {
			s.BareWeights++
		}
		switch row.stated {
		case imperial:
			s.Inches++
		case metric:
			s.Centimetres++
		case unstated:
			if row.Size.A > 0 {
				s.Unstated++
			}
		}
		s.Rows = append(s.Rows, row)
	}
	return nil
}

// ofTab looks at the rows of a tab beside those of the tabs before it: a tab may say by its name that its works are sold or at
// home, and one that has works of another is another version of the list.
func (s *Sheet) ofTab(tab string, rows []Row, seen map[string]string) error {
	is, said := state(strings.TrimRight(tab, " 0123456789"), true)
	for i := range rows {
		r := &rows[i]
		switch {
		case said && is == sold:
			r.Sold = true
		case said && is == Spare && r.Away == ForSale:
			r.Away = Spare
		}
		name := folded(r.called(line{}))
		if other := seen[name]; other != "" && other != tab && !r.Sold {
			return fault.Fault{At: fault.Place{File: s.Name}, Text: fmt.Sprintf("several of its tabs are lists, and %q stands in %q and in %q", r.called(line{}), other, tab),
				Hint: fmt.Sprintf("name the one that counts behind the file: %s/%s", s.Name, other)}
		}
		if !r.Sold {
			seen[name] = tab
		}
	}
	return nil
}

// pages are the tabs of the file that are lists, with their headings; a CSV is one.
func (s *Sheet) pages(file []byte, tab string) (pages []page, err error) {
	bad := func(text, hint string) error {
		return fault.Fault{At: fault.Place{File: s.Name}, Text: text, Hint: hint}
	}
	switch {
	case strings.HasPrefix(string(file), "PK\x03\x04"):
		if pages, err = s.readZipped(file, tab); err != nil {
			return nil, whole(s.Name, err, "open it in a spreadsheet program and save it as XLSX or CSV")
		}
		return pages, nil
	case tab != "":
		return nil, bad("only an XLSX or ODS file has tabs", "leave out what follows its name")
	case strings.HasPrefix(string(file), "\xd0\xcf\x11\xe0") && bytes.Contains(file, []byte("E\x00n\x00c\x00r\x00y\x00p\x00t\x00e\x00d\x00P\x00a\x00c\x00k\x00a\x00g\x00e\x00")):
		return nil, bad(lockedText, lockedHint)
	case strings.HasPrefix(string(file), "\xd0\xcf\x11\xe0"):
		return nil, bad("it is an old office document", "save it as XLSX or CSV")
	case len(file) > maxText:
		return nil, bad(fmt.Sprintf("as text, the list has more than %d MB", maxText>>20), "keep the works that you may bring in a list of their own")
	}
	text, note, err := decodeText(file)
	if err != nil {
		return nil, whole(s.Name, err, "save it from a spreadsheet program as XLSX or CSV")
	}
	if note != "" {
		s.Notes = append(s.Notes, note)
	}
	return readCSV(s.Name, text)
}

// works are the rows that are works; the others are set aside, each with what it is.
func (s *Sheet) works(lines []line, heads headings) (works []line, err error) {
	for _, l := range lines {
		if l.blank() {
			continue
		}
		if what := heads.noWork(l); what != "" {
			s.Aside = append(s.Aside, Remark{Number: l.number, At: l.at, What: Row{}.called(l), Why: what})
			continue
		}
		if len(works) == maxRows {
			return nil, fault.Fault{At: l.at, Text: fmt.Sprintf("the list has more than %d works", maxRows), Hint: "keep those that you may bring in a list of their own"}
		}
		works = append(works, l)
	}
	return works, nil
}

var totals = list("cyfanswm|yhteensa|summa|celkem|συνολο|итого|всего|total|totals|subtotal|sub total|sum|summe|gesamt|gesamtsumme|zwischensumme|insgesamt|somme|totale|suma|totaal|grand total|average|durchschnitt")

// noWork is what a row is that is no work: a total, the headings again, a line of text; empty for a work.
func (h headings) noWork(l line) string {
	if l.tooLong() {
		return "" // to be reported, and no text to search through
	}
	var texts []string
	repeated := 0
	for i := range l.cells {
		if t := l.text(i); t != "" && !slices.Contains(texts, t) {
			texts = append(texts, t)
		}
	}
	for _, c := range h.columns {
		if c.means != noMeaning && folded(l.text(c.at)) == folded(c.heading) {
			repeated++
		}
	}
	title, _ := h.say(l, titleMeaning)
	_, sum := totals.in(folded(texts[0]))
	switch size, _ := h.say(l, sizeMeaning); {
	case repeated >= 2:
		return "the headings again"
	case sum && (title == "" || title == texts[0]) && !strings.ContainsAny(size, "x×"):
		return "a total"
	case exampleRow.MatchString(texts[0]):
		return "an example"
	case len(texts) == 1 && len(h.columns) > 2 && !pictureFile.MatchString(texts[0]):
		return "a line with nothing beside it"
	}
	return ""
}

// exampleRow is how a row begins that a form has to show how it is filled in.
var exampleRow = regexp.MustCompile(`(?i)^(?:e\.? ?g\.?|example|z\. ?b\.|beispiel|p\. ?ex\.|exemple|ejemplo|p\. ?ej\.|esempio|bijv\.|voorbeeld)(?:[: ]|$)`)

// tooLong is whether a cell of the row is too long to be read: then it is reported as such.
func (l line) tooLong() bool {
	return slices.ContainsFunc(l.cells, func(c cell) bool { return c.long })
}

// taken notes which rows are such, and what they were taken for.
func (s *Sheet) taken(such func(Row) bool, one, many, words string) {
	var rows []Row
	for _, r := range s.Rows {
		if such(r) {
			rows = append(rows, r)
		}
	}
	switch n := len(rows); {
	case n == 1:
		s.Notes = append(s.Notes, fmt.Sprintf("%s %s (%s)", one, words, Where(rows[0].Number, rows[0].At)))
	case n > 1:
		s.Notes = append(s.Notes, fmt.Sprintf(many+" %s (rows %s)", n, words, numbers(rows)))
	}
}

// colours tells of rows in a colour of which nothing is said; where most are coloured, or every second one, it is for the eye.
func (s *Sheet) colours() {
	var such []string
	for _, r := range s.Rows {
		if r.coloured {
			such = append(such, fmt.Sprint(r.Number))
		}
	}
	if n := len(such); n > 0 && 5*n <= 2*len(s.Rows) {
		s.Notes = append(s.Notes, fmt.Sprintf("%s coloured in the spreadsheet, and no line says what that means: it counts for nothing (write “red = sold” above the table, or sold under Status).",
			map[bool]string{true: "Row " + such[0] + " is", false: "Rows " + unit.List(such, "and") + " are"}[n == 1]))
	}
}

// money finds the currency of the list, and leaves out prices in another one.
func (s *Sheet) money() {
	s.Currency = currency(s.Rows)
	comma := func(r Row) bool { m := decimalMark.FindStringSubmatch(r.typed); return m != nil && m[1] == "," }
	if s.Currency == "" && slices.ContainsFunc(s.Rows, comma) {
		s.Currency = "€"
		s.Notes = append(s.Notes, "The list names no currency. Its prices have a decimal comma, so € is taken: if that is wrong, write the sign over the column.")
	}
	s.Amount = amount(s.Currency, s.Rows, s.Semicolons)
	for i := range s.Rows {
		if r := &s.Rows[i]; r.money != "" && r.money != s.Currency && r.Price != 0 {
			s.Doubts = append(s.Doubts, Remark{r.Number, r.At, r.called(line{}), fmt.Sprintf("its price is in %s and those of the others are in %s; it is left out (write what visitors pay in %s)", r.money, s.Currency, s.Currency), r.File})
			r.Price = 0
		}
	}
}

// numbers are those of rows, the first few of many.
func numbers(rows []Row) string {
	var n []string
	for _, r := range rows {
		n = append(n, fmt.Sprint(r.Number))
	}
	if len(n) > 4 {
		n = append(n[:3:3], fmt.Sprintf("%d more", len(n)-3))
	}
	return unit.List(n, "and")
}

// alike tells of rows that have one title, and of those that have one photograph.
func (s *Sheet) alike() {
	titles, files := map[string][]Row{}, map[string][]Row{}
	for _, r := range s.Rows {
		if t := folded(r.Title); t != "" {
			titles[t] = append(titles[t], r)
		}
		if f := strings.ToLower(r.File); f != "" {
			files[f] = append(files[f], r)
		}
	}
	for _, r := range s.Rows {
		if same := titles[folded(r.Title)]; len(same) > 1 && same[0].Number == r.Number {
			told := ""
			for _, x := range same {
				if x.No == "" {
					told = "; give each a number of its own in the list"
				}
			}
			s.Notes = append(s.Notes, fmt.Sprintf("Rows %s have one title, %q%s.", numbers(same), r.Title, told))
		}
		if same := files[strings.ToLower(r.File)]; len(same) > 1 && same[0].Number == r.Number {
			s.Notes = append(s.Notes, fmt.Sprintf("Rows %s name one photograph, %s: it is on all of them.", numbers(same), r.File))
		}
	}
}

// whole is an error of the file as a whole, unless it is a fault with a place already.
func whole(name string, err error, hint string) error {
	if f, ok := err.(fault.Fault); ok {
		return f
	}
	return fault.Fault{At: fault.Place{File: name}, Text: err.Error(), Hint: hint}
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
