package try_test

import (
	"context"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/try"
)

// say asks for something that must be done.
func say(t testing.TB, s *try.Session, a try.Ask) *try.State {
	t.Helper()
	a.Version = try.Version
	out := s.Say(a)
	if out.Refused != "" {
		t.Fatalf("%+v: refused: %s", a, out.Refused)
	}
	return out.State
}

// refused asks for something that must not be done, and changes nothing.
func refused(t *testing.T, s *try.Session, a try.Ask) string {
	t.Helper()
	a.Version = try.Version
	at := s.State().At
	out := s.Say(a)
	if out.Refused == "" || out.State.At != at {
		t.Errorf("%+v was done: %s", a, out.Said)
	}
	return out.Refused
}

func thingOf(t *testing.T, st *try.State, id booth.ID) try.Thing {
	t.Helper()
	for _, w := range st.Ground.Things {
		if w.ID == id {
			return w
		}
	}
	t.Fatalf("there is no %s", id)
	return try.Thing{}
}

// changedLines are the lines of a text that another does not have, and those that it has instead.
func changedLines(before, after string) (gone, come []string) {
	a, b := strings.Split(before, "\n"), strings.Split(after, "\n")
	for _, l := range a {
		if !slices.Contains(b, l) {
			gone = append(gone, l)
		}
	}
	for _, l := range b {
		if !slices.Contains(a, l) {
			come = append(come, l)
		}
	}
	return gone, come
}

func contents(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// What is moved is moved in the scene's own text, as a person would write it, and every other line stays.
func TestWhatIsMovedIsWritten(t *testing.T) {
	s, path := session(t)
	before := contents(t, path)
	row := func(n int) *int { return &n }
	for _, c := range []struct {
		name string
		asks []try.Ask
		come []string
	}{
		{"into another row", []try.Ask{{Do: "hang", Item: "work/heron", With: "wall/left", Row: row(1), Place: 1}}, []string{
			"  - {wall: left, works: [orchard, heron, moths, thistle, bunting], centre: 60}", "  - {wall: right, works: [weir, quince], centre: 60}"}},
		{"along its row", []try.Ask{{Do: "hang", Item: "work/bunting", With: "wall/left", Row: row(1), Place: 0}}, []string{
			"  - {wall: left, works: [bunting, orchard, moths, thistle], centre: 60}"}},
		{"by keys along its row and up", []try.Ask{{Do: "nudge", Item: "work/moths", X: 0.003175}, {Do: "nudge", Item: "work/moths", Y: 0.003175}}, []string{
			"  - {wall: left, works: [orchard, thistle, moths, bunting], centre: 60 1/8}"}},
		{"out of its row by hand", []try.Ask{{Do: "hang", Item: "work/bunting", With: "wall/back", X: 2.54, Y: 1.27}}, []string{
			"wall: back, left: 100, centre: 50}", "  - {wall: left, works: [orchard, moths, thistle], centre: 60}"}},
		{"at the usual height", []try.Ask{{Do: "hang", Item: "work/bunting", With: "wall/back", X: 2.54, Y: 58 * 0.0254}}, []string{
			"wall: back, left: 100}", "  - {wall: left, works: [orchard, moths, thistle], centre: 60}"}},
		{"two of different rows", []try.Ask{{Do: "swap", Item: "work/heron", With: "work/moths"}}, []string{
			"  - {wall: left, works: [orchard, heron, thistle, bunting], centre: 60}", "  - {wall: right, works: [weir, quince, moths], centre: 60}"}},
		{"one of a row and one on the table", []try.Ask{{Do: "swap", Item: "work/dahlias", With: "work/moths"}}, []string{
			"mat: 2 1/2}, on: prints, along: 25, back: 2, turn: -50}", "weight: 4lb, price: 420}", "  - {wall: left, works: [orchard, dahlias, thistle, bunting], centre: 60}"}},
		{"from under another into a row", []try.Ask{{Do: "hang", Item: "work/pears", With: "wall/back", Row: row(0), Place: 3}}, []string{
			"price: 260, hang by: sawtooth", "  - {wall: back, works: [alder, saltings, tideline, pears]}"}},
		{"typed", []try.Ask{{Do: "type", Place: 0, Field: "centre", Text: "5ft"}, {Do: "type", Place: 0, Field: "gap", Text: "6 1/2"}}, []string{
			"  - {wall: back, works: [alder, saltings, tideline], centre: 60, gap: 6 1/2}"}},
		{"typed under another", []try.Ask{{Do: "type", Item: "work/pears", Field: "gap", Text: "4"}}, []string{"under: quince, gap: 4,"}},
		{"let wait", []try.Ask{{Do: "hang", Item: "work/moths"}}, []string{"  - {wall: left, works: [orchard, thistle, bunting], centre: 60}"}},
		{"let wait with what hangs under it", []try.Ask{{Do: "hang", Item: "work/quince"}}, []string{"price: 260, hang by: sawtooth", "  - {wall: right, works: [weir, heron], centre: 60}"}},
		{"waiting, in the place of another", []try.Ask{{Do: "hang", Item: "work/moths"}, {Do: "swap", Item: "work/moths", With: "work/heron"}}, []string{
			"  - {wall: left, works: [orchard, thistle, bunting], centre: 60}", "  - {wall: right, works: [weir, quince, moths], centre: 60}"}},
		{"a table", []try.Ask{{Do: "stand", Item: "table/prints", X: 0, Z: -1.5}}, []string{"    from front: ", "    from left: ", "    turn: 90"}},
		{"a table turned by keys", []try.Ask{{Do: "nudge", Item: "table/prints", Turn: 15}}, []string{"    turn: 15"}},
		{"a chair along the wall that it stands against", []try.Ask{{Do: "nudge", Item: "chair", Z: 0.0254}}, []string{"chair: {against: left, from front: 95}"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, a := range c.asks {
				say(t, s, a)
			}
			if contents(t, path) != before {
				t.Fatal("the file was written before it was saved")
			}
			if say(t, s, try.Ask{Do: "save"}); !s.State().Saved {
				t.Error("it is not saved")
			}
			_, come := changedLines(before, contents(t, path))
			for _, want := range c.come {
				if !slices.ContainsFunc(come, func(l string) bool { return strings.Contains(l, want) }) {
					t.Errorf("no line has %q: %q", want, come)
				}
			}
			if len(come) > len(c.come) {
				t.Errorf("more lines have changed: %q", come)
			}
			for s.State().Undo != "" {
				say(t, s, try.Ask{Do: "undo"})
			}
			if say(t, s, try.Ask{Do: "save"}); contents(t, path) != before {
				t.Error("taken back, the file is another one")
			}
			if say(t, s, try.Ask{Do: "redo"}); s.State().Saved {
				t.Error("what is done again counts as saved")
			}
			say(t, s, try.Ask{Do: "undo"})
		})
	}
}

// A thing stands where it was put, to half of 1/8 in, whichever edge its place is written from, turned or not. What stood with its back
// against a side faces where it did, and is turned instead.
func TestThingsStandWhereTheyArePut(t *testing.T) {
	s, _ := session(t)
	for id, back := range map[booth.ID]float64{"table/prints": 90, "bin/small prints": -90, "chair": 90} {
		for _, to := range [][3]float64{{0.3, -1.2, 0}, {-0.4, -2, 90}, {0.7, -0.9, 30}, {0.2, 1.1, 0}} {
			st := say(t, s, try.Ask{Do: "stand", Item: id, X: to[0], Z: to[1], Turn: to[2]})
			if got := thingOf(t, st, id); math.Hypot(got.X-to[0], got.Z-to[1]) > 0.0254/8 || got.Turn != to[2]+back {
				t.Errorf("%s stands at %.4f, %.4f, turned by %g, not at %v", id, got.X, got.Z, got.Turn, to)
			}
			back = 0
		}
	}
	wants := `bins:
  - {name: small prints, size: 20 x 16 x 33, prints: 18,`
	if text := string(s.Text()); strings.Contains(text, "against") || !strings.Contains(text, wants) {
		t.Errorf("the scene says:\n%s", text)
	}
	// Across the front edge nothing stands: it goes to the side of the edge that is nearer.
	at := thingOf(t, say(t, s, try.Ask{Do: "stand", Item: "chair", X: 0, Z: -1.5}), "chair")
	deep := 0.0
	for _, q := range at.Outline[0] {
		deep = max(deep, q[1]-at.Z)
	}
	for z, want := range map[float64]float64{-deep / 2: -deep, deep / 2: deep} {
		if got := thingOf(t, say(t, s, try.Ask{Do: "stand", Item: "chair", X: 0, Z: z}), "chair"); math.Abs(got.Z-want) > 0.02 {
			t.Errorf("let go at %.2f, the chair stands at %.2f and not at %.2f", z, got.Z, want)
		}
	}
	refused(t, s, try.Ask{Do: "stand", Item: "tent"})
	refused(t, s, try.Ask{Do: "stand", Item: "nothing"})
}

// The table across the entrance is a failure at once, and mended when it is back.
func TestFindingsComeAndGo(t *testing.T) {
	s, _ := session(t)
	st := say(t, s, try.Ask{Do: "stand", Item: "table/prints", X: 0, Z: -0.4, Turn: 90})
	if st.Verdict != "fail" || !slices.ContainsFunc(st.Findings, func(f try.Found) bool { return f.Level == "fail" && f.New }) {
		t.Errorf("with the table across the entrance: %s", st.Line)
	}
	st = say(t, s, try.Ask{Do: "undo"})
	if st.Verdict == "fail" || len(st.Mended) == 0 || slices.ContainsFunc(st.Findings, func(f try.Found) bool { return f.Level == "fail" }) {
		t.Errorf("with the table back: %s %v", st.Line, st.Mended)
	}
}

// What makes no booth is refused with a reason, and everything stays.
func TestNonsenseIsRefused(t *testing.T) {
	s, _ := session(t)
	n := 99
	for _, a := range []try.Ask{
		{Do: "fly"}, {Do: "hang", Item: "work/nobody"}, {Do: "hang", Item: "work/heron", With: "wall/nowhere"}, {Do: "swap", Item: "work/heron", With: "work/heron"},
		{Do: "swap", Item: "work/quince", With: "work/pears"}, {Do: "type", Place: 0, Field: "centre", Text: "high"}, {Do: "type", Place: 7, Field: "centre", Text: "60"},
		{Do: "type", Item: "work/heron", Field: "price", Text: "1"}, {Do: "undo"}, {Do: "redo"}, {Do: "go", Place: -1}, {Do: "answer", Text: "mine"},
		{Do: "nudge", Item: "work/dahlias", X: 1}, {Do: "hang", Item: "work/heron", With: "wall/left", X: math.Inf(1), Y: 1}, {Do: "stand", Item: "chair", X: math.NaN()},
		{Do: "type", Item: "chair", Field: "turn", Text: "round"},
	} {
		refused(t, s, a)
	}
	if out := s.Say(try.Ask{Version: 2, Do: "look"}); !strings.Contains(out.Refused, "load it anew") {
		t.Errorf("a page of another version: %q", out.Refused)
	}
	if st := say(t, s, try.Ask{Do: "hang", Item: "work/heron", With: "wall/left", Row: &n}); len(st.Rows) != 4 {
		t.Errorf("a row that is not there begins one: %d rows", len(st.Rows))
	}
}

// Every window hears of what another has done.
func TestWindowsHearOfChanges(t *testing.T) {
	s, _ := session(t)
	news, stop := s.Watch()
	defer stop()
	at := s.State().At
	say(t, s, try.Ask{Do: "nudge", Item: "chair", X: 0.1})
	<-news
	if s.State().At <= at {
		t.Error("the number of the state did not grow")
	}
	if s.Booth(at, false) != nil {
		t.Error("the booth of an earlier state is given out")
	}
}

// The demo is saved as a folder that is a booth of its own.
func TestTheDemoIsSavedWhereThePersonSays(t *testing.T) {
	s := tryAt(t, "")
	s.Folder = t.TempDir()
	say(t, s, try.Ask{Do: "nudge", Item: "chair", X: 0.1})
	for _, name := range []string{"", "..", "a/b", "/tmp/x", ".hidden", "a\nb", `a\b`, "CON:"} {
		refused(t, s, try.Ask{Do: "save", Text: name})
	}
	st := say(t, s, try.Ask{Do: "save", Text: "Mein Stand"})
	if !st.Saved {
		t.Error("it is not saved")
	}
	if _, err := job.Load(st.File, job.Settings{}); err != nil {
		t.Error(err)
	}
	say(t, s, try.Ask{Do: "nudge", Item: "chair", X: 0.1})
	if st = say(t, s, try.Ask{Do: "save"}); !st.Saved {
		t.Error("it is not saved again")
	}
	other := tryAt(t, "")
	other.Folder = s.Folder
	if words := refused(t, other, try.Ask{Do: "save", Text: "Mein Stand"}); !strings.Contains(words, "already") {
		t.Error(words)
	}
}

// What was not saved is kept beside the scene and asked about, once.
func TestWhatWasNotSavedIsAskedAbout(t *testing.T) {
	for _, answer := range []string{"carry on", "drop"} {
		path := laid(t)
		s, err := try.Open(path, job.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		say(t, s, try.Ask{Do: "nudge", Item: "chair", X: 0.1})
		kept := s.Unsaved()
		s.Close()
		if contents(t, kept) == contents(t, path) {
			t.Error("what is kept is the scene as it was")
		}
		s = tryAt(t, path)
		if s.State().Asks != "rescued" {
			t.Fatalf("it asks %q", s.State().Asks)
		}
		refused(t, s, try.Ask{Do: "nudge", Item: "chair", X: 0.1})
		st := say(t, s, try.Ask{Do: "answer", Text: answer})
		if st.Saved != (answer == "drop") || st.Asks != "" {
			t.Errorf("after %q it is saved: %v", answer, st.Saved)
		}
		say(t, s, try.Ask{Do: "save"})
		s.Close()
		if _, err := os.Stat(kept); err == nil {
			t.Error("what was kept is still there")
		}
	}
}

// A file that somebody else changed is not written over unasked.
func TestNobodysChangeIsLost(t *testing.T) {
	for _, answer := range []string{"mine", "theirs"} {
		s, path := session(t)
		say(t, s, try.Ask{Do: "nudge", Item: "chair", Z: 0.0254})
		theirs := strings.Replace(contents(t, path), "from front: 96", "from front: 80", 1)
		if err := os.WriteFile(path, []byte(theirs), 0o644); err != nil {
			t.Fatal(err)
		}
		out := s.Say(try.Ask{Version: try.Version, Do: "save"})
		if out.State.Asks != "theirs" || out.Refused == "" || contents(t, path) != theirs {
			t.Fatalf("it asks %q, %s", out.State.Asks, out.Refused)
		}
		st := say(t, s, try.Ask{Do: "answer", Text: answer})
		if answer == "theirs" {
			if !st.Saved || contents(t, path) != theirs {
				t.Error("theirs is not what is shown")
			}
			continue
		}
		if now := contents(t, path); !st.Saved || strings.Contains(now, "from front: 80") || !strings.Contains(now, "from front: 95") {
			t.Error("mine was not written")
		}
	}
}

// The page follows the file; changes of other lines are joined with those that are not saved, and a text that is no scene is waited out.
func TestTheFileIsFollowed(t *testing.T) {
	s, path := session(t)
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() { s.Follow(ctx); close(done) }()
	t.Cleanup(func() { stop(); <-done })
	news, unwatch := s.Watch()
	defer unwatch()
	until := func(what string, is func(*try.State) bool) {
		t.Helper()
		for !is(s.State()) {
			select {
			case <-news:
			case <-time.After(time.Minute):
				t.Fatalf("the page does not follow: %s", what)
			}
		}
	}
	first := contents(t, path)
	write := func(text string) {
		t.Helper()
		other := path + ".new" // as editors do: another file takes its place
		if err := os.WriteFile(other, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Rename(other, path); err != nil {
			t.Fatal(err)
		}
	}
	dahlias := func(words string) func(*try.State) bool {
		return func(st *try.State) bool {
			return slices.ContainsFunc(st.Works, func(w try.Work) bool { return strings.HasPrefix(w.Title, words) })
		}
	}
	write(strings.Replace(first, "title: Dahlias", "title: Peonies", 1))
	until("a title", dahlias("Peonies"))
	if !s.State().Saved {
		t.Error("what is in the file is not saved")
	}
	say(t, s, try.Ask{Do: "nudge", Item: "chair", Z: 0.0254})
	write(strings.Replace(first, "title: Dahlias", "title: Zinnias", 1))
	until("another title, with the chair moved", dahlias("Zinnias"))
	if st := s.State(); st.Saved || st.Asks != "" || thingOf(t, st, "chair").Typed[2].Text != "95" {
		t.Errorf("both changes are not there: %v %q", st.Saved, st.Asks)
	}
	write("units: [")
	until("the end of a scene", func(st *try.State) bool { return st.Asks == "theirs" })
	write(strings.Replace(first, "title: Dahlias", "title: Zinnias", 1))
	until("the file as it was", func(st *try.State) bool { return st.Asks == "" })
	say(t, s, try.Ask{Do: "save"})
	if text := contents(t, path); !strings.Contains(text, "Zinnias") || !strings.Contains(text, "from front: 95") {
		t.Error("one of the changes is lost")
	}
	write("units: [")
	until("what is wrong", func(st *try.State) bool { return st.Trouble != "" })
	write(first)
	until("the first text", func(st *try.State) bool { return st.Trouble == "" && dahlias("Dahlias")(st) })
}

// The fair and whose booth it is are put down where they stood, and taken out.
func TestTheFairIsNamed(t *testing.T) {
	s, path := session(t)
	before := contents(t, path)
	st := say(t, s, try.Ask{Do: "call", Name: "Weir Fair: autumn", Title: " Odile Marsh "})
	if st.Event != "Weir Fair: autumn" || st.Artist != "Odile Marsh" || !strings.Contains(st.Title, "Odile Marsh") {
		t.Errorf("it is called %q, of %q, at %q", st.Title, st.Artist, st.Event)
	}
	say(t, s, try.Ask{Do: "save"})
	if gone, come := changedLines(before, contents(t, path)); len(gone) != 2 || !slices.Equal(come, []string{`event: "Weir Fair: autumn"`, "artist: Odile Marsh"}) {
		t.Errorf("%q became %q", gone, come)
	}
	if st := say(t, s, try.Ask{Do: "call"}); st.Event+st.Artist != "" {
		t.Errorf("taken out they are %q and %q", st.Event, st.Artist)
	}
	if st = say(t, s, try.Ask{Do: "call", Title: "Odile"}); st.Artist != "Odile" {
		t.Errorf("put down anew it is %q's", st.Artist)
	}
	refused(t, s, try.Ask{Do: "call", Name: strings.Repeat("x", 300)})
}
