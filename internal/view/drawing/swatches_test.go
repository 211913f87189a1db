package drawing

import (
	"testing"

	"boothmock/internal/plan/booth"
)

// Every colour is on the page to the byte, on a patch as large as those of the others.
func TestSwatches(t *testing.T) {
	list := []Swatch{{"bone", booth.Colour{230, 222, 205}}, {"moss", booth.Colour{107, 115, 74}}, {"rust", booth.Colour{143, 75, 48}}}
	m := Swatches(list, Options{Width: 800, Height: 500})
	patch := 0
	for _, s := range list {
		_, n := count(m, func(r, g, b uint8) bool { return booth.Colour{r, g, b} == s.Colour })
		if n < 1000 || patch > 0 && (n < patch*95/100 || n > patch*105/100) {
			t.Errorf("%s covers %d pixels, one before it %d", s.Name, n, patch)
		}
		patch = n
	}
	if _, n := count(m, func(r, g, b uint8) bool { return r < 90 && g < 90 && b < 95 }); n < 50 {
		t.Errorf("%d pixels of letters", n)
	}
}
