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
	p := newPlanner(n, have)
	take(p.serial(listed))
	take(p.serial(latest))
	take(p.both(best))
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
		s := p.serial(shaken)
		take(s)
		take(p.both(s))
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
func (p *planner) both(s schedule) schedule {
	n, end := p.Network, s.length(p.Network)
	key := make([]float64, len(n))
	for j := range n {
		key[j] = float64(end - s[j] - n[j].Minutes)
	}
	r := p.back.serial(key)
	end = r.length(n)
	for j := range n {
		key[j] = float64(end - r[j] - n[j].Minutes)
	}
	if t := p.serial(key); t.length(n) <= s.length(n) {
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

// planner is a network made ready for many schedules. A job and those that follow it at once are a train, which is placed
// together and known by its first job.
type planner struct {
	Network
	have  []int
	next  []int   // of each job the one that follows it at once, or -1
	first []int   // of its train
	waits []int   // of each train, for how many jobs that are not its own
	after [][]int // of each job those that wait for it
	back  *planner

	open   []int
	placed []bool
	ready  heap
	use    [][]int // of each resource, by minutes
}

func newPlanner(n Network, have []int) *planner {
	p := halfPlanner(n, have)
	p.back = halfPlanner(n.reversed(), have)
	return p
}

func halfPlanner(n Network, have []int) *planner {
	p := &planner{Network: n, have: have, next: n.followers(), first: make([]int, len(n)), waits: make([]int, len(n)),
		open: make([]int, len(n)), placed: make([]bool, len(n)), use: make([][]int, len(have))}
	_, p.after = n.open()
	horizon := 1
	for j := range n {
		horizon += n[j].Minutes
		if !n[j].AtOnce {
			for k := j; k >= 0; k = p.next[k] {
				p.first[k] = j
			}
		}
	}
	for j := range n {
		for _, a := range n[j].After {
			if p.first[a] != p.first[j] {
				p.waits[p.first[j]]++
			}
		}
	}
	for r := range p.use {
		p.use[r] = make([]int, 2*horizon)
	}
	return p
}

// serial takes the trains one by one, of those whose predecessors are placed the one with the least key (then the least
// number), and starts each as early as it can be.
func (p *planner) serial(key []float64) schedule {
	n, start := p.Network, make(schedule, len(p.Network))
	copy(p.open, p.waits)
	clear(p.placed)
	for _, use := range p.use {
		clear(use)
	}
	p.ready = p.ready[:0]
	for j := range n {
		if !n[j].AtOnce && p.open[j] == 0 {
			p.ready.push(key[j], j)
		}
	}
	for len(p.ready) > 0 {
		pick := p.ready.pop()
		t := p.earliest(start, pick)
		for j := pick; j >= 0; j = p.next[j] {
			start[j], p.placed[j] = t, true
			for r, need := range n[j].Need {
				if need > 0 {
					for k := t; k < t+n[j].Minutes; k++ {
						p.use[r][k] += need
					}
				}
			}
			t += n[j].Minutes
			for _, k := range p.after[j] {
				if f := p.first[k]; f != pick {
					if p.open[f]--; p.open[f] == 0 {
						p.ready.push(key[f], f)
					}
				}
			}
		}
	}
	return start
}

// earliest is when a train can start, as early as all its predecessors and the resources let it.
func (p *planner) earliest(start schedule, pick int) int {
	n, t, before := p.Network, 0, 0
	for j := pick; j >= 0; j = p.next[j] {
		for _, a := range n[j].After {
			if p.placed[a] {
				t = max(t, start[a]+n[a].Minutes-before)
			}
		}
		before += n[j].Minutes
	}
	for j, at := pick, t; j >= 0; {
		later := p.fits(j, at)
		if later == at {
			at += n[j].Minutes
			j = p.next[j]
			continue
		}
		t += later - at
		j, at = pick, t
	}
	return t
}

// fits is the next minute at which a job may fit; t itself if it does.
func (p *planner) fits(j, t int) int {
	for k := t + p.Network[j].Minutes - 1; k >= t; k-- {
		for r, need := range p.Network[j].Need {
			if need > 0 && p.use[r][k]+need > p.have[r] {
				return k + 1
			}
		}
	}
	return t
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
