package stocklist

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strings"

	"boothmock/internal/basis/unit"
)

const (
	framedText   = `(?:framed|fr\b\.?|with frame|in frame|gerahmt|mit rahmen|m\. ?r\.?|encadr[ée]e?|avec cadre|incorniciat[oa]|con cornice|enmarcad[oa]|con marco|ingelijst|met lijst)`
	unframedText = `(?:unframed|not framed|without (?:the )?frame|w/?o frame|no frame|ungerahmt|ohne rahmen|o\. ?r\.|sans cadre|non encadr[ée]e?|senza cornice|sin marco|zonder lijst)`
	measureText  = `\d[\d.,/ ½¼¾⅛⅜⅝⅞-]*(?:(?:inches|inch|ins|in|cm|mm|feet|foot|ft|m)\b\.?|["″”'’]{1,2})?`
	measureWords = `(?:heights?|high|h|hoch|h[öo]he|hauteur|haut|altezza|alto|widths?|wide|w|breite?|b|largeur|large|larghezza|ancho|lengths?|long|l|depths?|deep|d|tiefe?|t|profondeur|prof|p)`
)

var (
	sizeWithFrame = []*regexp.Regexp{ // the picture's, then the frame's: in the first two of them
		regexp.MustCompile(`(?i)^(.*?\d.*?)[\s,;/(–-]+` + framedText + `[.:]*(?: (?:size|to|at))?[:\s]*(a?\d.*?)\)?$`),
		regexp.MustCompile(`(?i)^(.*?\d.*?x.*?)\s*[,;/(]\s*(\d.+?)[\s(]*` + framedText + `\)?$`),
		regexp.MustCompile(`(?i)^()` + framedText + `[:\s]*(\d.+)$`),
		regexp.MustCompile(`(?i)^()(\d.+?)[\s,(]+` + framedText + `\)?$`),
	}
	unframedInSize = regexp.MustCompile(`(?i)[\s,(]*` + unframedText + `\)?`)
	bySlash        = regexp.MustCompile(`^(.+[x×*].*?(?:[^\d\s] ?| ))[/=] ?(\d.*[x×*].+)$`)
	inBrackets     = regexp.MustCompile(`^(.+?) *\(([^()]+)\)$`)
	ofParts        = regexp.MustCompile(`(?i)\b(?:panels?|parts?|pieces|pcs|canvases|teile?|teilig|panneaux|parties)\b|^(?:\d ?[x×@] ?)\d[^x×]*[x×]|^(?:two|three|four|zwei|drei|vier|deux|trois|quatre)\b`)
	each           = regexp.MustCompile(`(?i)\b(?:each|je|jeweils|chacun|chacune|cada|cad|cadauno|ciascuno|elk)\b\.?`)
	onePart        = regexp.MustCompile(`(?i)^\d+ ?(?:x|×|mal|times) ?\(|^\d+ ?@|^\d+ (?:no|nos|off|pcs|stk|st)\b|^(?:\d|two|three|four|zwei|drei|vier|deux|trois|quatre) (?:panels|parts|teile|panneaux)\b`)
	overall        = regexp.MustCompile(`(?i)[\s,]*\b(?:overall|over all|in all|total|gesamt|insgesamt|en tout)\b:?`)
	beside         = regexp.MustCompile(`(?i)\b(?:image|picture|canvas|panel|paper|sheet|board|stretched|sight|size|deep|thick|tief|ca|circa|approx|approximately|about|bild|blatt|papier|leinwand|toile)\b[.:]*|[?!]+$|^~`)
	square         = regexp.MustCompile(`(?i)^(` + measureText + `)(.*?)\s*\b(?:square|sq|quadratisch|carr[ée]e?)\b\.?$`)
	across         = regexp.MustCompile(`(?i)^(?:ø|dia(?:m|meter|mètre)?\b\.?|durchmesser)[:\s]*(` + measureText + `)$|^(` + measureText + `)\s*(?:ø|dia(?:m|meter|mètre)?\b\.?|durchmesser|round|rund|tondo)$`)
	labelFirst     = regexp.MustCompile(`(?i)\b(` + measureWords + `)[\s.:=]*(` + measureText + `)`)
	labelLast      = regexp.MustCompile(`(?i)(` + measureText + `)[\s(]*(` + measureWords + `)\b[.)]*`)
	labelled       = regexp.MustCompile(`(?i)^` + measureWords + `[\s.:=]*\d`)
)

var (
	unitFirst = regexp.MustCompile(`(?i)^(cm|mm|in)\.? ?(\d[^a-wyz"]*)$`)
	byDash    = regexp.MustCompile(`^(\d{1,3}(?:\.\d+)?) ?[-–] ?(\d{1,3}(?:\.\d+)? ?(?:in|cm|mm)?)$`)
	bySign    = regexp.MustCompile(`(?i)^(\d{2,3}(?:\.\d+)?) ?[/:] ?(\d{2,3}(?:\.\d+)? ?(?:cm|mm)?)$`)
	counted   = regexp.MustCompile(`(?i)^(\d{1,2}|[a-z]+) ?(?:[x×*@]|mal\b|times\b|(?:no|nos|off|pcs|stk|st|panels?|parts?|teile|panneaux)\b\.?)[,: ]*`)
	howMany   = regexp.MustCompile(`(?i)\b(\d{1,2}|two|three|four|five|six|zwei|drei|vier|deux|trois|quatre|dos|tres|due|tre)[- ]?(?:teilig\w*|parts?|panels?|pieces?|teile|parties|panneaux|piezas|parti|delen|canvases)\b|\bset of (\d{1,2})\b`)
	ofSheet   = regexp.MustCompile(`(?i)\b(?:` + sheetWords + `)\b`)
)

var errDate = errors.New("the spreadsheet has made a date of the size: format the cell as text and type it again, such as 9 x 12 in")

func outOfRange(text string) error {
	return errors.New(unit.Quote(text) + " is out of range (look whether the unit is right: 240 mm are 24 cm, about 9 1/2 in)")
}

// partedByFrame is what a cell says of the size of the picture and of that with its frame; empty for nothing.
func partedByFrame(text string) (inner, outer string) {
	text = unframedInSize.ReplaceAllString(text, "")
	for _, r := range sizeWithFrame {
		m := r.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		inner, outer = m[1], m[2]
		if u := lastUnit.FindString(inner); u != "" && lastUnit.FindString(outer) == "" {
			outer += u
		} else if u := lastUnit.FindString(outer); u != "" && inner != "" && lastUnit.FindString(inner) == "" {
			inner += u
		}
		return inner, outer
	}
	return text, ""
}

// sizeCell is the cell of a size; where there is none, that of the height or the width in which a size stands whole, beside nothing.
func (d *reading) sizeCell(m meaning) (string, column) {
	text, c := d.heads.say(d.line, m)
	if text != "" {
		return text, c
	}
	of := [2]meaning{heightMeaning, widthMeaning}
	if m == framedSizeMeaning {
		of = [2]meaning{framedHeightMeaning, framedWidthMeaning}
	}
	height, h := d.heads.say(d.line, of[0])
	width, w := d.heads.say(d.line, of[1])
	switch {
	case sizeInText.MatchString(height) && (folded(width) == "" || width == height): // merged over both
		return height, h
	case sizeInText.MatchString(width) && folded(height) == "":
		return width, w
	}
	return "", c
}

var lastUnit = regexp.MustCompile(`(?i)(?:inches|inch|ins|in|cm|mm|feet|ft|m|["″”])\.?$`)

// far is whether two lengths that are said to be one are not.
func far(x, y unit.Length) bool { return math.Abs(x.M()-y.M()) > 0.01*x.M()+0.004 }

// sizeOf reads height x width, or height x width x depth, in the order that its column says or that its own words say.
func (d *reading) sizeOf(text string, c column) (unit.Size, unit.Length, error) {
	if d.dated(c, text) {
		return unit.Size{}, 0, errDate
	}
	whole := unit.Quote(text)
	text = plainUnits(text)
	if m := bySlash.FindStringSubmatch(text); m != nil { // 24 x 36 in / 61 x 91 cm
		text = m[1] + " (" + m[2] + ")"
	}
	inner, note := text, ""
	if m := inBrackets.FindStringSubmatch(text); m != nil && labelOnly.FindString(m[2]) == "" {
		inner, note = m[1], m[2]
	}
	if each.MatchString(inner) && each.MatchString(note) { // 11 x 14 in each (28 x 36 cm each)
		text = inner
	}
	if size, _, ok := formatOf(inner); ok && sizeInText.MatchString(note) { // 8F (46 x 38): what is in brackets says which way up
		if c.unit == "" {
			c.unit = "cm"
		}
		said, depth, err := d.oneSize(note, c)
		if err == nil && (far(size.A, said.A) || far(size.B, said.B)) && (far(size.A, said.B) || far(size.B, said.A)) {
			err = fmt.Errorf("%s says two different sizes", whole)
		}
		return said, depth, err
	}
	all := overall.ReplaceAllString(inner, "")
	d.whole = all != inner
	if all == inner && (each.MatchString(text) || onePart.MatchString(text) || d.several(text, c)) {
		return d.parts(text, c)
	}
	size, depth, err := d.oneSize(all, c)
	if err != nil || !strings.ContainsAny(note, "0123456789") || ofParts.MatchString(note) || ofSheet.MatchString(note) {
		return size, depth, err
	}
	same, _, err := d.oneSize(note, c)
	switch {
	case err != nil:
		return size, 0, fmt.Errorf("%s is more than a size; put what is in brackets into a column of its own", whole)
	case far(size.A, same.A) || far(size.B, same.B):
		return size, 0, fmt.Errorf("%s says two different sizes", whole)
	}
	return size, depth, nil
}

var (
	diptych  = list("diptych|diptychon|diptyque|diptico|dittico|tweeluik")
	pairs    = append(list("pair|paar|paire|pareja|coppia"), diptych...)
	triptych = list("triptych|triptychon|triptyque|triptico|trittico|drieluik")
)

var countWords = map[string]int{"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "zwei": 2, "drei": 3, "vier": 4, "deux": 2, "trois": 3, "quatre": 4, "dos": 2, "tres": 3, "due": 2, "tre": 3}

// several is whether what reads like height, width and depth is rather a number of parts and their size: 3x 30x30. The row must say
// that it has parts, or the first figure be set apart from the others; else 9 x 7 x 22 is a sculpture's.
func (d *reading) several(text string, c column) bool {
	m := counted.FindStringSubmatch(text)
	if m == nil || len(m[1]) > 1 || m[1] < "2" || len(c.order) == 3 || d.partsSaid(pairs) == 0 && !setApart.MatchString(text) {
		return false
	}
	_, depth, err := d.oneSize(text, c)
	return err == nil && depth.M() > deepest
}

var setApart = regexp.MustCompile(`^\d(?:[x×] | [x×] ?\d+(?:[.,]\d+)?[x×])`) // 3x 30x30, 3 x 30x30

func number(word string) (v int) {
	fmt.Sscan(word, &v)
	return max(v, countWords[strings.ToLower(word)])
}

// partsSaid is of how many parts the row says that the work has, beside its size; two are the words for one of two. 0: of none.
func (d *reading) partsSaid(two words) int {
	for _, m := range []meaning{partsMeaning, titleMeaning, mediumMeaning, notesMeaning, sizeMeaning} {
		said, _ := d.heads.say(d.line, m)
		if n := number(said); m == partsMeaning && n > 0 {
			return n
		}
		if k := howMany.FindStringSubmatch(said); k != nil {
			return number(k[1] + k[2])
		}
		if _, ok := two.in(folded(said)); ok {
			return 2
		}
		if _, ok := triptych.in(folded(said)); ok {
			return 3
		}
	}
	return 0
}

// Apart is the clear space between the parts of a work of which none is stated; common practice, no source.
const Apart = 2 * unit.Inch

// parts reads the size of each part of a work, and how many there are: of the cell itself, of a column of its own, or of title and
// medium. The size returned is that over all, as they hang side by side.
func (d *reading) parts(text string, c column) (unit.Size, unit.Length, error) {
	whole, n := unit.Quote(text), 0
	if m := counted.FindStringSubmatch(text); m != nil && strings.ContainsAny(text[len(m[0]):], "x×*") {
		if n = number(m[1]); n > 0 {
			text = text[len(m[0]):]
		}
	}
	if n == 0 {
		n = d.partsSaid(pairs)
	}
	if n < 2 || n > 24 {
		return unit.Size{}, 0, fmt.Errorf("%s is the size of one part (write how many there are: 2 x (30 x 30 cm), or the size over all as the work hangs)", whole)
	}
	text = strings.Trim(howMany.ReplaceAllString(each.ReplaceAllString(text, ""), ""), " ,;:()")
	size, depth, err := d.oneSize(text, c)
	if err != nil {
		return unit.Size{}, 0, err
	}
	d.pieces, d.each = n, size
	return unit.Size{A: size.A, B: unit.Length(float64(unit.Length(n)*size.B)) + unit.Length(float64(unit.Length(n-1)*Apart))}, depth, nil
}

var betweenSizes = regexp.MustCompile(`(?i)^(?:[\s,;/|&+]|\b(?:and|or|und|oder|et|ou|y|o|e|en|of)\b)+$`)

// firstOf is, of a cell with several sizes, 8 x 10, 11 x 14 in, the first, with the unit of the last where it has none; empty for one.
func firstOf(text string) string {
	sizes := sizeInDetails.FindAllStringIndex(text, -1)
	if len(sizes) < 2 || sizes[0][0] > 0 || sizes[len(sizes)-1][1] < len(text) || strings.HasSuffix(text, ")") {
		return ""
	}
	for i := 1; i < len(sizes); i++ {
		if between := text[sizes[i-1][1]:sizes[i][0]]; !betweenSizes.MatchString(between) {
			return ""
		}
	}
	first, last := text[:sizes[0][1]], text[sizes[len(sizes)-1][0]:]
	u := lastUnit.FindString(strings.TrimSpace(last))
	switch own := lastUnit.FindString(strings.TrimSpace(first)); {
	case own != "" && u != "" && unitWords[folded(own)] != unitWords[folded(u)]: // one size in two units
		return ""
	case own == "":
		first += u
	}
	return first
}

var labelOnly = regexp.MustCompile(`(?i)^` + measureWords + `$`)

// oneSize reads one size, without anything in brackets.
func (d *reading) oneSize(text string, c column) (unit.Size, unit.Length, error) {
	asTyped := unit.Quote(text)
	text = strings.TrimSpace(strings.Trim(beside.ReplaceAllString(strings.ReplaceAll(text, "''", `"`), " "), " ,;:"))
	if m := unitFirst.FindStringSubmatch(text); m != nil { // cm 40 x 50
		text = m[2] + " " + m[1]
	}
	if size, open, ok := formatOf(text); ok {
		d.format, d.open = true, open
		return size, 0, nil
	}
	if m := square.FindStringSubmatch(text); m != nil {
		if text = m[1] + m[2]; !strings.ContainsAny(m[2], "x×*") {
			text = m[1] + " x " + m[1]
		}
	} else if m := across.FindStringSubmatch(text); m != nil {
		text = m[1] + m[2] + " x " + m[1] + m[2]
	} else if ordered, ok := byLabels(text); ok {
		c.order, text = "", ordered
	}
	s := strings.TrimSpace(d.in(strings.TrimSpace(text), c))
	if m := bySign.FindStringSubmatch(s); m != nil { // 30/40 cm
		s = m[1] + " x " + m[2]
	}
	if m := byDash.FindStringSubmatch(s); m != nil {
		s, d.dashed = m[1]+" x "+m[2], true
	}
	var v unit.Size3
	var err error
	three := strings.Count(strings.NewReplacer("×", "x", " by ", "x", "*", "x").Replace(strings.ToLower(s)), "x") >= 2
	if three {
		v, err = unit.ParseSize3(s, d.bare, d.stated)
	} else {
		var two unit.Size
		two, err = unit.ParseSize(s, d.bare, d.stated)
		v.A, v.B = two.A, two.B
	}
	size, depth := inOrder(c.order, v, three)
	if err == nil && !(size.A > 0 && size.B > 0 && depth >= 0 && max(size.A, size.B) <= 40*unit.Foot) {
		err = outOfRange(strings.Trim(asTyped, `"`))
	}
	return size, depth, err
}

// byLabels is a size whose measures say what they are, in the order height, width, depth: H 24 W 30, 30"w x 24"h.
func byLabels(text string) (string, bool) {
	found, by := labelLast, [2]int{2, 1} // submatches of label and measure
	if labelled.MatchString(text) {
		found, by = labelFirst, [2]int{1, 2}
	}
	var is [3]string
	for _, m := range found.FindAllStringSubmatch(text, -1) {
		label, measure := folded(m[by[0]]), strings.Trim(m[by[1]], " ,.-")
		at := -1
		switch {
		case upright(label):
			at = 0
		case strings.HasPrefix(label, "de"), strings.HasPrefix(label, "t"), strings.HasPrefix(label, "p"), label == "d":
			at = 2
		default:
			at = 1
		}
		if is[at] != "" {
			return "", false
		}
		is[at] = measure
	}
	if is[0] == "" || is[1] == "" {
		return "", false
	}
	u := lastUnit.FindString(text)
	for _, s := range is {
		if found := lastUnit.FindString(s); found != "" {
			u = found
		}
	}
	var out []string
	for _, s := range is {
		if s == "" {
			continue
		}
		if lastUnit.FindString(s) == "" && !strings.ContainsAny(s, "'’") {
			s += u
		}
		out = append(out, s)
	}
	return strings.Join(out, " x "), true
}
