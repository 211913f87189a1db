package finding

import "testing"

// A finding is another one if it is of another thing, pair, place or weight; not if only its numbers are others. Two alike are two.
func TestBeyond(t *testing.T) {
	is := Finding{Check: "gap", Level: Caution, Item: "work/a", With: "work/b", View: "", Message: "2 in apart"}
	for _, c := range []struct {
		name   string
		change func(*Finding)
		want   int
	}{
		{"the same", func(*Finding) {}, 0},
		{"other numbers", func(f *Finding) { f.Message = "3 in apart"; f.Figure = &Figure{Measured: 1} }, 0},
		{"another line of the file", func(f *Finding) { f.At = "booth.yaml:9:1" }, 0},
		{"another pair", func(f *Finding) { f.With = "work/c" }, 1},
		{"worse", func(f *Finding) { f.Level = Fail }, 1},
		{"another view", func(f *Finding) { f.View = "left" }, 1},
	} {
		f := is
		c.change(&f)
		if got := Beyond([]Finding{f}, []Finding{is}); len(got) != c.want {
			t.Errorf("%s: %d are new, want %d", c.name, len(got), c.want)
		}
	}
	if got := Beyond([]Finding{is, is}, []Finding{is}); len(got) != 1 {
		t.Errorf("of two alike beside one, %d are new", len(got))
	}
}
