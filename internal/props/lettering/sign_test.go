package lettering

import (
	"bytes"
	"image/png"
	"math"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
)

var (
	dark  = [3]uint8{38, 40, 44}
	cream = [3]uint8{247, 244, 236}
	blue  = [3]uint8{40, 62, 84}
)

// on puts a sign on a board of the size, in metres.
func on(s Sign, width, height float64, ink, paper [3]uint8) Sign {
	s.Name, s.Width, s.Height, s.Ink, s.Paper = "sign", width, height, ink, paper
	return s
}

func drawn(t testing.TB, s Sign) Drawn {
	t.Helper()
	d, err := s.Draw()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func samples() map[string]Sign {
	return map[string]Sign{
		"banner":    on(Banner("Odile Marrowby"), 1.8, 0.45, dark, cream),
		"valance":   on(Valance("Paintings and prints · Lower Fennick"), 3, 0.25, cream, blue),
		"table":     on(TableSign("Prints", []string{"Etchings and linocuts, pulled by hand", "Cards and cash"}, "https://marrowby.example/prints"), 0.2794, 0.2159, dark, cream),
		"tall":      on(TableSign("Join the letter list", []string{"Four letters a year"}, "https://marrowby.example/letters"), 0.2159, 0.2794, dark, cream),
		"tag":       on(PriceTag("Heron at the weir", "Oil on linen", "24 × 36 in", "$480"), 0.0889, 0.0508, dark, cream),
		"long tag":  on(PriceTag("Late light on the long wall of the Fennick water meadows, October", "Etching", "8 × 10 in", "$140"), 0.0889, 0.0508, dark, cream),
		"short tag": on(PriceTag("Weir", "", "", "$90"), 0.0889, 0.0508, dark, cream),
		"Ågren pgj": on(Banner("ÅÉÎ pgjq"), 0.5, 0.5, dark, cream),
	}
}

func TestTextStaysInsideTheMargins(t *testing.T) {
	for name, s := range samples() {
		d := drawn(t, s)
		w, h := d.Image.Width, d.Image.Height
		edge := int(margin*float64(min(w, h))) - 2 // a slanting letter may lean out by a hair
		inked := 0
		for y := range h {
			for x := range w {
				p := d.Image.Pixels().NRGBAAt(x, y)
				if [3]uint8{p.R, p.G, p.B} == s.Paper {
					continue
				}
				inked++
				if x < edge || y < edge || x >= w-edge || y >= h-edge {
					t.Fatalf("%s: ink at %d,%d of %d x %d", name, x, y, w, h)
				}
			}
		}
		if share := float64(inked) / float64(w*h); share < 0.02 {
			t.Errorf("%s: only %.1f %% is inked", name, 100*share)
		}
	}
}

// The text touches the room that it has in one direction, or it could be larger.
func TestTextIsAsLargeAsFits(t *testing.T) {
	for name, s := range samples() {
		if s.Code != "" {
			continue
		}
		d := drawn(t, s)
		x0, y0, x1, y1 := d.Image.Width, d.Image.Height, 0, 0
		for y := range d.Image.Height {
			for x := range d.Image.Width {
				if p := d.Image.Pixels().NRGBAAt(x, y); [3]uint8{p.R, p.G, p.B} != s.Paper {
					x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
				}
			}
		}
		edge := margin * float64(min(d.Image.Width, d.Image.Height))
		side := max(edge, margin/2*float64(d.Image.Width))
		across := float64(x1-x0) / (float64(d.Image.Width) - 2*side)
		down := float64(y1-y0) / (float64(d.Image.Height) - 2*edge)
		if max(across, down) < 0.93 {
			t.Errorf("%s: fills %.2f of the width and %.2f of the height", name, across, down)
		}
	}
}

func TestShapeIsTheBoards(t *testing.T) {
	for _, c := range [][2]float64{{1.8, 0.45}, {0.0889, 0.0508}, {0.2159, 0.2794}, {3, 0.1}, {0.1, 3}, {0.333, 0.217}, {1, 1}} {
		d := drawn(t, on(Banner("Marrowby"), c[0], c[1], dark, cream))
		w, h := float64(d.Image.Width), float64(d.Image.Height)
		if long := max(w, h); long < shortest || long > longest*1.07 {
			t.Errorf("%v: %v x %v pixels", c, w, h)
		}
		if off := w/h/(c[0]/c[1]) - 1; math.Abs(off) > 0.001 {
			t.Errorf("%v: %v x %v is %.3f %% off the shape", c, w, h, 100*off)
		}
		if d.Image.Pixels().Rect.Dx() != d.Image.Width || d.Image.Pixels().Rect.Dy() != d.Image.Height {
			t.Errorf("%v: pixels %v", c, d.Image.Pixels().Rect)
		}
	}
}

func TestSameSignSameBytes(t *testing.T) {
	for name, s := range samples() {
		a, b := drawn(t, s), drawn(t, s)
		if !bytes.Equal(a.Image.Encoded(), b.Image.Encoded()) {
			t.Errorf("%s: different bytes", name)
		}
		m, err := png.Decode(bytes.NewReader(a.Image.Encoded()))
		if err != nil {
			t.Fatal(err)
		}
		for y := 0; y < a.Image.Height; y += 3 {
			for x := 0; x < a.Image.Width; x += 3 {
				if r, g, b, _ := m.At(x, y).RGBA(); a.Image.Pixels().NRGBAAt(x, y).R != uint8(r>>8) ||
					a.Image.Pixels().NRGBAAt(x, y).G != uint8(g>>8) || a.Image.Pixels().NRGBAAt(x, y).B != uint8(b>>8) {
					t.Fatalf("%s: file and pixels differ at %d,%d", name, x, y)
				}
			}
		}
		if n := len(a.Image.Encoded()); n > 40_000 {
			t.Errorf("%s: the file has %d bytes", name, n)
		}
	}
}

// The letters are measured in the picture: a text of one I fills just its height.
func TestLettersAreMeasured(t *testing.T) {
	for _, face := range []Face{Regular, Bold, SmallCaps} {
		d := drawn(t, on(Sign{Lines: []Line{{Text: "I", Face: face}}}, 0.5, 0.4, [3]uint8{}, [3]uint8{255, 255, 255}))
		ink := 0.0
		for y := range d.Image.Height { // darkest pixel of each row, so that half-covered rows count half
			darkest := uint8(255)
			for x := range d.Image.Width {
				darkest = min(darkest, d.Image.Pixels().NRGBAAt(x, y).R)
			}
			ink += float64(255-darkest) / 255
		}
		metres := ink * 0.4 / float64(d.Image.Height)
		if math.Abs(metres-d.Letters[0]) > 0.001 {
			t.Errorf("face %d: the I is %.4f m high in the picture, %.4f m by its own account", face, metres, d.Letters[0])
		}
	}
	d := drawn(t, samples()["tag"])
	if r := d.Letters[2] / d.Letters[0]; math.Abs(r-0.6) > 0.01 { // regular and bold capitals are equally high
		t.Errorf("the third line has %.3f of the first's height, want 0.6", r)
	}
}

// An independent reader (gozxing) reads every code from the picture of the whole sign.
func TestCodesAreRead(t *testing.T) {
	long := "https://marrowby.example/works/late-light-on-the-long-wall-of-the-fennick-water-meadows?from=lower-fennick-green&lot=12&table=prints&kept=until-sunday"
	boards := []struct {
		w, h       float64
		ink, paper [3]uint8
	}{{0.28, 0.216, dark, cream}, {0.216, 0.28, dark, cream}, {0.6, 0.2, cream, blue}, {0.3, 0.3, [3]uint8{140, 130, 120}, cream}, {0.4, 0.3, blue, [3]uint8{210, 190, 120}}}
	for i, address := range []string{
		"https://marrowby.example", "HTTPS://MARROWBY.EXAMPLE/A", "0123456789", long,
		"https://marrowby.example/köln-ärmel", "mailto:odile@marrowby.example?subject=Grüße", "Reiher am Wehr: Ölbild 60 × 90 cm",
		"https://marrowby.example/静かな川",
	} {
		tried := boards[i%len(boards):][:1]
		if i == 0 {
			tried = boards
		}
		for _, board := range tried {
			d := drawn(t, on(TableSign("Prints", []string{"Pulled by hand"}, address), board.w, board.h, board.ink, board.paper))
			read := scan(t, d)
			if read != address {
				t.Errorf("%v: read %q, want %q", board, read, address)
			}
			if d.Code < 0.15*min(board.w, board.h) || d.Code > min(board.w, board.h) {
				t.Errorf("%v: the code is %.3f m", board, d.Code)
			}
		}
	}
	d := drawn(t, on(Sign{Code: "https://marrowby.example"}, 0.1, 0.1, dark, cream))
	if read := scan(t, d); read != "https://marrowby.example" {
		t.Errorf("a code alone: %q", read)
	}
}

func scan(t *testing.T, d Drawn) string {
	t.Helper()
	m, err := gozxing.NewBinaryBitmapFromImage(d.Image.Pixels())
	if err != nil {
		t.Fatal(err)
	}
	hints := map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true, gozxing.DecodeHintType_CHARACTER_SET: "UTF-8"}
	r, err := qrcode.NewQRCodeReader().Decode(m, hints)
	if err != nil {
		return "nothing: " + err.Error()
	}
	return r.GetText()
}

func TestUnknownCharactersAreNamed(t *testing.T) {
	d := drawn(t, on(Banner("静か Quai ✓ e\u0301\u200d"), 1, 0.3, dark, cream))
	if got := string(d.Missing); got != "静か✓" {
		t.Errorf("missing: %q", got)
	}
	if got := d.Unknown(); got != "the lettering has no 静 (U+9759), か (U+304B), ✓ (U+2713)" {
		t.Errorf("said as: %s", got)
	}
	if d := drawn(t, on(Banner("Ǻ čeština Ελληνικά Русский “–” × ′ ″ € £ ½"), 1, 0.3, dark, cream)); d.Unknown() != "" {
		t.Error(d.Unknown())
	}
}

func TestWhatCannotBeDrawn(t *testing.T) {
	for want, s := range map[string]Sign{
		"cannot be 0 x 1 m": on(Banner("A"), 0, 1, dark, cream),
		"NaN x 1 m":         on(Banner("A"), math.NaN(), 1, dark, cream),
		"too long for a square code (use a shorter":          on(TableSign("A", nil, strings.Repeat("x", 3000)), 1, 1, dark, cream),
		"too long for a square code on this sign (use a sho": on(TableSign("A", nil, strings.Repeat("x", 2000)), 1, 0.1, dark, cream),
	} {
		if _, err := s.Draw(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	// Odd but harmless texts draw an honest picture.
	for _, text := range []string{"", " ", "\n\n", "\t\u200b", strings.Repeat("w", 400), strings.Repeat("word ", 500)} {
		d := drawn(t, on(Banner(text), 1, 0.3, dark, cream))
		if len(d.Letters) != 1 || math.IsNaN(d.Letters[0]) {
			t.Errorf("%q: letters %v", text, d.Letters)
		}
	}
}

func TestLongTitlesAreBrokenEvenly(t *testing.T) {
	p := newParagraph(Line{Text: "one two three four five six"})
	rows := p.balanced(p.face.width("one two three four f", 0))
	if len(rows) != 2 || rows[0].text != "one two three" || rows[1].text != "four five six" {
		t.Errorf("broken as %v", rows)
	}
	p = newParagraph(Line{Text: "Oil\non linen\u00a0board"})
	if rows := p.wrap(1); len(rows) != 3 || rows[0].text != "Oil" || rows[2].text != "linen\u00a0board" {
		t.Errorf("broken as %v", rows)
	}
}

func BenchmarkPriceTag(b *testing.B) {
	s := samples()["tag"]
	for b.Loop() {
		drawn(b, s)
	}
}

func BenchmarkBanner(b *testing.B) {
	s := samples()["banner"]
	for b.Loop() {
		drawn(b, s)
	}
}

func BenchmarkTableSign(b *testing.B) {
	s := samples()["table"]
	for b.Loop() {
		drawn(b, s)
	}
}
