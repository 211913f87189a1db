package stocklist

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// An XLSX is a zip of XML files (ECMA-376). What a list of works needs of it is little: the first sheet that is shown, its
// texts, its numbers as they were typed, and which cells are dates. A general library reads far more and would make this
// program twice as large; here the tests use one to write what this file reads.

// workbook is a spreadsheet that is a zip of XML files.
type workbook struct {
	files map[string]*zip.File
	left  int64 // bytes that may still be unpacked
	seen  int   // elements so far
	texts []cell
	looks []look // of cells, by style
}

// readZipped is the tabs of an XLSX or ODS that are lists: the one that is named, or all that are shown.
func (s *Sheet) readZipped(file []byte, wanted string) ([]page, error) {
	if bytes.Count(file, []byte("PK\x01\x02")) > maxParts { // each part of a zip is listed under this mark (APPNOTE 4.3.12)
		return nil, fmt.Errorf("it holds more than %d files", maxParts)
	}
	z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		return nil, errors.New("the sheet is cut short or damaged")
	}
	x := workbook{files: map[string]*zip.File{}, left: maxUnpacked}
	for _, f := range z.File {
		x.files[strings.TrimPrefix(f.Name, "/")] = f
	}
	switch {
	case x.files["encrypted-package"] != nil: // OpenDocument 1.4 locks all of a file
		return nil, fault.Fault{At: fault.Place{File: s.Name}, Text: lockedText, Hint: lockedHint}
	case x.files["content.xml"] != nil:
		return x.readODS(s, wanted)
	case x.files["Index/Document.iwa"] != nil || x.files["Index.zip"] != nil:
		return nil, fault.Fault{At: fault.Place{File: s.Name}, Text: "this kind of spreadsheet cannot be read, whatever its name ends with", Hint: "save it from its program as XLSX or CSV"}
	}
	tabs, err := x.tabs()
	if err != nil {
		return nil, err
	}
	if err := x.readTexts(); err != nil {
		return nil, err
	}
	if err := x.readStyles(); err != nil {
		return nil, err
	}
	return x.read(s, tabs, wanted, x.readRows)
}

// What is said of a list that cannot be read without its password.
const (
	lockedText = "it is locked with a password"
	lockedHint = "open it in the spreadsheet program, take the password away and save it, or save it as CSV"
)

// read is the tabs that are lists of works; rows reads the rows of one.
func (x *workbook) read(s *Sheet, tabs []tab, wanted string, rows func(file, part string, most int) ([]line, error)) (pages []page, err error) {
	lists, err := s.listTabs(tabs, wanted, rows)
	if err != nil {
		return nil, err
	}
	for _, t := range lists {
		if len(tabs) > 1 {
			s.Tabs = append(s.Tabs, t.name)
		}
		file := s.Name
		if len(lists) > 1 {
			file += "/" + t.name
		}
		lines, err := rows(file, t.part, maxLines)
		if err != nil {
			return nil, err
		}
		p := page{tab: t.name, lines: lines}
		p.heads, p.first = findHeadings(lines)
		pages = append(pages, p)
	}
	return pages, nil
}

// tab is a sheet of the workbook, and the part of the zip that it is in.
type tab struct{ name, part string }

// listTabs are the tabs that are lists of works: the one that is wanted, or those that begin as a list does and are not called old.
func (s *Sheet) listTabs(tabs []tab, wanted string, rows func(file, part string, most int) ([]line, error)) (lists []tab, err error) {
	var names []string
	for _, t := range tabs {
		if folded(t.name) == folded(wanted) {
			return []tab{t}, nil
		}
		names = append(names, unit.Quote(t.name))
	}
	if wanted != "" {
		return nil, fault.Fault{At: fault.Place{File: s.Name}, Text: fmt.Sprintf("it has no tab %q", wanted), Hint: "it has " + unit.List(names, "and")}
	}
	if len(tabs) == 1 {
		return tabs, nil
	}
	for _, t := range tabs {
		lines, err := rows(s.Name, t.part, 2*headRows)
		if err != nil {
			return nil, err
		}
		_, old := outdated.in(folded(t.name))
		if h, at := findHeadings(lines); !old && (h.named() || h.has(numberMeaning)) && (h.sized() || h.has(priceMeaning) || h.has(framedPriceMeaning)) && len(lines) > at+1 {
			lists = append(lists, t)
		} else if len(lines) > 0 {
			s.Passed = append(s.Passed, t.name)
		}
	}
	if len(lists) == 0 {
		s.Passed = nil
		return tabs[:1], nil
	}
	return lists, nil
}

// outdated are words of a tab that is not meant.
var outdated = list("not used|unused|nicht benutzt|old|former|previous|archive|archived|archiv|archives|archivo|archivio|backup|copy|kopie|copie|copia|alt|alte|ancien|template|vorlage|example|beispiel")

// readRows reads the rows of a sheet.
func (x *workbook) readRows(name, sheet string, most int) (lines []line, err error) {
	var merged [][4]int
	var row line
	var kind string // of the cell
	var style, col int
	var value, inline gist
	var formula, valued bool
	err = x.each(sheet, func(in []string, t xml.Token) error {
		switch t := t.(type) {
		case xml.StartElement:
			switch t.Name.Local {
			case "row":
				number := row.number + 1
				if n, err := strconv.Atoi(attribute(t, "r")); err == nil && n > 0 {
					number = n
				}
				row, col = line{number: number, at: fault.Place{File: name}, hidden: isTrue(attribute(t, "hidden"))}, -1
			case "c":
				col++
				if at, ok := columnOf(attribute(t, "r")); ok {
					col = at
				}
				kind, value, inline, formula, valued = attribute(t, "t"), gist{}, gist{}, false, false
				style, _ = strconv.Atoi(attribute(t, "s"))
			case "f":
				formula = true
			case "v":
				valued = true
			case "strike":
				inline.strike(t)
			case "r":
				inline.struck = false
			case "mergeCell":
				if m, ok := area(attribute(t, "ref")); ok && len(merged) < maxRows {
					merged = append(merged, m)
				}
			}
		case xml.CharData:
			switch {
			case under(in, "c", "v"):
				value.add(t)
			case written(in):
				inline.add(t)
			}
		case xml.EndElement:
			switch {
			case t.Name.Local == "c" && col >= 0:
				c := x.cell(kind, style, value, inline)
				if formula && !valued {
					c.text = unsaved
				}
				return row.put(col, c)
			case t.Name.Local == "row" && !row.blank():
				if lines = append(lines, row); len(lines) == most {
					return io.EOF // more than anybody asks for
				}
			}
		}
		return nil
	})
	left := maxElements
	for _, m := range merged {
		if left -= (m[1] - m[0] + 1) * (m[3] - m[2] + 1); m[1] >= m[0] && m[3] >= m[2] && left > 0 {
			spread(lines, m)
		}
	}
	return lines, err
}

// area is the rows and columns of a reference such as "A2:A5": first and last row, first and last column.
func area(ref string) (m [4]int, ok bool) {
	from, to, ok := strings.Cut(ref, ":")
	var left, right bool
	m[2], left = columnOf(from)
	m[3], right = columnOf(to)
	m[0], _ = strconv.Atoi(strings.TrimLeft(from, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
	m[1], _ = strconv.Atoi(strings.TrimLeft(to, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
	return m, ok && left && right && m[3] < maxColumns
}

// spread writes the text of merged cells, which stands in the first of them, into all of them.
func spread(lines []line, m [4]int) {
	at, ok := slices.BinarySearchFunc(lines, m[0], func(l line, number int) int { return l.number - number })
	if !ok || m[2] >= len(lines[at].cells) {
		return
	}
	text := lines[at].cells[m[2]]
	for i := at; i < len(lines) && lines[i].number <= m[1]; i++ {
		for col := m[2]; col <= m[3]; col++ {
			if lines[i].text(col) != "" {
				continue
			}
			for len(lines[i].cells) <= col {
				lines[i].cells = append(lines[i].cells, cell{})
			}
			lines[i].cells[col] = text
			lines[i].cells[col].spread = i > at
		}
	}
}

// cell is what a cell shows.
func (x *workbook) cell(kind string, style int, value, inline gist) (c cell) {
	var l look
	if style >= 0 && style < len(x.looks) {
		l = x.looks[style]
	}
	defer func() { c.struck, c.fill = c.struck || l.struck, l.fill }()
	v := value.cell()
	switch kind {
	case "s":
		if n, err := strconv.Atoi(v.text); err == nil && n >= 0 && n < len(x.texts) {
			return x.texts[n]
		}
		return cell{}
	case "inlineStr":
		return inline.cell()
	case "str", "e":
		return v
	case "b":
		return cell{text: map[string]string{"1": "yes", "0": "no"}[v.text]}
	case "d":
		v.date = true
		return v
	}
	v.date = v.text != "" && l.date
	v.text = number15(v.text)
	return v
}

// gist is the beginning of a text that comes in pieces: no more of it than makes a cell. A piece that is struck through counts only
// where there is no other: it is what the text was.
type gist struct {
	b, old []byte
	struck bool // the piece is
}

func (g *gist) strike(e xml.StartElement) {
	g.struck = attribute(e, "val") == "" || isTrue(attribute(e, "val"))
}

func (g *gist) add(p []byte) {
	if g.struck {
		if len(g.old) < maxCell {
			g.old = append(g.old, p[:min(len(p), maxCell)]...)
		}
		return
	}
	const most = utf8.UTFMax * (maxCell + 1)
	g.b = append(g.b, p[:min(len(p), most-min(most, len(g.b)))]...)
}

func (g gist) cell() cell {
	if len(bytes.TrimSpace(g.b)) == 0 && len(g.old) > 0 {
		c := newCell(strings.ToValidUTF8(string(g.old), ""))
		c.struck = true
		return c
	}
	return newCell(strings.ToValidUTF8(string(g.b), ""))
}

// under is whether one is right in these elements, the innermost last.
func under(in []string, path ...string) bool {
	return len(in) >= len(path) && slices.Equal(in[len(in)-len(path):], path)
}

// written is whether one is in a text of a cell: in its only piece or one of several. Reading aids (rPh) are not part of it.
func written(in []string) bool {
	return under(in, "is", "t") || under(in, "is", "r", "t") || under(in, "si", "t") || under(in, "si", "r", "t")
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// isTrue is whether an attribute says yes (XML Schema part 2, 3.2.2).
func isTrue(value string) bool { return value == "1" || value == "true" }

// number15 is a number as it was typed: the file has 24.199999999999999 where somebody typed 24.2.
func number15(s string) string {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return s
	}
	if v, err = strconv.ParseFloat(strconv.FormatFloat(v, 'g', 15, 64), 64); err != nil {
		return s
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// columnOf is the number, from 0, of the column of a reference such as "B5".
func columnOf(ref string) (col int, ok bool) {
	for i, r := range ref {
		if r < 'A' || r > 'Z' {
			return col - 1, i > 0
		}
		if col = col*26 + int(r-'A') + 1; col > 1<<20 {
			break
		}
	}
	return 0, false
}

const mostTabs = 50 // more than anybody looks through

var errNoSheet = errors.New("it has no sheet that is shown")

// tabs are the sheets that are not hidden.
func (x *workbook) tabs() ([]tab, error) {
	var tabs []tab
	if err := x.each("xl/workbook.xml", func(_ []string, t xml.Token) error {
		e, ok := t.(xml.StartElement)
		if state := attribute(e, "state"); ok && e.Name.Local == "sheet" && len(tabs) < mostTabs && (state == "" || state == "visible") {
			tabs = append(tabs, tab{attribute(e, "name"), attribute(e, "id")})
		}
		return nil
	}); err != nil {
		return nil, err
	}
	parts := map[string]string{}
	err := x.each("xl/_rels/workbook.xml.rels", func(_ []string, t xml.Token) error {
		if e, ok := t.(xml.StartElement); ok && e.Name.Local == "Relationship" {
			parts[attribute(e, "Id")] = attribute(e, "Target")
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	for i := range tabs {
		target := parts[tabs[i].part]
		if abs, ok := strings.CutPrefix(target, "/"); ok {
			target = abs
		} else if target != "" {
			target = path.Join("xl", target)
		}
		tabs[i].part = target
	}
	tabs = slices.DeleteFunc(tabs, func(t tab) bool { return t.part == "" || strings.Contains(t.part, "chartsheets") })
	if len(tabs) == 0 {
		return nil, errNoSheet
	}
	return tabs, nil
}

// readTexts reads the texts that cells share.
func (x *workbook) readTexts() error {
	const name = "xl/sharedStrings.xml"
	if x.files[name] == nil {
		return nil // all texts stand in their cells
	}
	var text gist
	return x.each(name, func(in []string, t xml.Token) error {
		switch t := t.(type) {
		case xml.StartElement:
			switch t.Name.Local {
			case "r":
				text.struck = false
			case "strike":
				text.strike(t)
			}
		case xml.CharData:
			if written(in) {
				text.add(t)
			}
		case xml.EndElement:
			if t.Name.Local != "si" {
				return nil
			}
			x.texts, text = append(x.texts, text.cell()), gist{}
		}
		return nil
	})
}

var quoted = regexp.MustCompile(`"[^"]*"|\[[^\]]*\]|\\.`)

// look is what a style makes of a cell.
type look struct {
	date   bool // it shows a date
	struck bool // its text is struck through
	fill   fill // its colour; 0: none
}

// readStyles finds the styles that strike a text through (18.8.27 strike) and those with a fill (18.8.20), and those that show a number as a date: the built-in formats 14 to 22 and 45 to 47 (ECMA-376 part 1,
// 18.8.30), and those of one's own with a day, a month or a year in them; the file lists its own before the styles.
func (x *workbook) readStyles() error {
	const name = "xl/styles.xml"
	if x.files[name] == nil {
		return nil
	}
	own := map[string]bool{}
	var struck []bool // by font
	var fills []fill
	return x.each(name, func(in []string, t xml.Token) error {
		e, ok := t.(xml.StartElement)
		switch id := attribute(e, "numFmtId"); {
		case !ok:
		case under(in, "fonts", "font"):
			struck = append(struck, false)
		case under(in, "fonts", "font", "strike"):
			struck[len(struck)-1] = attribute(e, "val") == "" || isTrue(attribute(e, "val"))
		case under(in, "fills", "fill"):
			fills = append(fills, 0)
		case under(in, "fill", "patternFill", "fgColor") && len(fills) > 2: // the first two are none and grey dots, always
			fills[len(fills)-1] = fillOf(e)
		case under(in, "numFmts", "numFmt"):
			code := strings.ToLower(quoted.ReplaceAllString(attribute(e, "formatCode"), ""))
			own[id] = strings.ContainsAny(code, "dy") || strings.Contains(code, "mm")
		case under(in, "cellXfs", "xf"):
			f, _ := strconv.Atoi(id)
			l := look{date: f >= 14 && f <= 22 || f >= 45 && f <= 47 || own[id]}
			if n, err := strconv.Atoi(attribute(e, "fontId")); err == nil && n >= 0 && n < len(struck) {
				l.struck = struck[n]
			}
			if n, err := strconv.Atoi(attribute(e, "fillId")); err == nil && n >= 0 && n < len(fills) {
				l.fill = fills[n]
			}
			x.looks = append(x.looks, l)
		}
		return nil
	})
}

// each visits what a file of the zip is made of, with the names of the elements that it is in, the innermost last: of a start
// and an end, its own is one of them. Visit may end it with io.EOF. Readers for whole elements would hold all of a row, or of
// a text, that somebody made as large as they liked.
func (x *workbook) each(file string, visit func(in []string, t xml.Token) error) error {
	f := x.files[file]
	if f == nil {
		return errors.New("it is a zip, but not a sheet: it has no " + path.Base(file))
	}
	r, err := f.Open()
	if err != nil {
		return errors.New("the sheet is damaged")
	}
	defer r.Close()
	all := &io.LimitedReader{R: r, N: x.left}
	piece := &allowance{r: all}
	d := xml.NewDecoder(piece)
	var in []string
	for {
		piece.bytes = maxPiece
		t, err := d.Token()
		if e, ok := t.(xml.StartElement); ok && err == nil {
			in = append(in, e.Name.Local)
			x.seen++
		}
		switch {
		case len(in) > maxNested:
			return fmt.Errorf("its %s has more than %d elements in each other", path.Base(file), maxNested)
		case x.seen > maxElements:
			return fmt.Errorf("it has more than %d rows, cells and texts", maxElements)
		}
		var why error
		if err == nil {
			why = visit(in, t)
		}
		if _, ok := t.(xml.EndElement); ok && len(in) > 0 {
			in = in[:len(in)-1]
		}
		switch {
		case all.N <= 0:
			return fmt.Errorf("what is read of it unpacks to more than %d MB, as far as its %s", maxUnpacked>>20, path.Base(file))
		case errors.Is(err, errSpent):
			return fmt.Errorf("its %s has one text of more than %d kB", path.Base(file), maxPiece>>10)
		case err == io.EOF || why == io.EOF:
			x.left = all.N
			return nil
		case why != nil:
			return why
		case err != nil:
			return fmt.Errorf("the sheet is damaged: %w", err)
		}
	}
}
