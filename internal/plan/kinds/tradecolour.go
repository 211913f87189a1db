package kinds

import (
	"slices"
	"strings"

	"golang.org/x/image/colornames"
)

// TradeColour is a colour as people who sell cloth, board and paint say it.
type TradeColour struct {
	Name   string
	Colour Colour
	Doc    string // what looks so
}

// TradeColours are the names that the list of SVG 1.1, which CSS has too, lacks, from light to dark within each family. The
// values are what such cloth and board look like in daylight, judged by eye: common practice, no source. A name of the list
// keeps the meaning that it has there, and some of those are far from what the word says of cloth: brown is a brick red,
// navy bluer than any fabric. For those there is a name of two words here.
var TradeColours = []TradeColour{
	{"white cloth", Colour{0xec, 0xea, 0xe5}, "bleached cotton: no cloth is as white as paper"},
	{"off-white", Colour{0xe8, 0xe3, 0xd7}, "off-white paint and board"},
	{"bone", Colour{0xe6, 0xde, 0xcd}, "warm off-white paint and cloth"},
	{"cream", Colour{0xed, 0xe3, 0xca}, "cream cloth and mat board"},
	{"ecru", Colour{0xd8, 0xcb, 0xb0}, "unbleached cotton, the seeds still in it"},
	{"unbleached", Colour{0xdc, 0xd1, 0xb8}, "unbleached canvas"},
	{"calico", Colour{0xdf, 0xd4, 0xbd}, "plain unbleached cotton"},
	{"natural", Colour{0xd6, 0xc9, 0xad}, "cotton or linen in its own colour"},
	{"oatmeal", Colour{0xcb, 0xbd, 0xa2}, "oatmeal cloth with darker threads"},
	{"flax", Colour{0xbd, 0xaa, 0x86}, "linen in its own colour"},
	{"sand", Colour{0xc6, 0xb1, 0x8b}, "sand-coloured drape"},
	{"stone", Colour{0xb3, 0xab, 0x9c}, "stone-coloured drape and board"},
	{"putty", Colour{0xb9, 0xad, 0x98}, "putty"},
	{"mushroom", Colour{0xa6, 0x99, 0x8b}, "brownish grey cloth"},
	{"taupe", Colour{0x8b, 0x7c, 0x6e}, "darker brownish grey cloth"},
	{"greige", Colour{0xb5, 0xac, 0xa0}, "between grey and beige"},
	{"mocha", Colour{0x7c, 0x64, 0x55}, "milky coffee brown cloth"},
	{"burlap", Colour{0xa9, 0x8a, 0x5c}, "jute sacking"},
	{"hessian", Colour{0xa9, 0x8a, 0x5c}, "jute sacking, by its other name"},
	{"kraft", Colour{0xb0, 0x88, 0x5b}, "brown wrapping paper and card"},
	{"parcel brown", Colour{0xa8, 0x80, 0x54}, "brown paper of parcels"},
	{"camel", Colour{0xb2, 0x8a, 0x5b}, "camel-coloured wool"},
	{"pine", Colour{0xcf, 0xad, 0x7c}, "bare pine boards"},
	{"oak", Colour{0xa8, 0x82, 0x57}, "oiled oak"},
	{"walnut", Colour{0x5d, 0x43, 0x31}, "oiled walnut"},
	{"dark brown", Colour{0x4a, 0x38, 0x2d}, "dark brown cloth"},
	{"espresso", Colour{0x3c, 0x2e, 0x27}, "nearly black brown cloth"},
	{"ochre", Colour{0xb9, 0x87, 0x37}, "yellow ochre"},
	{"mustard", Colour{0xb8, 0x91, 0x38}, "mustard-coloured cloth"},
	{"terracotta", Colour{0xa8, 0x5e, 0x45}, "unglazed clay pots"},
	{"rust", Colour{0x8f, 0x4b, 0x30}, "rust-coloured cloth"},
	{"brick", Colour{0x8d, 0x4a, 0x3d}, "fired brick"},
	{"brick red", Colour{0x8d, 0x4a, 0x3d}, "the same, by its longer name"},
	{"burgundy", Colour{0x5c, 0x25, 0x2f}, "dark red cloth"},
	{"wine", Colour{0x63, 0x2a, 0x36}, "wine-coloured cloth"},
	{"claret", Colour{0x6a, 0x24, 0x33}, "dark red cloth with a little blue"},
	{"plum cloth", Colour{0x52, 0x36, 0x4a}, "plum-coloured cloth"},
	{"aubergine", Colour{0x44, 0x2d, 0x40}, "dark purple cloth"},
	{"eggplant", Colour{0x44, 0x2d, 0x40}, "the same, by its other name"},
	{"sage", Colour{0x9a, 0xa3, 0x8a}, "greyish green cloth"},
	{"moss", Colour{0x6b, 0x73, 0x4a}, "moss-coloured cloth"},
	{"olive cloth", Colour{0x5f, 0x5e, 0x42}, "olive-coloured cloth"},
	{"eucalyptus", Colour{0x86, 0x9a, 0x8c}, "bluish green cloth"},
	{"bottle green", Colour{0x24, 0x40, 0x33}, "dark green glass and cloth"},
	{"hunter green", Colour{0x2c, 0x47, 0x36}, "dark green drape"},
	{"duck egg", Colour{0xb7, 0xc7, 0xc2}, "pale blue-green paint"},
	{"denim", Colour{0x4e, 0x5f, 0x78}, "washed denim"},
	{"petrol", Colour{0x2c, 0x4d, 0x56}, "dark blue-green cloth"},
	{"navy cloth", Colour{0x27, 0x2f, 0x44}, "navy-coloured drape and uniform cloth"},
	{"midnight", Colour{0x1f, 0x26, 0x35}, "nearly black blue cloth"},
	{"pearl grey", Colour{0xc6, 0xc5, 0xc1}, "light grey cloth"},
	{"dove grey", Colour{0x9c, 0x9a, 0x98}, "plain mid grey cloth"},
	{"pewter", Colour{0x80, 0x82, 0x83}, "mid grey drape"},
	{"slate", Colour{0x5f, 0x66, 0x6c}, "slate-grey drape"},
	{"graphite", Colour{0x4a, 0x4c, 0x4f}, "dark grey drape"},
	{"charcoal", Colour{0x3c, 0x3d, 0x40}, "charcoal-grey drape"},
	{"black cloth", Colour{0x22, 0x22, 0x24}, "black cotton: no cloth is as black as a hole"},
}

// tradeColour is the colour of a name without its blanks and hyphens, in lower case; gray is grey.
func tradeColour(plain string) (Colour, bool) {
	i := slices.IndexFunc(TradeColours, func(c TradeColour) bool { return unspaced(c.Name) == unspaced(plain) })
	if i < 0 {
		return Colour{}, false
	}
	return TradeColours[i].Colour, true
}

// unspaced is a colour's name as names are compared.
func unspaced(name string) string {
	return strings.NewReplacer(" ", "", "-", "", "gray", "grey").Replace(strings.ToLower(name))
}

// colourNames are all names that a colour may be called by.
func colourNames() []string {
	names := slices.Clone(colornames.Names)
	for _, c := range TradeColours {
		names = append(names, c.Name)
	}
	return names
}
