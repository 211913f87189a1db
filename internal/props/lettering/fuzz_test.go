package lettering

import (
	"errors"
	"testing"

	"boothmock/internal/basis/fault"
)

// Whatever is to stand on whatever board: a picture of the board's shape with letters that have a height, or a fault in
// words.
func FuzzDraw(f *testing.F) {
	for _, s := range samples() {
		f.Add(s.Lines[0].Text, s.Lines[len(s.Lines)-1].Text, s.Code, s.Width, s.Height)
	}
	f.Add("", "\n \n", "", 0.1, 0.1)
	f.Add("\x00\xff\u202e\U0001f3a8", "a\u0301\u0301", "\x00", 0.02, 9.0)
	f.Add("Ö", "W", "https://example.org/"+string(make([]byte, 300)), 0.3, 0.2)
	f.Fuzz(func(t *testing.T, first, last, code string, width, height float64) {
		s := TableSign(first, []string{last, first}, code)
		s.Name, s.Width, s.Height, s.Ink, s.Paper = "sign", width, height, dark, cream
		d, err := s.Draw()
		if err != nil {
			var why fault.Fault
			if !errors.As(err, &why) || why.Text == "" {
				t.Fatalf("%#v is no fault", err)
			}
			return
		}
		if w, h := d.Image.Width, d.Image.Height; w < 1 || h < 1 || max(w, h) > longest+longest/16 {
			t.Errorf("%g x %g m are %d x %d pixels", width, height, w, h)
		}
		if len(d.Letters) != len(s.Lines) {
			t.Errorf("%d heights of %d lines", len(d.Letters), len(s.Lines))
		}
		for _, l := range append(d.Letters, d.Code) { // of a sign that says no more than a point, a capital would not fit on it
			if !(l >= 0 && l <= 2*max(width, height)) {
				t.Errorf("letters %v, code %v on %g x %g m", d.Letters, d.Code, width, height)
			}
		}
		d.Unknown()
	})
}
