package pack

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/find/hang"
)

// Every letter and line of every paper is of the scale, and white space is named.
func TestLettersAndLinesAreOfTheScale(t *testing.T) {
	near := func(all []float64, v float64) bool {
		return slices.ContainsFunc(all, func(s float64) bool { return math.Abs(s-v) < 0.006 }) // written with two places
	}
	lines := []float64{thin * mm, plain * mm, bold * mm}
	look := func(what string, pdf []byte) {
		for page, ops := range read(t, pdf) {
			for _, o := range ops {
				switch {
				case o.name == "Tf" && !near(sizes, o.n[0]):
					t.Errorf("%s, page %d: letters of %g points", what, page+1, o.n[0])
				case o.name == "w" && !near(lines, o.n[0]):
					t.Errorf("%s, page %d: a line %.3f mm wide", what, page+1, o.n[0]/mm)
				}
			}
		}
	}
	for _, name := range []string{"demo.yaml", "hall.yaml"} {
		p := load(t, name)
		look(name, write(t, p, Options{Strips: true, Days: longDays()}))
		for _, which := range Papers {
			for _, o := range []Sheets{{}, {Large: true}, {Format: "A6"}} {
				var b bytes.Buffer
				o.Sheet, o.Days = hang.Of(p), longDays()
				if err := WritePaper(&b, p, which, o); err != nil {
					t.Fatal(err)
				}
				look(name+", "+which.Name, b.Bytes())
			}
		}
		_, steps := setUpSheet(t, name, 2)
		look(name+", setting up", steps)
	}
	files, _ := filepath.Glob("*.go")
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if found := regexp.MustCompile(`d\.y (\+= \d|\+\+)`).FindAll(text, -1); found != nil && !strings.HasSuffix(f, "_test.go") {
			t.Errorf("%s: white space without a name: %s", f, found)
		}
	}
}
