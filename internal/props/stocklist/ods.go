package stocklist

import (
	"encoding/xml"
	"io"
	"strconv"

	"boothmock/internal/basis/fault"
)

// An ODS is a zip, too (OpenDocument 1.3, part 3, OASIS 2021): all of its tables stand in content.xml, cells and rows that
// repeat are written once with their number, and what a cell shows is in paragraphs beside its value.

// readODS is the tables of an ODS that are lists: the one that is wanted, or all that are shown.
func (x *workbook) readODS(s *Sheet, wanted string) ([]page, error) {
	locked := false
	if x.files["META-INF/manifest.xml"] != nil {
		if err := x.each("META-INF/manifest.xml", func(_ []string, t xml.Token) error {
			if e, ok := t.(xml.StartElement); ok && e.Name.Local == "encryption-data" {
				locked = true
			}
			return nil
		}); err != nil {
			return nil, err
		}
	}
	if locked {
		return nil, fault.Fault{At: fault.Place{File: s.Name}, Text: lockedText, Hint: lockedHint}
	}
	tabs, err := x.tables()
	if err != nil {
		return nil, err
	}
	return x.read(s, tabs, wanted, x.readTable)
}

// tables are the tables that are shown.
func (x *workbook) tables() (tabs []tab, err error) {
	hidden := map[string]bool{} // by style
	style := ""
	err = x.each("content.xml", func(in []string, t xml.Token) error {
		e, ok := t.(xml.StartElement)
		switch {
		case !ok:
		case e.Name.Local == "style":
			style = attribute(e, "name")
		case e.Name.Local == "table-properties" && attribute(e, "display") == "false" && len(hidden) < mostTabs:
			hidden[style] = true
		case under(in, "spreadsheet", "table") && len(tabs) < mostTabs && !hidden[attribute(e, "style-name")]:
			tabs = append(tabs, tab{attribute(e, "name"), attribute(e, "name")})
		}
		return nil
	})
	if err == nil && len(tabs) == 0 {
		err = errNoSheet
	}
	return tabs, err
}

// readTable reads the rows of a table.
func (x *workbook) readTable(name, table string, most int) ([]line, error) {
	r := tableReader{name: name, table: table, most: most, row: line{at: fault.Place{File: name}}}
	err := x.each("content.xml", r.visit)
	for _, m := range r.merged {
		spread(r.lines, m)
	}
	return r.lines, err
}

// tableReader gathers the rows of one table.
type tableReader struct {
	name, table string
	most        int

	within bool // one is in the table
	lines  []line
	merged [][4]int
	row    line
	rows   int // times that the row stands there
	col    int // of the cell
	cell   xml.StartElement
	text   gist
	lone   bool // the cell has a paragraph before this one
}

func (r *tableReader) visit(in []string, t xml.Token) error {
	switch t := t.(type) {
	case xml.StartElement:
		switch {
		case under(in, "spreadsheet", "table"):
			r.within = attribute(t, "name") == r.table
		case !r.within:
		case t.Name.Local == "table-row":
			r.rows = repeated(t, "number-rows-repeated")
			r.row, r.col = line{number: r.row.number + 1, at: r.row.at}, 0
		case t.Name.Local == "table-cell" || t.Name.Local == "covered-table-cell":
			r.cell, r.text, r.lone = t.Copy(), gist{}, false
		case r.shown(in[:len(in)-1]) && (t.Name.Local == "s" || t.Name.Local == "tab" || t.Name.Local == "line-break"), under(in, "table-cell", "p") && r.lone:
			r.text.add([]byte(" "))
		}
	case xml.CharData:
		if r.within && r.shown(in) {
			r.text.add(t)
		}
	case xml.EndElement:
		switch {
		case !r.within:
		case under(in, "table-cell", "p"):
			r.lone = true
		case t.Name.Local == "table-cell" || t.Name.Local == "covered-table-cell":
			return r.put()
		case t.Name.Local == "table-row":
			return r.end()
		case under(in, "spreadsheet", "table"):
			return io.EOF
		}
	}
	return nil
}

// shown is whether one is in a paragraph of the cell, and not in a note about it.
func (r *tableReader) shown(in []string) bool {
	for k := len(in) - 1; k > 0; k-- {
		switch in[k] {
		case "p":
			return in[k-1] == "table-cell"
		case "span", "a":
		default:
			return false
		}
	}
	return false
}

// put puts the cell into its row, as often as it stands there.
func (r *tableReader) put() error {
	n := repeated(r.cell, "number-columns-repeated")
	c := r.text.cell()
	switch attribute(r.cell, "value-type") {
	case "date", "time":
		c.date = true
	case "float", "percentage":
		c = newCell(number15(attribute(r.cell, "value"))) // as it was typed, however many decimals are shown
	case "boolean":
		c = cell{text: map[string]string{"true": "yes", "false": "no"}[attribute(r.cell, "boolean-value")]}
	}
	if down, across := repeated(r.cell, "number-rows-spanned"), repeated(r.cell, "number-columns-spanned"); (down > 1 || across > 1) && len(r.merged) < maxRows && r.col+across <= maxColumns {
		r.merged = append(r.merged, [4]int{r.row.number, r.row.number + min(down, maxRows) - 1, r.col, r.col + across - 1})
	}
	if c.text == "" && !c.date {
		r.col += n
		return nil
	}
	for range min(n, maxColumns+1) {
		if err := r.row.put(r.col, c); err != nil {
			return err
		}
		r.col++
	}
	return nil
}

// end puts the row to the others, as often as it stands there.
func (r *tableReader) end() error {
	blank := r.row.blank()
	for range min(r.rows, maxLines) {
		if blank {
			break
		}
		if r.lines = append(r.lines, r.row); len(r.lines) == r.most {
			return io.EOF // more than anybody asks for
		}
		r.row.number++
	}
	if blank {
		r.row.number += r.rows - 1
	} else {
		r.row.number--
	}
	return nil
}

// repeated is a count that an element states; 1 if it states none.
func repeated(e xml.StartElement, name string) int {
	n, err := strconv.Atoi(attribute(e, name))
	if err != nil || n < 1 || n > 1<<21 {
		return 1
	}
	return n
}
