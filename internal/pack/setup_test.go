package pack

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"boothmock/internal/order"
)

func setUpSheet(t *testing.T, name string, o order.Options) (order.Rehearsal, []byte) {
	t.Helper()
	p := load(t, name)
	r, err := order.Of(p, o)
	if err != nil {
		t.Fatal(err)
	}
	var pictures [][]byte
	for range r.Steps {
		pictures = append(pictures, coverPicture(t))
	}
	var b bytes.Buffer
	if err := WriteSetUp(&b, p, r, pictures); err != nil {
		t.Fatal(err)
	}
	return r, b.Bytes()
}

// One picture a step is drawn, 62 mm wide (175.75 points); nothing runs off the page.
func TestSetUpSheetHasEveryStep(t *testing.T) {
	for _, name := range []string{"demo.yaml", "corner.yaml", "hall.yaml", "double.yaml"} {
		for _, n := range []int{1, 2, 4} {
			r, pdf := setUpSheet(t, name, order.Options{People: n})
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
	_, a := setUpSheet(t, "hall.yaml", order.Options{})
	_, b := setUpSheet(t, "hall.yaml", order.Options{})
	if !bytes.Equal(a, b) {
		t.Error("two sheets of one booth differ")
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
	if err := WriteSetUp(&bytes.Buffer{}, p, r, [][]byte{[]byte("no picture")}); err == nil || !strings.HasPrefix(err.Error(), "the set-up sheet cannot be made") {
		t.Errorf("got %v", err)
	}
	if err := WriteSetUp(&bytes.Buffer{}, p, r, nil); err != nil { // without pictures there are still the words
		t.Error(err)
	}
}
