package order

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// handOut says who does which step: of those who are free, first who was last at the same place, then who has worked
// least. A step that takes no time is done in passing, by people who are at something else if need be.
func (g *project) handOut(steps []Step) {
	free := make([]int, len(g.names)) // the minute from which each is free
	work := make([]int, len(g.names))
	place := make([]string, len(g.names))
	for i := range steps {
		s := &steps[i]
		_, here, _ := strings.Cut(string(s.ID), "/")
		var ready []int
		for p := range g.names {
			if free[p] <= s.Start || s.Minutes() == 0 {
				ready = append(ready, p)
			}
		}
		elsewhere := func(p int) int {
			if here != "" && place[p] == here {
				return 0
			}
			return 1
		}
		busy := func(p int) int { return max(0, free[p]-s.Start) }
		slices.SortStableFunc(ready, func(a, b int) int {
			return cmp.Or(cmp.Compare(busy(a), busy(b)), cmp.Compare(elsewhere(a), elsewhere(b)), cmp.Compare(work[a], work[b]))
		})
		s.people = slices.Clone(ready[:len(s.people)])
		slices.Sort(s.people)
		s.Who = []string{}
		for _, p := range s.people {
			free[p], place[p] = max(free[p], s.End), here
			work[p] += s.Minutes()
			s.Who = append(s.Who, g.names[p])
		}
	}
}

// rooms sets how late each step may be: until the first step that waits for it, or that one of its people does next, must
// begin so that the end is no later.
func rooms(steps []Step, length int) {
	for i := len(steps) - 1; i >= 0; i-- {
		s := &steps[i]
		latest := length // that it may end
		for _, t := range steps[i+1:] {
			next := slices.Contains(t.After, s.Number) || slices.ContainsFunc(s.people, func(p int) bool { return slices.Contains(t.people, p) })
			if next && t.Start >= s.End { // what is done in passing waits for nobody
				latest = min(latest, t.Start+t.Room)
			}
		}
		s.Room = latest - s.End
	}
}

func people(n int) string {
	if n == 1 {
		return "one person"
	}
	return fmt.Sprintf("%d people", n)
}
