package try_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/try"
)

// Rows and works that hang by themselves are centred, spaced and aligned, in the words of the scene.
func TestWorksAreBroughtIntoOrder(t *testing.T) {
	s, path := session(t)
	before := contents(t, path)
	find := func(st *try.State, id string) try.Work {
		return st.Works[slices.IndexFunc(st.Works, func(w try.Work) bool { return string(w.ID) == id })]
	}
	for _, a := range []try.Ask{
		{Do: "hang", Item: "work/moths", With: "wall/left", X: 0.1, Y: 1.2}, {Do: "hang", Item: "work/thistle", With: "wall/left", X: 0.5, Y: 1.1},
		{Do: "hang", Item: "work/bunting", With: "wall/left", X: 1.3, Y: 1}, {Do: "hang", Item: "work/orchard", With: "wall/left", X: 1.9, Y: 1.1},
		{Do: "tidy", Item: "work/orchard", Field: "even"}, {Do: "tidy", Item: "work/moths", Field: "align"},
		{Do: "type", Place: 0, Field: "gap", Text: "5"}, {Do: "tidy", Item: "work/alder", Field: "even"},
		{Do: "type", Place: 0, Field: "from left", Text: "20"}, {Do: "tidy", Item: "work/alder", Field: "centre"},
		{Do: "tidy", Item: "chair", Field: "centre"},
	} {
		say(t, s, a)
	}
	st := s.State()
	var space []float64
	end, height := 0.0, find(st, "work/moths").Centre
	for _, id := range []string{"work/moths", "work/thistle", "work/bunting", "work/orchard"} {
		w := find(st, id)
		space = append(space, w.Left-end)
		end = w.Left + w.Wide
		if math.Abs(w.Centre-height) > 0.051 { // hooks on a mesh of 2 in
			t.Errorf("the middle of %s is %.3f m up, not %.3f", id, w.Centre, height)
		}
	}
	for _, v := range append(space, st.Walls[0].Wide-end) {
		if math.Abs(v-space[0]) > 0.004 {
			t.Errorf("the spaces are %.3f", space)
			break
		}
	}
	if chair := thingOf(t, st, "chair"); math.Abs(chair.X) > 0.002 {
		t.Errorf("the chair is %.3f m from the middle", chair.X)
	}
	say(t, s, try.Ask{Do: "tidy", Item: "work/moths", Field: "centre"})
	if w := find(s.State(), "work/moths"); math.Abs(w.Left+w.Wide/2-st.Walls[0].Wide/2) > 0.002 {
		t.Error("it is not in the middle of the wall")
	}
	for _, a := range []try.Ask{{Do: "tidy", Item: "work/pears", Field: "even"}, {Do: "tidy", Item: "work/moths", Field: "nice"}, {Do: "tidy", Item: "chair", Field: "even"}, {Do: "tidy", Item: "work/dahlias", Field: "centre"}, {Do: "tidy", Item: "tent", Field: "centre"}} {
		refused(t, s, a)
	}
	say(t, s, try.Ask{Do: "save"})
	_, come := changedLines(before, contents(t, path))
	if !strings.Contains(contents(t, path), "{wall: back, works: [alder, saltings, tideline]}") {
		t.Errorf("the file says %q", come)
	}
}

// While a thing is held, the way in is the one that there is when it is let go; nothing is changed by holding it.
func TestTheWayIsSeenWhileAThingIsHeld(t *testing.T) {
	s, _ := session(t)
	at := say(t, s, try.Ask{Do: "stand", Item: "table/prints", X: -0.2, Z: -1.2}).At // away from the wall, at which its cloth hangs straight
	for _, to := range []try.Ask{{X: 0.3, Z: -2}, {X: 0.4, Z: -0.7, Turn: 90}} {
		held := to
		held.Do, held.Version, held.Item = "hold", try.Version, "table/prints"
		out := s.Say(held)
		if out.Floor == nil || out.State != nil || s.State().At != at {
			t.Fatalf("held: %+v", out)
		}
		to.Do, to.Item, to.Turn = "stand", "table/prints", to.Turn+thingOf(t, s.State(), "table/prints").Turn
		is := say(t, s, to).Ground.Floor
		if out.Floor.Words != is.Words || math.Abs(out.Floor.Circle.R-is.Circle.R) > 0.002 || len(out.Floor.Way) == 0 {
			t.Errorf("held: %s %v; let go: %s %v", out.Floor.Words, *out.Floor.Circle, is.Words, *is.Circle)
		}
		say(t, s, try.Ask{Do: "undo"})
		at = s.State().At
	}
	if out := s.Say(try.Ask{Version: try.Version, Do: "hold", Item: "nobody"}); out.Refused == "" {
		t.Error("nobody is held")
	}
}
