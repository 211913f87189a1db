package art

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

// A photograph that another work shows is not what was meant by one that is not there.
func TestUsedIsNotSuggested(t *testing.T) {
	fsys := fstest.MapFS{"art/moth1.jpg": {Data: []byte("x")}, "art/moth2.jpg": {Data: []byte("x")}}
	for _, c := range []struct {
		wishes []Wish
		want   string
	}{
		{[]Wish{{Name: "art/moth3.jpg"}}, "did you mean art/moth1.jpg?"},
		{[]Wish{{Name: "art/moth3.jpg"}, {Name: "art/moth1.jpg"}}, "did you mean art/moth2.jpg?"},
		{[]Wish{{Name: "art/moth3.jpg"}, {Name: "art/moth1.jpg"}, {Name: "art/moth2.jpg"}}, "names start from the scene's folder"},
	} {
		if _, errs := LoadAll(fsys, c.wishes, nil); !strings.Contains(fmt.Sprint(errs[0]), c.want) {
			t.Errorf("%v: got %v, want %s", c.wishes, errs[0], c.want)
		}
	}
}
