package pack

import (
	"boothmock/internal/find/hang"
	"bytes"
	"regexp"
	"strings"
	"testing"

	"boothmock/internal/find/order"
	"boothmock/internal/plan/finding"
)

func setUpSheet(t *testing.T, name string, people int) (order.Rehearsal, []byte) {
	t.Helper()
	p := load(t, name)
	if people > 0 {
		p = p.SetUpBy(people)
	}
	r, err := order.Of(p, order.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var pictures [][]byte
	for i := range r.Steps { // each second step shows nothing new
		pictures = append(pictures, greyPicture(t, uint8(i/2)))
	}
	var b bytes.Buffer
	if err := WriteSteps(&b, p, hang.Of(p), r, finding.Gather(p, nil, order.Findings(p, r)), pictures); err != nil {
		t.Fatal(err)
	}
	return r, b.Bytes()
}

// One picture a step is drawn, 62 mm wide (175.75 points); nothing runs off the page.
func TestSetUpSheetHasEveryStep(t *testing.T) {
	for _, name := range []string{"demo.yaml", "corner.yaml", "hall.yaml", "double.yaml"} {
		for _, n := range []int{1, 2, 4} {
			r, pdf := setUpSheet(t, name, n)
			pictures := 0
			for k, page := range read(t, pdf) {
				for _, o := range page {
					switch {
					case o.name == "cm" && len(o.n) == 6 && o.n[0] > 175 && o.n[0] < 176:
						pictures++
						if o.n[5] < 30 {
							t.Errorf("%s: a picture runs off page %d, at %g points", name, k+1, o.n[5])
						}
					case o.name == "Td" && len(o.n) == 2 && o.n[1] < 15:
						t.Errorf("%s: text runs off page %d, at %g points", name, k+1, o.n[1])
					}
				}
			}
			if pictures != len(r.Steps) {
				t.Errorf("%s for %d: %d pictures for %d steps", name, n, pictures, len(r.Steps))
			}
		}
	}
}

func TestSetUpSheetIsTheSameTwice(t *testing.T) {
	r, a := setUpSheet(t, "hall.yaml", 0)
	for range 4 { // 5 sheets with 5 pictures in no certain order would be the same once in 200 million times
		if _, b := setUpSheet(t, "hall.yaml", 0); !bytes.Equal(a, b) {
			t.Fatal("two sheets of one booth differ")
		}
	}
	if n, want := bytes.Count(a, []byte("/Subtype /Image")), (len(r.Steps)+1)/2; n != want || n < 5 {
		t.Errorf("%d pictures are kept for %d", n, want)
	}
	if !bytes.Contains(a, []byte("/Width 64\n/Height 36\n")) {
		t.Error("a picture has another size")
	}
	if !regexp.MustCompile(`MediaBox \[0 0 595.28 841.89`).Match(a) {
		t.Error("a booth in centimetres is not on A4")
	}
}

func TestSetUpSheetWithABadPicture(t *testing.T) {
	p := load(t, "hall.yaml")
	r, err := order.Of(p, order.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := WriteSteps(&bytes.Buffer{}, p, hang.Of(p), r, finding.Report{}, [][]byte{[]byte("no picture")}); err == nil || !strings.HasPrefix(err.Error(), "the sheet of the steps cannot be made") {
		t.Errorf("got %v", err)
	}
	if err := WriteSteps(&bytes.Buffer{}, p, hang.Of(p), r, finding.Report{}, nil); err != nil { // without pictures there are still the words
		t.Error(err)
	}
}

// Every measure that a step needs is printed on the sheet of setting up, and none on that of taking down.
func TestSetUpSheetHasItsMeasures(t *testing.T) {
	p := load(t, "demo.yaml")
	sheet := hang.Of(p)
	for which, printed := range map[order.Which]bool{order.SetUp: true, order.Strike: false} {
		r, err := order.Of(p, order.Options{Which: which})
		if err != nil {
			t.Fatal(err)
		}
		d, all, n := newPaper(p, "steps"), "", 0
		d.sheet = sheet
		d.watch = func(_, _, _ float64, s string) { all += strings.ReplaceAll(s, "\u00a0", " ") + " " }
		d.steps(r, finding.Report{}, nil)
		for _, s := range r.Steps {
			for _, m := range sheet.Measures(p, s.Hooks, s.Parts) {
				if strings.Contains(all, "-  "+m+" ") != printed {
					t.Errorf("%s: %q is printed: %v", which, m, !printed)
				}
				n++
			}
		}
		if n < 30 {
			t.Errorf("%s: %d measures", which, n)
		}
	}
}
