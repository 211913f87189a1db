package order

import "slices"

// Lane is what one person does from the beginning to the end of a rehearsal, one turn after another without a gap.
type Lane struct {
	Who   string
	Turns []Turn
}

// Turn is a stretch of a person's time: a step, or a wait.
type Turn struct {
	From, To int   // minutes from the beginning
	Step     int   // its number; of a wait, the step that comes after it, 0 for none
	Wait     bool  // nothing of theirs can be done as planned
	Until    []int // of a wait: numbers of the steps of others that it waits for
	Early    []int // of a wait: numbers of later steps of this person that could be done in it as well
}

// Lanes are the people's lanes, in the order of People.
func (r Rehearsal) Lanes() []Lane {
	out := make([]Lane, len(r.People))
	for p, name := range r.People {
		lane := Lane{Who: name}
		now := 0
		for _, s := range r.Steps {
			if !slices.Contains(s.people, p) {
				continue
			}
			if s.Start > now {
				lane.Turns = append(lane.Turns, r.wait(p, now, s))
			}
			lane.Turns = append(lane.Turns, Turn{From: s.Start, To: s.End, Step: s.Number})
			now = max(now, s.End)
		}
		if now < r.Length {
			lane.Turns = append(lane.Turns, r.wait(p, now, Step{Start: r.Length}))
		}
		out[p] = lane
	}
	return out
}

// wait is how person p waits from a minute on for a step: for the steps that it must come after and that are not done by
// then, and for people who are busy elsewhere.
func (r Rehearsal) wait(p, from int, s Step) Turn {
	t := Turn{From: from, To: s.Start, Step: s.Number, Wait: true}
	for _, o := range r.Steps {
		if o.End <= from || o.Start >= s.Start {
			continue
		}
		busy := o.End == s.Start && slices.ContainsFunc(s.people, func(q int) bool { return slices.Contains(o.people, q) })
		if slices.Contains(s.After, o.Number) || busy {
			t.Until = append(t.Until, o.Number)
		}
	}
	for _, o := range r.Steps {
		if o.Start >= t.To && o.Number != s.Number && !o.AtOnce && len(o.people) == 1 && o.people[0] == p && o.Minutes() <= t.To-from &&
			!slices.ContainsFunc(o.After, func(n int) bool { return r.Steps[n-1].End > from }) {
			t.Early = append(t.Early, o.Number)
		}
	}
	return t
}
