package arrange

import (
	"math"

	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/hook"
	"boothmock/internal/plan/rules"
)

// place is where a work of a piece hangs on its row's wall.
type place struct {
	x, y float64 // metres: of its outline's middle
	held bool    // some hook holds it there
}

// settled is where the works of a piece hang in a row whose wall has hooks anywhere across: wherever the row has the
// piece's middle, as long as no hook is past an end of the wall.
type settled struct {
	lo, hi float64 // of the middle; nowhere on chains
	at     []place // from the middle
}

// settle works that out for every piece in every row.
func (h *Hall) settle() {
	h.settled = make([][]settled, len(h.rows))
	for r := range h.rows {
		h.settled[r] = make([]settled, len(h.pieces))
		for i := range h.pieces {
			h.settled[r][i] = h.anywhere(r, i)
		}
	}
}

func (h *Hall) anywhere(r, i int) settled {
	wall, nowhere := h.walls[r].Wall, settled{lo: math.Inf(1), hi: math.Inf(-1)}
	if wall.Hold == booth.Chains {
		return nowhere
	}
	middle := wall.Width / 2
	s := settled{lo: math.Inf(-1), hi: math.Inf(1)}
	for _, k := range h.hooked(r, i, middle) {
		if k.Unheld == booth.PastEnd {
			return nowhere
		}
		s.at = append(s.at, place{(k.X0+k.X1)/2 - middle, k.Centre(), k.Unheld == ""})
		if n := len(k.Hooks); n > 0 {
			s.lo = max(s.lo, middle-k.Hooks[0].X)
			s.hi = min(s.hi, middle-k.Hooks[n-1].X+wall.Width)
		}
	}
	return s
}

// hang adds to out where the works of a piece hang in a row that has the piece's middle at x: its own work first.
func (h *Hall) hang(out []place, r, i int, x float64) []place {
	if s := &h.settled[r][i]; x >= s.lo && x <= s.hi {
		for _, p := range s.at {
			p.x += x
			out = append(out, p)
		}
		return out
	}
	for _, k := range h.hooked(r, i, x) {
		out = append(out, place{(k.X0 + k.X1) / 2, k.Centre(), k.Unheld == ""})
	}
	return out
}

// hooked are the works of a piece in a row as hooks hold them, if the row has the piece's middle at x.
func (h *Hall) hooked(r, i int, x float64) []booth.Hung {
	p, slack := &h.pieces[i], rules.LevelSlack.In(h.plan.Rules)
	out := make([]booth.Hung, len(p.members))
	for n, m := range p.members {
		middle, top := x+m.off, h.rows[r].Centre+m.rise+m.h/2
		if m.under >= 0 {
			u := out[m.under]
			middle, top = (u.X0+u.X1)/2+m.off, u.Y0-m.gap
		}
		k := booth.Hung{X0: middle - m.w/2, X1: middle + m.w/2, Y0: top - m.h, Y1: top}
		hook.Hang(&k, h.walls[r].Wall, m.fixing, h.plan.Hooks, slack)
		out[n] = k
	}
	return out
}
