package stocklist

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/xuri/excelize/v2"
	"golang.org/x/text/encoding/charmap"

	"boothmock/internal/basis/unit"
)

// told is a list as it was read, a work a line: title, size, price in hundredths, status, and where it is.
func told(s *Sheet) string {
	var out []string
	for _, r := range s.Rows {
		says := fmt.Sprintf("%s %s %d", r.Title, r.Size.Format(unit.Centimetres), r.Price)
		if r.Sold {
			says += " sold"
		}
		for _, word := range []string{string(r.Status), string(r.Away), r.Medium, r.Year} {
			if word != "" {
				says += " " + word
			}
		}
		if r.Frame != nil {
			says += " framed"
		}
		out = append(out, says)
	}
	return strings.Join(out, "\n")
}

// Lists as artists keep them, each of a habit of its own, and what its owner means.
func TestListsAsTheyAreKept(t *testing.T) {
	for name, c := range map[string]struct{ list, want string }{
		"a key of colours": {"KEY: red = sold; orange = reserved; green = for sale\n#,Title,Size (cm),Price,Dot\n1,Pear,20 x 20,$140,green\n2,Figs,20 x 20,$140,red\n3,Quince,25 x 20,$180,orange\n4,Lemons,20 x 25,$180,half dot\n",
			"Pear 20 x 20 cm 14000\nFigs 20 x 20 cm 14000 sold\nQuince 25 x 20 cm 18000 on hold\nLemons 20 x 25 cm 18000 on hold"},
		"prices with words": {"Title,Size (cm),Price (£)\nA,30 x 40,£250 (framed £310)\nB,30 x 40,£95 each / 80 unframed\nC,30 x 40,was £400 now £350\nD,30 x 40,1.2k\nE,30 x 40,ask me\nF,30 x 40,'450\n",
			"A 30 x 40 cm 25000\nB 30 x 40 cm 8000\nC 30 x 40 cm 35000\nD 30 x 40 cm 120000\nE 30 x 40 cm 0 on request\nF 30 x 40 cm 45000"},
		"several things in a cell": {"Work,Details,Price\nSalt road,\"Oil on canvas, 60 x 90 cm, 2023\",900\nIce house,\"Gouache on paper, 28 x 35 cm, 2024, framed\",350\nGrain,\"Charcoal, 45 x 60 cm, 2022 (sold)\",280\n",
			"Salt road 60 x 90 cm 90000 Oil on canvas 2023\nIce house 28 x 35 cm 35000 Gouache on paper 2024 framed\nGrain 45 x 60 cm 28000 sold Charcoal 2022"},
		"labels": {"Label,Price\n\"Salt marsh, dusk\nOil on linen, 2024\n50 x 70 cm\",£480\n\"Curlews\nScreenprint, 2023\n40 x 40 cm\",£160\n",
			"Salt marsh, dusk 50 x 70 cm 48000 Oil on linen 2024\nCurlews 40 x 40 cm 16000 Screenprint 2023"},
		"a telephone's": {"item_title,created_at,height_in,width_in,price_usd,photo_url\nPorch,2026-01-02T10:11:12Z,'10,'20,450.00,IMG_1.jpg\n", "Porch 25.4 x 50.8 cm 45000"},
		"a form":        {"Artwork title *,Height (cm) *,Width (cm) *,Retail price *\ne.g. Sunset,50,70,£500\nSlack water,45,60,£520\n", "Slack water 45 x 60 cm 52000"},
		"originals and prints": {"Painting,Original size,Original price,Print size,Print price\nCove,40x50 cm,$600,20x25 cm,$45\n",
			"Cove 40 x 50 cm 60000"},
		"headings in two rows": {"No.,Title,Unframed (cm),,Framed (cm),,Price,\n,,H,W,H,W,£,Framed £\n1,Weir,50,70,56,76,480,540\n2,Ash,40,40,,,320,\n",
			"Weir 50 x 70 cm 54000 framed\nAsh 40 x 40 cm 32000"},
		"Greek":               {"Α/Α;Τίτλος;Ύψος (εκ.);Πλάτος (εκ.);Τιμή;Κορνίζα;Διαθέσιμο\n1;Λιμάνι;50;70;450 €;όχι;ναι\n2;Σπίτι;40;30;220 €;ναι;πωλήθηκε\nΣύνολο;;;;670 €;;\n", "Λιμάνι 50 x 70 cm 45000\nΣπίτι 40 x 30 cm 22000 sold framed"},
		"Welsh":               {"Rhif,Teitl,Maint (cm),Pris,Statws\n1,Y môr,50 x 60,£420,ar werth\n2,Bore oer,60 x 80,£680,gwerthwyd\n3,Tŷ unnos,30 x 20,£85,ddim ar werth\n", "Y môr 50 x 60 cm 42000\nBore oer 60 x 80 cm 68000 sold\nTŷ unnos 30 x 20 cm 8500 not for sale"},
		"Finnish":             {"Teoksen nimi;Korkeus cm;Leveys cm;Hinta;Kehys;Tila\nTalvi;60;80;750 €;ei;myynnissä\nSaari;50;50;520 €;musta;varattu\n", "Talvi 60 x 80 cm 75000\nSaari 50 x 50 cm 52000 on hold framed"},
		"works in columns":    {"Title,Orchard,Frost\nHeight (cm),60,40\nWidth (cm),50,50\nPrice €,640,480\nStatus,,sold\n", "Orchard 60 x 50 cm 64000\nFrost 40 x 50 cm 48000 sold"},
		"a sentence a work":   {"\"Gate, oil on canvas, 60 x 70 cm, $1,250\"\n\"Field, oil on board, 30 x 40 cm, 2019, $320\"\n\"Hen House, acrylic, 40 x 50 cm, $410 SOLD\"\n", "Gate 60 x 70 cm 125000 oil on canvas\nField 30 x 40 cm 32000 oil on board 2019\nHen House 40 x 50 cm 41000 sold acrylic"},
		"no headings":         {"Gate;oil;60 x 70 cm;780\nField;gouache;30 x 40 cm;320\n", "Gate 60 x 70 cm 78000 oil\nField 30 x 40 cm 32000 gouache"},
		"notes of a phone":    {"Title,Note,Tags\nCanoe,Oil on panel. 11x14 cm. $275,#a\nDuck,\"Linocut, ed. 3/25. 9x12 cm. $90 unframed / $140 framed\",#b\n", "Canoe 11 x 14 cm 27500 Oil on panel\nDuck 9 x 12 cm 9000 Linocut"},
		"a line on the order": {"All sizes width x height in cm;;\nTitle;Size;Price\nIce road;120 x 60;1300\n", "Ice road 60 x 120 cm 130000"},
		"depth first":         {"Work,D x H x W (cm)\nHarbour,4 x 60 x 80\nLoft,30 x 40\n", "Harbour 60 x 80 cm 0\nLoft 30 x 40 cm 0"},
		"typing slips":        {"TITEL OF WORK,Demensions,Meduim,PRIZE,Avaliable?\nBridge,24x36 cm,oil,$900,yes\nSpring,18 x 24 cm,oil,$500,SOLD\n", "Bridge 24 x 36 cm 90000 oil\nSpring 18 x 24 cm 50000 sold oil"},
		"initials":            {"#,T,H,W,D,£,S\n1,Tern,60cm,80cm,2cm,750,\n2,Ruff,28cm,38cm,,280,NFS\n", "Tern 60 x 80 cm 75000\nRuff 28 x 38 cm 28000 not for sale"},
		"both units":          {"Title,H (in),W (in),H (cm),W (cm),Retail,Artist's share 50%\nUndertow,36,48,91.4,121.9,$3200,$1600\n", "Undertow 91.4 x 121.9 cm 320000"},
		"a currency a row":    {"Titel;Maße;Preis;Währung\nFöhn;50 x 60 cm;800;CHF\nSee;40 x 40 cm;560;CHF\nMeer;80 x 90 cm;1900;EUR\n", "Föhn 50 x 60 cm 80000\nSee 40 x 40 cm 56000\nMeer 80 x 90 cm 0"},
		"value for price":     {"Obra;Dimensões (A x L);Moldura;Valor;Disponibilidade\nElétrico;50 x 40 cm;sem moldura;€ 420,00;vendido\nAlfama;100 x 120 cm;preta;sob consulta;disponível\n", "Elétrico 50 x 40 cm 42000 sold\nAlfama 100 x 120 cm 0 on request framed"},
		"sizes with a dash":   {"Name,Size (cm),Price\nPines,12-16,240\n", "Pines 12 x 16 cm 24000"},
		"sold as a pair":      {"Title,Size,Notes\nSky diptych,two panels 50x50cm each,sold as a pair\nFeather,A5 framed to A4,\n", "Sky diptych 50 x 105.1 cm 0\nFeather 21 x 14.8 cm 0 framed"},
		"Japanese":            {"作品名,技法,サイズ（縦×横 cm）,価格,備考\n春の川,油彩,４５．５×53.0,¥180000,\n月見草,日本画,33.3×24.2,¥120000,売約済\n祖母,油彩,65.2×53.0,非売品,\n", "春の川 45.5 x 53 cm 18000000 油彩\n月見草 33.3 x 24.2 cm 12000000 sold 日本画\n祖母 65.2 x 53 cm 0 not for sale 油彩"},
		"Turkish":             {"Eser adı;Ölçü (cm);Fiyat;Durum\nNar;40 x 40;7.500 TL;satıldı\nZeytin;35 x 50;5.000 TL;rezerve\n", "Nar 40 x 40 cm 750000 sold\nZeytin 35 x 50 cm 500000 on hold"},
		"Swedish and Dutch":   {"Titel;Mått h x b;Pris inkl ram;Lijst\nKust;70 x 90 εκ.;9.500:-;geen\nSäl;30 x 40 cm;3.200:-;baklijst wit\n", "Kust 70 x 90 cm 950000\nSäl 30 x 40 cm 320000 framed"},
	} {
		if got := told(read(t, c.list)); got != c.want {
			t.Errorf("%s:\n%s\nwant:\n%s", name, got, c.want)
		}
	}
}

// Lists in the letters that Windows has for other parts of Europe: those count in which the headings are known.
func TestLettersOfWindows(t *testing.T) {
	for _, c := range []struct {
		letters    *charmap.Charmap
		list, want string
	}{
		{charmap.Windows1250, "Název;Rozměr (cm);Cena;Rám\nVečer na řece;60 x 80;8 500 Kč;ne\n", "Večer na řece 60 x 80 cm 850000"},
		{charmap.Windows1253, "Τίτλος;Διαστάσεις (εκ.);Τιμή\nΕλιές;60 x 80;380 €\n", "Ελιές 60 x 80 cm 38000"},
		{charmap.Windows1251, "Название;Размер (см);Цена\nВечер;60 x 80;380\n", "Вечер 60 x 80 cm 38000"},
		{charmap.Windows1252, "Titel;Größe (cm);Preis\nMühle;60 x 80;380 €\n", "Mühle 60 x 80 cm 38000"},
	} {
		text, err := c.letters.NewEncoder().String(c.list)
		if err != nil {
			t.Fatal(err)
		}
		if got := told(read(t, text)); got != c.want {
			t.Errorf("%s: %q, want %q", c.letters, got, c.want)
		}
	}
}

// What a spreadsheet says by its looks: a row struck through or in a colour that a line explains, a price that was, and what is hidden or not
// there at all.
func TestLooksOfSpreadsheets(t *testing.T) {
	file := book(t, func(f *excelize.File) {
		set(t, f, "Sheet1", map[string]any{"A1": "Title", "B1": "Size (in)", "C1": "Price", "A2": "Weir", "B2": "10 x 20", "C2": 100, "A3": "Mill", "B3": "10 x 20", "C3": 200, "A4": "Barn", "B4": "10 x 20", "C4": 300,
			"A5": "Kiln", "B5": "10 x 20", "A6": "Gorse", "B6": "10 x 20", "C6": 500, "A7": "Stile", "B7": "10 x 20", "C7": 50, "B9": "reserved"})
		style := func(from, to string, s excelize.Style) {
			id, err := f.NewStyle(&s)
			if err == nil {
				err = f.SetCellStyle("Sheet1", from, to, id)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		style("A3", "C3", excelize.Style{Font: &excelize.Font{Strike: true}})
		yellow := excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFFF00"}}}
		style("A4", "C4", yellow)
		style("A9", "A9", yellow)
		style("A6", "C6", excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"00B0F0"}}})
		for _, err := range []error{
			f.SetCellRichText("Sheet1", "C2", []excelize.RichTextRun{{Text: "450", Font: &excelize.Font{Strike: true}}, {Text: " 380"}}),
			f.SetCellFormula("Sheet1", "C5", "C4*2"), f.SetRowVisible("Sheet1", 7, false),
		} {
			if err != nil {
				t.Fatal(err)
			}
		}
	})
	s, err := Read(fstest.MapFS{"works.xlsx": {Data: file}}, "works.xlsx", unit.Inches, false)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := told(s), "Weir 25.4 x 50.8 cm 38000\nMill 25.4 x 50.8 cm 20000 sold\nBarn 25.4 x 50.8 cm 30000 on hold\nKiln 25.4 x 50.8 cm 0\nGorse 25.4 x 50.8 cm 50000\nStile 25.4 x 50.8 cm 5000"; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	if len(s.Doubts) != 1 || !strings.Contains(s.Doubts[0].Why, "its formula is not in the file") {
		t.Errorf("%+v", s.Doubts)
	}
	if got := strings.Join(s.Notes, "\n"); !strings.Contains(got, "One row is struck through") || !strings.Contains(got, "Row 6 is coloured in the spreadsheet") || !strings.Contains(got, "One row is hidden") {
		t.Error(got)
	}
}

// Tabs with other works each are one list; one of sold works says so by its name.
func TestTabsThatAreAllLists(t *testing.T) {
	file := book(t, func(f *excelize.File) {
		set(t, f, "Sheet1", map[string]any{"A1": "Title", "B1": "H (in)", "C1": "W (in)", "D1": "Price", "A2": "Low water", "B2": 10, "C2": 20, "D2": 620})
		for tab, cells := range map[string]map[string]any{
			"Prints":  {"A1": "Title", "B1": "Image (in)", "C1": "Paper (in)", "D1": "Price", "A2": "Wren", "B2": "10 x 10", "C2": "14 x 14", "D2": 60},
			"Sold 25": {"A1": "Title", "B1": "Size (in)", "A2": "Kiln", "B2": "10 x 20"},
			"Archive": {"A1": "Title", "B1": "Size (in)", "A2": "Low water", "B2": "10 x 20"},
			"Fairs":   {"A1": "Fair", "B1": "Fee", "A2": "Common", "B2": 85},
		} {
			if _, err := f.NewSheet(tab); err != nil {
				t.Fatal(err)
			}
			set(t, f, tab, cells)
		}
	})
	s, err := Read(fstest.MapFS{"works.xlsx": {Data: file}}, "works.xlsx", unit.Inches, false)
	if err != nil {
		t.Fatal(err)
	}
	if r := s.Rows[0]; Where(r.Number, r.At) != "row 2 of tab Sheet1" {
		t.Error(Where(r.Number, r.At))
	}
	works := map[string]bool{}
	for _, l := range strings.Split(told(s), "\n") {
		works[l] = true
	}
	for _, want := range []string{"Low water 25.4 x 50.8 cm 62000", "Wren 25.4 x 25.4 cm 6000", "Kiln 25.4 x 50.8 cm 0 sold"} {
		if !works[want] || len(works) != 3 {
			t.Errorf("no %q in %v", want, works)
		}
	}
	if len(s.Tabs) != 3 || len(s.Passed) != 2 {
		t.Errorf("read: %s, not read: %s", s.Tabs, s.Passed)
	}
}
