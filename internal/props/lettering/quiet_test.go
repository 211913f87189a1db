package lettering

import (
	"math"
	"testing"
)

// ISO/IEC 18004, as denso-wave.com and keyence.com print it: four squares of clear border on every side. Version 2 has 17
// + 4 × 2 = 25 squares: 30 mm wide its squares are 1.2 mm, and with the border it takes 39.6 mm.
func TestClearBorder(t *testing.T) {
	if got := 30.0 / 25 * (25 + 2*quiet); math.Abs(got-39.6) > 1e-12 {
		t.Errorf("a code of 30 mm with 25 squares takes %v mm", got)
	}
	for _, address := range []string{"https://example.org/marrowby", "https://example.org/marrowby/prints-and-paintings/2026"} {
		s := TableSign("Odile Marrowby", []string{"paintings and prints", "cards 4"}, address)
		s.Width, s.Height, s.Ink, s.Paper = 0.28, 0.216, [3]uint8{20, 20, 20}, [3]uint8{250, 250, 250}
		d, err := s.Draw()
		if err != nil {
			t.Fatal(err)
		}
		c, err := newCode(address)
		if err != nil {
			t.Fatal(err)
		}
		pixel := s.Width / float64(d.Image.Width)
		side := int(math.Round(d.Code / pixel))
		module := side / c.modules()
		dark := func(x, y int) bool { return d.Image.Pixels().NRGBAAt(x, y).R < 128 }
		// The words are on the left: the code ends at the last dark column, and its lower left finder at its last row.
		x1, y1 := -1, -1
		for y := range d.Image.Height {
			for x := d.Image.Width / 2; x < d.Image.Width; x++ {
				if dark(x, y) {
					x1, y1 = max(x1, x+1), max(y1, y+1)
				}
			}
		}
		x0, y0 := x1-side, y1-side
		if !dark(x0, y0) || !dark(x0, y1-1) || !dark(x1-1, y0) {
			t.Fatalf("%s: no code of %d pixels ends at %d, %d", address, side, x1, y1)
		}
		for y := y0 - quiet*module; y < y1+quiet*module; y++ {
			for x := x0 - quiet*module; x < x1+quiet*module; x++ {
				inside := x >= x0 && x < x1 && y >= y0 && y < y1
				if x < 0 || y < 0 || x >= d.Image.Width || y >= d.Image.Height {
					t.Fatalf("%s: the clear border leaves the board at %d, %d", address, x, y)
				}
				if !inside && dark(x, y) {
					t.Fatalf("%s: something stands in the clear border at %d, %d", address, x, y)
				}
			}
		}
	}
}
