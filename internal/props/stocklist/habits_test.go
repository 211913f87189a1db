package stocklist

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
)

// one is the only row of a list of that row, and what is said of it.
func one(t *testing.T, list string) (Row, string) {
	t.Helper()
	s := read(t, list)
	said := ""
	for _, r := range append(s.Unread, s.Doubts...) {
		said += r.Why + "\n"
	}
	if len(s.Rows) != 1 {
		return Row{}, said + "no row"
	}
	return s.Rows[0], said
}

// Headings as lists of different habits have them, each with what its owner means.
func TestHeadingsOfHabit(t *testing.T) {
	for heading, want := range map[string]string{
		"Bildtitel": "title", "Item Name": "title", "N°": "number", "Nº": "number", "Titre de l'œuvre": "title", "Motiv": "title", "Subject": "title", "Titel des Werks": "title", "Artwork Title": "title",
		"Entstehung": "year", "When": "year", "Date Added": "yours alone", "Last updated": "yours alone", "Date created": "year", "Année de création": "year",
		"Purchase Price": "what it cost you", "Prix d'achat": "what it cost you", "Prix d’achat encadrement": "what it cost you", "Materialpreis": "what it cost you", "Rahmenpreis": "what it cost you",
		"Price ex VAT": "price without tax", "Prix HT": "price without tax", "Nettopreis": "what it cost you", "Lowest price": "what it cost you",
		"Price incl. VAT": "price", "Prix TTC": "price", "Galeriepreis": "price", "Verkoopprijs": "price", "Asking ($)": "price", "RRP": "price", "List Price (USD)": "price, in $",
		"Framed price": "price with frame", "Price unframed": "price without frame", "Preis gerahmt": "price with frame", "Preis ohne Rahmen": "price without frame", "Prix encadré": "price with frame",
		"Artist": "artist", "Artist name": "artist", "Künstlerin": "artist", "Name of artist": "artist",
		"Qty": "how many there are", "Anzahl": "how many there are", "In stock": "how many there are", "No. left": "how many there are", "Stock no.": "number", "Inventarnummer": "number", "Inv. #": "number",
		"Bring?": "whether it comes", "mitnehmen": "whether it comes", "Hang?": "whether it comes",
		"Framed H": "height with frame", "Framed W (cm)": "width with frame, in cm", "H framed": "height with frame", "Framed dimensions": "size with frame", "Rahmengröße": "size with frame", "Bildgröße (cm)": "size, height x width, in cm",
		"Bildbreite": "width", "Bildhöhe in cm": "height, in cm", "Size (H/W)": "size, height x width", "W/H": "size, width x height", "Height x Width": "size, height x width", "L x H (cm)": "size, width x height, in cm",
		"Dimensions en pouces": "size, height x width, in inches", "Medidas (centímetros)": "size, height x width, in cm", "Med.": "medium", "Bildmaterial": "medium", "Maltechnik": "medium",
		"pic": "photograph", "Img": "photograph", "Fotodatei": "photograph", "Bildname": "photograph", "Tags": "", "Keywords": "",
	} {
		meansAs(t, heading, want)
	}
}

// Sizes as people write them into one cell; what is framed stands behind a bar.
func TestSizesOfHabit(t *testing.T) {
	for text, want := range map[string]string{
		"24 x 36 in": "24 x 36", `24"x36"`: "24 x 36", `24" x 36"`: "24 x 36", "24 in x 36 in": "24 x 36", "24 × 36 inches": "24 x 36", "24in by 36in": "24 x 36", `24" by 36"`: "24 x 36", "24*36 in": "24 x 36",
		"24 x 36 in.": "24 x 36", "24 in. x 36 in.": "24 x 36", "24”x36”": "24 x 36", "24'' x 36''": "24 x 36", "20 1/2 x 16 in": "20 1/2 x 16", "20-1/2 x 16-3/4 in": "20 1/2 x 16 3/4", "20½ x 16¾ in": "20 1/2 x 16 3/4",
		"20.5 x 16 in": "20 1/2 x 16", "20,5 x 16 in": "20 1/2 x 16", "3' x 4'": "36 x 48", "3ft x 4ft": "36 x 48", "2 ft 6 in x 3 ft": "30 x 36", `2'6" x 3'`: "30 x 36", "3 x 4 ft": "36 x 48",
		"H: 24 W: 30 in": "24 x 30", "H: 24 W: 30 D: 1.5 in": "24 x 30", `24"h x 30"w`: "24 x 30", `24"H x 30"W x 1.5"D`: "24 x 30", "24h x 30w in": "24 x 30", `30"w x 24"h`: "24 x 30", "H24 W30 in": "24 x 30",
		"24in (h) x 30in (w)": "24 x 30", "24 in high x 30 in wide": "24 x 30", "30 in wide by 24 in high": "24 x 30", "W 30 in, H 24 in": "24 x 30", "24 in. H x 30 in. W": "24 x 30", "h24in x w30in": "24 x 30",
		"24 x 36 in framed 28 x 40": "24 x 36 | 28 x 40", "24 x 36 in (framed 28 x 40 in)": "24 x 36 | 28 x 40", "24 x 36 in, framed: 28 x 40": "24 x 36 | 28 x 40", "24x36in (fr. 28x40)": "24 x 36 | 28 x 40",
		`24" x 36" / 28" x 40" framed`: "24 x 36 | 28 x 40", "24 x 36 in, 28 x 40 in with frame": "24 x 36 | 28 x 40", "24 x 36 in unframed": "24 x 36", "24 x 36 in (unframed)": "24 x 36", "28 x 40 in framed": "26 1/2 x 38 1/2 | 28 x 40",
		"framed 28 x 40 in": "26 1/2 x 38 1/2 | 28 x 40", "24 x 36 in (image)": "24 x 36", "image 24 x 36 in": "24 x 36", "16 x 48 in overall": "16 x 48", "16 x 48 in overall (three 16 x 16)": "16 x 48", "16 x 48 in (3 panels)": "16 x 48",
		"12 in square": "12 x 12", `12" sq.`: "12 x 12", "12 x 12 in sq": "12 x 12", "24 in diameter": "24 x 24", `dia. 24"`: "24 x 24", "Ø 24 in": "24 x 24", "24 x 36 in canvas": "24 x 36", "24 x 36 in (61 x 91 cm)": "24 x 36", "24 x 36 in / 61 x 91 cm": "24 x 36",
		"A3": "16 1/2 x 11 3/4", "A4 landscape": "8 1/4 x 11 3/4", "A3 quer": "11 3/4 x 16 1/2", "about 24 x 36 in": "24 x 36", "24 x 36 in approx": "24 x 36", "24 x 36 in.?": "24 x 36",
		"24 x 36 x 1.5 in": "24 x 36", "24 in x 36 in x 1 1/2 in deep": "24 x 36", "2 @ 12 x 12 in": "12 x 26", "12 x 12 in each": "", "two panels, 12 x 12 in each": "12 x 26", "12 x 12 in (each)": "", "big": "", "24": "", "24 x": "", "9/12": "",
	} {
		r, said := one(t, "Title;Size\nHeron;"+text+"\n")
		got := ""
		if r.Size.A > 0 {
			got = strings.TrimSuffix(r.Size.Format(unit.Inches), " in")
			if r.Frame != nil {
				b := 2 * r.Frame.Width
				got += " | " + strings.TrimSuffix(unit.Size{A: r.Size.A + b, B: r.Size.B + b}.Format(unit.Inches), " in")
			}
		}
		if got != want || want == "" && said == "" {
			t.Errorf("%s: %q, want %q: %s", text, got, want, said)
		}
	}
	for text, want := range map[string]string{
		"61 x 91 cm": "61 x 91", "61x91cm": "61 x 91", "61 cm x 91 cm": "61 x 91", "610 x 910 mm": "61 x 91", "61,5 x 91,0 cm": "61.5 x 91", "0.61 x 0.91 m": "61 x 91", "1,20 m x 80 cm": "120 x 80", "H 61 x L 91 x P 4 cm": "61 x 91",
		"H 61 x B 91 cm": "61 x 91", "B 91 x H 61 cm": "61 x 91", "91 cm breit, 61 cm hoch": "61 x 91", "60 x 120 cm (2 x 60 x 60)": "60 x 120", "50 x 70 cm, gerahmt 60 x 80": "50 x 70", "50 x 70 cm (gerahmt)": "46.2 x 66.2", "50 x 70 cm m.R. 60 x 80 cm": "50 x 70",
		"46 x 38 cm encadré 60 x 52": "46 x 38", "60cm²": "", "10F": "55 x 46", "30 P": "65 x 92", "15 Paysage": "50 x 65", "12 M": "38 x 61", "n° 20 Figure": "73 x 60", "8F (46x38)": "46 x 38", "8F (38 x 46 cm)": "38 x 46", "20F horizontal": "60 x 73", "8F (40 x 50)": "", "7F": "",
	} {
		r, said := one(t, "Title;Size\nHeron;"+text+"\n")
		got := ""
		if r.Size.A > 0 {
			got = strings.TrimSuffix(r.Size.Format(unit.Centimetres), " cm")
		}
		if got != want || want == "" && said == "" {
			t.Errorf("%s: %q, want %q: %s", text, got, want, said)
		}
	}
}

// Three sizes are height, width and depth, unless the row says that it has parts; several sizes, and one size of a work in parts, are a
// question. A sculptor's material stands where a canvas so deep would hang.
func TestSizesOfThingsAreAsked(t *testing.T) {
	for list, want := range map[string]string{
		"Title,Size,Medium\nHare,9 x 7 x 22 in,\"mixed\"":   "9 x 7 in x 22 in stands",
		"Title,Size,Medium\nHare,9 x 7 x 4 in,bronze":       "9 x 7 in x 4 in stands",
		"Title,Size,Medium\nHare,9 x 7 x 2 in,oil":          "9 x 7 in x 2 in",
		"Title,Size,Medium\nHare,9 x 7 x 4 in,oil":          "9 x 7 in x 4 in",
		"Title,Size\nTide (diptych),12 x 36 in":             "12 x 36 in One work in parts has one size: it is taken for that over all, and the work hangs in one piece. Write 2 x (12 x 18 in) if its parts hang side by side. (row 2)",
		"Title,Size\nTide (diptych),12 x 36 in overall":     "12 x 36 in",
		"Title,Size,Price\nTide,\"8 x 10, 11 x 14 in\",40":  "8 x 10 in Size: \"8 x 10, 11 x 14 in\" is more than one size; the first of them counts (give each size a row of its own)",
		"Title,Size,Price\nTide,8x10in/11x14in,40":          "8 x 10 in Size: \"8x10in/11x14in\" is more than one size; the first of them counts (give each size a row of its own)",
		"Title,Size,Price\nTide,24 x 36 in / 61 x 91 cm,40": "24 x 36 in",
		"Title,Size,Price\nTide,8 x 10 in,80-120":           "8 x 10 in from Price: \"80-120\" is more than one price; the least of them counts, as “from” (write the one that visitors pay)",
	} {
		s := read(t, list+"\n")
		if len(s.Rows) != 1 {
			t.Errorf("%q: %v", list, s.Unread)
			continue
		}
		r := s.Rows[0]
		got := r.Size.Format(unit.Inches)
		if r.Depth > 0 {
			got += " x " + r.Depth.Format(unit.Inches)
		}
		if r.Sculpture() {
			got += " stands"
		}
		if r.Status != ForSale {
			got += " " + string(r.Status)
		}
		for _, d := range s.Doubts {
			got += " " + d.Why
		}
		for _, n := range s.Notes {
			got += " " + n
		}
		if got != want {
			t.Errorf("%q:\n%s, want\n%s", list, got, want)
		}
	}
}

// Prices as people write them, with what a tag then says. A price that cannot be read costs no more than itself.
func TestPricesOfHabit(t *testing.T) {
	for text, want := range map[string]string{
		"480": "480", "$480": "480", "$480.00": "480", "480,- €": "480", "480.–": "480", "480,--": "480", "1.450,00 €": "1,450", "€ 1.450": "1,450", "1 200 €": "1,200", "1 200,50 €": "1,200.50", "1'200.–": "1,200", "CHF 1'200.-": "1,200", "Fr. 480.–": "480",
		"SFr. 480": "480", "£1,150": "1,150", "£395.00": "395", "US$ 480": "480", "480 USD": "480", "480 dollars": "480", "480 Euro": "480", "480 EUR inkl. MwSt.": "480", "1.100 € VB": "1,100", "480 VHB": "480", "$480 obo": "480", "£480 ono": "480",
		"180 ea": "180", "180 each": "180", "$180 ea.": "180", "$480 framed": "480", "480 (framed)": "480", "480 inc. frame": "480", "480 unframed": "480", "60 unframed / 95 framed": "60", "$95 framed, $60 unframed": "60", "ca. 480 €": "480", "~$480": "480", "about 480": "480",
		"$1.2k": "1,200", "12,5k": "12,500", "480-520": "480", "80 / 120": "80", "€80 – €120": "80", "20 or 35": "20", "$5 each / 5 for $20": "", "from $35": "35", "ab 35 €": "35", "da € 90": "90", "desde 90 €": "90", "$50+": "50", "$50 and up": "50", "$40/set": "40", "$ 1,250.-": "1,250", "EUR 1.200,00": "1,200", "480€": "480", "480 €/St.": "480", "$480!": "480", "480 *": "480", "free": "", "0": "", "0.00": "",
	} {
		r, said := one(t, "Title\tSize\tPrice\nHeron\t24 x 36 in\t"+text+"\n")
		got := ""
		if r.Price > 0 {
			got = r.Price.Format("")
		}
		if got != want || r.Title == "" {
			t.Errorf("%s: %q, want %q: %s", text, got, want, said)
		}
	}
	for row, want := range map[string]string{
		"yes,210,150": "210", "no,210,150": "150", ",210,150": "150", "yes,210,": "210", "no,,150": "150", "no,210,": "210", "yes,,150": "150",
	} {
		if r, said := one(t, "Title,Size,Framed?,Framed price,Unframed price\nHeron,24 x 36 in,"+row+"\n"); r.Price.Format("") != want {
			t.Errorf("%s: %s, want %s: %s", row, r.Price.Format(""), want, said)
		}
	}
}

// What a list says of whether a work comes, in the words of its owner.
func TestStatesOfHabit(t *testing.T) {
	for text, want := range map[string]string{
		"Consigned - Hill St": "elsewhere", "Reserv.": "on hold", "res. bis 12.10.": "on hold", "verk.": "sold", "vendue": "sold", "dispo": "", "HOLD for Jeanne": "on hold", "red dot": "sold", "●": "sold", "donated": "elsewhere",
		"private collection": "elsewhere", "painted over": "elsewhere", "in progress": "elsewhere", "not finished": "elsewhere", "Privatbesitz": "elsewhere", "venduta": "sold", "SOLD!": "sold", "sold?": "sold", "Sold - Open Studios": "sold", "n/a": "", "in my kitchen": "?",
	} {
		r, said := one(t, "Title,Size,Status\nHeron,24 x 36 in,"+text+"\n")
		got := string(cmp.Or(r.Away, r.Status))
		switch {
		case r.Sold:
			got = "sold"
		case said != "":
			got = "?"
		}
		if got != want {
			t.Errorf("%s: %q, want %q: %s", text, got, want, said)
		}
	}
	for list, want := range map[string]string{
		"Where/status\nmy kitchen": " ", "verkauft / reserviert\nres. bis 12.10.": "on hold ", "verkauft / reserviert\nFrau Dr. Tams, Mai": " sold", "Sold?\nY - Open Studios": " sold", "Sold?\nn": " ",
		"Notes\ngift for mum, not for sale": "not for sale ", "Notes\nneeds a wire; sold to Ruth": " sold", "Notes\nthe one like it was sold": " ", "Bring?\nn": "spare ", "Bring?\ny": " ", "Qty\n0": " sold", "Qty\n6 left": " ", "Qty\n1": " ", "In stock\nno": "elsewhere ",
	} {
		heading, cell, _ := strings.Cut(list, "\n")
		r, said := one(t, "Title\tSize\t"+heading+"\nHeron\t24 x 36 in\t"+cell+"\n")
		got := string(cmp.Or(r.Away, r.Status)) + " "
		if r.Sold {
			got += "sold"
		}
		if got != want || said != "" {
			t.Errorf("%q: %q, want %q: %s", list, got, want, said)
		}
	}
	s := read(t, "Title,Size,Bring\nHeron,24 x 36 in,x\nWeir,14 x 11 in,\n")
	if got := fmt.Sprint(s.Rows[0].Away, "|", s.Rows[1].Away); got != "|spare" {
		t.Errorf("what is ticked comes: %s", got)
	}
	for cell, want := range map[string]string{
		"Eiche, 50 x 60 cm": "2.5 cm #c2a173", "white, matted to 50 x 60 cm": "2.5 cm white", "Goldleiste": "0 cm #b8964e", "baguette noire": "0 cm #1d1b19", "cadre doré": "0 cm #b8964e", "schwarzer Holzrahmen": "0 cm #1d1b19", "Weißer Rahmen": "0 cm white",
		"floater": "0 cm ", "caisse américaine": "0 cm ", "sì, nera": "0 cm #1d1b19", "Schattenfuge weiß": "0 cm white", "none": "none", "not framed": "none", "canvas only": "none", "unframed": "none", "gallery wrap": "none", "mounted only": "none", "sans cadre": "none",
	} {
		r, said := one(t, "Title;Size;Framed?\nHeron;45 x 55 cm;"+cell+"\n")
		got := "none"
		if r.Frame != nil {
			got = r.Frame.Width.Format(unit.Centimetres) + " " + r.Frame.Colour
		}
		if got != want || said != "" {
			t.Errorf("%s: %q, want %q: %s", cell, got, want, said)
		}
	}
}

// What stands or lies is known by what it is called, in several languages.
func TestWhatStands(t *testing.T) {
	for kind, stands := range map[string]bool{
		"Painting": false, "Print": false, "Sculpture": true, "Scultura": true, "Ceramics": true, "Céramique": true, "Keramik": true, "Greeting Cards": true, "Book": true, "Sketchbook": true, "Tea towel": true, "Bijoux": true, "Mug": true, "Bronze": false, "Bookplate": false,
	} {
		if r, said := one(t, "Title,Size,Type\nHeron,24 x 36 in,"+kind+"\n"); (r.Stands != "") != stands || said != "" {
			t.Errorf("%s: %q %s", kind, r.Stands, said)
		}
	}
	for title, stands := range map[string]bool{"The blue vase": false, "Heron greeting card": true, "Tea towel": true, "Mounted prints (browser)": true, "Kartenset Küste": true, "House of cards": true, "Bowl of lemons": false} {
		if r, _ := one(t, "Title,Size\n"+title+",24 x 36 in\n"); (r.Stands != "") != stands {
			t.Errorf("%s: %q", title, r.Stands)
		}
	}
}

// A heading without a unit has the one of its neighbours, and letters for a work's maker and columns for two prices are told.
func TestNeighboursOfHeadings(t *testing.T) {
	s := read(t, "Title;H (cm);W;Framed H;Framed W;Artist\nHeron;24;36;30;42;A. Tollbrook\n")
	if r := s.Rows[0]; r.Size.Format(unit.Centimetres) != "24 x 36 cm" || r.Frame.Width.Format(unit.Centimetres) != "3 cm" || r.Artist != "A. Tollbrook" || s.Columns[3].Meaning != "height with frame, in cm" {
		t.Errorf("%+v", s)
	}
	if s := read(t, "Title;H (cm);W (in);Depth\nHeron;24;36;2\n"); s.Rows[0].Size.Format(unit.Inches) != "9 1/2 x 36 in" || s.Columns[3].Meaning != "depth" {
		t.Errorf("%+v", s)
	}
	s = read(t, "Title,Work,Size,Price framed,Price unframed\nHeron,x,24 x 36 in (framed),210,150\nWeir,y,14 x 11 in,90,60\n")
	if got := strings.Join(s.Notes, " "); !strings.Contains(got, "One row states one size and that it is framed: it is taken for the size with the frame.") ||
		!strings.Contains(got, "One row has a price with and one without a frame") || len(s.Unused) != 1 || s.Unused[0].Meaning != `title: "Title" is that` {
		t.Errorf("%+v", s)
	}
}

// rows are the works of a list, in short: number, title, size, price, status, why it does not hang, edition and photograph.
func rows(t *testing.T, list string) string {
	t.Helper()
	s, out := read(t, list), ""
	for _, r := range s.Rows {
		out += strings.Join([]string{r.No, r.Title, r.Size.Format(unit.Centimetres), r.Price.Format(s.Currency), string(r.Status), string(r.Away), r.Edition, r.File}, "|") + "\n"
	}
	for _, r := range slices.Concat(s.Unread, s.Doubts) {
		out += fmt.Sprintf("%d: %s\n", r.Number, r.Why)
	}
	return out
}

// Several tables on one sheet are read each under its own headings: side by side, and below each other.
func TestTablesOfOneSheet(t *testing.T) {
	beside := "ORIGINALS,,,,,PRINTS,,\nTitle,Size (cm),Medium,Price,,Title,Size (cm),Price\nSlack tide,60 x 90,oil,$900,,Slack tide print,20 x 30,$45\nEbb,40 x 50,oil,$500,,,,\n"
	if got := rows(t, beside); got != "|Slack tide|60 x 90 cm|$900||||\n|Ebb|40 x 50 cm|$500||||\n|Slack tide print|20 x 30 cm|$45||||\n" {
		t.Error(got)
	}
	below := "Title,Size (cm),Price,Photo\nEbb,40 x 50,$500,ebb.jpg\n,,,\nPrints,,,\nPhoto,Title,Edition,Size (cm),Price\nebb2.jpg,Ebb print,3/50,20 x 30,$30\n"
	if got := rows(t, below); got != "|Ebb|40 x 50 cm|$500||||ebb.jpg\n|Ebb print|20 x 30 cm|$30|||3/50|ebb2.jpg\n" {
		t.Error(got)
	}
	for _, one := range []string{"Title,Size,Price,,Photo,Notes\nEbb,40 x 50 cm,$500,,ebb.jpg,x\n", "Title,Size,Price,,Buyer name,Phone\nEbb,40 x 50 cm,$500,,,\n"} {
		if s := read(t, one); len(s.Rows) != 1 || len(s.Columns) < 4 {
			t.Errorf("%q: %+v", one, s)
		}
	}
}

// Lists of further habits: what an inventory program, a phone and a printmaker write.
func TestListsOfFurtherHabits(t *testing.T) {
	for list, want := range map[string]string{
		"Nº inv.;Título de la obra;Alto (cm);Ancho (cm);Precio (IVA incl.);Estado;Ubicación;Imagen\nA-1;La ría;60,5;80;1.200,- €;En préstamo;Taller;C:\\Users\\ana\\ria.jpg\nA-2;Mar;Ø 30;;Consultar;Disponible;Casa;\n": "A-1|La ría|60.5 x 80 cm|€1,200||elsewhere||ria.jpg\nA-2|Mar|30 x 30 cm|€0|on request|spare||\n",
		"Opera;Dimensioni;Prezzo al pubblico;Prezzo galleria;Tecnica\nSera;60x80x4cm;€ 1.200,00;€ 800,00;olio\nVicolo;cm 20 × 15 (foglio 35 × 25);da € 90;€ 50;incisione, es. 3/30\n":                                    "|Sera|60 x 80 cm|€1,200||||\n|Vicolo|20 x 15 cm|€90|from||3/30|\n",
		"Title,Image size,Paper size,Unframed,Framed,File\nOwl,8 x 10 in,11 x 14 in,from $35,$85,file:///Users/nia/owl.jpg\n":                                                                                            "|Owl|20.3 x 25.4 cm|$35|from|||owl.jpg\n",
		"📷 Photo;🖼️ Title;📏 Size;💰 Price;✅ Sold?\ngull 🐦.jpg;Gull 🐦;30 x 40 cm;💲420;❌\nIMG_2.HEIC;Dunes;30 x 40 cm;🔴 sold;\nIMG_3.HEIC;Huts;30 x 40 cm;$160 💸;✅\n":                                                       "|Gull|30 x 40 cm|$420||||gull 🐦.jpg\n|Dunes|30 x 40 cm|$0||||IMG_2.HEIC\n|Huts|30 x 40 cm|$160||||IMG_3.HEIC\n",
		"Title / Τίτλος,Size,Price €,For sale?\nΑυγή στο λιμάνι,50 × 70 cm,1.200,ναι\nВечер,60x80cm,950,нет\n夜の海,45.5 x 38 cm,700,yes\n":                                                                                 "|Αυγή στο λιμάνι|50 x 70 cm|€1,200||||\n|Вечер|60 x 80 cm|€950|not for sale|||\n|夜の海|45.5 x 38 cm|€700||||\n",
		"Title,Size,Price,Location\nWeir,61 x 91 cm,NFS,at home\n":                                                                                                                                         "|Weir|61 x 91 cm|0|not for sale|spare||\n",
		"Title,Size,Medium\nMoth,30 x 20 cm,linocut 3/20\nTeal,30 x 20 cm,\"Linolschnitt, Auflage 30\"\nOak,30 x 20 cm,oil on 2 panels\n":                                                                  "|Moth|30 x 20 cm|0|||3/20|\n|Teal|30 x 20 cm|0|||Auflage 30|\n|Oak|30 x 20 cm|0||||\n",
		"Nummer\tNaam werk\tAfm. (hxb) cm\tVerkoopprijs\tBeschikbaar\tLocatie\n1\tMolen\t60x80\t€ 950,-\tja\tthuis\n2\tDrieluik\t3x 30x30\t€ 900,-\tja\tatelier\n3\tPortret\t50x40\tn.t.k.\tja\tatelier\n": "1|Molen|60 x 80 cm|€950||spare||\n2|Drieluik|30 x 100.2 cm|€900||||\n3|Portret|50 x 40 cm|€0|not for sale|||\n",
		"N°;Titre;H;L;P;Prix public TTC;Prix galerie;Dispo;Commentaire\n1;Étang;65 cm;81 cm;2 cm;1 450 €;900 €;oui;\n2;Marché;40 cm;30 cm;;480 €;300 €;non;vendu à M. D.\n":                                "1|Étang|65 x 81 cm|€1,450||||\n2|Marché|40 x 30 cm|€480||||\n",
		"Title,Dims,£,Consigned to\nSlip,30 x 40 cm,£45 / £90 framed,\nGroyne,12'' x 12'',£210.,The Teashop\nLemons,12 by 16 in,150 or best offer,no\n":                                                    "|Slip|30 x 40 cm|£45||||\n|Groyne|30.5 x 30.5 cm|£210||elsewhere||\n|Lemons|30.5 x 40.6 cm|£150||||\n",
		"Bild;Größe;Preis in EUR;Rahmen\nMöwe;30/40 cm;VB 390;ohne\nEbbe;50:70 cm;1.100;Schattenfugenrahmen\n":                                                                                             "|Möwe|30 x 40 cm|€390||||\n|Ebbe|50 x 70 cm|€1,100||||\n",
	} {
		if got := rows(t, list); got != want {
			t.Errorf("%s\n%s, want\n%s", list, got, want)
		}
	}
}

// How a list writes its prices is how the scene will: by the marks that most people of its language use.
func TestAmountsOfHabit(t *testing.T) {
	for prices, want := range map[string]string{
		"$1,250|$480": "", "£395|£1,150.00": "", "€480|€90.50": "", "480 USD|90 USD": "", "480|520": "", "1.250,00 €|480 €": "1.250,00 €", "€ 1.450|€ 90,50": "€ 1.250,00", "1 200 €|90 €": "1 250,00 €", "CHF 1'200.–|CHF 90": "CHF 1'250.00", "480 €|90 €": "1.250,00 €", "€ on request|480 €": "1.250,00 €",
	} {
		list := "Title;Size;Price\n"
		for _, p := range strings.Split(prices, "|") {
			list += "Heron;30 x 40 cm;" + p + "\n"
		}
		if s := read(t, list); s.Amount != want && prices != "480 USD|90 USD" { // by semicolons a comma is the decimal mark

			t.Errorf("%s: %q, want %q", prices, s.Amount, want)
		}
		if s := read(t, strings.ReplaceAll(list, ";", "\t")); s.Amount != want {
			t.Errorf("%s, by tabs: %q, want %q", prices, s.Amount, want)
		}
	}
}

// A work in parts has the size of each, and how many there are: in the cell, in a column of its own, or in what the work is called.
func TestParts(t *testing.T) {
	for list, want := range map[string]string{
		"Title,Size\nTide,2 x (12 x 12 in)": "2 of 12 x 12 in: 12 x 26 in", "Title,Size\nTide (diptych),12 x 12 in each": "2 of 12 x 12 in: 12 x 26 in", "Title,Size,Parts\nTide,10 x 8 in each,3": "3 of 10 x 8 in: 10 x 28 in",
		"Title,Size\nSix birds (set of 6),4 x 4 in each": "6 of 4 x 4 in: 4 x 34 in", "Title,Size\nDrieluik,3x 30x30 in": "3 of 30 x 30 in: 30 x 94 in", "Title,Size\nBoats (pair),2 no. 10 x 10 in": "2 of 10 x 10 in: 10 x 22 in",
		"Title,Size,Parts\nTide,16 x 48 in overall (three 16 x 16),3": "16 x 48 in", "Title,Size,Parts\nTide,16 x 48 in,3": "16 x 48 in", "Title,Size\nTwo hares,10 x 8 x 2 in": "10 x 8 in", "Title,Size\nTide,10 x 8 in each": "",
	} {
		r, said := one(t, list+"\n")
		got := strings.TrimSuffix(r.Size.Format(unit.Inches), "0 x 0 in")
		if r.Parts > 0 {
			got = fmt.Sprintf("%d of %s: %s", r.Parts, r.Each.Format(unit.Inches), got)
		}
		if got != want || (want == "") != (said != "") {
			t.Errorf("%q: %q, want %q: %s", list, got, want, said)
		}
	}
}

// A list without a currency is in euros if its prices have a decimal comma, and says so; dollars are not put on its tags.
func TestNoCurrency(t *testing.T) {
	s := read(t, "Titel;Maße (cm);Preis\nReiher;60 x 80;1.250,50\nMoor;40 x 50;480\n")
	if s.Currency != "€" || s.Amount != "€ 1.250,00" || len(s.Notes) != 1 || !strings.Contains(s.Notes[0], "names no currency") {
		t.Errorf("%q %q %v", s.Currency, s.Amount, s.Notes)
	}
	if s = read(t, "Title,Size,Price\nMoor,40 x 50 cm,480.50\n"); s.Currency != "" || len(s.Notes) != 0 {
		t.Errorf("%q %v", s.Currency, s.Notes)
	}
}

// Headings of a shop's export, of a fair's form in Spanish, of a French list and of a printmaker's, which were taken for something else or not known.
func TestHeadingsOfFreshLists(t *testing.T) {
	for list, want := range map[string]string{
		"Token,Item Name,Variation Name,Price,Option Value 1\nA1,Fox,12 x 16 in,340,12 x 16 in\nA2,Owl,8 x 10 in,35,8 x 10 in\nA3,Hare,11 x 14 in,55,11 x 14 in\n": "Fox 12 x 16 in",
		"Obra;Medidas (alto x ancho x fondo)\nTorso;38 x 18 x 15 in\n":                                                                                             "Torso 38 x 18 in, 15 in deep",
		"Titre;Haut.;Larg.;Obs.\nLavandes;20 in;24 in;à la maison\n":                                                                                               "Lavandes 20 x 24 in, spare",
		"Print,Image (in),At fair?,Edn\nCove,10 x 12,no,30\n":                                                                                                      "Cove 10 x 12 in, spare, 30",
		"Opera;Dim.\nDittico della sera;12x16 in cad.\n":                                                                                                           "Dittico della sera 12 x 34 in",
	} {
		s := read(t, list)
		if len(s.Rows) == 0 || len(s.Unread)+len(s.Doubts) > 0 {
			t.Errorf("%q: %v %v", list, s.Unread, s.Doubts)
			continue
		}
		r := s.Rows[0]
		got := r.Title + " " + r.Size.Format(unit.Inches)
		if r.Depth > 0 {
			got += ", " + r.Depth.Format(unit.Inches) + " deep"
		}
		for _, more := range []string{string(r.Away), r.Edition} {
			if more != "" {
				got += ", " + more
			}
		}
		if got != want {
			t.Errorf("%q: %s, want %s", list, got, want)
		}
	}
}
