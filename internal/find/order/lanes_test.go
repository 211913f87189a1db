package order_test

import (
	"slices"
	"testing"

	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
)

// What each does, worked out by hand: B has nothing to do before the gate is signed, A nothing after the last tag, and what
// B could do in the wait.
func TestLanes(t *testing.T) {
	p := &booth.Plan{File: "fair.yaml", SetUp: booth.SetUp{People: 2, Tasks: []booth.Task{
		{ID: "sign", Name: "Sign in", Crew: 1, Minutes: 10},
		{ID: "frame", Name: "Stand the frame", After: []booth.ID{"sign"}, Crew: 2, Minutes: 5},
		{ID: "tags", Name: "Pin the tags", After: []booth.ID{"frame"}, Crew: 1, Minutes: 4},
	}}}
	r, err := order.Of(p, order.Options{})
	if err != nil {
		t.Fatal(err)
	}
	lanes := r.Lanes()
	turn := func(from, to, step int) order.Turn { return order.Turn{From: from, To: to, Step: step} }
	wait := func(from, to, step int, until ...int) order.Turn {
		return order.Turn{From: from, To: to, Step: step, Wait: true, Until: until}
	}
	first, second := []order.Turn{turn(0, 10, 1), turn(10, 15, 2)}, []order.Turn{wait(0, 10, 2, 1), turn(10, 15, 2)}
	pinner := slices.IndexFunc(lanes, func(l order.Lane) bool { return l.Turns[len(l.Turns)-1].Step == 3 })
	for i, l := range lanes {
		want := first
		if !slices.Contains(r.Steps[0].Who, l.Who) {
			want = second
		}
		if i == pinner {
			want = append(slices.Clone(want), turn(15, 19, 3))
		} else {
			want = append(slices.Clone(want), wait(15, 19, 0))
		}
		if !slices.EqualFunc(l.Turns, want, func(a, b order.Turn) bool {
			return a.From == b.From && a.To == b.To && a.Step == b.Step && a.Wait == b.Wait && slices.Equal(a.Until, b.Until) && slices.Equal(a.Early, b.Early)
		}) {
			t.Errorf("%s does %+v, want %+v", l.Who, l.Turns, want)
		}
	}
}

// In the demo each lane is without a gap, a wait says until what, and whatever is said to be possible early waits for nothing.
func TestLanesOfTheDemoHaveNoGaps(t *testing.T) {
	r := rehearsed(t, example(t, "demo.yaml"), order.Options{})
	waits := 0
	for _, l := range r.Lanes() {
		now := 0
		for _, turn := range l.Turns {
			if turn.From != now || turn.To < turn.From {
				t.Errorf("%s: a turn from %d to %d comes at %d", l.Who, turn.From, turn.To, now)
			}
			now = turn.To
			if turn.Wait && turn.Step > 0 {
				waits++
				if len(turn.Until) == 0 {
					t.Errorf("%s waits from %d to %d for nothing", l.Who, turn.From, turn.To)
				}
			}
			for _, e := range turn.Early {
				for _, a := range r.Steps[e-1].After {
					if r.Steps[a-1].End > turn.From {
						t.Errorf("%s could do step %d at %d, before step %d is done", l.Who, e, turn.From, a)
					}
				}
			}
		}
		if now != r.Length {
			t.Errorf("%s's lane ends at %d, and the set-up at %d", l.Who, now, r.Length)
		}
	}
	if waits == 0 {
		t.Error("nobody ever waits: the test compares nothing")
	}
}
