package scenes

import (
	"os"
	"regexp"
	"slices"
	"testing"
)

// What a page carries is the demo's art, all of it and no other.
func TestAPageCarriesTheDemo(t *testing.T) {
	demo, err := FS.ReadFile(Demo)
	if err != nil {
		t.Fatal(err)
	}
	carried, err := os.ReadFile("demo_js.go")
	if err != nil {
		t.Fatal(err)
	}
	art := regexp.MustCompile(`art/\w+\.jpg`)
	want, got := art.FindAllString(string(demo), -1), art.FindAllString(string(carried), -1)
	slices.Sort(want)
	if want = slices.Compact(want); !slices.Equal(got, want) || len(want) == 0 {
		t.Errorf("a page carries\n%v\nand the demo shows\n%v", got, want)
	}
}
