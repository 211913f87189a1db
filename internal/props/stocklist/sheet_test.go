package stocklist

import (
	"archive/zip"
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"
	"time"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"boothmock/internal/basis/unit"
)

func read(t testing.TB, file string) *Sheet {
	t.Helper()
	s, err := Read(fstest.MapFS{"works": {Data: []byte(file)}}, "works", unit.Inches, false)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func near(a, b unit.Length) bool { return math.Abs(a.M()-b.M()) < 1e-9 }

// What artists type into the cell of a size, and the height and width that it is.
func TestSizes(t *testing.T) {
	for text, want := range map[string][3]unit.Length{
		`24 x 36 in`:          {24 * unit.Inch, 36 * unit.Inch},
		`24"x36"`:             {24 * unit.Inch, 36 * unit.Inch},
		`24″ × 36″`:           {24 * unit.Inch, 36 * unit.Inch},
		`24 1/2 × 18 in`:      {24.5 * unit.Inch, 18 * unit.Inch},
		`24½ x 18¼ in`:        {24.5 * unit.Inch, 18.25 * unit.Inch},
		`61 x 91 cm`:          {0.61, 0.91},
		`61,5 x 91 cm`:        {0.615, 0.91},
		`610 x 910mm`:         {0.61, 0.91},
		`24 by 36 inches`:     {24 * unit.Inch, 36 * unit.Inch},
		`24in x 36in x 1.5in`: {24 * unit.Inch, 36 * unit.Inch, 1.5 * unit.Inch},
		`24 x 6 x 2 in`:       {24 * unit.Inch, 6 * unit.Inch, 2 * unit.Inch},
		`2ft x 3ft`:           {24 * unit.Inch, 36 * unit.Inch},
		// The example of the cataloguing handbook CCO, 3.2.1.2.1.
		`198 x 233 x 82 cm (78 x 91 3/4 x 32 1/4 inches)`: {1.98, 2.33, 0.82},
		`61 x 91 cm (24 x 36 in)`:                         {0.61, 0.91},
	} {
		s := read(t, "Title;Size\nHeron;"+strings.ReplaceAll(`"`+strings.ReplaceAll(text, `"`, `""`)+`"`, ";", ","))
		if len(s.Rows) != 1 {
			t.Errorf("%s: %+v", text, s.Unread)
		} else if r := s.Rows[0]; !near(r.Size.A, want[0]) || !near(r.Size.B, want[1]) || !near(r.Depth, want[2]) {
			t.Errorf("%s: %v, depth %v", text, r.Size, r.Depth)
		}
	}
	for text, why := range map[string]string{
		"24 x 36":                  "needs a unit",
		"24":                       "is not a size",
		"large":                    "is not a size",
		"24 x 36 in (stretcher 2)": "a column of its own",
		"24 x 36 in (28 x 40 in)":  "says two different sizes",
		"0 x 36 in":                "out of range",
		"9999 x 9999 in":           "out of range",
		"24 x 36 x 1 x 2 in":       "is not",
	} {
		s := read(t, "Title;Size\nHeron;"+text)
		if len(s.Rows) != 0 || len(s.Unread) != 1 || !strings.Contains(s.Unread[0].Why, why) || s.Unread[0].Number != 2 || s.Unread[0].What != "Heron" {
			t.Errorf("%s: %+v %+v", text, s.Rows, s.Unread)
		}
	}
}

func TestHeadings(t *testing.T) {
	for _, c := range []struct{ head, row string }{
		{"Title,Height (in),Width (in)", "Heron,24,36"},
		{"width,HEIGHT,Name,unit", "36,24,Heron,in"},
		{"Artwork title,Dimensions in inches (H x W)", "Heron,24 x 36"},
		{"Name of work,Size (W x H) in", "Heron,36 x 24"},
		{"Painting,H (cm),W (cm)", "Heron,60.96,91.44"},
		{"TITLE,H,W,Units", "Heron,24,36,inches"},
		{"Work,Height mm,Width mm", "Heron,609.6,914.4"},
		{"Title,HxW in", "Heron,24 x 36"},
		{"Title,H × W (inches)", "Heron,24 x 36"},
	} {
		s := read(t, c.head+"\n"+c.row)
		if len(s.Rows) != 1 || len(s.Unused) != 0 {
			t.Errorf("%s: %+v", c.head, s)
		} else if r := s.Rows[0]; r.Title != "Heron" || !near(r.Size.A, 24*unit.Inch) || !near(r.Size.B, 36*unit.Inch) {
			t.Errorf("%s: %+v", c.head, r)
		}
	}
	s := read(t, "Title,Framed size,Size,Year,Price,Retail (not used)\nHeron,28 x 40 in,24 x 36 in,2025,480,500")
	if len(s.Rows) != 1 || !near(s.Rows[0].Size.A, 24*unit.Inch) || s.Rows[0].Price != 48000 || len(s.Unused) != 1 ||
		len(s.Notes) != 0 || s.Rows[0].Year != "2025" || s.Rows[0].Frame == nil || !near(s.Rows[0].Frame.Width, 2*unit.Inch) || s.Columns[2] != (Column{"Size", "size, height x width", 1}) {
		t.Errorf("%+v", s)
	}
}

func TestPrices(t *testing.T) {
	for text, want := range map[string]unit.Money{
		"480": 48000, "$480": 48000, "£1,250.50": 125050, "1 250": 125000, "€ 480,50": 48050, "1.250,00 €": 125000, "USD 480": 48000,
		"480.-": 48000, "480 EUR": 48000, "NFS": 0, "not for sale": 0, "": 0, "1250.5": 125050,
	} {
		if s := read(t, "Title;Size;Price\nHeron;24 x 36 in;"+text); len(s.Rows) != 1 || s.Rows[0].Price != want {
			t.Errorf("%q: %+v %+v", text, s.Rows, s.Unread)
		}
	}
	if s := read(t, "Title,Size,Price\nHeron,24 x 36 in,1.250"); len(s.Doubts) != 1 || s.Rows[0].Price != 0 || !strings.Contains(s.Doubts[0].Why, "two ways (write 1250)") {
		t.Errorf("%+v", s.Rows)
	}
	if s := read(t, "Title;Size;Price\nHeron;24 x 36 in;1.250"); len(s.Rows) != 1 || s.Rows[0].Price != 125000 { // where commas part cents, points part thousands
		t.Errorf("%+v", s)
	}
	for _, text := range []string{"cheap", "1,2,3", "12 x"} {
		if s := read(t, "Title;Size;Price\nHeron;24 x 36 in;"+text); len(s.Doubts) != 1 || s.Rows[0].Price != 0 {
			t.Errorf("%q: %+v", text, s.Rows)
		}
	}
	if s := read(t, "Title,Size,Price\nHeron,24 x 36 in,\"480,50\""); len(s.Doubts) != 1 || s.Rows[0].Price != 0 { // a comma sheet: cents or thousands?
		t.Errorf("%+v", s.Rows)
	}
}

// The ways in which programs write the same list.
func TestWaysOfWriting(t *testing.T) {
	const list = "Odile Marrowby: stock list\n\nNo.,Title,Size (cm),Price,Medium,Edition\n1,Étang,\"61 x 91\",480,\"oil\non canvas\",\n\n2,Aulnes,30 x 40,140,linocut,3/20\nTotal,,,620,,\n"
	utf := utf16.Encode([]rune("\ufeff" + strings.ReplaceAll(list, ",", "\t")))
	wide := make([]byte, 0, 2*len(utf))
	for _, u := range utf {
		wide = append(wide, byte(u), byte(u>>8))
	}
	for name, file := range map[string]string{
		"plain": list, "with a mark": "\ufeff" + list, "CRLF": strings.ReplaceAll(list, "\n", "\r\n"), "old Mac": strings.ReplaceAll(list, "\n", "\r"),
		"semicolons": strings.ReplaceAll(list, ",", ";"), "tabs": strings.ReplaceAll(list, ",", "\t"), "UTF-16": string(wide),
		"Windows": strings.ReplaceAll(list, "É", "\xc9"),
	} {
		s := read(t, file)
		if len(s.Rows) != 2 || len(s.Unread) != 0 || len(s.Aside) != 1 {
			t.Errorf("%s: %+v", name, s)
			continue
		}
		a, b := s.Rows[0], s.Rows[1]
		if a.Title != "Étang" || !near(a.Size.A, 0.61) || a.Price != 48000 || a.Medium != "oil on canvas" || a.Number != 4 || a.No != "1" {
			t.Errorf("%s: %+v", name, a)
		}
		if b.Title != "Aulnes" || b.Edition != "3/20" || b.Number != 6 || b.At.Line != 7 { // one row has two lines
			t.Errorf("%s: %+v", name, b)
		}
		if u := s.Aside[0]; u.Number != 7 || u.What != "Total" || u.Why != "a total" {
			t.Errorf("%s: %+v", name, u)
		}
		if (name == "Windows") != (len(s.Notes) == 1) {
			t.Errorf("%s: notes %v", name, s.Notes)
		}
	}
}

// book is an XLSX as the library writes it.
func book(t testing.TB, fill func(f *excelize.File)) []byte {
	f := excelize.NewFile()
	defer f.Close()
	fill(f)
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func set(t testing.TB, f *excelize.File, sheet string, cells map[string]any) {
	for at, v := range cells {
		if err := f.SetCellValue(sheet, at, v); err != nil {
			t.Fatal(err)
		}
	}
}

func TestXLSX(t *testing.T) {
	file := book(t, func(f *excelize.File) {
		set(t, f, "Sheet1", map[string]any{"A1": "hidden sheet", "B1": "x"})
		if _, err := f.NewSheet("Stock"); err != nil {
			t.Fatal(err)
		}
		if err := f.SetSheetVisible("Stock", true); err != nil {
			t.Fatal(err)
		}
		f.SetActiveSheet(1)
		if err := f.SetSheetVisible("Sheet1", false); err != nil {
			t.Fatal(err)
		}
		set(t, f, "Stock", map[string]any{
			"B2": "Title", "C2": "Height (in)", "D2": "Width (in)", "E2": "Price", "F2": "Edition", "G2": "Weight (lb)",
			"B3": "Heron", "C3": 24.2, "D3": 36, "E3": 1250.5, "G3": 8.5,
			"B5": "Alder & \"weir\"", "C5": "24 1/2", "D5": `18"`, "E5": "$1,100", "F5": "4/30",
			"B6": "Moths", "C6": 14, "D6": 11, "F6": time.Date(2026, 3, 20, 0, 0, 0, 0, time.UTC),
		})
		if err := f.SetCellRichText("Stock", "B7", []excelize.RichTextRun{{Text: "Reed "}, {Text: "bunting"}}); err != nil {
			t.Fatal(err)
		}
		set(t, f, "Stock", map[string]any{"C7": 11, "D7": 14})
		money, err := f.NewStyle(&excelize.Style{NumFmt: 7})
		if err != nil {
			t.Fatal(err)
		}
		if err := f.SetCellStyle("Stock", "E3", "E3", money); err != nil {
			t.Fatal(err)
		}
	})
	s := read(t, string(file))
	if len(s.Rows) != 4 || len(s.Doubts) != 1 {
		t.Fatalf("%+v", s)
	}
	a, b := s.Rows[0], s.Rows[1]
	if a.Title != "Heron" || !near(a.Size.A, 24.2*unit.Inch) || a.Price != 125050 || math.Abs(a.Weight.Kg()-8.5*unit.Pound.Kg()) > 1e-9 || a.Number != 3 {
		t.Errorf("%+v", a)
	}
	if b.Title != `Alder & "weir"` || !near(b.Size.A, 24.5*unit.Inch) || !near(b.Size.B, 18*unit.Inch) || b.Price != 110000 || b.Edition != "4/30" || b.Number != 5 {
		t.Errorf("%+v", b)
	}
	if s.Rows[2].Edition != "" || s.Rows[3].Title != "Reed bunting" {
		t.Errorf("%+v", s.Rows[2:])
	}
	if u := s.Doubts[0]; u.What != "Moths" || !strings.Contains(u.Why, "made a date of it") {
		t.Errorf("%+v", u)
	}
}

func TestNoSheetAtAll(t *testing.T) {
	bomb := func() []byte {
		var b bytes.Buffer
		z := zip.NewWriter(&b)
		for _, name := range []string{"xl/workbook.xml", "xl/_rels/workbook.xml.rels", "xl/sharedStrings.xml"} {
			w, err := z.Create(name)
			if err != nil {
				t.Fatal(err)
			}
			switch {
			case strings.HasSuffix(name, "rels"):
				fmt.Fprint(w, `<r><Relationship Id="a" Target="worksheets/sheet1.xml"/></r>`)
			case strings.HasSuffix(name, "book.xml"):
				fmt.Fprint(w, `<w><sheet id="a"/></w>`)
			default:
				fmt.Fprint(w, "<sst>")
				for range 70 {
					fmt.Fprint(w, "<si><t>"+strings.Repeat(" ", 1<<19)+"</t></si>")
				}
			}
		}
		if err := z.Close(); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}()
	plain := book(t, func(f *excelize.File) {
		set(t, f, "Sheet1", map[string]any{"A1": "Title", "B1": "Size", "A2": "x", "B2": "1 x 1 in"})
	})
	for name, c := range map[string]struct{ file, want string }{
		"none":    {"", "is empty"},
		"words":   {"Dear Odile,\nhere is the list.\n", "no row of headings"},
		"picture": {"\xff\xd8\xff\xe0\x00\x10JFIF\x00", "not text"},
		"old":     {"\xd0\xcf\x11\xe0\xa1\xb1", "old office document"},
		"short":   {string(plain[:len(plain)/2]), "cut short"},
		"zip":     {"PK\x03\x04 and nothing", "cut short"},
		"bomb":    {string(bomb), "unpacks to more than"},
	} {
		_, err := Read(fstest.MapFS{"a": {Data: []byte(c.file)}}, "a", unit.Inches, true)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
	if _, err := Read(fstest.MapFS{"works.csv": {}}, "work.csv", unit.Inches, true); err == nil || !strings.Contains(err.Error(), "there is works.csv") {
		t.Errorf("%v", err)
	}
}

// Whatever happens to a sheet, Read answers, and soon.
func TestMutatedSheets(t *testing.T) {
	seeds := [][]byte{
		[]byte("No,Title,Size,Price\n1,\"Heron, \"\"weir\"\"\",24 x 36 in,\"$1,250\"\n2;x;y\n"),
		book(t, func(f *excelize.File) {
			set(t, f, "Sheet1", map[string]any{"A1": "Title", "B1": "Size", "A2": "Heron", "B2": "24 x 36 in", "C1": "Price", "C2": 480})
		}),
	}
	r := rand.New(rand.NewPCG(1, 2))
	read := 0
	for i := range 6000 {
		file := bytes.Clone(seeds[i%2])
		for range 1 + r.IntN(4) {
			at := r.IntN(len(file))
			switch r.IntN(3) {
			case 0:
				file = append(file[:at:at], file[min(len(file), at+1+r.IntN(20)):]...)
			case 1:
				file = append(file[:at:at], append([]byte{",;\"\n\r\tx\x00"[r.IntN(8)]}, file[at:]...)...)
			default:
				file[at] = byte(r.Uint32())
			}
			if len(file) == 0 {
				break
			}
		}
		if s, err := Read(fstest.MapFS{"a": {Data: file}}, "a", unit.Inches, true); err == nil {
			read += len(s.Rows)
		}
	}
	if read == 0 {
		t.Error("no row was ever read")
	}
}

func TestCurrency(t *testing.T) {
	for text, want := range map[string]string{
		"Title,Size,Price\nA,24 x 36 in,480\n":                              "",
		"Title,Size,Price\nA,24 x 36 in,$480\nB,24 x 36 in,95\n":            "$",
		"Title;Size;Price\nA;61 x 91 cm;1.250,50 €\nB;30 x 30 cm;EUR 480\n": "€",
		"Title;Size;Price\nA;61 x 91 cm;CHF 480.-\n":                        "CHF",
		"Title,Size,Price (GBP)\nA,24 x 36 in,480\n":                        "£",
		"Title,Size,Price\nA,24 x 36 in,$480\nB,24 x 36 in,£95\n":           "$",
		"Title,Size,Price\nA,24 x 36 in,NFS\n":                              "",
	} {
		if s := read(t, text); s.Currency != want || len(s.Unread) > 0 {
			t.Errorf("%q: currency %q, want %q; unread %v", text, s.Currency, want, s.Unread)
		}
	}
}
