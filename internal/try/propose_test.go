package try_test

import (
	"os"
	"slices"
	"testing"

	"boothmock/internal/try"
)

// Ways to hang are proposed for the booth as it is, are held beside it, and one is taken or all are left.
func TestWaysAreProposed(t *testing.T) {
	if os.Getenv("REQUIRE_TOOLS") == "" {
		t.Skip("seconds of search; .ci/run does it")
	}
	s, path := session(t)
	before := contents(t, path)
	news, stop := s.Watch()
	defer stop()
	st := say(t, s, try.Ask{Do: "propose"})
	refused(t, s, try.Ask{Do: "propose"})
	for st.Proposals.Seeking {
		<-news
		st = s.State()
	}
	if len(st.Proposals.Ways) == 0 {
		t.Fatalf("nothing is proposed: %s", st.Proposals.None)
	}
	refused(t, s, try.Ask{Do: "take", Place: 99})
	out := s.Say(try.Ask{Version: try.Version, Do: "beside"})
	if out.Beside == nil || len(out.Beside.Things) == 0 {
		t.Fatalf("the proposal is not beside it: %s", out.Refused)
	}
	st = say(t, s, try.Ask{Do: "take"})
	if len(st.Proposals.Ways) != 0 {
		t.Error("what was proposed for another booth is proposed still")
	}
	refused(t, s, try.Ask{Do: "take"})
	say(t, s, try.Ask{Do: "save"})
	gone, come := changedLines(before, contents(t, path))
	if len(gone) == 0 || len(come) != len(gone) || slices.Equal(gone, come) {
		t.Errorf("the file says %q in the place of %q", come, gone)
	}
	if st = say(t, s, try.Ask{Do: "undo"}); len(st.Proposals.Ways) == 0 {
		t.Error("back at the booth that it was proposed for, nothing is proposed")
	}
}
