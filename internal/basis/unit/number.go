package unit

import (
	"regexp"
	"strconv"
	"strings"
)

// maxText is the longest text, in bytes, that is taken for a number: far more than anybody needs.
const maxText = 120

// typed turns typographic signs into the ones on a keyboard.
var typed = strings.NewReplacer(
	"′′", `"`, "’’", `"`, "''", `"`, "″", `"`, "”", `"`, "“", `"`, "ʺ", `"`,
	"′", "'", "’", "'", "‘", "'", "ʹ", "'",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⅓", " 1/3", "⅔", " 2/3",
	"⁄", "/", "−", "-", "–", "-", "×", "x", "º", "°", "\u00a0", " ", "\u2009", " ", "\u202f", " ",
)

// plain is a text in lower case, with keyboard signs only and single blanks.
func plain(s string) string {
	if len(s) > maxText {
		return "?" // nothing that can be read as a number
	}
	return strings.ToLower(strings.Join(strings.Fields(typed.Replace(s)), " "))
}

// term is one number and the unit after it, "" if there is none.
type term struct {
	n    float64
	unit string
}

// one number: "18 1/2", "18-1/2", "1/2", "18", "18.5" or ".5"; then its unit.
var termText = regexp.MustCompile(`^(?:(?:(\d+)[ -])?(\d+)/(\d+)|(\d+(?:\.\d+)?|\.\d+)) ?([a-z]+\.?|['"°%])? ?`)

// terms reads a text made of numbers and units and nothing else, after an optional sign.
func terms(s string) (ts []term, negative, ok bool) {
	s = plain(s)
	if rest, cut := strings.CutPrefix(s, "-"); cut {
		s, negative = strings.TrimSpace(rest), true
	}
	for s != "" {
		m := termText.FindStringSubmatch(s)
		if m == nil {
			return nil, false, false
		}
		t := term{unit: strings.TrimSuffix(m[5], ".")}
		if m[3] != "" {
			whole, top, under := number(m[1]), number(m[2]), number(m[3])
			if under < 2 || under > 64 || top >= under {
				return nil, false, false
			}
			t.n = whole + top/under
		} else {
			t.n = number(m[4])
		}
		ts = append(ts, t)
		s = s[len(m[0]):]
		if t.unit != "" {
			s = strings.TrimPrefix(s, "-") // 5'-6", as drawings have it
		}
	}
	return ts, negative, len(ts) > 0
}

// number is the value of a run of digits with at most one point; maxText keeps it far below infinity.
func number(digits string) float64 {
	v, _ := strconv.ParseFloat(digits, 64)
	return v
}

func sign(v float64, negative bool) float64 {
	if negative {
		return -v
	}
	return v
}

// decimals prints v with at most n decimals and no closing zeros.
func decimals(v float64, n int) string {
	s := strconv.FormatFloat(v, 'f', n, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
