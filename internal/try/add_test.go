package try_test

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/try"
)

// What is added is written as a person would write it, where there is room, and taken out again the text is as it was.
func TestThingsComeAndGo(t *testing.T) {
	s, path := session(t)
	before := contents(t, path)
	text := func() string {
		t.Helper()
		say(t, s, try.Ask{Do: "save"})
		return contents(t, path)
	}
	for _, c := range []struct {
		ask  try.Ask
		come []string
	}{
		{try.Ask{Field: "table", Text: "48 x 24"}, []string{"  - name: extra", "    size: 48 x 24", "    against: right", "    from front: 36"}},
		{try.Ask{Field: "bin", Text: "18 x 16 x 34"}, []string{"  - {name: extra, size: 18 x 16 x 34, against: right, from front: 36}"}},
		{try.Ask{Field: "pedestal", Text: "12 x 12 x 36"}, []string{"pedestals:", "  - {name: extra, size: 12 x 12, height: 36, against: right, from front: 36}"}},
		{try.Ask{Field: "sign", Text: "11 x 8.5", Title: "Ask me\n\nabout frames"}, []string{"  - name: extra", "    text: [Ask me, about frames]", "    size: 11 x 8 1/2", "    along: 2", "    back: 2"}},
		{try.Ask{Field: "visitor", Text: "child"}, []string{"visitors:", "  - {name: child, who: child, from left: 50, before front: 36}"}},
		{try.Ask{Field: "panel", Text: "36 x 80"}, []string{"  - {name: panel, hang on: panel, width: 36, top: 80, from left: 6, from back: 36}"}},
	} {
		c.ask.Do, c.ask.Version = "add", try.Version
		out := s.Say(c.ask)
		if out.Refused != "" || !slices.ContainsFunc(out.State.Ground.Things, func(k try.Thing) bool { return k.ID == out.Added && k.Goes }) {
			t.Fatalf("%s: %s %q", c.ask.Field, out.Refused, out.Added)
		}
		if fails := slices.ContainsFunc(out.State.Findings, func(f try.Found) bool { return f.Level == "fail" && f.Item == out.Added }); fails {
			t.Errorf("%s stands where it cannot: %+v", c.ask.Field, out.State.Findings)
		}
		if _, come := changedLines(before, text()); !slices.Equal(slices.DeleteFunc(come, func(l string) bool { return l == "" }), c.come) {
			t.Errorf("%s: the file says %q, want %q", c.ask.Field, come, c.come)
		}
		say(t, s, try.Ask{Do: "remove", Item: out.Added})
		if text() != before {
			_, come := changedLines(before, contents(t, path))
			t.Errorf("%s taken out, the file says %q", c.ask.Field, come)
		}
	}
	for _, a := range []try.Ask{{Do: "add", Field: "elephant"}, {Do: "add", Field: "chair", Text: "18"}, {Do: "add", Field: "table", Text: "long"}, {Do: "add", Field: "visitor", Text: "dog"},
		{Do: "add", Field: "sign", Text: "11 x 8.5"}, {Do: "remove", Item: "wall/left"}, {Do: "remove", Item: "tent"}, {Do: "remove", Item: "nobody"}} {
		refused(t, s, a)
	}
}

// What is on a thing that is taken out waits, if it is a work, or goes too.
func TestWhatIsOnAThing(t *testing.T) {
	s, path := session(t)
	before := contents(t, path)
	st := say(t, s, try.Ask{Do: "remove", Item: "table/prints"})
	for _, k := range st.Ground.Things {
		if k.ID == "sign/welcome" {
			t.Error("the sign stands on nothing")
		}
	}
	if !waits(st, "work/dahlias") {
		t.Error("the work that stood on the table does not wait")
	}
	row := 3
	say(t, s, try.Ask{Do: "add", Field: "panel", Text: "36 x 80"})
	say(t, s, try.Ask{Do: "hang", Item: "work/quince", With: "wall/panel", Row: &row})
	say(t, s, try.Ask{Do: "hang", Item: "work/pears", With: "wall/panel", X: 0.1, Y: 0.9})
	say(t, s, try.Ask{Do: "type", Item: "wall/panel", Field: "width", Text: "48"})
	if st = say(t, s, try.Ask{Do: "remove", Item: "wall/panel"}); !waits(st, "work/quince") || !waits(st, "work/pears") || len(st.Rows) != 3 {
		t.Error("what hung on the panel does not wait")
	}
	if st = say(t, s, try.Ask{Do: "remove", Item: "work/heron"}); len(st.Works) != 11 {
		t.Errorf("%d works are left", len(st.Works))
	}
	if st = say(t, s, try.Ask{Do: "remove", Item: "chair"}); !slices.ContainsFunc(st.Goods, func(g try.Good) bool { return g.Name == "chair" }) {
		t.Error("no chair can be added")
	}
	say(t, s, try.Ask{Do: "add", Field: "chair", Text: "18"})
	say(t, s, try.Ask{Do: "save"})
	if _, come := changedLines(before, contents(t, path)); !slices.ContainsFunc(come, func(l string) bool { return strings.HasPrefix(l, "chair: {width: 18, against: ") }) {
		t.Errorf("the file says %q", come)
	}
}

func waits(st *try.State, id string) bool {
	return slices.ContainsFunc(st.Works, func(w try.Work) bool { return string(w.ID) == id && w.Waits })
}

// A photograph becomes a work that waits; its file lies beside the others. What is no photograph leaves nothing.
func TestAPhotographBecomesAWork(t *testing.T) {
	s, path := session(t)
	before := contents(t, path)
	var file bytes.Buffer
	if err := png.Encode(&file, image.NewGray(image.Rect(0, 0, 60, 40))); err != nil {
		t.Fatal(err)
	}
	bring := try.Ask{Do: "bring", Name: `C:\My pictures\The old mill (2).PNG`, Title: "The old mill", Text: "20 x 30", File: file.Bytes()}
	for _, change := range []func(*try.Ask){
		func(a *try.Ask) { a.File = []byte("no photograph") }, func(a *try.Ask) { a.Text = "large" }, func(a *try.Ask) { a.Title = " " },
		func(a *try.Ask) { a.Name = ".png/.." }, func(a *try.Ask) { a.File = nil },
	} {
		a := bring
		change(&a)
		refused(t, s, a)
	}
	files, err := os.ReadDir(filepath.Join(filepath.Dir(path), "art"))
	if err != nil || slices.ContainsFunc(files, func(e os.DirEntry) bool { return strings.Contains(e.Name(), "mill") }) {
		t.Errorf("what was refused is beside the scene: %v %v", files, err)
	}
	st := say(t, s, bring)
	if !waits(st, "work/mill") {
		t.Error("the work does not wait")
	}
	bring.Title = "Another of it"
	say(t, s, bring)
	say(t, s, try.Ask{Do: "save"})
	_, come := changedLines(before, contents(t, path))
	want := []string{"  - {name: mill, title: The old mill, image: art/The-old-mill-2.png, size: 20 x 30}", "  - {name: another, title: Another of it, image: art/The-old-mill-2.png, size: 20 x 30}"}
	if !slices.Equal(come, want) {
		t.Errorf("the file says %q", come)
	}
	if got := contents(t, filepath.Join(filepath.Dir(path), "art", "The-old-mill-2.png")); got != file.String() {
		t.Error("the photograph beside the scene is another one")
	}
}
