package arrange

import (
	"math"

	"boothmock/internal/sight"
)

// bound is a score that no arrangement exceeds, found by letting works lie upon each other for a price.
//
// Each cell of a row gets a price. An arrangement's works lie apart, so the prices of the cells that they cover add up to
// at most those of all cells; hence its score is at most all prices, plus, work by work, the most that it could see from
// any place in any row less the prices of that place (Lagrangian relaxation, as in Fisher, Management Science 27(1), 1981).
// That holds for any prices that are not negative; the steps below look for those that give the least. To be safe between
// cells, what is seen is counted over every cell that a work might touch, and the price only of cells that it surely covers.
// That works hide each other only makes less be seen.
func (h *hall) bound(reached float64) float64 {
	fixed := 0.0
	var g sight.Gaze
	still := make([][]sight.Solid, len(h.solids))
	for i := range still {
		if !h.moving[i] {
			still[i] = h.solids[i]
		}
	}
	for _, i := range h.others {
		w := h.plan.Parts[i].Work
		fixed += h.seen(&g, i, w.Face, still, wallOf(w)) * w.Matters
	}

	price := make([][]float64, len(h.rows)) // by row and cell
	sums := make([][]float64, len(h.rows))
	used := make([][]float64, len(h.rows))
	for r := range price {
		n := int(math.Ceil(h.span[r]/cellWidth)) + 1
		price[r], sums[r], used[r] = make([]float64, n), make([]float64, n+1), make([]float64, n)
	}
	gap := 0.0 // neighbours are at least so far apart, if the rows keep to that now
	if h.allowed.length < hair {
		gap = math.Inf(1)
		for _, row := range h.rows {
			g := row.Least
			if row.Gap >= 0 {
				g = row.Gap
			}
			gap = min(gap, g)
		}
	}
	least, step := math.Inf(1), 1.0
	stale := 0
	for range 400 {
		total := fixed
		for r := range price {
			for k, p := range price[r] {
				sums[r][k+1] = sums[r][k] + p
				used[r][k] = 0
			}
			total += sums[r][len(price[r])]
		}
		for i := range h.pieces {
			most, row, from, to := 0.0, -1, 0, 0
			for r := range h.rows {
				if h.pieces[i].pinned && h.pieces[i].row != r || !h.mayHang(i, r) {
					continue
				}
				if v, a, b, ok := h.dearest(i, r, gap, sums[r]); ok && (row < 0 || v > most) {
					most, row, from, to = v, r, a, b
				}
			}
			if row < 0 {
				continue
			}
			total += most
			for k := from; k < to; k++ {
				used[row][k]++
			}
		}
		if total < least-1e-9 {
			least, stale = total, 0
		} else if stale++; stale == 12 {
			step, stale = step/2, 0
		}
		norm := 0.0
		for r := range used {
			for k, u := range used[r] {
				if d := u - 1; d > 0 || price[r][k] > 0 {
					norm += d * d
				}
			}
		}
		if norm == 0 || total <= reached+1e-9 {
			break
		}
		t := step * (total - reached) / norm
		for r := range price {
			for k, u := range used[r] {
				price[r][k] = max(0, price[r][k]+t*(u-1))
			}
		}
	}
	return least
}

// mayHang is whether a piece can hang in a row at all without breaking more than is broken now.
func (h *hall) mayHang(i, r int) bool {
	over := 0.0
	for _, m := range h.pieces[i].members {
		y0, y1 := h.rows[r].Centre-m.drop-m.h/2, h.rows[r].Centre-m.drop+m.h/2
		over += max(0, y1-h.walls[r].Wall.Top) + max(0, -y0) + max(0, h.walls[r].Wall.Bottom-y1)
	}
	return over <= h.allowed.length+hair
}

// dearest is the best place of a piece in a row: the most that it sees less the prices there, and the cells that it covers.
func (h *hall) dearest(i, r int, gap float64, sums []float64) (most float64, from, to int, ok bool) {
	p := &h.pieces[i]
	row := h.rows[r]
	low := row.Left - h.allowed.length
	high := row.Left + row.Room + h.allowed.length - p.width
	last := len(sums) - 1
	clip := func(k int) int { return max(0, min(k, last)) }
	for k := int(math.Floor(low / cellWidth)); float64(k)*cellWidth <= high+hair; k++ {
		x0, x1 := float64(k)*cellWidth, float64(k+1)*cellWidth
		v := 0.0
		for n, m := range p.members {
			s := &h.ground[h.of[r][i][n]]
			end := len(s.sum) - 1
			a := max(0, min(int(math.Floor((x0+(p.width-m.fw)/2)/cellWidth+1e-9)), end))
			b := max(0, min(int(math.Ceil((x1+(p.width+m.fw)/2)/cellWidth-1e-9)), end))
			v += m.matters * (s.sum[b] - s.sum[a])
		}
		a := clip(int(math.Ceil((x1-gap/2)/cellWidth - 1e-9)))
		b := max(a, clip(int(math.Floor((x0+p.width+gap/2)/cellWidth+1e-9))))
		if v -= sums[b] - sums[a]; !ok || v > most {
			most, from, to, ok = v, a, b, true
		}
	}
	return most, from, to, ok
}
