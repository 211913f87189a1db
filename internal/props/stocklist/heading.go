package stocklist

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
	"golang.org/x/text/width"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// meaning is what a column can hold.
type meaning int

const (
	noMeaning meaning = iota
	ignoredMeaning
	costMeaning
	untaxedMeaning
	artistMeaning
	quantityMeaning
	bringMeaning
	soldMeaning
	privateMeaning
	valueMeaning
	linkMeaning
	editionMeaning
	weightMeaning
	framedHeightMeaning
	framedWidthMeaning
	framedSizeMeaning
	framedPriceMeaning
	unframedPriceMeaning
	priceMeaning
	heightMeaning
	widthMeaning
	lengthMeaning
	depthMeaning
	unitMeaning
	currencyMeaning
	partsMeaning
	sizeMeaning
	sheetMeaning
	frameMeaning
	statusMeaning
	locationMeaning
	yearMeaning
	familyMeaning
	typeMeaning
	mediumMeaning
	notesMeaning
	titleMeaning
	fileMeaning
	numberMeaning
	nameMeaning
)

// Word is a line of the table by which headings are read: what such a column is and is used for, and the words that say so.
type Word struct {
	Called string // what it is taken for
	Use    string // what becomes of it
	Words  string // any of them is enough; "_" joins words that stand together. Without accents
	With   string // of these there must be one as well; empty: none

	means meaning
	one   bool // two such columns that differ are refused: it must be known which one counts
	weak  bool // counts only if no other column is that
	plain bool // says outright that it is that: it counts before others that could be
	used  bool // something is made of what stands in it
}

const (
	frameWords    = "額|額装|額縁|cerceve|cerceveli|keret|keretezett|ramovany|s_ramom|框|ffram|kehys|kehystetty|ramovani|zaramovano|κορνιζα|πλαισιο|рама|багет|marc|emmarcat|frame|framed|framing|rahmen|gerahmt|rahmung|rahmenbreite|leiste|cadre|encadre|encadree|encadrement|marco|enmarcado|cornice|incorniciato|lijst|ingelijst|moulding|frames|ram|inramning|inramad|ramme|innrammet|rama|oprawa|oprawiony|moldura|emoldurado|enmarcacion"
	framedWords   = "額付|額装|cerceveli|keretezve|s_ramom|mewn_ffram|kehystettyna|s_ramem|με_κορνιζα|в_раме|с_рамои|amb_marc|framed|gerahmt|mit_rahmen|with_frame|incl_frame|encadre|encadree|avec_cadre|enmarcado|incorniciato|ingelijst|outer|outside|overall|m_r|med_ram|inramad|innrammet|z_rama|oprawiony|com_moldura|emoldurado|con_marco|con_cornice|met_lijst"
	priceWords    = "価格|値段|販売価格|税込価格|fiyat|fiyati|satis_fiyati|eladasi_ar|cijena|价格|salgspris|vraagprijs|verkoopprijs|utsalgspris|myyntihinta|prodejni_cena|cena_sprzedazy|pris|hinta|hinnat|cena|τιμη|τιμες|цена|preu|preus|pret|pretul|price|prices|retail|asking|rrp|preis|preise|verkaufspreis|vk|endpreis|brutto|bruttopreis|prix|precio|prezzo|prijs|preco|how_much|combien|cuanto|quanto|$|£|€|p_v_p|pvp|pris|priser|cena|ceny|precios|prezzi|prijzen"
	heightWords   = "縦|高さ|高|yukseklik|boy|magassag|visina|uchder|korkeus|vyska|υψος|высота|alcada|inaltime|height|ht|high|tall|hohe|hoehe|hauteur|haut|altura|alto|altezza|hoogte|hojd|hoyde|hojde|wysokosc|wys"
	widthWords    = "larg|横|幅|宽|寬|genislik|szelesseg|sirina|lled|leveys|sirka|πλατος|ширина|amplada|latime|width|wd|wide|across|breite|largeur|ancho|anchura|larghezza|breedte|bredd|bredde|szerokosc|szer|largura"
	locationWords = "所在|保管場所|konum|yer|nerede|hol_van|helye|umiestnenie|lokalizacja|locaties|opslag|lleoliad|sijainti|umisteni|που_βρισκεται|τοποθεσια|местонахождение|где|consigned_to|on_loan_to|lent_to|location|where|whereabouts|storage|ort|standort|lagerort|lieu|emplacement|ubicacion|luogo|plaats|locatie|verbleib|aufbewahrung|collocazione|ubicazione|localizacao|plats|sted|miejsce|gdzie"
	sheetWords    = "paper|sheet|blatt|papier|papel|hoja|foglio|feuille|blad|papper|arkusz|carta"
	depthWords    = "奥行|厚さ|derinlik|kalinlik|melyseg|dyfnder|syvyys|hloubka|βαθος|глубина|fondaria|depth|deep|thickness|thick|tiefe|starke|profondeur|epaisseur|profondita|profundidad|fondo|diepte|djup|dybde|glebokosc|grubosc|profundidade|espesor|spessore"
	sizeWords     = "サイス|寸法|大きさ|尺寸|olcu|olculer|olculeri|boyut|boyutlar|ebat|meret|meretek|rozmery|dimenzije|afmetingen|storlekar|maint|mesuriadau|koko|mitat|rozmer|rozmery|διαστασεις|διασταση|μεγεθος|размер|размеры|mides|dimensiuni|malet|size|sizes|dimensions|dimension|dims|dim|measurements|measurement|measures|big|large|format|mass|masse|abmessung|abmessungen|grosse|groesse|bildmass|bildmasse|bildgrosse|taille|medidas|tamano|dimensioni|misure|formato|afmeting|afmetingen|formaat|maat|medida|tamanho|dimensoes|dimensiones|dimensione|matt|storlek|storrelse|wymiary|rozmiar|bildformat"
)

// Vocabulary is the table by which headings are read, in English, German, French, Spanish, Italian, Dutch, Portuguese, Swedish, Polish, and the first of them in Welsh, Finnish, Czech, Greek, Russian, Catalan and Romanian. The first line
// of which a heading has a word counts: so "Cost price" is a cost, and "Print size" a size.
var Vocabulary = []Word{
	{means: ignoredMeaning, Called: "nothing", Use: "passed over, as its heading asks for it", Words: "not_used|unused|ignore|ignored|nicht_benutzt|old|former|previous|internal|intern"},
	{means: costMeaning, Called: "what it cost you", Use: "yours alone: it reaches no tag, list or page", Words: "原価|maliyet|koltseg|naklady|artist_s_share|artists_share|share|my_share|payout|after_commission|vyrobni_naklady|anteil|kunstleranteil|part_artiste|do_artysty|cost_price|kustannus|omakustannus|naklady|κοστος|себестоимость|cost|costs|purchase|purchased|wholesale|trade|net|netto|profit|margin|expenses|lowest|minimum_price|min_price|ek|einkauf|einkaufspreis|selbstkosten|materialkosten|materialpreis|rahmenpreis|mindestpreis|kosten|gewinn|achat|cout|couts|coste|costo|compra|acquisto|kostprijs|inkoop|commission|provision|comm|custo|custos|costi|costos|kostnad|inkopspris|koszt|koszty|zakup|markup|ricarico|commissione|comision|provisjon|prowizja"},
	{means: untaxedMeaning, Called: "price without tax", Use: "a tag says what visitors pay in all", Words: priceWords, With: "ex_vat|excl_vat|plus_vat|without_vat|ex_tax|excl_tax|without_tax|before_tax|zzgl|ohne_mwst|exkl_mwst|ht|hors_taxe|hors_taxes|sin_iva|senza_iva|excl_btw"},
	{means: artistMeaning, Called: "artist", Use: "whose booth it is, if one made all", Words: "作家|作家名|作者|画家|sanatci|ressam|festo|muvesz|alkoto|umelec|艺术家|arlunydd|taiteilija|umelec|umelkyne|καλλιτεχνης|ζωγραφος|художник|автор|pintor|pintora|artist|artists|kunstler|kunstlerin|kunstlername|artiste|artista|kunstenaar|painter|maker|auteur|autor|autora|autore|autrice|konstnar|kunstner|artysta|artystka|kunstschilder", used: true},
	{means: quantityMeaning, Called: "how many there are", Use: "of a work of which there are 0, none hangs; else not used", Words: "数量|在庫|adet|stok|darab|db|pocet_kusu|nifer|kappalemaara|pocet|ποσοτητα|количество|qty|quantity|how_many|in_stock|left|remaining|copies|anzahl|menge|bestand|stuck|stuckzahl|quantite|cantidad|quantita|aantal|antal|ilosc|quantidade|exemplaires_restants|printed", used: true},
	{means: bringMeaning, Called: "whether it comes", Use: "what stays at home is a spare; where some are ticked and none is refused, the others stay", Words: "bring|bringing|taking|at_fair|at_the_fair|at_show|at_the_show|for_fair|for_the_fair|for_the_show|hang|mitnehmen|mitbringen|dabei|emporter|llevar|portare|meenemen|ta_med|zabrac|levar", used: true},
	{means: soldMeaning, Called: "whether it is sold", Use: "a sold work does not hang; the buyer's name goes nowhere", Words: "売約|購入者|satildi_mi|alici|eladva|vevo|gone|went_to|gwerthwyd|prynwr|myyty|ostaja|prodano|kupec|kupujici|πωληθηκε|αγοραστης|продано|покупатель|venut|comprador|sold|buyer|verkauft|verkauf_an|verkaufsdatum|kaufer|kauferin|kaufername|vendu|vendue|acheteur|vendido|comprador|venduto|acquirente|verkocht|koper|sald|solgt|sprzedane|sprzedano|nabywca|kopare|kober|kjoper|owner|besitzer|eigentumer|proprietaire|proprietario|eigenaar|agare|wlasciciel", used: true},
	{means: privateMeaning, Called: "yours alone", Use: "it goes nowhere", Words: "created_at|created_on|vytvoreno|date_added|added|updated|modified|edited|entered|erfasst|geandert|aktualisiert|born|geboren|geburtsjahr|postcode|rechnungsdatum|kundenname|customer|client|kunde|kundin|email|phone|telephone|telefon|deposit|anzahlung|paid|bezahlt|invoice|rechnung"},
	{means: titleMeaning, Called: "title", Use: "on tags and lists, and the name in the scene", Words: "作品名|題名|タイトル|作品タイトル|画題|标题|題目|作品名称|eser_adi|eserin_adi|eser|baslik|resim_adi|mu_cime|cim|alkotas|nazov|naslov|naziv|tytul_pracy|titel_van_het_werk|teitl|teoksen_nimi|teos|nazev|nazev_dila|τιτλος|τιτλος_εργου|название|titol|titlu|title|titles|titel|titre|titulo|titolo|werktitel|item_name|work_name|piece_name|intitule|tytul|titul|tittel", one: true, used: true},
	{means: valueMeaning, Called: "value", Use: "on the list for insurance and customs, instead of the price, and nowhere else", Words: "gwerth|vakuutusarvo|pojistna_hodnota|hodnota|αξια|стоимость|insurance|insured|value|versicherung|versicherungswert|versicherungssumme|wert|assurance|valeur|valor|valore|verzekering|varde|forsakringsvarde|wartosc|seguro|assicurazione", one: true, used: true},
	{means: linkMeaning, Called: "address", Use: "of the work's page: a code on its wall label", Words: "リンク|odkaz|link|url|web|website|webpage|webseite|address|lien|enlace", used: true},
	{means: editionMeaning, Called: "edition", Use: "on tags and lists", Words: "エテイション|版|edisyon|baski|peldanyszam|argraffiad|vedos|αντιτυπα|тираж|tiratge|edition|editions|ed|edn|auflage|auflagenhohe|tirage|edicion|tiratura|oplage|print_run|upplaga|naklad|edicao|tiragem|opplag|oplag", used: true},
	{means: weightMeaning, Called: "weight", Use: "what hooks and the car carry", Words: "重さ|重量|agirlik|suly|pwysau|paino|vaha|hmotnost|βαρος|вес|pes|weight|wt|weighs|heavy|gewicht|poids|peso|vikt|waga|ciezar|vekt|vaegt", one: true, used: true},
	{means: framedHeightMeaning, Called: "height with frame", Use: "the frame's width follows from it", Words: heightWords, With: framedWords, one: true, used: true},
	{means: framedWidthMeaning, Called: "width with frame", Use: "the frame's width follows from it", Words: widthWords, With: framedWords, one: true, used: true},
	{means: framedSizeMeaning, Called: "size with frame", Use: "the frame's width follows from it", Words: sizeWords, With: frameWords + "|outer|outside|overall", one: true, used: true},
	{means: framedSizeMeaning, Called: "size with frame", Use: "the frame's width follows from it", Words: "aussenmass|aussenmasse|rahmenmass|rahmengrosse|aussenformat", one: true, used: true},
	{means: unframedPriceMeaning, Called: "price without frame", Use: "what visitors pay for a work that is not framed", Words: priceWords, With: "unframed|not_framed|ungerahmt|ohne_rahmen|without_frame|no_frame|print_only|non_encadre|sans_cadre|sin_marco|senza_cornice|zonder_lijst|o_r|utan_ram|bez_ramy|sem_moldura", one: true, used: true},
	{means: framedPriceMeaning, Called: "price with frame", Use: "what visitors pay for a work that is framed", Words: priceWords, With: framedWords, one: true, used: true},
	{means: priceMeaning, Called: "price", Use: "what visitors pay: on tags and lists, before another price that does not say so", Words: "price|prices|preis|preise|prix|precio|prezzo|prijs|preco", With: "original|originals|public|publico|pubblico|visitors|retail|asking|incl_vat|incl_tax|ttc|inkl_mwst|iva_incl|iva_inclusa|iva_incluido|incl_btw", one: true, plain: true, used: true},
	{means: priceMeaning, Called: "price", Use: "what visitors pay: on tags and lists", Words: priceWords, one: true, used: true},
	{means: sheetMeaning, Called: "size of the sheet", Use: "the margin around the picture; the size, if no other is said", Words: sizeWords + "|" + heightWords + "|" + widthWords, With: sheetWords, one: true, used: true},
	{means: sheetMeaning, Called: "size of the sheet", Use: "the margin around the picture; the size, if no other is said", Words: "blattmass|blattmasse|blattgrosse|blattformat|papierformat|papiergrosse", one: true, used: true},
	{means: heightMeaning, Called: "height", Use: "of the picture, without its frame", Words: heightWords, one: true, used: true},
	{means: widthMeaning, Called: "width", Use: "of the picture, without its frame", Words: widthWords, one: true, used: true},
	{means: lengthMeaning, Called: "length", Use: "the width, beside a height", Words: "length|long|lange|laenge|longueur|largo|lunghezza|lengte|base", one: true, used: true},
	{means: depthMeaning, Called: "depth", Use: "how far it stands out from the wall", Words: depthWords, used: true},
	{means: currencyMeaning, Called: "currency", Use: "of the price beside it", Words: "currency|curr|wahrung|devise|monnaie|moneda|divisa|valuta|moeda|waluta|mena|valuutta|νομισμα|валюта|para_birimi|通貨|penznem", used: true},
	{means: unitMeaning, Called: "unit", Use: "of lengths that state none", Words: "unit|units|einheit|unite|unites|unidad|unita|eenheid|enhet|jednostka|unidade", used: true},
	{means: partsMeaning, Called: "parts", Use: "how many hang side by side, where its size is that of each", Words: "parts|panels|teile|teilig|diptych|triptych|polyptych|diptychon|triptychon|parties|partes|parti|delen", used: true},
	{means: sizeMeaning, Called: "size", Use: "of the picture, without its frame, before another size that does not say so", Words: sizeWords, With: "original|originals", one: true, plain: true, used: true},
	{means: sizeMeaning, Called: "size", Use: "of the picture, without its frame", Words: sizeWords, one: true, used: true},
	{means: frameMeaning, Called: "frame", Use: "yes or no, its colour and its width", Words: frameWords, used: true},
	{means: statusMeaning, Called: "status", Use: "sold, on hold, not for sale, spare, …", Words: "状態|状况|販売状況|durum|durumu|allapot|statusz|stav_predaja|disponibilidade|dostupnosc|saatavilla|statws|tila|saatavuus|stav|dostupnost|κατασταση|διαθεσιμο|διαθεσιμοτητα|наличие|статус|estat|disponibilitat|dot|dots|sticker|stickers|punkt|pastille|bollino|ampel|status|dispo|availability|available|for_sale|reserved|reserviert|hold|nfs|stand|zustand|verfugbar|verfugbarkeit|etat|estado|disponible|disponibilite|stato|disponibile|beschikbaar|situation|situacion|situacao|disponibilidad|disponibilita|tillganglig|tilgjengelig|dostepnosc", used: true},
	{means: locationMeaning, Called: "where it is", Use: "at home: a spare; at a gallery or on loan: left out; else not used", Words: locationWords, used: true},
	{means: yearMeaning, Called: "year", Use: "on tags and lists", Words: "制作年|製作年|制作年度|年|年代|年份|yil|yili|yapim_yili|keszult|rok_vzniku|rik|blwyddyn|vuosi|ετος|χρονολογια|год|anul|year|yr|date|when|entst|made|painted|created|finished|jahr|entstehungsjahr|entstehung|entstanden|datum|annee|ano|anno|jaar|fecha|data|ar|aar|rok|powstala", used: true},
	{means: familyMeaning, Called: "series", Use: "works of one series hang side by side when arranged", Words: "シリース|seri|sorozat|seria|cyfres|sarja|σειρα|серия|series|serie|family|collection|cycle|zyklus|suite|reihe|cykl|cyklus|seria|colecao|coleccion|collezione|ciclo", used: true},
	{means: typeMeaning, Called: "kind of work", Use: "sculpture and cards stay off the wall", Words: "種類|tur|turu|kategori|tipus|math|tyyppi|druh|ειδος|тип|type|category|kind|kategorie|gattung|werkart|genre|categorie|categoria|tipo|soort|typ|rodzaj|kategoria|kategori|tipologia", used: true},
	{means: mediumMeaning, Called: "medium", Use: "on tags and lists", Words: "技法|素材|材料|媒材|材质|teknik|malzeme|technika|anyag|technique_support|tecnica_mista|cyfrwng|tekniikka|materiaali|τεχνικη|υλικο|υλικα|техника|материал|tehnica|medium|mediums|media|med|malgrund|bildtrager|keilrahmen|technique|material|materials|technik|matiere|tecnica|techniek|materiaal|support|process|teknik|teknikk|technika|underlag|soporte|supporto|suporte|podloze", used: true},
	{means: notesMeaning, Called: "notes", Use: "sold, on hold and the like where a note begins so; else not used", Words: "obs|備考|メモ|notlar|aciklama|megjegyzes|poznamky|opombe|pastabos|nodiadau|huom|huomautus|lisatiedot|poznamka|poznamky|σημειωσεις|παρατηρησεις|примечание|примечания|observatii|bemaerkninger|note|notes|subtitle|untertitel|remark|remarks|comment|comments|story|description|descripcion|descrizione|omschrijving|bemerkung|bemerkungen|notiz|notizen|anmerkung|anmerkungen|beschreibung|info|remarque|remarques|commentaire|commentaires|observation|observations|observaciones|notas|nota|osservazioni|annotazioni|opmerking|opmerkingen|uwagi|anteckning|anteckningar|kommentar|kommentarer|observacoes", used: true},
	{means: fileMeaning, Called: "photograph", Use: "the file; further ones are passed over", Words: "写真|画像|fotograf|resim|dosya|gorsel|kep|fenykep|fajl|llun|ffoto|kuva|valokuva|tiedosto|fotka|fotografie|soubor|φωτογραφια|φωτο|εικονα|αρχειο|фото|фаил|fotografia|bilde|billede|poza|file|files|filename|image|images|photo|photos|photograph|photographs|picture|pictures|pic|pics|img|bild|bilder|foto|fotos|bilddatei|datei|dateiname|fichier|imagen|immagine|afbeelding|jpg|jpeg|scan|zdjecie|plik|fil|filnamn|archivo|imagem|ficheiro", used: true},
	{means: numberMeaning, Called: "number", Use: "the work's own; photographs may be named after it", Words: "番号|作品番号|sira|sira_no|sorszam|szam|rhif|cislo|c|α_α|αριθμος|κωδικος|номер|№|п_п|no|nr|n|num|number|#|id|ref|reference|code|inventory|inv|cat|catalogue|catalog|sku|item|nummer|numero|lfd|wvz|lp|codigo|codice|cod|kod|inventaire|inventario|archivio|inw|inwentarz|lopnummer", used: true},
	{means: titleMeaning, Called: "title", Use: "on tags and lists, and the name in the scene", Words: "label|labels|caption|etikett|cartel|gwaith|εργο|πινακας|картина|работа|quadre|lucrare|artwork|work|painting|print|piece|werk|gemalde|oeuvre|obra|opera|bezeichnung|called|subject|motiv|motif|sujet|thema|praca|obraz|verk|konstverk|quadro|tableau|cuadro", one: true, weak: true, used: true},
	{means: nameMeaning, Called: "name", Use: "short; the title, if there is no other", Words: "enw|nimi|jmeno|ονομα|имя|name|nom|nombre|nome|naam|namn|navn|nazwa", used: true},
}

// letters that stand alone for a measure, where a heading is nothing else.
var initials = map[string]meaning{"h": heightMeaning, "w": widthMeaning, "b": widthMeaning, "l": lengthMeaning, "d": depthMeaning, "t": depthMeaning, "p": depthMeaning}

var unitWords = map[string]string{
	"in": "in", "ins": "in", "inch": "in", "inches": "in", `"`: "in", "zoll": "in", "cm": "cm", "cms": "cm", "centimetres": "cm", "centimeters": "cm", "zentimeter": "cm", "centimetre": "cm", "centimeter": "cm", "εκ": "cm", "εκατοστα": "cm", "см": "cm", "centimetros": "cm", "centimetri": "cm", "pouces": "in", "pulgadas": "in", "pollici": "in", "pol": "in", "po": "in", "tum": "in", "tommer": "in", "tuumaa": "in", "cali": "in", "palcu": "in", "inc": "in", "εκατ": "cm", "см.": "cm", "センチ": "cm", "㎝": "cm", "㎜": "mm", "公分": "cm", "厘米": "cm", "sm": "cm", "ctm": "cm",
	"mm": "mm", "ft": "ft", "feet": "ft", "m": "m", "lb": "lb", "lbs": "lb", "pounds": "lb", "kg": "kg", "kgs": "kg", "kilos": "kg", "oz": "oz", "g": "g", "grams": "g", "gramm": "g",
}

// currencies are the signs before an amount, by what headings and cells call them.
var currencies = map[string]string{
	"$": "$", "usd": "$", "us$": "$", "£": "£", "gbp": "£", "€": "€", "eur": "€", "euro": "€", "cad": "CAD", "aud": "AUD", "nzd": "NZD", "chf": "CHF", "fr": "CHF", "sfr": "CHF",
	"kr": "kr", "sek": "kr", "nok": "kr", "dkk": "kr", "zł": "zł", "zl": "zł", "pln": "zł", "kč": "Kč", "kc": "Kč", "czk": "Kč", "mxn": "MXN", "r$": "R$", "brl": "R$", "jpy": "¥", "¥": "¥", "円": "¥", "yen": "¥", "tl": "₺", "try": "₺", "₺": "₺", "huf": "Ft",
}

// column is a column that has a meaning.
type column struct {
	at      int
	heading string
	means   meaning
	word    Word
	by      string // the word that says so
	unit    string // that the heading states: "in"; empty: none
	money   string // the sign of the currency that it states; empty: none
	order   string // of the measures of a size, such as wh; empty: not stated
	typo    bool   // no word of the heading is known as it is typed
	ticks   bool   // some rows are ticked and none is refused
}

// headings are the columns of a sheet.
type headings struct {
	columns      []column          // from left to right
	depth        int               // rows that the headings take
	from, to     int               // columns of the table, where another one stands beside it; 0 and 0: all
	decimalComma bool              // as in sheets with semicolons: 480,50
	numbered     bool              // titles begin with the work's number
	dated        bool              // titles end with its year
	key          map[string]Status // what lines beside the table say of words and colours in it
	notes        []string          // what was decided by what stands in the columns, in sentences
}

// find is the first column of a meaning.
func (h headings) find(m meaning) (column, bool) {
	for _, c := range h.columns {
		if c.means == m {
			return c, true
		}
	}
	return column{at: -1}, false
}

func (h headings) has(m meaning) bool { _, ok := h.find(m); return ok }

// sized is whether some column says how large the works are.
func (h headings) sized() bool {
	return slices.ContainsFunc(h.columns, func(c column) bool {
		return slices.Contains([]meaning{sizeMeaning, heightMeaning, framedSizeMeaning, framedHeightMeaning, sheetMeaning}, c.means)
	})
}

// score is how many columns have a meaning.
func (h headings) score() int {
	n := 0
	for _, c := range h.columns {
		if c.means != noMeaning {
			n++
		}
	}
	return n
}

// asTyped is how many of them are as they are typed.
func (h headings) asTyped() int {
	n := h.score()
	for _, c := range h.columns {
		if c.typo {
			n--
		}
	}
	return n
}

// named is whether the works of the sheet have more than a number.
func (h headings) named() bool {
	return h.has(titleMeaning) || h.has(nameMeaning) || h.has(fileMeaning)
}

// findHeadings is the row among the first ones with the most headings; it must have at least a title, a name, a file or a
// number, and one more; a row that is mostly headings ends the search. Headings may take two rows: Size, and under it H and W. No such row: no columns.
func findHeadings(lines []line) (best headings, at int) {
	if best, at = findAsTyped(lines, false); best.score() == 0 {
		return findAsTyped(lines, true)
	}
	best.mend()
	return best, at
}

// findAsTyped finds headings whose words are known; mended: or nearly are.
func findAsTyped(lines []line, mended bool) (best headings, at int) {
	head := lines[:min(len(lines), headRows)]
	for i, l := range head {
		if !l.varied() { // a line of text that is merged over all columns
			continue
		}
		h := readHeadings(l)
		if mended {
			h.mend()
		}
		if (h.named() || h.has(numberMeaning)) && h.score() >= 2 && h.score() > best.score() {
			best, at = h, i
		}
		if i+1 < len(head) {
			if two, ok := joined(l, head[i+1]); ok {
				if h := readHeadings(two); (h.named() || h.has(numberMeaning)) && h.score() >= best.score() {
					h.depth = 2
					best, at = h, i
				}
			}
		}
		if best.score() > 2 && best.named() && 2*best.score() >= len(best.columns) { // what has more may be a further table
			break
		}
	}
	return best, at
}

// varied is whether the cells of a row say several things.
func (l line) varied() bool {
	first := ""
	for i := range l.cells {
		t := l.text(i)
		if first == "" {
			first = t
		}
		if t != "" && t != first {
			return true
		}
	}
	return false
}

// joined is two rows as one, if the second has nothing but measures, units, currencies and frames, which say more of what stands above.
func joined(upper, lower line) (line, bool) {
	out := upper
	out.cells = slices.Clone(upper.cells)
	above := ""
	measures := 0
	for i := range lower.cells {
		if upper.text(i) != "" {
			above = upper.text(i)
		}
		s := lower.text(i)
		if s == "" || s == upper.text(i) { // merged over both
			continue
		}
		switch c := readHeading(s); {
		case len(lower.cells[i].text) > 20:
			return line{}, false
		case slices.Contains([]meaning{heightMeaning, widthMeaning, depthMeaning, lengthMeaning}, c.means):
			measures++
		case !plainly(s):
			return line{}, false
		}
		for len(out.cells) <= i {
			out.cells = append(out.cells, cell{})
		}
		out.cells[i] = newCell(above + " " + s)
	}
	return out, measures > 0
}

// plainly is whether a heading has nothing but units, currencies and words of frames.
func plainly(s string) bool {
	words := strings.Fields(folded(unframed.ReplaceAllString(folded(quotes.ReplaceAllString(s, ` " `)), "framed")))
	return !slices.ContainsFunc(words, func(w string) bool { return unitWords[w] == "" && currencies[w] == "" && !framing.are(w) })
}

func readHeadings(l line) headings {
	h := headings{depth: 1}
	for i := range l.cells {
		if text := l.text(i); text != "" {
			c := readHeading(text)
			c.at, c.heading = i, text
			h.columns = append(h.columns, c)
		}
	}
	strong := slices.IndexFunc(h.columns, func(c column) bool { return c.means == titleMeaning && !c.word.weak })
	for i := range h.columns {
		if c := &h.columns[i]; strong >= 0 && c.means == titleMeaning && c.word.weak {
			c.yield(&h.columns[strong])
		}
	}
	if !h.has(titleMeaning) { // a column Name alone is that of titles, and so is that of photographs if no file is named there
		for i := range h.columns {
			if c := &h.columns[i]; c.means == nameMeaning {
				c.become(titleMeaning)
				break
			}
		}
	}
	return h
}

// become gives a column another meaning than its words have first.
func (c *column) become(m meaning) {
	c.means, c.word = m, Vocabulary[slices.IndexFunc(Vocabulary, func(w Word) bool { return w.means == m })]
}

var (
	punctuation = regexp.MustCompile(`[()\[\]{}.,:;/_*?!–|'’-]+`)
	quotes      = regexp.MustCompile(`["″”]+|''`) // for inches
	unframed    = regexp.MustCompile(`\b(unframed|ungerahmt|not framed|non encadree?|o r|oramad|sin enmarcar|(without|w o|not|no|excl|excluding|not including|print only|ohne|sans|sin|senza|zonder|utan|bez|sem) (the )?(frame|rahmen|cadre|marco|cornice|lijst|ram|ramy|moldura))\b`)
)

var foreign = strings.NewReplacer("ß", "ss", "ı", "i", "×", "x", "✕", "x", "✖", "x", "°", "", "º", "", "œ", "oe", "ø", "o", "ł", "l", "æ", "ae")

// folded is a text in lower case, without accents and punctuation, with single blanks.
func folded(text string) string {
	plain := true
	for i := range len(text) {
		plain = plain && text[i] < 0x80
	}
	if plain {
		text = strings.ToLower(text)
	} else {
		text = foreign.Replace(strings.Map(func(r rune) rune { // Ｈ is H
			if unicode.Is(unicode.Mn, r) {
				return -1
			}
			return unicode.ToLower(r)
		}, norm.NFD.String(width.Fold.String(text))))
	}
	return strings.Join(strings.Fields(punctuation.ReplaceAllString(text, " ")), " ")
}

var (
	romance = regexp.MustCompile(`(ad|id|ut|at)(?:a|os|as|i|e)\b`)
	slavic  = regexp.MustCompile(`(an|on|pn)[aei]\b`)
	shorts  = strings.NewReplacer(" m r ", " gerahmt ", " o r ", " ungerahmt ", " m rahmen ", " mit rahmen ", " o rahmen ", " ohne rahmen ") // as it is written in German
)

// oneForm is a text, folded, with one form of the words that have several by gender and number: vendida → vendido, sprzedana →
// sprzedany.
func oneForm(text string) string {
	return slavic.ReplaceAllString(romance.ReplaceAllString(text, "${1}o"), "${1}y")
}

// words are words to look for, and such as stand together.
type words []string

// list parts words at "|"; "_" joins those that stand together.
func list(text string) words {
	if text == "" {
		return nil
	}
	return strings.Split(strings.ReplaceAll(text, "_", " "), "|")
}

// in is the first of the words that a text, folded, has.
func (ws words) in(text string) (string, bool) {
	if text == "" {
		return "", false
	}
	text = " " + text + " "
	for _, w := range ws {
		if at := strings.Index(text, w); at > 0 && strings.Contains(text[at-1:], " "+w+" ") {
			return w, true
		}
	}
	return "", false
}

// are is whether a text, folded, is one of the words.
func (ws words) are(text string) bool { return slices.Contains(ws, text) }

var (
	descriptions           = list("description|beschreibung|descripcion|descrizione|omschrijving")
	sizes, framing, prices = list(sizeWords), list(frameWords), list(priceWords)
	withs                  = map[string]words{} // the words of each With in the vocabulary
	longWords              []string             // of headings in plain letters, in the order of the vocabulary
	entries                = map[string][]int{} // the lines of the vocabulary that have a word, the first first
)

func init() {
	for i, w := range Vocabulary {
		withs[w.With] = list(w.With)
		for _, word := range list(w.Words) {
			entries[word] = append(entries[word], i)
			if len(word) > 4 && w.With == "" && word[0] < 0x80 && !strings.Contains(word, " ") {
				longWords = append(longWords, word)
			}
		}
	}
}

// lookUp is the first line of the vocabulary of which a heading, folded, has a word, and that word.
func lookUp(text string) (best int, by string) {
	best = len(Vocabulary)
	said := strings.Fields(text)
	for from := range said {
		for to := from + 1; to <= min(from+3, len(said)); to++ {
			word := strings.Join(said[from:to], " ")
			for _, i := range entries[word] {
				if i >= best {
					break
				}
				if with := withs[Vocabulary[i].With]; with != nil {
					if _, ok := with.in(text); !ok {
						continue
					}
				}
				best, by = i, word
				break
			}
		}
	}
	return best, by
}

// upright is whether a word is that of a height, flat that of a width; a length can be either.
func upright(w string) bool {
	return w[0] == 'h' || strings.HasPrefix(w, "alt") || strings.HasPrefix(w, "wys")
}

// readHeading is what a heading means, and the unit that it states.
func readHeading(text string) column {
	c := column{}
	s := folded(quotes.ReplaceAllString(text, ` " `))
	if order, others := orderOf(s, false); order != "" {
		c.order = order
		if s = others; s == "" {
			s = "size"
		} else if _, ok := sizes.in(s); !ok {
			s += " size"
		}
	}
	s = strings.TrimSpace(shorts.Replace(" " + s + " "))
	if _, ok := prices.in(s); !ok {
		s = unframed.ReplaceAllString(s, "")
	}
	words := strings.Fields(s)
	var rest []string
	for i, w := range words {
		stock := w == "in" && i+1 < len(words) && (words[i+1] == "stock" || currencies[words[i+1]] != "")
		if u, ok := unitWords[w]; ok && !stock && (i > 0 || len(words) > 1 && w != "m" && w != "g") {
			c.unit = u
			continue
		}
		if sign, ok := currencies[w]; ok && len(words) > 1 {
			c.money = sign
			continue
		}
		rest = append(rest, w)
	}
	if c.initial(rest) {
		return c
	}
	i, by := lookUp(parted(rest))
	if by == "" {
		i, by = lookUp(oneForm(strings.Join(rest, " ")))
	}
	if by != "" {
		c.means, c.word, c.by = Vocabulary[i].means, Vocabulary[i], by
	}
	if _, paper := papers.in(s); slices.Contains(lengthUnits, c.unit) && (c.means == fileMeaning || c.means == noMeaning) && (paper || c.means == fileMeaning) { // Image (in), Paper (in)
		c.become(map[bool]meaning{true: sheetMeaning, false: sizeMeaning}[paper])
	}
	return c
}

var lengthUnits = []string{"in", "cm", "mm", "ft", "m"}

// initial is whether a heading is a letter for a measure, alone or beside a word for sizes or frames: H, Size W, Framed H.
func (c *column) initial(said []string) bool {
	framed, size := false, false
	var others []string
	for _, w := range said {
		switch {
		case framing.are(w):
			framed = true
		case sizes.are(w):
			size = true
		default:
			others = append(others, w)
		}
	}
	if len(others) != 1 || initials[others[0]] == noMeaning || framed && size {
		return false
	}
	m := initials[others[0]]
	switch {
	case framed && m == heightMeaning:
		m = framedHeightMeaning
	case framed && m == widthMeaning:
		m = framedWidthMeaning
	case framed:
		return false
	}
	c.become(m)
	c.by = others[0]
	return true
}

// mend reads headings of which no word is known as they are mostly typed: demensions, prize.
func (h headings) mend() {
	for i := range h.columns {
		c := &h.columns[i]
		if !c.unknown() || len(c.heading) > 40 {
			continue
		}
		said := strings.Fields(folded(c.heading))
		for k, w := range said {
			if near, ok := fault.Nearest(w, longWords); ok && len(w) > 4 && near[0] == w[0] {
				said[k] = near
			}
		}
		if read := readHeading(strings.Join(said, " ")); read.means != noMeaning {
			read.at, read.heading, read.typo = c.at, c.heading, true
			*c = read
		}
	}
}

// parted is a heading with words that German and Dutch write as one taken apart, where the last part is known: bild titel.
func parted(said []string) string {
	out := make([]string, len(said))
	for i, w := range said {
		out[i] = w
		const first, last = 3, 4 // letters of the parts, at least
		for at := first; at <= len(w)-last && entries[w] == nil; at++ {
			if entries[w[at:]] != nil {
				out[i] = w[:at] + " " + w[at:]
				break
			}
		}
	}
	return strings.Join(out, " ")
}

// settle decides between columns that mean the same. Where they say different things it must be known which one counts: then
// the error says what to write.
func (h *headings) settle(lines []line) error {
	for i := range h.columns {
		c := &h.columns[i]
		if c.order != "" && !strings.Contains(c.order, "h") && c.means == sizeMeaning {
			return fmt.Errorf("the column %q does not say which of the two is the height (write “Size (H x W)” or “Size (W x H)” over it)", c.heading)
		}
		if c.means == bringMeaning {
			refused := count(lines, c.at, func(s string) bool { return no.are(folded(s)) })
			c.ticks = refused == 0 && count(lines, c.at, func(s string) bool { return yes.are(folded(s)) }) > 0
		}
		if c.means == fileMeaning && !h.has(titleMeaning) && !slices.ContainsFunc(lines, func(l line) bool { return pictureName.MatchString(l.text(c.at)) }) {
			c.become(titleMeaning)
		}
	}
	if !h.has(titleMeaning) && !h.has(fileMeaning) { // the number of a work may be its name: Item, Ref
		for i := range h.columns {
			if c := &h.columns[i]; c.means == numberMeaning && 2*count(lines, c.at, func(s string) bool { return strings.ContainsAny(s, " ") || !strings.ContainsAny(s, "0123456789") }) > len(lines) {
				c.become(titleMeaning)
				break
			}
		}
	}
	if !h.has(titleMeaning) && !h.has(fileMeaning) { // and what describes it, too
		for i := range h.columns {
			if c := &h.columns[i]; c.means == notesMeaning && descriptions.are(c.by) {
				c.become(titleMeaning)
				break
			}
		}
	}
	h.framedOrNot(lines)
	if err := h.fromContents(lines); err != nil {
		return err
	}
	h.numbered = !h.has(numberMeaning) && h.inTitles(lines, numberInTitle)
	h.dated = !h.has(yearMeaning) && h.inTitles(lines, yearInTitle)
	if !h.has(sizeMeaning) && !h.has(heightMeaning) {
		for i := range h.columns {
			if c := &h.columns[i]; c.means == sheetMeaning {
				c.become(sizeMeaning)
			}
		}
	}
	h.shareUnit()
	for i := range h.columns {
		first := &h.columns[i]
		for k := i + 1; k < len(h.columns); k++ {
			second := &h.columns[k]
			if first.means == noMeaning || first.means != second.means || !first.word.one {
				continue
			}
			a, b := count(lines, first.at, said), count(lines, second.at, said)
			differ := slices.ContainsFunc(lines, func(l line) bool {
				x, y := l.text(first.at), l.text(second.at)
				return folded(x) != folded(y) && (first.unit == second.unit || !sameLength(x+" "+first.unit, y+" "+second.unit))
			})
			switch {
			case b == 0 || !differ:
				second.means = noMeaning
			case a == 0:
				first.means = noMeaning
			case first.word.plain && !second.word.plain:
				second.yield(first)
			case second.word.plain && !first.word.plain:
				first.yield(second)
			default:
				return fmt.Errorf("two columns can be the %s, %q and %q, and they differ (write “not used” behind the heading that does not count, such as %s)",
					first.word.Called, first.heading, second.heading, unit.Quote(second.heading+" (not used)"))
			}
		}
	}
	switch height, width, length := h.has(heightMeaning), h.has(widthMeaning), h.has(lengthMeaning); {
	case length && width && !height && !h.has(sizeMeaning):
		l, _ := h.find(lengthMeaning)
		w, _ := h.find(widthMeaning)
		return fmt.Errorf("of the columns %q and %q it is not said which one is the height (write “Height” over it)", l.heading, w.heading)
	case length && height && !width:
		for i := range h.columns {
			if h.columns[i].means == lengthMeaning {
				h.columns[i].become(widthMeaning)
			}
		}
	}
	return nil
}

// framedOrNot finds columns called Framed and Unframed that hold prices or sizes.
func (h *headings) framedOrNot(lines []line) {
	for i := range h.columns {
		c := &h.columns[i]
		with, without := c.means == frameMeaning, c.means == noMeaning && unframed.MatchString(folded(c.heading)) && strings.Trim(unframed.ReplaceAllString(folded(c.heading), ""), " $£€¥") == ""
		if !with && !without {
			continue
		}
		n := count(lines, c.at, func(s string) bool { return folded(s) != "" && !no.are(folded(s)) })
		is := func(which func(s string) bool) bool { return n > 0 && count(lines, c.at, which) == n }
		switch {
		case is(func(s string) bool {
			return sizeInText.MatchString(s) && !strings.ContainsAny(folded(s)[:1], "abcdefghijklmnopqrstuvwxyz")
		}):
			c.become(map[bool]meaning{true: framedSizeMeaning, false: sizeMeaning}[with])
		case is(func(s string) bool {
			v, err := priceOf(s, h.decimalComma)
			return err == nil && v >= 500 // hundredths: a 1 is a yes
		}):
			c.become(map[bool]meaning{true: framedPriceMeaning, false: unframedPriceMeaning}[with])
		}
	}
}

// sameLength is whether two lengths or sizes, in two units, are one: 36 in, 91.4 cm.
func sameLength(x, y string) bool {
	of := func(s string) (unit.Size, error) {
		s = commaDecimal.ReplaceAllString(s, "$1.$2$3")
		if v, err := unit.ParseLength(s, unit.Inches, false); err == nil {
			return unit.Size{A: v, B: v}, nil
		}
		return unit.ParseSize(s, unit.Inches, false)
	}
	a, e := of(x)
	b, f := of(y)
	return e == nil && f == nil && !far(a.A, b.A) && !far(a.B, b.B)
}

// yield makes nothing of a column, as another one is what it could be.
func (c *column) yield(to *column) {
	c.means, c.word = ignoredMeaning, Word{Called: c.word.Called, Use: unit.Quote(to.heading) + " is that"}
}

// measures are what a column of lengths can be.
var measures = []meaning{sizeMeaning, heightMeaning, widthMeaning, lengthMeaning, depthMeaning, framedSizeMeaning, framedHeightMeaning, framedWidthMeaning}

// shareUnit gives columns of lengths without a unit the one that others state, if these agree: Height (cm), Width.
func (h *headings) shareUnit() {
	shared := ""
	for _, c := range h.columns {
		switch {
		case c.unit == "" || !slices.Contains(measures, c.means):
		case shared == "":
			shared = c.unit
		case shared != c.unit:
			return
		}
	}
	for i := range h.columns {
		if c := &h.columns[i]; c.unit == "" && slices.Contains(measures, c.means) {
			c.unit = shared
		}
	}
}

var pictureName = regexp.MustCompile(`(?i)\.(jpe?g|png|webp|tiff?|hei[cf]|avif)\b|^(img|dsc|pxl|p)?[_ -]?\d{3,}`)

func said(s string) bool { return s != "" }

// count is in how many rows a cell is such.
func count(lines []line, at int, is func(string) bool) int {
	n := 0
	for _, l := range lines {
		if is(l.text(at)) {
			n++
		}
	}
	return n
}

// used are the columns as they are told, each with the rows that have something in it.
func (h headings) used(lines []line) (used []Column, unused []Column) {
	taken := map[meaning]string{}
	for _, c := range h.columns {
		if c.typo && c.word.Called != "" { // else it is said that it is not known
			c.heading += " (read as " + c.by + ")"
		}
		n := count(lines, c.at, said)
		before, twice := taken[c.means]
		if c.means == fileMeaning || c.means == notesMeaning || c.means == locationMeaning || c.means == soldMeaning || c.means == statusMeaning {
			twice = false
		}
		switch {
		case c.means == noMeaning && c.word.Called != "":
			unused = append(unused, Column{c.heading, "a second " + c.word.Called + ", the same or empty", n})
		case c.means == noMeaning:
			unused = append(unused, Column{c.heading, "none of its words is known here", n})
		case c.word.Called == "nothing":
			unused = append(unused, Column{c.heading, c.word.Use, n})
		case !c.word.used:
			unused = append(unused, Column{c.heading, c.word.Called + ": " + c.word.Use, n})
		case twice:
			unused = append(unused, Column{c.heading, fmt.Sprintf("a second %s: %q is used", c.word.Called, before), n})
		default:
			taken[c.means] = c.heading
			used = append(used, Column{c.heading, c.meaning(), n})
		}
	}
	return used, unused
}

// meaning is what the column was taken for, in words.
func (c column) meaning() string {
	m := c.word.Called
	switch {
	case c.means != sizeMeaning && c.means != framedSizeMeaning:
	case c.order == "":
		m += ", height x width"
	default:
		var said []string
		for _, role := range c.order {
			said = append(said, map[rune]string{'h': "height", 'w': "width", 'd': "depth"}[role])
		}
		m += ", " + strings.Join(said, " x ")
	}
	if c.unit != "" {
		m += ", in " + cmp.Or(map[string]string{"in": "inches"}[c.unit], c.unit)
	}
	if c.money != "" {
		m += ", in " + c.money
	}
	return m
}
