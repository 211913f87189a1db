package arrange

import (
	"slices"

	"boothmock/internal/plan/booth"
)

// taste is what a manner of hanging wants besides that much is seen.
type taste struct {
	name, doc string
	spares    bool                   // it needs works that wait
	rests     bool                   // works may come off the walls, and spares may hang
	worth     func(*attempt) float64 // steradians that it adds to the score
}

// calmShare is how much of a row a calm hang covers with works: about as much wall is left as is hung, so each work stands by
// itself; common practice, no source.
const calmShare = 0.55

// calmPart is how much of what hangs now a calm hang keeps on the walls, by width.
const calmPart = 2. / 3

// asItIs wants nothing more.
var asItIs = taste{worth: func(*attempt) float64 { return 0 }}

// tastes are the manners of hanging that are proposed beside the best. Their weights are tuned on the demo and on booths of 24
// and 30 works: what a manner is about outweighs what is seen, and no rule is worth breaking for it.
var tastes = []taste{
	{"calm", "fewer works with wide gaps, alike ones left and right of the middle; the others wait", false, true, func(a *attempt) (sum float64) {
		total := 0.0
		for r := range a.rows {
			f := &a.rows[r]
			total += f.covered
			if len(a.l[r]) > 1 {
				sum -= 2 * max(0, f.covered-calmShare*a.h.rows[r].Room)
			}
			sum -= 0.05*f.askew + 0.03*f.uneven
		}
		return sum - 2*max(0, total-calmPart*a.h.covered)
	}},
	{"full", "as many works as the walls take, those that wait too", true, true, func(a *attempt) (sum float64) {
		for r := range a.rows {
			sum += 0.05*float64(len(a.l[r])) - 0.05*a.rows[r].askew - 0.03*a.rows[r].uneven
		}
		for _, i := range a.l[len(a.rows)] {
			if a.h.pieces[i].row < len(a.rows) { // it hangs now, and smaller ones in its place would only be more
				sum--
			}
		}
		return sum
	}},
	{"family", "works of one family side by side; of one medium, where no work states a family", false, false, func(a *attempt) float64 {
		return -0.2 * float64(a.split(func(p *piece) int { return p.kin }))
	}},
}

// Way is a manner of hanging, and the works in rows that it comes to.
type Way struct {
	Name, Doc string
	Rows      []booth.Row // nil: no work waits that could hang too
}

// Ways hangs the works in manners that differ truly, each so that as much as can be is seen: calm, full and by family. None
// of them breaks the house rules more than the works do now. Where no work waits, the walls are as full as can be.
func (h *Hall) Ways() (ways []Way, work int) {
	if !h.arrangeable() {
		return nil, 0
	}
	now := h.present()
	for _, t := range tastes {
		if t.spares && len(now[len(h.rows)]) == 0 {
			ways = append(ways, Way{t.name, t.doc, nil})
			continue
		}
		value := func(l layout) float64 {
			a := h.begin(l)
			return a.seen() + t.worth(a)
		}
		found, n := h.search(now, t, 2)
		work += n
		best := slices.MaxFunc(found, func(a, b layout) int {
			if value(a) < value(b) {
				return -1
			}
			return 1
		})
		ways = append(ways, Way{t.name, t.doc, h.named(best)})
	}
	return ways, work
}
