package unit

import "regexp"

// measured is a number before its fraction or its unit, or the sign of times before a number.
var measured = regexp.MustCompile(`(\d) (\d+/\d|(?:in|ft|cm|mm|m|lb|oz|kg|g|mph|min|h)\b)|\b(x) (\d)`)

// Unbroken is a text in which no line ends within a length, weight or time: 17 1/4 in that is broken after 17 is read as 17.
func Unbroken(s string) string {
	for range 2 { // "17 1/4 in" has two places
		s = measured.ReplaceAllString(s, "$1$3\u00a0$2$4")
	}
	return s
}
