package stocklist

import (
	"bytes"
	"errors"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// Whatever the file holds: a list of works whose numbers can be, or a fault in words.
func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"Title,Size\nHeron,24 x 36 in\n", "\ufeffTitle;Height (cm);Width (cm);Price\r\nWeir;61,5;91;€ 1.250\r\n", "No\tTitle\tSize (W x H)\n1\tHeron\t36 x 24\n",
		"Odile Marrowby\n2026\n\nName of work,unit,width,HEIGHT,weight lb,Edition,photo\nHeron,in,36,24,6 1/2,3/20,heron.jpg\n", "\"a", "Title,Size\n\"Heron\nat the weir\",\"24\"\" x 36\"\"\"\n",
		"Title,Size\nHeron,61 x 91 cm (24 x 36 in)\n", "\xff\xfeT\x00i\x00t\x00l\x00e\x00;\x00S\x00i\x00z\x00e\x00", "Title,Size (cm),Price,,Title,Size,Price\nEbb,40 x 50,€ NFS,,Print,2 x (20 x 30) cm,from €5\nPhoto,Title,Size (cm)\nC:\\a 🐦.jpg,Gull,Ø 30\n", "PK\x03\x04", "\xd0\xcf\x11\xe0", "",
	} {
		f.Add([]byte(s), true)
	}
	for _, size := range []any{"24 x 36 in", 24.5, -1e300} {
		f.Add(book(f, func(x *excelize.File) {
			set(f, x, "Sheet1", map[string]any{"A1": "Title", "B1": "Size", "C1": "Height", "A2": "Heron", "B2": size, "C2": size, "A3": true})
		}), false)
	}
	f.Fuzz(func(t *testing.T, file []byte, stated bool) {
		s, err := Read(fstest.MapFS{"works": {Data: bytes.Clone(file)}}, "works", unit.Centimetres, stated)
		if err != nil {
			var why fault.Fault
			if !errors.As(err, &why) || why.Text == "" || why.At.File != "works" {
				t.Fatalf("%#v is no fault at its place", err)
			}
			return
		}
		if len(s.Rows)+len(s.Unread) > maxRows {
			t.Errorf("%d rows", len(s.Rows)+len(s.Unread))
		}
		for _, r := range s.Rows {
			if a, b := r.Size.A, r.Size.B; !(a > 0 && a < 100 && b > 0 && b < 100) && (a != 0 || b != 0) {
				t.Errorf("row %d is %v x %v m", r.Number, a, b)
			}
			if !(r.Depth >= 0 && r.Depth < 100 && r.Weight >= 0 && r.Weight < 1e5 && r.Price >= 0) {
				t.Errorf("row %d: %v m deep, %v kg, %v", r.Number, r.Depth, r.Weight, r.Price)
			}
			if !utf8.ValidString(r.Title + r.Name + r.File + r.Medium + r.Edition + r.No) {
				t.Errorf("row %d: %+v is no text", r.Number, r)
			}
		}
		for _, u := range s.Unread {
			if u.Why == "" {
				t.Errorf("row %d was not read, and nothing said", u.Number)
			}
		}
	})
}
