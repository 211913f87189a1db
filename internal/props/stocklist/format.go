package stocklist

import (
	"regexp"
	"strconv"
	"strings"

	"boothmock/internal/basis/unit"
)

// Formats are sizes that have a name: a canvas of the French trade, 30F, and a sheet of the A series. A name does not say which
// way up the work is: that is said beside it, or the photograph shows it.

var (
	paperSize  = regexp.MustCompile(`(?i)^(?:din[ -]?)?a([0-6])\b[\s,(]*(landscape|horizontal|quer|querformat|paysage|portrait|upright|hoch|hochformat)?\)?$`)
	canvasSize = regexp.MustCompile(`(?i)^(?:n[°ºor.]*\s*)?(\d{1,3}) ?(f|fig|figure|figura|p|pays|paysage|paisaje|paesaggio|m|mar|marine|marina)\b[\s.,(]*(landscape|horizontal|quer|querformat|upright|vertical|hoch|hochformat|v|h)?\)?$`)
)

// canvases are the French canvases, centimetres: the long side, and the short ones of figure, landscape (paysage) and marine. They are as
// the trade sells them since the 19th century (Haaf, Industriell vorgrundierte Malleinen, Zeitschrift für Kunsttechnologie und
// Konservierung 1, 1987); the numbers are those that dealers print today, the same in two such tables.
var canvases = map[int][4]int{
	0: {18, 14, 12, 10}, 1: {22, 16, 14, 12}, 2: {24, 19, 16, 14}, 3: {27, 22, 19, 16}, 4: {33, 24, 22, 19}, 5: {35, 27, 24, 22},
	6: {41, 33, 27, 24}, 8: {46, 38, 33, 27}, 10: {55, 46, 38, 33}, 12: {61, 50, 46, 38}, 15: {65, 54, 50, 46}, 20: {73, 60, 54, 50},
	25: {81, 65, 60, 54}, 30: {92, 73, 65, 60}, 40: {100, 81, 73, 65}, 50: {116, 89, 81, 73}, 60: {130, 97, 89, 81},
	80: {146, 114, 97, 89}, 100: {162, 130, 114, 97}, 120: {195, 130, 114, 97},
}

// formatOf is the size of a format. Of one that does not say which way up it is, open is true: figures and sheets are then
// taken for upright, landscapes and marines for lying.
func formatOf(text string) (size unit.Size, open, ok bool) {
	if m := paperSize.FindStringSubmatch(text); m != nil {
		size = isoPaper(int(m[1][0] - '0'))
		return turnedTo(size, m[2], false), m[2] == "", true
	}
	m := canvasSize.FindStringSubmatch(text)
	if m == nil {
		return size, false, false
	}
	n, _ := strconv.Atoi(m[1])
	sides, known := canvases[n]
	if !known {
		return size, false, false
	}
	which := 1 + strings.IndexByte("fpm", strings.ToLower(m[2])[0])
	size = unit.Size{A: unit.Length(sides[0]) / 100, B: unit.Length(sides[which]) / 100}
	return turnedTo(size, m[3], which > 1), m[3] == "", true
}

// turnedTo is an upright size the way up that a word says; lies is that without one.
func turnedTo(s unit.Size, word string, lies bool) unit.Size {
	switch strings.ToLower(word) {
	case "landscape", "horizontal", "quer", "querformat", "paysage", "h":
		lies = true
	case "portrait", "upright", "vertical", "hoch", "hochformat", "v":
		lies = false
	}
	if lies {
		s.A, s.B = s.B, s.A
	}
	return s
}

// isoPaper is a sheet of the A series, upright, ISO 216: A0 is 841 x 1189 mm, and each next one is half of it, rounded down.
func isoPaper(n int) unit.Size {
	short, long := 841, 1189
	for range n {
		short, long = long/2, short
	}
	return unit.Size{A: unit.Length(long) / 1000, B: unit.Length(short) / 1000}
}
