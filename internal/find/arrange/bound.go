package arrange

import (
	"math"

	"boothmock/internal/basis/sight"
	"boothmock/internal/plan/booth"
)

// bound is a score that no arrangement exceeds, found by letting works lie upon each other for a price.
//
// Each cell of a row gets a price. An arrangement's works lie apart, so the prices of the cells that they cover add up to
// at most those of all cells; hence its score is at most all prices, plus, work by work, the most that it could see from
// any place in any row less the prices of that place (Lagrangian relaxation, as in Fisher, Management Science 27(1), 1981).
// That holds for any prices that are not negative; the steps below look for those that give the least. To be safe between
// cells, what is seen is counted over every cell that a work might touch, and the price only of cells that it surely covers.
// That works hide each other only makes less be seen.
func (h *Hall) bound(reached float64) float64 {
	t := h.auction()
	least, step := math.Inf(1), 1.0
	stale := 0
	for range 400 {
		total := t.round(h)
		if total < least-1e-9 {
			least, stale = total, 0
		} else if stale++; stale == 12 {
			step, stale = step/2, 0
		}
		norm := 0.0
		for r := range t.used {
			for k, u := range t.used[r] {
				if d := u - 1; d > 0 || t.price[r][k] > 0 {
					norm += d * d
				}
			}
		}
		if norm == 0 || total <= reached+1e-9 {
			break
		}
		by := step * (total - reached) / norm
		for r := range t.price {
			for k, u := range t.used[r] {
				t.price[r][k] = max(0, t.price[r][k]+by*(u-1))
			}
		}
	}
	return least
}

// auction is what pieces pay for the cells of rows.
type auction struct {
	price [][]float64 // by row and cell
	sums  [][]float64 // of prices of the cells before each
	used  [][]float64 // by row and cell: pieces that took it in the last round
	gap   float64     // metres that neighbours are apart at least
	may   [][][]worth // by piece and row; none where it may not hang, and none of one that waits
	fixed float64     // what is seen of works that no row placed
}

func (h *Hall) auction() *auction {
	t := &auction{price: make([][]float64, len(h.rows)), sums: make([][]float64, len(h.rows)), used: make([][]float64, len(h.rows))}
	var g sight.Gaze
	still := make([][]sight.Solid, len(h.solids))
	for i := range still {
		if !h.moving[i] {
			still[i] = h.solids[i]
		}
	}
	for _, i := range h.others {
		w := h.plan.Parts[i].Work
		t.fixed += h.seen(&g, i, w.Face, still, wallOf(w)) * w.Matters
	}
	for r := range t.price {
		n := int(math.Ceil(h.span[r]/cellWidth)) + 1
		t.price[r], t.sums[r], t.used[r] = make([]float64, n), make([]float64, n+1), make([]float64, n)
	}
	if h.allowed.length < hair { // neighbours are at least so far apart, if the rows keep to that now
		t.gap = math.Inf(1)
		for r, row := range h.rows {
			g := row.Least
			if row.Gap >= 0 {
				g = row.Gap
			}
			if h.walls[r].Wall.Hold == booth.Chains { // which may bring them as near as that
				g = min(g, h.usual)
			}
			t.gap = min(t.gap, g)
		}
	}
	t.may = make([][][]worth, len(h.pieces))
	for i, p := range h.pieces {
		t.may[i] = make([][]worth, len(h.rows))
		for r := range h.rows {
			if p.row < len(h.rows) && (!p.pinned || p.row == r) && h.mayHang(i, r) {
				t.may[i][r] = h.worths(i, r)
			}
		}
	}
	return t
}

// round lets every piece take the place that is worth most to it at these prices, and is what no arrangement exceeds.
func (t *auction) round(h *Hall) float64 {
	total := t.fixed
	for r := range t.price {
		for k, p := range t.price[r] {
			t.sums[r][k+1] = t.sums[r][k] + p
			t.used[r][k] = 0
		}
		total += t.sums[r][len(t.price[r])]
	}
	for i := range h.pieces {
		most, row, from, to := 0.0, -1, 0, 0
		for r, all := range t.may[i] {
			if v, a, b, ok := dearest(all, h.pieces[i].width, t.gap, t.sums[r]); ok && (row < 0 || v > most) {
				most, row, from, to = v, r, a, b
			}
		}
		if row < 0 {
			continue
		}
		total += most
		for k := from; k < to; k++ {
			t.used[row][k]++
		}
	}
	return total
}

// mayHang is whether a piece can hang in a row at all without breaking more than is broken now.
func (h *Hall) mayHang(i, r int) bool {
	least := make([]float64, len(h.pieces[i].members))
	for n := range least {
		least[n] = math.Inf(1)
	}
	h.heights(r, i, func(n int, y float64) {
		m := h.pieces[i].members[n]
		least[n] = min(least[n], high(h.walls[r].Wall, y-m.h/2, y+m.h/2))
	})
	over := 0.0
	for _, o := range least {
		over += o
	}
	return over <= h.allowed.length+hair
}

// worth is what is seen of a piece in a row, at most, while its left edge is between two places along the wall.
type worth struct{ from, to, most float64 }

// worths cover all places that a piece can have in a row. On chains those are few, and works are known to lie apart there if
// nothing is too near now; elsewhere, and where the row would have the piece, they are looked at cell by cell.
func (h *Hall) worths(i, r int) (all []worth) {
	p := &h.pieces[i]
	low, high := h.reach(i, r)
	if h.walls[r].Wall.Hold == booth.Chains && h.allowed.length < hair {
		last := math.Inf(-1)
		h.sample(r, i, func(at []place) {
			if x := at[0].x - p.members[0].off; x != last {
				last = x
				all = append(all, worth{last - p.width/2, last - p.width/2, h.most(r, i, at, at)})
			}
		})
		return all
	}
	var from, to []place
	for k := int(math.Floor(low / cellWidth)); float64(k)*cellWidth <= high+hair; k++ {
		x0, x1 := float64(k)*cellWidth, float64(k+1)*cellWidth
		from, to = h.hang(from[:0], r, i, x0+p.width/2), h.hang(to[:0], r, i, x1+p.width/2)
		all = append(all, worth{x0, x1, h.most(r, i, from, to)})
	}
	return all
}

// most is no less than what is seen of a piece in a row while its works hang between two places each.
func (h *Hall) most(r, i int, from, to []place) (sum float64) {
	for n, m := range h.pieces[i].members {
		most := 0.0
		for _, g := range h.of[r][i][n] {
			s := &h.ground[g]
			end := len(s.sum) - 1
			a := max(0, min(int(math.Floor((from[n].x-m.fw/2)/cellWidth+1e-9)), end))
			b := max(0, min(int(math.Ceil((to[n].x+m.fw/2)/cellWidth-1e-9)), end))
			most = max(most, s.sum[b]-s.sum[a])
		}
		sum += m.matters * most
	}
	return sum
}

// dearest is the best place of a piece as wide as that: the most that it is worth less the prices there, and the cells that
// it covers.
func dearest(all []worth, width, gap float64, sums []float64) (most float64, from, to int, ok bool) {
	last := len(sums) - 1
	clip := func(k int) int { return max(0, min(k, last)) }
	for _, w := range all {
		a := clip(int(math.Ceil((w.to-gap/2)/cellWidth - 1e-9)))
		b := max(a, clip(int(math.Floor((w.from+width+gap/2)/cellWidth+1e-9))))
		if v := w.most - (sums[b] - sums[a]); !ok || v > most {
			most, from, to, ok = v, a, b, true
		}
	}
	return most, from, to, ok
}
