package stocklist

import (
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
)

// Lists as they are kept in several countries, by people of different habits: number, title, size in cm, price, status, why it does
// not hang, edition and photograph of each work, as its owner means them.
func TestListsOfCountries(t *testing.T) {
	for name, c := range map[string]struct{ list, want string }{
		"French, of columns that speak of where a work is": {
			"N° inv.;Intitulé;Année;H (cm);L (cm);P (cm);Encadrement;Prix public TTC;Prix net artiste;Situation\n" +
				"MC-1;La digue;2024;81;65;2;non;1 200,00 €;720 €;atelier\nMC-2;Le lavoir;2022;46;38;2;non;580 €;348 €;vendu\nMC-3;Les peupliers;2021;100;81;2;non;1 650 €;990 €;Galerie du Port (dépôt)\nMC-4;Marine;2025;18;24;;oui;160 €;96 €;chez moi\n",
			"MC-1|La digue|81 x 65 cm|€1,200||||\nMC-2|Le lavoir|46 x 38 cm|€580||||\nMC-3|Les peupliers|100 x 81 cm|€1,650||elsewhere||\nMC-4|Marine|18 x 24 cm|€160||spare||\n"},
		"French, with the year in the title": {"Titre (année),Dimensions,Prix,Dispo ?\nNuit d'été (2023),65 x 54 cm,850 €,oui\n\"Marais, 2022\",H. 50 x L. 70 cm,780 €,réservée\nÉcluse - 2020,\"1,00 x 0,81 m\",1 400 €,non\nCarnet,21 x 15 cm,NC,oui\n",
			"|Nuit d'été|65 x 54 cm|€850||||\n|Marais|50 x 70 cm|€780|on hold|||\n|Écluse|100 x 81 cm|€1,400||elsewhere||\n|Carnet|21 x 15 cm|€0|on request|||\n"},
		"French, a size whole under the height": {"Titre;Hauteur (cm);Largeur (cm)\nLe phare;50 x 70;\nLa plage;60;80\nLes rochers;;30 x 40\n", "|Le phare|50 x 70 cm|0||||\n|La plage|60 x 80 cm|0||||\n|Les rochers|30 x 40 cm|0||||\n"},
		"Spanish, in every gender": {"Código\tTítulo de la obra\tAutor\tFecha\tAlto (cm)\tAncho\tEnmarcada\tP.V.P.\tEstado\nVS-1\tOlivos\tVega\t2024\t73\t92\tNo\t1.450 €\tDisponible\nVS-2\tLa acequia\tVega\t2023\t40\t50\tSí\t620 €\tReservada\nVS-3\tCasa\tVega\t2022\t60\t60\tNo\t780 €\tVendida\nVS-4\tLluvia\tVega\t2025\t116\t89\tNo\t2.100 €\tEn depósito\n",
			"VS-1|Olivos|73 x 92 cm|€1,450||||\nVS-2|La acequia|40 x 50 cm|€620|on hold|||\nVS-3|Casa|60 x 60 cm|€780||||\nVS-4|Lluvia|116 x 89 cm|€2,100||elsewhere||\n"},
		"Italian, width first": {"N. archivio,Titolo dell'opera,Tecnica,Base x altezza (cm),Costo materiali,Prezzo di vendita,Ubicazione\nA/12,Risaia,olio,90 x 60,90,900,studio\nA/13,Gelso,\"acquaforte, es. 4/30\",25 x 35,18,180,venduto a Re\n",
			"A/12|Risaia|60 x 90 cm|900||||\nA/13|Gelso|35 x 25 cm|180|||4/30|\n"},
		"Portuguese": {"Nº;Título;Altura;Largura;Moldura;Preço;Situação\n1;Ria;60 cm;80 cm;não;750 €;disponível\n2;Garça;30 cm;30 cm;sim;120 €;reservado\n3;Avó;40 cm;30 cm;preta;não está à venda;em casa\n",
			"1|Ria|60 x 80 cm|€750||||\n2|Garça|30 x 30 cm|€120|on hold|||\n3|Avó|40 x 30 cm|€0|not for sale|spare||\n"},
		"Swedish": {"Nr;Titel;År;Höjd (cm);Bredd (cm);Ram;Pris (kr);Såld;Plats;Bild\n1;Skymning;2024;65;81;nej;8 500;;ateljén;skymning.jpg\n2;Svanar;2023;30;30;ekram;1 800;ja;;svanar.jpg\n3;Stilla;2025;24;32;vit;ej till salu;;hemma;\n",
			"1|Skymning|65 x 81 cm|kr 8,500||||skymning.jpg\n2|Svanar|30 x 30 cm|kr 1,800||||svanar.jpg\n3|Stilla|24 x 32 cm|kr 0|not for sale|spare||\n"},
		"Polish": {"Lp.;Tytuł;Rok;Technika;Wysokość [cm];Szerokość [cm];Oprawa;Cena;Status\n1;Wierzby;2024;olej;60;80;nie;2 400 zł;dostępny\n2;Czapla;2025;linoryt, nakład 30;30;40;dąb;450 zł;zarezerwowana\n3;Młyn;2023;olej;40;50;czarna rama;1 900 zł;sprzedany\n",
			"1|Wierzby|60 x 80 cm|zł 2,400||||\n2|Czapla|30 x 40 cm|zł 450|on hold||nakład 30|\n3|Młyn|40 x 50 cm|zł 1,900||||\n"},
		"English, all in the title": {"Painting,Size,£\n1. Heron Pool (2021),12½\" x 16¼\",£260\n2. Dusk (2023),2' x 3',£720\n3. The Mill (2019) - SOLD,18\" x 24\",£450\n4. Weir (2020) RESERVED,150 x 200mm,£90\n",
			"1|Heron Pool|31.8 x 41.3 cm|£260||||\n2|Dusk|61 x 91.4 cm|£720||||\n3|The Mill|45.7 x 61 cm|£450||||\n4|Weir|15 x 20 cm|£90|on hold|||\n"},
		"English, prints with how many of them are sold": {"Title,Process,Image (cm),Paper (cm),Edition size,Sold,Left,Unframed £,Framed £,Frame\nCurlew,linocut,20 x 30,30 x 42,50,31,19,85,140,oak\nKestrel,etching,15 x 20,28 x 35,30,30,0,95,150,\n",
			"|Curlew|20 x 30 cm|£140|||50|\n|Kestrel|15 x 20 cm|£95|||30|\n"},
		"German, pictures numbered and prices in short": {"Bild-Nr.;Bezeichnung;Entst.;Format B x H;Preis o. R.;Preis m. R.;Verbleib\n25/01;Watt;2025;80 x 60 cm;980,-;1.080,-;da\n25/02;Kutter;2025;50 x 70 cm;750,-;850,-;Ausst. Rathaus\n", "25/01|Watt|60 x 80 cm|980||||\n25/02|Kutter|70 x 50 cm|750||elsewhere||\n"},
		"Norwegian":                           {"Nr.;Tittel;År;Størrelse (h x b);Ramme;Pris;Status;Sted\n1;Fjord;2024;60 x 80 cm;nei;8.500,-;ledig;atelier\n2;Naust;2022;40 x 50 cm;svart;5.200,-;solgt;\n3;Vinter;2025;24 x 32 cm;hvit;2.400,-;;hjemme\n", "1|Fjord|60 x 80 cm|8,500||||\n2|Naust|40 x 50 cm|5,200||||\n3|Vinter|24 x 32 cm|2,400||spare||\n"},
		"German, sizes with and without":      {"Titel;Größe o. Rahmen;Größe m. Rahmen;Preis;Bemerkung\nMoor;40 x 50 cm;48 x 58 cm;620 €;\nStich;60 x 80 cm;;980 €;bleibt bei mir\n", "|Moor|40 x 50 cm|€620||||\n|Stich|60 x 80 cm|€980||spare||\n"},
		"as Windows writes it in Poland":      {"Tytu\xb3 pracy;Format;Cena (PLN);Gdzie jest\nMg\xb3a;50x70 cm;2 200;pracownia\n\xafurawie;30 x 30 cm;380;Galeria Pod D\xeabem\n", "|Mgła|50 x 70 cm|zł 2,200||||\n|Żurawie|30 x 30 cm|zł 380||elsewhere||\n"},
		"American, of price and state in one": {"Title,Size,Price,Website\nMoonrise,24 x 36 in,\"$1,250/framed\",TRUE\nFerry,\"2'6\"\" x 3'\",$1100 (on hold - Ruth),FALSE\nKeyring,2 x 2 in,$6,TRUE\n", "|Moonrise|61 x 91.4 cm|$1,250||||\n|Ferry|76.2 x 91.4 cm|$1,100|on hold|||\n|Keyring|5.1 x 5.1 cm|$6||||\n"},
		"of a gallery, in two units":          {"Title,Dimensions,Price\nField Notes (Diptych),11 x 14 in. each (27.9 x 35.6 cm each),\"$12,500.00 MXN\"\n", "|Field Notes (Diptych)|27.9 x 76.2 cm|$12,500||||\n"},
	} {
		if got := rows(t, c.list); got != c.want {
			t.Errorf("%s:\n%swant\n%s", name, got, c.want)
		}
	}
}

// What no heading says is read from the cells, and told; where it cannot be told, it is asked.
func TestHeadingsThatAreNotKnown(t *testing.T) {
	s := read(t, "Nr,Pavadinimas,Dydis,Kaina,Vieta,Medium\n1,Järvi,40 x 50 cm,480 €,sold,oil\n2,Metsä,30 x 40 cm,320 €,,oil\n")
	if r := s.Rows[0]; r.Title != "Järvi" || r.Size.A == 0 || r.Price != 48000 || !r.Sold || len(s.Notes) != 4 || s.Notes[2] != `The heading "Pavadinimas" is not known here; by what stands under it, it is taken for the title.` {
		t.Errorf("%+v", s)
	}
	s = read(t, "Title,Size,Flag\nWeir,40 x 50 cm,vendue\nHeron,30 x 40 cm,\n")
	if !s.Rows[0].Sold || len(s.Notes) != 1 {
		t.Errorf("%+v", s)
	}
	s = read(t, "Title,Size,Keywords\nWeir,40 x 50 cm,\"gallery wrap, blue\"\nHeron,30 x 40 cm,home\n")
	if s.Rows[0].Away != "" {
		t.Errorf("%+v", s)
	}
	_, _, err := readFile([]byte("Nr,Pavadinimas,Vieta,Size\n1,Järvi,Turku,40 x 50 cm\n2,Metsä,Oulu,30 x 40 cm\n"))
	if err == nil || !strings.Contains(err.Error(), `two columns can be the title, "Pavadinimas" and "Vieta" (write “Title” over the one that is)`) {
		t.Error(err)
	}
	if _, _, err = readFile([]byte("Title;Size\n\"Weir\", 2019;40 x 50 cm\n\"Heron\", 2020;30 x 40 cm\n")); err == nil || !strings.Contains(err.Error(), `works:2:1: row 2 has a quote " that runs on into the next rows`) {
		t.Error(err)
	}
}

// The sheet that a print is on is its margin; one that its picture fits into only the other way round is turned, and where the size over
// the frame is said it does not matter.
func TestSheetsOfPrints(t *testing.T) {
	for cell, want := range map[string]string{
		"30 x 42,no,": "30 x 42 cm", "56 x 28,no,": "28 x 56 cm", "30 x 42,oak,": "30 x 42 cm", "30 x 42,oak,40 x 50": "0 x 0 cm", "20 x 30,no,": "0 x 0 cm", "A3,no,": "42 x 29.7 cm", "10 x 10,no,": "0 x 0 cm",
	} {
		size := "20 x 30,"
		if cell[0] == 'A' {
			size = "30 x 20,"
		}
		r, said := one(t, "Title,Image (cm),Paper (cm),Frame,Framed size (cm)\nCurlew,"+size+cell+"\n")
		if got := r.Paper.Format(unit.Centimetres); got != want || (cell[0] == '1') != strings.Contains(said, `"10 x 10" is smaller than the picture; the sheet is left out`) {
			t.Errorf("%s: %s, want %s: %s", cell, got, want, said)
		}
	}
	if r, said := one(t, "Title,Image size,Paper height,Paper width\nCurlew,20 x 30 cm,30,42\n"); r.Size.A == 0 || said != "" {
		t.Error(said)
	}
}
