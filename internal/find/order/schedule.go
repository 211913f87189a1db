package order

import (
	"math/rand/v2"
	"slices"
)

// A schedule says when each job starts, in minutes from the beginning.
type schedule []int

// length is when the last job ends.
func (s schedule) length(n Network) int {
	end := 0
	for j, t := range s {
		end = max(end, t+n[j].Minutes)
	}
	return end
}

// Orders of the jobs that are tried, at most; and without anything better, at most. Each one takes about as many steps as
// there are jobs and minutes in them, and all of them together are to take no more than so many.
const (
	tries   = 1500
	nothing = 400
	effort  = 5_000_000
)

// Schedule is when each job starts so that the resources are never asked for more than there is, and the last job ends
// early; of schedules that end together, one that keeps most to the order of the list. The network must have no loop,
// and no job may need more than there is.
//
// It is the serial method with jobs listed by their latest start, then with that list shaken and every schedule pushed
// to the right and back to the left (Kolisch, Eur. J. Oper. Res. 90, 1996; Valls, Ballestín and Quintanilla, Eur. J.
// Oper. Res. 165, 2005). The numbers that shake it are always the same.
func (n Network) Schedule(have []int) []int {
	times, _, err := n.Times()
	if err != nil {
		panic(err) // the caller has been told
	}
	latest, listed := make([]float64, len(n)), make([]float64, len(n))
	for j := range n {
		latest[j], listed[j] = float64(times[j].LatestStart), float64(j)
	}
	var best schedule
	bestLength, bestTurns, since := 0, 0, 0
	take := func(s schedule) {
		since++
		length, turns := s.length(n), s.turns()
		if best == nil || length < bestLength || length == bestLength && turns < bestTurns {
			best, bestLength, bestTurns, since = s, length, turns, 0
		}
	}
	take(n.serial(listed, have))
	take(n.serial(latest, have))
	take(n.both(best, have))
	least := n.Bound(have)
	random := rand.New(rand.NewPCG(1, 1959))
	work := 0
	for _, job := range n {
		work += 10 + job.Minutes
	}
	for range min(tries, effort/max(1, work)) {
		if since > nothing && bestLength == least || since > 2*nothing {
			break
		}
		from := [][]float64{latest, listed, best.keys()}[random.IntN(3)]
		spread := float64(bestLength) / float64(3+random.IntN(9))
		shaken := make([]float64, len(n))
		for j := range n {
			shaken[j] = from[j] + float64(spread*random.Float64())
		}
		s := n.serial(shaken, have)
		take(s)
		take(n.both(s, have))
	}
	return best
}

func (s schedule) keys() []float64 {
	key := make([]float64, len(s))
	for j, t := range s {
		key[j] = float64(t)
	}
	return key
}

// turns is how many pairs of jobs do not start in the order of the list: those that a sort by merging has to turn.
func (s schedule) turns() int {
	a, b := slices.Clone(s), make(schedule, len(s))
	n := 0
	for wide := 1; wide < len(a); wide *= 2 {
		for lo := 0; lo < len(a); lo += 2 * wide {
			mid, hi := min(lo+wide, len(a)), min(lo+2*wide, len(a))
			i, j := lo, mid
			for k := lo; k < hi; k++ {
				if j == hi || i < mid && a[i] <= a[j] {
					b[k] = a[i]
					i++
					continue
				}
				n += mid - i
				b[k] = a[j]
				j++
			}
		}
		a, b = b, a
	}
	return n
}

// both pushes a schedule to the right, then to the left: the serial method on the network turned round, with the jobs
// that end last first, and once more on the network itself.
func (n Network) both(s schedule, have []int) schedule {
	end := s.length(n)
	back := n.reversed()
	key := make([]float64, len(n))
	for j := range n {
		key[j] = float64(end - s[j] - n[j].Minutes)
	}
	r := back.serial(key, have)
	end = r.length(back)
	for j := range n {
		key[j] = float64(end - r[j] - n[j].Minutes)
	}
	if t := n.serial(key, have); t.length(n) <= s.length(n) {
		return t
	}
	return s
}

// reversed is the network with time running backwards.
func (n Network) reversed() Network {
	r := slices.Clone(n)
	for j := range r {
		r[j].After, r[j].AtOnce = nil, false
	}
	for j := range n {
		for k, a := range n[j].After {
			if k == 0 && n[j].AtOnce {
				r[a].After, r[a].AtOnce = append([]int{j}, r[a].After...), true
				continue
			}
			r[a].After = append(r[a].After, j)
		}
	}
	return r
}

// serial takes the jobs one by one, of those whose predecessors are placed the one with the least key (then the least
// number), and starts each as early as it can be. A job and the one that follows it at once are placed together.
func (n Network) serial(key []float64, have []int) schedule {
	start := make(schedule, len(n))
	placed := make([]bool, len(n))
	next := n.followers()
	_, after := n.open()
	first := make([]int, len(n)) // of the train of each job: those that follow each other at once
	for j := range n {
		if !n[j].AtOnce {
			for k := j; k >= 0; k = next[k] {
				first[k] = j
			}
		}
	}
	open := make([]int, len(n)) // how many jobs, not its own, a train still waits for
	for j := range n {
		for _, a := range n[j].After {
			if first[a] != first[j] {
				open[first[j]]++
			}
		}
	}
	var ready heap
	for j := range n {
		if !n[j].AtOnce && open[j] == 0 {
			ready.push(key[j], j)
		}
	}
	horizon := 1
	for _, job := range n {
		horizon += job.Minutes
	}
	use := make([][]int, len(have))
	for r := range use {
		use[r] = make([]int, 2*horizon)
	}
	fits := func(j, t int) int { // the next minute at which it may fit; t itself if it does
		for k := t; k < t+n[j].Minutes; k++ {
			for r, need := range n[j].Need {
				if need > 0 && use[r][k]+need > have[r] {
					return k + 1
				}
			}
		}
		return t
	}
	for len(ready) > 0 {
		pick := ready.pop()
		t := 0
		for j := pick; j >= 0; j = next[j] { // the whole train, as early as all its predecessors let it
			before := 0
			for k := pick; k != j; k = next[k] {
				before += n[k].Minutes
			}
			for _, a := range n[j].After {
				if placed[a] {
					t = max(t, start[a]+n[a].Minutes-before)
				}
			}
		}
		for {
			moved, at := false, t
			for j := pick; j >= 0; j = next[j] {
				if later := fits(j, at); later > at {
					t, moved = t+later-at, true
					break
				}
				at += n[j].Minutes
			}
			if !moved {
				break
			}
		}
		for j := pick; j >= 0; j = next[j] {
			start[j], placed[j] = t, true
			for k := t; k < t+n[j].Minutes; k++ {
				for r, need := range n[j].Need {
					use[r][k] += need
				}
			}
			t += n[j].Minutes
			for _, k := range after[j] {
				if f := first[k]; f != pick {
					if open[f]--; open[f] == 0 {
						ready.push(key[f], f)
					}
				}
			}
		}
	}
	return start
}

// followers are, for each job, the one that follows it at once, or -1.
func (n Network) followers() []int {
	next := make([]int, len(n))
	for j := range next {
		next[j] = -1
	}
	for j, job := range n {
		if job.AtOnce {
			next[job.After[0]] = j
		}
	}
	return next
}
