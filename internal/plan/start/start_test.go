package start

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io/fs"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/find/check"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/stocklist"
)

func photo(t testing.TB, w, h int) *fstest.MapFile {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for i := range m.Pix {
		m.Pix[i] = 200
	}
	m.Set(1, 1, color.Black)
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	return &fstest.MapFile{Data: b.Bytes()}
}

func TestPairs(t *testing.T) {
	for _, c := range []struct{ photo, no, title, file, how string }{
		{"IMG_2041.JPG", "", "Heron", "img_2041.jpg", "names the file"},
		{"photos/IMG_2041.JPG", "", "Heron", "IMG_2041", "names the file"},
		{"heron-at-the-weir.jpg", "", "Heron at the Weir", "", "called like"},
		{"07 blue thing.jpg", "7", "Heron", "", "number"},
		{"marrowby_heron_24x36_final.jpg", "", "Heron", "", "title is in"},
		{"odileheronattheweir.jpg", "", "Heron at the weir", "", "title is in"},
		{"weir.jpg", "", "Heron at the weir", "", "file's name is in"},
		{"quinzes.jpg", "", "Quinces", "", "nearly"},
		{"weir in frost 2.jpg", "", "Heron at the weir", "", "share a word"},
		{"IMG_2041.jpg", "", "Heron", "", ""},
		{"a.jpg", "", "A heron", "", ""},
	} {
		d := &Draft{Sheet: &stocklist.Sheet{Rows: []stocklist.Row{{No: c.no, Title: c.title, File: c.file}, {Title: "Something else"}}}}
		works := d.pair([]string{c.photo, "unlike.png"})
		switch {
		case c.how == "" && (len(d.Pairs) > 0 || len(d.Lonely) != 2):
			t.Errorf("%s and %s were paired: %+v", c.photo, c.title, d.Pairs)
		case c.how != "" && (len(d.Pairs) != 1 || !strings.Contains(d.Pairs[0].How, c.how) || works[0].photo != c.photo):
			t.Errorf("%s and %s: %+v, want %s", c.photo, c.title, d.Pairs, c.how)
		}
	}
	// Of several photographs of one work the plainest is taken, and the others are named.
	d := &Draft{Sheet: &stocklist.Sheet{Rows: []stocklist.Row{{Title: "Moths"}}}}
	d.pair([]string{"moths detail.jpg", "moths 2.jpg", "moths framed.jpg", "moths 10.jpg"})
	if len(d.Pairs) != 1 || d.Pairs[0].Photo != "moths 2.jpg" || fmt.Sprint(d.Further) != "[moths detail.jpg (Moths) moths framed.jpg (Moths) moths 10.jpg (Moths)]" || len(d.Lonely) != 0 {
		t.Errorf("%+v", d)
	}
	// A photograph that fits two works, and nothing else fits them, is on both.
	d = &Draft{Sheet: &stocklist.Sheet{Rows: []stocklist.Row{{Number: 2, Title: "Moths, large"}, {Number: 3, Title: "Moths, small"}, {Title: "Weir"}}}}
	d.pair([]string{"moths.jpg", "weir.jpg"})
	if len(d.Pairs) != 3 || len(d.Notes) != 1 || d.Notes[0] != "moths.jpg is on several works: Moths, large (row 2) and Moths, small (row 3)." {
		t.Errorf("%+v", d)
	}
	// Where two photographs fit two works, no choice is made.
	d = &Draft{Sheet: &stocklist.Sheet{Rows: []stocklist.Row{{Title: "Moths, large"}, {Title: "Moths, small"}}}}
	d.pair([]string{"moths 1.jpg", "moths 2.jpg"})
	if len(d.Pairs) != 0 || len(d.Lonely) != 2 {
		t.Errorf("%+v", d)
	}
	// Two rows name one file, and one row two.
	d = &Draft{Sheet: &stocklist.Sheet{Rows: []stocklist.Row{{Title: "A", File: "x.jpg", More: []string{"y.jpg"}}, {Title: "B", File: "x.jpg"}}}}
	works := d.pair([]string{"x.jpg", "y.jpg"})
	if works[0].photo != "x.jpg" || works[1].photo != "x.jpg" || fmt.Sprint(d.Further) != "[y.jpg (A)]" {
		t.Errorf("%+v", d)
	}
}

// A photograph's name, a title in the list and the scene that is made of them may spell é in two ways.
func TestPairsInTwoSpellings(t *testing.T) {
	fsys := fstest.MapFS{"cafe\u0301.jpg": photo(t, 40, 20), "list.csv": {Data: []byte("Title,Height,Width,Price\nCaf\u00e9,10 in,20 in,100\nOther,10 in,20 in,100\n")}}
	d, err := Make(fsys, Options{})
	if err != nil {
		t.Fatal(err)
	}
	p := built(t, fsys, d)
	if w := p.Part("work/caf\u00e9"); w == nil || w.Work.Image == nil {
		t.Errorf("%+v\n%s", w, d.Scene)
	}
}

// A list as Windows writes it names a photograph whose name has letters beyond ASCII.
func TestPairsANameFromWindows(t *testing.T) {
	fsys := fstest.MapFS{"wei\u00dfdorn.jpg": photo(t, 40, 20), "list.csv": {Data: []byte("Titel;H\xf6he (cm);Breite (cm);Bild\nIm Hag;20;40;wei\xdfdorn.jpg\n")}}
	d, err := Make(fsys, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Pairs) != 1 || d.Pairs[0].How != "the list names the file" {
		t.Errorf("%+v", d.Pairs)
	}
}

// built is the booth that a draft makes.
func built(t *testing.T, fsys fstest.MapFS, d *Draft) *booth.Plan {
	t.Helper()
	f, err := scene.Parse(SceneFile, []byte(d.Scene))
	if err != nil {
		t.Fatalf("%v\n%s", err, d.Scene)
	}
	p, err := kinds.Build(f, rules.Book{}, fsys)
	if err != nil {
		t.Fatalf("%v\n%s", err, d.Scene)
	}
	return p
}

// Whatever the list, what hangs hangs well: no work overlaps, sticks out or is out of reach of a hook.
func TestPlansHoldTheRules(t *testing.T) {
	for _, units := range []string{"in", "cm"} {
		for n := 1; n <= 40; n += 3 {
			list := "No,Title,Height,Width,Unit,Weight,Price\n"
			for i := range n {
				h, w := 10+(i*7)%23, 8+(i*11)%29
				if units == "cm" {
					h, w = h*5/2, w*5/2
				}
				list += fmt.Sprintf("%d,\"Work: no. %d, \"\"red\"\"\",%d,%d,%s,%dlb,1%d0\n", i+1, i+1, h, w, units, 2+i%9, i)
			}
			fsys := fstest.MapFS{"list.csv": {Data: []byte(list)}}
			d, err := Make(fsys, Options{})
			if err != nil {
				t.Fatal(err)
			}
			p := built(t, fsys, d)
			if left := len(d.Left); left != len(p.Waiting) {
				t.Errorf("%d works in %s: %d have no room, and %d wait", n, units, left, len(p.Waiting))
			}
			hung := 0
			for _, part := range p.Parts {
				if part.Work != nil {
					hung++
				}
			}
			if hung+len(d.Left) != n || n <= 13 && len(d.Left) > 0 {
				t.Errorf("%d works in %s: %d hang, %v do not", n, units, hung, d.Left)
			}
			lacks := 0
			for _, f := range check.Run(p).Findings {
				if f.Check == "list" && f.Level == check.Fail {
					lacks++
				} else if f.Level == check.Fail || f.Level == check.Caution && f.Check != "behind" && f.Check != "unseen" {
					t.Errorf("%d works in %s: %s: %s", n, units, f.Check, f.Message)
				}
			}
			if lacks != min(len(d.Left), 1) || len(p.Missing) != len(d.Left) {
				t.Errorf("%d works in %s: %d have no room, %d are missing, told %d times", n, units, len(d.Left), len(p.Missing), lacks)
			}
			if d2, _ := Make(fsys, Options{}); d2.Scene != d.Scene {
				t.Error("another scene the second time")
			}
		}
	}
}

func TestPlan(t *testing.T) {
	w := func(name string, h, w, lb float64) *work {
		return &work{name: name, row: stocklist.Row{Title: name, Size: unit.Size{A: unit.Length(h) * unit.Inch, B: unit.Length(w) * unit.Inch}, Weight: unit.Weight(lb) * unit.Pound}}
	}
	b := booths[unit.Inches]
	rows, left := b.hang([]*work{w("small", 10, 10, 2), w("large", 36, 48, 12), w("middle", 20, 24, 5)})
	if len(left) != 0 || rows[0].wall != "back" || rows[0].works[len(rows[0].works)/2].name != "large" {
		t.Errorf("%+v", rows[0])
	}
	if _, left := b.hang([]*work{w("huge", 120, 40, 9), w("small", 10, 10, 2)}); len(left) != 1 || left[0].name != "huge" {
		t.Errorf("%v", left)
	}
	var many []*work
	for i := range 24 {
		many = append(many, w(fmt.Sprint(i), 14, 12+float64(i%5), float64(1+(i*5)%7)))
	}
	rows, left = b.hang(many)
	if len(left) != 0 {
		t.Errorf("%d of 24 small works do not hang", len(left))
	}
	for i := 1; i < len(rows); i++ { // heavy ones low
		if lower, upper := rows[i-1], rows[i]; lower.low && upper.wall == lower.wall {
			for _, u := range upper.works {
				for _, l := range lower.works {
					if u.row.Weight > l.row.Weight && upper.taken-u.row.Size.B+l.row.Size.B <= upper.room && lower.taken-l.row.Size.B+u.row.Size.B <= lower.room {
						t.Errorf("%s wall: %s hangs above %s", lower.wall, u.row.Weight.Format(unit.Inches), l.row.Weight.Format(unit.Inches))
					}
				}
			}
		}
	}
}

// A painter hangs the largest work in the middle of the back wall, on the eye line, between two of one family and size; the other large ones hang, and
// small ones wait.
func TestFirstHanging(t *testing.T) {
	list := "Title,Height (in),Width (in),Series\nEstuary,48,60,\nHeron,36,24,Birds\nCurlew,24,24,Birds\nMudflats,30,40,\nSaltings,24,36,\nBarn I,12,12,Barns\nBarn II,12,12,Barns\nBarn III,12,12,Barns\n" +
		"Orchard,20,15,\nPears,10,8,\nLane,40,30,\nFerry,30,30,\nSmall moon,6,6,\nMarsh,20,60,\nGate,16,20,\nYew,36,36,\nReeds,30,36,\nQuay,30,38,\n"
	fsys := fstest.MapFS{"list.csv": {Data: []byte(list)}}
	d, err := Make(fsys, Options{})
	if err != nil {
		t.Fatal(err)
	}
	p := built(t, fsys, d)
	h := p.Part("work/estuary").Work.Hung
	wall := p.Part(h.Wall)
	if middle := (h.X0 + h.X1) / 2; wall.ID != "wall/back" || math.Abs(middle-wall.Wall.Width/2) > 0.03 || math.Abs(h.Centre()-1.473) > 0.05 {
		t.Errorf("the largest work hangs at %.3f of %.3f m, %.3f m up", middle, wall.Wall.Width, h.Centre())
	}
	for _, r := range p.Rows {
		if r.Wall == wall.ID && (len(r.Works) != 3 || r.Works[0] != "work/barn i" || r.Works[2] != "work/barn ii") {
			t.Errorf("on the back wall hang %v", r.Works)
		}
	}
	for _, name := range []booth.ID{"work/yew", "work/quay", "work/mudflats", "work/lane", "work/marsh"} {
		if p.Part(name) == nil {
			t.Errorf("%s waits, and small works hang", name)
		}
	}
}

// Rows and photographs are counted against the list itself: there is nothing outside to hold that against.
func TestDraft(t *testing.T) {
	fsys := fstest.MapFS{
		"heron.jpg": photo(t, 360, 240), "deep/IMG_7.jpg": photo(t, 200, 200), "moths.jpg": {Data: []byte("text")}, "lost.png": photo(t, 9, 9),
		"raw.nef": {Data: []byte("x")}, ".hidden/a.jpg": photo(t, 9, 9), "mockup/booth.glb": {}, "mockup/entrance.png": photo(t, 9, 9),
		"works.csv": {Data: []byte("No,Title,Size,Price\n1,Heron,24 x 36,480\n7,Tideline,20 x 20,300\n8,Moths,14 x 11,140\n9,Moths,14 x 11,140\n10,Barn,,90\n11,Pears,big,90\n")},
	}
	if _, err := Make(fsys, Options{}); err == nil || err.Error() != "works.csv does not say whether its sizes are in inches or in centimetres: 4 of its 6 rows do not (start again with --units in or --units cm, or write the unit into the heading: Size (in))" {
		t.Error(err)
	}
	d, err := Make(fsys, Options{Units: "in"})
	if err != nil {
		t.Fatal(err)
	}
	p := built(t, fsys, d)
	if w := p.Part("work/heron"); w == nil || w.Work.Image == nil || w.Work.Image.Width != 360 || w.Work.Price != 48000 {
		t.Errorf("%+v", w)
	}
	if w := p.Part("work/9"); w == nil || w.Name != "Moths" { // two of one title: known by their numbers
		t.Errorf("no work 9\n%s", d.Scene)
	}
	got := fmt.Sprint(d.Pairs, d.Lonely, d.Unpictured, d.Left, d.Unusable, d.Notes)
	for _, want := range []string{"{deep/IMG_7.jpg Tideline the file has the work's number}", "[lost.png]", "moths.jpg is on several works: Moths (row 4) and Moths (row 5).", "{6 Barn 0 it has no size", "raw.nef: this kind", "{7 Pears 0 Size: "} {
		if !strings.Contains(got, want) {
			t.Errorf("%s\nhas no %s", got, want)
		}
	}
	for _, unwanted := range []string{"hidden", "mockup"} {
		if strings.Contains(got+d.Scene, unwanted+"/") {
			t.Errorf("%s was looked into", unwanted)
		}
	}
}

// A photograph that only the list knows of is left out, and its work hangs without one.
func TestPhotographThatIsNotThere(t *testing.T) {
	fsys := fstest.MapFS{"heron.jpg": photo(t, 36, 24), "works.csv": {Data: []byte("Photo,Title,Size\nheron.jpg,Heron,24 x 36 in\ngone.jpg,Gone,20 x 16 in\n")}}
	d, err := Make(fsys, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if w := built(t, fsys, d).Part("work/gone"); w == nil || w.Work.Image != nil || fmt.Sprint(d.Unpictured) != "[Gone (row 3, which names gone.jpg)]" {
		t.Errorf("%+v, %v", w, d.Unpictured)
	}
}

// Without a list there is one to fill in, which can be read when that is done.
func TestBlankList(t *testing.T) {
	fsys := fstest.MapFS{"heron, weir.jpg": photo(t, 36, 24), "alder_carr.png": photo(t, 9, 9)}
	d, err := Make(fsys, Options{})
	if err != nil || d.Scene != "" || !strings.Contains(d.List, "alder_carr.png,alder carr,,,in") {
		t.Fatalf("%v %+v", err, d)
	}
	fsys[SheetFile] = &fstest.MapFile{Data: []byte(d.List)}
	if _, err := Make(fsys, Options{}); err == nil || !strings.Contains(err.Error(), "no row of works.csv has a size yet (fill in") {
		t.Errorf("%v", err)
	}
	fsys[SheetFile] = &fstest.MapFile{Data: []byte(strings.Replace(d.List, ",,,in", ",24,36,in", 2))}
	if d, err = Make(fsys, Options{}); err != nil || len(d.Pairs) != 2 || len(d.Lonely)+len(d.Left) > 0 {
		t.Errorf("%v %+v", err, d)
	}
	built(t, fsys, d)
}

func TestNothingToStartFrom(t *testing.T) {
	one := fstest.MapFile{Data: []byte("Title,Size\nHeron,24 x 36 in\n")}
	for want, c := range map[string]struct {
		fsys fs.FS
		o    Options
	}{
		"no photographs and no list": {fstest.MapFS{"notes.txt": {}}, Options{}},
		"several lists here":         {fstest.MapFS{"a.csv": &one, "b.csv": &one}, Options{}},
		"no such sheet":              {fstest.MapFS{"a.csv": &one}, Options{Sheet: "b.csv"}},
		"is no unit":                 {fstest.MapFS{"a.csv": &one}, Options{Units: "yards"}},
		"no row of headings":         {fstest.MapFS{"a.csv": {Data: []byte("hello\n")}}, Options{}},
		"none of the works fits":     {fstest.MapFS{"a.csv": {Data: []byte("Title,Size\nHeron,9 x 11 ft\n")}}, Options{}},
		"can be read; row 2":         {fstest.MapFS{"a.csv": {Data: []byte("Title,Size\nHeron,large\n")}}, Options{}},
	} {
		_, err := Make(c.fsys, c.o)
		var l fault.List
		if !errors.As(err, &l) || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// Whatever titles and files are called, the scene can be read.
func FuzzNames(f *testing.F) {
	for _, s := range []string{"Heron", "no", "7", "a: b", "#1", "{x}", "É \"weir\"", "- a", "*x", "'", "\\", "null", "1e3", "~", "ö/ü"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d := &Draft{Sheet: &stocklist.Sheet{Name: "list.csv"}}
		works := []*work{{row: stocklist.Row{Title: s, Size: unit.Size{A: 1, B: 1}}}, {row: stocklist.Row{Title: s, No: s, Size: unit.Size{A: 0.5, B: 1}}, photo: strings.Map(func(r rune) rune {
			if r < ' ' || r == 0x7f || r == 0xfffd {
				return -1
			}
			return r
		}, "p"+s+".jpg")}}
		nameWorks(works)
		b := booths[unit.Inches]
		rows, unhung := b.hang(works)
		text := b.text(d, works, rows, unhung)
		f, err := scene.Parse("a.yaml", []byte(text))
		if err != nil {
			if len(s) > 1500 || strings.ContainsAny(s, "\u0085\u2028\u2029") {
				return
			}
			t.Fatalf("%v\n%s", err, text)
		}
		if n := len(f.Items("works")); n != 2 {
			t.Errorf("%d works\n%s", n, text)
		}
	})
}

// A list that states no unit is asked for one; the scene then has it, and the list's currency.
func TestUnitsAreAskedFor(t *testing.T) {
	fsys := fstest.MapFS{"list.csv": {Data: []byte("Title;Height;Width;Price\nHeron;60,5;91;480 €\n")}}
	if _, err := Make(fsys, Options{}); err == nil || !strings.Contains(err.Error(), "whether its sizes are in inches or in centimetres: none of its rows does (start again with --units in or --units cm") {
		t.Error(err)
	}
	for units, want := range map[string]string{"cm": "units: cm", "in": "units: in"} {
		d, err := Make(fsys, Options{Units: units})
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(d.Scene, want+"\n") || !strings.Contains(d.Scene, "currency: \"1.250,00 €\"\n") {
			t.Errorf("--units %s: the scene has no %s or no euros:\n%s", units, want, d.Scene)
		}
	}
	fsys = fstest.MapFS{"list.csv": {Data: []byte("Title,Size,Weight\nHeron,24 x 36 in,8\n")}}
	d, err := Make(fsys, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if w := built(t, fsys, d).Part("work/heron"); w.Work.Weight.Format(unit.Inches) != "8 lb" || fmt.Sprint(d.Notes) != "[One row has a weight without a unit, which is taken for pounds: write Weight (lb) or Weight (kg) over the column.]" {
		t.Errorf("%v %v", w.Work.Weight, d.Notes)
	}
}

// Four lists as people keep them, made for this: one in German from a spreadsheet program on Windows, one exported by a
// telephone with merged cells and a second tab, one written by hand over years, and one in French with numbers of canvases for sizes. Each gives a booth in which nothing must be
// mended, and every row that does not hang is named with its reason.
func TestMessyLists(t *testing.T) {
	for name, c := range map[string]struct {
		hang, wait string
		left       []string
		amounts    map[string]string
		doubts     int
	}{
		"german": {
			"Erlenbruch im März; Holunder; Krickenten; Mutter am Fenster; Reiher am Wehr; Silberreiher; Weißdorn; Zwei Hasen", "Nachtfahrt: price on request; Otter: 1.900\u00a0€",
			[]string{"4 Ölbilder: a line", "8 Nachtfahrt: a spare", "9 Großer Deich: sold", "12 Linolschnitte: a line", "17 Otter: a sculpture: it waits", "18 Kartenset Moor: not for a wall", "19 Summe: a total"},
			map[string]string{"Reiher am Wehr": "1.250\u00a0€", "Weißdorn": "on hold", "Mutter am Fenster": "not for sale", "Holunder": "120\u00a0€"}, 0,
		},
		"phone": {
			"Ferry, evening; Ferry, morning; Market stall; Market stall, print; Market stall, small print; Roofs; Steps to the quay; Tram depot", "",
			[]string{"5 Crane no. 3: sold", "11 Lamplight: Size (in) H: the spreadsheet has made a date", "14 Total: a total"},
			map[string]string{"Ferry, evening": "$780", "Market stall, small print": "$40", "Tram depot": ""}, 1,
		},
		"years": {
			"Heron by night; Hill with larches; Old quarry; Orchard; Orchard; Otters; Three moths; Tideline (diptych); Winter reeds", "Weir in frost: not for sale",
			[]string{"6 Red barn: sold", "10 2023: a line", "11 What it's called: the headings again", "12 Weir in frost: a spare", "15 Study in blue: How big (h x w): the spreadsheet has made a date", "17 Greeting cards: not for a wall", "20 total: a total"},
			map[string]string{"Heron by night": "$950", "Hill with larches": "on hold", "Old quarry": "price on request", "Otters": "", "Winter reeds": "$1,100"}, 1,
		},
		"figures": {
			"Carré bleu; Le grand ciel; Les peupliers; Marée basse; Portrait de Lise; Voiles au large", "",
			[]string{"7 Nature morte: sold"},
			map[string]string{"Marée basse": "950\u00a0€", "Voiles au large": "on hold", "Portrait de Lise": "1\u00a0200\u00a0€", "Le grand ciel": "price on request"}, 0,
		},
	} {
		fsys := os.DirFS("../../../testdata/lists/" + name)
		d, err := Make(fsys, Options{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		f, err := scene.Parse(SceneFile, []byte(d.Scene))
		if err != nil {
			t.Fatal(err)
		}
		p, err := kinds.Build(f, rules.Book{}, fsys)
		if err != nil {
			t.Fatalf("%s: %v\n%s", name, err, d.Scene)
		}
		var hang, wait []string
		for _, l := range p.Catalogue() {
			if w := l.Work; l.On != "" {
				hang = append(hang, w.Title)
				if want, ok := c.amounts[w.Title]; ok && want != w.Amount(p.Currency) {
					t.Errorf("%s, %s: visitors are told %q, want %q", name, w.Title, w.Amount(p.Currency), want)
				}
				if w.Image == nil {
					t.Errorf("%s, %s has no photograph", name, w.Title)
				}
			}
		}
		slices.Sort(hang)
		for _, w := range p.Waiting {
			wait = append(wait, w.Work.Title+": "+w.Work.Amount(p.Currency))
		}
		if got := strings.Join(hang, "; "); got != c.hang || strings.Join(wait, "; ") != c.wait {
			t.Errorf("%s: these hang: %s; these wait: %s", name, got, wait)
		}
		for i, l := range d.Left {
			if i >= len(c.left) || !strings.HasPrefix(fmt.Sprintf("%d %s: %s", l.Row, l.What, l.Why), c.left[i]) {
				t.Errorf("%s: %+v", name, l)
			}
		}
		if len(d.Left) != len(c.left) || len(d.Sheet.Doubts) != c.doubts {
			t.Errorf("%s: %d rows do not hang, and of %d something is left out", name, len(d.Left), len(d.Sheet.Doubts))
		}
		for _, f := range check.Run(p).Findings {
			if f.Level == check.Fail && f.Check != "list" {
				t.Errorf("%s: %s", name, f.Message)
			}
		}
		for _, money := range []string{"190", "31", "390.00"} { // what it cost stands nowhere in the scene
			if strings.Contains(d.Scene, `"`+money+`"`) {
				t.Errorf("%s: the scene has what a work cost:\n%s", name, d.Scene)
			}
		}
	}
}
