package stocklist

import (
	"cmp"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/xuri/excelize/v2"

	"boothmock/internal/basis/unit"
)

// What headings mean, in the languages of the vocabulary and as people put them.
func TestVocabulary(t *testing.T) {
	for heading, want := range map[string]string{
		"How big (h x w)": "size, height x width", "Size (w x h)": "size, width x height", "Maße (B × H in cm)": "size, width x height, in cm",
		"Cost": "what it cost you", "Cost price": "what it cost you", "EK": "what it cost you", "Wholesale price": "what it cost you", "Price": "price",
		"VK-Preis": "price", "Prix (€)": "price", "Price (GBP)": "price, in £", "Price incl. frame": "price", "Höhe": "height", "Breite cm": "width, in cm", "H": "height",
		"Größe": "size", "Groesse": "size", "Dimensions (unframed)": "size, height x width", "Size without frame": "size, height x width", "Framed size": "size with frame",
		"Außenmaß": "size with frame", "Framed height (in)": "height with frame, in inches", "Framed?": "frame", "gerahmt": "frame", "Titre": "title", "Name of work": "title",
		"Print": "title", "Print size": "size", "Print run": "edition", "Auflage": "edition", "Image title": "title", "Image file": "photograph", "Photo 2": "photograph",
		"Verkauft an": "whether it is sold", "Sold to": "whether it is sold", "Date sold": "whether it is sold", "Where is it?": "where it is", "Standort": "where it is",
		"Gewicht (kg)": "weight, in kg", "Technik": "medium", "Técnica": "medium", "Jahr": "year", "Année": "year", "Serie": "series", "Insurance value": "value", "Paid": "yours alone", "Link": "address", "Retail (not used)": "nothing",
		"Weather": "", "Shoe": "", "": "",
	} {
		meansAs(t, heading, want)
	}
}

// meansAs holds what a heading is read as to how that begins; nothing: it is not read.
func meansAs(t *testing.T, heading, want string) {
	t.Helper()
	c := readHeading(heading)
	got := ""
	if c.means != noMeaning {
		got = c.meaning()
	}
	if !strings.HasPrefix(got, want) || want == "" && got != "" {
		t.Errorf("%q: %q, want %q", heading, got, want)
	}
}

// Every word of the vocabulary is written as it is looked up: without accents, capitals and signs.
func TestVocabularyIsFolded(t *testing.T) {
	for _, v := range Vocabulary {
		for _, w := range append(list(v.Words), list(v.With)...) {
			if folded(w) != w {
				t.Errorf("%q of %s is never found: headings read %q", w, v.Called, folded(w))
			}
		}
	}
	for _, s := range States {
		for _, w := range list(s.Words) {
			if folded(w) != w {
				t.Errorf("%q of %s is never found", w, s.Is)
			}
		}
	}
}

func TestColumnsThatMeanTheSame(t *testing.T) {
	refuse := func(file, want string) {
		_, err := Read(fstest.MapFS{"a": {Data: []byte(file)}}, "a", unit.Inches, true)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %s", file, err, want)
		}
	}
	refuse("Title,Size,Price,Retail\nHeron,24 x 36,480,500\n", `two columns can be the price, "Price" and "Retail", and they differ (write “not used” behind the heading that does not count, such as "Retail (not used)")`)
	refuse("Title,Size,Image size\nHeron,24 x 36,20 x 30\n", `two columns can be the size, "Size" and "Image size"`)
	refuse("Title,Length,Width\nHeron,24,36\n", `of the columns "Length" and "Width" it is not said which one is the height`)
	refuse("Title,Size (L x W)\nHeron,24 x 36\n", `the column "Size (L x W)" does not say which of the two is the height`)
	for _, file := range []string{
		"Title,Size,Price,Retail\nHeron,24 x 36,480,480\nWeir,24 x 36,480,480\n", "Title,Size,Price,Retail\nHeron,24 x 36,480,\nWeir,24 x 36,480,\n",
		"Title,Size,Price,Retail (not used)\nHeron,24 x 36,480,1\nWeir,24 x 36,480,2\n", "Title,Size,Retail,Cost\nHeron,24 x 36,480,31\nWeir,24 x 36,480,29\n",
		"Title,Height,Length,Price\nHeron,24,36,480\nWeir,24,36,480\n", "Title,Format,Size,Price\nHeron,,24 x 36,480\nWeir,,24 x 36,480\n",
	} {
		s, err := Read(fstest.MapFS{"a": {Data: []byte(file)}}, "a", unit.Inches, true)
		if err != nil {
			t.Fatal(err)
		}
		if len(s.Rows) != 2 || s.Rows[0].Price != 48000 || !near(s.Rows[0].Size.A, 24*unit.Inch) {
			t.Errorf("%q: %+v %+v", file, s.Rows, s.Unread)
		}
	}
	if s := read(t, "Title,Size,Cost\nHeron,24in x 36in,31\n"); s.Rows[0].Price != 0 || len(s.Unused) != 1 || !strings.Contains(s.Unused[0].Meaning, "reaches no tag") {
		t.Errorf("what it cost is a price: %+v", s)
	}
}

// What the words of a status do, wherever they stand.
func TestStates(t *testing.T) {
	for row, want := range map[string]string{
		"480,,,": "", "480,sold,,": "sold", "SOLD,,,": "sold", "NFS,,,": "not for sale", "480,Reserved,,": "on hold", "480,on hold for Anna,,": "on hold", "480,,at home,": "spare",
		"480,spare,,": "spare", "POR,,,": "on request", "price on request,,,": "on request", "480,,on loan to the library,": "elsewhere", "480,,studio,": "", "480,available,,": "",
		"480,not sold,,": "", "480,unsold,,": "", "480,verkauft,,": "sold", "480,reserviert,,": "on hold", "auf Anfrage,,,": "on request", "480,,,sold 3 May": "sold", "480,,,the one like it was sold": "",
		"480,,,on hold till June": "on hold", "NFS,,at home,": "spare", "480,no longer sure,,": "",
	} {
		s := read(t, "Title,Price,Status,Location,Notes,Size\nHeron,"+row+",24 x 36 in\n")
		if len(s.Rows) != 1 {
			t.Errorf("%s: %+v", row, s.Unread)
			continue
		}
		got := string(cmp.Or(s.Rows[0].Away, s.Rows[0].Status))
		if s.Rows[0].Sold {
			got = "sold"
		}
		if got != want {
			t.Errorf("%s: %q, want %q", row, got, want)
		}
	}
	s := read(t, "Title,Size,Sold\nHeron,24 x 36 in,x\nWeir,24 x 36 in,no\nBarn,24 x 36 in,12 May\nReeds (sold),24 x 36 in,\n")
	if got := fmt.Sprint(s.Rows[0].Sold, s.Rows[1].Sold, s.Rows[2].Sold, s.Rows[3].Sold, " ", s.Rows[3].Title); got != "true false true true Reeds" {
		t.Error(got)
	}
	if s := read(t, "Title,Size,Status\nHeron,24 x 36 in,drying\n"); len(s.Doubts) != 1 || !strings.Contains(s.Doubts[0].Why, `"drying" is no status that is known here`) {
		t.Errorf("%+v", s.Doubts)
	}
}

func TestFrames(t *testing.T) {
	for row, want := range map[string]string{
		"24 x 36 in,,": "none", "24 x 36 in,no,": "none", "24 x 36 in,yes,": "0 in ", "24 x 36 in,black,": "0 in #1d1b19", `24 x 36 in,oak 1 1/2 in,`: "1 1/2 in #c2a173",
		"24 x 36 in,,28 x 40 in": "2 in ", "24 x 36 in,white,26 x 38 in": "1 in white", ",,28 x 40 in": "3/4 in ", "24 x 36 in,unframed,": "none", "24 x 36 in,Eiche 2 cm,": "3/4 in #c2a173",
	} {
		s := read(t, "Title,Size,Framed?,Framed size\nHeron,"+row+"\n")
		got := "none"
		if f := s.Rows[0].Frame; f != nil {
			got = f.Width.Format(unit.Inches) + " " + f.Colour
		}
		if got != want {
			t.Errorf("%s: %q, want %q", row, got, want)
		}
	}
	if s := read(t, "Title,Framed size\nHeron,28 x 40 in\n"); !near(s.Rows[0].Size.A, 26.5*unit.Inch) || !near(s.Rows[0].Size.B, 38.5*unit.Inch) {
		t.Errorf("of a framed size alone the picture is %v", s.Rows[0].Size)
	}
	if s := read(t, "Title,Size,Framed size\nHeron,24 x 36 in,20 x 30 in\n"); s.Rows[0].Frame != nil || len(s.Doubts) != 1 {
		t.Errorf("%+v", s)
	}
}

// What is wrong in a list is said in a sentence that a painter understands, and costs no more than what is wrong.
func TestBadLists(t *testing.T) {
	for name, c := range map[string]struct{ file, want string }{
		"two of a title":      {"Title,Size\nMoths,24 x 36 in\nMoths,14 x 11 in\n", `Rows 2 and 3 have one title, "Moths"; give each a number of its own in the list.`},
		"a photograph twice":  {"Title,Size,Photo\nMoths,24 x 36 in,a.jpg\nBats,14 x 11 in,a.jpg\n", "Rows 2 and 3 name one photograph, a.jpg: it is on all of them."},
		"another currency":    {"Title,Size,Price\nA,24 x 36 in,$480\nB,24 x 36 in,$95\nC,24 x 36 in,£95\n", "row 4, C: its price is in £ and those of the others are in $; it is left out (write what visitors pay in $)"},
		"240 in":              {"Title,Size\nA,24 x 36 in\nB,2400 x 36 in\n", `row 3, B: Size: "2400 x 36 in" is out of range (look whether the unit is right: 240 mm are 24 cm, about 9 1/2 in)`},
		"weight without unit": {"Title,Size,Weight\nA,24 x 36 in,6\n", "row 2, A: Weight: a weight needs a unit (write 6lb or 6kg); the weight is left out"},
		"formula error":       {"Title,Size,Price\nA,24 x 36 in,#REF!\n", "row 2, A: Price: the spreadsheet shows the error #REF! there instead of a value (mend the formula, or type the value)"},
		"error elsewhere":     {"Title,Size,Year\nA,24 x 36 in,#NAME?\n", "row 2, A: Year: the spreadsheet shows the error #NAME? there"},
		"a date":              {"Title,Size\nA,12-Sep\n", "row 2, A: Size: the spreadsheet has made a date of the size"},
		"two parts":           {"Title,Size\nA,12 x 12 in each\n", `row 2, A: Size: "12 x 12 in each" is the size of one part (write how many there are: 2 x (30 x 30 cm), or the size over all as the work hangs)`},
		"without tax":         {"Title,Size,Price\nA,24 x 36 in,480 + VAT\n", `row 2, A: Price: "480 + VAT" is without something that visitors pay (write what they pay in all)`},
		"no price":            {"Title,Size,Price\nA,24 x 36 in,cheap\n", `row 2, A: Price: "cheap" is no price (write a number such as 480, or NFS, on request, on hold)`},
		"10,000 rows":         {"Title,Size\n" + strings.Repeat("A,24 x 36 in\n", 10_000), "the list has more than 5000 works (keep those that you may bring in a list of their own)"},
		"a password":          {"\xd0\xcf\x11\xe0\xa1\xb1E\x00n\x00c\x00r\x00y\x00p\x00t\x00e\x00d\x00P\x00a\x00c\x00k\x00a\x00g\x00e\x00", "it is locked with a password (open it in the spreadsheet program, take the password away and save it, or save it as CSV)"},
		"another spreadsheet": {string(zipped(t, map[string]string{"Index/Document.iwa": "a"})), "this kind of spreadsheet cannot be read, whatever its name ends with (save it from its program as XLSX or CSV)"},
	} {
		s, err := Read(fstest.MapFS{"a": {Data: []byte(c.file)}}, "a", unit.Inches, false)
		got := fmt.Sprint(err)
		if err == nil {
			got = strings.Join(s.Notes, "\n")
			for _, r := range append(s.Unread, s.Doubts...) {
				got += fmt.Sprintf("\nrow %d, %s: %s", r.Number, r.What, r.Why)
			}
		}
		if !strings.Contains(got, c.want) {
			t.Errorf("%s: %s\nwant %s", name, got, c.want)
		}
	}
}

// Sizes in the order that their own letters say, and roughly.
func TestLettersInSizes(t *testing.T) {
	for text, want := range map[string]string{
		"36in w x 24in h": "24 x 36 in", "H 24 x W 36 in": "24 x 36 in", "H24 x B36 in": "24 x 36 in", "w: 36in, h: 24in": "24 x 36 in", "approx 24 x 36 in": "24 x 36 in", "ca. 24 x 36 in": "24 x 36 in", "24in (h) x 36in (w)": "24 x 36 in",
	} {
		s := read(t, "Title;Size\nHeron;"+text+"\n")
		got := ""
		if len(s.Rows) == 1 {
			got = s.Rows[0].Size.Format(unit.Inches)
		}
		if got != want {
			t.Errorf("%s: %q, want %q %+v", text, got, want, s.Unread)
		}
	}
}

// A workbook of several tabs, with merged cells and headings in two rows.
func TestTabs(t *testing.T) {
	list := func(f *excelize.File, tab string) {
		if _, err := f.NewSheet(tab); err != nil {
			t.Fatal(err)
		}
		set(t, f, tab, map[string]any{
			"A1": "Title", "B1": "Size (in)", "D1": "Medium", "E1": "Price", "B2": "H", "C2": "W",
			"A3": "Heron", "B3": 24, "C3": 36, "D3": "oil", "E3": 480, "A4": "Weir", "B4": 14, "C4": 11,
		})
		for _, m := range [][2]string{{"B1", "C1"}, {"A1", "A2"}, {"D1", "D2"}, {"E1", "E2"}, {"D3", "D4"}, {"E3", "E4"}} {
			if err := f.MergeCell(tab, m[0], m[1]); err != nil {
				t.Fatal(err)
			}
		}
	}
	costs := func(f *excelize.File) {
		set(t, f, "Sheet1", map[string]any{"A1": "Date", "B1": "What", "C1": "Amount", "A2": "1 May", "B2": "frames", "C2": 220})
	}
	one := book(t, func(f *excelize.File) { costs(f); list(f, "Works") })
	s := read(t, string(one))
	if fmt.Sprint(s.Tabs, s.Passed) != "[Works] [Sheet1]" || len(s.Rows) != 2 || len(s.Aside)+len(s.Unread) != 0 || !near(s.Rows[1].Size.A, 14*unit.Inch) || !near(s.Rows[1].Size.B, 11*unit.Inch) || s.Rows[1].Medium != "oil" {
		t.Errorf("%+v", s)
	}
	if s.Rows[0].Price != 48000 || s.Rows[1].Price != 0 || len(s.Doubts) != 1 || !strings.Contains(s.Doubts[0].Why, "give each work its own price") {
		t.Errorf("one price of two works: %+v", s)
	}
	two := fstest.MapFS{"a.xlsx": {Data: book(t, func(f *excelize.File) { list(f, "2025"); list(f, "2026") })}}
	if _, err := Read(two, "a.xlsx", unit.Inches, false); err == nil || err.Error() != `a.xlsx: several of its tabs are lists, and "Heron" stands in "2025" and in "2026" (name the one that counts behind the file: a.xlsx/2025)` {
		t.Error(err)
	}
	if s, err := Read(two, "a.xlsx/2026", unit.Inches, false); err != nil || fmt.Sprint(s.Tabs) != "[2026]" || s.Name != "a.xlsx" {
		t.Errorf("%v %+v", err, s)
	}
	if _, err := Read(two, "a.xlsx/2027", unit.Inches, false); err == nil || !strings.Contains(err.Error(), `it has no tab "2027"`) {
		t.Error(err)
	}
}

// The example of `boothmock explain sheet` is one that can be read.
func TestExample(t *testing.T) {
	var text strings.Builder
	for _, r := range Example {
		text.WriteString(strings.Join(r, "\t") + "\n")
	}
	s := read(t, text.String())
	if len(s.Rows) != 4 || len(s.Unused)+len(s.Doubts)+len(s.Unread)+len(s.Notes) != 0 || s.Rows[3].Away != Spare || !near(s.Rows[2].Frame.Width, 1.5*unit.Inch) || s.Rows[0].Weight.Format(unit.Inches) != "9 lb" {
		t.Errorf("%+v", s)
	}
}
