package arrange

import (
	"cmp"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
)

const (
	starts  = 4      // searches, each with its own chance
	perWork = 6_000  // steps of each search for each work
	most    = 80_000 // of them
	exactly = 1.5    // exchanges for each work that are looked at exactly, at most, of those that the survey thinks best
)

// search looks for good arrangements by what the survey says, from the present one: changes that make things worse are
// taken too, ever more rarely (simulated annealing, Kirkpatrick, Gelatt and Vecchi 1983). It returns the best of each start,
// and counts the works that were hung and compared.
func (h *Hall) search(now layout, t taste, starts int) (found []layout, work int) {
	found = make([]layout, starts)
	works := make([]int, starts)
	each(starts, func(i int) { found[i], works[i] = h.anneal(now, t, rand.New(rand.NewPCG(uint64(i), 1))) })
	for _, w := range works {
		work += w
	}
	return found, work
}

func (h *Hall) anneal(now layout, t taste, r *rand.Rand) (best layout, work int) {
	cur, next := h.begin(now), h.begin(now)
	var f faults
	value := func(a *attempt) float64 {
		f = a.faults()
		return a.seen() + t.worth(a) - f.fine(h.allowed)
	}
	v := value(cur)
	best, bestV := now.clone(), v
	hot := 0.02 * max(cur.seen(), 1e-6)
	steps := min(most, perWork*len(h.pieces))
	for k := range steps {
		changed, ok := h.move(next.l, t.rests, r)
		if !ok {
			next.take(cur, changed)
			continue
		}
		next.fill(changed[0])
		if changed[1] != changed[0] {
			next.fill(changed[1])
		}
		heat := hot * float64(steps-k) / float64(steps)
		heat *= heat / hot // slower at the end, where it counts
		w := value(next)
		if w < v && r.Float64() >= math.Exp((w-v)/max(heat, 1e-12)) {
			next.take(cur, changed)
			continue
		}
		cur.take(next, changed)
		v = w
		if v > bestV+1e-12 && f.within(h.allowed) {
			best.copy(cur.l)
			bestV = v
		}
	}
	return best, cur.work + next.work
}

// move makes a change by chance: two works change places, some neighbours move elsewhere, or turn round; if works may rest,
// from and to those that wait, too. It says which rows it changed, and false where nothing changes or a work that must stay
// would not.
func (h *Hall) move(l layout, rests bool, r *rand.Rand) (changed [2]int, ok bool) {
	rows := len(h.rows)
	if rests {
		rows++
	}
	a := r.IntN(rows)
	changed = [2]int{a, a}
	if len(l[a]) == 0 {
		return changed, false
	}
	i := r.IntN(len(l[a]))
	switch r.IntN(4) {
	case 0, 1:
		b := r.IntN(rows)
		if len(l[b]) == 0 {
			return changed, false
		}
		j := r.IntN(len(l[b]))
		changed[1] = b
		if a == b && i == j {
			return changed, false
		}
		l[a][i], l[b][j] = l[b][j], l[a][i]
	case 2:
		n := min(1+r.IntN(3), len(l[a])-i)
		b := r.IntN(rows)
		if b != a && n == len(l[a]) && a < len(h.rows) { // a row keeps at least one work
			return changed, false
		}
		changed[1] = b
		var some [3]int
		copy(some[:], l[a][i:i+n])
		l[a] = slices.Delete(l[a], i, i+n)
		l[b] = slices.Insert(l[b], r.IntN(len(l[b])+1), some[:n]...)
	default:
		j := min(i+1+r.IntN(4), len(l[a]))
		if j == i+1 {
			return changed, false
		}
		slices.Reverse(l[a][i:j])
	}
	return changed, h.pinnedStay(l)
}

// polish tries exchanges of two works, exactly, as long as one is better: those that the survey thinks best. looked is how many.
func (h *Hall) polish(l layout, score float64) (better layout, reached float64, looked int) {
	type spot struct{ row, at int }
	for range 3 {
		var spots []spot
		for r := range h.rows {
			for k := range l[r] {
				spots = append(spots, spot{r, k})
			}
		}
		now, t := h.begin(l), h.begin(l)
		thought := now.seen()
		type try struct {
			layout
			thought float64
		}
		var tries []try
		for i, a := range spots {
			for _, b := range spots[:i] {
				t.l[a.row][a.at], t.l[b.row][b.at] = t.l[b.row][b.at], t.l[a.row][a.at]
				t.fill(a.row)
				t.fill(b.row)
				if seen := t.seen(); h.pinnedStay(t.l) && seen > 0.995*thought && t.faults().within(h.allowed) {
					tries = append(tries, try{t.l.clone(), seen})
				}
				t.take(now, [2]int{a.row, b.row})
			}
		}
		slices.SortStableFunc(tries, func(a, b try) int { return cmp.Compare(b.thought, a.thought) })
		tries = tries[:min(len(tries), int(exactly*float64(len(spots))))]
		looked += len(tries)
		scores := make([]float64, len(tries))
		each(len(tries), func(i int) { scores[i] = h.exact(tries[i].layout) })
		best := -1
		for i, s := range scores {
			if s > score+1e-9 {
				best, score = i, s
			}
		}
		if best < 0 {
			break
		}
		l = tries[best].layout
	}
	return l, score, looked
}

// each runs f for every number below n, on all processors.
func each(n int, f func(i int)) {
	work := make(chan int, n)
	for i := range n {
		work <- i
	}
	close(work)
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for i := range work {
				f(i)
			}
		})
	}
	wg.Wait()
}
