// Package arrange seeks which work hangs where so that visitors see most: the sum over works of what each matters times the
// solid angle that is seen of it, from the entrance and from the aisle, exact by package sight. It moves works among the
// rows that the scene has and keeps the house rules; pinned works, and works that no row placed, stay. It also says what no
// arrangement at all could exceed. The search is simulated annealing (Kirkpatrick, Gelatt and Vecchi, Science 220, 1983) and the
// bound a Lagrangian relaxation (Fisher, Management Science 27(1), 1981).
//
// The same booth gives the same proposal on every machine: chance comes from fixed numbers, and the work is counted in
// steps, never in time.
package arrange

import (
	"cmp"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"

	"boothmock/internal/plan/booth"
)

// Proposal is an arrangement of the works in rows.
type Proposal struct {
	Rows   []booth.Row   // as the plan's, with their works changed
	Before float64       // score of the plan as it is, in steradians: see Score
	After  float64       // score of the proposal
	Bound  float64       // no arrangement that keeps the rules scores more
	Views  []string      // the views that count, equally
	Tried  int           // arrangements that the search looked at
	Others [][]booth.Row // further arrangements that score more than the plan as it is, the best first
}

// Most is how many works a booth may have for an arrangement to be sought in a minute or two: exchanges of two works are tried
// for every two, each past all others.
const Most = 100

// Propose seeks a better arrangement. If none is found, the rows stay as they are.
func Propose(plan *booth.Plan) Proposal {
	h := newHall(plan)
	p := Proposal{Rows: slices.Clone(plan.Rows), Views: h.viewNames()}
	now := h.present()
	p.Before = h.exact(now)
	p.After = p.Before
	if len(h.pieces) == 0 || len(h.eyes) == 0 {
		p.Bound = p.Before
		return p
	}
	h.allowed = h.broken(now)
	h.survey()
	best, score := now, p.Before
	type scored struct {
		layout
		score float64
	}
	var found []scored
	for _, l := range h.search(now) {
		s := h.exact(l)
		if s > p.Before+1e-9 {
			found = append(found, scored{l, s})
		}
		if s > score+1e-9 {
			best, score = l, s
		}
	}
	p.Tried = starts * min(most, perWork*len(h.pieces))
	slices.SortStableFunc(found, func(a, b scored) int { return cmp.Compare(b.score, a.score) })
	best, score = h.polish(best, score)
	p.After = score
	p.Bound = max(score, h.bound(score))
	p.Rows = h.named(best)
	for _, f := range found {
		p.Others = append(p.Others, h.named(f.layout))
	}
	return p
}

// named are the plan's rows with the works of a layout.
func (h *hall) named(l layout) []booth.Row {
	rows := slices.Clone(h.plan.Rows)
	for r := range rows {
		rows[r].Works = nil
		for _, i := range l[r] {
			rows[r].Works = append(rows[r].Works, h.plan.Parts[h.pieces[i].part].ID)
		}
	}
	return rows
}

const (
	starts  = 6       // searches, each with its own chance
	perWork = 8_000   // steps of each search for each work
	most    = 120_000 // of them
)

// search looks for good arrangements by what the survey says, from the present one: changes that make things worse are
// taken too, ever more rarely (simulated annealing, Kirkpatrick, Gelatt and Vecchi 1983). It returns the best of each start.
func (h *hall) search(now layout) []layout {
	found := make([]layout, starts)
	each(starts, func(i int) { found[i] = h.anneal(now, rand.New(rand.NewPCG(uint64(i), 1))) })
	return found
}

func (h *hall) anneal(now layout, r *rand.Rand) layout {
	cur, next := now.clone(), now.clone()
	value := func(l layout) float64 { return h.estimate(l) - h.fine(l) }
	v := value(cur)
	best, bestV := cur.clone(), v
	hot := 0.02 * max(h.estimate(now), 1e-6)
	steps := min(most, perWork*len(h.pieces))
	for k := range steps {
		next.copy(cur)
		if !h.move(next, r) {
			continue
		}
		heat := hot * float64(steps-k) / float64(steps)
		heat *= heat / hot // slower at the end, where it counts
		if w := value(next); w >= v || r.Float64() < math.Exp((w-v)/max(heat, 1e-12)) {
			cur, next, v = next, cur, w
			if v > bestV+1e-12 && h.keeps(cur) {
				best.copy(cur)
				bestV = v
			}
		}
	}
	return best
}

// move makes a change by chance: two works change places, some neighbours move elsewhere, or turn round. It reports false
// where that would move a pinned work.
func (h *hall) move(l layout, r *rand.Rand) bool {
	a := r.IntN(len(l))
	if len(l[a]) == 0 {
		return false
	}
	i := r.IntN(len(l[a]))
	switch r.IntN(4) {
	case 0, 1:
		b := r.IntN(len(l))
		if len(l[b]) == 0 {
			return false
		}
		j := r.IntN(len(l[b]))
		l[a][i], l[b][j] = l[b][j], l[a][i]
	case 2:
		n := min(1+r.IntN(3), len(l[a])-i)
		b := r.IntN(len(l))
		if b != a && n == len(l[a]) { // a row keeps at least one work
			return false
		}
		some := slices.Clone(l[a][i : i+n])
		l[a] = slices.Delete(l[a], i, i+n)
		l[b] = slices.Insert(l[b], r.IntN(len(l[b])+1), some...)
	default:
		j := i + 1 + r.IntN(4)
		slices.Reverse(l[a][i:min(j, len(l[a]))])
	}
	return h.pinnedStay(l)
}

// polish tries every exchange of two works, exactly, as long as one is better; exchanges that the survey thinks poor are
// passed over.
func (h *hall) polish(l layout, score float64) (layout, float64) {
	type spot struct{ row, at int }
	for range 3 {
		var spots []spot
		for r := range l {
			for k := range l[r] {
				spots = append(spots, spot{r, k})
			}
		}
		thought := h.estimate(l)
		var tries []layout
		for i, a := range spots {
			for _, b := range spots[:i] {
				t := l.clone()
				t[a.row][a.at], t[b.row][b.at] = t[b.row][b.at], t[a.row][a.at]
				if h.pinnedStay(t) && h.keeps(t) && h.estimate(t) > 0.995*thought {
					tries = append(tries, t)
				}
			}
		}
		scores := make([]float64, len(tries))
		each(len(tries), func(i int) { scores[i] = h.exact(tries[i]) })
		better := -1
		for i, s := range scores {
			if s > score+1e-9 {
				better, score = i, s
			}
		}
		if better < 0 {
			break
		}
		l = tries[better]
	}
	return l, score
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
