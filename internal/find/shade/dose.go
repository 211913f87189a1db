package shade

import "strings"

// Sensitivity is how fast light fades a material: a category of CIE 157.
type Sensitivity struct {
	Name string
	Year float64 // lux hours a year that museums allow; 0: light does not fade it
	of   []string
}

// The categories of CIE 157:2004, Control of damage to museum objects by optical radiation, with the yearly exposure that it
// recommends as a limit (from memory; CEN/TS 16163:2014 repeats them), and words of media that belong to each. Where a medium may
// be of two, the more sensitive counts.
var sensitivities = []Sensitivity{
	{"highly sensitive", 15_000, []string{"photograph", "giclee", "giclée", "inkjet", "pigment print", "dye", "felt", "marker", "silk", "ballpoint", "ink wash", "newspaper", "collage"}},
	{"moderately sensitive", 150_000, []string{
		"watercolour", "watercolor", "gouache", "pastel", "drawing", "pencil", "charcoal", "chalk", "ink", "linocut", "woodcut", "wood engraving",
		"engraving", "etching", "drypoint", "aquatint", "mezzotint", "lithograph", "screenprint", "screen print", "silkscreen", "monotype", "monoprint",
		"letterpress", "print", "tapestry", "textile", "embroidery", "weaving", "quilt", "paper", "leather", "feather", "distemper"}},
	{"slightly sensitive", 600_000, []string{"oil", "acrylic", "tempera", "encaustic", "fresco", "lacquer", "wood", "horn", "bone", "alkyd", "casein", "mixed media"}},
	{"not sensitive", 0, []string{"bronze", "metal", "steel", "iron", "copper", "silver", "gold", "stone", "marble", "ceramic", "stoneware", "porcelain", "earthenware", "glass", "enamel", "clay"}},
}

// sensitivity is the category of a medium as somebody wrote it, such as "oil on canvas": what it is on does not count, if that is
// said last. It reports false for a medium that is not known.
func sensitivity(medium string) (Sensitivity, bool) {
	m := strings.ToLower(strings.TrimSpace(medium))
	paint, _, _ := strings.Cut(m, " on ")
	for _, text := range []string{paint, m} {
		for _, s := range sensitivities {
			for _, w := range s.of {
				if has(text, w) {
					return s, true
				}
			}
		}
	}
	return Sensitivity{}, false
}

// has reports whether a text has the word, or a plural of it; a word of more than five letters may stand within another one.
func has(text, word string) bool {
	if len(word) > 5 {
		return strings.Contains(text, word)
	}
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !('a' <= r && r <= 'z' || r > 127) }) {
		if w == word || w == word+"s" {
			return true
		}
	}
	return false
}
