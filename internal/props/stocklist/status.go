package stocklist

import (
	"regexp"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
)

// Status is what a list says of a work beside its price.
type Status string

// The states of a work. A sold one has no status: that it is sold stands for itself.
const (
	ForSale    Status = ""
	From       Status = "from" // its price is the least that it can cost: of several sizes, without a frame
	OnHold     Status = "on hold"
	NotForSale Status = "not for sale"
	OnRequest  Status = "on request" // its price is
	Spare      Status = "spare"      // it stays at home, or in the car
	Elsewhere  Status = "elsewhere"  // at a gallery, on loan: it cannot be brought
	sold       Status = "sold"       // within this package
)

// absent is whether a status says that a work does not hang, and nothing of its price.
func (s Status) absent() bool { return s == Spare || s == Elsewhere || s == sold }

// States are the words by which a status is known, in the order in which they are looked for: "not for sale" before "for sale".
var States = []struct {
	Is    Status
	Words string // as in a Word
}{
	{NotForSale, "非売品|非売|satilik degil|nem elado|nepredajne|ikke til salgs|niet te koop|display only|for display|no vendible|ddim ar werth|nid ar werth|ei myynnissa|neni na prodej|neprodejne|neprodejny|δεν πωλειται|δεν ειναι προς πωληση|не продается|no disponible per vendre|nfs|n f s|not selling|not for sale|unverkauflich|nicht verkauflich|hors vente|pas a vendre|no en venta|no se vende|no vender|non in vendita|non vendesi|invendibile|niet te koop|n t k|ntk|ej till salu|inte till salu|ikke til salg|nie na sprzedaz|nao esta a venda|nao a venda|no esta a la venta|no a la venta"},
	{ForSale, "sold as|sold in sets|sold separately|sold together|sold individually|sold unframed|sold framed|sold with|sold by|nur zusammen verkauft|unsold|not sold|n a|na|nicht verkauft|pas vendu|no vendido|non venduto|niet verkocht|not reserved|nicht reserviert|inte sald|ikke solgt|niesprzedany"},
	{sold, "売約済|売約|完売|売却済|satildi|已售|elkelt|eladva|predane|predany|gone|parduota|gwerthwyd|wedi gwerthu|myyty|prodano|prodana|prodany|πωληθηκε|πουληθηκε|πωλημενο|продано|продана|venut|venuda|vandut|vanduta|sold|verkauft|verk|vendu|vendue|vendido|vendida|venduto|venduta|verkocht|red dot|●|sald|solgt|sprzedany"},
	{OnHold, "予約|商談中|rezerve|ayrildi|foglalt|rezervacia|rezervace|rezervacja|reservering|reservacion|reservation|reservierung|reserva|optie|in optie|na rezerwacje|zarezerwowano|zarezerwowane|rezervovane|varaus|pending|hold for|cadw|wedi i gadw|varattu|rezervovano|rezervovana|κρατημενο|κρατηση|δεσμευμενο|в резерве|резерв|забронировано|reservat|rezervat|on hold|hold|held|reserved|reserv|res|reserviert|reserve|reservee|reservado|riservato|gereserveerd|option|reserverad|reservert|reserveret|zarezerwowany|rezerwacja|prenotato|opzionato|apartado|promised"},
	{OnRequest, "応相談|要問合せ|fiyat sorunuz|sorunuz|ar kerdesre|cena dohodou|dohodou|ask me|contact me|ar gais|pris ar gais|pyynnosta|kysy|na dotaz|na vyzadani|κατοπιν συνεννοησης|κατοπιν ζητησης|по запросу|a consultar|pret la cerere|price on request|on request|por|poa|on application|enquire|inquire|preis auf anfrage|auf anfrage|sur demande|a consultar|consultar|precio a consultar|bajo demanda|a convenir|su richiesta|trattativa riservata|op aanvraag|nc|prix sur demande|pris pa forfragan|sob consulta|cena na zapytanie"},
	{Spare, "自宅|evde|otthon|gartref|kotona|doma|σπιτι|στο σπιτι|дома|a casa|acasa|spare|at home|home|stays home|not coming|backup|zuhause|zu hause|daheim|bleibt da|ersatz|a la maison|en casa|casa|in casa|thuis|hemma|hjemme|w domu|em casa|chez moi|chez nous|bei mir|bleibt bei mir|bleibt hier|keep|keeping"},
	{Elsewhere, "展示中|貸出中|画廊|galeride|sergide|galeriaban|bij galerie|in galerie|bij de galerie|mewn oriel|oriel|nayttelyssa|galleriassa|v galerii|na vystave|σε γκαλερι|σε εκθεση|в галерее|на выставке|en exposicio|on loan|on show|on display|ausgestellt|loan|consigned|donated|gifted|given away|private collection|painted over|destroyed|in progress|not finished|unfinished|wip|in arbeit|privatbesitz|verschenkt|collection privee|en cours|gallery|exhibition|consignment|leihgabe|verliehen|galerie|ausstellung|kommission|galleria|galeria|en prestamo|prestado|prestada|en exposicion|en deposito|in prestito|in mostra|in esposizione|in conto vendita|coleccion privada|collezione privata|uitgeleend|not available|unavailable|en depot|depot vente|deposito|depositato|slg|sammlung|privatsammlung|ausst|utstalld|galleri|w galerii|na wystawie|em exposicao|exposto|emprestado|privatsamling|coleccion particular|collection particuliere"},
	{ForSale, "販売中|在庫あり|satista|satilik|elado|skladem|volny|myytavana|na predaj|disponiveis|avail|ar werth|ar gael|myynnissa|vapaa|k prodeji|dostupne|volne|διαθεσιμο|διαθεσιμη|προς πωληση|в наличии|продается|a la venda|available|for sale|studio|atelier|estudio|vorhanden|a vendre|en venta|a la venta|in vendita|te koop|till salu|til salg|na sprzedaz|a venda|dostepny|ledig|disponivel|tilgjengelig|verfugbar|frei|zu verkaufen|dispo|disponible|disponibile|beschikbaar|in stock|free"},
}

var stateWords = func() (out []words) {
	for _, s := range States {
		out = append(out, list(s.Words))
	}
	return out
}()

// state is the first status of which the text has a word. begins: the text must begin with it.
func state(text string, begins bool) (Status, bool) {
	text = folded(text)
	for _, text := range slices.Compact([]string{text, oneForm(text)}) {
		for i, s := range States {
			_, ok := stateWords[i].in(text)
			if ok && begins {
				ok = slices.ContainsFunc(stateWords[i], func(w string) bool { return strings.HasPrefix(text+" ", w+" ") })
			}
			if ok {
				return s.Is, true
			}
		}
	}
	return ForSale, false
}

var (
	yes = list("はい|有|あり|evet|var|igen|kylla|ano|ie|oes|yes|y|x|ja|j|oui|si|sim|ναι|да|tak|true|wahr|1|✓|✔|☑")
	no  = list("いいえ|無|なし|hayir|yok|nem|nincs|geen|zonder|ingen|inget|inga|utan|uden|uten|bez|zadny|zadna|brak|sem|sans|sin|senza|ninguno|ninguna|nenhum|nenhuma|nessuno|nessuna|ilman|χωρις|καμια|без|нет рамы|ei|ne|nac oes|no|n|nein|non|nee|nej|nei|nao|οχι|нет|nie|false|falsch|0|none|keiner|kein|ohne|aucun|☐|✗")
)

// mine are the words for whoever made a work, in a column of owners: it is not sold.
var mine = list("artist|the artist|me|mine|self|studio|the studio|kunstler|kunstlerin|selbst|atelier|ich|artiste|moi|l artiste|artista|el artista|la artista|propio|io|kunstenaar|konstnaren|artysta")

// strength is which of several states of a work counts: of those that say whether it hangs, and of those of its price.
var strength = []Status{ForSale, From, OnRequest, OnHold, NotForSale, Spare, Elsewhere, sold}

// status is what the columns say of a work beside its price, and of why it does not hang; each is ForSale for nothing. What they say
// that is not understood is doubt.
func (h headings) status(l line) (is, away Status, doubt string) {
	found := func(s Status, ok bool) bool {
		of := &is
		if s.absent() {
			of = &away
		}
		if ok && slices.Index(strength, s) > slices.Index(strength, *of) {
			*of = s
		}
		return ok
	}
	found(sold, h.struck(l))
	if f := h.filled(l); f != "" && h.explained(l) {
		found(h.key[f], true)
	}
	for _, c := range h.columns {
		text := l.text(c.at)
		if text == "" {
			found(Spare, c.ticks)
			continue
		}
		if s, ok := h.key[folded(text)]; ok && (c.means == statusMeaning || c.means == notesMeaning) {
			found(s, true)
			continue
		}
		switch c.means {
		case soldMeaning: // a tick, a date, a name: all say so
			if s, ok := state(text, false); ok {
				found(s, true)
			} else if said := folded(text); said != "" && !no.are(said) && !mine.are(said) {
				found(sold, true)
			}
		case statusMeaning:
			first := folded(clauses.Split(text, 2)[0])   // No, only to be seen
			switch asks, _ := state(c.heading, false); { // a column "NFS" is ticked
			case yes.are(first):
				found(asks, true)
			case no.are(first) && c.by == "for sale": // it may hang
				found(NotForSale, true)
			case no.are(first) && asks == ForSale && c.by != "status":
				found(Elsewhere, true)
			case no.are(first) || first == "":
			default:
				_, place := places.in(folded(c.heading))
				s, ok := state(text, false)
				if !ok {
					s, ok = dotOf(folded(text))
				}
				if !found(s, ok) && !place {
					doubt = c.heading + ": " + unit.Quote(text) + " is no status that is known here; the work counts as for sale (boothmock explain sheet --all says which are)"
				}
			}
		case quantityMeaning:
			switch said := folded(text); {
			case said == "0":
				found(sold, true)
			case no.are(said):
				found(Elsewhere, true)
			}
		case bringMeaning:
			switch said := folded(text); {
			case no.are(said):
				found(Spare, true)
			case !yes.are(said):
				if s, ok := state(text, false); !found(s, ok) {
					doubt = c.heading + ": " + unit.Quote(text) + " says neither yes nor no; the work comes"
				}
			}
		case locationMeaning:
			if s, ok := state(text, false); ok && s.absent() {
				found(s, true)
			} else if s, _ := state(c.heading, false); s == Elsewhere && folded(text) != "" && !no.are(folded(text)) { // consigned to
				found(s, true)
			}
		case notesMeaning:
			for _, clause := range clauses.Split(text, -1) {
				found(state(clause, true))
			}
		case priceMeaning, framedPriceMeaning, unframedPriceMeaning:
			found(state(text, false))
			found(From, leastPrice.MatchString(text))
		case titleMeaning:
			if m := bracketed.FindStringSubmatch(text); m != nil {
				found(state(m[2], true))
			}
			s, _ := endOf(text)
			found(s, true)
		}
	}
	return is, away, doubt
}

// dotOf is what a sticker of a colour says in a column of them: red is sold, half of one on hold; common practice, no source. Other
// colours say what each artist wants, so a key must say it.
func dotOf(text string) (Status, bool) {
	if _, half := halfDots.in(text); half {
		return OnHold, true
	}
	_, red := redDots.in(text)
	return sold, red
}

var redDots, halfDots = list("red|rot|rouge|rojo|rosso|rood|vermelho|rod|czerwony|coch|punainen|cerveny|κοκκινο|красный"), list("half|halb|demi|medio|mezzo|half red|halber")

var keyed = regexp.MustCompile(`([\pL\pN●○*]+(?: [\pL]+)?)\s*[=:]\s*([^,;=:|]+)`)

// readKey is what lines beside the table say of words and colours in it: red = sold, orange = reserved.
func readKey(lines []line) map[string]Status {
	key := map[string]Status{}
	for _, l := range lines {
		for i := range l.cells {
			if l.cells[i].long {
				continue
			}
			for _, m := range keyed.FindAllStringSubmatch(l.text(i), -1) {
				if s, ok := state(m[2], true); ok {
					key[folded(m[1])] = s
				}
			}
		}
	}
	return key
}

var (
	clauses = regexp.MustCompile(`[,;.–—] | - `)
	places  = list(locationWords)
)

var bracketed = regexp.MustCompile(`^(.+?) *[(\[]([^()\[\]]+)[)\]]$`)

// sculptural are words of sculpture and vessels, which stand by themselves.
const sculptural = "sculpture|sculptures|statue|bust|ceramic|ceramics|pottery|vessel|vase|bowl|skulptur|skulpturen|plastik|keramik|ceramique|scultura|sculture|ceramica|escultura|esculturas|sculptuur|keramiek|beeld"

// offWall are words of media, kinds and titles of what stands or lies instead of hanging.
var offWall = list(sculptural + "|mug|mugs|jewellery|jewelry|card|cards|greeting cards|postcard|postcards|calendar|calendars|book|books|sketchbook|notebook|tote|totes|bag|bags|towel|towels|apron|coaster|coasters|magnets|stickers|browser|earrings|necklace|schmuck|karten|postkarten|grusskarten|kalender|bucher|carte postale|cartes postales|bijou|bijoux|tarjetas|postales|cartoline|kaarten")

// soldByKind are the words of them by which a title is known to be no picture's.
var soldByKind = list("keyring|keyrings|bookmark|bookmarks|card|cards|postcards|calendar|calendars|tea towel|tea towels|tote bag|tote bags|stickers|magnets|notebook|notebooks|browser|karten|kartenset|postkarten|grusskarten|kalender|cartes postales|tarjetas|postales|cartoline|kaarten")

// Metres; common practice, no source: a deeper thing stands, and so does one deeper than a canvas that is of a sculptor's material.
const (
	deepest    = 0.127
	deepCanvas = 0.064
)

// cast are what sculpture is made of, where nothing else is named.
var cast = list("bronze|bronce|bronzo|brons|marble|marmor|marbre|marmol|marmo|stone|stein|pierre|piedra|pietra|limestone|soapstone|alabaster|clay|ton|argile|terracotta|terrakotta|stoneware|steinzeug|gres|porcelain|porzellan|porcelaine|cast iron|iron|steel|wire|raku|carved wood|driftwood|papier mache")

// stands is why a work is not for a wall; empty for one that hangs.
func (h headings) stands(l line, r Row) string {
	for _, m := range []meaning{typeMeaning, mediumMeaning, titleMeaning} {
		text, _ := h.say(l, m)
		by, ok := offWall.in(folded(text))
		if m == titleMeaning { // which may be that of a painting: "The blue vase"
			by, ok = soldByKind.in(folded(text))
		}
		if ok {
			return by
		}
	}
	material, _ := h.say(l, mediumMeaning)
	if r.Depth.M() > deepest || r.Depth.M() > deepCanvas && cast.are(folded(material)) {
		return deep
	}
	return ""
}

const deep = "it is deeper than a picture"

var sculptures = list(sculptural)

// Sculpture is whether a work that is not for a wall stands by itself, and all three of its measures are known.
func (r Row) Sculpture() bool {
	return r.Depth > 0 && r.Size.A > 0 && (r.Stands == deep || sculptures.are(r.Stands))
}
