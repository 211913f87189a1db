package stocklist

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"boothmock/internal/basis/unit"
)

// fromText is what stands before the least price.
const fromText = `(?:(?:prices? )?(?:from|starting at|starts at)|ab|desde|a partir d[ae]|[àa] partir de|d[èe]s|da|vanaf)\b[:\s]*`

var (
	currencyCode   = regexp.MustCompile(`(?i)\b(?:usd|gbp|eur|euros?|dollars?|pounds?|cad|aud|nzd|chf|s?fr|us|ca|au|nz|mx|mxn|kr|nok|sek|dkk|pln|zl|czk|kc|brl|jpy|yen|tl|try|huf|ft)\b\.?|zł\.?|kč|₺|円`)
	noCents        = regexp.MustCompile(`[.,:] ?[-–—=]+$`)
	aside          = regexp.MustCompile(`(?i)[\s/(]*\b(?:or (?:best|nearest) offer|(?:the |a |per )?(?:set|pair)|each|ea|je|st|pc|piece|print|pro stück|obo|ono|firm|vb|vhb)\b[.)]*$|[*!]+$|^(?:vb|vhb)\b[.:]* *`)
	framedPrices   = regexp.MustCompile(`(?i)^([^/;(]*\d[^/;(]*?)\s*(?:[/;(]|, |\bor\b)\s*(.*\d.*?)\)?$`)
	reduced        = regexp.MustCompile(`(?i)^(?:was|statt|vorher|avant|antes|prima)\b.*\d.*?\b(?:now|jetzt|nur|maintenant|ahora|ora)\b[:\s]*(.*\d.*)$`)
	thousands      = regexp.MustCompile(`(?i)(\d+(?:[.,]\d+)?) ?k(?:[^\pL]|$)`)
	blankThousand  = regexp.MustCompile(`^(\d{1,3})((?:[ '’]\d{3})+)(.*)$`)
	commaCents     = regexp.MustCompile(`^(\d{1,3}(?:\.\d{3})+|\d+),(\d{2})$`)
	pointThousand  = regexp.MustCompile(`^\d{1,3}(\.\d{3})+$`)
	leastPrice     = regexp.MustCompile(`(?i)^` + fromText + `[^\d]{0,4}\d|\d[^a-z]*(?:\+|(?:and|&) up)$`)
	least          = regexp.MustCompile(`(?i)^` + fromText + `|\s*(?:\+|(?:and|&) up)$`)
	severalAmounts = regexp.MustCompile(`\d[^\d.,'’]*(?:[-–—/;|]|\bto\b|\bor\b|\bbis\b)[^\d]*\d`)
	inclusive      = regexp.MustCompile(`(?i)\(?\b(?:incl|inc|inkl|including|inklusive|compris|ttc)\b.*$|\(?\b(?:` + framedText + `|` + unframedText + `)\)?$`)
	withoutTax     = regexp.MustCompile(`(?i)(?:\+|\bplus|\bzzgl\.?|\bexcl\.?|\bex\b\.?|\bexkl\.?|\bhors\b|\bnetto?\b)\s*(?:vat|tax|sales tax|gst|mwst|ust|tva|iva|btw|taxes?)?`)
)

// moneyIn is the sign of the currency in a price; empty for none.
func moneyIn(text string) string {
	for _, word := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return unicode.IsDigit(r) || strings.ContainsRune(" .,-()'’", r) }) {
		if sign, ok := currencies[word]; ok {
			return sign
		}
	}
	return ""
}

// commaMoney is whether amounts with a sign are mostly written with a comma before the hundredths; common practice, no source.
func commaMoney(sign string) bool {
	return slices.Contains([]string{"€", "kr", "zł", "Kč", "R$", "₺", "Ft"}, sign)
}

// currency is the sign that most prices with a sign have, and the first such one of two that are as many.
func currency(rows []Row) (sign string) {
	n := map[string]int{}
	for _, r := range rows {
		if r.money == "" {
			continue
		}
		if n[r.money]++; n[r.money] > n[sign] {
			sign = r.money
		}
	}
	return sign
}

var (
	thousandMark = regexp.MustCompile(`\d([.,'’ ])\d{3}(?:\D|$)`)
	decimalMark  = regexp.MustCompile(`\d([.,])\d{2}(?:\D|$)`)
)

// amount is an example of how prices are written in a list with such a sign; empty where it is as in English, or not to be told.
func amount(sign string, rows []Row, decimalComma bool) string {
	thousands, decimal := "", ""
	before, after := 0, 0
	for _, r := range rows {
		if m := thousandMark.FindStringSubmatch(r.typed); m != nil {
			thousands = cmp.Or(thousands, m[1])
		}
		if m := decimalMark.FindStringSubmatch(r.typed); m != nil {
			decimal = cmp.Or(decimal, m[1])
		}
		if at := strings.IndexAny(r.typed, "0123456789"); at >= 0 && r.money == sign && sign != "" && moneyIn(r.typed) != "" {
			if moneyIn(r.typed[:at]) != "" || sign == "$" || sign == "£" { // 480 dollars is $480
				before++
			} else {
				after++
			}
		}
	}
	comma := decimal == "," || decimal == "" && thousands != "'" && thousands != "," && (decimalComma || thousands != "" || after > before)
	if sign == "" || !comma && after <= before && (thousands == "" || thousands == ",") {
		return ""
	}
	thousands, decimal = cmp.Or(thousands, map[bool]string{true: ".", false: ","}[comma]), map[bool]string{true: ",", false: "."}[comma]
	if thousands == decimal {
		return ""
	}
	if after > before || after == before && commaMoney(sign) && sign != "€" && sign != "R$" {
		return "1" + thousands + "250" + decimal + "00 " + sign
	}
	return sign + " 1" + thousands + "250" + decimal + "00"
}

// ofFramed is, of a cell with a price with and one without a frame, the one that suits the work: 60 unframed / 95 framed.
func ofFramed(text string, framed bool) string {
	m := framedPrices.FindStringSubmatch(text)
	if m == nil {
		return text
	}
	first, second := unframedWord.MatchString(m[1]) || with(m[2]), unframedWord.MatchString(m[2]) || with(m[1]) // without a frame
	switch {
	case first == second:
		return text
	case first == framed:
		return m[2]
	}
	return m[1]
}

// with is whether a price is that with a frame.
func with(price string) bool {
	return framedWord.MatchString(price) && !unframedWord.MatchString(price)
}

var unframedWord, framedWord = regexp.MustCompile(`(?i)` + unframedText), regexp.MustCompile(`(?i)` + framedText)

var betweenAmounts = regexp.MustCompile(`\s*(?:[-–—/;|]|\b(?:to|or|and|bis|oder|und|ou|tot|til)\b)\s*`)

// lowest is the least of several prices in a cell, 80-120; 0 where it does not hold several.
func lowest(text string, decimalComma bool) (low unit.Money) {
	amounts := betweenAmounts.Split(strings.TrimSpace(text), -1)
	for _, a := range amounts {
		v, err := priceOf(a, decimalComma)
		if err != nil || v <= 0 || len(amounts) < 2 {
			return 0
		}
		if low == 0 || v < low {
			low = v
		}
	}
	return low
}

// priceOf reads a price. A dash, "not for sale" and the like are none.
func priceOf(text string, decimalComma bool) (unit.Money, error) {
	if leastPrice.MatchString(text) { // from $35
		text = least.ReplaceAllString(text, "")
	}
	if _, ok := state(text, false); ok && !strings.ContainsAny(text, "0123456789") {
		return 0, nil
	}
	switch strings.ToLower(strings.Trim(text, " .")) {
	case "n/a", "na", "-", "–", "—", "tbc", "tba", "?", "":
		return 0, nil
	}
	if m := reduced.FindStringSubmatch(text); m != nil {
		text = m[1]
	}
	if m := thousands.FindStringSubmatchIndex(text); m != nil { // 1.2k
		digits := strings.NewReplacer(",", ".").Replace(text[m[2]:m[3]])
		if v, err := strconv.ParseFloat(digits, 64); err == nil {
			text = text[:m[0]] + strconv.Itoa(int(math.Round(1000*v))) + " " + text[m[1]:]
		}
	}
	if withoutTax.MatchString(text) {
		return 0, fmt.Errorf("%s is without something that visitors pay (write what they pay in all)", unit.Quote(text))
	}
	s := strings.TrimSpace(roughly.ReplaceAllString(inclusive.ReplaceAllString(aside.ReplaceAllString(text, ""), ""), ""))
	for _, words := range stateWords { // 480 on hold
		for _, w := range words {
			if at := strings.Index(strings.ToLower(s), w); at > 0 && strings.ContainsAny(s[:at], "0123456789") {
				s = strings.TrimRight(s[:at], " (,;-–:")
			}
		}
	}
	s = strings.TrimSpace(currencyCode.ReplaceAllString(s, ""))
	s = strings.TrimSpace(noCents.ReplaceAllString(strings.TrimSpace(strings.Trim(s, "$£€¥ '’")), ""))
	s = strings.TrimRight(s, "./,; ")
	if m := blankThousand.FindStringSubmatch(s); m != nil {
		s = m[1] + strings.NewReplacer(" ", "", "'", "", "’", "").Replace(m[2]) + m[3]
	}
	european := decimalComma || commaMoney(moneyIn(text))
	if m := commaCents.FindStringSubmatch(s); m != nil && (european || strings.Contains(m[1], ".")) {
		s = strings.ReplaceAll(m[1], ".", "") + "." + m[2]
	} else if pointThousand.MatchString(s) {
		if !european {
			return 0, fmt.Errorf("%s can be read in two ways (write %s)", unit.Quote(text), strings.ReplaceAll(s, ".", ""))
		}
		s = strings.ReplaceAll(s, ".", "")
	}
	v, err := unit.ParseMoney(s)
	if err != nil && severalAmounts.MatchString(text) {
		return 0, errors.New(unit.Quote(text) + " is more than one price (write the one that counts, or the least: from 480)")
	}
	if err != nil {
		return 0, errors.New(unit.Quote(text) + " is no price (write a number such as 480, or NFS, on request, on hold)")
	}
	if v < 0 {
		return 0, errors.New(unit.Quote(text) + " is less than nothing")
	}
	return v, nil
}
