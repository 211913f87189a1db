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
	"slices"

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
	Work   int           // works that it hung and pairs of them that it compared
	Looked int           // arrangements of which it was worked out exactly what is seen
	Others [][]booth.Row // further arrangements that score more than the plan as it is, the best first
}

// Most is how many works a booth may have for an arrangement to be sought in a minute or two: exchanges of two works are tried
// for every two, each past all others.
const Most = 100

// Of makes a booth ready for the search. The spares are works that wait, and hang in the plan's rows only so that their
// measures are known.
func Of(plan *booth.Plan, spares ...booth.ID) *Hall {
	h := newHall(plan, spares...)
	if h.arrangeable() {
		h.allowed = h.broken(h.present())
		h.survey()
	}
	return h
}

// arrangeable is whether there is anything to move, and anybody to see it.
func (h *Hall) arrangeable() bool { return len(h.pieces) > 0 && len(h.eyes) > 0 }

// Propose seeks a better arrangement of the works that hang. If none is found, the rows stay as they are.
func Propose(plan *booth.Plan) Proposal { return Of(plan).Propose() }

// Propose seeks a better arrangement of the works that hang. If none is found, the rows stay as they are.
func (h *Hall) Propose() Proposal {
	now := h.present()
	p := Proposal{Rows: h.named(now), Views: h.viewNames(), Before: h.exact(now)}
	p.After = p.Before
	if !h.arrangeable() {
		p.Bound = p.Before
		return p
	}
	best, score := now, p.Before
	type scored struct {
		layout
		score float64
	}
	var found []scored
	layouts, work := h.search(now, asItIs, starts)
	for _, l := range layouts {
		s := h.exact(l)
		if s > p.Before+1e-9 {
			found = append(found, scored{l, s})
		}
		if s > score+1e-9 {
			best, score = l, s
		}
	}
	p.Work = work
	p.Tried = starts * min(most, perWork*len(h.pieces))
	slices.SortStableFunc(found, func(a, b scored) int { return cmp.Compare(b.score, a.score) })
	best, score, p.Looked = h.polish(best, score)
	p.Looked += 1 + starts
	p.After = score
	p.Bound = max(score, h.bound(score))
	p.Rows = h.named(best)
	for _, f := range found {
		p.Others = append(p.Others, h.named(f.layout))
	}
	return p
}

// named are the plan's rows with the works of a layout.
func (h *Hall) named(l layout) []booth.Row {
	rows := slices.Clone(h.plan.Rows)
	for r := range rows { // those that wait are in none
		rows[r].Works = nil
		for _, i := range l[r] {
			rows[r].Works = append(rows[r].Works, h.plan.Parts[h.pieces[i].part].ID)
		}
	}
	return rows
}
