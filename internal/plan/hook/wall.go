package hook

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"boothmock/internal/plan/booth"
)

// OnWall are the works that hang on a wall in the order in which people count them: from the left, and of those one above the other the
// upper one first.
func OnWall(p *booth.Plan, wall booth.ID) []*booth.Part {
	var out []*booth.Part
	for i := range p.Parts {
		if k := &p.Parts[i]; k.Work != nil && k.Work.Hung != nil && k.Work.Hung.Wall == wall {
			out = append(out, k)
		}
	}
	slices.SortStableFunc(out, func(a, b *booth.Part) int {
		across := func(h *booth.Hung) float64 { return math.Round((h.X0 + h.X1) * 100) } // within half a centimetre: one above the other
		return cmp.Or(cmp.Compare(across(a.Work.Hung), across(b.Work.Hung)), cmp.Compare(b.Work.Hung.Y1, a.Work.Hung.Y1))
	})
	return out
}

// FromTop is what of its wall a hook that holds on at a height has, counted from the top, the topmost being 1: "wire 7". It is empty
// where a hook can be at any height.
func FromTop(w *booth.Wall, grip float64) string {
	step := Step(w)
	whole := func(m float64) int { return int(math.Floor(m/step + 0.5)) }
	switch w.Hold {
	case booth.Mesh: // its wires begin at its foot
		last := int(math.Floor((w.Top-w.Bottom)/step + hair))
		return fmt.Sprintf("wire %d", last-whole(grip-w.Bottom)+1)
	case booth.Chains:
		return fmt.Sprintf("link %d", whole(w.Top-grip)+1)
	}
	return ""
}
