package kinds

import (
	"testing"

	"golang.org/x/image/colornames"
)

// The names of SVG 1.1 (W3C Recommendation, section 4.4) keep their meaning, each name of ours means one colour, and what
// cloth is called dark is dark.
func TestTradeColours(t *testing.T) {
	read := func(name string) Colour {
		var c Colour
		if err := c.UnmarshalText([]byte(name)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		return c
	}
	for _, name := range colornames.Names {
		w := colornames.Map[name]
		if got := read(name); got != (Colour{w.R, w.G, w.B}) {
			t.Errorf("%s is %v here, %v in the list", name, got, w)
		}
	}
	seen := map[string]bool{}
	for _, c := range TradeColours {
		if got := read(c.Name); got != c.Colour || c.Doc == "" || seen[unspaced(c.Name)] {
			t.Errorf("%s reads as %v, want %v; it has the words %q", c.Name, got, c.Colour, c.Doc)
		}
		seen[unspaced(c.Name)] = true
	}
	for _, other := range []string{"Dove Gray", "dovegrey", "DOVE GREY"} {
		if read(other) != read("dove grey") {
			t.Errorf("%s is not dove grey", other)
		}
	}
	for dark, light := range map[string]string{"charcoal": "slate", "slate": "dove grey", "dove grey": "pearl grey", "navy cloth": "denim", "walnut": "oak", "black cloth": "charcoal"} {
		d, l := read(dark), read(light)
		for k := range d {
			if d[k] >= l[k] {
				t.Errorf("%s %v is not darker than %s %v", dark, d, light, l)
			}
		}
	}
	if p := read("parcel brown"); int(p[0])-int(p[1]) > 60 { // CSS's brown is 123 redder than green
		t.Errorf("brown of parcels is %v, a red", p)
	}
}
