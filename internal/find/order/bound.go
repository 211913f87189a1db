package order

// Bound is a length that no schedule can be shorter than: the longest chain; and for every resource, of all jobs that
// cannot start before some minute and must leave some minutes after them, that minute, the time that they keep the
// resource busy, and those minutes after.
func (n Network) Bound(have []int) int {
	times, longest, err := n.Times()
	if err != nil {
		panic(err) // the caller has been told
	}
	bound := longest
	for r := range have {
		for _, first := range times {
			for _, last := range times {
				head, tail := first.EarliestStart, longest-last.LatestFinish
				if busy := n.busy(times, r, have[r], head, longest-tail); busy > 0 {
					bound = max(bound, head+busy+tail)
				}
			}
		}
	}
	return bound
}

// busy is how long the jobs that start at head or later and end at end or earlier must keep resource r busy: all their
// work shared out evenly; or one after the other those that need more than half of it, and two by two those that need
// just half.
func (n Network) busy(times []Times, r, have, head, end int) int {
	work, alone, half := 0, 0, 0
	for j, t := range times {
		if t.EarliestStart < head || t.LatestFinish > end {
			continue
		}
		need := n[j].Need[r]
		work += need * n[j].Minutes
		switch {
		case 2*need > have:
			alone += n[j].Minutes
		case 2*need == have && need > 0:
			half += n[j].Minutes
		}
	}
	if work == 0 {
		return 0
	}
	return max((work+have-1)/have, alone+(half+1)/2)
}
