// Package hook is the statics of hanging: what a hook on a wall can hold on to, where it then carries, and where a work
// that hangs on it comes to rest. A work is in equilibrium with its weight's middle below its hook, or below the middle
// between two; a wire slides on its hooks until that is so. Whatever else a scene asks for, this decides.
//
// Lengths are metres, heights above the ground, places across a wall from its left end as you face it.
package hook

import "boothmock/internal/plan/booth"

// Hang brings a work from where the scene puts it to where hooks let it hang on its wall; slack is how far a work may
// hang from its height, and two rings from the chains that hold them, before that counts. Where no hook holds it, it
// stays where it is, and Unheld says why.
func Hang(h *booth.Hung, w *booth.Wall, f booth.Fixing, hooks booth.Hooks, slack float64) {
	h.Moved, h.Raised, h.Hooks, h.Unheld = 0, 0, nil, ""
	middle := (h.X0 + h.X1) / 2
	at, across, ok := places(w, f, h.X1-h.X0, slack, middle)
	switch {
	case !ok:
		h.Unheld = booth.NoPlace
		return
	case max(-across[0], across[len(across)-1]-w.Width) > hair:
		h.Unheld = booth.PastEnd
		return
	}
	asks := h.Y1 - f.Drop + Wire(f, across).Sag()
	g := reach(w, hooks, slack, asks)
	h.Moved, h.Raised = at-middle, g.at-asks
	h.X0, h.X1, h.Y0, h.Y1 = h.X0+h.Moved, h.X1+h.Moved, h.Y0+h.Raised, h.Y1+h.Raised
	for _, x := range across {
		h.Hooks = append(h.Hooks, booth.Hook{X: x, Y: g.at, Grip: g.y, Loop: g.loop})
	}
}

// Wire is the wire of a work over hooks at these places across the wall; the zero wire, which does not sag, where it has
// none.
func Wire(f booth.Fixing, across []float64) Taut {
	if f.By != booth.Wire {
		return Taut{}
	}
	t := Taut{Spacing: f.Spacing, Length: f.Wire}
	if len(across) == 2 {
		t.Apart = across[1] - across[0]
	}
	return t
}
