package pack

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/hang"
)

var scenes = []string{"demo.yaml", "corner.yaml", "hall.yaml", "double.yaml"}

// hundredth is how exactly the file states a length: two decimals of a point, in mm, at both ends.
const hundredth = 0.01 / mm * 1.01

// cover is a small picture, as JPEG.
func coverPicture(t *testing.T) []byte { return greyPicture(t, 0) }

func greyPicture(t *testing.T, first uint8) []byte {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, 64, 36))
	for i := range m.Pix {
		m.Pix[i] = first + uint8(i)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A ruler of 100 mm is 100 mm of paper, with a tick every 5 mm; in a booth in inches there is one of 4 in under it.
func TestHundredMillimetres(t *testing.T) {
	for _, name := range scenes {
		p := load(t, name)
		found := 0
		for _, page := range read(t, write(t, p, Options{Strips: true})) {
			lines := strokes(page)
			for _, l := range lines {
				if l.y0 != l.y1 || math.Abs(l.x1-l.x0-100) > hundredth || math.Abs(l.x0-margin) > hundredth {
					continue
				}
				up, down := 0, 0
				for _, k := range lines {
					if k.x0 != k.x1 || math.Abs(k.y0-l.y0) > hundredth {
						continue
					}
					at := k.x0 - l.x0
					if k.y1 > k.y0 && math.Abs(at-5*math.Round(at/5)) < hundredth {
						up++
					}
					if eighth := 25.4 / 8; k.y1 < k.y0 && math.Abs(at-eighth*math.Round(at/eighth)) < hundredth {
						down++
					}
				}
				if up == 21 && (down == 33 || p.Units == unit.Centimetres) {
					found++
				}
			}
		}
		if found < 2 {
			t.Errorf("%s: %d whole rulers of 100 mm, want one with the tags and one with the strips", name, found)
		}
	}
}

// The same, measured on the paper as another program draws it: at 254 dots an inch, 100 mm are 1000 dots.
func TestHundredMillimetresDrawn(t *testing.T) {
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("pdftoppm is not installed")
	}
	dir := t.TempDir()
	p := load(t, "hall.yaml")
	file := filepath.Join(dir, "pack.pdf")
	if err := os.WriteFile(file, write(t, p, Options{}), 0o600); err != nil {
		t.Fatal(err)
	}
	contents := compose(p, hang.Of(p), Options{}, nil).contents
	n := strconv.Itoa(contents[len(contents)-1].page) // the tags come last
	if out, err := exec.Command(tool, "-r", "254", "-gray", "-png", "-f", n, "-l", n, "-singlefile", file, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	f, err := os.Open(filepath.Join(dir, "page.png"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	// The longest dark run of a row is the ruler's line.
	longest := 0
	for y := m.Bounds().Min.Y; y < m.Bounds().Max.Y; y++ {
		run := 0
		for x := m.Bounds().Min.X; x < m.Bounds().Max.X; x++ {
			if color.GrayModel.Convert(m.At(x, y)).(color.Gray).Y < 200 {
				run++
				longest = max(longest, run)
			} else {
				run = 0
			}
		}
	}
	if longest < 999 || longest > 1004 { // the line has round ends of half its own width
		t.Errorf("100 mm are %d dots of 0.1 mm", longest)
	}
}

// The drawing of a wall is true to its scale: works are as wide and as high on paper as they are over the scale.
func TestElevationTrueToScale(t *testing.T) {
	for _, name := range scenes {
		p := load(t, name)
		s := hang.Of(p)
		pages := read(t, write(t, p, Options{}))
		d := compose(p, s, Options{}, nil)
		k := 1 // the cover comes first
		for _, w := range s.Walls {
			if len(w.Works) == 0 {
				continue
			}
			rects := [][2]float64{}
			for _, o := range pages[d.contents[k-1].page-1] {
				if o.name == "re" && len(o.n) == 4 {
					rects = append(rects, [2]float64{math.Abs(o.n[2]) / mm, math.Abs(o.n[3]) / mm})
				}
			}
			drawn := func(scale, wide, high float64) bool {
				return slices.ContainsFunc(rects, func(r [2]float64) bool {
					return math.Abs(r[0]-wide*1000/scale) < hundredth && math.Abs(r[1]-high*1000/scale) < hundredth
				})
			}
			if !slices.ContainsFunc(rulers[p.Units], func(scale float64) bool {
				return drawn(scale, w.Width, w.Top-w.Bottom) && !slices.ContainsFunc(w.Works, func(k hang.Work) bool { return !drawn(scale, k.X1-k.X0, k.Y1-k.Y0) })
			}) {
				t.Errorf("%s, %s: wall and works are drawn to no scale that a ruler has", name, w.Name)
			}
			k++
		}
	}
}

// The pack names a framed work's two sizes, as another program reads them: 14 x 11 in with a mat of 2 1/2 in and
// a frame of 3/4 in. At the foot of a page stands the chapter that it is in.
func TestWordsOfThePack(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed")
	}
	file := filepath.Join(t.TempDir(), "pack.pdf")
	if err := os.WriteFile(file, write(t, load(t, "demo.yaml"), Options{}), 0o600); err != nil {
		t.Fatal(err)
	}
	text, err := exec.Command(tool, "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	words := strings.Join(strings.Fields(string(text)), " ")
	if n := strings.Count(words, "framed 20 1/2 x"); n != 2 {
		t.Errorf("it says so of %d works, want 2: %s", n, words)
	}
	for _, want := range []string{"- The back wall page 3", "- Before you start page 5", "- What to bring page 8"} {
		if !strings.Contains(words, want) {
			t.Errorf("no page has %q at its foot", want)
		}
	}
}

// A strip is the wall at its own size: the ticks of its ruler are half an inch apart, and the mark of a hook is as far
// from the tick before it as on the wall. Every hook has its mark.
func TestStripsAtFullSize(t *testing.T) {
	p := load(t, "demo.yaml")
	s := hang.Of(p)
	pages := read(t, write(t, p, Options{Strips: true}))
	d := compose(p, s, Options{Strips: true}, nil)
	first := d.contents[len(d.contents)-1].page
	const long = 9 * 25.4 // mm of wall on a piece: the page less margins and overlap, in whole inches
	var want []float64
	for _, w := range s.Walls {
		for _, work := range w.Works {
			for _, h := range work.Hooks {
				want = append(want, margin+math.Mod(h.X*1000, long))
			}
		}
	}
	found := make([]bool, len(want))
	marks := 0
	for _, page := range pages[first-1:] {
		for _, l := range strokes(page) {
			if l.x0 != l.x1 || math.Abs(math.Abs(l.y1-l.y0)-(band-13)) > hundredth {
				continue
			}
			marks++
			for i, x := range want {
				if math.Abs(l.x0-x) < hundredth {
					found[i] = true
				}
			}
		}
	}
	if marks != len(want) {
		t.Errorf("%d marks for %d hooks", marks, len(want))
	}
	for i, ok := range found {
		if !ok {
			t.Errorf("no mark for the hook at %.2f mm of its piece", want[i])
		}
	}
}

// Tags are as large as the scene says, by their cut marks, and there are blank ones to the end of the page.
func TestTagsAtTrueSize(t *testing.T) {
	p := load(t, "demo.yaml") // 2 x 3 1/2 in
	pages := read(t, write(t, p, Options{}))
	d := compose(p, hang.Of(p), Options{}, nil)
	at := d.contents[len(d.contents)-1].page
	corners := map[[2]int]bool{} // places of upright marks, in tenths of a mm
	tags := 0
	for _, page := range pages[at-1:] {
		clear(corners)
		for _, l := range strokes(page) {
			if l.x0 == l.x1 && math.Abs(math.Abs(l.y1-l.y0)-2) < hundredth {
				corners[[2]int{int(math.Round(l.x0 * 10)), int(math.Round(max(l.y0, l.y1) * 10))}] = true
			}
		}
		for c := range corners {
			// The mark above the upper left corner has its like above the upper right one, and below the lower left.
			if corners[[2]int{c[0] + 889, c[1]}] && corners[[2]int{c[0], c[1] - 508 - 34}] {
				tags++
			}
		}
	}
	if tags < 12+4 {
		t.Errorf("%d tags of 50.8 x 88.9 mm for 12 works, want at least 4 blank ones more", tags)
	}
}

// Nothing is smaller than 9 points, and nothing but the cover picture has a colour.
func TestReadableInBlackAndWhite(t *testing.T) {
	for _, name := range scenes {
		for n, page := range read(t, write(t, load(t, name), Options{Strips: true, Picture: coverPicture(t)})) {
			sizes := 0
			for _, o := range page {
				switch o.name {
				case "Tf":
					sizes++
					if size := o.n[len(o.n)-1]; size < 9 {
						t.Errorf("%s, page %d: letters of %v points", name, n+1, size)
					}
				case "rg", "RG":
					if o.n[0] != o.n[1] || o.n[1] != o.n[2] {
						t.Errorf("%s, page %d: colour %v", name, n+1, o.n)
					}
				}
			}
			if sizes == 0 {
				t.Errorf("%s, page %d: no letters", name, n+1)
			}
		}
	}
}

// The same booth gives the same bytes; a booth in inches is on letter, one in centimetres on A4.
func TestSameBytesAndPaper(t *testing.T) {
	for name, paper := range map[string]string{"demo.yaml": "612.00 792.00", "hall.yaml": "595.28 841.89"} {
		o := Options{Strips: true, Picture: coverPicture(t)}
		a, b := write(t, load(t, name), o), write(t, load(t, name), o)
		if !bytes.Equal(a, b) {
			t.Errorf("%s: two packs differ", name)
		}
		if !regexp.MustCompile(`MediaBox \[0 0 ` + paper).Match(a) {
			t.Errorf("%s is not on paper of %s points", name, paper)
		}
	}
}

// A picture that is none is an error, not a pack without one.
func TestBadPicture(t *testing.T) {
	p := load(t, "demo.yaml")
	if err := Write(&bytes.Buffer{}, p, hang.Of(p), Options{Picture: []byte("no picture")}); err == nil {
		t.Error("no error")
	}
}

func BenchmarkWrite(b *testing.B) {
	p := load(b, "demo.yaml")
	s := hang.Of(p)
	for b.Loop() {
		if err := Write(&bytes.Buffer{}, p, s, Options{Strips: true}); err != nil {
			b.Fatal(err)
		}
	}
}
