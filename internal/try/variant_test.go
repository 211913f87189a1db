package try_test

import (
	"path/filepath"
	"slices"
	"testing"

	"boothmock/internal/try"
)

// A booth is kept as a variant, another is tried, the two are held side by side, and one goes on with the variant: each is a file
// of its own.
func TestVariants(t *testing.T) {
	s, path := session(t)
	before := contents(t, path)
	kept := filepath.Join(filepath.Dir(path), "booth-chair-in-front.yaml")
	say(t, s, try.Ask{Do: "stand", Item: "table/prints", X: 0, Z: -0.4, Turn: 90})
	refused(t, s, try.Ask{Do: "keep", Name: "../x"})
	say(t, s, try.Ask{Do: "keep", Name: "Chair in front"})
	refused(t, s, try.Ask{Do: "keep", Name: "chair in  front"})
	if contents(t, path) != before || contents(t, kept) == before {
		t.Error("what was kept is not in a file of its own")
	}
	refused(t, s, try.Ask{Do: "open", Name: "booth-chair-in-front.yaml"}) // this one is not saved
	st := say(t, s, try.Ask{Do: "undo"})
	if want := []try.Variant{{File: "booth-chair-in-front.yaml", Name: "chair in front"}, {File: "booth.yaml", Name: "booth", Here: true}}; !slices.Equal(st.Variants, want) {
		t.Errorf("the variants are %v", st.Variants)
	}
	out := s.Say(try.Ask{Version: try.Version, Do: "beside", Name: "booth-chair-in-front.yaml"})
	b := out.Beside
	if b == nil || len(b.Things) == 0 || len(b.New) == 0 || b.Lines[0] == b.Lines[1] || len(b.Totals) < 5 || b.Names[1] != "Chair in front" {
		t.Fatalf("side by side: %+v %s", b, out.Refused)
	}
	if s.Side(b.Number+1, 0, b.Views[0].Name) != nil || s.Side(b.Number, 2, b.Views[0].Name) != nil || s.Side(b.Number, 0, "nowhere") != nil {
		t.Error("there is a picture of nothing")
	}
	st = say(t, s, try.Ask{Do: "open", Name: "booth-chair-in-front.yaml"})
	if st.File != kept || !st.Saved || st.Verdict != "fail" {
		t.Errorf("%s is shown, %s", st.File, st.Line)
	}
	refused(t, s, try.Ask{Do: "open", Name: "booth-chair-in-front.yaml"})
	refused(t, s, try.Ask{Do: "beside", Name: "art/../booth.yaml"})
	say(t, s, try.Ask{Do: "nudge", Item: "chair", Z: 0.0254})
	say(t, s, try.Ask{Do: "save"})
	if st = say(t, s, try.Ask{Do: "open", Name: "booth.yaml"}); st.File != path || contents(t, path) != before {
		t.Error("the first one is not as it was")
	}
}
