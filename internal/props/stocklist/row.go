package stocklist

import (
	"cmp"
	"errors"
	"fmt"
	"path"
	"regexp"
	"strings"

	"boothmock/internal/basis/unit"
)

var (
	commaDecimal = regexp.MustCompile(`(\d),(\d{1,2})(\D|$)`)
	statesUnit   = regexp.MustCompile(`[a-z'"′″’”]`) // in a length
	roughly      = regexp.MustCompile(`(?i)^(?:ca|circa|approx|approximately|about|c|env|etwa)\b\.? *|^~ *`)
	typedDate    = regexp.MustCompile(`(?i)^\d{1,2}[-. ]+(?:jan|feb|m[aä]r|apr|ma[iy]|jun|jul|aug|sep|o[ck]t|nov|de[cz])[a-z.]*(?:[-. ]+\d{2,4})?$|^(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[- ]\d{1,4}$|^\d{4}-\d{2}-\d{2}(?:[T ].*)?$|^\d{1,2}[./]\d{1,2}[./]\d{2,4}$`)
	cellError    = regexp.MustCompile(`^#[A-ZÄÖÜÉ][A-ZÄÖÜÉ0-9/]+[!?]?$`)
)

// line's row is being read: what is wrong with it, and what was left out of it.
type reading struct {
	heads  headings
	line   line
	bare   unit.System
	stated bool      // bare is stated
	why    []string  // what is wrong: the row cannot be read
	doubts []string  // what was left out of it
	pieces int       // parts of the work; 0: it is one
	each   unit.Size // of each
	format bool      // its size is a format's
	open   bool      // and which way up is not said
	whole  bool      // its size is said to be that of all its parts
	dashed bool      // its size is written as 12-16
	around bool      // the size over a frame is said, whatever is behind its glass
}

// row is one work, all for which it cannot be read, and what of it was left out.
func (h headings) row(l line, bare unit.System, stated bool) (r Row, why, doubts []string) {
	d := &reading{heads: h, line: l, bare: bare, stated: stated}
	r = Row{Number: l.number, At: l.at}
	if !d.legible(&r) {
		return r, d.why, nil
	}
	d.texts(&r)
	if r.Title+r.Name+r.File == "" && (r.No == "" || h.named()) {
		return r, append(d.why, "it has no title and no photograph"), d.doubts
	}
	status, away, doubt := h.status(l)
	if doubt != "" {
		d.doubts = append(d.doubts, doubt)
	}
	r.Status = status
	if r.Sold = away == sold; !r.Sold {
		r.Away = away
	}
	if m := bracketed.FindStringSubmatch(r.Title); m != nil { // Heron (sold)
		if _, ok := state(m[2], true); ok {
			r.Title = m[1]
		}
	}
	d.split(&r)
	d.size(&r)
	d.paper(&r)
	d.weight(&r)
	d.price(&r)
	d.value(&r)
	r.dashed, r.hidden = d.dashed, l.hidden
	r.inOne = r.Size.A > 0 && r.Parts == 0 && !d.whole && d.partsSaid(diptych) > 1
	r.struck, r.coloured = h.struck(l), h.filled(l) != "" && !h.explained(l)
	r.Stands = h.stands(l, r)
	return r, d.why, d.doubts
}

// complain is that the row cannot be read for what stands in a column.
func (d *reading) complain(c column, err error) {
	d.why = append(d.why, c.heading+": "+d.words(c, err))
}

// words are an error as it is told, of what stands in the cell, without a unit from elsewhere.
func (d *reading) words(c column, err error) string {
	words := plainError(err)
	if text := d.line.text(c.at); c.at >= 0 {
		words = strings.Replace(words, unit.Quote(text+c.unit), unit.Quote(text), 1)
	}
	return words
}

// legible is whether the cells that count can be read at all: none too long, none with an error of the spreadsheet.
func (d *reading) legible(r *Row) bool {
	for _, c := range d.heads.columns {
		if c.at >= len(d.line.cells) || !c.word.used {
			continue
		}
		if d.line.cells[c.at].long && c.means != notesMeaning {
			d.complain(c, fmt.Errorf("it has more than %d characters (keep what matters, and the rest in another column)", maxCell))
		}
		text := d.line.text(c.at)
		if !cellError.MatchString(text) {
			continue
		}
		err := fmt.Errorf("the spreadsheet shows the error %s there instead of a value (mend the formula, or type the value)", text)
		if text == unsaved {
			err = errors.New("the result of its formula is not in the file (open the file in a spreadsheet program and save it, or type the value)")
		}
		switch c.means {
		case titleMeaning, nameMeaning, fileMeaning, sizeMeaning, heightMeaning, widthMeaning:
			d.complain(c, err)
		default:
			d.doubts = append(d.doubts, c.heading+": "+err.Error())
		}
	}
	if len(d.why) > 0 {
		r.Title, _ = d.heads.say(d.line, titleMeaning)
	}
	return len(d.why) == 0
}

// texts are what a row says in words.
func (d *reading) texts(r *Row) {
	for _, t := range []struct {
		m  meaning
		to *string
	}{{numberMeaning, &r.No}, {nameMeaning, &r.Name}, {titleMeaning, &r.Title}, {artistMeaning, &r.Artist}, {mediumMeaning, &r.Medium}, {editionMeaning, &r.Edition}, {yearMeaning, &r.Year}, {familyMeaning, &r.Family}, {linkMeaning, &r.Link}} {
		text, c := d.heads.say(d.line, t.m)
		dated := c.at >= 0 && c.at < len(d.line.cells) && d.line.cells[c.at].date
		switch {
		case cellError.MatchString(text):
		case dated && t.m == yearMeaning:
			*t.to = yearOf(text)
		case dated && t.m == editionMeaning:
			d.doubts = append(d.doubts, c.heading+": the spreadsheet has made a date of it; the edition is left out (format the cell as text and type it again)")
		case dated:
			d.complain(c, errors.New("the spreadsheet has made a date of it: format the cell as text and type it again"))
		default:
			*t.to = text
		}
	}
	if !strings.Contains(r.Link, ".") { // a yes, a dash
		r.Link = ""
	}
	if m := editionInMedium.FindStringSubmatch(r.Medium); m != nil && r.Edition == "" { // linocut 3/20
		r.Medium, r.Edition = m[1], cmp.Or(m[2], m[3])
	}
	if y := fourDigits.FindString(r.Year); y != "" { // of a date, the year
		r.Year = y
	}
	for _, c := range d.heads.columns {
		if c.means != fileMeaning {
			continue
		}
		for _, name := range photographs(d.line.typed(c.at)) {
			if r.File == "" {
				r.File = name
			} else if name != r.File {
				r.More = append(r.More, name)
			}
		}
	}
}

var editionInMedium = regexp.MustCompile(`(?i)^(.*?[^\d\s,;(–-])[\s,;(–-]+(?:(?:edition|[ée]d|auflage|aufl|tirage|ex|es|ej|tiratura|upplaga|nak[łl]ad|nr|no)\b[.:]*(?: of)?\s*)?(?:(\d{1,4} ?/ ?\d{1,4})|((?:edition|[ée]d|auflage|aufl|tirage|tiratura|edici[óo]n|edi[çc][ãa]o|oplage|upplaga|nak[łl]ad)\b[.:]*(?: of| de| di)? ?\d+))\)?$`)

var fourDigits = regexp.MustCompile(`\b(?:1[5-9]|20)\d\d\b`)

// yearOf is the year of a date as an XLSX holds it: days since the end of 1899 (ECMA-376 part 1, 18.17.4.1), or the year itself.
func yearOf(text string) string {
	var days float64
	if _, err := fmt.Sscanf(text, "%g", &days); err != nil || fourDigits.FindString(text) != "" && days < 3000 {
		return text
	}
	return fmt.Sprint(1900 + int((days-1)/365.2425))
}

// photographs are the names of files in a cell: some people put several there.
func photographs(text string) []string {
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '|' || r == '\n' })
	if n := len(pictureFile.FindAllString(text, -1)); n > 1 {
		parts = nil
		for text != "" {
			at := pictureFile.FindStringIndex(text)
			if at == nil {
				break
			}
			parts, text = append(parts, text[:at[1]]), strings.TrimLeft(text[at[1]:], " ,;|+&/")
		}
	}
	var out []string
	for _, p := range parts {
		if p = strings.Trim(p, " ,"); p != "" {
			out = append(out, here(p))
		}
	}
	return out
}

// here is the name of a file of another folder, or another computer: only its last part can be here too. What follows the name is
// no part of it: photo.jpg?w=1200, photo.jpg (crop).
func here(name string) string {
	p := strings.ReplaceAll(name, `\`, "/")
	if at := pictureFile.FindStringIndex(p); at != nil && !strings.Contains(p[at[1]:], ".") {
		p = p[:at[1]]
	}
	if elsewhere.MatchString(p) {
		p = path.Base(p)
	}
	return p
}

var elsewhere = regexp.MustCompile(`(?i)^(?:[a-z][a-z0-9+.-]*:|/|~|\.\./)`)

var pictureFile = regexp.MustCompile(`(?i)\.(?:jpe?g|png|webp|tiff?|hei[cf]|avif)\b`)

var wordBehind = regexp.MustCompile(`([\d½¼¾⅛⅜⅝⅞.,]\s*)([\pL㎝㎜]{2,})\.?`)

// plainUnits is a text with the units of other languages as they are known here: 50 x 70 εκ.
func plainUnits(text string) string {
	return wordBehind.ReplaceAllStringFunc(text, func(s string) string {
		m := wordBehind.FindStringSubmatch(s)
		if u := unitWords[folded(m[2])]; u != "" {
			return m[1] + u
		}
		return s
	})
}

// in adds the unit that stands elsewhere to a length or size without one.
func (d *reading) in(text string, c column) string {
	text = commaDecimal.ReplaceAllString(plainUnits(strings.TrimLeft(text, "'’")), "$1.$2$3") // '16 is how a spreadsheet marks a text
	if statesUnit.MatchString(strings.NewReplacer("x", "", "×", "", "by", "").Replace(strings.ToLower(text))) {
		return text
	}
	said, _ := d.heads.say(d.line, unitMeaning)
	if u := unitWords[folded(said)]; u != "" && c.means != weightMeaning {
		return text + u
	}
	return text + c.unit
}

// size reads the size without a frame, that with one, and what the row says of its frame.
func (d *reading) size(r *Row) {
	var outer unit.Size
	for _, t := range []struct {
		m  meaning
		to *unit.Size
	}{{sizeMeaning, &r.Size}, {framedSizeMeaning, &outer}} {
		text, c := d.sizeCell(t.m)
		if text == "" {
			continue
		}
		if folded(text) == "" { // a dash
			continue
		}
		if t.m == sizeMeaning {
			inner, framed := partedByFrame(text)
			if framed != "" {
				var err error
				if outer, _, err = d.sizeOf(framed, c); err != nil {
					d.complain(c, err)
					continue
				}
				r.stated = statedIn(d.in(framed, c))
			}
			if text = inner; text == "" {
				r.framedAlone = true
				continue
			}
		}
		if first := firstOf(text); first != "" && t.m == sizeMeaning {
			d.doubts = append(d.doubts, fmt.Sprintf("%s: %s is more than one size; the first of them counts (give each size a row of its own)", c.heading, unit.Quote(text)))
			text = first
		}
		size, depth, err := d.sizeOf(text, c)
		if err != nil && !(r.Sold && t.m == sizeMeaning) {
			d.complain(c, err)
			continue
		}
		*t.to = size
		if t.m == sizeMeaning {
			r.stated, r.Depth, r.Parts, r.Each, r.Open = statedIn(d.in(text, c)), depth, d.pieces, d.each, d.open
			if d.format {
				r.stated = metric
			}
		}
	}
	for _, t := range []struct {
		m, of meaning
		to    *unit.Length
	}{{heightMeaning, sizeMeaning, &r.Size.A}, {widthMeaning, sizeMeaning, &r.Size.B}, {depthMeaning, depthMeaning, &r.Depth}, {framedHeightMeaning, framedSizeMeaning, &outer.A}, {framedWidthMeaning, framedSizeMeaning, &outer.B}} {
		text, c := d.heads.say(d.line, t.m)
		if text == "" || folded(text) == "" || cellError.MatchString(text) {
			continue
		}
		if whole, _ := d.sizeCell(t.of); whole == text && t.of != t.m { // read already
			continue
		}
		if m := across.FindStringSubmatch(text); m != nil && t.m != depthMeaning { // Ø 30
			if text = m[1] + m[2]; *t.to == 0 && t.m == heightMeaning {
				r.Size.B, _ = unit.ParseLength(d.in(text, c), d.bare, d.stated)
			}
		}
		v, err := unit.ParseLength(d.in(text, c), d.bare, d.stated)
		switch {
		case d.dated(c, text):
			err = errDate
		case err == nil && !(v >= 0 && v.M() <= 40*unit.Foot.M()):
			err = outOfRange(text)
		}
		switch {
		case err != nil && t.m == depthMeaning:
			d.doubts = append(d.doubts, c.heading+": "+d.words(c, err))
		case err != nil:
			d.complain(c, err)
		default:
			if t.m != depthMeaning || r.stated == unstated {
				r.stated = statedIn(d.in(text, c))
			}
			*t.to = v
		}
	}
	if (r.Size.A == 0) != (r.Size.B == 0) && len(d.why) == 0 {
		d.why = append(d.why, "it has a height or a width, but not both")
	}
	if (outer.A == 0) != (outer.B == 0) {
		outer = unit.Size{}
	}
	if note := d.framed(r, outer); note != "" {
		d.doubts = append(d.doubts, note)
	}
}

// paper reads the sheet of a print. One that a picture fits into only the other way round is turned.
func (d *reading) paper(r *Row) {
	text, c := d.heads.say(d.line, sheetMeaning)
	if folded(text) == "" || r.Size.A == 0 || r.Parts > 0 || d.around || cellError.MatchString(text) {
		return
	}
	sheet, _, err := d.sizeOf(text, c)
	if fits := func() bool { return sheet.A >= r.Size.A && sheet.B >= r.Size.B }; err == nil && !fits() {
		if sheet.A, sheet.B = sheet.B, sheet.A; !fits() {
			err = errors.New(unit.Quote(text) + " is smaller than the picture")
		}
	}
	switch {
	case err != nil:
		d.doubts = append(d.doubts, c.heading+": "+d.words(c, err)+"; the sheet is left out")
	case sheet != r.Size:
		r.Paper = sheet
	}
}

func (d *reading) dated(c column, text string) bool {
	return c.at >= 0 && c.at < len(d.line.cells) && d.line.cells[c.at].date || typedDate.MatchString(text)
}

// weight reads what a work weighs. A number without a unit is left out: pounds and kilograms are far apart.
func (d *reading) weight(r *Row) {
	text, c := d.heads.say(d.line, weightMeaning)
	if text == "" || folded(text) == "" || cellError.MatchString(text) {
		return
	}
	r.bareWeight = !statesUnit.MatchString(strings.ToLower(text)) && c.unit == ""
	v, err := unit.ParseWeight(roughly.ReplaceAllString(d.in(text, c), ""), d.bare, d.stated)
	if err == nil && !(v >= 0 && v <= 1000*unit.Pound) {
		err = errors.New(unit.Quote(text) + " is out of range")
	}
	if err != nil {
		d.doubts = append(d.doubts, c.heading+": "+d.words(c, err)+"; the weight is left out")
		return
	}
	r.Weight = v
}

// comma is whether a comma is the decimal mark in a column of prices.
func (d *reading) comma(c column) bool {
	return d.heads.decimalComma || c.money == "CHF" || commaMoney(c.money)
}

// value reads what a work is insured for.
func (d *reading) value(r *Row) {
	text, c := d.heads.say(d.line, valueMeaning)
	if text == "" || cellError.MatchString(text) {
		return
	}
	v, err := priceOf(text, d.comma(c))
	if err != nil {
		d.doubts = append(d.doubts, c.heading+": "+err.Error()+"; the price counts instead")
		return
	}
	r.Value = v
}

// price reads what visitors pay. One that cannot be read is left out, and the work hangs.
func (d *reading) price(r *Row) {
	text, c := d.asked(r)
	if text == "" || cellError.MatchString(text) {
		return
	}
	if d.line.cells[c.at].spread {
		d.doubts = append(d.doubts, c.heading+": the cell is merged with that of the row above; give each work its own price")
		return
	}
	v, err := priceOf(ofFramed(text, r.Frame != nil), d.comma(c))
	if low := lowest(text, d.comma(c)); err != nil && low > 0 && !r.Sold {
		v, err = low, nil
		if r.Status == ForSale {
			r.Status = From
		}
		d.doubts = append(d.doubts, fmt.Sprintf("%s: %s is more than one price; the least of them counts, as “from” (write the one that visitors pay)", c.heading, unit.Quote(text)))
	}
	if err != nil {
		if !r.Sold {
			d.doubts = append(d.doubts, c.heading+": "+err.Error()+"; the price is left out")
		}
		return
	}
	said, _ := d.heads.say(d.line, currencyMeaning)
	r.Price, r.money, r.typed = v, cmp.Or(moneyIn(text), moneyIn(said), c.money), text
}

// asked is the cell of the price: of a list with prices with and without a frame, the one that suits the work.
func (d *reading) asked(r *Row) (string, column) {
	order := []meaning{unframedPriceMeaning, priceMeaning, framedPriceMeaning}
	if r.Frame != nil {
		order = []meaning{framedPriceMeaning, priceMeaning, unframedPriceMeaning}
	}
	var first string
	from := column{at: -1}
	for _, m := range order {
		switch text, c := d.heads.say(d.line, m); {
		case folded(text) == "":
		case first == "":
			first, from = text, c
		default:
			said, _ := d.heads.say(d.line, frameMeaning)
			r.twoPrices = r.Frame == nil && said == ""
		}
	}
	return first, from
}

var metricText = regexp.MustCompile(`(?:\d|\b)(?:cm|mm|m|centi|milli|met)`)

// statedIn is the system of the unit in a text of a size.
func statedIn(text string) stated {
	text = strings.ToLower(text)
	switch {
	case metricText.MatchString(text):
		return metric
	case statesUnit.MatchString(strings.NewReplacer("x", "", "×", "", "by", "").Replace(text)):
		return imperial
	}
	return unstated
}

// stated is the system in which a row states its size.
type stated int

const (
	unstated stated = iota
	imperial
	metric
)

// plainError is an error in words, with what to write instead.
func plainError(err error) string {
	var e *unit.Error
	if errors.As(err, &e) && e.Hint != "" {
		return e.Text + " (" + e.Hint + ")"
	}
	return err.Error()
}
