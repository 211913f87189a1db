package stocklist

import (
	"archive/zip"
	"bytes"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// readFile reads a list of any kind, and says how many bytes that took, of which many are free again.
func readFile(file []byte) (s *Sheet, bytes uint64, err error) {
	fsys := fstest.MapFS{"works": {Data: file}}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	s, err = Read(fsys, "works", unit.Inches, true)
	runtime.ReadMemStats(&after)
	return s, after.TotalAlloc - before.TotalAlloc, err
}

// A list of 5,000 works is read whole; a longer one is refused at the row that is too many, not cut in silence. Rows with
// nothing in them do not count.
func TestLongestList(t *testing.T) {
	rows := "Title,Height,Width\n" + strings.Repeat("Study,12,9\n,,\n\n", maxRows)
	if s, _, err := readFile([]byte(rows)); err != nil || len(s.Rows) != maxRows {
		t.Fatalf("of %d rows: %v", maxRows, err)
	}
	_, _, err := readFile([]byte(rows + "One more,12,9\n"))
	if f, ok := err.(fault.Fault); !ok || f.At.Line != 3*maxRows+2 || f.Text != "the list has more than 5000 works" {
		t.Errorf("of a row too many it is said: %v", err)
	}
}

// The longest cell and the last column are read, one more is reported at its place, and what no column is for does no harm.
func TestLargestRow(t *testing.T) {
	long := strings.Repeat("é", maxCell)
	for _, c := range []struct{ name, text, title, want string }{
		{"a title", "Title,Size\n" + long + ",12x9\n", long, ""},
		{"a longer title", "No,Title,Size\n7,Weir,12x9\n8," + long + "é,12x9\n", "Weir", "3: Title: it has more than 200 characters (keep what matters, and the rest in another column)"},
		{"a longer size", "Title,Size\nWeir,12x9\nHeron,12" + long + "x9\n", "Weir", "3: Size: it has more than 200 characters (keep what matters, and the rest in another column)"},
		{"a long story", "Title,Size,Story\nWeir,12x9," + long + long + "\n", "Weir", ""},
		{"the last column", "Title,Size\nWeir,12x9" + strings.Repeat(",", maxColumns-2) + "a\n", "Weir", ""},
		{"empty columns", "Title,Size\nWeir,12x9" + strings.Repeat(",", 3*maxColumns) + "\n", "Weir", ""},
		{"a column more", "Title,Size\n\nWeir,12x9" + strings.Repeat(",", maxColumns-1) + "a\n", "", "works:3:1: row 3 has more than 200 columns (keep only those that are about the works)"},
		{"an open quote", "Title,Size\nWeir,12x9\n\"Heron,12x9\n" + strings.Repeat("Study,12x9\n", maxRowBytes/9), "",
			"works:3:1: row 3 is longer than 100000 letters (look for a quote \" there that is not closed)"},
	} {
		s, _, err := readFile([]byte(c.text))
		got := ""
		switch {
		case err != nil:
			got = err.Error()
		case s.Rows[0].Title != c.title:
			t.Errorf("%s: the title is %.50q", c.name, s.Rows[0].Title)
		case len(s.Unread) > 0:
			got = fmt.Sprintf("%d: %s", s.Unread[0].Number, s.Unread[0].Why)
		}
		if got != c.want {
			t.Errorf("%s: %.200s", c.name, got)
		}
	}
}

// zipped is a sheet of the parts given, beside those that every one must have.
func zipped(t *testing.T, parts map[string]string) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, text := range map[string]string{
		"xl/workbook.xml":            `<w><sheet id="a"/></w>`,
		"xl/_rels/workbook.xml.rels": `<r><Relationship Id="a" Target="worksheets/sheet1.xml"/></r>`,
		"xl/worksheets/sheet1.xml":   `<s><row><c t="str"><v>Title</v></c><c t="str"><v>Size</v></c></row><row><c t="str"><v>Weir</v></c><c t="str"><v>12x9</v></c></row></s>`,
	} {
		if parts[name] == "" {
			parts[name] = text
		}
	}
	for name, text := range parts {
		w, err := z.Create(name)
		if err == nil {
			_, err = w.Write([]byte(text))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The worst files that anybody could hand over are refused, or read, without more work than a long list makes.
func TestWorstLists(t *testing.T) {
	const (
		csvBytes  = 25 * maxText      // the text, its copies in one alphabet and one line end, and what is kept
		xlsxBytes = 350 * maxElements // each is some small pieces, most of them given back at once
	)
	many := func(s string, bytes int) string { return strings.Repeat(s, bytes/len(s)) }
	for name, c := range map[string]struct{ text, want string }{
		"commas":       {many(",", maxBytes), "as text, the list has more than 8 MB"},
		"fewer commas": {many(",", maxText), "works:1:1: row 1 is longer than 100000 letters"},
		"empty rows":   {many(",\n", maxText), "no row of headings"},
		"line ends":    {many("\n", maxText), "is empty"},
		"more ends":    {"Title,Size\n" + many("\n", maxText/2) + "Weir,12x9\n", ""},
		"one title":    {"Title,Size\n" + many("a", 5<<20) + ",12x9\n", "works:2:1: row 2 is longer than 100000 letters"},
		"long titles":  {"Title,Size\n" + strings.Repeat(many("a", 1600)+",12x9\n", maxRows), ""},
		"quotes":       {"Title,Size\n" + many("\"\n\",", maxText/2), "row 2 is longer than 100000 letters"},
		"headings":     {strings.Repeat(strings.Repeat("title,size,", maxColumns/2)+"\n", 20), ""},
		"other text":   {"\xff\xfe" + many("a\x00,\x00\n\x00", maxText-6), "no row of headings"},
	} {
		file := []byte(c.text)
		s, bytes, err := readFile(file)
		if got := fmt.Sprint(err); c.want == "" && err != nil || !strings.Contains(got, c.want) {
			t.Errorf("%s: %.300s", name, got)
		}
		if s != nil && len(s.Rows) > 0 && len(s.Rows[0].Title) > maxCell {
			t.Errorf("%s: a title has %d letters", name, len(s.Rows[0].Title))
		}
		if bytes > csvBytes {
			t.Errorf("%s: %d MB were taken in hand", name, bytes>>20)
		}
	}
	rows := `<s><row><c t="str"><v>Title</v></c><c t="str"><v>Size</v></c></row>` + strings.Repeat(`<row><c t="s"><v>0</v></c><c t="str"><v>12x9</v></c></row>`, 4000) + `</s>`
	for name, c := range map[string]struct {
		part, text, want string
	}{
		"one large text in 4,000 rows":   {"sharedStrings", "<t><si><t>" + many("a", maxPiece-100) + "</t></si></t>", ""},
		"a larger text":                  {"sharedStrings", "<t><si><t>" + many("a", maxPiece+8192) + "</t></si></t>", "its sharedStrings.xml has one text of more than 1024 kB"},
		"a text in many pieces":          {"sharedStrings", "<t><si>" + many("<r><t>aaaaaaaa</t></r>", maxUnpacked/8) + "</si></t>", ""},
		"no texts, many times":           {"sharedStrings", "<t>" + many("<si/>", maxUnpacked/2) + "</t>", "it has more than 1000000 rows, cells and texts"},
		"more texts":                     {"sharedStrings", "<t>" + many("<si>aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa</si>", maxUnpacked+4096) + "</t>", "unpacks to more than 16 MB"},
		"cells":                          {"worksheets/sheet1", "<s><row>" + many("<c/>", maxUnpacked/2) + "</row></s>", "it has more than 1000000 rows, cells and texts"},
		"cells with something in them":   {"worksheets/sheet1", "<s><row>" + many("<c><v>1</v></c>", maxUnpacked/2) + "</row></s>", "row 1 has more than 200 columns"},
		"rows":                           {"worksheets/sheet1", "<s>" + many("<row/>", maxUnpacked/8) + "</s>", "no row of headings"},
		"attributes":                     {"worksheets/sheet1", "<s><row " + many(`a="" `, maxUnpacked/2) + "></row></s>", "one text of more than 1024 kB"},
		"elements in each other":         {"worksheets/sheet1", many("<row>", maxUnpacked/2), "more than 30 elements in each other"},
		"names of elements":              {"worksheets/sheet1", "<" + many("a", maxUnpacked/2), "one text of more than 1024 kB"},
		"styles":                         {"styles", "<s><numFmts>" + many(`<numFmt numFmtId="164" formatCode="0"/>`, maxUnpacked/16) + "</numFmts><cellXfs>" + many(`<xf numFmtId="164"/>`, maxUnpacked/16) + "</cellXfs></s>", ""},
		"comments":                       {"styles", "<!-- " + many("a", maxUnpacked/2) + " -->", "one text of more than 1024 kB"},
		"entities that stand for others": {"sharedStrings", `<!DOCTYPE t [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><t><si><t>&b;</t></si></t>`, "the sheet is damaged"},
	} {
		parts := map[string]string{"xl/" + c.part + ".xml": c.text}
		if c.part == "sharedStrings" {
			parts["xl/worksheets/sheet1.xml"] = rows
		}
		file := zipped(t, parts)
		s, bytes, err := readFile(file)
		if got := fmt.Sprint(err); c.want == "" && err != nil || !strings.Contains(got, c.want) {
			t.Errorf("%s: %.300s", name, got)
		}
		if err == nil && len(s.Rows)+len(s.Unread) == 0 {
			t.Errorf("%s: nothing was read", name)
		}
		if bytes > xlsxBytes {
			t.Errorf("%s: %d MB were taken in hand", name, bytes>>20)
		}
	}
	parts := map[string]string{}
	for i := range maxParts {
		parts[fmt.Sprint("xl/media/image", i)] = "a"
	}
	if _, bytes, err := readFile(zipped(t, parts)); err == nil || !strings.Contains(err.Error(), "it holds more than 5000 files") || bytes > 20<<20 {
		t.Errorf("of many files: %v; %d MB were taken in hand", err, bytes>>20)
	}
}
