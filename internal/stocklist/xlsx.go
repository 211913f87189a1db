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

	"boothmock/internal/fault"
)

// An XLSX is a zip of XML files (ECMA-376). What a list of works needs of it is little: the first sheet that is shown, its
// texts, its numbers as they were typed, and which cells are dates. A general library reads far more and would make this
// program twice as large; here the tests use one to write what this file reads.

const (
	maxXML   = 60 << 20 // bytes of one file in the zip, unpacked
	maxCells = 60       // of a row: columns further right are not looked at
)

type xlsx struct {
	files map[string]*zip.File
	texts []string
	dates map[int]bool // styles that show a date
}

// readXLSX is the rows of the first visible sheet that have anything in them.
func readXLSX(name string, file []byte) ([]line, error) {
	z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		return nil, errors.New("the sheet is cut short or damaged")
	}
	x := xlsx{files: map[string]*zip.File{}, dates: map[int]bool{}}
	for _, f := range z.File {
		x.files[strings.TrimPrefix(f.Name, "/")] = f
	}
	first, err := x.firstSheet()
	if err != nil {
		return nil, err
	}
	if err := x.readTexts(); err != nil {
		return nil, err
	}
	if err := x.readStyles(); err != nil {
		return nil, err
	}
	var lines []line
	number := 0
	err = x.each(first, "row", func(d *xml.Decoder, start xml.StartElement) error {
		var row struct {
			R     int `xml:"r,attr"`
			Cells []struct {
				Ref    string `xml:"r,attr"`
				Style  int    `xml:"s,attr"`
				Type   string `xml:"t,attr"`
				Value  string `xml:"v"`
				Inline words  `xml:"is"`
			} `xml:"c"`
		}
		if err := d.DecodeElement(&row, &start); err != nil {
			return err
		}
		if number++; row.R > 0 {
			number = row.R
		}
		l := line{number: number, at: fault.Place{File: name}}
		col := -1
		for _, c := range row.Cells {
			col++
			if at, ok := columnOf(c.Ref); ok {
				col = at
			}
			if col < 0 || col >= maxCells {
				continue
			}
			for len(l.cells) <= col {
				l.cells = append(l.cells, cell{})
			}
			to := &l.cells[col]
			switch c.Type {
			case "s":
				if n, err := strconv.Atoi(c.Value); err == nil && n >= 0 && n < len(x.texts) {
					to.text = x.texts[n]
				}
			case "inlineStr":
				to.text = c.Inline.String()
			case "str", "e":
				to.text = c.Value
			case "b":
				to.text = map[string]string{"1": "yes", "0": "no"}[c.Value]
			case "d":
				to.text, to.date = c.Value, true
			default:
				to.text, to.date = number15(c.Value), c.Value != "" && x.dates[c.Style]
			}
		}
		if len(lines) < maxRows+headRows+1 && !l.blank() {
			lines = append(lines, l)
		}
		return nil
	})
	return lines, err
}

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

// words is a text in pieces; reading aids (rPh) are not part of it.
type words struct {
	T string `xml:"t"`
	R []struct {
		T string `xml:"t"`
	} `xml:"r"`
}

func (w words) String() string {
	s := w.T
	for _, r := range w.R {
		s += r.T
	}
	return s
}

// firstSheet is the name, within the zip, of the first sheet that is not hidden.
func (x *xlsx) firstSheet() (string, error) {
	const book = "xl/workbook.xml"
	id := ""
	if err := x.each(book, "sheet", func(_ *xml.Decoder, start xml.StartElement) error {
		hidden, rel := false, ""
		for _, a := range start.Attr {
			switch a.Name.Local {
			case "state":
				hidden = a.Value != "visible"
			case "id":
				rel = a.Value
			}
		}
		if !hidden && id == "" {
			id = rel
		}
		return nil
	}); err != nil {
		return "", err
	}
	target := ""
	err := x.each("xl/_rels/workbook.xml.rels", "Relationship", func(_ *xml.Decoder, start xml.StartElement) error {
		this, to := "", ""
		for _, a := range start.Attr {
			switch a.Name.Local {
			case "Id":
				this = a.Value
			case "Target":
				to = a.Value
			}
		}
		if this == id {
			target = to
		}
		return nil
	})
	if err != nil {
		return "", err
	}
	if target == "" {
		return "", errors.New("it has no sheet that is shown")
	}
	if abs, ok := strings.CutPrefix(target, "/"); ok {
		return abs, nil
	}
	return path.Join("xl", target), nil
}

func (x *xlsx) readTexts() error {
	const name = "xl/sharedStrings.xml"
	if x.files[name] == nil {
		return nil // all texts stand in their cells
	}
	return x.each(name, "si", func(d *xml.Decoder, start xml.StartElement) error {
		var w words
		err := d.DecodeElement(&w, &start)
		x.texts = append(x.texts, w.String())
		return err
	})
}

var quoted = regexp.MustCompile(`"[^"]*"|\[[^\]]*\]|\\.`)

// readStyles finds the styles that show a number as a date: the built-in formats 14 to 22 and 45 to 47 (ECMA-376 part 1,
// 18.8.30), and those of one's own with a day, a month or a year in them.
func (x *xlsx) readStyles() error {
	const name = "xl/styles.xml"
	if x.files[name] == nil {
		return nil
	}
	var styles struct {
		Formats []struct {
			ID   int    `xml:"numFmtId,attr"`
			Code string `xml:"formatCode,attr"`
		} `xml:"numFmts>numFmt"`
		Cells []struct {
			Format int `xml:"numFmtId,attr"`
		} `xml:"cellXfs>xf"`
	}
	if err := x.each(name, "styleSheet", func(d *xml.Decoder, start xml.StartElement) error {
		return d.DecodeElement(&styles, &start)
	}); err != nil {
		return err
	}
	var own []int
	for _, f := range styles.Formats {
		if code := strings.ToLower(quoted.ReplaceAllString(f.Code, "")); strings.ContainsAny(code, "dy") || strings.Contains(code, "mm") {
			own = append(own, f.ID)
		}
	}
	for i, c := range styles.Cells {
		f := c.Format
		x.dates[i] = f >= 14 && f <= 22 || f >= 45 && f <= 47 || slices.Contains(own, f)
	}
	return nil
}

// each visits the elements of one name in a file of the zip.
func (x *xlsx) each(file, element string, visit func(*xml.Decoder, xml.StartElement) error) error {
	f := x.files[file]
	if f == nil {
		return errors.New("it is a zip, but not a sheet: it has no " + path.Base(file))
	}
	r, err := f.Open()
	if err != nil {
		return errors.New("the sheet is damaged")
	}
	defer r.Close()
	limited := &io.LimitedReader{R: r, N: maxXML}
	d := xml.NewDecoder(limited)
	for {
		t, err := d.Token()
		if err == nil {
			if start, ok := t.(xml.StartElement); ok && start.Name.Local == element {
				err = visit(d, start)
			}
		}
		switch {
		case limited.N <= 0:
			return fmt.Errorf("its %s unpacks to more than %d MB", path.Base(file), maxXML>>20)
		case err == io.EOF:
			return nil
		case err != nil:
			return fmt.Errorf("the sheet is damaged: %w", err)
		}
	}
}
